//! `dose`: amounts by the printed lines of the demonstration order.

use serde_json::{Value, json};

use crate::run::{File, Ran, demo, doxycycline, hearthdose, texts};

fn dose(more: &[&str]) -> Ran {
    let order = doxycycline();
    let mut arguments = vec!["dose", "--order", &order, "--json", "--clear"];
    arguments.extend(more);
    hearthdose(&arguments)
}

fn given(more: &[&str]) -> Value {
    dose(more).expect(0).json()
}

#[test]
fn the_contract_example() {
    let found = given(&["--weight", "31 lb 4 oz"]);
    // 31.25 lb x 0.45359237 = 14.17476 kg; 37.5 / 14.17476 = 2.6455.
    let expected = json!({
        "outcome": "dose", "form": "mixture", "row": "26 lb to 38 lb", "half_tsp": 3, "ml": "7.5", "tablets": null,
        "mg": "37.5", "mg_per_kg": "2.65", "text": "1½ teaspoons (7.5 mL)", "signed": false, "invented": true,
    });
    for (field, value) in expected.as_object().unwrap() {
        assert_eq!(&found[field], value, "{field}");
    }
    assert!(texts(&found["trace"], "text").contains(&"26 lb to 38 lb".to_owned()));
    assert_eq!(
        found.as_object().unwrap().len(),
        12,
        "the eleven above and the trace"
    );
}

/// Half teaspoons by weight; between lines the lower one serves while 2.2 mg/kg is still reached.
// promise: P6
#[test]
fn every_line_from_edge_to_edge() {
    for (weight, half_teaspoons, milligrams) in [
        ("7 lb", 1, "12.5"),
        ("12 lb", 1, "12.5"),
        ("12 lb 6 oz", 1, "12.5"), // 5.613 kg x 2.2 = 12.35
        ("12.6 lb", 2, "25"),      // 5.715 kg x 2.2 = 12.57
        ("13 lb", 2, "25"),
        ("25 lb", 2, "25"),
        ("25 lb 1 oz", 3, "37.5"), // 11.368 kg x 2.2 = 25.01
        ("26 lb", 3, "37.5"),
        ("38 lb", 3, "37.5"),
        ("38 lb 8 oz", 4, "50"), // 17.463 kg x 2.2 = 38.4
        ("17.5 kg", 4, "50"),    // 38.58 lb, between the lines
        ("39 lb", 4, "50"),
        ("50 lb", 4, "50"),
        ("50 lb 1 oz", 4, "50"), // 22.708 kg x 2.2 = 49.96
        ("50 lb 6 oz", 5, "62.5"),
        ("63 lb", 5, "62.5"),
        ("64 lb", 6, "75"),
        ("75 lb", 6, "75"),
        ("76 lb", 7, "87.5"),
        ("88 lb", 7, "87.5"),
        ("88 lb 8 oz", 8, "100"), // 40.143 kg x 2.2 = 88.3
        ("89 lb", 8, "100"),
        ("300 lb", 8, "100"),
    ] {
        let found = given(&["--weight", weight]);
        assert_eq!(found["half_tsp"], half_teaspoons, "{weight}");
        assert_eq!(found["mg"], milligrams, "{weight}");
        // Half a teaspoon is 2.5 mL.
        let tenths = half_teaspoons * 25;
        let millilitres = if tenths % 10 == 0 {
            format!("{}", tenths / 10)
        } else {
            format!("{}.5", tenths / 10)
        };
        assert_eq!(found["ml"], millilitres, "{weight}");
    }
}

#[test]
fn milligrams_for_each_kilogram_have_two_decimals_and_halves_go_up() {
    for (weight, expected) in [
        ("160 kg", "0.63"), // 0.625
        ("80 kg", "1.25"),
        ("50 kg", "2.00"),
        ("39.9 kg", "2.19"), // 87.96 lb: 87.5 mg, 2.193
        ("45.1 kg", "2.22"), // 2.2173
    ] {
        assert_eq!(
            given(&["--weight", weight])["mg_per_kg"],
            expected,
            "{weight}"
        );
    }
    assert_eq!(given(&["--age", "40 y"])["mg_per_kg"], Value::Null);
}

#[test]
fn between_lines_the_trace_names_the_rule() {
    let found = given(&["--weight", "38 lb 8 oz"]);
    assert!(texts(&found["trace"], "about").contains(&"between-rows".to_owned()));
    let found = given(&["--weight", "38 lb"]);
    assert!(!texts(&found["trace"], "about").contains(&"between-rows".to_owned()));
}

#[test]
fn an_adult_takes_the_last_line_whatever_the_weight() {
    let light = given(&["--age", "80 y", "--weight", "80 lb"]);
    assert_eq!(
        (&light["row"], &light["half_tsp"]),
        (&json!("89 lb or more"), &json!(8))
    );
    assert_eq!(light["mg_per_kg"], "2.76"); // 100 / 36.287
    assert_eq!(given(&["--age", "18 y"])["half_tsp"], 8);
    assert_eq!(given(&["--age", "adult"])["half_tsp"], 8);
    // Not known to be an adult: by weight.
    assert_eq!(given(&["--weight", "80 lb"])["half_tsp"], 7);
    assert_eq!(
        given(&["--age", "17 y 11 mo", "--weight", "80 lb"])["half_tsp"],
        7
    );
}

