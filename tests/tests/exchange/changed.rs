//! Messages that were changed on the way: never read as if they were whole.

use hearthdose_core::exchange::{
    MARK, Message, OpeningKey, Scan, base45, write, write_frame, write_sealed,
};
use proptest::prelude::*;

use crate::samples::{household, messages, secret};

const ALPHABET: &[u8; 45] = b"0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";

fn is_refused(scan: &Scan) -> bool {
    matches!(
        scan,
        Scan::Damaged | Scan::SignatureWrong | Scan::Newer | Scan::Foreign
    )
}

fn text_of(bytes: &[u8]) -> String {
    format!("{MARK}{}Z", base45::encode(bytes))
}

fn bytes_of(text: &str) -> Vec<u8> {
    base45::decode(&text[3..text.len() - 1]).unwrap()
}

// promise: P22
#[test]
fn every_flipped_bit_is_seen() {
    for (name, message) in messages() {
        let bytes = bytes_of(&write(&message, &secret()).unwrap());
        assert!(matches!(Scan::read(&text_of(&bytes)), Scan::Message(_)));
        for bit in 0..bytes.len() * 8 {
            let mut changed = bytes.clone();
            changed[bit / 8] ^= 1 << (bit % 8);
            let scan = Scan::read(&text_of(&changed));
            assert!(is_refused(&scan), "{name}, bit {bit}: {scan:?}");
        }
    }
}

#[test]
fn every_other_byte_is_seen() {
    let bytes = bytes_of(&write(&Message::Household(household(1)), &secret()).unwrap());
    for at in 0..bytes.len() {
        for other in 0..=255 {
            let mut changed = bytes.clone();
            changed[at] = other;
            let scan = Scan::read_bytes(&changed);
            assert_eq!(is_refused(&scan), other != bytes[at], "byte {at}: {other}");
        }
    }
}

#[test]
fn every_other_letter_is_seen() {
    let text = write(&Message::Household(household(1)), &secret()).unwrap();
    let letters = text.as_bytes();
    for at in 0..letters.len() {
        for other in ALPHABET {
            if *other == letters[at] {
                continue;
            }
            let mut changed = letters.to_vec();
            changed[at] = *other;
            let scan = Scan::read(std::str::from_utf8(&changed).unwrap());
            assert!(
                is_refused(&scan),
                "letter {at} {}: {scan:?}",
                char::from(*other)
            );
        }
    }
}

#[test]
fn what_is_cut_off_or_added_is_seen() {
    for (_, message) in messages() {
        let text = write(&message, &secret()).unwrap();
        let bytes = bytes_of(&text);
        for length in 0..bytes.len() {
            assert!(is_refused(&Scan::read_bytes(&bytes[..length])));
            assert!(is_refused(&Scan::read_bytes(&bytes[length + 1..])));
        }
        for length in 0..text.len() {
            assert!(is_refused(&Scan::read(&text[..length])));
        }
        for more in 0..=255 {
            assert!(is_refused(&Scan::read_bytes(
                &[&bytes[..], &[more]].concat()
            )));
            assert!(is_refused(&Scan::read_bytes(
                &[&[more], &bytes[..]].concat()
            )));
        }
        for letter in ALPHABET {
            let letter = char::from(*letter);
            assert!(is_refused(&Scan::read(&format!("{text}{letter}"))));
            assert!(is_refused(&Scan::read(&format!("{letter}{text}"))));
            let (head, tail) = text.split_at(text.len() / 2);
            assert!(is_refused(&Scan::read(&format!("{head}{letter}{tail}"))));
        }
    }
}

#[test]
fn only_line_ends_and_tabs_are_trimmed() {
    let text = write(&Message::Household(household(1)), &secret()).unwrap();
    let whole = Scan::read(&text);
    assert!(matches!(whole, Scan::Message(_)));
    for around in ["\r", "\n", "\r\n", "\t", "\n\n\t"] {
        assert_eq!(Scan::read(&format!("{around}{text}{around}")), whole);
    }
    for around in [" ", "\u{a0}", "\u{feff}", "\u{b}", "\0", "\u{1d}"] {
        assert!(
            is_refused(&Scan::read(&format!("{text}{around}"))),
            "{around:?}"
        );
        assert!(
            is_refused(&Scan::read(&format!("{around}{text}"))),
            "{around:?}"
        );
    }
    assert!(is_refused(&Scan::read(&text.to_lowercase())));
    assert!(is_refused(&Scan::read(&text.replacen("HD1", "HD1\n", 1))));
}

#[test]
fn sealed_messages_and_frames_too() {
    let (opening, to) = OpeningKey::derive(&[5; 32]);
    let message = Message::Household(household(1));
    let text = write_sealed(&message, &secret(), &to, [9; 32]).unwrap();
    let opened = Scan::read(&text).open(&opening);
    assert_eq!(opened, Scan::read(&write(&message, &secret()).unwrap()));
    let bytes = bytes_of(&text);
    for bit in 0..bytes.len() * 8 {
        let mut changed = bytes.clone();
        changed[bit / 8] ^= 1 << (bit % 8);
        // Another key id is a message to somebody else; all other changes show when it is opened.
        let scan = Scan::read_bytes(&changed).open(&opening);
        let elsewhere = matches!(&scan, Scan::Sealed(sealed) if sealed.key_id != to.id());
        assert!(is_refused(&scan) || elsewhere, "bit {bit}: {scan:?}");
    }
    let (stranger, _) = OpeningKey::derive(&[6; 32]);
    assert!(matches!(Scan::read(&text).open(&stranger), Scan::Sealed(_)));

    let frame = &hearthdose_core::exchange::frames(&[1; 700], 0).unwrap()[0];
    let text = write_frame(frame).unwrap();
    assert_eq!(Scan::read(&text), Scan::Part(frame.clone()));
    assert!(is_refused(&Scan::read(&text[..text.len() - 4])));
}

#[test]
fn what_is_not_ours_is_foreign() {
    for text in [
        "",
        "HD",
        "HD0",
        "HDX",
        "hd1",
        "https://example.org/HD1",
        "BEGIN:VCARD",
        "]d2010950110153000317261200",
        "Grüße",
    ] {
        assert_eq!(Scan::read(text), Scan::Foreign, "{text}");
    }
    for text in ["HD2", "HD2ANYTHING", "HD9 %"] {
        assert_eq!(Scan::read(text), Scan::Newer, "{text}");
    }
    for text in ["HD1", "HD1Z", "HD1ÄZ", "HD1:::Z", "HD100Z"] {
        assert_eq!(Scan::read(text), Scan::Damaged, "{text}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn nothing_panics(text in ".{0,200}", bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        let _ = Scan::read(&text);
        let _ = Scan::read(&format!("HD1{text}Z"));
        for first in [0xd2, 0x83, 0x46] {
            let _ = Scan::read_bytes(&[&[first], &bytes[..]].concat());
        }
        prop_assert!(!matches!(Scan::read_bytes(&bytes), Scan::Message(_)));
    }
}
