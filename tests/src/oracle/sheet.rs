//! The order as somebody with a pencil reads it: plain TOML, every quantity a fraction.

use std::collections::BTreeMap;

use toml::Value;

use super::{Fraction, Length};

/// What a limit is about: kilograms or an age.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    Weight(Fraction),
    Age(Length),
}

/// A limit, and whether whoever meets it exactly belongs to the row.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Edge {
    pub place: Place,
    pub own: bool,
}

#[derive(Clone, Debug)]
pub struct Line {
    pub from: Option<Edge>,
    pub to: Option<Edge>,
    /// Kilograms from which somebody younger takes this row.
    pub or_from: Option<Fraction>,
    pub millilitres: Fraction,
}

#[derive(Clone, Debug)]
pub struct Sheet {
    pub by_age: bool,
    pub lines: Vec<Line>,
    pub lower_if_enough: bool,
    /// Milligrams for each kilogram.
    pub per_kilogram: Option<Fraction>,
    /// Milligrams.
    pub largest: Option<Fraction>,
    /// Kilograms.
    pub lightest: Option<Fraction>,
    pub youngest: Option<Length>,
    pub adult_from: Option<Length>,
    /// Milligrams in one tablet; nothing for a liquid.
    pub tablet: Option<Fraction>,
    pub whole_allowed: bool,
    /// Milligrams in one millilitre of what is measured.
    pub per_millilitre: Fraction,
    /// Key and what a yes does.
    pub questions: BTreeMap<String, String>,
}

impl Sheet {
    /// Reads an order that the program accepts; whatever cannot be read stops the test.
    pub fn read(text: &str) -> Sheet {
        let top: Value = toml::from_str(text).expect("an order in TOML");
        let medicine = &top["medicine"];
        let mut lines: Vec<Line> = Vec::new();
        for row in list(&top, "row") {
            let before = lines.last().and_then(|line| line.to);
            lines.push(line(row, before));
        }
        let by_age = lines
            .iter()
            .any(|line| [line.from, line.to].iter().flatten().any(Edge::is_age));
        let recipe = top.get("recipe");
        let products = list(&top, "product");
        let product = match recipe {
            Some(recipe) => products
                .iter()
                .find(|product| product["key"] == recipe["product"]),
            None => products.first(),
        };
        let product = product.expect("the product of the recipe");
        let strength = product["strength"].as_str().expect("a strength");
        let (tablet, per_millilitre) = match strength.split_once(" / ") {
            Some((mass, volume)) => {
                let volume = if volume == "mL" { "1 mL" } else { volume };
                (None, milligrams(mass) / millilitres(volume))
            }
            None => {
                let recipe = recipe.expect("a recipe for tablets");
                let count = recipe["tablets"].as_integer().expect("a count of tablets");
                let second = recipe
                    .get("second-fluid")
                    .map(|fluid| quantity(fluid, "amount"));
                let fluid = second.flatten().map_or(Fraction::whole(0), millilitres);
                let bowl = millilitres(quantity(recipe, "water").expect("water")) + fluid;
                let tablet = milligrams(strength);
                (
                    Some(tablet),
                    tablet * Fraction::whole(i128::from(count)) / bowl,
                )
            }
        };
        let rule = top
            .get("between-rows")
            .and_then(|between| quantity(between, "rule"));
        let questions = list(&top, "question").iter().map(|question| {
            let text = |key: &str| question[key].as_str().expect("a text").to_owned();
            (text("key"), text("if-yes"))
        });
        let length =
            |key: &str| quantity(medicine, key).map(|text| Length::read(text).expect("a length"));
        Sheet {
            by_age,
            lines,
            lower_if_enough: rule != Some("next row"),
            per_kilogram: quantity(medicine, "per-kg").map(milligrams),
            largest: quantity(medicine, "max-dose").map(milligrams),
            lightest: quantity(medicine, "lightest").map(|text| kilograms(text).expect("a weight")),
            youngest: length("youngest"),
            adult_from: length("adult-from"),
            tablet,
            whole_allowed: product
                .get("whole-if-row-allows")
                .is_some_and(|value| value.as_bool() == Some(true)),
            per_millilitre,
            questions: questions.collect(),
        }
    }

