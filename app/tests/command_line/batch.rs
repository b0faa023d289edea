//! `plan --stdin`: the planner on bare numbers.

use serde_json::{Value, json};

use crate::run::{Ran, demo, hearthdose_reading};

fn plan(input: &str) -> Ran {
    hearthdose_reading(&["plan", "--stdin", "--json"], input.as_bytes())
}

/// Each dose taken whole (or from at most two bowls), from bowls that keep and hold enough; the count is the bowls'.
fn solved(input: &Value) -> Value {
    let plan = plan(&input.to_string()).expect(0).json();
    let number = |value: &Value| usize::try_from(value.as_u64().unwrap()).unwrap();
    let split = input["split"].as_bool().unwrap_or(false);
    let rounds: Vec<Vec<u64>> = serde_json::from_value(input["rounds"].clone()).unwrap();
    let mut left = rounds.clone();
    let mut parts: Vec<Vec<u32>> = rounds.iter().map(|round| vec![0; round.len()]).collect();
    for bowl in plan["bowls"].as_array().unwrap() {
        let made = number(&bowl["round"]);
        let takes = bowl["takes"].as_array().unwrap();
        let mut used = 0;
        assert!(!takes.is_empty());
        for take in takes {
            let (round, dose, amount) = (
                number(&take["round"]),
                number(&take["dose"]),
                take["half_tsp"].as_u64().unwrap(),
            );
            assert!(made <= round && round < made + number(&input["keep_rounds"]));
            used += amount;
            left[round][dose] = left[round][dose]
                .checked_sub(amount)
                .expect("more than the dose");
            parts[round][dose] += 1;
        }
        assert!(used <= input["capacity"].as_u64().unwrap());
    }
    assert!(left.iter().flatten().all(|rest| *rest == 0), "{left:?}");
    assert!(
        parts
            .iter()
            .flatten()
            .all(|count| *count == 1 || (split && *count == 2))
    );
    assert_eq!(
        number(&plan["count"]),
        plan["bowls"].as_array().unwrap().len()
    );
    assert!(number(&plan["lower_bound"]) <= number(&plan["count"]));
    if plan["proven"] == json!(true) {
        assert_eq!(plan["lower_bound"], plan["count"]);
    }
    plan
}

#[test]
fn the_contract_example() {
    let found = solved(
        &json!({"capacity": 8, "keep_rounds": 2, "split": false, "rounds": [[3, 5], [3, 5]]}),
    );
    assert_eq!(
        (&found["count"], &found["lower_bound"], &found["proven"]),
        (&json!(2), &json!(2), &json!(true))
    );
}

/// Counts found by hand.
#[test]
fn fewest_bowls() {
    for (input, count) in [
        // 5 + 3 each: the morning's bowls serve the night.
        (
            json!({"capacity": 8, "keep_rounds": 2, "rounds": [[5, 5, 5], [3, 3, 3]]}),
            3,
        ),
        // The night's bowls cannot serve the morning before.
        (
            json!({"capacity": 8, "keep_rounds": 1, "rounds": [[5, 5, 5], [3, 3, 3]]}),
            5,
        ),
        // 4 and 1 in each of four rounds: two bowls with the 4s of neighbours would leave the 1s alone; 4+1+1, 4+4, 1+1+4.
        (
            json!({"capacity": 8, "keep_rounds": 2, "rounds": [[4, 1], [4, 1], [4, 1], [4, 1]]}),
            3,
        ),
        // Two sixes and a four are 16: two bowls when the four may be split, three when not.
        (
            json!({"capacity": 8, "keep_rounds": 1, "split": true, "rounds": [[6, 6, 4]]}),
            2,
        ),
        (
            json!({"capacity": 8, "keep_rounds": 1, "split": false, "rounds": [[6, 6, 4]]}),
            3,
        ),
        // Seven rounds from one bowl, the eighth from another.
        (
            json!({"capacity": 8, "keep_rounds": 7, "rounds": [[1], [1], [1], [1], [1], [1], [1], [1]]}),
            2,
        ),
        (
            json!({"capacity": 16, "keep_rounds": 8, "rounds": [[2], [2], [2], [2], [2], [2], [2], [2]]}),
            1,
        ),
        (json!({"capacity": 8, "keep_rounds": 2, "rounds": []}), 0),
        (
            json!({"capacity": 8, "keep_rounds": 2, "rounds": [[], [8], []]}),
            1,
        ),
        (
            json!({"capacity": 1, "keep_rounds": 1, "rounds": [[1, 1]]}),
            2,
        ),
    ] {
        let found = solved(&input);
        assert_eq!(
            (&found["count"], &found["proven"]),
            (&json!(count), &json!(true)),
            "{input}"
        );
    }
}

