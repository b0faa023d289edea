//! Volume of a mixture, a liquid, water or food.

use super::quantity::{self, QuantityError};
use super::show;

/// Volume in microlitres. One teaspoon is 5 mL exactly (21 CFR 101.9(b)(5)(viii)).
#[derive(
    Clone,
    Default,
    Copy,
    Debug,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    serde::Serialize,
    serde::Deserialize,
)]
#[serde(transparent)]
pub struct Volume(u64);

/// A quarter of a teaspoon, the finest kitchen step there is.
const QUARTER_TEASPOON: u64 = 1_250;

impl Volume {
    pub const ZERO: Volume = Volume(0);
    pub const TEASPOON: Volume = Volume(5_000);
    pub const HALF_TEASPOON: Volume = Volume(2_500);

    pub const fn microlitres(value: u64) -> Volume {
        Volume(value)
    }

    pub const fn as_microlitres(self) -> u64 {
        self.0
    }

    /// Reads `1/2 tsp`, `7.5 mL`, `4 teaspoons`.
    ///
    /// # Errors
    /// See [`QuantityError`]. Tablespoons are not read: a slip of one letter is a factor of three.
    pub fn parse(text: &str) -> Result<Volume, QuantityError> {
        let units = [
            ("mL", 1_000),
            ("ml", 1_000),
            ("tsp", 5_000),
            ("teaspoon", 5_000),
            ("teaspoons", 5_000),
            ("L", 1_000_000),
        ];
        quantity::single(text, &units, "mL or tsp").map(Volume)
    }

    /// Millilitres as digits: `7.5`.
    pub fn millilitres(self) -> String {
        show::decimal(self.0, 3)
    }

    /// Whole quarter teaspoons, or nothing when the volume is between them.
    pub fn quarter_teaspoons(self) -> Option<u64> {
        self.0
            .is_multiple_of(QUARTER_TEASPOON)
            .then_some(self.0 / QUARTER_TEASPOON)
    }

    /// Whole half teaspoons, or nothing when the volume is between them.
    pub fn half_teaspoons(self) -> Option<u64> {
        self.quarter_teaspoons()
            .filter(|q| q % 2 == 0)
            .map(|q| q / 2)
    }

    /// How many `step`s fit without rest, or nothing.
    pub fn in_steps(self, step: Volume) -> Option<u64> {
        (step.0 > 0 && self.0.is_multiple_of(step.0)).then(|| self.0 / step.0)
    }

    pub fn checked_add(self, other: Volume) -> Option<Volume> {
        self.0.checked_add(other.0).map(Volume)
    }

    pub fn checked_mul(self, times: u64) -> Option<Volume> {
        self.0.checked_mul(times).map(Volume)
    }
}

impl std::fmt::Display for Volume {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{} mL", self.millilitres())
    }
}
