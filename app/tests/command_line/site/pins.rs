//! The lead's PIN: asked for by what is the lead's, and read from anywhere but the arguments.

use serde_json::json;

use super::Street;
use crate::run::{File, Ran, hearthdose, hearthdose_reading};

const LEAD: &str = "40718\n";
const COUNT: [&str; 10] = [
    "site",
    "reconcile",
    "--lot",
    "QD4471A",
    "--product",
    "tablet-100",
    "--counted",
    "15",
    "--lead",
    "one pack was torn",
];

impl Street {
    /// One run with something typed.
    fn typed(&self, arguments: &[&str], typed: &str) -> Ran {
        let data = self.at("a");
        let all = [arguments, &["--data", &data, "--json"]].concat();
        hearthdose_reading(&all, typed.as_bytes())
    }

    fn pin(&self, role: &str, typed: &str) -> Ran {
        self.typed(&["site", "pin", "--role", role], typed)
    }
}

#[test]
fn the_first_is_anybodys_and_every_other_the_leads() {
    let street = Street::new();
    assert_eq!(street.pin("lead", "").refusals(), ["pin-needed"]);
    for (typed, why) in [
        ("123\n", "pin-too-short"),
        ("1234\n", "pin-in-a-row"),
        ("0000\n", "pin-repeated"),
        ("lead\n", "pin-not-digits"),
        ("4071840718407\n", "pin-too-long"),
    ] {
        assert_eq!(street.pin("lead", typed).refusals(), [why]);
    }
    let early = street.pin("volunteer", "926351\n");
    assert_eq!(early.refusals(), ["pin-lead-first"]);
    let set = street.pin("lead", LEAD).expect(0).json();
    assert_eq!(set, json!({"outcome": "set", "role": "lead"}));
    // From now on the lead's own comes first.
    let alone = street.pin("volunteer", "926351\n");
    assert_eq!(alone.refusals(), ["pin-needed"]);
    let other = street.pin("volunteer", "926351\n926351\n");
    assert_eq!(other.refusals(), ["pin-wrong"]);
    let same = street.pin("volunteer", "40718\n40718\n");
    assert_eq!(same.refusals(), ["pin-same"]);
    street.pin("volunteer", "40718\n926351\n").expect(0);
    street.pin("lead", "40718\n55512\n").expect(0);
    let old = street.pin("lead", "40718\n70707\n");
    assert_eq!(old.refusals(), ["pin-wrong"]);
    // A PIN among the arguments would be seen by others.
    let argument = ["site", "pin", "--role", "lead", "55512"];
    hearthdose(&argument).expect(2);
}

#[test]
fn what_is_the_leads_asks_for_it() {
    let street = Street::new();
    let code = street.code("tarn-4");
    street.receive("a", "QD4471A", "2032-02-29", "24");
    let unguarded = street.typed(&COUNT, "").expect(0);
    assert!(unguarded.err.contains("no PIN guards"), "{}", unguarded.err);
    street.pin("lead", LEAD).expect(0);

    assert_eq!(street.typed(&COUNT, "").refusals(), ["pin-needed"]);
    assert_eq!(street.typed(&COUNT, "926351\n").refusals(), ["pin-wrong"]);
    assert_eq!(street.totals("a", &[])["lots"][0]["packs"], 15);
    let counted = street.typed(&COUNT, LEAD).expect(0);
    assert_eq!(counted.json()["counted"], 15);
    assert!(!counted.err.contains("PIN"), "{}", counted.err);

    // A first hand-out is a helper's, a second one the lead's.
    let given = street.serve("a", &code, &["--give"]).expect(0).json();
    let lead = ["--give", "--lead", "the first bag was lost"];
    assert_eq!(street.serve("a", &code, &lead).refusals(), ["pin-needed"]);
    let file = File::with(LEAD);
    let with_file = [&lead[..], &["--pin-file", file.path()]].concat();
    street.serve("a", &code, &with_file).expect(0);
    assert_eq!(street.totals("a", &[])["hand_outs"], 2);

    let id = given["hand_out"].as_str().unwrap();
    let undo = [
        "site",
        "undo",
        "--hand-out",
        id,
        "--lead",
        "given to nobody",
    ];
    assert_eq!(street.typed(&undo, "926351\n").refusals(), ["pin-wrong"]);
    assert_eq!(street.totals("a", &[])["hand_outs"], 2);
    street.typed(&undo, LEAD).expect(0);
    assert_eq!(street.totals("a", &[])["hand_outs"], 1);
}

#[test]
fn after_five_wrong_ones_the_right_one_waits_too() {
    let street = Street::new();
    street.receive("a", "QD4471A", "2032-02-29", "24");
    street.pin("lead", LEAD).expect(0);
    for _ in 0..5 {
        assert_eq!(street.typed(&COUNT, "926351\n").refusals(), ["pin-wrong"]);
    }
    // Also when the command is for tomorrow.
    let tomorrow = [&COUNT[..], &["--at", "2031-04-04T10:00:00-05:00"]].concat();
    for wish in [&COUNT[..], &tomorrow] {
        assert_eq!(street.typed(wish, LEAD).refusals(), ["pin-wait"]);
    }
}
