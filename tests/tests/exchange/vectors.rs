//! Published vectors of the standards that messages are made of.

use coset::{CborSerializable, CoseSign1, TaggedCborSerializable};
use hearthdose_core::exchange::cbor::{self, Value};
use hearthdose_core::exchange::seal::{open, seal};
use hearthdose_core::exchange::sign::{to_be_signed, verify};
use hearthdose_core::exchange::{DeviceKey, DeviceSecret, OpeningKey, SealingKey, base45};

use crate::samples::{PUBLIC, SECRET, bytes, hex, hex_of};

/// RFC 9285, sections 4.3 and 4.4.
#[test]
fn base45_by_its_rfc() {
    for (plain, text) in [
        (&b"AB"[..], "BB8"),
        (b"Hello!!", "%69 VD92EX0"),
        (b"base-45", "UJCLQE7W581"),
        (b"ietf!", "QED8WEX0"),
        (&[0xff, 0xff], "FGW"),
        (&[], ""),
    ] {
        assert_eq!(base45::encode(plain), text);
        assert_eq!(base45::decode(text).as_deref(), Some(plain), "{text}");
    }
    for wrong in ["GGW", ":::", "A", "BB8A", "bb8", "BB8\n", "ÄB8", "::"] {
        assert_eq!(base45::decode(wrong), None, "{wrong:?}");
    }
}

/// Every group of two and three characters: those whose value is too large are refused, the others come back the same.
#[test]
fn base45_has_one_spelling() {
    let letters: Vec<char> = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:"
        .chars()
        .collect();
    let (mut pairs, mut triples) = (0, 0);
    for a in &letters {
        for b in &letters {
            let text = format!("{a}{b}");
            if let Some(found) = base45::decode(&text) {
                assert_eq!(base45::encode(&found), text);
                pairs += 1;
            }
            for c in &letters {
                let text = format!("{a}{b}{c}");
                if let Some(found) = base45::decode(&text) {
                    assert_eq!(base45::encode(&found), text);
                    triples += 1;
                }
            }
        }
    }
    // As many as there are values of one and of two bytes.
    assert_eq!((pairs, triples), (256, 65_536));
}

/// RFC 8949, appendix A (cbor/test-vectors), as far as messages use it.
#[test]
fn cbor_by_its_rfc() {
    let list = |items: &[Value]| Value::List(items.to_vec());
    for (text, value) in [
        ("00", Value::Whole(0)),
        ("17", Value::Whole(23)),
        ("1818", Value::Whole(24)),
        ("1903e8", Value::Whole(1000)),
        ("1a000f4240", Value::Whole(1_000_000)),
        ("1bffffffffffffffff", Value::Whole(u64::MAX)),
        ("20", Value::Minus(0)),
        ("3863", Value::Minus(99)),
        ("3bffffffffffffffff", Value::Minus(u64::MAX)),
        ("4401020304", Value::Bytes(vec![1, 2, 3, 4])),
        ("6449455446", Value::text("IETF")),
        ("62c3bc", Value::text("ü")),
        ("80", list(&[])),
        (
            "8301820203820405",
            list(&[
                Value::Whole(1),
                list(&[Value::Whole(2), Value::Whole(3)]),
                list(&[Value::Whole(4), Value::Whole(5)]),
            ]),
        ),
        ("f4", Value::Bool(false)),
        ("f5", Value::Bool(true)),
        ("f6", Value::Null),
    ] {
        assert_eq!(cbor::decode(&hex(text)), Some(value.clone()), "{text}");
        assert_eq!(hex_of(&cbor::encode(&value)), text);
    }
    assert_eq!(Value::signed(-100), Value::Minus(99));
    assert_eq!(Value::signed(i64::MIN), Value::Minus((1 << 63) - 1));
    for wrong in [
        // Appendix A: of indefinite length, or of kinds that messages do not use.
        "5f42010243030405ff",
        "7f657374726561646d696e67ff",
        "9fff",
        "9f018202039f0405ffff",
        "bf61610161629f0203ffff",
        "f93e00",
        "fa7fc00000",
        "fb3ff199999999999a",
        "c11a514b67b0",
        "a201020304",
        "f7",
        "f0",
        "f8ff",
        // Longer than need be, cut short, something behind, nothing, not UTF-8.
        "1805",
        "190017",
        "1b0000000000000005",
        "9800",
        "5800",
        "7800",
        "3800",
        "19",
        "44010203",
        "8201",
        "0000",
        "8000",
        "",
        "61ff",
        "9bffffffffffffffff",
        "5bffffffffffffffff",
        // Deeper than any message.
        "81818181818181818100",
    ] {
        assert_eq!(cbor::decode(&hex(wrong)), None, "{wrong}");
    }
}

