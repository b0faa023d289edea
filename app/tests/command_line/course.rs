//! `plan` for the demonstration households: who takes what, how many tablets, who is refused.

use serde_json::{Value, json};

use crate::households::{amount, at, demo_plan, index, list, plan_of};
use crate::run::{File, demo, doxycycline, hearthdose, texts};

#[test]
fn one_person_who_swallows_tablets() {
    let plan = demo_plan("alder-1", &[]);
    assert_eq!(
        (&plan["order"], &plan["revision"], &plan["household"]),
        (
            &json!("quillmere-doxy"),
            &json!(1),
            &json!("Alder household")
        )
    );
    assert_eq!(
        (&plan["days"], &plan["time_zone"], &plan["invented"]),
        (&json!(60), &json!("America/Chicago"), &json!(true))
    );
    // 60 days twice a day; day 10 of 60 ends the first supply; day 60 is 1 June.
    assert_eq!(list(&plan, "rounds").len(), 120);
    assert_eq!(
        (&plan["tablets"], &plan["lower_bound"], &plan["proven"]),
        (&json!(120), &json!(120), &json!(true))
    );
    assert_eq!(
        (&plan["refill_date"], &plan["course_end"]),
        (&json!("2031-04-12"), &json!("2031-06-01"))
    );
    assert_eq!(
        (&plan["refused"], &plan["liquid_ml"]),
        (&json!([]), &Value::Null)
    );
    let first = &list(&plan, "rounds")[0];
    assert_eq!(
        (&first["at"], &first["hours_since_last"], &first["bowls"]),
        (
            &json!("2031-04-03T08:00:00-05:00"),
            &Value::Null,
            &json!([])
        )
    );
    assert_eq!(first["doses"][0]["text"], "1 whole tablet");
    assert_eq!(
        plan["zone_data"].as_str().unwrap().len(),
        5,
        "an edition such as 2026f"
    );
}

/// Odile swallows; Sunniva, an adult, drinks 8 half teaspoons; Bram (45 lb) takes 4 and Pim (31 lb 4 oz) 3.
#[test]
fn four_people() {
    let plan = demo_plan("tarn-4", &["--days", "1"]);
    let taken = |round| ["Odile", "Sunniva", "Bram", "Pim"].map(|name| amount(&plan, round, name));
    for round in 0..2 {
        assert_eq!(taken(round), [Some(-1), Some(8), Some(4), Some(3)]);
    }
    // A tablet and a bowl of her own each round; 4 + 3 and 4 + 3 make two bowls.
    assert_eq!(
        (&plan["tablets"], &plan["whole_tablets"]),
        (&json!(2 + 2 + 2), &json!(2))
    );
    let whole = demo_plan("tarn-4", &[]);
    // 4 + 4 of two neighbouring rounds and 3 + 3 of two others fill no fewer bowls than one for each round: 7 of 8 is used.
    assert_eq!(
        (&whole["tablets"], &whole["proven"]),
        (&json!(3 * 120), &json!(true))
    );
}

#[test]
fn nine_people() {
    let plan = demo_plan("ferrow-9", &[]);
    // Sanne begins on day 3, so the last day of all courses is two days after everybody else's.
    assert_eq!(
        (&plan["days"], &plan["course_end"]),
        (&json!(62), &json!("2031-06-03"))
    );
    let first = ["Gudrun", "Tomas", "Kester", "Runa", "Edda"].map(|name| amount(&plan, 0, name));
    // 83 years; two tablets; 70 lb; 12 lb 6 oz, where ½ teaspoon still reaches 2.2 mg/kg.
    assert_eq!(first, [Some(8), Some(-1), Some(-1), Some(6), Some(1)]);
    // 5 April is the fifth round; 50 lb 6 oz no longer reaches 2.2 mg/kg with the lower line.
    assert_eq!(
        (amount(&plan, 3, "Sanne"), amount(&plan, 4, "Sanne")),
        (None, Some(5))
    );
    // Born on 14 March: a month old on 14 April, the 23rd round.
    assert_eq!(
        (amount(&plan, 21, "Nils"), amount(&plan, 22, "Nils")),
        (None, Some(1))
    );
    assert_eq!(list(&plan, "rounds")[22]["at"], "2031-04-14T08:00:00-05:00");
    // After day 60 only Sanne is left.
    assert_eq!(list(&list(&plan, "rounds")[120], "doses").len(), 1);

    let refused = list(&plan, "refused");
    assert_eq!(
        texts(&plan["refused"], "person"),
        ["Anselm", "Lene", "Nils"]
    );
    let codes: Vec<Vec<String>> = refused
        .iter()
        .map(|held| texts(&held["reasons"], "code"))
        .collect();
    assert_eq!(
        codes,
        [["screening-stop"], ["screening-hold"], ["below-youngest"]]
    );
    let spans: Vec<(usize, &Value)> = refused
        .iter()
        .map(|held| (index(&held["from_round"]), &held["until_round"]))
        .collect();
    assert_eq!(
        spans,
        [(0, &Value::Null), (0, &Value::Null), (0, &json!(22))]
    );
}

