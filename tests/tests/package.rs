//! Codes on medicine packages: published examples, and everything that can be wrong with one.
//!
//! Identifiers and formats: GS1 Barcode Syntax Dictionary (gs1/gs1-syntax-dictionary, 2026-07-27).

use std::collections::BTreeSet;

use hearthdose_core::package::{CODES, Package, check_digit_is_right, read};
use jiff::civil::date;
use proptest::prelude::*;

const GS: char = '\u{1d}';

/// Elements with a separator behind each of them that needs one.
fn string(elements: &[(&str, &str)]) -> String {
    let mut out = String::new();
    for (at, (identifier, value)) in elements.iter().enumerate() {
        out.push_str(identifier);
        out.push_str(value);
        let fixed = ["01", "11", "15", "17"].contains(identifier);
        if !fixed && at + 1 < elements.len() {
            out.push(GS);
        }
    }
    out
}

fn codes(package: &Package) -> Vec<&'static str> {
    let mut codes = Vec::new();
    for problem in &package.problems {
        assert!(CODES.contains(&problem.code), "{}", problem.code);
        assert!(!problem.text.is_empty() && !problem.text.chars().any(char::is_control));
        codes.push(problem.code);
    }
    codes
}

fn problems(text: &str) -> Vec<&'static str> {
    codes(&read(text, 2026))
}

const GTIN: (&str, &str) = ("01", "09501101530003");

#[test]
fn the_example_of_the_contract() {
    let text = string(&[GTIN, ("17", "261200"), ("10", "ABC123"), ("21", "S1")]);
    for prefix in ["", "]d2", "]Q3", "\u{1d}", "]d2\u{1d}"] {
        for end in ["", "\r\n", "\t", "\u{1d}"] {
            let package = read(&format!("{prefix}{text}{end}"), 2026);
            assert_eq!(package.gtin.as_deref(), Some("09501101530003"));
            assert_eq!(package.gtin_valid, Some(true));
            assert_eq!(package.lot.as_deref(), Some("ABC123"));
            assert_eq!(package.expiry, Some(date(2026, 12, 31)));
            assert_eq!(package.serial.as_deref(), Some("S1"));
            assert_eq!(codes(&package), Vec::<&str>::new(), "{prefix:?} {end:?}");
        }
    }
}

#[test]
fn check_digits_of_published_numbers() {
    for right in [
        "09501101530003",
        "09521234543213",
        "00614141123452",
        "10614141123459",
        "6291041500213",
        "350633910208",
        "00350633910208",
    ] {
        assert!(check_digit_is_right(right), "{right}");
        // One wrong digit is always seen.
        for at in 0..right.len() {
            for other in b'0'..=b'9' {
                let mut wrong = right.as_bytes().to_vec();
                if wrong[at] == other {
                    continue;
                }
                wrong[at] = other;
                assert!(!check_digit_is_right(std::str::from_utf8(&wrong).unwrap()));
            }
        }
    }
    for wrong in [
        "",
        "0",
        "1234567",
        "0950110153000X",
        "095011015300031",
        "０９５０１１０１５３０００３",
    ] {
        assert!(!check_digit_is_right(wrong), "{wrong}");
    }
    let package = read("0109501101530004", 2026);
    assert_eq!(package.gtin.as_deref(), Some("09501101530004"));
    assert_eq!(package.gtin_valid, Some(false));
    assert_eq!(codes(&package), ["gtin-check-digit"]);
    assert_eq!(read("10ABC", 2026).gtin_valid, None);
}

#[test]
fn days_of_expiry() {
    let expiry = |digits: &str, year| read(&string(&[GTIN, ("17", digits)]), year).expiry;
    assert_eq!(expiry("280200", 2026), Some(date(2028, 2, 29)));
    assert_eq!(expiry("270200", 2026), Some(date(2027, 2, 28)));
    assert_eq!(expiry("260430", 2026), Some(date(2026, 4, 30)));
    for wrong in ["261301", "260230", "260431", "260132", "260001", "260000"] {
        let package = read(&string(&[GTIN, ("17", wrong)]), 2026);
        assert_eq!(package.expiry, None, "{wrong}");
        assert_eq!(codes(&package), ["date-invalid"], "{wrong}");
    }
    // General Specifications 7.12: 49 years back, 50 ahead.
    for (digits, year, full) in [
        ("760101", 2026, 2076),
        ("770101", 2026, 1977),
        ("260101", 2026, 2026),
        ("000101", 2026, 2000),
        ("990101", 2026, 1999),
        ("010101", 2099, 2101),
        ("490101", 2099, 2149),
        ("500101", 2099, 2050),
        ("500101", 2000, 2050),
        ("510101", 2000, 1951),
    ] {
        assert_eq!(
            expiry(digits, year),
            Some(date(full, 1, 1)),
            "{digits} in {year}"
        );
    }
}

