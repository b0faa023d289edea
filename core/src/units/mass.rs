//! Mass of medicine.

use super::quantity::{self, QuantityError};
use super::show;

/// Mass of medicine in micrograms.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Mass(u64);

impl Mass {
    pub const ZERO: Mass = Mass(0);

    pub const fn micrograms(value: u64) -> Mass {
        Mass(value)
    }

    pub const fn as_micrograms(self) -> u64 {
        self.0
    }

    /// Reads `100 mg`, `12.5 mg`, `1 g`, `250 mcg`.
    ///
    /// # Errors
    /// See [`QuantityError`].
    pub fn parse(text: &str) -> Result<Mass, QuantityError> {
        let units = [("mg", 1_000), ("g", 1_000_000), ("mcg", 1), ("µg", 1)];
        quantity::single(text, &units, "mg, g or mcg").map(Mass)
    }

    /// Milligrams as digits: `37.5`.
    pub fn milligrams(self) -> String {
        show::decimal(self.0, 3)
    }

    pub fn checked_mul(self, times: u64) -> Option<Mass> {
        self.0.checked_mul(times).map(Mass)
    }
}

impl std::fmt::Display for Mass {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{} mg", self.milligrams())
    }
}