#[test]
fn food_and_drink_suit_the_person() {
    let plan = demo_plan("ferrow-9", &["--days", "12"]);
    let offered = |round: usize, name: &str| {
        let doses = list(&list(&plan, "rounds")[round], "doses");
        doses.iter().find(|dose| dose["person"] == name).unwrap()["food_or_drink"].clone()
    };
    // Five months old and allergic to milk: no formula, nothing from one year on.
    assert_eq!(offered(0, "Edda"), json!(["breast milk"]));
    assert_eq!(
        offered(22, "Nils"),
        json!(["breast milk", "infant formula"])
    );
    assert_eq!(
        offered(0, "Runa"),
        json!(["milk", "chocolate milk", "chocolate pudding", "apple juice"])
    );
}

#[test]
fn days_limit_the_plan_and_never_stretch_the_course() {
    let plan = demo_plan("alder-1", &["--days", "10"]);
    assert_eq!(
        (&plan["days"], list(&plan, "rounds").len(), &plan["tablets"]),
        (&json!(10), 20, &json!(20))
    );
    assert_eq!(plan["course_end"], "2031-06-01");
    let ran = plan_of(
        &doxycycline(),
        &demo("households/alder-1.toml"),
        &["--days", "90"],
    )
    .expect(0);
    assert!(ran.err.contains("ends on 2031-06-01"), "{}", ran.err);
    assert_eq!(
        (&ran.json()["days"], &ran.json()["tablets"]),
        (&json!(60), &json!(120))
    );
    for days in ["0", "-1", "1.5", "ten", "99999999999"] {
        assert_eq!(
            plan_of(
                &doxycycline(),
                &demo("households/alder-1.toml"),
                &["--days", days]
            )
            .expect(2)
            .out,
            ""
        );
    }
}

#[test]
fn fresh_bowls_in_every_round() {
    let alone = |setting: &str| {
        let text = format!(
            "time-zone = \"America/Chicago\"\nstart = \"2031-04-03\"\nrounds = [\"08:00\", \"20:00\"]\n{setting}\n[[person]]\nname = \"Pim\"\nweight = \"31 lb 4 oz\"\ncleared = true\n"
        );
        File::with(text)
    };
    let tablets = |household: &File, more: &[&str]| {
        let plan = plan_of(&doxycycline(), household.path(), more)
            .expect(0)
            .json();
        crate::households::verify(&plan);
        plan["tablets"].as_u64().unwrap()
    };
    // 3 of 8 half teaspoons: one bowl serves morning and night.
    assert_eq!(tablets(&alone(""), &["--days", "5"]), 5);
    assert_eq!(tablets(&alone(""), &["--days", "5", "--fresh"]), 10);
    assert_eq!(
        tablets(&alone("bowls = \"fresh every round\""), &["--days", "5"]),
        10
    );
    assert_eq!(tablets(&alone("bowls = \"fewest\""), &["--days", "5"]), 5);
}

#[test]
fn a_household_with_a_syringe_reads_millilitres() {
    let household = File::like(
        "households/tarn-4.toml",
        &[("time-zone", "tool = \"syringe\"\ntime-zone")],
    );
    let plan = plan_of(&doxycycline(), household.path(), &["--days", "1"])
        .expect(0)
        .json();
    let doses = list(&list(&plan, "rounds")[0], "doses").clone();
    let words: Vec<&str> = doses
        .iter()
        .map(|dose| dose["text"].as_str().unwrap())
        .collect();
    assert_eq!(words, ["1 whole tablet", "20 mL", "10 mL", "7.5 mL"]);
}

#[test]
fn a_liquid_is_counted_in_millilitres() {
    let household = demo("households/tarn-4.toml");
    let plan = plan_of(
        &demo("orders/quillmere-ciprofloxacin-1.toml"),
        &household,
        &["--days", "2"],
    )
    .expect(0)
    .json();
    let doses = list(&list(&plan, "rounds")[0], "doses");
    assert!(doses.iter().all(|dose| dose["form"] == "liquid"
        && dose["half_tsp"].is_null()
        && dose["bowl"].is_null()));
    // Adults 10 mL (500 mg), 45 lb 7 mL, 31 lb 4 oz 5 mL; four rounds.
    assert_eq!(plan["liquid_ml"], "128");
    assert_eq!(
        (&plan["tablets"], &plan["proven"]),
        (&json!(0), &json!(true))
    );
}