#[test]
fn every_identifier_that_packages_use() {
    let text = string(&[
        GTIN,
        ("11", "260105"),
        ("15", "260900"),
        ("17", "261231"),
        ("10", "L-1/2"),
        ("21", "ser.(9)"),
        ("30", "00000020"),
        ("240", "X1"),
        ("710", "12345678"),
        ("715", "50633-910-20"),
        ("717", "7"),
    ]);
    let package = read(&text, 2026);
    assert_eq!(codes(&package), Vec::<&str>::new());
    assert_eq!(package.made, Some(date(2026, 1, 5)));
    assert_eq!(package.best_before, Some(date(2026, 9, 30)));
    assert_eq!(package.lot.as_deref(), Some("L-1/2"));
    assert_eq!(package.serial.as_deref(), Some("ser.(9)"));
    assert_eq!(package.count, Some(20));
    assert_eq!(package.additional.as_deref(), Some("X1"));
    let national: Vec<(&str, &str)> = package
        .national
        .iter()
        .map(|(a, b)| (&a[..], &b[..]))
        .collect();
    assert_eq!(
        national,
        [("710", "12345678"), ("715", "50633-910-20"), ("717", "7")]
    );

    let timed = |value| read(&string(&[GTIN, ("7003", value), ("10", "A")]), 2026);
    assert_eq!(timed("2612312359").expiry, Some(date(2026, 12, 31)));
    assert_eq!(codes(&timed("2612312400")), ["time-invalid"]);
    assert_eq!(timed("2612312400").expiry, None);
    let both = read(
        &string(&[GTIN, ("17", "261231"), ("7003", "2612302359")]),
        2026,
    );
    assert_eq!((both.expiry, codes(&both)), (None, vec!["expiry-differs"]));
}

#[test]
fn the_order_of_elements_does_not_matter() {
    let elements = [GTIN, ("17", "270200"), ("10", "ABC123"), ("21", "S1")];
    let first = read(&string(&elements), 2026);
    for turn in 1..4 {
        let mut turned = elements;
        turned.rotate_left(turn);
        let found = read(&string(&turned), 2026);
        assert_eq!(found, first, "{turned:?}");
    }
}

#[test]
fn missing_separators_are_seen() {
    let head = "0109501101530003";
    // The lot runs on into the serial number, or into a date.
    assert_eq!(
        problems(&format!("{head}1726120010ABC12321S1")),
        ["separator-perhaps-missing"]
    );
    assert_eq!(
        problems(&format!("{head}17261200{}10A2106", "21S10X\u{1d}")),
        Vec::<&str>::new()
    );
    let dated = read(&format!("{head}10ABC12317261200"), 2026);
    assert_eq!(dated.lot.as_deref(), Some("ABC12317261200"));
    assert_eq!(codes(&dated), ["separator-missing"]);
    assert_eq!(
        problems(&format!("{head}21S117261200{GS}10A")),
        ["separator-missing"]
    );
    assert_eq!(
        problems(&format!("10ABC{head}")),
        ["gtin-missing", "separator-missing"]
    );
    assert_eq!(
        problems(&format!("{head}10ABC1726120021S1")),
        ["separator-missing"]
    );
    assert_eq!(
        problems(&format!("{head}10ABCDEFGHIJKLMNOPQ17261200")),
        ["value-too-long"]
    );
    // A lot that merely holds such digits, with all else in place, is a lot.
    let lot = string(&[GTIN, ("17", "261200"), ("21", "S1"), ("10", "A21B10C")]);
    assert_eq!(problems(&lot), Vec::<&str>::new());
    let lot = string(&[GTIN, ("10", "A17999999"), ("17", "261200")]);
    assert_eq!(problems(&lot), Vec::<&str>::new());
}

