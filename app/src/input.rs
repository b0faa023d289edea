//! Reading what the command line names: files, weights, ages, answers.
//!
//! Whatever cannot be read stops the command with a sentence; an order with errors is a refusal with its problems as reasons.

use std::fs::File;
use std::io::{self, Read};
use std::path::Path;

use hearthdose_core::growth::Sex;
use hearthdose_core::household::{self, Answer, FileProblem, HouseholdFile, KnownAge};
use hearthdose_core::order::{self, CheckedOrder, Order, Problem};
use hearthdose_core::units::{AgeSpan, BodyWeight};
use jiff::Timestamp;

use crate::answer::{Reason, Stop};
use crate::arguments::{AnswerName, SexName};

/// Far more than any order, household or bare plan needs; protects against a wrong or endless file.
const MOST_BYTES: u64 = 8 * 1024 * 1024;

/// The code core gives to bytes that are no TOML.
const UNREADABLE: &str = "unreadable-file";

pub fn bytes(path: &Path) -> Result<Vec<u8>, Stop> {
    let fail = |why: String| Stop::unusable(format!("cannot read {}: {why}", path.display()));
    let file = File::open(path).map_err(|error| fail(error.to_string()))?;
    limited(file).map_err(|error| fail(error.to_string()))
}

pub fn standard_input() -> Result<Vec<u8>, Stop> {
    limited(io::stdin().lock())
        .map_err(|error| Stop::unusable(format!("cannot read standard input: {error}")))
}

fn limited(source: impl Read) -> io::Result<Vec<u8>> {
    let mut found = Vec::new();
    let read = source.take(MOST_BYTES + 1).read_to_end(&mut found)?;
    if u64::try_from(read).is_ok_and(|read| read <= MOST_BYTES) {
        Ok(found)
    } else {
        Err(io::Error::new(
            io::ErrorKind::InvalidData,
            "it is larger than 8 MiB",
        ))
    }
}

/// An order that may be used. Its warnings stay with `order check`.
pub fn order(path: &Path) -> Result<CheckedOrder, Stop> {
    CheckedOrder::from_bytes(&bytes(path)?).map_err(|problems| unusable_order(path, &problems))
}

/// An order that can be read completely, whatever else is wrong with it.
pub fn readable_order(path: &Path) -> Result<Order, Stop> {
    order::parse(&bytes(path)?).map_err(|problems| unusable_order(path, &problems))
}

fn unusable_order(path: &Path, problems: &[Problem]) -> Stop {
    unreadable(path, problems).unwrap_or_else(|| {
        let errors = problems.iter().filter(|problem| problem.is_error());
        Stop::refused(errors.map(of_problem).collect())
    })
}

/// The stop for a file that is no TOML at all, if that is the problem.
pub fn unreadable(path: &Path, problems: &[Problem]) -> Option<Stop> {
    let problem = problems.iter().find(|problem| problem.code == UNREADABLE)?;
    Some(Stop::unusable(format!(
        "{}: {}",
        path.display(),
        problem.text
    )))
}

fn of_problem(problem: &Problem) -> Reason {
    Reason {
        place: Some(problem.place.clone()),
        ..Reason::new(problem.code, problem.text.clone())
    }
}

pub fn household(path: &Path) -> Result<HouseholdFile, Stop> {
    let bytes = bytes(path)?;
    let text = std::str::from_utf8(&bytes)
        .map_err(|_| Stop::unusable(format!("{} is not UTF-8 text", path.display())))?;
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    household::parse_file(text)
        .map_err(|problems| Stop::Unusable(problems.iter().map(|p| sentence(path, p)).collect()))
}

fn sentence(path: &Path, problem: &FileProblem) -> String {
    format!(
        "{}: {}: {} ({})",
        path.display(),
        problem.place,
        problem.text.trim_end(),
        problem.code
    )
}

pub fn weight(text: &str) -> Result<BodyWeight, Stop> {
    BodyWeight::parse(text).map_err(|error| Stop::unusable(format!("weight: {error}")))
}

pub fn age(text: &str) -> Result<AgeSpan, Stop> {
    AgeSpan::parse(text).map_err(|error| Stop::unusable(format!("age: {error}")))
}

/// An age, or the word for somebody known to be grown up.
pub fn known_age(text: &str) -> Result<KnownAge, Stop> {
    if text.trim().eq_ignore_ascii_case("adult") {
        Ok(KnownAge::Adult)
    } else {
        age(text).map(KnownAge::Told)
    }
}

/// A moment with its offset.
pub fn instant(text: &str) -> Result<Timestamp, Stop> {
    text.parse().map_err(|_| {
        Stop::unusable(format!(
            "“{text}” is no time with an offset; write it as 2031-04-03T07:30:00-05:00"
        ))
    })
}

/// `KEY=yes`, `KEY=no` or `KEY=unsure`.
pub fn answer(text: &str) -> Result<(String, Answer), Stop> {
    let wrong = || {
        Stop::unusable(format!(
            "answer: “{text}”: write KEY=yes, KEY=no or KEY=unsure"
        ))
    };
    let (key, word) = text.split_once('=').ok_or_else(wrong)?;
    let answer = match word.trim() {
        "yes" => Answer::Yes,
        "no" => Answer::No,
        "unsure" => Answer::Unsure,
        _ => return Err(wrong()),
    };
    Ok((key.trim().to_owned(), answer))
}

impl From<SexName> for Sex {
    fn from(name: SexName) -> Sex {
        match name {
            SexName::Female => Sex::Female,
            SexName::Male => Sex::Male,
        }
    }
}

impl From<AnswerName> for Answer {
    fn from(name: AnswerName) -> Answer {
        match name {
            AnswerName::Yes => Answer::Yes,
            AnswerName::No => Answer::No,
            AnswerName::Unsure => Answer::Unsure,
        }
    }
}
