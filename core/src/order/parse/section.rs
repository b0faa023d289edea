//! Reading one table of the file field by field, keeping every problem instead of stopping at the first.

use jiff::Timestamp;
use jiff::civil::Date;
use toml::{Table, Value};

use super::spelling;
use crate::order::model::Words;
use crate::order::problem::Problem;
use crate::units::QuantityError;

/// A table of the file, its place, and what was found wrong so far.
///
/// Every field that was asked for counts as known; [`Section::finish`] reports all others.
pub(crate) struct Section<'a> {
    table: &'a Table,
    place: String,
    known: Vec<&'static str>,
    missing: Vec<&'static str>,
    problems: Vec<Problem>,
}

impl<'a> Section<'a> {
    pub(crate) fn new(table: &'a Table, place: impl Into<String>) -> Section<'a> {
        Section {
            table,
            place: place.into(),
            known: Vec::new(),
            missing: Vec::new(),
            problems: Vec::new(),
        }
    }

    pub(crate) fn place(&self) -> &str {
        &self.place
    }

    /// The place of a field: `medicine.lightest`.
    pub(crate) fn place_of(&self, key: &str) -> String {
        if self.place.is_empty() {
            key.to_owned()
        } else {
            format!("{}.{key}", self.place)
        }
    }

    pub(crate) fn has(&self, key: &str) -> bool {
        self.table.contains_key(key)
    }

    pub(crate) fn error(&mut self, code: &'static str, key: &str, text: impl Into<String>) {
        let place = if key.is_empty() {
            self.place.clone()
        } else {
            self.place_of(key)
        };
        self.problems.push(Problem::error(code, place, text));
    }

    pub(crate) fn report(&mut self, problem: Problem) {
        self.problems.push(problem);
    }

    pub(crate) fn optional(&mut self, key: &'static str) -> Option<&'a Value> {
        if !self.known.contains(&key) {
            self.known.push(key);
        }
        self.table.get(key)
    }

    /// Notes that the field must be there; the reading itself goes through the `optional_…` functions.
    pub(crate) fn require(&mut self, key: &'static str) {
        if self.optional(key).is_none() {
            self.missing.push(key);
        }
    }

    fn wrong_type(&mut self, key: &str, wanted: &str) {
        self.error("wrong-type", key, format!("“{key}” must be {wanted}."));
    }

    pub(crate) fn optional_text(&mut self, key: &'static str) -> Option<String> {
        match self.optional(key)? {
            Value::String(text) if !text.trim().is_empty() => Some(text.trim().to_owned()),
            Value::String(_) => {
                self.error("empty-field", key, format!("“{key}” is empty."));
                None
            }
            _ => {
                self.wrong_type(key, "text between quotation marks");
                None
            }
        }
    }

    pub(crate) fn text(&mut self, key: &'static str) -> Option<String> {
        self.require(key);
        self.optional_text(key)
    }

    /// A quantity with its unit. A bare number is refused: nobody can know its unit.
    pub(crate) fn optional_quantity<T>(
        &mut self,
        key: &'static str,
        read: fn(&str) -> Result<T, QuantityError>,
    ) -> Option<T> {
        match self.optional(key)? {
            Value::String(text) => match read(text) {
                Ok(value) => Some(value),
                Err(error) => {
                    let text = format!("“{key}” cannot be read: {error}.");
                    self.error(error.code(), key, text);
                    None
                }
            },
            Value::Integer(_) | Value::Float(_) => {
                let text = format!("“{key}” is a bare number; write it as text with its unit.");
                self.error("quantity-without-unit", key, text);
                None
            }
            _ => {
                self.wrong_type(key, "a quantity with its unit, as text");
                None
            }
        }
    }

    pub(crate) fn quantity<T>(
        &mut self,
        key: &'static str,
        read: fn(&str) -> Result<T, QuantityError>,
    ) -> Option<T> {
        self.require(key);
        self.optional_quantity(key, read)
    }

    pub(crate) fn optional_whole(&mut self, key: &'static str) -> Option<u32> {
        let value = match self.optional(key)? {
            Value::Integer(value) => u32::try_from(*value).ok(),
            _ => None,
        };
        if value.is_none() {
            self.wrong_type(key, "a whole number, zero or more, without quotation marks");
        }
        value
    }

    pub(crate) fn whole(&mut self, key: &'static str) -> Option<u32> {
        self.require(key);
        self.optional_whole(key)
    }

    pub(crate) fn optional_flag(&mut self, key: &'static str) -> Option<bool> {
        match self.optional(key)? {
            Value::Boolean(value) => Some(*value),
            _ => {
                self.wrong_type(key, "true or false, without quotation marks");
                None
            }
        }
    }

    pub(crate) fn optional_choice<T: Copy>(
        &mut self,
        key: &'static str,
        choices: &[(&str, T)],
    ) -> Option<T> {
        let given = self.optional_text(key)?;
        let found = choices
            .iter()
            .find_map(|(name, value)| (*name == given).then_some(*value));
        if found.is_none() {
            let names: Vec<String> = choices
                .iter()
                .map(|(name, _)| format!("“{name}”"))
                .collect();
            let names = names.join(", ");
            let text = format!("“{key}” is “{given}”; it must be one of {names}.");
            self.error("unknown-choice", key, text);
        }
        found
    }

    pub(crate) fn choice<T: Copy>(
        &mut self,
        key: &'static str,
        choices: &[(&str, T)],
    ) -> Option<T> {
        self.require(key);
        self.optional_choice(key, choices)
    }

    /// A list of texts; a text alone counts as a list of one.
    pub(crate) fn texts(&mut self, key: &'static str) -> Vec<String> {
        let list = match self.optional(key) {
            None => return Vec::new(),
            Some(Value::String(one)) => vec![Some(one.as_str())],
            Some(Value::Array(list)) => list.iter().map(Value::as_str).collect(),
            Some(_) => vec![None],
        };
        if list
            .iter()
            .any(|text| text.is_none_or(|text| text.trim().is_empty()))
        {
            self.wrong_type(key, "a list of texts, none of them empty");
        }
        list.into_iter()
            .flatten()
            .map(|text| text.trim().to_owned())
            .collect()
    }

    /// Words by language: `{ en = "…", es = "…" }`. Empty words count as missing.
    pub(crate) fn words(&mut self, key: &'static str) -> Words {
        let Some(value) = self.optional(key) else {
            return Words::new();
        };
        let mut words = Words::new();
        let mut odd = !value.is_table();
        for (language, text) in value.as_table().into_iter().flatten() {
            match text.as_str().map(str::trim) {
                Some("") => {}
                Some(text) => {
                    words.insert(language.clone(), text.to_owned());
                }
                None => odd = true,
            }
        }
        if odd {
            self.wrong_type(key, "words by language, such as { en = \"…\" }");
        }
        words
    }

    pub(crate) fn optional_date(&mut self, key: &'static str) -> Option<Date> {
        let text = self.time_text(key)?;
        let date = text.get(..10).and_then(|day| day.parse().ok());
        if date.is_none() {
            self.error(
                "not-a-date",
                key,
                format!("“{text}” is not a date; write it as 2031-06-30."),
            );
        }
        date
    }

    pub(crate) fn instant(&mut self, key: &'static str) -> Option<Timestamp> {
        self.require(key);
        let text = self.time_text(key)?;
        let instant = text.parse().ok();
        if instant.is_none() {
            let text = format!(
                "“{text}” is not an instant; write it as 2031-04-02T08:00:00-05:00, with its offset."
            );
            self.error("not-an-instant", key, text);
        }
        instant
    }

    /// A date or time, written as text or in TOML's own form.
    fn time_text(&mut self, key: &'static str) -> Option<String> {
        match self.optional(key)? {
            Value::Datetime(value) => Some(value.to_string()),
            _ => self.optional_text(key),
        }
    }

    pub(crate) fn optional_table(&mut self, key: &'static str) -> Option<Section<'a>> {
        match self.optional(key)? {
            Value::Table(table) => Some(Section::new(table, self.place_of(key))),
            _ => {
                self.wrong_type(key, "a table");
                None
            }
        }
    }

    /// The tables of `[[key]]`, each with its number from 1: `row 3`.
    pub(crate) fn tables(&mut self, key: &'static str) -> Vec<Section<'a>> {
        let list: &[Value] = match self.optional(key) {
            None => &[],
            Some(Value::Array(list)) => list,
            Some(one) => std::slice::from_ref(one),
        };
        let tables: Vec<Option<&Table>> = list.iter().map(Value::as_table).collect();
        if tables.contains(&None) {
            self.wrong_type(key, &format!("a list of tables, written [[{key}]]"));
        }
        let place = self.place_of(key);
        let numbered = tables.into_iter().enumerate();
        numbered
            .filter_map(|(index, table)| {
                table.map(|table| Section::new(table, format!("{place} {}", index + 1)))
            })
            .collect()
    }

    /// Takes over what a table inside this one found.
    pub(crate) fn absorb(&mut self, inner: Section<'a>) {
        self.problems.extend(inner.finish());
    }

    /// Everything wrong with this table, misspelled and unknown fields included.
    pub(crate) fn finish(mut self) -> Vec<Problem> {
        let names: Vec<&String> = self.table.keys().collect();
        for name in names {
            if self.known.contains(&name.as_str()) {
                continue;
            }
            let place = self.place_of(name);
            let problem =
                match spelling::meant(name, &self.known, |known| self.table.contains_key(known)) {
                    Some(meant) => {
                        self.missing.retain(|missing| *missing != meant);
                        let text = format!("“{name}” looks like a misspelled “{meant}”.");
                        Problem::error("misspelled-field", place, text)
                    }
                    None => {
                        let text = format!("“{name}” is not known to this version and is ignored.");
                        Problem::warning("unknown-field", place, text)
                    }
                };
            self.problems.push(problem);
        }
        for key in std::mem::take(&mut self.missing) {
            self.error(
                "missing-field",
                key,
                format!("“{key}” is missing and must be given."),
            );
        }
        self.problems
    }
}
