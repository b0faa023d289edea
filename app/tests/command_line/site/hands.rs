//! What a helper adds, and codes that are no household's.

use serde_json::json;

use super::{MORNING, Street};
use crate::run::{File, doxycycline, texts};

#[test]
fn a_hold_waits_for_a_nurse_and_a_lead() {
    let street = Street::new();
    let code = street.code("alder-1");
    street.receive("a", "QD4471A", "2032-02-29", "24");
    let shown = street.serve("a", &code, &[]).expect(0).json();
    let person = shown["people"][0]["person"].to_string();
    let answer = format!("{person}:kidney-or-liver=yes");
    let held = street
        .serve("a", &code, &["--answer", &answer])
        .expect(0)
        .json();
    assert_eq!(held["people"][0]["dose"], json!(null));
    let reasons = texts(&held["people"][0]["reasons"], "code");
    assert!(
        reasons.contains(&"screening-hold".to_owned()),
        "{reasons:?}"
    );
    let refused = street.serve("a", &code, &["--give"]).refusals();
    assert_eq!(refused[0], "nothing-to-give");

    let lift = format!("{person}:kidney-or-liver");
    // Without a reason clap says so; what holds nobody cannot be lifted.
    street.serve("a", &code, &["--lift", &lift]).expect(2);
    let other = format!("{person}:current-medicines");
    let refused = street.serve("a", &code, &["--lift", &other, "--lead", "nurse said so"]);
    assert_eq!(refused.refusals(), ["not-a-hold"]);
    let lead = [
        "--lift",
        &lift,
        "--lead",
        "Dr. Invented at 555-0142 said yes",
        "--give",
    ];
    let given = street.serve("a", &code, &lead).expect(0).json();
    assert_eq!(given["outcome"], "handed-out");
}

#[test]
fn somebody_is_weighed_at_the_site() {
    let street = Street::new();
    let code = street.code("tarn-4");
    street.receive("a", "QD4471A", "2032-02-29", "24");
    // Pim crosses from the line 26 lb to 38 lb into the one from 39 lb.
    let heavier = street
        .serve("a", &code, &["--weigh", "Pim=39 lb 2 oz"])
        .expect(0)
        .json();
    let people = heavier["people"].as_array().unwrap();
    let pim = people
        .iter()
        .find(|person| person["nickname"] == "Pim")
        .unwrap();
    assert_eq!(pim["dose"]["half_tsp"], 4);
    for (wish, code_of_refusal) in [
        (["--weigh", "Nobody=39 lb"], "person-unknown"),
        (["--answer", "Pim:no-such-question=yes"], "question-unknown"),
    ] {
        assert_eq!(
            street.serve("a", &code, &wish).refusals(),
            [code_of_refusal]
        );
    }
    for wish in [
        ["--weigh", "Pim=39"],
        ["--weigh", "39 lb"],
        ["--answer", "Pim:pregnant"],
    ] {
        street.serve("a", &code, &wish).expect(2);
    }
}

#[test]
fn only_a_whole_household_code_is_served() {
    let street = Street::new();
    let code = street.code("tarn-4");
    let mut changed = code.clone();
    // One letter of the signature.
    let at = changed.len() - 6;
    let other = if &changed[at..=at] == "A" { "B" } else { "A" };
    changed.replace_range(at..=at, other);
    let refused = street.serve("a", &changed, &[]).refusals();
    assert!(
        ["damaged", "signature-wrong"].contains(&refused[0].as_str()),
        "{refused:?}"
    );
    assert_eq!(
        street.serve("a", "a loyalty card", &[]).refusals(),
        ["foreign"]
    );
    assert_eq!(
        street.serve("a", "HD2ABCZ", &[]).refusals(),
        ["newer-version"]
    );
    assert_eq!(
        street.serve("a", &code, &["--give"]).refusals()[0],
        "nothing-to-give"
    );

    street.receive("a", "QD4471A", "2032-02-29", "24");
    let too_long = "the school hall behind the mill";
    let refused = street
        .serve("a", &code, &["--give", "--site", too_long])
        .refusals();
    assert_eq!(refused, ["site-name-too-long"]);
    assert_eq!(street.totals("a", &[])["hand_outs"], 0);
    let slip = street.serve("a", &code, &["--give"]).expect(0).json();
    let slip = slip["slip"]["text"].as_str().unwrap();
    assert_eq!(
        street.serve("a", slip, &[]).refusals(),
        ["not-a-household-code"]
    );

    let order = doxycycline();
    let text = File::with("no picture");
    let wish = ["site", "serve", "--order", &order, "--at", MORNING];
    street.on("a", &wish).expect(2);
    street
        .on("a", &[&wish[..], &["--image", text.path()]].concat())
        .expect(2);
}
