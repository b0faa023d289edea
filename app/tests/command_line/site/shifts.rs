//! Two devices without a network, and one merge later.

use serde_json::{Value, json};

use super::{MORNING, Street};
use crate::run::{File, Ran, doxycycline, texts};

fn export(street: &Street, device: &str, more: &[&str]) -> Value {
    let out = street.at(&format!("from-{device}"));
    let wish = ["shift", "export", "--out", &out, "--at", MORNING];
    street
        .on(device, &[&wish[..], more].concat())
        .expect(0)
        .json()
}

fn merge(street: &Street, device: &str, more: &[&str]) -> Ran {
    street.on(device, &[&["shift", "merge"], more].concat())
}

/// Two sites' devices that both served one home.
fn served_by_both(street: &Street) {
    let code = street.code("tarn-4");
    for device in ["a", "b"] {
        street.receive(device, "QD4471A", "2032-02-29", "24");
        street.serve(device, &code, &["--give"]).expect(0);
    }
}

#[test]
fn two_devices_find_out_that_both_served_a_home() {
    let street = Street::new();
    served_by_both(&street);
    // Received, seen, handed out, and out of stock.
    assert_eq!(export(&street, "a", &[])["facts"], 4);
    let from_b = export(&street, "b", &[]);
    let (a, b) = (street.at("from-a"), street.at("from-b"));
    // A device not met before is no alarm, and no friend either.
    assert_eq!(
        texts(
            &merge(&street, "a", &[&b]).expect(3).json()["reasons"],
            "code"
        ),
        ["signature-unknown"]
    );
    assert_eq!(street.totals("a", &[])["hand_outs"], 1);
    let on_a = merge(&street, "a", &[&b, "--trust"]).expect(0).json();
    let on_b = merge(&street, "b", &[&a, "--trust"]).expect(0).json();
    for merged in [&on_a, &on_b] {
        assert_eq!((&merged["new"], &merged["known"]), (&json!(4), &json!(0)));
        let twice = merged["served_twice"].as_array().unwrap();
        assert_eq!(twice.len(), 1);
        let devices = texts(&twice[0]["hand_outs"], "device");
        assert_eq!(devices.len(), 2);
        assert!(devices.contains(&from_b["device"].as_str().unwrap().to_owned()));
        assert_eq!(merged["code_conflicts"], json!([]));
    }
    // 24 and 24 came in, 4 and 4 went out.
    let totals = street.totals("a", &[]);
    assert_eq!(totals, street.totals("b", &[]));
    assert_eq!(
        (
            &totals["homes"],
            &totals["hand_outs"],
            &totals["lots"][0]["packs"]
        ),
        (&json!(1), &json!(2), &json!(40))
    );

    // A second time nothing changes, and the device is known now.
    let again = merge(&street, "a", &[&b]).expect(0).json();
    assert_eq!((&again["new"], &again["known"]), (&json!(0), &json!(4)));
    assert_eq!(again["files"][0]["outcome"], "already-merged");
    assert_eq!(totals, street.totals("a", &[]));
    // What came behind the last export is all there is in the next.
    let next = from_b["next"].to_string();
    street.receive("b", "QD9", "2032-02-29", "1");
    assert_eq!(export(&street, "b", &["--since", &next])["facts"], 5);
}

#[test]
fn a_shift_travels_in_codes_of_which_some_are_lost() {
    let street = Street::new();
    served_by_both(&street);
    let written = export(&street, "b", &["--codes"]);
    let file = &written["files"][0];
    let codes: Vec<&str> = file["codes"]
        .as_array()
        .unwrap()
        .iter()
        .map(|code| code.as_str().unwrap())
        .collect();
    // Symbols of 512 bytes, a quarter more than are needed, and two.
    let needed = file["bytes"].as_u64().unwrap().div_ceil(512);
    assert_eq!(u64::try_from(codes.len()).unwrap(), needed + needed / 4 + 2);
    let few = merge(&street, "a", &[&codes[..2], &["--trust"]].concat())
        .expect(3)
        .json();
    assert_eq!(texts(&few["reasons"], "code"), ["part-missing"]);
    assert_eq!(few["files"][1]["codes"], json!([2, needed]));
    // The second is lost, the others come from the last to the first.
    let mut most = codes.clone();
    most.remove(1);
    most.reverse();
    let whole = merge(&street, "a", &[&most[..], &["--trust"]].concat())
        .expect(0)
        .json();
    assert_eq!(whole["new"], 4);
}

#[test]
fn what_was_changed_is_not_taken_in() {
    let street = Street::new();
    served_by_both(&street);
    let written = export(&street, "b", &[]);
    let shift = written["files"][0]["file"].as_str().unwrap();
    let bytes = std::fs::read(shift).unwrap();
    let bad = |name: &str, bytes: &[u8]| {
        let path = street.at(name);
        std::fs::write(&path, bytes).unwrap();
        let merged = merge(&street, "a", &[&path, "--trust"]).expect(3).json();
        assert_eq!(
            (&merged["outcome"], &merged["new"]),
            (&json!("refused"), &json!(0))
        );
        texts(&merged["reasons"], "code").remove(0)
    };
    assert_eq!(bad("cut.shift", &bytes[..bytes.len() - 1]), "damaged");
    let mut signature = bytes.clone();
    *signature.last_mut().unwrap() ^= 1;
    assert_eq!(bad("signature.shift", &signature), "signature-wrong");
    // One bit of one entry.
    for place in [200, bytes.len() / 2, bytes.len() - 100] {
        let mut changed = bytes.clone();
        changed[place] ^= 1;
        let code = bad("bit.shift", &changed);
        assert!(
            ["damaged", "signature-wrong"].contains(&code.as_str()),
            "{code} at {place}"
        );
    }
    assert_eq!(bad("foreign.shift", b"%PDF-1.7 something else"), "foreign");
    assert_eq!(bad("empty.shift", b""), "foreign");
    assert_eq!(bad("no-picture.png", b"no picture"), "unreadable");
    let slip_like = street.code("alder-1");
    assert_eq!(bad("household.shift", slip_like.as_bytes()), "not-a-shift");
    merge(&street, "a", &[&street.at("nowhere.shift")]).expect(2);
    // A bad file keeps no good one out.
    let both = merge(&street, "a", &[&street.at("cut.shift"), shift, "--trust"])
        .expect(3)
        .json();
    assert_eq!(both["new"], 4);
}

