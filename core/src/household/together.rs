//! Weighing a child in somebody's arms: together minus alone, twice.
//!
//! A bathroom scale is wrong by half a pound and more, and near a row's edge that is a whole row.
//! So two pairs of readings must agree within that error, and the mean of their differences is the weight; everything is exact.
//! Source of the error: trade usage, from memory (practice D23).

use thiserror::Error;

use crate::units::BodyWeight;

/// One pair of readings of one scale.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WeighedTogether {
    /// The grown-up with the child.
    pub together: BodyWeight,
    /// The grown-up alone.
    pub alone: BodyWeight,
}

/// Why two pairs give no weight; the pairs are read again.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum WeighAgain {
    /// A child weighs something: the readings were mixed up.
    #[error("{together} together is not more than {alone} alone; read the scale again")]
    NotHeavier {
        together: BodyWeight,
        alone: BodyWeight,
    },
    #[error("{first} and {second} are more than half a pound apart; weigh twice more")]
    Apart {
        first: BodyWeight,
        second: BodyWeight,
    },
}

impl WeighAgain {
    pub fn code(&self) -> &'static str {
        match self {
            WeighAgain::NotHeavier { .. } => "together-not-heavier",
            WeighAgain::Apart { .. } => "weighings-apart",
        }
    }
}

impl WeighedTogether {
    /// The child's weight by this pair.
    ///
    /// # Errors
    /// Together is not heavier than alone.
    pub fn difference(&self) -> Result<BodyWeight, WeighAgain> {
        self.together
            .minus(&self.alone)
            .ok_or_else(|| WeighAgain::NotHeavier {
                together: self.together.clone(),
                alone: self.alone.clone(),
            })
    }
}

/// The mean of two differences that agree within [`BodyWeight::scale_error`], that much included.
///
/// Its words can be read back as the same weight.
///
/// # Errors
/// A pair without a difference, or two that do not agree: no weight, never a guess.
pub fn weigh_together(
    first: &WeighedTogether,
    second: &WeighedTogether,
) -> Result<BodyWeight, WeighAgain> {
    let (first, second) = (first.difference()?, second.difference()?);
    if first.distance(&second) > BodyWeight::scale_error().as_picograms() {
        return Err(WeighAgain::Apart { first, second });
    }
    Ok(first.halfway(&second))
}
