//! A slow, plain dose calculator with its own arithmetic, to hold the program's against.
//!
//! It reads the order as plain TOML and counts in fractions; no code of the program is used here.
//! What it does not know: whether a weight fits an age. Of people whose age and weight are both
//! known it expects a second weighing, after which nobody asks that question.
//!
//! Its rules are written down from the description of the order file, not from the program:
//! one row for each person, the rule between printed limits, whole tablets only for a row of whole
//! tablets, and every reason at once for those who get nothing.

mod calendar;
mod fraction;
mod sheet;

use std::cmp::Ordering;
use std::collections::{BTreeMap, BTreeSet};

pub use calendar::{Day, Length, surely};
pub use fraction::Fraction;
pub use sheet::{Edge, Line, Place, Sheet, kilograms};

/// What is known of an age.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PatientAge {
    Born(Day),
    /// Such as `3 y 2 mo`.
    Told(String),
    Adult,
}

/// One person, in words as typed.
#[derive(Clone, Debug)]
pub struct Patient {
    pub weight: Option<String>,
    /// A second weighing has settled that the weight is right.
    pub weighed_twice: bool,
    pub age: Option<PatientAge>,
    /// The day of the dose.
    pub day: Day,
    pub swallows: bool,
    pub cleared: bool,
    /// `yes`, `no` or `unsure` by key of the question.
    pub answers: BTreeMap<String, &'static str>,
    /// Born early: `yes`, `no`, `unsure` or never asked.
    pub early: Option<&'static str>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Verdict {
    Portion(Portion),
    /// Codes of all reasons.
    Nothing(BTreeSet<&'static str>),
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Portion {
    /// Counted from 0.
    pub row: usize,
    pub form: &'static str,
    pub millilitres: Fraction,
    pub milligrams: Fraction,
    pub tablets: Option<i128>,
    /// Hundredths of mg/kg, halves away from zero.
    pub hundredths: Option<i128>,
}

/// What `patient` gets by the order in `sheet`.
pub fn judge(sheet: &Sheet, patient: &Patient) -> Verdict {
    let mut reasons = unanswered(sheet, patient);
    reasons.extend(by_age(sheet, patient));
    reasons.extend(by_weight(sheet, patient));
    if reasons.is_empty() {
        return match line_for(sheet, patient) {
            Ok(row) => Verdict::Portion(portion(sheet, patient, row)),
            Err(reason) => Verdict::Nothing(BTreeSet::from([reason])),
        };
    }
    // Nobody walks to the site twice: what the chart will ask for is told at once.
    if !sheet.by_age && patient.weight.is_none() && !is_adult(sheet, patient) {
        reasons.insert("weight-needed");
    }
    if sheet.by_age && patient.age.is_none() {
        reasons.insert("age-needed");
    }
    Verdict::Nothing(reasons)
}

fn unanswered(sheet: &Sheet, patient: &Patient) -> BTreeSet<&'static str> {
    let mut reasons = BTreeSet::new();
    if sheet.questions.is_empty() && !patient.cleared {
        reasons.insert("screening-not-done");
    }
    for (key, if_yes) in &sheet.questions {
        let reason = match patient.answers.get(key).copied() {
            Some("no") => continue,
            Some("yes") if if_yes == "caution" => continue,
            Some("yes") if if_yes == "stop" => "screening-stop",
            Some("yes") => "screening-hold",
            Some(_) => "screening-unsure",
            None if patient.cleared => continue,
            None => "screening-not-done",
        };
        reasons.insert(reason);
    }
    reasons
}

fn by_age(sheet: &Sheet, patient: &Patient) -> BTreeSet<&'static str> {
    let mut reasons = BTreeSet::new();
    let Some(age) = &patient.age else {
        return reasons;
    };
    if matches!(age, PatientAge::Born(born) if *born > patient.day) {
        reasons.insert("born-after-dose");
        return reasons;
    }
    let reached = |limit: Length| beside(age, patient.day, limit) != Ordering::Less;
    if sheet.youngest.is_some_and(|youngest| !reached(youngest)) {
        reasons.insert("below-youngest");
    }
    if !reached(Length { months: 3, days: 0 }) {
        match patient.early {
            Some("no") => {}
            Some(_) => {
                reasons.insert("born-early");
            }
            None if patient.cleared => {}
            None => {
                reasons.insert("screening-not-done");
            }
        }
    }
    reasons
}

fn by_weight(sheet: &Sheet, patient: &Patient) -> BTreeSet<&'static str> {
    let mut reasons = BTreeSet::new();
    let Some(weight) = patient.kilograms() else {
        return reasons;
    };
    if sheet.lightest.is_some_and(|lightest| weight < lightest) {
        reasons.insert("below-lightest");
    }
    let believable = weight >= Fraction::whole(2) && weight <= Fraction::whole(300);
    if !believable && !patient.weighed_twice {
        reasons.insert("implausible-weight");
    }
    reasons
}

