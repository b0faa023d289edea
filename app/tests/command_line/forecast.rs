//! `forecast`: the tablets of a population, from files to JSON.

use serde_json::Value;

use crate::run::{File, demo, doxycycline, hearthdose, texts};

fn asked(population: &str, order: &str, days: &str) -> crate::run::Ran {
    let named = ["--population", population, "--order", order, "--days", days];
    hearthdose(&[&["forecast", "--json"], &named[..]].concat())
}

fn count(range: &Value) -> [u64; 3] {
    ["low", "expected", "high"].map(|name| range[name].as_u64().unwrap())
}

/// Four adults, ten days of two rounds, one tablet each; 80 and a spare of 4 are five packs of 20.
#[test]
fn four_adults() {
    let file = File::with("age,people,home\nadult,4,4\n");
    let order = demo("orders/quillmere-doxy-2.toml");
    let ran = asked(file.path(), &order, "10").expect(0);
    let begins = concat!(
        r#"{"people":4,"tablets":{"expected":80,"low":80,"high":80},"#,
        r#""one_tablet_per_dose":80,"#
    );
    assert!(ran.out.starts_with(begins), "{}", ran.out);
    let found = ran.json();
    assert_eq!(found["people"], 4);
    assert_eq!(count(&found["tablets"]), [80, 80, 80]);
    assert_eq!(found["one_tablet_per_dose"], 80);
    assert_eq!(count(&found["packs"]), [5, 5, 5]);
    assert_eq!(count(&found["handed_out"]), [100, 100, 100]);
    assert_eq!(found["liquid_ml"], Value::Null);
    assert_eq!(found["signed"], false);
    assert_eq!(found["invented"], true);
}

#[test]
fn the_demonstration_district() {
    let file = demo("populations/quillmere.csv");
    let found = asked(&file, &doxycycline(), "60").expect(0).json();
    // The sum of the column, and 120 rounds.
    let people: u64 = std::fs::read_to_string(&file)
        .unwrap()
        .lines()
        .filter(|line| !line.starts_with('#'))
        .filter_map(|line| line.split(',').nth(3)?.parse::<u64>().ok())
        .sum();
    assert_eq!(found["people"], people);
    assert_eq!(found["one_tablet_per_dose"], people * 120);
    let [low, expected, high] = count(&found["tablets"]);
    assert!(0 < low && low < expected && expected < high);
    assert!(high < people * 120);
    assert_eq!(texts(&found["held"], "code")[0], "below-youngest");
    assert_eq!(found["proven"], true);

    let text = hearthdose(&[
        "forecast",
        "--population",
        &file,
        "--order",
        &doxycycline(),
        "--days",
        "60",
    ])
    .expect(0)
    .out;
    for words in ["one for a dose", "Taken for granted", "for practice only"] {
        assert!(text.contains(words), "{text}");
    }
}

#[test]
fn what_cannot_be_read_is_told_line_by_line() {
    let file = File::with("age,people\n2 y,5\nten,x\n");
    let ran = asked(file.path(), &doxycycline(), "10").expect(2);
    assert_eq!(ran.out, "");
    assert_eq!(ran.err.matches("line 3: ").count(), 2, "{}", ran.err);
    asked("/nowhere/at-all.csv", &doxycycline(), "10").expect(2);
    let file = File::with("age,people\n2 y,5\n");
    for days in ["0", "-1", "3661", "ten"] {
        asked(file.path(), &doxycycline(), days).expect(2);
    }
}

#[test]
fn what_the_rules_refuse() {
    let file = File::with("age,people\n2 y,5\n");
    let beyond = asked(file.path(), &doxycycline(), "61");
    assert_eq!(beyond.refusals(), ["beyond-course"]);
    let many = File::with("age,people\nadult,10000001\n");
    let many = asked(many.path(), &doxycycline(), "10");
    assert_eq!(many.refusals(), ["too-many-people"]);
    // An order with errors is refused with its own problems.
    let order = demo("damaged/gap.toml");
    assert!(!asked(file.path(), &order, "10").refusals().is_empty());
}

#[test]
fn nobody_is_zero_and_is_said() {
    let file = File::with("age,people\n");
    let ran = asked(file.path(), &doxycycline(), "10").expect(0);
    assert!(ran.err.contains("nobody"), "{}", ran.err);
    let found = ran.json();
    assert_eq!(found["people"], 0);
    assert_eq!(count(&found["tablets"]), [0, 0, 0]);
    assert_eq!(found["one_tablet_per_dose"], 0);
}
