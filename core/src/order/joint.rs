//! How two neighbouring rows of a chart meet.

use std::cmp::Ordering;

use super::model::{Limit, Measure, Row};
use crate::units::{AgeSpan, BodyWeight, WeightUnit};

const PICOGRAMS_PER_POUND: u64 = 453_592_370_000_000;
const PICOGRAMS_PER_KILOGRAM: u64 = 1_000_000_000_000_000;

/// What lies between the end of a row and the beginning of the next.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Joint {
    /// Nobody between them, nobody in both.
    Touching,
    /// The usual printed gap of a weight chart, up to one unit wide (12 lb, 13 lb); the rule between rows serves it.
    PrintedGap {
        above: BodyWeight,
        below: BodyWeight,
    },
    /// People between the rows whom no rule serves.
    Hole,
    /// Somebody is in both rows.
    Overlap,
    /// The second row begins below the beginning of the first.
    OutOfOrder,
    /// The first row has no end, or the second no beginning.
    Open,
    /// One limit is a weight, the other an age.
    Mixed,
}

/// How `lower` and the row printed after it meet.
pub fn joint(lower: &Row, upper: &Row) -> Joint {
    if let (Some(first), Some(second)) = (&lower.from, &upper.from)
        && compare(&second.at, &first.at) == Some(Ordering::Less)
    {
        return Joint::OutOfOrder;
    }
    let (Some(end), Some(start)) = (&lower.to, &upper.from) else {
        return Joint::Open;
    };
    if let (None, Some(second_end)) = (&lower.from, &upper.to)
        && compare(&second_end.at, &end.at) == Some(Ordering::Less)
    {
        return Joint::OutOfOrder;
    }
    match compare(&end.at, &start.at) {
        None => Joint::Mixed,
        Some(Ordering::Greater) => Joint::Overlap,
        Some(Ordering::Equal) => match (end.inclusive, start.inclusive) {
            (true, true) => Joint::Overlap,
            (false, false) => Joint::Hole,
            _ => Joint::Touching,
        },
        Some(Ordering::Less) => apart(end, start),
    }
}

fn apart(end: &Limit, start: &Limit) -> Joint {
    match (&end.at, &start.at) {
        (Measure::Weight(above), Measure::Weight(below)) => {
            let pounds = [above, below]
                .iter()
                .all(|limit| limit.unit() != WeightUnit::Kilograms);
            let unit = if pounds {
                PICOGRAMS_PER_POUND
            } else {
                PICOGRAMS_PER_KILOGRAM
            };
            if above.distance(below) <= unit {
                Joint::PrintedGap {
                    above: above.clone(),
                    below: below.clone(),
                }
            } else {
                Joint::Hole
            }
        }
        // Ages are counted in whole days, so "up to 28 d" and "from 29 d" leave nobody out.
        (Measure::Age(above), Measure::Age(below)) => {
            let next_day =
                above.months == below.months && above.days.checked_add(1) == Some(below.days);
            if next_day && end.inclusive && start.inclusive {
                Joint::Touching
            } else {
                Joint::Hole
            }
        }
        _ => Joint::Mixed,
    }
}

/// Which of two limits comes first in a chart; nothing for a weight beside an age.
pub fn compare(a: &Measure, b: &Measure) -> Option<Ordering> {
    match (a, b) {
        (Measure::Weight(a), Measure::Weight(b)) => Some(a.cmp(b)),
        (Measure::Age(a), Measure::Age(b)) => Some(hundredth_days(*a).cmp(&hundredth_days(*b))),
        _ => None,
    }
}

/// An age in hundredths of a day with months of 30.44 days: only for putting limits in order.
fn hundredth_days(age: AgeSpan) -> u64 {
    u64::from(age.months) * 3_044 + u64::from(age.days) * 100
}
