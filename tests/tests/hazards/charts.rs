//! Chart, strength and product.

use hearthdose_core::dose::DoseForm;
use hearthdose_core::household::Person;
use hearthdose_core::mixture::{self, CoursePlan, RoundTime, Seat, Wish};
use hearthdose_core::order::{Form, check_bytes};
use hearthdose_core::units::{Strength, Volume};
use hearthdose_tests::people::{DAY, checked, demo_text};
use jiff::Timestamp;

use super::{
    changed, ciprofloxacin, doxycycline, doxycycline_text, errors_of, give, iodide, problems,
    refusals, somebody,
};

fn swallower(weight: &str, age: &str) -> Person {
    let mut person = somebody(weight, age);
    person.swallows_tablets = true;
    person
}

/// Two rounds, half a day apart.
fn two_rounds(person: Person) -> CoursePlan {
    let at = |hours| {
        let first: Timestamp = "2031-04-03T08:00:00-05:00".parse().expect("an instant");
        first + jiff::SignedDuration::from_hours(hours)
    };
    let rounds = [0, 12].map(|hours| RoundTime {
        at: at(hours),
        day: DAY,
        who: vec![0],
    });
    let wish = Wish {
        order: &doxycycline(),
        seats: &[Seat {
            person,
            had: 0,
            renewed: 0,
        }],
        rounds: &rounds,
        standing: &[],
        fresh: false,
    };
    mixture::plan(&wish, &mut |_, _| {}).expect("a plan")
}

/// Check C1. A whole tablet would be 100 mg for a child of 40 lb, 5.5 mg/kg instead of 2.8; 8.5 mg/kg at 26 lb.
#[test]
fn d01_a_child_who_swallows_tablets_gets_the_bowl() {
    let order = doxycycline();
    for (weight, age, words, mg) in [
        ("40 lb", "5 y", "2 teaspoons (10 mL)", "50"),
        ("26 lb", "3 y", "1½ teaspoons (7.5 mL)", "37.5"),
        ("88 lb", "13 y", "3½ teaspoons (17.5 mL)", "87.5"),
    ] {
        let dose = give(&order, &swallower(weight, age));
        assert_eq!(dose.form, DoseForm::Mixture, "{weight}");
        assert_eq!(
            (dose.text.as_str(), dose.mass.milligrams().as_str()),
            (words, mg)
        );
        assert_eq!(dose.tablets, None);
    }
    // The row of exactly one tablet: whole for whoever swallows, the bowl for everybody else.
    let whole = give(&order, &swallower("89 lb", "13 y"));
    assert_eq!((whole.form, whole.tablets), (DoseForm::Tablets, Some(1)));
    assert_eq!(whole.text, "1 whole tablet");
    let bowl = give(&order, &somebody("89 lb", "13 y"));
    assert_eq!((bowl.form, bowl.tablets), (DoseForm::Mixture, None));
    assert_eq!(bowl.text, "4 teaspoons (20 mL)");
    // The order may forbid whole tablets altogether.
    let never = changed(
        &doxycycline_text(),
        "whole-if-row-allows = true",
        "whole-if-row-allows = false",
    );
    assert_eq!(
        give(&checked(&never), &swallower("150 lb", "40 y")).form,
        DoseForm::Mixture
    );
}

#[test]
fn d01_the_plan_counts_spoons_for_that_child() {
    let child = two_rounds(swallower("40 lb", "6 y"));
    // Twice 2 teaspoons are one bowl of 4.
    assert_eq!((child.whole_tablets, child.tablets), (0, 1));
    assert_eq!(child.bowls.len(), 1);
    assert!(
        child.bowls[0]
            .takes
            .iter()
            .all(|take| take.2 == Volume::microlitres(10_000))
    );
    let adult = two_rounds(swallower("150 lb", "40 y"));
    assert_eq!(
        (adult.whole_tablets, adult.tablets, adult.bowls.len()),
        (2, 2, 0)
    );
}

