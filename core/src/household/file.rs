//! The household file of the command line: TOML, read whole or not at all.

use std::collections::{BTreeMap, BTreeSet};

use jiff::civil::{Date, Time};
use serde::Deserialize;

use super::{Answer, KnownAge, Manner, Person, Weighing};
use crate::growth::Sex;
use crate::units::{AgeSpan, BodyWeight};

/// A household with its times, as written in a file.
#[derive(Clone, Debug)]
pub struct HouseholdFile {
    pub name: Option<String>,
    pub time_zone: String,
    pub start: Date,
    /// Times of day as written, such as `08:00`.
    pub rounds: Vec<String>,
    /// Local time of a first dose that does not wait for a regular round.
    pub first_dose_at: Option<Time>,
    /// `spoon` or `syringe`.
    pub tool: Option<String>,
    /// `fewest` or `fresh every round`.
    pub bowls: Option<String>,
    pub people: Vec<Person>,
}

/// One thing wrong with a household file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FileProblem {
    pub code: String,
    pub place: String,
    pub text: String,
}

#[derive(Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
struct RawHousehold {
    name: Option<String>,
    time_zone: String,
    start: toml::Value,
    rounds: Vec<String>,
    first_dose_at: Option<toml::Value>,
    tool: Option<String>,
    bowls: Option<String>,
    #[serde(default)]
    person: Vec<PersonEntry>,
}

/// A person as written in a file.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct PersonEntry {
    pub name: String,
    pub born: Option<toml::Value>,
    pub age: Option<String>,
    #[serde(default)]
    pub adult: bool,
    pub sex: Option<String>,
    pub weight: Option<String>,
    pub weighed: Option<toml::Value>,
    pub manner: Option<Manner>,
    #[serde(default)]
    pub swallows_tablets: bool,
    #[serde(default)]
    pub cleared: bool,
    pub born_early: Option<Answer>,
    #[serde(default)]
    pub food_allergies: BTreeSet<String>,
    #[serde(default)]
    pub answers: BTreeMap<String, Answer>,
    pub starts: Option<toml::Value>,
}

/// Reads a household file; every problem at once.
///
/// # Errors
/// Not TOML, unknown or missing fields, quantities or dates that cannot be read, two people of one name, nobody at all.
pub fn parse_file(text: &str) -> Result<HouseholdFile, Vec<FileProblem>> {
    let raw: RawHousehold = toml::from_str(text).map_err(|e| {
        let line = e.span().map_or(1, |span| {
            text.get(..span.start)
                .map_or(1, |before| before.matches('\n').count() + 1)
        });
        vec![problem(
            "unreadable-file",
            &format!("line {line}"),
            e.message(),
        )]
    })?;
    let mut problems = Vec::new();
    let start = read_date(&raw.start, "start", &mut problems);
    let first_dose_at = raw
        .first_dose_at
        .and_then(|value| match as_text(&value).parse::<Time>() {
            Ok(time) => Some(time),
            Err(_) => {
                problems.push(problem(
                    "time-unreadable",
                    "first-dose-at",
                    "write a time of day, such as 15:00",
                ));
                None
            }
        });
    if raw.person.is_empty() {
        problems.push(problem("nobody", "person", "the household has no people"));
    }
    let mut names = BTreeSet::new();
    let people: Vec<Person> = raw
        .person
        .into_iter()
        .map(|entry| {
            if !names.insert(entry.name.clone()) {
                problems.push(problem(
                    "name-twice",
                    &entry.name,
                    "two people have this name; a dose must name one person",
                ));
            }
            read_person(entry, &mut problems)
        })
        .collect();
    match start {
        Some(start) if problems.is_empty() => Ok(HouseholdFile {
            name: raw.name,
            time_zone: raw.time_zone,
            start,
            rounds: raw.rounds,
            first_dose_at,
            tool: raw.tool,
            bowls: raw.bowls,
            people,
        }),
        _ => Err(problems),
    }
}

fn read_person(entry: PersonEntry, problems: &mut Vec<FileProblem>) -> Person {
    let place = entry.name.clone();
    let mut person = Person::named(&entry.name);
    if let Some(born) = &entry.born {
        person.age = read_date(born, &place, problems).map(KnownAge::Born);
    } else if let Some(age) = &entry.age {
        match AgeSpan::parse(age) {
            Ok(span) => person.age = Some(KnownAge::Told(span)),
            Err(e) => problems.push(problem(e.code(), &place, &e.to_string())),
        }
    } else if entry.adult {
        person.age = Some(KnownAge::Adult);
    }
    person.sex = match entry.sex.as_deref() {
        None => None,
        Some("f" | "female") => Some(Sex::Female),
        Some("m" | "male") => Some(Sex::Male),
        Some(other) => {
            problems.push(problem(
                "sex-unknown",
                &place,
                &format!("“{other}”: write f or m, or leave it out"),
            ));
            None
        }
    };
    let weighed = entry
        .weighed
        .as_ref()
        .and_then(|value| read_date(value, &place, problems));
    if let Some(weight) = &entry.weight {
        match BodyWeight::parse(weight) {
            Ok(weight) => {
                let manner = entry.manner.unwrap_or(Manner::Told);
                person.weighing = Some(Weighing {
                    weight,
                    on: weighed,
                    manner,
                    hold_lifted: false,
                });
            }
            Err(e) => problems.push(problem(e.code(), &place, &e.to_string())),
        }
    }
    person.starts = entry
        .starts
        .as_ref()
        .and_then(|value| read_date(value, &place, problems));
    person.swallows_tablets = entry.swallows_tablets;
    person.cleared = entry.cleared;
    person.born_early = entry.born_early;
    person.food_allergies = entry.food_allergies;
    person.answers = entry.answers;
    person
}

fn as_text(value: &toml::Value) -> String {
    match value {
        toml::Value::String(text) => text.clone(),
        toml::Value::Datetime(date) => date.to_string(),
        _ => String::new(),
    }
}

fn read_date(value: &toml::Value, place: &str, problems: &mut Vec<FileProblem>) -> Option<Date> {
    let text = as_text(value);
    match text.parse::<Date>() {
        Ok(date) => Some(date),
        Err(_) => {
            problems.push(problem(
                "date-unreadable",
                place,
                &format!("“{text}” is not a date; write it as 2031-04-03"),
            ));
            None
        }
    }
}

fn problem(code: &str, place: &str, text: &str) -> FileProblem {
    FileProblem {
        code: code.to_owned(),
        place: place.to_owned(),
        text: text.to_owned(),
    }
}
