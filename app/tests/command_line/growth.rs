//! `growth`: z-scores of published weights.

use serde_json::json;

use crate::run::hearthdose;

fn z(sex: &str, age: &str, weight: &str) -> String {
    let found = hearthdose(&[
        "growth", "--sex", sex, "--age", age, "--weight", weight, "--json",
    ])
    .expect(0)
    .json();
    assert_eq!(
        found["reference"],
        if age.ends_with("8 y") {
            "WHO 2007"
        } else {
            "WHO 2006"
        }
    );
    found["z"].as_str().unwrap().to_owned()
}

#[test]
fn the_contract_example() {
    let found = hearthdose(&[
        "growth", "--sex", "f", "--age", "2 y", "--weight", "11.5 kg", "--json",
    ])
    .expect(0);
    assert_eq!(found.json(), json!({"z": "0.01", "reference": "WHO 2006"}));
    let words = hearthdose(&[
        "growth", "--sex", "f", "--age", "2 y", "--weight", "11.5 kg",
    ])
    .expect(0);
    assert!(words.out.contains("0.01") && words.out.contains("WHO 2006"));
}

/// WHO Child Growth Standards, weight-for-age: medians and deviation columns at birth and at day 731.
#[test]
fn published_weights() {
    assert_eq!(z("m", "0 d", "3.3464 kg"), "0.00");
    assert_eq!(z("f", "0 d", "3.2322 kg"), "0.00");
    for (weight, low, high) in [("8.068 kg", -3.02, -2.98), ("17.019 kg", 2.98, 3.02)] {
        let z: f64 = z("female", "2 y", weight).parse().unwrap();
        assert!((low..=high).contains(&z), "{weight}: {z}");
    }
    // WHO 2007, boys, 96 months: median 25.4 kg.
    let z: f64 = z("M", "8 y", "25.4 kg").parse().unwrap();
    assert!(z.abs() < 0.05, "{z}");
}

#[test]
fn beyond_ten_years_there_is_no_reference() {
    let refused = |age| {
        hearthdose(&[
            "growth", "--sex", "m", "--age", age, "--weight", "40 kg", "--json",
        ])
        .refusals()
    };
    assert_eq!(refused("10 y 1 mo"), ["age-beyond-reference"]);
    assert_eq!(refused("40 y"), ["age-beyond-reference"]);
    hearthdose(&["growth", "--sex", "m", "--age", "10 y", "--weight", "40 kg"]).expect(0);
}

#[test]
fn what_cannot_be_read_is_said() {
    for arguments in [
        ["--sex", "f", "--age", "2", "--weight", "11.5 kg"],
        ["--sex", "f", "--age", "2 y", "--weight", "11.5"],
        ["--sex", "x", "--age", "2 y", "--weight", "11.5 kg"],
        ["--sex", "f", "--age", "2 y", "--weight", "0 kg"],
    ] {
        let ran = hearthdose(&[&["growth", "--json"], &arguments[..]].concat()).expect(2);
        assert!(ran.out.is_empty() && !ran.err.is_empty());
    }
    hearthdose(&["growth"]).expect(2);
}