#[test]
fn what_is_twice_alone_or_unknown() {
    let twice = read(&string(&[GTIN, ("10", "A1"), ("10", "A2")]), 2026);
    assert_eq!(
        (twice.lot.as_deref(), codes(&twice)),
        (None, vec!["identifier-twice-differing"])
    );
    let twice = read(&string(&[GTIN, ("10", "A1"), ("10", "A1")]), 2026);
    assert_eq!(
        (twice.lot.as_deref(), codes(&twice)),
        (Some("A1"), vec!["identifier-twice"])
    );
    let thrice = read(
        &string(&[GTIN, ("10", "A1"), ("10", "A2"), ("10", "A1")]),
        2026,
    );
    assert_eq!(thrice.lot, None);
    for alone in ["10A1", "17261231", "21S1", "70032612312359"] {
        assert_eq!(problems(alone), ["gtin-missing"], "{alone}");
    }
    // Not understood, and stepped over: up to its separator, or by its published length.
    let unknown = read(&string(&[GTIN, ("91", "house number"), ("10", "A1")]), 2026);
    assert_eq!(
        (unknown.lot.as_deref(), codes(&unknown)),
        (Some("A1"), vec!["unknown-identifier"])
    );
    let skipped = read("0109501101530003310300012510A1", 2026);
    assert_eq!(
        (skipped.lot.as_deref(), codes(&skipped)),
        (Some("A1"), vec!["unknown-identifier"])
    );
}

#[test]
fn what_cannot_be_read_is_named() {
    for (text, code) in [
        ("", "empty"),
        ("]d2", "empty"),
        ("\r\n", "empty"),
        ("\u{1d}\u{1d}", "empty"),
        ("]d1010950110153000317261200", "not-gs1"),
        ("]C00109501101530003", "not-gs1"),
        ("(01)09501101530003", "not-an-element"),
        ("hello", "not-an-element"),
        ("0109501101530003\u{1d}\u{1d}10A", "not-an-element"),
        ("010950110153", "value-cut-short"),
        ("010950110153000317", "value-empty"),
        ("0109501101530003172612", "value-cut-short"),
        ("010950110153000X", "value-not-digits"),
        ("010950110153000310", "value-empty"),
        ("0109501101530003301234567890", "value-too-long"),
        ("010950110153000310ÄB", "character-not-allowed"),
        ("010950110153000310A B", "character-not-allowed"),
        ("0109501101530003  10A", "not-an-element"),
    ] {
        let found = problems(text);
        assert!(found.contains(&code), "{text:?}: {found:?}");
    }
    // A broken value is left out, the others are kept.
    let package = read("010950110153000317261301\u{1d}10A1", 2026);
    assert_eq!((package.lot.as_deref(), package.expiry), (Some("A1"), None));
}

#[test]
fn every_code_comes_up() {
    let head = "0109501101530003";
    let all: BTreeSet<&str> = [
        "".to_owned(),
        "]d10109501101530003".to_owned(),
        "x".to_owned(),
        format!("{head}91A"),
        "01095011".to_owned(),
        format!("{head}10"),
        format!("{head}10{}", "A".repeat(21)),
        format!("{head}17ABCDEF"),
        format!("{head}10#"),
        "0109501101530004".to_owned(),
        format!("{head}17261301"),
        format!("{head}70032612312460"),
        format!("{head}10A{GS}10A"),
        format!("{head}10A{GS}10B"),
        format!("{head}1726123170032612302359"),
        "10A".to_owned(),
        format!("{head}10A17261231"),
        format!("{head}1726123110A21S"),
    ]
    .iter()
    .flat_map(|text| problems(text))
    .collect();
    assert_eq!(all, CODES.iter().copied().collect());
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn nothing_panics(text in ".{0,80}", digits in "[0-9\u{1d}A]{0,60}", year in any::<i16>()) {
        for text in [text, digits] {
            let _ = read(&text, year);
        }
    }

    /// What was written apart is read apart, and nothing else is.
    #[test]
    fn well_formed_packages_have_no_problems(
        lot in "[A-Z]{1,10}",
        serial in "[a-z]{1,20}",
        month in 1i8..=12,
        day in 1i8..=28,
        order in 0usize..4,
    ) {
        let expiry = format!("30{month:02}{day:02}");
        let mut elements = vec![GTIN, ("17", &expiry[..]), ("10", &lot[..]), ("21", &serial[..])];
        elements.rotate_left(order);
        let package = read(&string(&elements), 2031);
        prop_assert_eq!(&package.problems, &Vec::new());
        prop_assert_eq!(package.lot, Some(lot));
        prop_assert_eq!(package.serial, Some(serial));
        prop_assert_eq!(package.expiry, Some(date(2030, month, day)));
    }
}
