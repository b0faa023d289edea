//! `order check` and `order compare`.

use serde_json::{Value, json};

use crate::run::{File, demo, doxycycline, hearthdose, texts};

fn check(files: &[&str]) -> crate::run::Ran {
    hearthdose(&[&["order", "check", "--json"], files].concat())
}

#[test]
fn the_demonstration_orders_have_no_errors() {
    for name in [
        "quillmere-doxy-1",
        "quillmere-doxy-2",
        "quillmere-ciprofloxacin-1",
        "quillmere-iodide-1",
    ] {
        let found = check(&[&demo(&format!("orders/{name}.toml"))])
            .expect(0)
            .json();
        assert_eq!(found["errors"], json!([]), "{name}");
    }
    // From 12.5 mg to 25 mg just over 12 lb: the jump is a warning with its place.
    let found = check(&[&doxycycline()]).json();
    let jump = found["warnings"]
        .as_array()
        .unwrap()
        .iter()
        .find(|warning| warning["code"] == "dose-jump")
        .unwrap();
    assert_eq!(jump["where"], "row 2");
    assert_eq!(
        found.as_object().unwrap().keys().collect::<Vec<_>>(),
        ["errors", "warnings"]
    );
    assert_eq!(jump.as_object().unwrap().len(), 3, "code, where and text");
}

#[test]
fn every_problem_is_found_at_once() {
    let order = File::like(
        "orders/quillmere-doxy-1.toml",
        &[
            ("mg = \"50 mg\"", "mg = \"55 mg\""),
            ("kind = \"questions\"", "kind = \"refill\""),
            (
                "time-zone = \"America/Chicago\"",
                "time-zone = \"America/Quillmere\"",
            ),
            ("issuer = ", "isuer = "),
        ],
    );
    let ran = check(&[order.path()]).expect(4);
    let codes = texts(&ran.json()["errors"], "code");
    for code in [
        "mg-differs",
        "missing-contact",
        "unknown-zone",
        "misspelled-field",
    ] {
        assert!(codes.contains(&code.to_owned()), "{code}: {codes:?}");
    }
    let words = hearthdose(&["order", "check", order.path()]).expect(4);
    assert!(words.out.contains("cannot be signed or used") && words.out.contains("mg-differs"));
}

/// Source: 12.5 mg at 5 lb is 5.51 mg/kg, and 25 mg just over 12 lb is 4.59, both more than twice 2.2.
#[test]
fn a_chart_that_leaves_its_tolerance_is_an_error() {
    let order = File::like(
        "orders/quillmere-doxy-1.toml",
        &[
            ("lightest = \"7 lb\"", "lightest = \"5 lb\""),
            ("over = \"110 %\"", "over = \"100 %\""),
        ],
    );
    let found = check(&[order.path()]).expect(4).json();
    let places: Vec<&Value> = found["errors"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|error| error["code"] == "tolerance")
        .map(|error| &error["where"])
        .collect();
    assert_eq!(places, ["row 1", "row 2"]);
}

#[test]
fn files_that_cannot_be_read_end_with_2() {
    let ran = check(&[File::with("format = ").path()]).expect(2);
    assert_eq!(texts(&ran.json()["errors"], "code"), ["unreadable-file"]);
    assert!(!ran.err.is_empty());
    let ran = check(&[File::with([0xff, 0xfe, 0x00]).path()]).expect(2);
    assert_eq!(texts(&ran.json()["errors"], "code"), ["unreadable-file"]);
    assert_eq!(check(&["no-such-order.toml"]).expect(2).out, "");
    assert_eq!(check(&[]).expect(2).out, "");
    // Readable, only newer.
    let order = File::like(
        "orders/quillmere-doxy-1.toml",
        &[("format = 1", "format = 7")],
    );
    assert_eq!(
        texts(&check(&[order.path()]).expect(4).json()["errors"], "code"),
        ["newer-format"]
    );
}

#[test]
fn several_orders_are_checked_beside_each_other() {
    let cipro = demo("orders/quillmere-ciprofloxacin-1.toml");
    let found = check(&[&doxycycline(), &cipro]).expect(0).json();
    assert!(!texts(&found["warnings"], "code").contains(&"instead-not-here".to_owned()));
    // Whoever cannot take the one is sent to the other, and back.
    let back = File::like(
        "orders/quillmere-ciprofloxacin-1.toml",
        &[(
            "if-yes = \"stop\"",
            "if-yes = \"stop\"\ninstead = \"quillmere-doxy\"",
        )],
    );
    let found = check(&[&doxycycline(), back.path()]).expect(4).json();
    assert!(texts(&found["errors"], "code").contains(&"instead-cycle".to_owned()));
    assert!(
        texts(&found["errors"], "file")
            .iter()
            .any(|file| file == back.path())
    );
}

#[test]
fn changes_are_named_in_words() {
    let compare = |old: &str, new: &str| hearthdose(&["order", "compare", old, new, "--json"]);
    let longer = File::like(
        "orders/quillmere-doxy-1.toml",
        &[
            ("soak = \"5 min\"", "soak = \"10 min\""),
            ("revision = 1", "revision = 2"),
        ],
    );
    let found = compare(&doxycycline(), longer.path()).expect(0).json();
    let changes = found["changes"].as_array().unwrap();
    assert_eq!(changes.len(), 1);
    assert_eq!(
        (&changes[0]["where"], &changes[0]["text"]),
        (
            &json!("recipe.soak"),
            &json!("soak 10 minutes, was 5 minutes")
        )
    );
    assert_eq!(
        compare(&doxycycline(), &doxycycline()).expect(0).json(),
        json!({"changes": []})
    );
    let words = hearthdose(&["order", "compare", &doxycycline(), longer.path()]).expect(0);
    assert!(words.out.contains("soak 10 minutes, was 5 minutes"));
    assert_eq!(
        compare(&doxycycline(), "no-such-order.toml").expect(2).out,
        ""
    );
    assert_eq!(
        compare(&doxycycline(), File::with("x = ").path())
            .expect(2)
            .out,
        ""
    );
    let broken = File::like(
        "orders/quillmere-doxy-1.toml",
        &[("interval = \"12 h\"", "interval = \"12\"")],
    );
    assert_eq!(
        compare(&doxycycline(), broken.path()).refusals(),
        ["quantity-without-unit"]
    );
}

#[test]
fn changed_words_of_the_medicine_and_of_whom_to_call_are_told() {
    let order = "orders/quillmere-doxy-1.toml";
    let changes = [
        (
            "words = { es = \"doxiciclina\" }",
            "words = { es = \"doxi\" }",
        ),
        (
            "es = \"Línea de emergencia de Quillmere\"",
            "es = \"otra oficina\"",
        ),
    ];
    let newer = File::like(order, &changes);
    let wish = ["order", "compare", &demo(order), newer.path(), "--json"];
    let told = hearthdose(&wish).expect(0).json();
    let texts = texts(&told["changes"], "text");
    assert_eq!(texts.len(), 3, "{texts:?}");
    // Two files of one revision that differ are told too.
    assert!(texts[0].contains("revision 1"), "{texts:?}");
    assert_eq!(texts[1], "the translated name of the medicine changed");
    assert!(
        texts[2].ends_with(": the translated names changed"),
        "{texts:?}"
    );
}
