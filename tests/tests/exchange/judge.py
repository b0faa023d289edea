"""A second writing of the format, from its documentation, by other libraries (cbor2, cryptography).

    judge.py golden FOLDER  builds the sample messages and compares them with the golden files
    judge.py make FOLDER    writes them, where a new kind has none yet
    judge.py read           reads texts of codes from standard input, verifies each, prints one JSON line for each
"""

import datetime
import hashlib
import json
import pathlib
import sys

import cbor2
from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives import hashes, hmac, serialization
from cryptography.hazmat.primitives.asymmetric import ed25519, x25519
from cryptography.hazmat.primitives.ciphers.aead import ChaCha20Poly1305

MARK = "HD1"
ALPHABET = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:"
SECRET = bytes.fromhex("9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60")


def base45(data):
    out = ""
    for at in range(0, len(data), 2):
        pair = data[at:at + 2]
        value = int.from_bytes(pair, "big")
        for _ in range(len(pair) + 1):
            out += ALPHABET[value % 45]
            value //= 45
    return out


def unbase45(text):
    out = b""
    for at in range(0, len(text), 3):
        group = text[at:at + 3]
        value = sum(ALPHABET.index(letter) * 45 ** place for place, letter in enumerate(group))
        out += value.to_bytes(len(group) - 1, "big")
    return out


def raw(key):
    return key.public_bytes(serialization.Encoding.Raw, serialization.PublicFormat.Raw)


def key_id(public):
    return hashlib.sha256(public).digest()[:4]


def canonical(value):
    return cbor2.dumps(value, canonical=True)


def to_be_signed(protected, payload):
    return canonical(["Signature1", protected, MARK.encode(), payload])


def signed(kind, body):
    secret = ed25519.Ed25519PrivateKey.from_private_bytes(SECRET)
    public = raw(secret.public_key())
    payload = canonical([kind, public, body])
    protected = canonical({1: -8, 4: key_id(public)})
    signature = secret.sign(to_be_signed(protected, payload))
    return canonical(cbor2.CBORTag(18, [protected, {}, payload, signature]))


def minutes(text):
    return int(datetime.datetime.fromisoformat(text).timestamp()) // 60


MADE = minutes("2031-04-05T08:20:00-05:00")


def person(number):
    kind = number % 4
    return [
        48271 * (number + 1) % 65536,
        None,
        # 18 years or more; 187 months; 41 months; 72 days
        [True, -187, -41, 72][kind],
        # 168 lb alone; 58.5 kg at a clinic; 500 ounces together; 179 ounces at a site; three days before
        [[0, 168, 3, 0], [5, 585, 3, 3], [1, 500, 3, 1], [1, 179, 3, 2]][kind],
        # swallows tablets; a baby not born early
        [1, 1, 0, 2 * 2][kind],
        # no, -, -, no | no
        bytes([0b10_00_00_10, 0b10]),
        3,
        5,
        [],
        3,
        MADE - minutes("2031-04-04T20:05:00-05:00"),
        [0, 0],
        47,
    ]


ORDER = ["quillmere-doxy", 1, bytes.fromhex("3f2a90c117de")]


def household(people):
    return [
        bytes.fromhex("5e1190ab03c477d2"), 2, MADE, *ORDER, "en", 2,
        ["QD4471A"], [person(number) for number in range(people)],
    ]


def shortest():
    """One person of whom nothing is known, and no order."""
    nobody = [1, None, None, None, 0, b"", None, 4, [], None, None, None, None]
    made = minutes("2031-04-03T08:20:00-05:00")
    return [bytes.fromhex("0102030405060708"), 1, made, None, 0, b"", "en", 0, [], [nobody]]


def slip():
    return [
        bytes.fromhex("5e1190ab03c477d2"), 2, "Q7", minutes("2031-04-05T09:02:00-05:00"),
        *ORDER,
        [
            [48271, "doxycycline 100 mg tablets", "QD4471A", 20310228, 20, 0, 20310415,
             "usable until 28 February 2032 by notice 3"],
            [48271 * 4 % 65536, "doxycycline 25 mg / 5 mL", None, None, 1, 1, None, None],
        ],
    ]


def site_key():
    return [
        "Q7", "Quillmere school hall",
        bytes.fromhex("4310ee97d88cc1f088a5576c77ab0cf5c3ac797f3d95139c6c84b5429c59662a"),
        minutes("2031-04-02T07:00:00-05:00"), minutes("2031-06-30T23:59:00-05:00"),
    ]


def shift():
    def fact(number, event):
        return json.dumps({
            "id": f"00000000-0000-0007-0000-{number:012x}",
            "stamp": {
                "hlc": {"millis": 1933000000000, "counter": 0},
                "device": f"00000000-0000-0009-0000-{number:012x}",
                "sequence": number,
            },
            "at": "2031-04-05T14:00:00Z", "steady": None, "zone": "America/Chicago",
            "order": None, "event": event,
        }, separators=(",", ":"))
    packs = {"what": "packs-received", "product": "tablet-100", "lot": "QD4471A", "tablets": 480}
    device = bytes.fromhex("00000000000000090000000000000001")
    return [device, MADE, 12, [fact(1, packs), fact(2, {"what": "clock-moved", "seconds": -60})]]


