//! When doses are due: the household's rounds, and what to do about a late or early one.
//!
//! Invariants:
//! - a round keeps its wall-clock time, clock changes included, unless that would bring it nearer to the round before than the order's `least-gap`; then it stands at the earliest instant that keeps the gap, and says so ([`Moved`]);
//! - rounds of one course strictly rise, and no two are nearer than `least-gap`;
//! - the course ends by date: whoever starts in the afternoon, or misses a dose, takes fewer doses and still stops on the same day;
//! - a question about a late or early dose has exactly one answer at every instant, decided by the order's gaps alone ([`late`], [`early`]);
//! - nothing here reads a clock or the machine's zone, and zone rules come only from the data compiled in ([`zone`]), so that all devices agree.
//!
//! Hours between doses are elapsed hours; days of a course are calendar days of the household's zone.

mod course;
mod dates;
mod late;
mod refusal;
mod round_times;
mod timing;
mod together;
mod walk;
mod zone;

pub use course::{Start, course, extra_rounds, onward};
pub use dates::{last_day, refill_by, refill_date};
pub use late::{Advice, Asked, early, late, late_among};
pub use refusal::Refusal;
pub use round_times::RoundTimes;
pub use timing::Timing;
pub use together::{HouseholdRound, together};
pub use walk::{Moved, Round};
pub use zone::{data_version, zone};
