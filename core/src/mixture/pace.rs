//! How long the parts of a round take: planning figures, common practice, no source.

use jiff::SignedDuration;

use crate::units::Lapse;

const GATHER: SignedDuration = SignedDuration::from_mins(3);
const CRUSH_AND_STIR: SignedDuration = SignedDuration::from_mins(3);
/// Measuring, food or drink, giving and logging for one person.
const ONE_DOSE: SignedDuration = SignedDuration::from_mins(3);
const ONE_TABLET: SignedDuration = SignedDuration::from_mins(1);

/// What one round needs in time.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pace {
    /// From the first thing on the table until water meets the tablets.
    pub gather: Lapse,
    /// From the water until the first dose can be measured.
    pub make: Lapse,
    /// From the first dose to the last.
    pub give: Lapse,
}

impl Pace {
    /// `fresh` says whether bowls are made in this round; `measured` and `whole` count people.
    pub fn of(soak: Lapse, fresh: bool, measured: usize, whole: usize) -> Pace {
        let count = |n: usize| i32::try_from(n).unwrap_or(i32::MAX);
        let make = if fresh {
            soak.saturating_add(CRUSH_AND_STIR)
        } else {
            Lapse::ZERO
        };
        Pace {
            gather: GATHER,
            make,
            give: ONE_DOSE
                .saturating_mul(count(measured))
                .saturating_add(ONE_TABLET.saturating_mul(count(whole))),
        }
    }

    pub fn total(&self) -> Lapse {
        self.gather
            .saturating_add(self.make)
            .saturating_add(self.give)
    }

    /// How long before the doses are due the round begins.
    pub fn lead(&self) -> Lapse {
        self.gather.saturating_add(self.make)
    }
}
