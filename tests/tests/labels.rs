//! The label-writing rules on every amount that the rules of the program can print.
//!
//! Sources (references j): ISMP list of error-prone abbreviations and dose designations (copies): no
//! trailing zero, always a leading zero, a space before the unit, a comma from 1,000 on, no full stop
//! after mg or mL, "½" and never "1/2", mL and never cc, mcg and never µg; AAP 2015: a teaspoon
//! never stands without its millilitres.

#[path = "labels/rules.rs"]
mod rules;
#[path = "labels/screens.rs"]
mod screens;
#[path = "labels/sweeps.rs"]
mod sweeps;
#[path = "labels/texts.rs"]
mod texts;

/// Fails with everything that is wrong with `text`.
#[track_caller]
fn keeps_the_rules(text: &str) {
    let found = rules::faults(text);
    assert!(found.is_empty(), "{text}: {found:?}");
}
