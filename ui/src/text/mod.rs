//! Words by key, in the language of the person.
//!
//! Words live in `ui/words/*.ftl`; a key that is missing there fails the gate, so it never reaches a screen.
//! Fluent's isolation marks are off: they would end up in accessible names, JSON and paper.

mod amounts;
mod change;
mod foreign;
mod order;
mod reasons;
mod rounds;
mod times;

use std::cell::RefCell;
use std::collections::BTreeSet;

use fluent::{FluentArgs, FluentBundle, FluentResource, FluentValue};
use unic_langid::LanguageIdentifier;

pub use amounts::{Measure, spoons};
pub use change::Reader;

/// A value put into a sentence.
#[derive(Clone, Debug)]
pub enum Value {
    Words(String),
    /// Chooses the plural form and is written as digits.
    Count(u64),
}

impl From<&str> for Value {
    fn from(text: &str) -> Value {
        Value::Words(text.to_owned())
    }
}

impl From<String> for Value {
    fn from(text: String) -> Value {
        Value::Words(text)
    }
}

impl From<usize> for Value {
    fn from(count: usize) -> Value {
        Value::Count(u64::try_from(count).unwrap_or(u64::MAX))
    }
}

impl From<u32> for Value {
    fn from(count: u32) -> Value {
        Value::Count(u64::from(count))
    }
}

/// Below zero it is written as words, with the form of a plural.
impl From<i64> for Value {
    fn from(count: i64) -> Value {
        match u64::try_from(count) {
            Ok(count) => Value::Count(count),
            Err(_) => Value::Words(count.to_string()),
        }
    }
}

impl From<u64> for Value {
    fn from(count: u64) -> Value {
        Value::Count(count)
    }
}

/// The words of one language.
pub struct Words {
    language: Language,
    bundle: FluentBundle<FluentResource>,
    /// Codes of other languages that were shown, see `foreign`.
    foreign: RefCell<BTreeSet<String>>,
}

/// A language the screens speak.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Language {
    English,
    Spanish,
}

impl Language {
    pub const ALL: [Language; 2] = [Language::English, Language::Spanish];

    pub fn code(self) -> &'static str {
        match self {
            Language::English => "en",
            Language::Spanish => "es",
        }
    }

    /// The language's own name for itself.
    pub fn own_name(self) -> &'static str {
        match self {
            Language::English => "English",
            Language::Spanish => "Español",
        }
    }

    /// The one that is offered on the screens of this one.
    pub fn next(self) -> Language {
        match self {
            Language::English => Language::Spanish,
            Language::Spanish => Language::English,
        }
    }

    pub fn of_code(code: &str) -> Option<Language> {
        Language::ALL
            .into_iter()
            .find(|language| language.code() == code)
    }

    fn source(self) -> &'static str {
        match self {
            Language::English => include_str!("../../words/en.ftl"),
            Language::Spanish => include_str!("../../words/es.ftl"),
        }
    }
}

impl Words {
    pub fn load(language: Language) -> Words {
        Words::read(language, language.source())
    }

    /// Words of a language from another file than the program's own: for trials of languages to come.
    pub fn read(language: Language, source: &str) -> Words {
        let id: LanguageIdentifier = language.code().parse().unwrap_or_default();
        let mut bundle = FluentBundle::new(vec![id]);
        bundle.set_use_isolating(false);
        // The name is new in a bundle that was just made.
        let _ = bundle.add_function("LAS", |values, _| times::with_article(values));
        // A resource with a broken entry still gives all the others; tests refuse broken entries.
        let resource =
            FluentResource::try_new(source.to_owned()).unwrap_or_else(|(resource, _)| resource);
        bundle.add_resource_overriding(resource);
        Words {
            language,
            bundle,
            foreign: RefCell::default(),
        }
    }

    pub fn language(&self) -> Language {
        self.language
    }

    /// The words of `key` without values.
    pub fn say(&self, key: &str) -> String {
        self.say_with(key, &[])
    }

    /// The words of `key` with values put in.
    pub fn say_with(&self, key: &str, values: &[(&str, Value)]) -> String {
        let mut args = FluentArgs::new();
        for (name, value) in values {
            match value {
                Value::Words(text) => args.set(*name, FluentValue::from(text.as_str())),
                Value::Count(count) => args.set(*name, FluentValue::from(*count)),
            }
        }
        let pattern = self
            .bundle
            .get_message(key)
            .and_then(|message| message.value());
        match pattern {
            Some(pattern) => {
                let said = self
                    .bundle
                    .format_pattern(pattern, Some(&args), &mut Vec::new());
                // A clock time that ends in a point ends its sentence too: "at 7:48 p.m. You may wait longer."
                said.replace("..", ".")
            }
            None => format!("[{key}]"),
        }
    }

    /// "milk", "milk or juice", "milk, pudding or juice".
    pub fn either(&self, names: &[String]) -> String {
        self.joined(names, "list-either")
    }

    /// "Ana", "Ana and Ben", "Ana, Ben and Cleo".
    pub fn list(&self, names: &[String]) -> String {
        self.joined(names, "list-last")
    }

    fn joined(&self, names: &[String], last_of_them: &str) -> String {
        match names {
            [] => String::new(),
            [one] => one.clone(),
            [first @ .., last] => self.say_with(
                last_of_them,
                &[
                    ("first", first.join(", ").into()),
                    ("last", last.as_str().into()),
                ],
            ),
        }
    }
}