def erasure():
    lines = "".join(line + "\n" for line in shift()[3])
    home = bytes.fromhex("5e1190ab03c477d2")
    return [home, MADE, 2, hashlib.sha256(lines.encode()).digest(), "the tablet goes back today"]


def hkdf_extract(salt, ikm):
    mac = hmac.HMAC(salt or bytes(32), hashes.SHA256())
    mac.update(ikm)
    return mac.finalize()


def hkdf_expand(prk, info, length):
    mac = hmac.HMAC(prk, hashes.SHA256())
    mac.update(info + b"\x01")
    return mac.finalize()[:length]


def sealed(message):
    """RFC 9180, base mode; the ephemeral key is that of its appendix A.2.1."""
    ephemeral = x25519.X25519PrivateKey.from_private_bytes(
        bytes.fromhex("f4ec9b33b792c372c1d2c2063507b684ef925b8c75a42dbcbf57d63ccd381600"))
    reader = bytes.fromhex("4310ee97d88cc1f088a5576c77ab0cf5c3ac797f3d95139c6c84b5429c59662a")
    shared = ephemeral.exchange(x25519.X25519PublicKey.from_public_bytes(reader))
    encapsulated = raw(ephemeral.public_key())

    def extract(suite, salt, label, ikm):
        return hkdf_extract(salt, b"HPKE-v1" + suite + label + ikm)

    def expand(suite, prk, label, info, length):
        return hkdf_expand(prk, length.to_bytes(2, "big") + b"HPKE-v1" + suite + label + info, length)

    kem = b"KEM" + (0x20).to_bytes(2, "big")
    secret = expand(kem, extract(kem, b"", b"eae_prk", shared), b"shared_secret", encapsulated + reader, 32)
    suite = b"HPKE" + bytes([0, 0x20, 0, 1, 0, 3])
    context = b"\x00" + extract(suite, b"", b"psk_id_hash", b"") \
        + extract(suite, b"", b"info_hash", b"hearthdose sealed message")
    prk = extract(suite, secret, b"secret", b"")
    key = expand(suite, prk, b"key", context, 32)
    nonce = expand(suite, prk, b"base_nonce", context, 12)
    name = key_id(reader)
    ciphertext = ChaCha20Poly1305(key).encrypt(nonce, message, MARK.encode() + name)
    return canonical([name, encapsulated, ciphertext])


def frame_source():
    """The second source symbol of a file of 600 bytes."""
    file = b"\x55" * 600
    symbol = file[512:].ljust(512, b"\x00")
    return b"F" + hashlib.sha256(file).digest()[:8] + (600).to_bytes(4, "big") + (1).to_bytes(4, "big") + symbol


def laid_out(data):
    rows = [data[at:at + 32].hex() for at in range(0, len(data), 32)]
    return MARK + base45(data) + "Z\n" + "\n".join(rows) + "\n"


def samples():
    return {
        "shortest": signed(1, shortest()),
        "household-1": signed(1, household(1)),
        "household-4": signed(1, household(4)),
        "slip": signed(2, slip()),
        "site-key": signed(3, site_key()),
        "shift": signed(4, shift()),
        "erasure": signed(5, erasure()),
        "sealed": sealed(signed(1, household(1))),
        "frame-source": frame_source(),
    }


def read(text):
    if not (text.startswith(MARK) and text.endswith("Z")):
        return {"signed": False}
    data = unbase45(text[len(MARK):-1])
    message = cbor2.loads(data)
    protected, unprotected, payload, signature = message.value
    kind, public, body = cbor2.loads(payload)
    try:
        ed25519.Ed25519PublicKey.from_public_bytes(public).verify(signature, to_be_signed(protected, payload))
        good = True
    except InvalidSignature:
        good = False
    one_spelling = canonical(message) == data and canonical([kind, public, body]) == payload
    return {
        "signed": good, "one_spelling": one_spelling, "tag": message.tag, "kind": kind,
        "key_id": cbor2.loads(protected)[4] == key_id(public), "unprotected": len(unprotected),
        "people": len(body[9]) if kind == 1 else None, "order": body[3] if kind == 1 else None,
    }


def main():
    if sys.argv[1] == "read":
        for line in sys.stdin:
            print(json.dumps(read(line.rstrip("\n"))))
        return 0
    folder = pathlib.Path(sys.argv[2])
    wrong = 0
    for name, data in samples().items():
        path = folder / f"{name}.txt"
        if sys.argv[1] == "make" and not path.exists():
            path.write_text(laid_out(data))
        if path.read_text() != laid_out(data):
            print(f"{path} differs")
            wrong = 1
    return wrong


if __name__ == "__main__":
    sys.exit(main())