#[test]
fn the_shipped_examples_are_solved() {
    for name in [
        "two-rounds",
        "night-from-the-morning-bowl",
        "split-in-scarcity",
        "a-week-in-the-refrigerator",
    ] {
        let text = std::fs::read_to_string(demo(&format!("plans/{name}.json"))).unwrap();
        assert_eq!(
            solved(&serde_json::from_str(&text).unwrap())["proven"],
            true,
            "{name}"
        );
    }
}

#[test]
fn the_same_plan_every_time_and_without_the_flag() {
    let input =
        json!({"capacity": 8, "keep_rounds": 2, "rounds": [[3, 4, 1], [3, 4, 1], [2, 2], [7]]})
            .to_string();
    let first = plan(&input).expect(0).out;
    assert_eq!(plan(&input).expect(0).out, first);
    assert_eq!(
        hearthdose_reading(&["plan", "--stdin"], input.as_bytes())
            .expect(0)
            .out,
        first
    );
}

#[test]
fn what_cannot_be_planned_is_refused() {
    for (input, code) in [
        (
            json!({"capacity": 0, "keep_rounds": 2, "rounds": [[1]]}),
            "capacity-zero",
        ),
        (
            json!({"capacity": -8, "keep_rounds": 2, "rounds": [[1]]}),
            "capacity-out-of-range",
        ),
        (
            json!({"capacity": 8, "keep_rounds": 0, "rounds": [[1]]}),
            "keep-zero",
        ),
        (
            json!({"capacity": 8, "keep_rounds": 0, "rounds": []}),
            "keep-zero",
        ),
        (
            json!({"capacity": 8, "keep_rounds": -1, "rounds": [[1]]}),
            "keep-out-of-range",
        ),
        (
            json!({"capacity": 8, "keep_rounds": 2, "rounds": [[1, 0]]}),
            "dose-zero",
        ),
        (
            json!({"capacity": 8, "keep_rounds": 2, "rounds": [[-3]]}),
            "dose-out-of-range",
        ),
        (
            json!({"capacity": 8, "keep_rounds": 2, "rounds": [[9]]}),
            "dose-larger-than-bowl",
        ),
        (
            json!({"capacity": 8, "keep_rounds": 2, "rounds": [[8_000_000_000_000_u64]]}),
            "dose-out-of-range",
        ),
        (
            json!({"capacity": 8, "keep_rounds": 2, "rounds": vec![vec![1]; 5_000]}),
            "too-many-rounds",
        ),
        (
            json!({"capacity": 8, "keep_rounds": 2, "rounds": [vec![1; 50_000]]}),
            "too-many-doses",
        ),
    ] {
        assert_eq!(plan(&input.to_string()).refusals(), [code], "{code}");
    }
    // Several wrong numbers are all named.
    let codes = plan(r#"{"capacity":-1,"keep_rounds":-1,"rounds":[[-1,3,-2]]}"#).refusals();
    assert_eq!(
        codes,
        [
            "capacity-out-of-range",
            "keep-out-of-range",
            "dose-out-of-range",
            "dose-out-of-range"
        ]
    );
}

#[test]
fn what_is_no_such_document_is_unreadable() {
    for input in [
        "",
        "{",
        "[]",
        "null",
        r#"{"capacity":8,"keep_rounds":2}"#,
        r#"{"keep_rounds":2,"rounds":[[1]]}"#,
        r#"{"capacity":8,"keep_rounds":2,"rounds":[[1.5]]}"#,
        r#"{"capacity":8,"keep_rounds":2,"rounds":[["3"]]}"#,
        r#"{"capacity":8,"keep_rounds":2,"rounds":[3]}"#,
        r#"{"capacity":8,"keep_rounds":2,"spilt":true,"rounds":[[3]]}"#,
        r#"{"capacity":8,"capacity":9,"keep_rounds":2,"rounds":[[3]]}"#,
        r#"{"capacity":8,"keep_rounds":2,"rounds":[[99999999999999999999999]]}"#,
        r#"{"capacity":8,"keep_rounds":2,"rounds":[[3]]} {}"#,
    ] {
        let ran = plan(input).expect(2);
        assert!(
            ran.out.is_empty() && ran.err.contains("standard input"),
            "{input}: {}",
            ran.err
        );
    }
    assert_eq!(
        hearthdose_reading(&["plan", "--stdin"], &[0xff; 64])
            .expect(2)
            .out,
        ""
    );
    assert_eq!(
        hearthdose_reading(&["plan", "--stdin"], &vec![b'['; 200_000])
            .expect(2)
            .out,
        ""
    );
    assert_eq!(
        hearthdose_reading(&["plan", "--stdin", "--days", "3"], b"")
            .expect(2)
            .out,
        ""
    );
    assert_eq!(hearthdose_reading(&["plan"], b"").expect(2).out, "");
}
