//! Random orders and random people for them, the same on every machine.
//!
//! Orders are right by construction: rows in order, amounts measurable, limits that meet or leave a
//! gap of at most one unit. People crowd around the limits, where mistakes would show.

mod at_hand;
mod dice;
mod orders;
mod patients;

use std::collections::BTreeSet;

use hearthdose_core::household::{Answer, KnownAge, Manner, Person, Weighing};
use hearthdose_core::units::{AgeSpan, BodyWeight};
use jiff::civil::Date;

use crate::oracle::{Day, Patient, PatientAge};

pub use at_hand::{
    DAY, checked, demo_order, demo_text, someone, told, weighing, weighing_and_aged,
};
pub use dice::Dice;
pub use orders::{MadeOrder, order};
pub use patients::patient;

/// The same person for the program.
pub fn person(patient: &Patient) -> Person {
    let mut person = Person::named("Ada");
    person.age = patient.age.as_ref().map(|age| match age {
        PatientAge::Born(day) => KnownAge::Born(date(*day)),
        PatientAge::Told(text) => KnownAge::Told(AgeSpan::parse(text).expect("an age")),
        PatientAge::Adult => KnownAge::Adult,
    });
    person.weighing = patient.weight.as_ref().map(|text| Weighing {
        weight: BodyWeight::parse(text).expect("a weight"),
        on: None,
        manner: Manner::Alone,
        hold_lifted: patient.weighed_twice,
    });
    person.swallows_tablets = patient.swallows;
    person.born_early = patient.early.map(answer);
    person.cleared = patient.cleared;
    person.food_allergies = BTreeSet::new();
    person.answers = patient
        .answers
        .iter()
        .map(|(key, word)| (key.clone(), answer(word)))
        .collect();
    person
}

pub fn date(day: Day) -> Date {
    let part = |value: i64| i8::try_from(value).expect("a month or day");
    let year = i16::try_from(day.year).expect("a year");
    Date::new(year, part(day.month), part(day.day)).expect("a date")
}

fn answer(word: &str) -> Answer {
    match word {
        "yes" => Answer::Yes,
        "no" => Answer::No,
        _ => Answer::Unsure,
    }
}
