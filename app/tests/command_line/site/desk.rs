//! One device: receive, serve, give, total, count, undo.

use serde_json::json;

use super::{MORNING, Street};
use crate::run::{demo, doxycycline, hearthdose, texts};

#[test]
fn a_day_at_the_desk() {
    let street = Street::new();
    let code = street.code("tarn-4");
    let received = street.receive("a", "QD4471A", "2032-02-29", "24");
    // The order has 20 tablets in a pack.
    assert_eq!(
        (&received["each"], &received["on_shelf"]),
        (&json!(20), &json!(24))
    );

    let shown = street.serve("a", &code, &[]).expect(0).json();
    assert_eq!(shown["outcome"], "shown");
    assert_eq!(shown["for_lead"], json!([]));
    // By the chart: 148 lb and whole tablets, 131 lb, 45 lb, 31 lb 4 oz.
    let doses = shown["people"].as_array().unwrap();
    let of = |name: &str| {
        let person = doses
            .iter()
            .find(|person| person["nickname"] == name)
            .unwrap();
        (
            person["dose"]["tablets"].clone(),
            person["dose"]["half_tsp"].clone(),
        )
    };
    assert_eq!(of("Odile"), (json!(1), json!(null)));
    assert_eq!(of("Sunniva"), (json!(null), json!(8)));
    assert_eq!(of("Bram"), (json!(null), json!(4)));
    assert_eq!(of("Pim"), (json!(null), json!(3)));
    // Ten days from the third of April; looking takes nothing off the shelf.
    assert_eq!(shown["enough_until"], "2031-04-12");
    assert_eq!(street.totals("a", &[])["lots"][0]["packs"], 24);

    let slip = street.at("slip.png");
    let given = street
        .serve("a", &code, &["--give", "--slip", &slip, "--site", "Q7"])
        .expect(0)
        .json();
    assert_eq!(given["outcome"], "handed-out");
    let packs = given["bags"][0]["packs"].as_i64().unwrap();
    assert_eq!(packs, 4);
    let read = street.on("a", &["code", "read", &slip]).expect(0).json();
    assert_eq!(read["codes"][0]["outcome"], "new");
    assert_eq!(read["codes"][0]["text"], given["slip"]["text"]);

    let again = street.serve("a", &code, &["--give"]).refusals();
    assert_eq!(again, ["served-before"]);
    street
        .serve("a", &code, &["--give", "--lead", " "])
        .expect(3);
    assert_eq!(street.totals("a", &[])["lots"][0]["packs"], 20);
    let second = street
        .serve("a", &code, &["--give", "--lead", "the first bag was lost"])
        .expect(0)
        .json();

    let totals = street.totals("a", &["--servers", "2", "--service", "45 s"]);
    let counted = |field: &str| totals[field].as_f64().unwrap();
    assert_eq!(
        (counted("homes"), counted("hand_outs"), counted("people")),
        (1.0, 2.0, 4.0)
    );
    let lot = &totals["lots"][0];
    assert_eq!(
        (&lot["received"], &lot["out"], &lot["packs"]),
        (&json!(24), &json!(8), &json!(16))
    );
    // 16 packs at 8 an hour.
    assert_eq!(lot["runs_out_at"], "2031-04-03T12:00:00-05:00");
    // 2 homes an hour of 45 s each.
    assert_eq!(totals["line"]["load_erlang"], 2.0 * 45.0 / 3600.0);
    let full = street.totals("a", &["--servers", "1", "--service", "2 h"]);
    assert_eq!(full["line"]["stable"], false);

    let count = [
        "site",
        "reconcile",
        "--lot",
        "QD4471A",
        "--product",
        "tablet-100",
        "--counted",
        "15",
    ];
    assert_eq!(street.on("a", &count).refusals(), ["lead-needed"]);
    let put_right = street.on(
        "a",
        &[&count[..], &["--lead", "one pack was torn"]].concat(),
    );
    assert_eq!(put_right.expect(0).json()["difference"], -1);
    let unknown = [
        "site",
        "reconcile",
        "--lot",
        "QX1",
        "--product",
        "tablet-100",
        "--counted",
        "1",
    ];
    let refused = street.on("a", &[&unknown[..], &["--lead", "why"]].concat());
    assert_eq!(refused.refusals(), ["lot-unknown"]);

    let id = second["hand_out"].as_str().unwrap();
    let undo = ["site", "undo", "--hand-out", id];
    assert_eq!(street.on("a", &undo).refusals(), ["lead-needed"]);
    let undo = [&undo[..], &["--lead", "given to nobody"]].concat();
    let undone = street.on("a", &undo).expect(0).json();
    assert_eq!(undone["back"][0]["packs"], 4);
    assert_eq!(street.on("a", &undo).refusals(), ["already-undone"]);
    let shift = street.at("shift");
    street
        .on("a", &["shift", "export", "--out", &shift, "--at", MORNING])
        .expect(0);
    let file = std::fs::read_dir(&shift).unwrap().next().unwrap().unwrap();
    let bytes = std::fs::read(file.path()).unwrap();
    let reason = b"\"change\":\"withdraw\",\"reason\":\"given to nobody\"";
    assert!(bytes.windows(reason.len()).any(|part| part == reason));
    let totals = street.totals("a", &[]);
    assert_eq!(
        (&totals["hand_outs"], &totals["lots"][0]["packs"]),
        (&json!(1), &json!(19))
    );
}

