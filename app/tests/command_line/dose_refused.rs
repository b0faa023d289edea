//! `dose`: every reason why not, and what cannot be read.

use serde_json::Value;

use crate::run::{File, Ran, demo, doxycycline, hearthdose};

fn ask(more: &[&str]) -> Ran {
    let order = doxycycline();
    let mut arguments = vec!["dose", "--order", &order, "--json"];
    arguments.extend(more);
    hearthdose(&arguments)
}

fn cleared(more: &[&str]) -> Vec<String> {
    let mut arguments = vec!["--clear"];
    arguments.extend(more);
    ask(&arguments).refusals()
}

// promise: P1
#[test]
fn without_screening_there_is_no_dose() {
    assert_eq!(
        ask(&["--weight", "31 lb 4 oz"]).refusals(),
        ["screening-not-done"]
    );
    // All reasons at once.
    assert_eq!(
        ask(&["--age", "20 d", "--born-early", "no"]).refusals(),
        ["screening-not-done", "below-youngest", "weight-needed"]
    );
}

// promise: P3
#[test]
fn the_youngest_the_early_and_the_lightest_are_held_also_when_cleared() {
    assert_eq!(
        cleared(&["--age", "20 d", "--weight", "9 lb"]),
        ["below-youngest"]
    );
    assert_eq!(
        cleared(&["--age", "4 wk", "--weight", "9 lb"]),
        ["below-youngest"]
    );
    assert_eq!(
        cleared(&["--age", "40 d", "--weight", "9 lb", "--born-early", "yes"]),
        ["born-early"]
    );
    assert_eq!(
        cleared(&[
            "--age",
            "40 d",
            "--weight",
            "9 lb",
            "--born-early",
            "unsure"
        ]),
        ["born-early"]
    );
    assert_eq!(cleared(&["--weight", "6 lb 15 oz"]), ["below-lightest"]);
    ask(&[
        "--clear",
        "--age",
        "40 d",
        "--weight",
        "9 lb",
        "--born-early",
        "no",
    ])
    .expect(0);
    ask(&["--clear", "--age", "1 mo", "--weight", "9 lb"]).expect(0);
    ask(&["--clear", "--weight", "7 lb"]).expect(0);
}

#[test]
fn weights_nobody_has_at_this_age_are_held() {
    // WHO 2006, girl of 731 days: +5 is 21.4 kg.
    assert_eq!(
        cleared(&["--age", "2 y", "--sex", "f", "--weight", "25 kg"]),
        ["implausible-weight"]
    );
    assert_eq!(cleared(&["--weight", "301 kg"]), ["implausible-weight"]);
    assert_eq!(
        cleared(&["--weight", "1.9 kg"]),
        ["below-lightest", "implausible-weight"]
    );
}

// promise: P1
#[test]
fn a_child_needs_a_weight() {
    assert_eq!(cleared(&["--age", "5 y"]), ["weight-needed"]);
    assert_eq!(cleared(&["--age", "17 y 11 mo"]), ["weight-needed"]);
}

#[test]
fn answers_stop_and_hold() {
    let weight = ["--weight", "150 lb", "--clear"];
    let answered = |answer: &str| ask(&[&weight[..], &["--answer", answer]].concat());
    let stopped = answered("allergy-tetracycline=yes").expect(3).json();
    assert_eq!(stopped["reasons"][0]["code"], "screening-stop");
    assert_eq!(stopped["reasons"][0]["instead"], "quillmere-ciprofloxacin");
    assert_eq!(answered("pregnant=yes").refusals(), ["screening-hold"]);
    answered("breastfeeding=yes").expect(0);
    answered("pregnant=no").expect(0);
}

// promise: P4
#[test]
fn unsure_never_clears() {
    for key in [
        "allergy-tetracycline",
        "pregnant",
        "breastfeeding",
        "kidney-or-liver",
        "current-medicines",
    ] {
        let answer = format!("{key}=unsure");
        let arguments = ["--weight", "150 lb", "--clear", "--answer", &answer];
        assert_eq!(ask(&arguments).refusals(), ["screening-unsure"], "{key}");
    }
}

