//! Scales, missing scales, and weights that are hard to believe.

use hearthdose_core::dose;
use hearthdose_core::growth::Plausibility;
use hearthdose_core::order::{CheckedOrder, ContactKind};
use hearthdose_core::screening::{ReasonKind, weight_question};
use hearthdose_core::units::BodyWeight;
use hearthdose_tests::people::{DAY, weighing};
use jiff::civil::date;

use super::{ciprofloxacin, doxycycline, give, iodide, refusals, somebody};

fn weight(text: &str) -> BodyWeight {
    BodyWeight::parse(text).expect("a weight")
}

/// A hold, not a refusal for good: a second weighing and a lead's word, and the child gets its row.
#[test]
fn d22_a_real_child_far_from_the_curve_is_not_shut_out() {
    let order = doxycycline();
    // 60 lb at two years is beyond five deviations, and yet there are such children.
    let mut child = somebody("60 lb", "2 y");
    assert_eq!(refusals(&order, &child), ["implausible-weight"]);
    let reasons = dose::work_out(&order, &child, DAY).expect_err("a hold");
    assert_eq!(reasons[0].kind, ReasonKind::Hold);
    assert!(
        reasons[0].text.contains("weigh Ada again"),
        "{}",
        reasons[0].text
    );
    child.weighing.as_mut().expect("a weighing").hold_lifted = true;
    assert_eq!(give(&order, &child).text, "2½ teaspoons (12.5 mL)");
    // Lifting it lifts nothing else.
    let mut light = somebody("6 lb", "2 y");
    light.weighing.as_mut().expect("a weighing").hold_lifted = true;
    assert_eq!(refusals(&order, &light), ["below-lightest"]);
}

/// A doubtful weight is asked about (pounds or kilograms?) and never changed: what was typed is what counts.
#[test]
fn d22_doubt_asks_and_changes_nothing() {
    let order = doxycycline();
    let ask = |text: &str, age: &str| weight_question(&somebody("", age), &weight(text), DAY);
    // 40 lb is +3 and a half deviations at two years; 36 kg is 79.4 lb, for an adult little.
    assert_eq!(ask("40 lb", "2 y"), Plausibility::Ask);
    assert_eq!(ask("31 lb", "2 y"), Plausibility::Plausible);
    assert_eq!(ask("36 kg", "adult"), Plausibility::Ask);
    assert_eq!(ask("150 lb", "adult"), Plausibility::Plausible);
    assert_eq!(ask("70 lb", "11 y"), Plausibility::Plausible);
    assert_eq!(
        give(&order, &somebody("40 lb", "2 y")).text,
        "2 teaspoons (10 mL)"
    );
    // The outer limits hold for everybody, whatever the age.
    for text in ["1.9 kg", "301 kg"] {
        assert_eq!(ask(text, ""), Plausibility::Implausible, "{text}");
    }
}

/// Two readings, with and without the child; a pound of error is a whole row at 12 lb. The row is the mean's.
#[test]
fn d23_near_an_edge_the_mean_decides() {
    let (one, two) = (weight("12 lb 4 oz"), weight("12 lb 12 oz"));
    let half_a_pound = weight("1 lb").distance(&weight("0.5 lb"));
    assert!(
        one.distance(&two) <= half_a_pound,
        "they agree within half a pound"
    );
    assert!(one.distance(&weight("12 lb 13 oz")) > half_a_pound);
    let mean = one.mean(&two);
    assert_eq!(mean, weight("12 lb 8 oz"));
    let order = doxycycline();
    let row = |weight: BodyWeight| {
        let mut person = somebody("12 lb", "");
        person.weighing.as_mut().expect("a weighing").weight = weight;
        give(&order, &person).text
    };
    assert_eq!(row(one), "½ teaspoon (2.5 mL)");
    assert_eq!(row(two), "1 teaspoon (5 mL)");
    assert_eq!(row(mean), "½ teaspoon (2.5 mL)");
}

/// No scale at all: no guess, but a number to call and, for somebody grown, another way.
#[test]
fn d24_without_a_scale_nothing_is_guessed() {
    for order in [doxycycline(), ciprofloxacin()] {
        let unknown = somebody("", "");
        assert_eq!(refusals(&order, &unknown), ["weight-needed"]);
        let reasons = dose::work_out(&order, &unknown, DAY).expect_err("a question");
        assert_eq!(reasons[0].kind, ReasonKind::Missing);
        assert!(
            reasons[0].text.contains("say that Ada is 18 y or older"),
            "{}",
            reasons[0].text
        );
        assert!(dose::needs_weight(&order, &unknown, DAY));
        assert!(!dose::needs_weight(&order, &somebody("", "adult"), DAY));
    }
    let line = |order: &CheckedOrder, kind| {
        order
            .contacts
            .iter()
            .any(|c| c.kind == kind && !c.phone.is_empty())
    };
    for order in [doxycycline(), ciprofloxacin(), iodide()] {
        for kind in [
            ContactKind::Emergency,
            ContactKind::Poison,
            ContactKind::Questions,
            ContactKind::Refill,
        ] {
            assert!(line(&order, kind), "{} {kind:?}", order.id);
        }
    }
    assert!(!dose::needs_weight(&iodide(), &somebody("", "9 y"), DAY));
}

/// An old weighing is asked about and never blocks the dose that is due.
#[test]
fn d25_a_stale_weight_never_blocks() {
    let order = doxycycline();
    let mut child = somebody("31 lb 4 oz", "3 y");
    for weighed in [
        Some(date(2031, 4, 2)),
        Some(date(2030, 4, 2)),
        Some(date(2020, 1, 1)),
        None,
    ] {
        child.weighing = Some(hearthdose_core::household::Weighing {
            on: weighed,
            ..weighing("31 lb 4 oz")
        });
        assert_eq!(
            give(&order, &child).text,
            "1½ teaspoons (7.5 mL)",
            "{weighed:?}"
        );
    }
    let days = |lapse: hearthdose_core::units::Lapse| lapse.as_hours() / 24;
    let stale = order.medicine.stale_weight;
    assert_eq!((days(stale.under_two_years), days(stale.older)), (14, 60));
}
