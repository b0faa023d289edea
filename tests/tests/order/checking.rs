//! The good orders pass, and the published numbers decide what passes.

use hearthdose_core::order::{
    BetweenRows, CautionKind, CheckedOrder, Measure, check_bytes, check_with,
};
use hearthdose_core::units::{BodyWeight, Volume};

use crate::{changed, errors, good_orders, order, read, set, text, warnings};

#[test]
fn every_good_order_passes_its_own_check() {
    let orders = good_orders();
    assert_eq!(orders.len(), 4);
    for order in &orders {
        let problems = check_with(order, &orders);
        assert_eq!(errors(&problems), set(&[]), "{}", order.id);
        let jumps_only = problems.iter().all(|problem| problem.code == "dose-jump");
        assert!(jumps_only, "{}: {problems:?}", order.id);
        assert!(CheckedOrder::new(order.clone()).is_ok(), "{}", order.id);
        assert!(order.invented, "{} is demonstration data", order.id);
    }
}

/// C3 and D3: with 7 lb and 110 % the published chart passes, and each jump of 1.5 times is named.
#[test]
fn the_published_chart_passes_and_its_jumps_are_named() {
    let problems = check_bytes(&read("orders", "quillmere-doxy-1"), &[]);
    assert_eq!(errors(&problems), set(&[]));
    assert_eq!(
        warnings(&problems),
        set(&["dose-jump at row 2", "dose-jump at row 3"])
    );
    let at_twelve = problems
        .iter()
        .find(|problem| problem.place == "row 2")
        .expect("the jump at 12 lb");
    // D4: 25 mg just over 12 lb is 4.59 mg/kg.
    assert!(
        at_twelve.text.contains("2 times") && at_twelve.text.contains("4.59 mg/kg"),
        "{}",
        at_twelve.text
    );
}

/// C3 and D3: the sketch with 5 lb and 100 % fails with two named rows, 151 % and 109 % over.
#[test]
fn the_sketch_fails_with_two_named_rows() {
    let sketch = text("quillmere-doxy-1")
        .replace("over = \"110 %\"", "over = \"100 %\"")
        .replace("lightest = \"7 lb\"", "lightest = \"5 lb\"");
    let problems = check_bytes(sketch.as_bytes(), &[]);
    assert_eq!(
        errors(&problems),
        set(&["tolerance at row 1", "tolerance at row 2"])
    );
    let text_of = |place: &str| {
        problems
            .iter()
            .find(|p| p.is_error() && p.place == place)
            .map(|p| p.text.clone())
            .unwrap_or_default()
    };
    assert!(
        text_of("row 1").contains("5.51 mg/kg, 151 % over"),
        "{}",
        text_of("row 1")
    );
    assert!(
        text_of("row 2").contains("4.59 mg/kg, 109 % over"),
        "{}",
        text_of("row 2")
    );
    // Neither change alone: 12.5 mg at 7 lb is 79 % over, but the gap above 12 lb is 109 % over.
    assert_eq!(
        errors(&changed(
            "quillmere-doxy-1",
            "over = \"110 %\"",
            "over = \"100 %\""
        )),
        set(&["tolerance at row 2"])
    );
    assert_eq!(
        errors(&changed(
            "quillmere-doxy-1",
            "lightest = \"7 lb\"",
            "lightest = \"5 lb\""
        )),
        set(&["tolerance at row 1"])
    );
}

/// 12.5 mg at 2.5 kg is 5 mg/kg, exactly 100 % over 2.5 mg/kg: a limit met exactly is kept, a milligram of body weight less is not.
#[test]
fn a_limit_met_exactly_is_kept() {
    let fails_from = |lightest: &str| {
        let order = text("quillmere-doxy-1")
            .replace("per-kg = \"2.2 mg\"", "per-kg = \"2.5 mg\"")
            .replace(
                "under = \"5 %\", over = \"110 %\"",
                "under = \"50 %\", over = \"100 %\"",
            )
            .replace("lightest = \"7 lb\"", &format!("lightest = \"{lightest}\""));
        errors(&check_bytes(order.as_bytes(), &[])).contains("tolerance at row 1")
    };
    assert!(!fails_from("2.5 kg"));
    assert!(fails_from("2.499999 kg"));
}

/// C4: potassium iodide's 130 mg chart with a 65 mg tablet, or one printed mass altered.
#[test]
fn recipe_and_chart_cannot_drift_apart() {
    let halved = changed(
        "quillmere-iodide-1",
        "strength = \"130 mg\"",
        "strength = \"65 mg\"",
    );
    let all = [
        "mg-differs at row 1",
        "mg-differs at row 2",
        "mg-differs at row 3",
        "mg-differs at row 4",
        "mg-differs at row 5",
    ];
    assert_eq!(errors(&halved), set(&all));
    assert_eq!(
        errors(&changed(
            "quillmere-iodide-1",
            "mg = \"32 mg\"",
            "mg = \"65 mg\""
        )),
        set(&["mg-differs at row 2"])
    );
    // Two 65 mg tablets make the same mixture (references c1).
    let two = text("quillmere-iodide-1")
        .replace("strength = \"130 mg\"", "strength = \"65 mg\"")
        .replace("tablets = 1", "tablets = 2");
    assert_eq!(errors(&check_bytes(two.as_bytes(), &[])), set(&[]));
}

/// Rule R1 of references.md: a row's top is 12.5·k / 2.2 / 0.45359237 lb to the nearest pound from the second row up.
#[test]
fn the_chart_follows_the_rule_of_its_source() {
    let order = order("quillmere-doxy-1");
    let tops = [
        "12 lb", "25 lb", "38 lb", "50 lb", "63 lb", "75 lb", "88 lb",
    ];
    assert_eq!(order.rows.len(), 8);
    for (index, (row, top)) in order.rows.iter().zip(tops).enumerate() {
        let top = BodyWeight::parse(top).expect("a weight");
        assert_eq!(
            row.to.as_ref().map(|limit| &limit.at),
            Some(&Measure::Weight(top)),
            "row {}",
            index + 1
        );
        let halves = u64::try_from(index).expect("small") + 1;
        assert_eq!(
            row.amount,
            Volume::HALF_TEASPOON.checked_mul(halves).expect("small")
        );
    }
    assert!(order.rows[7].to.is_none());
    assert_eq!(order.between_rows, BetweenRows::Enough);
    assert_eq!(
        order
            .cautions
            .iter()
            .filter(|caution| caution.kind == CautionKind::Emergency)
            .count(),
        1
    );
}

/// Something else than a number where people are told to call.
#[test]
fn a_contact_needs_digits_to_call() {
    let problems = changed("quillmere-doxy-1", "\"555-0142\"", "\"ask at the hall\"");
    assert_eq!(
        errors(&problems),
        set(&["phone-without-digits at contact 3.phone"])
    );
}

/// A third of a tablet is no whole number of micrograms, so such a row could never give an exact dose.
#[test]
fn a_row_must_hold_an_exact_mass() {
    let thirds = changed("quillmere-doxy-1", "water = \"4 tsp\"", "water = \"6 tsp\"");
    assert!(
        errors(&thirds).contains("mass-not-exact at row 1"),
        "{thirds:?}"
    );
}
