//! The rows of a random chart.

use super::medicine::{Stuff, volume_text};
use super::{kilograms_of, milligram_text, thousandths};
use crate::oracle::Fraction;
use crate::people::dice::Dice;

pub struct Chart {
    pub toml: String,
    /// Mass of each row.
    pub micrograms: Vec<i64>,
    pub weights: Vec<String>,
    pub ages: Vec<String>,
    pub lightest: Option<String>,
    /// Where the first row of an age chart begins, if it says so.
    pub first_age: Option<String>,
    /// Of each row the lightest and the heaviest weight that it may serve, as printed.
    spans: Vec<(Option<String>, Option<String>)>,
}

/// Never falling, at least one step each.
fn steps(dice: &mut Dice, stuff: &Stuff, rows: usize) -> Vec<i64> {
    let mut steps: Vec<i64> = (0..rows).map(|_| dice.between(1, stuff.most)).collect();
    steps.sort_unstable();
    if dice.percent(60) {
        // The last row is often the whole bowl.
        steps[rows - 1] = stuff.most;
    }
    steps
}

/// One row: its limits, its amount and, mostly, the mass as printed.
fn row(dice: &mut Dice, stuff: &Stuff, limits: &str, steps: i64) -> String {
    let amount = volume_text(dice, steps * stuff.step);
    let mass = steps * stuff.per_step;
    let printed = match dice.below(3) {
        0 => String::new(),
        1 => format!("mg = \"{}\"\n", milligram_text(mass)),
        _ => format!("mg = \"{} mg\"\n", (mass + 500) / 1000),
    };
    format!("[[row]]\n{limits}amount = \"{amount}\"\n{printed}")
}

fn limit(key: &str, value: &str) -> String {
    format!("{key} = \"{value}\"\n")
}

pub fn by_weight(dice: &mut Dice, stuff: &Stuff) -> Chart {
    let rows = usize::try_from(dice.between(1, 9)).expect("a few rows");
    let steps = steps(dice, stuff, rows);
    let unit = dice.pick(&["lb", "lb", "kg"]);
    let grid = dice.pick(&[1000, 1000, 500, 250, 100]);
    let text = |dice: &mut Dice, thousandth: i64| weight_text(dice, thousandth, unit);
    let mut at = 1000 * dice.between(5, 15);
    let mut chart = Chart {
        toml: String::new(),
        micrograms: steps.iter().map(|steps| steps * stuff.per_step).collect(),
        weights: Vec::new(),
        ages: Vec::new(),
        lightest: None,
        first_age: None,
        spans: Vec::new(),
    };
    let mut lower = None;
    let mut limits = String::new();
    if rows > 1 && dice.percent(35) {
        // The first row prints where it begins; nobody below is served, said or unsaid.
        let (key, first) = (dice.pick(&["from", "over"]), text(dice, at));
        limits = limit(key, &first);
        if dice.percent(60) {
            let lightest = at + grid * dice.below(3);
            chart.lightest = Some(text(dice, lightest));
        }
        chart.weights.push(first.clone());
        lower = Some(first);
    } else {
        let lightest = dice.between(at / 2, at);
        chart.lightest = Some(text(dice, lightest));
    }
    for (index, steps) in steps.iter().enumerate() {
        let mut next = String::new();
        let mut end = None;
        if index + 1 < rows {
            at += 2000 + grid * dice.between(0, 20_000 / grid);
            let upper = text(dice, at);
            let gap = dice.pick(&[0, 0, 0, 1000, 1000, 1000, 500, 100, 62]);
            let start = text(dice, at + gap);
            let (end_key, start_key) = match (gap, dice.below(3)) {
                (0, 0) => ("up-to", "over"),
                (0, 1) => ("under", "from"),
                (0, _) => (dice.pick(&["up-to", "under"]), ""),
                _ => (
                    dice.pick(&["up-to", "under"]),
                    dice.pick(&["from", "from", "over"]),
                ),
            };
            limits.push_str(&limit(end_key, &upper));
            if !start_key.is_empty() {
                next = limit(start_key, &start);
            }
            chart.weights.push(upper.clone());
            chart.weights.push(start);
            end = Some(upper);
        }
        chart.toml.push_str(&row(dice, stuff, &limits, *steps));
        // A row may serve everybody down to the end of the one before.
        chart.spans.push((lower.clone(), end.clone()));
        (limits, lower) = (next, end);
    }
    chart
}

/// Ages as orders print them, from the youngest.
const AGES: [&str; 13] = [
    "7 d", "28 d", "1 mo", "2 mo", "6 mo", "1 y", "2 y", "3 y", "4 y", "8 y", "12 y", "18 y",
    "40 y",
];