/// RFC 8032, section 7.1, tests 1 and 2.
#[test]
fn ed25519_by_its_rfc() {
    for (secret, public, message, signature) in [
        (
            SECRET,
            PUBLIC,
            "",
            "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b",
        ),
        (
            "4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
            "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c",
            "72",
            "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00",
        ),
    ] {
        let key = DeviceSecret::from_bytes(&bytes(secret));
        assert_eq!(hex_of(&key.public().0), public);
        assert_eq!(hex_of(&key.sign(&hex(message))), signature);
        let (public, signature) = (DeviceKey(bytes(public)), bytes::<64>(signature));
        assert!(verify(&public, &hex(message), &signature));
        assert!(!verify(&public, b"other", &signature));
        for at in 0..512 {
            let mut changed = signature;
            changed[at / 8] ^= 1 << (at % 8);
            assert!(!verify(&public, &hex(message), &changed), "bit {at}");
        }
        // The same signature with the group's order added to its second half: a second spelling (RFC 8032, 5.1.7).
        assert!(!verify(&public, &hex(message), &plus_order(signature)));
    }
    // The neutral element as a key "verifies" anything where keys are not checked.
    let mut neutral = [0; 32];
    neutral[0] = 1;
    let mut signature = [0; 64];
    signature[0] = 1;
    assert!(!verify(&DeviceKey(neutral), b"anything", &signature));
}

fn plus_order(mut signature: [u8; 64]) -> [u8; 64] {
    // 2^252 + 27742317777372353535851937790883648493, little-endian.
    let order = hex("edd3f55c1a631258d69cf7a2def9de1400000000000000000000000000000010");
    let mut carry = 0;
    for (at, more) in order.iter().enumerate() {
        let sum = u16::from(signature[32 + at]) + u16::from(*more) + carry;
        signature[32 + at] = u8::try_from(sum & 255).unwrap();
        carry = sum >> 8;
    }
    signature
}

/// cose-wg/Examples, eddsa-examples/eddsa-sig-01 (key of RFC 8032, test 1).
#[test]
fn the_bytes_that_cose_signs() {
    let payload = b"This is the content.";
    let protected = hex("a201270300");
    let signed = to_be_signed(&protected, b"", payload);
    assert_eq!(
        hex_of(&signed),
        "846a5369676e61747572653145a2012703004054546869732069732074686520636f6e74656e742e"
    );
    let signature = bytes::<64>(
        "7142fd2ff96d56db85bee905a76ba1d0b7321a95c8c4d3607c5781932b7afb8711497dfa751bf40b58b3bcc32300b1487f3db34085eef013bf08f4a44d6fef0d",
    );
    assert!(verify(&DeviceKey(bytes(PUBLIC)), &signed, &signature));
    let secret = DeviceSecret::from_bytes(&bytes(SECRET));
    assert_eq!(secret.sign(&signed), signature);
    // The library that judges our messages in `independent` reads the vector the same way.
    let message = hex(&format!(
        "d28445a201270300a10442313154{}5840{}",
        hex_of(payload),
        hex_of(&signature)
    ));
    let read = CoseSign1::from_tagged_slice(&message).unwrap();
    assert_eq!(read.payload.as_deref(), Some(&payload[..]));
    assert_eq!(read.tbs_data(b""), signed);
    assert!(CoseSign1::from_slice(&message).is_err());
}

/// RFC 9180, appendix A.2.1: base mode, X25519, HKDF-SHA256, ChaCha20-Poly1305.
#[test]
fn hpke_by_its_rfc() {
    let info = hex("4f6465206f6e2061204772656369616e2055726e");
    let aad = hex("436f756e742d30");
    let plain = hex("4265617574792069732074727574682c20747275746820626561757479");
    let encapsulated = bytes("1afa08d3dec047a643885163f1180476fa7ddb54c6a8029ea33f95796bf2ac4a");
    let ciphertext = hex(
        "1c5250d8034ec2b784ba2cfd69dbdb8af406cfe3ff938e131f0def8c8b60b4db21993c62ce81883d2dd1b51a28",
    );
    let public = SealingKey(bytes(
        "4310ee97d88cc1f088a5576c77ab0cf5c3ac797f3d95139c6c84b5429c59662a",
    ));
    let opening = OpeningKey::from_bytes(&bytes(
        "8057991eef8f1f1af18f4a9491d16a1ce333f695d4db8e38da75975c4478e0fb",
    ))
    .unwrap();
    assert_eq!(opening.public(), public);
    // ikmR and ikmE: what the key pairs of the vector are derived from.
    let (_, derived) = OpeningKey::derive(&bytes(
        "1ac01f181fdf9f352797655161c58b75c656a6cc2716dcb66372da835542e1df",
    ));
    assert_eq!(derived, public);
    let random = bytes("909a9b35d3dc4713a5e72a4da274b55d3d3821a37e5d099e74a647db583a904b");
    assert_eq!(
        seal(&public, &info, &aad, &plain, random),
        Some((encapsulated, ciphertext.clone()))
    );
    let opened = open(&opening, &info, &aad, &encapsulated, &ciphertext);
    assert_eq!(opened.as_deref(), Some(&plain[..]));
    assert_eq!(open(&opening, b"", &aad, &encapsulated, &ciphertext), None);
    assert_eq!(open(&opening, &info, b"", &encapsulated, &ciphertext), None);
    for at in 0..ciphertext.len() * 8 {
        let mut changed = ciphertext.clone();
        changed[at / 8] ^= 1 << (at % 8);
        assert_eq!(open(&opening, &info, &aad, &encapsulated, &changed), None);
    }
    // Keys of small order, to which anybody could open (RFC 7748, section 6.1).
    assert_eq!(
        seal(&SealingKey([0; 32]), &info, &aad, &plain, random),
        None
    );
}
