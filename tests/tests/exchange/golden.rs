//! The format, frozen: what earlier versions wrote must be read, and what is written today must be the same bytes.
//!
//! A file that differs means another format, which needs another mark, not another golden file.

use std::path::PathBuf;

use hearthdose_core::exchange::{
    MARK, OpeningKey, Scan, base45, frames, write, write_frame, write_sealed,
};

use crate::samples::{bytes, hex_of, household, messages, secret};
use hearthdose_core::exchange::Message;

fn golden(name: &str) -> String {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR"))
        .join("tests/exchange/golden")
        .join(format!("{name}.txt"));
    std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// The text in the first line, the same as hex digits in the lines behind, 32 bytes in each.
fn laid_out(text: &str) -> String {
    let inner = text.strip_prefix(MARK).unwrap().strip_suffix('Z').unwrap();
    let rows: Vec<String> = base45::decode(inner)
        .unwrap()
        .chunks(32)
        .map(hex_of)
        .collect();
    format!("{text}\n{}\n", rows.join("\n"))
}

#[test]
fn every_kind_is_written_as_it_ever_was() {
    for (name, message) in messages() {
        let text = write(&message, &secret()).unwrap();
        assert_eq!(laid_out(&text), golden(name), "{name}");
    }
}

#[test]
fn every_kind_is_read_as_it_ever_was() {
    for (name, message) in messages() {
        let file = golden(name);
        let Scan::Message(scanned) = Scan::read(file.lines().next().unwrap()) else {
            panic!("{name} is no message any more");
        };
        assert_eq!(scanned.message, message, "{name}");
        assert_eq!(scanned.signer, secret().public());
    }
}

#[test]
fn sealed_and_in_frames() {
    let (opening, to) = OpeningKey::derive(&bytes(
        "1ac01f181fdf9f352797655161c58b75c656a6cc2716dcb66372da835542e1df",
    ));
    let random = bytes("909a9b35d3dc4713a5e72a4da274b55d3d3821a37e5d099e74a647db583a904b");
    let message = Message::Household(household(1));
    let text = write_sealed(&message, &secret(), &to, random).unwrap();
    assert_eq!(laid_out(&text), golden("sealed"));
    let file = golden("sealed");
    let opened = Scan::read(file.lines().next().unwrap()).open(&opening);
    assert_eq!(opened, Scan::read(&write(&message, &secret()).unwrap()));

    // One source symbol and one repair symbol of a file of 600 bytes.
    let all = frames(&[0x55; 600], 1).unwrap();
    assert_eq!(
        laid_out(&write_frame(&all[1]).unwrap()),
        golden("frame-source")
    );
    assert_eq!(
        laid_out(&write_frame(&all[2]).unwrap()),
        golden("frame-repair")
    );
}