pub fn by_age(dice: &mut Dice, stuff: &Stuff) -> Chart {
    let mut limits: Vec<&str> = AGES.into_iter().filter(|_| dice.percent(40)).collect();
    // Born in February, one reaches both on one day, and the row between them serves nobody.
    if limits.contains(&"28 d") {
        limits.retain(|age| *age != "1 mo");
    }
    if limits.is_empty() {
        limits.push("3 y");
    }
    let mut chart = Chart {
        toml: String::new(),
        micrograms: Vec::new(),
        weights: Vec::new(),
        ages: limits.iter().map(|age| (*age).to_owned()).collect(),
        lightest: None,
        first_age: None,
        spans: Vec::new(),
    };
    let mut printed = String::new();
    if limits.len() > 1 && dice.percent(25) {
        let first = limits.remove(0);
        printed = limit(dice.pick(&["from-age", "over-age"]), first);
        chart.first_age = Some(first.to_owned());
    }
    let steps = steps(dice, stuff, limits.len() + 1);
    chart.micrograms = steps.iter().map(|steps| steps * stuff.per_step).collect();
    for (index, steps) in steps.iter().enumerate() {
        let mut next = String::new();
        if let Some(age) = limits.get(index) {
            let days = age
                .strip_suffix(" d")
                .and_then(|days| days.parse::<i64>().ok());
            let (end, start) = match (dice.below(4), days) {
                (0, Some(days)) => ("up-to-age", limit("from-age", &format!("{} d", days + 1))),
                (0 | 1, _) => ("up-to-age", limit("over-age", age)),
                (2, _) => ("under-age", limit("from-age", age)),
                _ => (dice.pick(&["up-to-age", "under-age"]), String::new()),
            };
            printed.push_str(&limit(end, age));
            next = start;
        }
        if index > 0 && dice.percent(35) {
            let heavy = dice.pick(&["150 lb", "70 kg", "154 lb 5 oz", "40.5 kg", "25 lb"]);
            printed.push_str(&limit("or-weight-from", heavy));
            chart.weights.push(heavy.to_owned());
        }
        chart.toml.push_str(&row(dice, stuff, &printed, *steps));
        printed = next;
    }
    if chart.weights.is_empty() {
        chart.weights.push("60 lb".to_owned());
    }
    chart
}

/// Thousandths of a unit, mostly as a decimal number, sometimes as pounds and ounces.
pub fn weight_text(dice: &mut Dice, thousandth: i64, unit: &str) -> String {
    let sixteenths = thousandth * 16;
    if unit == "lb" && sixteenths % 1000 == 0 && dice.percent(25) {
        let ounces = sixteenths / 1000;
        return format!("{} lb {} oz", ounces / 16, ounces % 16);
    }
    format!("{} {unit}", thousandths(thousandth))
}

impl Chart {
    /// A target near which a row stops to be enough, and weights around that turn.
    pub fn per_kilogram(&self, dice: &mut Dice) -> (String, Vec<String>) {
        let many = i64::try_from(self.spans.len()).expect("a short list");
        let index = usize::try_from(dice.below(many)).expect("an index");
        let (mass, (_, end)) = (self.micrograms[index], &self.spans[index]);
        let end = end
            .as_ref()
            .map_or(Fraction::whole(40), |end| kilograms_of(end));
        // Up to half a kilogram above the printed end.
        let end = i64::try_from((end * Fraction::whole(1000)).floor()).expect("grams");
        let mut above: Vec<i64> = (end - 50..=end + 500).collect();
        if dice.percent(70) {
            // A weight in whole grams at which the row is enough to the microgram.
            let exact = |grams: &i64| (mass * 1000) % grams == 0;
            let found: Vec<i64> = above.iter().copied().filter(exact).collect();
            above = if found.is_empty() { above } else { found };
        }
        let weight = dice.pick(&above);
        let per = (mass * 1000 / weight).max(1);
        let grams = mass * 1000 / per;
        let around = (-1..=1).map(|more| grams + more).filter(|grams| *grams > 0);
        (
            milligram_text(per),
            around.map(|grams| format!("{grams} g")).collect(),
        )
    }

    /// The smallest whole percentages under and over that the chart keeps to.
    pub fn tolerance(&self, per: &str, largest: Option<i64>) -> Option<(i128, i128)> {
        let per = Fraction::read(per.strip_suffix(" mg")?)?;
        let lightest = self.lightest.as_ref().map(|text| kilograms_of(text));
        let (mut under, mut over) = (Fraction::whole(0), Fraction::whole(0));
        for (mass, (start, end)) in self.micrograms.iter().zip(&self.spans) {
            let mass = Fraction::new(i128::from(*mass), 1000);
            let start = start.as_ref().map(|text| kilograms_of(text)).max(lightest);
            if let Some(start) = start {
                over = over.max(mass / (per * start) - Fraction::whole(1));
            }
            let wanted = match (end, largest) {
                (Some(end), _) => per * kilograms_of(end),
                (None, Some(largest)) => Fraction::whole(i128::from(largest)),
                (None, None) => continue,
            };
            under = under.max(Fraction::whole(1) - mass / wanted);
        }
        let percent = |share: Fraction| (share * Fraction::whole(100)).ceiling();
        let (under, over) = (percent(under), percent(over));
        (over <= 1000 && under <= 100).then_some((under, over))
    }
}
