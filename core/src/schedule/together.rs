//! The household's rounds when people began on different days or hours.

use std::collections::BTreeMap;

use jiff::Timestamp;
use jiff::civil::DateTime;

use super::walk::Round;

/// One instant at which somebody takes a dose.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HouseholdRound {
    pub at: Timestamp,
    /// The wall-clock time it stands for.
    pub nominal: DateTime,
    /// Which course, and which round of it, in the order of courses.
    pub who: Vec<(usize, Round)>,
}

/// All courses in the order of time, rounds of the same instant as one.
pub fn together(courses: &[Vec<Round>]) -> Vec<HouseholdRound> {
    let mut by_instant: BTreeMap<Timestamp, HouseholdRound> = BTreeMap::new();
    for (course, rounds) in courses.iter().enumerate() {
        for round in rounds {
            by_instant
                .entry(round.at)
                .or_insert_with(|| HouseholdRound {
                    at: round.at,
                    nominal: round.nominal,
                    who: Vec::new(),
                })
                .who
                .push((course, *round));
        }
    }
    by_instant.into_values().collect()
}