fn is_adult(sheet: &Sheet, patient: &Patient) -> bool {
    match (sheet.adult_from, &patient.age) {
        (Some(limit), Some(age)) => beside(age, patient.day, limit) != Ordering::Less,
        _ => false,
    }
}

/// The row of the chart, counted from 0, or the code of the reason why there is none.
fn line_for(sheet: &Sheet, patient: &Patient) -> Result<usize, &'static str> {
    if sheet.by_age {
        let age = patient.age.as_ref().ok_or("age-needed")?;
        let compare = |place: &Place| match place {
            Place::Age(limit) => beside(age, patient.day, *limit),
            Place::Weight(_) => unreachable!("a chart by age has no weight limits"),
        };
        let row = within(sheet, compare).ok_or("outside-chart")?;
        let next = sheet.lines.get(row + 1).and_then(|line| line.or_from);
        return match (next, patient.kilograms()) {
            (Some(limit), Some(weight)) if weight >= limit => Ok(row + 1),
            _ => Ok(row),
        };
    }
    if is_adult(sheet, patient) {
        return Ok(sheet.lines.len() - 1);
    }
    let weight = patient.kilograms().ok_or("weight-needed")?;
    let compare = |place: &Place| match place {
        Place::Weight(limit) => weight.cmp(limit),
        Place::Age(_) => unreachable!("a chart by weight has no age limits"),
    };
    if let Some(row) = within(sheet, compare) {
        return Ok(row);
    }
    // Nobody's row: below the chart, or above the end of one row and below the start of the next.
    let passed = sheet.lines.iter().take_while(|line| {
        let end = line.to.as_ref();
        end.is_some_and(|edge| match compare(&edge.place) {
            Ordering::Less => false,
            Ordering::Equal => !edge.own,
            Ordering::Greater => true,
        })
    });
    let next = passed.count();
    let Some(lower) = next.checked_sub(1) else {
        return Err("outside-chart");
    };
    let gives = sheet.milligrams_of(lower);
    let wanted = sheet.per_kilogram.map(|per| {
        let wanted = per * weight;
        sheet.largest.map_or(wanted, |largest| wanted.min(largest))
    });
    let enough = sheet.lower_if_enough && wanted.is_some_and(|wanted| gives >= wanted);
    Ok(if enough { lower } else { next })
}

/// The one row whose limits hold.
fn within(sheet: &Sheet, compare: impl Fn(&Place) -> Ordering) -> Option<usize> {
    let mut found = None;
    for (index, line) in sheet.lines.iter().enumerate() {
        let above = line
            .from
            .as_ref()
            .is_none_or(|edge| match compare(&edge.place) {
                Ordering::Less => false,
                Ordering::Equal => edge.own,
                Ordering::Greater => true,
            });
        let below = line
            .to
            .as_ref()
            .is_none_or(|edge| match compare(&edge.place) {
                Ordering::Less => true,
                Ordering::Equal => edge.own,
                Ordering::Greater => false,
            });
        if above && below {
            assert!(found.is_none(), "rows {found:?} and {index} both hold");
            found = Some(index);
        }
    }
    found
}

fn portion(sheet: &Sheet, patient: &Patient, row: usize) -> Portion {
    let milligrams = sheet.milligrams_of(row);
    let tablets = sheet
        .tablet
        .map(|tablet| milligrams / tablet)
        .filter(|count| count.is_whole() && *count > Fraction::whole(0))
        .filter(|_| patient.swallows && sheet.whole_allowed)
        .map(Fraction::floor);
    let form = match (tablets, sheet.tablet) {
        (Some(_), _) => "tablets",
        (None, Some(_)) => "mixture",
        (None, None) => "liquid",
    };
    let hundredths = patient.kilograms().map(|weight| {
        let exact = milligrams / weight * Fraction::whole(100);
        (exact + Fraction::new(1, 2)).floor()
    });
    Portion {
        row,
        form,
        millilitres: sheet.lines[row].millilitres,
        milligrams,
        tablets,
        hundredths,
    }
}

/// An age held against a limit: `Equal` on the very day on which the limit is reached.
fn beside(age: &PatientAge, day: Day, limit: Length) -> Ordering {
    match age {
        PatientAge::Born(born) => day.cmp(&born.after(limit)),
        PatientAge::Told(text) => {
            let told = Length::read(text).expect("a readable age");
            calendar::surely(told, limit)
        }
        // Eighteen and past the birthday.
        PatientAge::Adult => calendar::surely(
            Length {
                months: 216,
                days: 1,
            },
            limit,
        ),
    }
}

impl Patient {
    pub fn kilograms(&self) -> Option<Fraction> {
        let text = self.weight.as_ref()?;
        Some(kilograms(text).expect("a readable weight"))
    }
}