#[test]
fn a_sealed_shift_opens_with_its_key_alone() {
    let street = Street::new();
    served_by_both(&street);
    let file = |name: &str, text: &str| {
        std::fs::write(street.at(name), text).unwrap();
        street.at(name)
    };
    // The key that the demonstration order names; its secret half is the SHA-256 of the words the order gives, by sha256sum.
    let public = "092d1a1954f18bcc948579aab5e63078b4f2fe5b531a3da35f7d7f21dbb4ff5d\n";
    let secret = "50f9a8f26fa7b0341dbbaa2e4e41c9ae30751d2c59ab45e1f11e90314bbfa64f\n";
    let (public, secret) = (file("public", public), file("secret", secret));
    let other = file("other", &"5".repeat(64));
    let sealed = export(&street, "b", &["--to", &public]);
    let shift = sealed["files"][0]["file"].as_str().unwrap();
    for with in [&["--trust"][..], &["--trust", "--key", &other]] {
        let merged = merge(&street, "a", &[&[shift], with].concat())
            .expect(3)
            .json();
        assert_eq!(texts(&merged["reasons"], "code"), ["sealed"]);
    }
    let opened = merge(&street, "a", &[shift, "--trust", "--key", &secret]).expect(0);
    assert_eq!(opened.json()["new"], 4);
    let empty = file("empty", "");
    assert_eq!(
        merge(&street, "a", &[shift, "--key", &empty]).refusals(),
        ["key-file-unusable"]
    );
}

#[test]
fn what_two_devices_undo_comes_back_once() {
    let street = Street::new();
    served_by_both(&street);
    export(&street, "b", &[]);
    let (a, b) = (street.at("from-a"), street.at("from-b"));
    let merged = merge(&street, "a", &[&b, "--trust"]).expect(0).json();
    let id = merged["served_twice"][0]["hand_outs"][0]["hand_out"].clone();
    export(&street, "a", &[]);
    merge(&street, "b", &[&a, "--trust"]).expect(0);
    let undo = [
        "site",
        "undo",
        "--hand-out",
        id.as_str().unwrap(),
        "--lead",
        "served twice",
    ];
    for device in ["a", "b"] {
        street.on(device, &undo).expect(0);
        export(&street, device, &[]);
    }
    let on_a = merge(&street, "a", &[&b]).expect(0).json();
    let on_b = merge(&street, "b", &[&a]).expect(0).json();
    for merged in [on_a, on_b] {
        // Both said the same.
        assert_eq!(merged["correction_conflicts"], json!([]));
        assert_eq!(merged["served_twice"], json!([]));
    }
    // 48 came in, 8 went out, 4 came back.
    let totals = street.totals("a", &[]);
    assert_eq!(totals["lots"][0]["packs"], 44);
    assert_eq!(totals, street.totals("b", &[]));
}

#[test]
fn two_codes_of_one_number_are_shown_side_by_side() {
    let street = Street::new();
    let one = street.code("tarn-4");
    // A telephone that was set back gives the same number again, and meanwhile Pim was weighed.
    std::fs::remove_file(street.at("tarn-4/issued-codes.json")).unwrap();
    let heavier = File::like("households/tarn-4.toml", &[("31 lb 4 oz", "32 lb")]);
    let (order, out) = (doxycycline(), street.at("two.png"));
    let wish = [
        "code",
        "write",
        "--household",
        heavier.path(),
        "--order",
        &order,
    ];
    let more = ["--out", &out, "--at", MORNING];
    let written = street
        .on("tarn-4", &[&wish[..], &more].concat())
        .expect(0)
        .json();
    let two = written["text"].as_str().unwrap();
    for (device, code) in [("a", one.as_str()), ("b", two)] {
        street.receive(device, "QD4471A", "2032-02-29", "24");
        street.serve(device, code, &[]).expect(0);
    }
    export(&street, "b", &[]);
    let from_b = street.at("from-b");
    let merged = merge(&street, "a", &[&from_b, "--trust"]).expect(0).json();
    let conflicts = merged["code_conflicts"].as_array().unwrap();
    assert_eq!(conflicts.len(), 1);
    let codes = conflicts[0]["codes"].as_array().unwrap();
    assert_eq!(codes.len(), 2);
    assert!(codes.iter().all(|code| code["issue"] == 1), "{codes:?}");
    assert_eq!(merged["served_twice"], json!([]));
    assert_eq!(
        street.serve("a", &one, &["--give"]).refusals(),
        ["code-conflicting"]
    );
}
