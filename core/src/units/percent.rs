//! Shares, as orders write their tolerance.

use super::quantity::{self, QuantityError};
use super::show;

/// A share in thousandths of a percent: `5 %` is 5,000.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Percent(u32);

impl Percent {
    pub const WHOLE: Percent = Percent(100_000);

    /// Reads `5 %` or `2.5 %`.
    ///
    /// # Errors
    /// See [`QuantityError`]; also a share above 1,000 %.
    pub fn parse(text: &str) -> Result<Percent, QuantityError> {
        let value = quantity::single(text, &[("%", 1_000)], "%")?;
        let value = u32::try_from(value).ok().filter(|v| *v <= 1_000_000);
        value
            .map(Percent)
            .ok_or_else(|| QuantityError::new(super::QuantityProblem::TooLarge, text))
    }

    pub const fn as_thousandths(self) -> u32 {
        self.0
    }

    /// 100 % and this much more.
    pub fn above_whole(self) -> Percent {
        Percent(Percent::WHOLE.0 + self.0)
    }

    /// 100 % less this much, never below zero.
    pub fn below_whole(self) -> Percent {
        Percent(Percent::WHOLE.0.saturating_sub(self.0))
    }
}

impl std::fmt::Display for Percent {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{} %", show::decimal(u64::from(self.0), 3))
    }
}
