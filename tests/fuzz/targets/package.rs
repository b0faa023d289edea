//! Element strings of packages: every value that is kept obeys its own rules.
#![no_main]

use hearthdose_core::package::{CODES, read};
use hearthdose_fuzz::plant;
use libfuzzer_sys::fuzz_target;

fuzz_target!(init: plant(seeds()), |data: &[u8]| {
    let [high, low, rest @ ..] = data else {
        return;
    };
    let Ok(text) = std::str::from_utf8(rest) else {
        return;
    };
    let year = i16::from_be_bytes([*high, *low]);
    let package = read(text, year);
    assert!(package.problems.iter().all(|problem| CODES.contains(&problem.code)));
    assert_eq!(package.gtin.is_some(), package.gtin_valid.is_some());
    if let Some(gtin) = &package.gtin {
        assert!(gtin.len() == 14 && gtin.bytes().all(|byte| byte.is_ascii_digit()));
        // Weights 3, 1, 3, … over all fourteen digits (General Specifications 7.9).
        let sum: u32 = gtin.bytes().zip([3, 1].into_iter().cycle()).map(|(digit, weight)| u32::from(digit - b'0') * weight).sum();
        assert_eq!(package.gtin_valid, Some(sum.is_multiple_of(10)));
    }
    for day in [package.expiry, package.made, package.best_before].into_iter().flatten() {
        let away = i32::from(day.year()) - i32::from(year);
        assert!((-49..=50).contains(&away), "{day} is read in {year}");
    }
    for value in [&package.lot, &package.serial].into_iter().flatten() {
        assert!((1..=20).contains(&value.len()) && text.contains(value.as_str()));
        assert!(value.bytes().all(|byte| (b'!'..=b'z').contains(&byte)));
    }
    // The symbology identifier says nothing that is kept.
    if !text.trim_start_matches(['\r', '\n', '\t']).starts_with([']', '\u{1d}']) {
        let marked = read(&format!("]d2{}", text.trim_start_matches(['\r', '\n', '\t'])), year);
        assert_eq!((marked.gtin, marked.lot, marked.expiry), (package.gtin, package.lot, package.expiry));
    }
});

fn seeds() -> Vec<(&'static str, Vec<u8>)> {
    [
        "]d201095011015300031726120010ABC123\u{1d}21S1",
        "0109501101530003172612001520261130\u{1d}10L-7\u{1d}3012",
        "]Q3011234567890123111260101\u{1d}7003261231",
        "71512345678901\u{1d}24099\u{1d}7101234",
    ]
    .map(|text| ("made", [&[0x07, 0xea], text.as_bytes()].concat()))
    .to_vec()
}
