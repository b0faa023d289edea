//! What stands before and after a change, and the entries of lists that it is about.

use std::collections::BTreeMap;

use jiff::civil::Date;

use crate::order::model::{
    Apart, BetweenRows, Caution, Contact, ContactKind, FirstDose, Form, IfYes, KeepWhere,
    MostDoses, Product, Question, Row, SecondFluid, StaleWeight, Tolerance, Vehicle, WaterRule,
    Words,
};
use crate::order::supply::{HandOut, SealingKey};
use crate::units::{AgeSpan, BodyWeight, Lapse, Mass, Strength, Volume};

/// One side of a change.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Value {
    /// Names, keys, numbers of packages: the same in every language.
    Text(String),
    /// Sentences which the order gives in one language only.
    Prose(String),
    /// A name, and the same in other languages.
    Named {
        name: String,
        words: Words,
    },
    List(Vec<String>),
    /// Food allergens by the order's names: `milk`.
    Allergens(Vec<String>),
    Count(u32),
    Days(u32),
    Lapse(Lapse),
    Volume(Volume),
    Mass(Mass),
    Strength(Strength),
    Weight(BodyWeight),
    Age(AgeSpan),
    Date(Date),
    Tolerance(Tolerance),
    StaleWeight(StaleWeight),
    /// With the words of the questions that decide who is meant, by their keys.
    MostDoses {
        most: Vec<MostDoses>,
        asks: BTreeMap<String, Words>,
    },
    Apart(Vec<Apart>),
    SealingKey(SealingKey),
    SecondFluid(SecondFluid),
    HandOut(HandOut),
    FirstDose(FirstDose),
    BetweenRows(BetweenRows),
    KeepWhere(KeepWhere),
    Water(WaterRule),
    Form(Form),
    IfYes(IfYes),
    YesNo(bool),
    /// A dose from two bowls is allowed.
    Split(bool),
    /// Missed doses make the course longer.
    Extend(bool),
    /// Demonstration data, not a real order.
    Invented(bool),
}

impl Value {
    /// An empty text says nothing.
    pub(super) fn text(text: &str) -> Option<Value> {
        (!text.is_empty()).then(|| Value::Text(text.to_owned()))
    }

    pub(super) fn prose(text: &str) -> Option<Value> {
        (!text.is_empty()).then(|| Value::Prose(text.to_owned()))
    }

    pub(super) fn named(name: &str, words: &Words) -> Option<Value> {
        (!name.is_empty()).then(|| Value::Named {
            name: name.to_owned(),
            words: words.clone(),
        })
    }

    /// An empty list says nothing.
    pub(super) fn list<T: ToString>(entries: &[T]) -> Option<Value> {
        let entries: Vec<String> = entries.iter().map(ToString::to_string).collect();
        (!entries.is_empty()).then_some(Value::List(entries))
    }

    pub(super) fn allergens(entries: &[String]) -> Option<Value> {
        (!entries.is_empty()).then(|| Value::Allergens(entries.to_vec()))
    }
}

/// One entry of a list of the order, by what it is called.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Entry {
    Row(Row),
    Product { key: String },
    Vehicle { name: String, words: Words },
    Question { key: String, ask: Words },
    Caution { key: String, text: Words },
    Contact { kind: ContactKind, name: String },
}

impl Entry {
    /// Where it stands: `question pregnant`. Entries at one place are one entry.
    pub fn place(&self) -> String {
        match self {
            Entry::Row(row) => row_place(row),
            Entry::Product { key } => format!("product {key}"),
            Entry::Vehicle { name, .. } => format!("food or drink {name}"),
            Entry::Question { key, .. } => format!("question {key}"),
            Entry::Caution { key, .. } => format!("caution {key}"),
            Entry::Contact { kind, name } => {
                let kind = match kind {
                    ContactKind::Emergency => "emergency",
                    ContactKind::Poison => "poison",
                    ContactKind::Questions => "questions",
                    ContactKind::Refill => "refill",
                };
                format!("contact {kind} ({name})")
            }
        }
    }
}

pub(super) fn row_place(row: &Row) -> String {
    format!("row {row}")
}

impl From<&Product> for Entry {
    fn from(product: &Product) -> Entry {
        Entry::Product {
            key: product.key.clone(),
        }
    }
}

impl From<&Vehicle> for Entry {
    fn from(vehicle: &Vehicle) -> Entry {
        Entry::Vehicle {
            name: vehicle.name.clone(),
            words: vehicle.words.clone(),
        }
    }
}

impl From<&Question> for Entry {
    fn from(question: &Question) -> Entry {
        Entry::Question {
            key: question.key.clone(),
            ask: question.ask.clone(),
        }
    }
}

impl From<&Caution> for Entry {
    fn from(caution: &Caution) -> Entry {
        Entry::Caution {
            key: caution.key.clone(),
            text: caution.text.clone(),
        }
    }
}

impl From<&Contact> for Entry {
    fn from(contact: &Contact) -> Entry {
        Entry::Contact {
            kind: contact.kind,
            name: contact.name.clone(),
        }
    }
}
