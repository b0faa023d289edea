//! Random people, most of them at or beside a limit.

use std::collections::BTreeMap;

use super::dice::Dice;
use super::orders::MadeOrder;
use crate::oracle::{Day, Length, Patient, PatientAge};

pub fn patient(dice: &mut Dice, order: &MadeOrder) -> Patient {
    let day = Day::new(
        dice.between(2027, 2033),
        dice.between(1, 12),
        dice.between(1, 28),
    )
    .moved(dice.below(4));
    let age = if dice.percent(if order.by_age { 8 } else { 35 }) {
        None
    } else {
        Some(age(dice, order, day))
    };
    let weight = dice
        .percent(if order.by_age { 60 } else { 93 })
        .then(|| weight(dice, order));
    let answered = dice.percent(90);
    let careless = if dice.percent(80) { 0 } else { 30 };
    let answers = order
        .questions
        .iter()
        .filter(|_| answered && !dice.percent(3));
    let answers: Vec<String> = answers.cloned().collect();
    let answers = answers.into_iter().map(|key| {
        let word = match dice.below(100) {
            roll if roll >= careless => "no",
            roll if roll % 2 == 0 => "yes",
            _ => "unsure",
        };
        (key, word)
    });
    let answers: BTreeMap<String, &'static str> = answers.collect();
    Patient {
        // Whether a weight fits an age is not what is compared here.
        weighed_twice: age.is_some() || dice.percent(50),
        weight,
        age,
        day,
        swallows: dice.percent(50),
        cleared: order.questions.is_empty() || dice.percent(15),
        answers,
        early: dice.pick(&[
            Some("no"),
            Some("no"),
            Some("no"),
            Some("yes"),
            Some("unsure"),
            None,
        ]),
    }
}

fn age(dice: &mut Dice, order: &MadeOrder, day: Day) -> PatientAge {
    let limits: Vec<&str> = order.ages.iter().map(String::as_str).collect();
    let near = !limits.is_empty() && dice.percent(50);
    if dice.percent(12) {
        return PatientAge::Adult;
    }
    if dice.percent(30) {
        return PatientAge::Told(if near {
            dice.pick(&limits).to_owned()
        } else {
            told(dice)
        });
    }
    let born = if near {
        let limit = Length::read(dice.pick(&limits)).expect("a limit");
        let back = Length {
            months: -limit.months,
            days: 0,
        };
        day.moved(-limit.days)
            .after(back)
            .moved(dice.between(-2, 2))
    } else {
        let years = dice.pick(&[1, 3, 12, 20, 95]);
        day.moved(-dice.between(-1, 365 * years))
    };
    PatientAge::Born(born)
}

fn told(dice: &mut Dice) -> String {
    let plural = |number: i64, unit: &str| format!("{number} {unit}");
    match dice.below(5) {
        0 => plural(dice.between(0, 95), "d"),
        1 => plural(dice.pick(&[1, 2, 4, 5, 6, 8, 9, 13, 26, 52, 53]), "wk"),
        2 => plural(dice.between(1, 40), "mo"),
        3 => format!("{} y {} mo", dice.between(1, 18), dice.pick(&[1, 6, 11])),
        _ => format!(
            "{} mo {} d",
            dice.between(1, 14),
            dice.pick(&[1, 27, 28, 29, 30])
        ),
    }
}

fn weight(dice: &mut Dice, order: &MadeOrder) -> String {
    let limits: Vec<&str> = order.weights.iter().map(String::as_str).collect();
    if dice.percent(35) {
        return dice.pick(&limits).to_owned();
    }
    if dice.percent(70)
        && let Some(beside) = beside(dice, &limits)
    {
        return beside;
    }
    match dice.below(5) {
        0 => format!("{}.{} kg", dice.between(1, 120), dice.between(0, 999)),
        1 => format!("{} lb {} oz", dice.between(3, 200), dice.between(0, 15)),
        2 => format!("{} 1/2 lb", dice.between(3, 200)),
        3 => format!("{} g", dice.between(1500, 90_000)),
        _ => format!("{} lb", dice.between(3, 250)),
    }
}

/// A weight a little off a printed limit, in the same unit.
fn beside(dice: &mut Dice, limits: &[&str]) -> Option<String> {
    let (number, unit) = dice.pick(limits).split_once(' ')?;
    let (whole, decimals) = number.split_once('.').unwrap_or((number, ""));
    let thousandth: i64 = format!("{whole}{decimals:0<3}").parse().ok()?;
    let off = dice.pick(&[1, 5, 10, 100, 250, 400, 500, 900, 999]);
    let moved = if dice.percent(50) {
        thousandth + off
    } else {
        thousandth - off
    };
    let unit = unit.split(' ').next()?;
    (moved > 0 && unit != "g").then(|| super::orders::weight_text(dice, moved, unit))
}
