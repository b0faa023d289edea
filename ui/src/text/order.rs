//! What orders say, in the language of the screen: their own words where they have them, ages and rows of the chart.

use hearthdose_core::order::{self, Measure, Order, Row};
use hearthdose_core::units::AgeSpan;

use super::Words;

impl Words {
    /// The order's own words in this language, or in another one where it has none here, which the screen then says.
    pub fn of_order<'a>(&self, words: &'a order::Words) -> &'a str {
        match (words.get(self.language.code()), words.iter().next()) {
            (Some(text), _) => text,
            (None, Some((language, text))) => self.only_in(language, text),
            (None, None) => "",
        }
    }

    /// The order's words about one person: `{name}` in them stands for the name.
    pub fn of_order_about(&self, words: &order::Words, name: &str) -> String {
        self.of_order(words).replace("{name}", name)
    }

    /// A name of the order, which it writes in its first language and may have in others too.
    pub fn named<'a>(&self, order: &Order, name: &'a str, other: &'a order::Words) -> &'a str {
        match (other.get(self.language.code()), order.languages.first()) {
            (Some(text), _) => text,
            (None, Some(own)) => self.only_in(own, name),
            (None, None) => name,
        }
    }

    pub fn title<'a>(&self, order: &'a Order) -> &'a str {
        self.named(order, &order.title, &order.title_words)
    }

    /// The name of the medicine.
    pub fn medicine<'a>(&self, order: &'a Order) -> &'a str {
        self.named(order, &order.medicine.name, &order.medicine.words)
    }

    /// Where the numbers come from: prose of the order's first language.
    pub fn source<'a>(&self, order: &'a Order) -> &'a str {
        let own = order.languages.first();
        own.map_or(order.source.as_str(), |own| {
            self.only_in(own, &order.source)
        })
    }

    /// A food allergen; one that the words do not know, as the order writes it.
    pub fn allergen(&self, allergen: &str) -> String {
        match allergen {
            "milk" => self.say("allergen-milk"),
            "soy" => self.say("allergen-soy"),
            "nuts" => self.say("allergen-nuts"),
            // Orders write what they contain in English, as the known ones are written.
            other => self.only_in("en", other).to_owned(),
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