    pub fn milligrams_of(&self, row: usize) -> Fraction {
        self.lines[row].millilitres * self.per_millilitre
    }
}

impl Edge {
    fn is_age(&self) -> bool {
        matches!(self.place, Place::Age(_))
    }
}

/// A row; one that prints no lower limit begins where the row before it ends.
fn line(row: &Value, before: Option<Edge>) -> Line {
    let weight = |key: &str| {
        quantity(row, key).map(|text| Place::Weight(kilograms(text).expect("a weight limit")))
    };
    let age = |key: &str| {
        quantity(row, key).map(|text| Place::Age(Length::read(text).expect("an age limit")))
    };
    let edge = |own: Option<Place>, foreign: Option<Place>| match (own, foreign) {
        (Some(place), None) => Some(Edge { place, own: true }),
        (None, Some(place)) => Some(Edge { place, own: false }),
        (None, None) => None,
        _ => panic!("two limits on one side"),
    };
    let printed = edge(
        weight("from").or(age("from-age")),
        weight("over").or(age("over-age")),
    );
    let assumed = before.map(|edge| Edge {
        own: !edge.own,
        ..edge
    });
    Line {
        from: printed.or(assumed),
        to: edge(
            weight("up-to").or(age("up-to-age")),
            weight("under").or(age("under-age")),
        ),
        or_from: quantity(row, "or-weight-from").map(|text| kilograms(text).expect("a weight")),
        millilitres: millilitres(quantity(row, "amount").expect("an amount")),
    }
}

fn list<'a>(top: &'a Value, key: &str) -> &'a [Value] {
    top.get(key)
        .and_then(Value::as_array)
        .map_or(&[], Vec::as_slice)
}

fn quantity<'a>(table: &'a Value, key: &str) -> Option<&'a str> {
    table.get(key)?.as_str()
}

/// Number and unit of `1 1/2 tsp`, pair by pair.
fn parts(text: &str) -> Option<Vec<(Fraction, &str)>> {
    let (mut found, mut number) = (Vec::new(), String::new());
    for word in text.split_whitespace() {
        if word.starts_with(|letter: char| letter.is_ascii_alphabetic()) {
            found.push((Fraction::read(&number)?, word));
            number.clear();
        } else {
            number.push(' ');
            number.push_str(word);
        }
    }
    number.is_empty().then_some(found)
}

/// A body weight in kilograms: one pound is 0.45359237 kg (international pound, 1959), an ounce a sixteenth of it.
pub fn kilograms(text: &str) -> Option<Fraction> {
    let pound = Fraction::new(45_359_237, 100_000_000);
    let mut sum = Fraction::whole(0);
    for (number, unit) in parts(text)? {
        let one = match unit {
            "kg" => Fraction::whole(1),
            "g" => Fraction::new(1, 1000),
            "lb" => pound,
            "oz" => pound / Fraction::whole(16),
            _ => return None,
        };
        sum = sum + number * one;
    }
    Some(sum)
}

/// A teaspoon is 5 mL (21 CFR 101.9(b)(5)(viii)).
fn millilitres(text: &str) -> Fraction {
    match parts(text).as_deref() {
        Some([(number, "mL")]) => *number,
        Some([(number, "tsp" | "teaspoon" | "teaspoons")]) => *number * Fraction::whole(5),
        _ => panic!("no volume: {text}"),
    }
}

fn milligrams(text: &str) -> Fraction {
    match parts(text).as_deref() {
        Some([(number, "mg")]) => *number,
        Some([(number, "g")]) => *number * Fraction::whole(1000),
        Some([(number, "mcg")]) => *number / Fraction::whole(1000),
        _ => panic!("no mass: {text}"),
    }
}