#[test]
fn nobody_to_dose_is_a_refusal() {
    let household = File::like(
        "households/alder-1.toml",
        &[(
            "cleared = true",
            "[person.answers]\nallergy-tetracycline = \"yes\"",
        )],
    );
    let ran = plan_of(&doxycycline(), household.path(), &[]).expect(3);
    let json = ran.json();
    assert_eq!(
        (&json["outcome"], &json["reasons"][0]["person"]),
        (&json!("refused"), &json!("Corin"))
    );
    assert_eq!(
        texts(&json["reasons"], "code"),
        ["screening-stop", "screening-not-done"]
    );
}

#[test]
fn an_answer_this_order_does_not_ask_for_is_said() {
    let household = File::like(
        "households/alder-1.toml",
        &[(
            "cleared = true",
            "cleared = true\n[person.answers]\nallergy-tetracyclin = \"yes\"",
        )],
    );
    let ran = plan_of(&doxycycline(), household.path(), &["--days", "1"]).expect(0);
    assert!(
        ran.err.contains("Corin") && ran.err.contains("allergy-tetracyclin"),
        "{}",
        ran.err
    );
}

#[test]
fn what_does_not_fit_the_order_is_refused() {
    let with = |changes: &[(&str, &str)]| {
        let household = File::like("households/alder-1.toml", changes);
        plan_of(&doxycycline(), household.path(), &[]).refusals()
    };
    assert_eq!(
        with(&[("America/Chicago", "America/Quillmere")]),
        ["unknown-zone"]
    );
    assert_eq!(
        with(&[("[\"08:00\", \"20:00\"]", "[\"08:00\"]")]),
        ["rounds-and-interval-disagree"]
    );
    assert_eq!(
        with(&[("\"20:00\"", "\"12:00\"")]),
        ["rounds-too-close", "rounds-leave-no-room-for-late"]
    );
    assert_eq!(
        with(&[("\"20:00\"", "\"8 pm\""), ("America/Chicago", "Mars")]),
        ["unknown-zone", "unreadable-round-time"]
    );
    let broken = File::like(
        "orders/quillmere-doxy-1.toml",
        &[("mg = \"50 mg\"", "mg = \"55 mg\"")],
    );
    assert_eq!(
        plan_of(broken.path(), &demo("households/alder-1.toml"), &[]).refusals(),
        ["mg-differs"]
    );
}

#[test]
fn households_that_cannot_be_read_are_said() {
    for (old, new, about) in [
        ("176 lb", "176", "has no unit"),
        ("1989-11-20", "1989-13-20", "not a date"),
        ("sex = \"m\"", "sex = \"man\"", "f or m"),
        ("swallows-tablets", "swallow-tablets", "swallow-tablets"),
        ("name = \"Corin\"\n", "", "name"),
        ("start = ", "begin = ", "begin"),
        (
            "rounds = [",
            "tool = \"ladle\"\nrounds = [",
            "spoon or syringe",
        ),
        ("rounds = [", "bowls = \"some\"\nrounds = [", "fewest"),
        (
            "rounds = [",
            "first-dose-at = \"noon\"\nrounds = [",
            "time of day",
        ),
        ("[[person]]", "[[person]", "line"),
    ] {
        let household = File::like("households/alder-1.toml", &[(old, new)]);
        let ran = plan_of(&doxycycline(), household.path(), &[]).expect(2);
        assert!(
            ran.out.is_empty() && ran.err.contains(about),
            "{new}: {}",
            ran.err
        );
    }
    assert_eq!(
        plan_of(&doxycycline(), "no-such-household.toml", &[])
            .expect(2)
            .out,
        ""
    );
    assert_eq!(
        hearthdose(&["plan", "--order", &doxycycline()])
            .expect(2)
            .out,
        ""
    );
}

#[test]
fn people_can_read_it_too() {
    let arguments = [
        "plan",
        "--order",
        &doxycycline(),
        "--household",
        &demo("households/ferrow-9.toml"),
        "--days",
        "3",
    ];
    let ran = hearthdose(&arguments).expect(0);
    for words in [
        "Thursday 3 April 2031, 08:00",
        "Runa: 3 teaspoons (15 mL) from bowl 2",
        "Tomas: 1 whole tablet",
        "No dose for Anselm",
        "Another medicine is ready for Anselm",
        "Collect more on or before 2031-04-12",
        "This does not replace your clinician; the order rules.",
    ] {
        assert!(ran.out.contains(words), "{words}\n{}", ran.out);
    }
    assert_eq!(
        hearthdose(&arguments).expect(0).out,
        ran.out,
        "the same page every time"
    );
}

#[test]
fn instants_carry_the_zone_of_the_household() {
    let household = File::like(
        "households/alder-1.toml",
        &[("America/Chicago", "Asia/Kathmandu")],
    );
    let plan = plan_of(&doxycycline(), household.path(), &["--days", "1"])
        .expect(0)
        .json();
    assert_eq!(list(&plan, "rounds")[0]["at"], "2031-04-03T08:00:00+05:45");
    assert_eq!(
        at(&list(&plan, "rounds")[0]["at"]),
        "2031-04-03T02:15:00Z".parse().unwrap()
    );
}
