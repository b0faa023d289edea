//! A home that was handed over is forgotten here, against a receipt that names nobody.

use serde_json::{Value, json};

use super::{MORNING, Street};
use crate::run::Ran;

fn export(street: &Street, device: &str, more: &[&str]) -> Ran {
    let out = street.at(&format!("from-{device}"));
    let wish = ["shift", "export", "--out", &out, "--at", MORNING];
    street.on(device, &[&wish[..], more].concat())
}

fn forget(street: &Street, out: &str, more: &[&str]) -> Ran {
    let wish = ["site", "forget", "--out", out, "--at", MORNING];
    street.on("a", &[&wish[..], more].concat())
}

fn served(street: &Street) -> String {
    let code = street.code("tarn-4");
    street.receive("a", "QD4471A", "2032-02-29", "24");
    let name = ["--give", "--name", "blue door, Mill Lane"];
    street.serve("a", &code, &name).expect(0);
    code
}

fn read(street: &Street, picture: &str) -> Value {
    street.on("a", &["code", "read", picture]).expect(0).json()["codes"][0].clone()
}

#[test]
fn it_is_handed_over_first_and_merges_do_not_bring_it_back() {
    let street = Street::new();
    let code = served(&street);
    let out = street.at("receipt.png");
    let find = ["--find", "mill lane"];
    let early = forget(&street, &out, &find);
    assert_eq!(early.refusals(), ["not-handed-over"]);
    let other = forget(&street, &out, &["--find", "red door"]);
    assert_eq!(other.refusals(), ["home-unknown"]);
    export(&street, "a", &[]).expect(0);
    // Something new of it, after the file was written.
    street
        .serve("a", &code, &["--name", "green door, Mill Lane"])
        .expect(0);
    let early = forget(&street, &out, &["--code", &code]);
    assert_eq!(early.refusals(), ["not-handed-over"]);
    export(&street, "a", &[]).expect(0);

    let before = street.totals("a", &[]);
    let gone = forget(&street, &out, &find).expect(0).json();
    // Seen, named twice, handed out.
    assert_eq!(
        (&gone["facts"], &gone["never_handed_over"]),
        (&json!(4), &json!(0))
    );
    assert_eq!(gone["outcome"], "forgotten");
    let seen = read(&street, &out);
    assert_eq!(
        (&seen["kind"], &seen["outcome"]),
        (&json!("erasure"), &json!("new"))
    );
    assert_eq!(seen["text"], gone["text"]);
    // The shelves stay as they were; the home is gone, also after the file that has it.
    let stays = |device: &str| {
        let totals = street.totals(device, &[]);
        assert_eq!(totals["lots"][0]["packs"], before["lots"][0]["packs"]);
        assert_eq!(
            (&totals["homes"], &totals["hand_outs"]),
            (&json!(0), &json!(0))
        );
    };
    stays("a");
    let files = street.at("from-a");
    let again = street.on("a", &["shift", "merge", &files]).expect(0).json();
    assert_eq!(again["new"], 0);
    stays("a");
    assert_eq!(
        forget(&street, &street.at("2.png"), &find).refusals(),
        ["home-unknown"]
    );
    // Another device that knew the home hears of it.
    street
        .on("b", &["shift", "merge", &files, "--trust"])
        .expect(0);
    assert_eq!(street.totals("b", &[])["homes"], 1);
    export(&street, "a", &[]).expect(0);
    street.on("b", &["shift", "merge", &files]).expect(0);
    stays("b");
    // The receipt names nobody.
    let text = street.on("a", &["code", "read", &out]).expect(0).out;
    assert!(!text.contains("Mill") && !text.contains("Pim"), "{text}");
}

#[test]
fn a_lead_may_forget_what_nobody_else_has() {
    let street = Street::new();
    let code = served(&street);
    let out = street.at("receipt.png");
    let reason = ["--code", &code, "--even-unexported", "the tablet goes back"];
    let blank = ["--code", &code, "--even-unexported", " "];
    assert_eq!(forget(&street, &out, &blank).refusals(), ["reason-unfit"]);
    let gone = forget(&street, &out, &reason).expect(0).json();
    assert_eq!(gone["never_handed_over"], 3);
    let data = street.at("a");
    let words = crate::run::hearthdose(&["code", "read", &out, "--data", &data]);
    assert!(words.out.contains("the tablet goes back"), "{}", words.out);
    // No file is written over, and one home is named in one way.
    street.serve("a", &code, &[]).expect(0);
    forget(&street, &out, &reason).expect(2);
    forget(&street, &out, &[]).expect(2);
    let both = ["--code", &code, "--find", "mill lane"];
    forget(&street, &out, &both).expect(2);
    forget(&street, &out, &["--home", "blue door"]).expect(2);
    let unknown = ["--home", "00112233445566ff"];
    assert_eq!(
        forget(&street, &street.at("3.png"), &unknown).refusals(),
        ["home-unknown"]
    );
}

#[test]
fn private_answers_leave_in_sealed_files_only() {
    let street = Street::new();
    let code = served(&street);
    export(&street, "a", &[]).expect(0);
    let answer = ["--answer", "Sunniva:pregnant=no"];
    street.serve("a", &code, &answer).expect(0);
    assert_eq!(export(&street, "a", &[]).refusals(), ["private-answers"]);
    let key = street.on("b", &["site", "key"]).expect(0).json();
    let file = street.at("b.key");
    std::fs::write(&file, key["x25519"].as_str().unwrap()).unwrap();
    let sealed = export(&street, "a", &["--to", &file]).expect(0).json();
    let shift = sealed["files"][0]["file"].as_str().unwrap();
    let secret = street.at("b/site.key");
    let taken = ["shift", "merge", shift, "--trust", "--key", &secret];
    street.on("b", &taken).expect(0);
    // What was sealed was handed over.
    let out = street.at("receipt.png");
    forget(&street, &out, &["--find", "mill lane"]).expect(0);
}
