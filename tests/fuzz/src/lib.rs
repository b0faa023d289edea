//! What the targets share: messages signed anew, so that changed bytes reach the readers behind the signature, and seeds.

use std::path::{Path, PathBuf};

use hearthdose_core::exchange::sign::to_be_signed;
use hearthdose_core::exchange::{DeviceSecret, MARK, base45};
use hearthdose_core::order::CheckedOrder;

/// The golden texts of the exchange format.
pub const GOLDEN: [&str; 9] = [
    golden(include_str!("../../tests/exchange/golden/shortest.txt")),
    golden(include_str!("../../tests/exchange/golden/household-1.txt")),
    golden(include_str!("../../tests/exchange/golden/household-4.txt")),
    golden(include_str!("../../tests/exchange/golden/slip.txt")),
    golden(include_str!("../../tests/exchange/golden/site-key.txt")),
    golden(include_str!("../../tests/exchange/golden/shift.txt")),
    golden(include_str!("../../tests/exchange/golden/sealed.txt")),
    golden(include_str!("../../tests/exchange/golden/frame-source.txt")),
    golden(include_str!("../../tests/exchange/golden/frame-repair.txt")),
];

/// The first line of a golden file; hex digits are behind it.
const fn golden(file: &str) -> &str {
    let bytes = file.as_bytes();
    let mut end = 0;
    while bytes[end] != b'\n' {
        end += 1;
    }
    file.split_at(end).0
}

/// The bytes of a golden text.
pub fn bytes_of(text: &str) -> Vec<u8> {
    let inner = text
        .strip_prefix(MARK)
        .and_then(|text| text.strip_suffix('Z'));
    inner.and_then(base45::decode).expect("a golden text")
}

/// Where the payload of a golden message begins: tag, array, protected header, empty map, head of the payload.
pub fn payload_of(message: &[u8]) -> &[u8] {
    let (head, rest) = message[13..].split_first().expect("a payload");
    let (skip, length) = match head {
        0x58 => (1, usize::from(rest[0])),
        0x59 => (2, usize::from(rest[0]) * 256 + usize::from(rest[1])),
        _ => panic!("a payload of an unforeseen length"),
    };
    &rest[skip..skip + length]
}

/// The signer of all that is signed here: any 32 bytes do.
pub fn secret() -> DeviceSecret {
    DeviceSecret::from_bytes(&[7; 32])
}

/// A payload with this body: kind 1 to 4, public key, body.
pub fn payload(kind: u8, body: &[u8]) -> Vec<u8> {
    let key = secret().public();
    [&[0x83, kind, 0x58, 0x20], &key.0[..], body].concat()
}

/// The signed message of a payload, put together by hand and not by the code under test.
pub fn signed(payload: &[u8]) -> Vec<u8> {
    let secret = secret();
    let protected = [&[0xa2, 0x01, 0x27, 0x04, 0x44], &secret.public().id()[..]].concat();
    let signature = secret.sign(&to_be_signed(&protected, MARK.as_bytes(), payload));
    let head = byte_string_head(payload.len());
    [
        &[0xd2, 0x84, 0x49][..],
        &protected,
        &[0xa0],
        &head,
        payload,
        &[0x58, 0x40],
        &signature,
    ]
    .concat()
}

/// The shortest head of a CBOR byte string (RFC 8949, section 3).
pub fn byte_string_head(length: usize) -> Vec<u8> {
    match u32::try_from(length).expect("a short input").to_be_bytes() {
        [0, 0, 0, short @ 0..=23] => vec![0x40 | short],
        [0, 0, 0, short] => vec![0x58, short],
        [0, 0, high, low] => vec![0x59, high, low],
        [a, b, c, d] => vec![0x5a, a, b, c, d],
    }
}

/// The order of the demonstration that everything is tried with.
pub fn order() -> CheckedOrder {
    let bytes = include_bytes!("../../../demo-data/orders/quillmere-doxy-1.toml");
    CheckedOrder::from_bytes(bytes).expect("an order of the demonstration")
}

/// Writes seeds into the folder named in `HEARTHDOSE_SEEDS`; without the name nothing is written.
pub fn plant<'a>(seeds: impl IntoIterator<Item = (&'a str, Vec<u8>)>) {
    let Some(folder) = std::env::var_os("HEARTHDOSE_SEEDS").map(PathBuf::from) else {
        return;
    };
    for (number, (name, seed)) in seeds.into_iter().enumerate() {
        std::fs::write(folder.join(format!("seed-{number}-{name}")), seed).expect("a folder");
    }
}

/// Every file of these folders of the demonstration's data.
pub fn demo_files(folders: &[&str]) -> Vec<(&'static str, Vec<u8>)> {
    let data = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../demo-data");
    let files = folders.iter().flat_map(|folder| {
        let files = std::fs::read_dir(data.join(folder)).expect("the demonstration's data");
        files.filter_map(|file| std::fs::read(file.ok()?.path()).ok())
    });
    files.map(|bytes| ("demo", bytes)).collect()
}

/// A code of the kind that all refusals carry: small letters and digits joined by single hyphens.
pub fn is_kebab(code: &str) -> bool {
    code.split('-').all(|word| {
        let fits = |byte: u8| byte.is_ascii_lowercase() || byte.is_ascii_digit();
        !word.is_empty() && word.bytes().all(fits)
    })
}
