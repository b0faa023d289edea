//! Sealed messages: opening gives what was sealed or nothing, and no changed bit opens.
#![no_main]

use std::sync::LazyLock;

use hearthdose_core::exchange::seal::seal;
use hearthdose_core::exchange::{MARK, OpeningKey, Scan, SealingKey};
use hearthdose_fuzz::{GOLDEN, byte_string_head, bytes_of, payload_of, plant, signed};
use libfuzzer_sys::fuzz_target;

static KEYS: LazyLock<(OpeningKey, SealingKey)> = LazyLock::new(|| OpeningKey::derive(&[5; 32]));
/// As `core::exchange::seal` has it.
const INFO: &[u8] = b"hearthdose sealed message";

fuzz_target!(init: plant(seeds()), |data: &[u8]| {
    let Some((first, rest)) = data.split_first() else {
        return;
    };
    let plain = match first % 3 {
        0 => return raw(rest),
        1 => rest.to_vec(),
        _ => signed(rest),
    };
    let bytes = sealed(&plain);
    let scan = Scan::read_bytes(&bytes);
    assert!(matches!(scan, Scan::Sealed(_)));
    let opened = scan.open(&KEYS.0);
    if plain.first() == Some(&0xd2) {
        assert_eq!(opened, Scan::read_bytes(&plain));
    } else {
        assert_eq!(opened, Scan::Damaged);
    }
    let mut changed = bytes;
    let place = data.iter().fold(0usize, |sum, byte| sum.wrapping_mul(31) + usize::from(*byte));
    let bit = place % (changed.len() * 8);
    changed[bit / 8] ^= 1 << (bit % 8);
    raw(&changed);
});

/// Bytes that nobody sealed to this key open to nothing.
fn raw(bytes: &[u8]) {
    let opened = Scan::read_bytes(bytes).open(&KEYS.0);
    assert!(!matches!(opened, Scan::Message(_)) || bytes.first() == Some(&0xd2));
}

fn sealed(plain: &[u8]) -> Vec<u8> {
    let id = KEYS.1.id();
    let aad = [MARK.as_bytes(), &id].concat();
    let (key, ciphertext) = seal(&KEYS.1, INFO, &aad, plain, [9; 32]).expect("a key");
    let head = byte_string_head(ciphertext.len());
    [
        &[0x83, 0x44][..],
        &id,
        &[0x58, 0x20],
        &key,
        &head,
        &ciphertext,
    ]
    .concat()
}

fn seeds() -> Vec<(&'static str, Vec<u8>)> {
    let with = |first: u8, bytes: &[u8]| ("golden", [&[first], bytes].concat());
    let mut seeds = vec![with(0, &bytes_of(GOLDEN[6]))];
    for text in &GOLDEN[..6] {
        let bytes = bytes_of(text);
        seeds.push(with(1, &bytes));
        seeds.push(with(2, payload_of(&bytes)));
    }
    seeds
}