/// Check C3. 12.5 mg at 5 lb is 5.51 mg/kg, 151 % over; 25 mg just over 12 lb is 4.59 mg/kg, 109 % over.
#[test]
fn d03_the_sketch_fails_and_the_shipped_orders_pass() {
    let sketch = demo_text("damaged/tolerance-sketch");
    assert_eq!(
        errors_of(&sketch),
        ["error tolerance at row 1", "error tolerance at row 2"]
    );
    let texts: Vec<String> = check_bytes(sketch.as_bytes(), &[])
        .into_iter()
        .filter(|problem| problem.code == "tolerance")
        .map(|problem| problem.text)
        .collect();
    assert!(
        texts[0].contains("5.51 mg/kg") && texts[0].contains("151 % over"),
        "{texts:?}"
    );
    assert!(
        texts[1].contains("4.59 mg/kg") && texts[1].contains("109 % over"),
        "{texts:?}"
    );
    for name in [
        "quillmere-doxy-1",
        "quillmere-doxy-2",
        "quillmere-ciprofloxacin-1",
        "quillmere-iodide-1",
    ] {
        assert_eq!(
            errors_of(&demo_text(&format!("orders/{name}"))),
            Vec::<String>::new(),
            "{name}"
        );
    }
    // The shipped chart begins at 7 lb, where half a teaspoon is 3.94 mg/kg.
    assert_eq!(
        give(&doxycycline(), &somebody("7 lb", "")).hundredths_mg_per_kg,
        Some(394)
    );
    assert_eq!(
        refusals(&doxycycline(), &somebody("6.99 lb", "")),
        ["below-lightest"]
    );
}

/// Training case "12.4 lb": half a teaspoon, because it still reaches 2.2 mg/kg there (2.22); the next row would give 4.44.
#[test]
fn d04_at_12_4_lb_the_rule_is_named() {
    let enough = give(&doxycycline(), &somebody("12.4 lb", ""));
    assert_eq!(
        (enough.text.as_str(), enough.hundredths_mg_per_kg),
        ("½ teaspoon (2.5 mL)", Some(222))
    );
    let next_row = checked(&changed(
        &doxycycline_text(),
        "rule = \"enough\"",
        "rule = \"next row\"",
    ));
    let more = give(&next_row, &somebody("12.4 lb", ""));
    assert_eq!(
        (more.text.as_str(), more.hundredths_mg_per_kg),
        ("1 teaspoon (5 mL)", Some(444))
    );
    for (dose, rule) in [(&enough, "rule “enough”"), (&more, "rule “next row”")] {
        let line = dose.trace.iter().find(|line| line.about == "between-rows");
        assert!(
            line.is_some_and(|line| line.text.contains(rule)),
            "{:?}",
            dose.trace
        );
    }
    // The checker tells the jump and how far it reaches inside the printed gap.
    let jump = check_bytes(doxycycline_text().as_bytes(), &[])
        .into_iter()
        .find(|problem| problem.code == "dose-jump" && problem.place == "row 2")
        .expect("the jump of row 2");
    assert!(!jump.is_error());
    assert!(
        jump.text.contains("2 times") && jump.text.contains("4.59 mg/kg"),
        "{}",
        jump.text
    );
    // A chart with printed gaps and no rule is no chart.
    let no_rule = changed(
        &doxycycline_text(),
        "[between-rows]\nrule = \"enough\"\n",
        "",
    );
    assert_eq!(
        errors_of(&no_rule),
        ["error no-rule-between-rows at between-rows"]
    );
}

/// What the caregiver compares with the bottle is in the order, with form and strength.
#[test]
fn d06_orders_say_what_stands_on_the_bottle() {
    for (order, words) in [
        (doxycycline(), ["doxycycline", "100 mg", "tablet"]),
        (
            ciprofloxacin(),
            ["ciprofloxacin", "250 mg / 5 mL", "oral suspension"],
        ),
        (iodide(), ["potassium iodide", "130 mg", "tablet"]),
    ] {
        assert_eq!(order.main_product().expect("a product").label_says, words);
    }
    let silent = changed(
        &doxycycline_text(),
        "label-says = [\"doxycycline\", \"100 mg\", \"tablet\"]\n",
        "",
    );
    assert!(problems(&silent).contains(&"warning nothing-on-label at product 1".to_owned()));
}