// promise: P17
#[test]
fn an_order_with_errors_gives_no_dose() {
    let order = File::like(
        "orders/quillmere-doxy-1.toml",
        &[
            ("mg = \"50 mg\"", "mg = \"55 mg\""),
            ("kind = \"questions\"", "kind = \"refill\""),
        ],
    );
    let refusals = hearthdose(&[
        "dose",
        "--order",
        order.path(),
        "--clear",
        "--json",
        "--weight",
        "31 lb 4 oz",
    ])
    .refusals();
    let contains = |code: &str| refusals.iter().any(|found| found == code);
    assert!(
        contains("mg-differs") && contains("missing-contact"),
        "{refusals:?}"
    );
    let checked = hearthdose(&["order", "check", order.path(), "--json"])
        .expect(4)
        .json();
    assert_eq!(
        refusals,
        crate::run::texts(&checked["errors"], "code"),
        "the check's own codes"
    );
}

#[test]
fn reasons_are_printed_for_people_too() {
    let ran = hearthdose(&[
        "dose",
        "--order",
        &doxycycline(),
        "--clear",
        "--weight",
        "150 lb",
        "--answer",
        "pregnant=yes",
    ])
    .expect(3);
    assert!(
        ran.out.contains("screening-hold")
            && ran
                .out
                .contains("Call the nurse line before the first dose"),
        "{}",
        ran.out
    );
    assert!(
        ran.out.contains("555-0142") && ran.out.contains("does not replace your clinician"),
        "{}",
        ran.out
    );
}

/// Exit code 2, nothing on standard output, a sentence on standard error.
fn unreadable(ran: Ran, about: &str) {
    let ran = ran.expect(2);
    assert_eq!(ran.out, "");
    assert!(ran.err.contains(about), "{about}: {}", ran.err);
}

#[test]
fn what_cannot_be_read_is_said() {
    for (weight, about) in [
        ("31", "has no unit"),
        ("31 stone", "unknown unit"),
        ("heavy", "weight: "),
        ("-5 lb", "below zero"),
        ("31,5 lb", "comma"),
        ("0 lb", "zero"),
        ("", "nothing was typed"),
        ("31 lb 17 oz", "less than 16 ounces"),
        ("5,000 kg", "comma"),
        ("1001 kg", "too large"),
        ("30 kg 2 lb", "pounds and ounces"),
        ("NaN kg", "weight: "),
    ] {
        unreadable(ask(&["--clear", "--weight", weight]), about);
    }
    for age in ["3", "3 parsecs", "-1 y", "", "2.5 y", "9999999 y", "young"] {
        unreadable(ask(&["--clear", "--weight", "30 lb", "--age", age]), "age");
    }
    unreadable(ask(&["--clear"]), "how heavy");
    unreadable(
        ask(&["--weight", "30 lb", "--answer", "pregnant"]),
        "KEY=yes",
    );
    unreadable(
        ask(&["--weight", "30 lb", "--answer", "pregnant=maybe"]),
        "KEY=yes",
    );
    unreadable(
        ask(&["--weight", "30 lb", "--answer", "pregnent=no"]),
        "asks no question",
    );
    unreadable(
        ask(&[
            "--weight",
            "30 lb",
            "--answer",
            "pregnant=no",
            "--answer",
            "pregnant=yes",
        ]),
        "two ways",
    );
    unreadable(ask(&["--weight", "30 lb", "--sex", "x"]), "--sex");
}

#[test]
fn files_that_cannot_be_read_are_said() {
    let with = |order: &str| {
        hearthdose(&[
            "dose",
            "--order",
            order,
            "--clear",
            "--json",
            "--weight",
            "31 lb 4 oz",
        ])
    };
    unreadable(with("no-such-order.toml"), "no-such-order.toml");
    unreadable(with(&demo("orders")), "cannot read");
    unreadable(
        with(File::with(b"format = 1\nid = \xff\xfe").path()),
        "UTF-8",
    );
    unreadable(
        with(File::with("format = 1\nid = ").path()),
        "cannot be read",
    );
    unreadable(with(File::with("").path()), "empty");
}

#[test]
fn a_newer_format_is_readable_and_refused() {
    let order = File::like(
        "orders/quillmere-doxy-1.toml",
        &[("format = 1", "format = 2")],
    );
    let ran = hearthdose(&[
        "dose",
        "--order",
        order.path(),
        "--clear",
        "--json",
        "--weight",
        "31 lb 4 oz",
    ]);
    let json: Value = ran.expect(3).json();
    assert_eq!(json["reasons"][0]["code"], "newer-format");
}
