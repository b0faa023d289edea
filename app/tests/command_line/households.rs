//! A household's plan, checked by arithmetic of its own.

use std::collections::BTreeMap;

use jiff::Timestamp;
use serde_json::Value;

use crate::run::{Ran, demo, hearthdose};

/// Half teaspoons in the bowl of the demonstration order, and hours that it keeps.
const BOWL: u64 = 8;
const KEEPS_HOURS: i64 = 24;

pub fn plan_of(order: &str, household: &str, more: &[&str]) -> Ran {
    hearthdose(
        &[
            &["plan", "--order", order, "--household", household, "--json"],
            more,
        ]
        .concat(),
    )
}

pub fn demo_plan(household: &str, more: &[&str]) -> Value {
    let household = demo(&format!("households/{household}.toml"));
    let plan = plan_of(&crate::run::doxycycline(), &household, more)
        .expect(0)
        .json();
    verify(&plan);
    plan
}

pub fn list<'a>(value: &'a Value, field: &str) -> &'a Vec<Value> {
    value[field]
        .as_array()
        .unwrap_or_else(|| panic!("{field} in {value}"))
}

pub fn at(value: &Value) -> Timestamp {
    let text = value.as_str().unwrap();
    assert!(
        !text.contains('[') && !text.ends_with('Z'),
        "{text}: numeric offset only"
    );
    text.parse().unwrap()
}

pub fn index(value: &Value) -> usize {
    usize::try_from(value.as_u64().unwrap()).unwrap()
}

fn hours_between(first: Timestamp, second: Timestamp) -> f64 {
    f64::from(i32::try_from(second.duration_since(first).as_secs()).unwrap()) / 3600.0
}

/// Everything that must hold for a plan of the doxycycline order, whoever is in the household.
pub fn verify(plan: &Value) {
    assert_eq!(
        (&plan["outcome"], &plan["signed"]),
        (&"plan".into(), &false.into())
    );
    let rounds = list(plan, "rounds");
    // What each person's bowls give in each round, and which bowls.
    let mut given: BTreeMap<(usize, String), (u64, Vec<usize>)> = BTreeMap::new();
    let (mut bowls, mut tablets) = (0, 0);
    for (made, round) in rounds.iter().enumerate() {
        for bowl in list(round, "bowls") {
            assert_eq!(
                index(&bowl["bowl"]),
                bowls,
                "bowls are counted in the order in which they are made"
            );
            let (made_at, discard_at) = (at(&bowl["made_at"]), at(&bowl["discard_at"]));
            assert_eq!(
                discard_at.duration_since(made_at).as_secs(),
                KEEPS_HOURS * 3600
            );
            assert!(made_at <= at(&round["at"]) && at(&round["begin_at"]) <= made_at);
            let mut used = 0;
            for take in list(bowl, "takes") {
                let number = index(&take["round"]);
                assert!(number >= made && at(&rounds[number]["at"]) < discard_at);
                let amount = take["half_tsp"].as_u64().unwrap();
                assert_eq!(take["ml"], millilitres(amount));
                used += amount;
                let entry = given
                    .entry((number, take["person"].as_str().unwrap().to_owned()))
                    .or_default();
                entry.0 += amount;
                entry.1.push(bowls);
            }
            assert!(used > 0 && used <= BOWL, "bowl {bowls} holds {used}");
            tablets += bowl["tablets"].as_u64().unwrap();
            bowls += 1;
        }
    }
    let mut whole = 0;
    for (number, round) in rounds.iter().enumerate() {
        for dose in list(round, "doses") {
            let person = dose["person"].as_str().unwrap().to_owned();
            match dose["form"].as_str().unwrap() {
                "tablets" => {
                    whole += dose["tablets"].as_u64().unwrap();
                    assert_eq!(
                        (&dose["bowl"], &dose["half_tsp"], &dose["ml"]),
                        (&Value::Null, &Value::Null, &Value::Null)
                    );
                }
                "mixture" => {
                    let (amount, from) = given.remove(&(number, person)).expect("from a bowl");
                    assert_eq!(dose["half_tsp"].as_u64(), Some(amount));
                    assert_eq!(dose["ml"], millilitres(amount));
                    assert_eq!(from, [index(&dose["bowl"])], "one bowl for one dose");
                }
                other => panic!("{other}"),
            }
        }
    }
    assert!(given.is_empty(), "taken by nobody: {given:?}");
    assert_eq!(plan["whole_tablets"].as_u64(), Some(whole));
    assert_eq!(plan["tablets"].as_u64(), Some(tablets + whole));
    assert!(plan["lower_bound"].as_u64() <= plan["tablets"].as_u64());
    assert!(plan["proven"] == false || plan["lower_bound"] == plan["tablets"]);
    for pair in rounds.windows(2) {
        let (before, after) = (at(&pair[0]["at"]), at(&pair[1]["at"]));
        assert!(before < after);
        if let Some(hours) = pair[1]["hours_since_last"].as_f64() {
            assert!(
                (hours - hours_between(before, after)).abs() < 1e-9,
                "{}",
                pair[1]["at"]
            );
        }
    }
}

/// Half a teaspoon is 2.5 mL.
fn millilitres(half_teaspoons: u64) -> String {
    if half_teaspoons.is_multiple_of(2) {
        format!("{}", half_teaspoons / 2 * 5)
    } else {
        format!("{}.5", half_teaspoons / 2 * 5 + 2)
    }
}

/// What one person takes in one round: half teaspoons, or whole tablets below zero; none for nothing.
pub fn amount(plan: &Value, round: usize, person: &str) -> Option<i64> {
    let doses = list(&list(plan, "rounds")[round], "doses");
    let dose = doses.iter().find(|dose| dose["person"] == person)?;
    dose["half_tsp"]
        .as_i64()
        .or_else(|| dose["tablets"].as_i64().map(|tablets| -tablets))
}
