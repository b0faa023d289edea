//! Impossible input is refused with a code and a sentence that repeats what was typed.

use hearthdose_core::units::{
    AgeSpan, BodyWeight, Mass, Percent, QuantityError, Strength, Volume, parse_lapse,
};

fn refused<T: std::fmt::Debug>(found: Result<T, QuantityError>, typed: &str, code: &str) {
    let error = found.expect_err(typed);
    assert_eq!(error.code(), code, "{typed}: {error}");
    let sentence = error.to_string();
    let repeats = typed.trim().is_empty() || sentence.contains(typed.trim());
    assert!(repeats, "{sentence}");
    assert!(!sentence.contains("QuantityProblem"), "{sentence}");
}

#[test]
fn weights_that_cannot_be() {
    for (typed, code) in [
        ("", "quantity-empty"),
        ("   ", "quantity-empty"),
        ("lb", "quantity-not-a-number"),
        ("31", "quantity-without-unit"),
        ("thirty lb", "quantity-not-a-number"),
        // The letters l and O for the digits 1 and 0.
        ("3l lb", "quantity-unknown-unit"),
        ("1O0 lb", "quantity-odd-mixture"),
        ("O5 lb", "quantity-not-a-number"),
        ("3 1 lb", "quantity-not-a-number"),
        ("1e2 lb", "quantity-odd-mixture"),
        ("NaN kg", "quantity-not-a-number"),
        ("٣١ lb", "quantity-not-a-number"),
        ("31.2.5 lb", "quantity-not-a-number"),
        ("31. lb", "quantity-not-a-number"),
        ("31,5 lb", "quantity-comma"),
        ("1,000 lb", "quantity-comma"),
        ("-5 lb", "quantity-negative"),
        ("−5 kg", "quantity-negative"),
        ("0 lb", "quantity-not-positive"),
        ("0 lb 0 oz", "quantity-not-positive"),
        ("0.0 kg", "quantity-not-positive"),
        // 20 oz beside pounds may be a slip for 2.0 or for 12: nobody can know.
        ("31 lb 20 oz", "quantity-odd-mixture"),
        ("31 lb 16 oz", "quantity-odd-mixture"),
        ("31.5 lb 4 oz", "quantity-odd-mixture"),
        ("4 oz 31 lb", "quantity-odd-mixture"),
        ("31 lb 4", "quantity-odd-mixture"),
        ("31 lb 4 lb", "quantity-odd-mixture"),
        ("31 lb 2 kg", "quantity-odd-mixture"),
        ("20 oz", "quantity-unknown-unit"),
        ("5 stone", "quantity-unknown-unit"),
        ("31 mg", "quantity-unknown-unit"),
        ("1/3 lb", "quantity-not-exact"),
        ("1/0 lb", "quantity-not-a-number"),
        ("5/ lb", "quantity-not-a-number"),
        ("1.1234567 lb", "quantity-too-fine"),
        ("1000.001 kg", "quantity-too-large"),
        ("2500 lb", "quantity-too-large"),
        ("100000 lb", "quantity-too-large"),
        ("100000 lb 3 oz", "quantity-too-large"),
        ("99999999999999999999 kg", "quantity-too-large"),
    ] {
        refused(BodyWeight::parse(typed), typed, code);
    }
}

/// A slip of one letter between teaspoon and tablespoon is a factor of three (AAP 2015), so only one of them is read.
#[test]
fn volumes_that_cannot_be() {
    for (typed, code) in [
        ("", "quantity-empty"),
        ("5", "quantity-without-unit"),
        ("1 tbsp", "quantity-unknown-unit"),
        ("1 tablespoon", "quantity-unknown-unit"),
        ("5 cc", "quantity-unknown-unit"),
        ("5 mg", "quantity-unknown-unit"),
        ("7,5 mL", "quantity-comma"),
        ("-1 tsp", "quantity-negative"),
        ("2 tsp 1 mL", "quantity-not-a-number"),
        ("1 2 tsp", "quantity-not-a-number"),
        ("1 3/2 tsp", "quantity-not-a-number"),
        ("0.0001 mL", "quantity-not-exact"),
        ("99999999999999999 L", "quantity-too-large"),
    ] {
        refused(Volume::parse(typed), typed, code);
    }
}

#[test]
fn masses_strengths_and_shares_that_cannot_be() {
    for (typed, code) in [
        ("100", "quantity-without-unit"),
        ("100 mL", "quantity-unknown-unit"),
        ("100 U", "quantity-unknown-unit"),
        ("1,000 mg", "quantity-comma"),
        ("12.5.0 mg", "quantity-not-a-number"),
        ("0.0001 mg", "quantity-not-exact"),
        ("99999999999999999 g", "quantity-too-large"),
    ] {
        refused(Mass::parse(typed), typed, code);
    }
    for (typed, code) in [
        ("0 mg", "quantity-not-positive"),
        ("25 mg / 0 mL", "quantity-not-positive"),
        ("0 mg / 5 mL", "quantity-not-positive"),
    ] {
        refused(Strength::parse(typed), typed, code);
    }
    assert!(Strength::parse("25 mg / 5 mg").is_err());
    assert!(Strength::parse("25 mg / ").is_err());
    assert!(Strength::parse("25 / 5 mL").is_err());
    for (typed, code) in [
        ("5", "quantity-without-unit"),
        ("1001 %", "quantity-too-large"),
        ("-5 %", "quantity-negative"),
        ("5 percent", "quantity-unknown-unit"),
    ] {
        refused(Percent::parse(typed), typed, code);
    }
}

#[test]
fn ages_and_times_that_cannot_be() {
    for (typed, code) in [
        ("", "quantity-empty"),
        ("3", "quantity-without-unit"),
        ("3 fortnights", "quantity-unknown-unit"),
        ("-3 y", "quantity-negative"),
        ("1.5 y", "quantity-not-exact"),
        ("3,5 y", "quantity-comma"),
        ("200 y", "quantity-too-large"),
        ("99999999999999999999 d", "quantity-too-large"),
        ("3 y 2 y", "quantity-odd-mixture"),
        ("2 mo 3 y", "quantity-odd-mixture"),
    ] {
        refused(AgeSpan::parse(typed), typed, code);
    }
    for (typed, code) in [
        ("5", "quantity-without-unit"),
        ("5 minutes ago", "quantity-unknown-unit"),
        ("-5 min", "quantity-negative"),
        ("1 mo", "quantity-unknown-unit"),
        ("5 min 5 min", "quantity-odd-mixture"),
        ("30 min 1 h", "quantity-odd-mixture"),
        ("99999 d", "quantity-too-large"),
    ] {
        refused(parse_lapse(typed), typed, code);
    }
}
