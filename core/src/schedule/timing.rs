//! The gaps of an order: all that decides when doses go.

use jiff::Timestamp;

use crate::order::{FirstDose, Medicine};
use crate::units::Lapse;

/// The lengths of time an order sets between doses.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Timing {
    /// From one round to the next on an ordinary day.
    pub interval: Lapse,
    /// Two doses are never nearer than this; it beats the wall clock.
    pub least_gap: Lapse,
    /// A late dose is skipped when the next round is this near or nearer.
    pub skip_if_next_within: Lapse,
    /// From a first dose at an odd time to the first regular round.
    pub first_gap: Lapse,
    /// Whether the first dose goes at once or waits for a round.
    pub first_dose: FirstDose,
}

impl From<&Medicine> for Timing {
    fn from(medicine: &Medicine) -> Self {
        Self {
            interval: medicine.interval,
            least_gap: medicine.least_gap,
            skip_if_next_within: medicine.skip_if_next_within,
            first_gap: medicine.first_gap,
            first_dose: medicine.first_dose,
        }
    }
}

impl Timing {
    /// How long before its round a dose may go.
    ///
    /// A dose that follows the round before at the full interval may come forward until only `least_gap` is left; an order without room between the two allows nothing early.
    pub fn earliness(&self) -> Lapse {
        self.interval
            .saturating_sub(self.least_gap)
            .max(Lapse::ZERO)
    }
}

/// The instant so much later, at most the end of time.
pub(super) fn later_by(at: Timestamp, lapse: Lapse) -> Timestamp {
    at.checked_add(lapse).unwrap_or(Timestamp::MAX)
}