// promise: P2
#[test]
fn whole_tablets_only_where_the_line_is_whole_tablets() {
    let child = given(&["--weight", "40 lb", "--swallows-tablets"]);
    assert_eq!(
        (&child["form"], &child["half_tsp"], &child["tablets"]),
        (&json!("mixture"), &json!(4), &Value::Null)
    );
    let adult = given(&["--weight", "176 lb", "--swallows-tablets"]);
    assert_eq!(
        (&adult["form"], &adult["tablets"]),
        (&json!("tablets"), &json!(1))
    );
    assert_eq!(
        (&adult["half_tsp"], &adult["ml"]),
        (&Value::Null, &Value::Null)
    );
    assert_eq!(
        (&adult["mg"], &adult["text"]),
        (&json!("100"), &json!("1 whole tablet"))
    );
    assert_eq!(given(&["--weight", "176 lb"])["form"], "mixture");
}

#[test]
fn a_liquid_is_measured_in_millilitres() {
    let order = demo("orders/quillmere-ciprofloxacin-1.toml");
    let found = hearthdose(&[
        "dose",
        "--order",
        &order,
        "--clear",
        "--json",
        "--weight",
        "31 lb 4 oz",
    ])
    .expect(0)
    .json();
    // 30 lb to 36 lb: 5 mL of 250 mg / 5 mL.
    assert_eq!(
        (&found["form"], &found["ml"], &found["mg"]),
        (&json!("liquid"), &json!("5"), &json!("250"))
    );
    assert_eq!(
        (&found["half_tsp"], &found["tablets"]),
        (&Value::Null, &Value::Null)
    );
    assert_eq!(found["mg_per_kg"], "17.64"); // 250 / 14.17476 = 17.637
    assert!(found["text"].as_str().unwrap().starts_with("5 mL"));
}

#[test]
fn quarters_of_a_teaspoon_are_no_whole_halves() {
    let order = File::like(
        "orders/quillmere-doxy-1.toml",
        &[
            ("step = \"1/2 tsp\"", "step = \"1/4 tsp\""),
            (
                "amount = \"1/2 tsp\"\nmg = \"12.5 mg\"",
                "amount = \"3/4 tsp\"\nmg = \"18.75 mg\"\nreason = \"a line for this test\"",
            ),
        ],
    );
    let found = hearthdose(&[
        "dose",
        "--order",
        order.path(),
        "--clear",
        "--json",
        "--weight",
        "12 lb",
    ])
    .expect(0)
    .json();
    assert_eq!(
        (&found["half_tsp"], &found["ml"], &found["mg"]),
        (&Value::Null, &json!("3.75"), &json!("18.75"))
    );
    assert_eq!(found["text"], "¾ teaspoon (3.75 mL)");
}

#[test]
fn an_unusual_weight_is_asked_about_and_gives_a_dose() {
    // WHO 2006, girl of 731 days: +3 is 17.0 kg, +5 is 21.4 kg; 19 lb is usual.
    let ran = dose(&["--age", "2 y", "--sex", "f", "--weight", "19 kg"]).expect(0);
    assert!(
        texts(&ran.json()["trace"], "about").contains(&"weight-pounds-or-kilograms".to_owned())
    );
    assert!(
        ran.err.contains("pounds or kilograms?") && ran.err.contains("19 lb would be usual"),
        "{}",
        ran.err
    );
    let ran = dose(&["--age", "2 y", "--sex", "f", "--weight", "11.5 kg"]).expect(0);
    assert_eq!(ran.err, "");
}

#[test]
fn people_can_read_it_too() {
    let ran = hearthdose(&[
        "dose",
        "--order",
        &doxycycline(),
        "--clear",
        "--weight",
        "31 lb 4 oz",
    ])
    .expect(0);
    assert!(
        ran.out
            .starts_with("1½ teaspoons (7.5 mL) of the mixture\n"),
        "{}",
        ran.out
    );
    for words in [
        "26 lb to 38 lb",
        "not signed",
        "Invented order",
        "555-0142",
        "This does not replace your clinician; the order rules.",
    ] {
        assert!(ran.out.contains(words), "{words}");
    }
}

#[test]
fn answers_can_take_the_place_of_a_clearance() {
    let order = doxycycline();
    let mut arguments = vec![
        "dose",
        "--order",
        &order,
        "--json",
        "--weight",
        "31 lb 4 oz",
    ];
    let keys = [
        "allergy-tetracycline",
        "pregnant",
        "breastfeeding",
        "kidney-or-liver",
        "current-medicines",
    ];
    let answers: Vec<String> = keys.iter().map(|key| format!("{key}=no")).collect();
    arguments.extend(
        answers
            .iter()
            .flat_map(|answer| ["--answer", answer.as_str()]),
    );
    assert_eq!(hearthdose(&arguments).expect(0).json()["half_tsp"], 3);
    // A caution keeps no dose back.
    arguments.extend(["--answer", "breastfeeding=no"]);
    hearthdose(&arguments).expect(0);
}
