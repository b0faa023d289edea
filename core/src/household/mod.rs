//! The people of one household, and what is known about each.
//!
//! Nothing here is worked out from an order.

mod file;
mod id;
mod together;

use std::collections::{BTreeMap, BTreeSet};

use jiff::civil::Date;

use crate::growth::Sex;
use crate::units::{Age, AgeSpan, BodyWeight};

pub use file::{FileProblem, HouseholdFile, PersonEntry, parse_file};
pub use id::HouseholdId;
pub use together::{WeighAgain, WeighedTogether, weigh_together};

/// An answer to a screening question. "Unsure" exists because a forced yes or no is a false clearance.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize, serde::Deserialize,
)]
#[serde(rename_all = "kebab-case")]
pub enum Answer {
    Yes,
    No,
    Unsure,
}

/// What is known about somebody's age.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum KnownAge {
    Born(Date),
    Told(AgeSpan),
    Adult,
}

impl KnownAge {
    /// The age on the day of a dose. A told age does not grow: it is asked again.
    pub fn on(self, day: Date) -> Age {
        match self {
            KnownAge::Born(born) => Age::Born { born, on: day },
            KnownAge::Told(span) => Age::Told(span),
            KnownAge::Adult => Age::Adult,
        }
    }
}

/// A weight with its day and manner.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Weighing {
    pub weight: BodyWeight,
    pub on: Option<Date>,
    pub manner: Manner,
    /// A clinician or lead has looked at an implausible weight and a second weighing, and lifted the hold.
    pub hold_lifted: bool,
}

/// How somebody was weighed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Manner {
    Alone,
    /// Two readings, with and without the child in the arms.
    Together,
    Site,
    Clinic,
    Told,
}

/// Everything a dose may depend on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Person {
    pub name: String,
    pub age: Option<KnownAge>,
    pub sex: Option<Sex>,
    pub weighing: Option<Weighing>,
    pub swallows_tablets: bool,
    /// Born before 37 weeks; matters under three months of age.
    pub born_early: Option<Answer>,
    /// Food allergens: `milk`.
    pub food_allergies: BTreeSet<String>,
    /// Answers to the questions of an order, by key.
    pub answers: BTreeMap<String, Answer>,
    /// Screening was passed elsewhere and is stated as done.
    pub cleared: bool,
    /// Keys of holds that a clinician or lead has lifted.
    pub lifted: BTreeSet<String>,
    /// First day of this person's own course, where it differs from the household's.
    pub starts: Option<Date>,
}

impl Person {
    pub fn named(name: &str) -> Person {
        Person {
            name: name.to_owned(),
            age: None,
            sex: None,
            weighing: None,
            swallows_tablets: false,
            born_early: None,
            food_allergies: BTreeSet::new(),
            answers: BTreeMap::new(),
            cleared: false,
            lifted: BTreeSet::new(),
            starts: None,
        }
    }

    pub fn weight(&self) -> Option<&BodyWeight> {
        self.weighing.as_ref().map(|w| &w.weight)
    }

    pub fn age_on(&self, day: Date) -> Option<Age> {
        self.age.map(|age| age.on(day))
    }
}