/// Check C4. TWO 65 mg tablets in the newer sheet, ONE in the older: a chart for one strength with the other is wrong by half.
#[test]
fn d07_recipe_and_chart_cannot_drift_apart() {
    let iodide = demo_text("orders/quillmere-iodide-1");
    let other_tablet = changed(&iodide, "strength = \"130 mg\"", "strength = \"65 mg\"");
    let found = errors_of(&other_tablet);
    assert!(
        found.contains(&"error mg-differs at row 1".to_owned()),
        "{found:?}"
    );
    assert_eq!(
        found.len(),
        5,
        "every row is half of what it prints: {found:?}"
    );
    // With two of them the bowl is as strong as before, and nobody's row is a whole tablet of 65 mg unless it is two.
    let two = changed(&other_tablet, "tablets = 1\n", "tablets = 2\n");
    let order = checked(&two);
    let adult = give(&order, &swallower("", "30 y"));
    assert_eq!(
        (adult.tablets, adult.mass.milligrams().as_str()),
        (Some(2), "130")
    );
    let teenager = give(&order, &swallower("100 lb", "13 y"));
    assert_eq!(
        (teenager.tablets, teenager.mass.milligrams().as_str()),
        (Some(1), "65")
    );
    // One printed mass altered is one error; a halved and a doubled liquid are errors in every row.
    let altered = changed(&doxycycline_text(), "mg = \"62.5 mg\"", "mg = \"65.2 mg\"");
    assert_eq!(errors_of(&altered), ["error mg-differs at row 5"]);
    let liquid = demo_text("orders/quillmere-ciprofloxacin-1");
    let halved = changed(
        &liquid,
        "strength = \"250 mg / 5 mL\"",
        "strength = \"125 mg / 5 mL\"",
    );
    let differs = errors_of(&halved);
    assert_eq!(
        differs
            .iter()
            .filter(|problem| problem.contains("mg-differs"))
            .count(),
        12
    );
}

/// Check C5. An adult takes the last row whatever the weight, and needs none; without an age the row is the weight's.
#[test]
fn d08_adults_below_the_top_row() {
    let order = doxycycline();
    for (weight, age) in [
        ("80 lb", "80 y"),
        ("80 lb", "adult"),
        ("", "adult"),
        ("", "18 y"),
        ("300 lb", "40 y"),
    ] {
        let dose = give(&order, &somebody(weight, age));
        assert_eq!(
            (dose.text.as_str(), dose.row_text.as_str()),
            ("4 teaspoons (20 mL)", "89 lb or more"),
            "{weight} {age}"
        );
        assert_eq!(dose.hundredths_mg_per_kg.is_some(), !weight.is_empty());
    }
    assert_eq!(
        give(&order, &somebody("80 lb", "17 y 11 mo")).text,
        "3½ teaspoons (17.5 mL)"
    );
    // Age unknown: the row by weight; on a screen "child or adult?" is asked first.
    assert_eq!(
        give(&order, &somebody("80 lb", "")).text,
        "3½ teaspoons (17.5 mL)"
    );
    assert_eq!(refusals(&order, &somebody("", "")), ["weight-needed"]);
    assert_eq!(refusals(&order, &somebody("", "12 y")), ["weight-needed"]);
    // An order that names no age weighs its adults like everybody.
    let silent = checked(&changed(&doxycycline_text(), "adult-from = \"18 y\"\n", ""));
    assert_eq!(refusals(&silent, &somebody("", "adult")), ["weight-needed"]);
    assert_eq!(
        give(&silent, &somebody("80 lb", "adult")).text,
        "3½ teaspoons (17.5 mL)"
    );
}

/// Liquids go by the syringe: no half teaspoons where there are none, and the strength beside every amount.
#[test]
fn d26_liquids_have_their_own_steps() {
    let order = ciprofloxacin();
    assert_eq!(order.step(), Some(Volume::microlitres(500)));
    for (weight, text, spoons) in [
        (
            "15 lb",
            "2.5 mL of the liquid with 250 mg per 5 mL",
            Some(1),
        ),
        ("20 lb", "3 mL of the liquid with 250 mg per 5 mL", None),
        ("40 lb", "6 mL of the liquid with 250 mg per 5 mL", None),
    ] {
        let dose = give(&order, &swallower(weight, ""));
        assert_eq!((dose.form, dose.tablets), (DoseForm::Liquid, None));
        assert_eq!(dose.text, text);
        assert_eq!(dose.amount.half_teaspoons(), spoons);
    }
    let off_step = changed(
        &demo_text("orders/quillmere-ciprofloxacin-1"),
        "amount = \"3.5 mL\"\nmg = \"175 mg\"",
        "amount = \"3.6 mL\"\nmg = \"180 mg\"",
    );
    assert_eq!(errors_of(&off_step), ["error amount-off-step at row 5"]);
    let product = order.main_product().expect("a product");
    assert_eq!(product.form, Form::Liquid);
    assert!(matches!(product.strength, Strength::PerVolume { .. }));
    assert!(
        product.keep_opened.is_some(),
        "an opened bottle does not keep for ever"
    );
}
