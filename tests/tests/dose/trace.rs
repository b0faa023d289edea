//! Every dose says how it came about.

use hearthdose_core::dose::{self, Dose};
use hearthdose_core::order::CheckedOrder;
use hearthdose_tests::people::{self, Dice, checked, demo_order, demo_text};

use super::of;

fn line<'a>(dose: &'a Dose, about: &str) -> Option<&'a str> {
    let found = dose.trace.iter().find(|line| line.about == about);
    found.map(|line| line.text.as_str())
}

#[test]
fn the_trace_of_a_child_between_two_rows() {
    let dose = of(&demo_order("quillmere-doxy-1"), "12.4 lb", "5 mo");
    let lines: Vec<(&str, &str)> = dose
        .trace
        .iter()
        .map(|line| (line.about, line.text.as_str()))
        .collect();
    let expected = [
        ("weight", "12.4 lb = 5.625 kg to the nearest gram"),
        ("age", "5 mo"),
        ("row", "up to 12 lb"),
        (
            "between-rows",
            "between “up to 12 lb” and “13 lb to 25 lb”; rule “enough”: the lower line still reaches the target at this weight",
        ),
        (
            "amount",
            "½ teaspoon (2.5 mL) of a bowl of 4 teaspoons (20 mL) (1 tablet in 20 mL)",
        ),
        ("mass", "12.5 mg, printed 12.5 mg"),
        (
            "per-kilogram",
            "2.22 mg/kg; target 2.2 mg/kg reached, at most 210 % of it",
        ),
        ("maximum", "below the largest dose of 100 mg"),
        ("invented", "an invented order, for practice only"),
    ];
    assert!(
        lines[0].0 == "order"
            && lines[0]
                .1
                .starts_with("quillmere-doxy revision 1, chart from: ")
    );
    assert_eq!(lines[1..], expected);
}

#[test]
fn the_rule_is_named_where_it_was_used() {
    let text =
        demo_text("orders/quillmere-doxy-1").replace("rule = \"enough\"", "rule = \"next row\"");
    let next_row = checked(&text);
    let between = |order: &CheckedOrder, weight: &str| {
        line(&of(order, weight, ""), "between-rows").map(str::to_owned)
    };
    let enough = demo_order("quillmere-doxy-1");
    assert!(
        between(&next_row, "12.4 lb")
            .unwrap()
            .contains("rule “next row”: the heavier or older line serves")
    );
    assert!(
        between(&enough, "12.9 lb")
            .unwrap()
            .contains("rule “enough”: the lower line no longer reaches")
    );
    assert_eq!(between(&enough, "12 lb"), None);
    let adult = of(&enough, "80 lb", "adult");
    assert_eq!(
        line(&adult, "between-rows"),
        Some("an adult takes the last line, whatever the weight")
    );
    let heavy = of(&demo_order("quillmere-iodide-1"), "150 lb", "16 y");
    assert_eq!(
        line(&heavy, "between-rows"),
        Some("heavy enough for the line of the next age")
    );
}

// promise: P7
#[test]
fn no_dose_without_its_trace() {
    let mut dice = Dice::new(7);
    let mut doses = 0;
    for _ in 0..150 {
        let made = people::order(&mut dice);
        let order = checked(&made.toml);
        for _ in 0..20 {
            let patient = people::patient(&mut dice, &made);
            let person = people::person(&patient);
            let Ok(dose) = dose::work_out(&order, &person, people::date(patient.day)) else {
                continue;
            };
            doses += 1;
            for about in ["order", "weight", "row", "amount", "mass"] {
                let text = line(&dose, about).unwrap_or_else(|| panic!("no {about}: {dose:#?}"));
                assert!(!text.is_empty());
            }
            assert!(
                line(&dose, "order")
                    .unwrap()
                    .starts_with("random revision 1")
            );
            assert_eq!(line(&dose, "row"), Some(dose.row_text.as_str()));
            assert!(line(&dose, "amount").unwrap().starts_with(&dose.text));
            let mass = format!("{} mg", dose.mass.milligrams());
            assert!(line(&dose, "mass").unwrap().starts_with(&mass));
            match &patient.weight {
                Some(typed) => assert!(
                    line(&dose, "weight")
                        .unwrap()
                        .starts_with(&format!("{typed} = "))
                ),
                None => assert_eq!(line(&dose, "weight"), Some("none given")),
            }
            assert_eq!(line(&dose, "age").is_some(), patient.age.is_some());
            let target = patient.weight.is_some() && made.toml.contains("per-kg");
            assert_eq!(line(&dose, "per-kilogram").is_some(), target);
            assert_eq!(
                line(&dose, "maximum").is_some(),
                made.toml.contains("max-dose")
            );
        }
    }
    assert!(doses > 1_000, "only {doses} doses");
}
