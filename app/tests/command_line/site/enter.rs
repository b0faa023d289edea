//! A paper list that is typed in later, and the empty list itself.

use serde_json::json;

use super::Street;
use crate::run::doxycycline;

const TWO: &str = "2031-04-03T14:00:00-05:00";
const SIX: &str = "2031-04-03T18:00:00-05:00";

/// A site with packs that has seen the Tarn household and gave it nothing yet.
fn seen() -> (Street, String) {
    let street = Street::new();
    let code = street.code("tarn-4");
    street.receive("a", "QD4471A", "2032-02-29", "24");
    street.serve("a", &code, &["--name", "Blue door"]).expect(0);
    (street, code)
}

fn enter<'a>(order: &'a str, given: &'a str, packs: &'a str) -> Vec<&'a str> {
    vec![
        "site",
        "enter",
        "--order",
        order,
        "--find",
        "blue",
        "--given-at",
        given,
        "--packs",
        packs,
        "--at",
        SIX,
    ]
}

#[test]
fn a_line_comes_in_once_with_its_time() {
    let (street, code) = seen();
    let order = doxycycline();
    let line = enter(&order, TWO, "QD4471A=4");
    assert_eq!(street.on("a", &line).refusals(), ["lead-needed"]);
    let line = [&line[..], &["--lead", "the battery was empty"]].concat();
    let written = street.on("a", &line).expect(0).json();
    assert_eq!(written["outcome"], "written-down");
    assert_eq!(written["given_at"], "2031-04-03T19:00:00Z");
    assert_eq!(
        written["lots"],
        json!([{"product": "tablet-100", "lot": "QD4471A", "packs": 4, "in_count": false}])
    );
    // Four packs are what the Tarns need for ten days.
    assert_eq!(written["enough_until"], "2031-04-12");
    assert_eq!(street.on("a", &line).refusals(), ["already-recorded"]);
    let totals = street.totals("a", &[]);
    assert_eq!(totals["lots"][0]["packs"], 20);
    // Whoever comes with the code afterwards was served.
    let again = street.serve("a", &code, &["--give"]).refusals();
    assert_eq!(again, ["served-before"]);
}

#[test]
fn a_count_after_it_lacks_its_packs() {
    let (street, _) = seen();
    let order = doxycycline();
    let count = [
        "site",
        "reconcile",
        "--lot",
        "QD4471A",
        "--product",
        "tablet-100",
        "--counted",
        "20",
        "--lead",
        "counted",
        "--at",
        "2031-04-03T16:00:00-05:00",
    ];
    street.on("a", &count).expect(0);
    let line = enter(&order, TWO, "QD4471A=4");
    let line = [&line[..], &["--lead", "the battery was empty"]].concat();
    let written = street.on("a", &line).expect(0).json();
    assert_eq!(written["lots"][0]["in_count"], true);
    assert_eq!(street.totals("a", &[])["lots"][0]["packs"], 20);
    let id = written["hand_out"].as_str().unwrap();
    let undo = ["site", "undo", "--hand-out", id, "--lead", "another home"];
    assert_eq!(street.on("a", &undo).expect(0).json()["back"], json!([]));
    assert_eq!(street.totals("a", &[])["lots"][0]["packs"], 20);
}

#[test]
fn what_the_list_cannot_mean_is_refused() {
    let (street, _) = seen();
    let order = doxycycline();
    let lead = ["--lead", "the battery was empty"];
    let refusal = |given: &str, packs: &str| {
        let line = enter(&order, given, packs);
        street.on("a", &[&line[..], &lead].concat()).refusals()
    };
    assert_eq!(refusal(TWO, "QX1=4"), ["lot-unknown"]);
    assert_eq!(refusal(TWO, "QD4471A=0"), ["no-packs"]);
    assert_eq!(
        refusal("2031-04-04T09:00:00-05:00", "QD4471A=4"),
        ["time-ahead"]
    );
    let line = enter(&order, TWO, "four");
    street.on("a", &[&line[..], &lead].concat()).expect(2);
    let line = enter(&order, "at two", "QD4471A=4");
    street.on("a", &[&line[..], &lead].concat()).expect(2);
    let totals = street.totals("a", &[]);
    assert_eq!(
        (&totals["hand_outs"], &totals["lots"][0]["packs"]),
        (&json!(0), &json!(24))
    );
}

#[test]
fn the_empty_list_is_a_paper() {
    let street = Street::new();
    let (order, out) = (doxycycline(), street.at("list.pdf"));
    let made = [
        "site",
        "list",
        "--order",
        &order,
        "--out",
        &out,
        "--language",
        "es",
    ];
    let made = street.on("a", &made).expect(0).json();
    assert_eq!(made["outcome"], "printed");
    let bytes = std::fs::read(&out).unwrap();
    assert!(bytes.starts_with(b"%PDF-"));
    assert_eq!(made["bytes"], bytes.len());
}
