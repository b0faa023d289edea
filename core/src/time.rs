//! What time it is, told twice: by the wall clock, which people move, and by a steady clock, which only runs.
//!
//! Waits are measured by the steady clock and never shortened; the life of a bowl is measured so that it is never lengthened.
//! After a restart of the machine the steady clock begins anew: a wait then counts only what the new one has seen, and a bowl counts what the wall clock claims, or more.
//! The one known gap: a wall clock that stands further back, against true time, than when the water met the tablet,
//! read after a restart and after the last entry, cannot be told from a shorter time; the bowl then seems younger by
//! so much.

use jiff::{SignedDuration, Timestamp};
use serde::{Deserialize, Serialize};

/// A reading of the steady clock: time since the machine started, sleep included.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Steady {
    /// Which start of the machine this counts from.
    pub boot: String,
    pub millis: u64,
}

/// One moment, as both clocks saw it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Now {
    pub wall: Timestamp,
    pub steady: Option<Steady>,
}

/// How long something has lasted, as far as it is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AtMost {
    Known(SignedDuration),
    /// The wall clock went back over a restart: nobody can say.
    Unknown,
}

/// A wall clock that differs from the steady one by more than this was moved.
const DRIFT: SignedDuration = SignedDuration::from_secs(90);

impl Now {
    /// A moment known by the wall clock alone.
    pub fn wall_only(wall: Timestamp) -> Now {
        Now { wall, steady: None }
    }

    /// Time that has passed for certain since `then`.
    pub fn at_least_since(&self, then: &Now) -> SignedDuration {
        match (&self.steady, &then.steady) {
            (Some(now), Some(before)) if now.boot == before.boot => {
                millis(now.millis.saturating_sub(before.millis))
            }
            // `then` lies before this start of the machine, so all of its running time counts; or on another device,
            // which may have been running for days, so never more than the wall clock says.
            (Some(now), Some(_)) => millis(now.millis).min(
                self.wall
                    .duration_since(then.wall)
                    .max(SignedDuration::ZERO),
            ),
            _ => self
                .wall
                .duration_since(then.wall)
                .max(SignedDuration::ZERO),
        }
    }

    /// The longest time that can have passed since `then`; `latest` is the latest wall time ever recorded.
    pub fn at_most_since(&self, then: &Now, latest: Timestamp) -> AtMost {
        let by_wall = self.wall.duration_since(then.wall);
        match (&self.steady, &then.steady) {
            (Some(now), Some(before)) if now.boot == before.boot => {
                AtMost::Known(millis(now.millis.saturating_sub(before.millis)))
            }
            _ if self.wall < latest.max(then.wall) => AtMost::Unknown,
            (Some(now), Some(_)) => AtMost::Known(by_wall.max(millis(now.millis))),
            _ => AtMost::Known(by_wall),
        }
    }

    /// How far the wall clock was moved since `then`, if it was moved; forward is positive.
    pub fn moved_since(&self, then: &Now) -> Option<SignedDuration> {
        let by_wall = self.wall.duration_since(then.wall);
        let moved = match (&self.steady, &then.steady) {
            (Some(now), Some(before)) if now.boot == before.boot => {
                by_wall - millis(now.millis.saturating_sub(before.millis))
            }
            _ if by_wall < SignedDuration::ZERO => by_wall,
            _ => return None,
        };
        (moved.abs() > DRIFT).then_some(moved)
    }
}

fn millis(value: u64) -> SignedDuration {
    SignedDuration::from_millis(i64::try_from(value).unwrap_or(i64::MAX))
}
