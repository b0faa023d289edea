//! Random orders, written as the file an issuer would write.

mod chart;
mod medicine;

use super::dice::Dice;
use crate::oracle::{Fraction, kilograms};

/// An order, and where its people are worth looking for.
pub struct MadeOrder {
    pub toml: String,
    pub by_age: bool,
    /// Limits of the chart and of the whole order, as printed: `12 lb`.
    pub weights: Vec<String>,
    /// The same of ages: `3 y`.
    pub ages: Vec<String>,
    /// Keys of the questions.
    pub questions: Vec<String>,
}

/// One random order: a weight chart for two of three, an age chart for the third.
pub fn order(dice: &mut Dice) -> MadeOrder {
    let stuff = medicine::Stuff::random(dice);
    let by_age = dice.percent(33);
    let chart = if by_age {
        chart::by_age(dice, &stuff)
    } else {
        chart::by_weight(dice, &stuff)
    };
    let mut made = MadeOrder {
        toml: String::new(),
        by_age,
        weights: chart.weights.clone(),
        ages: chart.ages.clone(),
        questions: Vec::new(),
    };
    let rule = if dice.percent(50) {
        "enough"
    } else {
        "next row"
    };
    let medicine = medicine_table(dice, &stuff, &chart, &mut made);
    let questions = questions(dice, &mut made);
    made.toml = format!(
        "{HEAD}\n[medicine]\n{medicine}\n{}\n{}\n[between-rows]\nrule = \"{rule}\"\n{questions}\n{TAIL}",
        stuff.toml(dice),
        chart.toml,
    );
    made
}

const HEAD: &str = r#"format = 1
id = "random"
revision = 1
title = "Random"
issuer = "Nobody"
issued = "2031-04-02T08:00:00-05:00"
time-zone = "America/Chicago"
invented = true
source = "chance"
"#;

const TAIL: &str = r#"[[caution]]
key = "allergic-reaction"
text = { en = "Call." }
[[contact]]
kind = "emergency"
name = "Emergency line"
phone = "555-0100"
[[contact]]
kind = "questions"
name = "Nurse line"
phone = "555-0142"
"#;

fn medicine_table(
    dice: &mut Dice,
    stuff: &medicine::Stuff,
    chart: &chart::Chart,
    made: &mut MadeOrder,
) -> String {
    let mut lines = vec![
        "name = \"something\"\ninterval = \"12 h\"\nsupply-days = 10\ncourse-days = 10".to_owned(),
    ];
    let last = chart.micrograms.last().copied().unwrap_or(0);
    // Rounded up to whole milligrams, so that a printed mass does not pass it either.
    let largest = (last + 999) / 1000
        + if dice.percent(70) {
            0
        } else {
            dice.between(1, 200)
        };
    let largest = dice.percent(65).then_some(largest);
    if let Some(largest) = largest {
        lines.push(format!("max-dose = \"{largest} mg\""));
    }
    if dice.percent(70) {
        // Nobody may be promised a dose whom the first row does not reach.
        let pool = ["1 mo", "28 d", "0 d", "2 mo", "8 wk", "6 mo", "1 y"];
        let youngest = chart.first_age.as_deref().unwrap_or(dice.pick(&pool));
        lines.push(format!("youngest = \"{youngest}\""));
        made.ages.push(youngest.to_owned());
    }
    if dice.percent(70) {
        let adult = dice.pick(&["18 y", "16 y", "12 y", "18 y", "17 y 11 mo", "21 y"]);
        lines.push(format!("adult-from = \"{adult}\""));
        made.ages.push(adult.to_owned());
    }
    if made.by_age {
        if dice.percent(30) {
            lines.push("lightest = \"5 lb\"".to_owned());
            made.weights.push("5 lb".to_owned());
        }
        return lines.join("\n");
    }
    if let Some(lightest) = &chart.lightest {
        lines.push(format!("lightest = \"{lightest}\""));
        made.weights.push(lightest.clone());
    }
    let (per, turn) = chart.per_kilogram(dice);
    lines.push(format!("per-kg = \"{per}\""));
    made.weights.extend(turn);
    if dice.percent(60)
        && let Some((under, over)) = chart.tolerance(&per, largest)
    {
        lines.push(format!(
            "tolerance = {{ under = \"{under} %\", over = \"{over} %\" }}"
        ));
    }
    debug_assert!(stuff.step > 0);
    lines.join("\n")
}

fn questions(dice: &mut Dice, made: &mut MadeOrder) -> String {
    let many = dice.below(4);
    let mut text = String::new();
    for number in 0..many {
        let key = format!("question-{number}");
        let if_yes = dice.pick(&["stop", "hold", "caution"]);
        text.push_str(&format!(
            "[[question]]\nkey = \"{key}\"\nask = {{ en = \"Is it so?\" }}\nif-yes = \"{if_yes}\"\nthen = {{ en = \"Call the nurse line.\" }}\n"
        ));
        made.questions.push(key);
    }
    text
}

pub(super) use chart::weight_text;

/// Micrograms as an order writes them: `12.5 mg`.
fn milligram_text(micrograms: i64) -> String {
    format!("{} mg", thousandths(micrograms))
}

/// Thousandths as a decimal number without trailing zeros.
fn thousandths(value: i64) -> String {
    let text = format!("{}.{:03}", value / 1000, value % 1000);
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

fn kilograms_of(text: &str) -> Fraction {
    kilograms(text).expect("a weight of its own making")
}