#[test]
fn packs_are_received_as_the_package_says() {
    let street = Street::new();
    let order = doxycycline();
    let receive = |text: &str| {
        let wish = [
            "site", "receive", "--order", &order, "--packs", "3", "--at", MORNING,
        ];
        street.on("a", &[&wish[..], &["--package", text]].concat())
    };
    // A number that the order names, day 00: the last day of a February in a leap year.
    let good = receive("]d201095011015310171732020010QD4471A")
        .expect(0)
        .json();
    assert_eq!(good["expiry"], "2032-02-29");
    assert_eq!(
        (&good["lot"], &good["on_shelf"]),
        (&json!("QD4471A"), &json!(3))
    );
    assert_eq!(good["problems"], json!([]));
    // Lot and serial number run together: taken, and said.
    let joined = receive("010950110153101710QD4471A21S1").json();
    assert!(texts(&joined["reasons"], "code").contains(&"expiry-missing".to_owned()));
    let joined = receive("01095011015310171732020010QD4471A21S1").expect(0);
    assert!(joined.err.contains("separator"), "{}", joined.err);
    // Another product's number, and one with a wrong check digit.
    assert_eq!(
        receive("01095011015300031732020010QD1").refusals(),
        ["gtin-not-of-order"]
    );
    let wrong = receive("01095011015310181732020010QD1").refusals();
    assert!(wrong.contains(&"gtin-check-digit".to_owned()), "{wrong:?}");
    let bad = street.on(
        "a",
        &[
            "site",
            "receive",
            "--order",
            &order,
            "--packs",
            "3",
            "--lot",
            "L 1",
            "--expires",
            "2032-02-29",
        ],
    );
    assert_eq!(bad.refusals(), ["lot-unreadable"]);
    let typed = |more: &[&str]| {
        let wish = [
            "site", "receive", "--order", &order, "--packs", "3", "--lot", "L1",
        ];
        street.on("a", &[&wish[..], more].concat())
    };
    typed(&[]).expect(2);
    typed(&["--expires", "29 February"]).expect(2);
    let other = typed(&["--expires", "2032-02-29", "--product", "capsule"]);
    assert_eq!(other.refusals(), ["product-unknown"]);
}

#[test]
fn a_recalled_lot_is_never_in_a_bag() {
    let street = Street::new();
    let (tarn, alder) = (street.code("tarn-4"), street.code("alder-1"));
    // Of the two the one that was called back expires first, and would go first.
    street.receive("a", "QD3112", "2031-12-31", "24");
    let given = street.serve("a", &alder, &["--give"]).expect(0).json();
    assert_eq!(given["bags"][0]["takes"][0]["lot"], "QD3112");
    street.receive("a", "QD4471A", "2032-02-29", "24");
    let notice = demo("notices/quillmere-recall-lot.toml");
    let shown = street
        .serve("a", &tarn, &["--notice", &notice])
        .expect(0)
        .json();
    assert_eq!(texts(&shown["bags"][0]["takes"], "lot"), ["QD4471A"]);
    assert_eq!(
        shown["bags"][0]["passed_over"][0]["why"]["code"],
        "lot-recalled"
    );
    // The site was told once; nobody has to say it again.
    let given = street.serve("a", &tarn, &["--give"]).expect(0).json();
    assert_eq!(texts(&given["bags"][0]["takes"], "lot"), ["QD4471A"]);

    let holders = street
        .on("a", &["site", "recall", "--lot", "qd3112"])
        .expect(0)
        .json();
    assert_eq!(holders["homes"].as_array().unwrap().len(), 1);
    assert_eq!(holders["homes"][0]["packs"], given_packs(&street, "QD3112"));
}

/// Packs of a lot that went out, by the totals.
fn given_packs(street: &Street, lot: &str) -> serde_json::Value {
    let totals = street.totals("a", &[]);
    let lots = totals["lots"].as_array().unwrap();
    lots.iter().find(|row| row["lot"] == lot).unwrap()["out"].clone()
}

#[test]
fn a_street_to_practise_with_can_be_served() {
    let street = Street::new();
    let (one, two) = (street.at("one"), street.at("two"));
    let make = |out: &str| {
        let made = [
            "site", "demo", "--seed", "7", "--homes", "12", "--out", out, "--json",
        ];
        hearthdose(&made)
    };
    let made = make(&one).expect(0).json();
    make(&two).expect(0);
    assert_eq!(make(&one).refusals(), ["folder-in-use"]);
    let mut served = 0;
    for number in 1..=12 {
        let code = |folder: &str| {
            std::fs::read_to_string(format!("{folder}/codes/home-{number:04}.txt")).unwrap()
        };
        // The same seed, the same street.
        assert_eq!(code(&one), code(&two));
        let text = |field: &str| made[field].as_str().unwrap().to_owned();
        let (order, notice, data, at) = (text("order"), text("notice"), text("site"), text("at"));
        let shown = hearthdose(&[
            "site",
            "serve",
            "--order",
            &order,
            "--notice",
            &notice,
            "--code",
            &code(&one),
            "--data",
            &data,
            "--at",
            &at,
            "--json",
        ])
        .expect(0)
        .json();
        for sack in shown["bags"].as_array().unwrap() {
            served += 1;
            // One of the three is called back, one ends before the course does.
            assert_eq!(texts(&sack["takes"], "lot"), ["QD4471A"]);
        }
    }
    assert!(served >= 10, "{served}");
}
