//! The same people under another name: a mark by which two codes are compared.
//!
//! A second code is often honest (a lost phone, a home that split), so a match only sends to the lead.
//! Weights are compared as they were typed and births to the month, so that codes made weeks apart still match.
//! Adults without a weight tell nothing; a home of only such people matches no other.

use jiff::civil::Date;
use jiff::tz::TimeZone;
use serde::{Deserialize, Serialize};

use crate::exchange::{CodedAge, HouseholdCode, PersonCode};

/// What is the same about the people of two codes, whatever their ids.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct PeopleMark {
    /// People in all.
    people: usize,
    /// Weight as typed and month of birth, for those who have either, sorted.
    told: Vec<(Option<String>, Option<i32>)>,
}

impl PeopleMark {
    /// Nothing where too little is known to tell one home from another.
    pub fn of(code: &HouseholdCode) -> Option<PeopleMark> {
        let day = TimeZone::UTC.to_datetime(code.made).date();
        let mut told: Vec<(Option<String>, Option<i32>)> = code
            .people
            .iter()
            .map(|person| (weight(person), birth_month(person, day)))
            .filter(|(weight, birth)| weight.is_some() || birth.is_some())
            .collect();
        told.sort();
        let weights = told.iter().filter(|(weight, _)| weight.is_some()).count();
        let births = told.iter().filter(|(_, birth)| birth.is_some()).count();
        // One number alone is shared by many homes.
        (weights + births >= 2).then_some(PeopleMark {
            people: code.people.len(),
            told,
        })
    }

    /// A word under which codes of the same people are found; others may share it.
    pub fn shelf(&self) -> String {
        let mut weights: Vec<&str> = self
            .told
            .iter()
            .filter_map(|(weight, _)| weight.as_deref())
            .collect();
        weights.sort_unstable();
        format!("{}:{}", self.people, weights.join(","))
    }

    /// Whether these are the same people: as many, the same weights, births within a month.
    pub fn matches(&self, other: &PeopleMark) -> bool {
        let near = |a: Option<i32>, b: Option<i32>| match (a, b) {
            (Some(a), Some(b)) => (a - b).abs() <= 1,
            (a, b) => a == b,
        };
        let mut left: Vec<_> = other.told.iter().collect();
        self.people == other.people
            && self.told.len() == other.told.len()
            && self.told.iter().all(|(weight, birth)| {
                let found = left
                    .iter()
                    .position(|(w, b)| w == weight && near(*birth, *b));
                // In sorted order, so that the nearest birth is taken first.
                found.map(|at| left.remove(at)).is_some()
            })
    }
}

fn weight(person: &PersonCode) -> Option<String> {
    let weighing = person.weighing.as_ref()?;
    Some(weighing.weight.to_string())
}

/// Months since the year 0: the month of birth, or the one after it for an age in months.
fn birth_month(person: &PersonCode, day: Date) -> Option<i32> {
    let (born, months) = match person.age? {
        CodedAge::Days(days) => {
            let born = day.checked_sub(jiff::Span::new().days(i64::from(days)));
            (born.ok()?, 0)
        }
        CodedAge::Months(months) => (day, i32::from(months)),
        CodedAge::Adult => return None,
    };
    Some(i32::from(born.year()) * 12 + i32::from(born.month()) - months)
}
