//! What orders say, in the language of the screen: their own words where they have them, ages and rows of the chart.

use hearthdose_core::order::{self, Measure, Row};
use hearthdose_core::units::AgeSpan;

use super::Words;

impl Words {
    /// The order's own words in this language, or in its first one when it has none here; the second says which it was.
    pub fn of_order<'a>(&self, words: &'a order::Words) -> (&'a str, bool) {
        match words.get(self.language.code()) {
            Some(text) => (text, true),
            None => (words.values().next().map_or("", String::as_str), false),
        }
    }

    /// The order's words about one person: `{name}` in them stands for the name.
    pub fn of_order_about(&self, words: &order::Words, name: &str) -> String {
        self.of_order(words).0.replace("{name}", name)
    }

    /// A name that the order may have in other languages too.
    pub fn named<'a>(&self, name: &'a str, other: &'a order::Words) -> &'a str {
        other.get(self.language.code()).map_or(name, String::as_str)
    }

    /// A food allergen; one that the words do not know, as the order writes it.
    pub fn allergen(&self, allergen: &str) -> String {
        match allergen {
            "milk" => self.say("allergen-milk"),
            "soy" => self.say("allergen-soy"),
            "nuts" => self.say("allergen-nuts"),
            other => other.to_owned(),
        }
    }

    /// "3 y 2 mo".
    pub fn age(&self, age: AgeSpan) -> String {
        let (years, months) = (age.months / 12, age.months % 12);
        let mut parts = Vec::new();
        if years > 0 {
            parts.push(self.say_with("age-in-years", &[("count", years.into())]));
        }
        if months > 0 {
            parts.push(self.say_with("age-in-months", &[("count", months.into())]));
        }
        if age.days > 0 || parts.is_empty() {
            parts.push(self.say_with("age-in-days", &[("count", age.days.into())]));
        }
        parts.join(" ")
    }

    /// A row as the chart prints it: "26 lb to 38 lb", "up to 12 lb", "89 lb or more".
    pub fn row_limits(&self, row: &Row) -> String {
        match (&row.from, &row.to) {
            (None, None) => self.say("row-limits-all"),
            (None, Some(to)) => {
                let key = if to.inclusive {
                    "row-limits-up-to"
                } else {
                    "row-limits-under"
                };
                self.say_with(key, &[("to", self.measure(&to.at).into())])
            }
            (Some(from), None) => {
                let key = match (&from.at, from.inclusive) {
                    (Measure::Weight(_), true) => "row-limits-weight",
                    (Measure::Age(_), true) => "row-limits-age",
                    (_, false) => "row-limits-over",
                };
                self.say_with(key, &[("from", self.measure(&from.at).into())])
            }
            (Some(from), Some(to)) => {
                let key = match (from.inclusive, to.inclusive) {
                    (true, true) => "row-limits-between",
                    (false, true) => "row-limits-over-to",
                    (true, false) => "row-limits-to-under",
                    (false, false) => "row-limits-over-under",
                };
                let values = [
                    ("from", self.measure(&from.at).into()),
                    ("to", self.measure(&to.at).into()),
                ];
                self.say_with(key, &values)
            }
        }
    }

    fn measure(&self, measure: &Measure) -> String {
        match measure {
            Measure::Weight(weight) => weight.to_string(),
            Measure::Age(age) => self.age(*age),
        }
    }
}
