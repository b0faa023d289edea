//! A late, missed or early dose: one answer and one clock time.
//!
//! Only the order's gaps decide. With *earliest* = last dose + `least_gap`, and *when* = the latest of now, the round's time and *earliest*:
//! 1. the dose would be late (*when* is past the round's time) and the next round is within `skip_if_next_within` of *when*, the limit included: **skip** it; the next stands, or is at *earliest* if that is later;
//! 2. else *when* is still to come: **wait** until then;
//! 3. else **give now**; the next stands, or is at now + `least_gap` if that is later.
//!
//! So a round that a late dose has come too near to is moved, never dropped: the person was told to wait, not to go without.
//! The round after it may have to move as well; [`super::onward`] carries that on, and there a round that is pushed up to the one after it is left out.
//! Each answer settles its round (given or skipped) or waits for it, so no round is ever given twice.

use jiff::Timestamp;

use super::timing::{Timing, later_by};
use super::walk::Round;

/// The one answer. A next round is missing only after the last of the course.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Advice {
    /// Give the dose now; the next is then.
    GiveNow { then: Option<Timestamp> },
    /// Leave this one out; the next is at its time.
    Skip { next: Option<Timestamp> },
    /// Too early; this dose is then.
    Wait { until: Timestamp },
}

/// A round somebody asks about, and the answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Asked {
    /// The round's place in the list of open rounds; all before it were missed and stay so.
    pub open: usize,
    /// What to do.
    pub advice: Advice,
}

/// What to do about the round at `due`, not given so far.
///
/// `next` is the round after it, none for the last of the course; whether that last dose may still go is then judged as if one more followed at the order's interval.
/// Before `due` the answer is to wait; to ask about giving it early, see [`early`].
pub fn late(
    timing: &Timing,
    last_dose: Option<Timestamp>,
    due: Timestamp,
    next: Option<Timestamp>,
    now: Timestamp,
) -> Advice {
    answer(timing, last_dose, due, due, next, now)
}

/// Whether the round at `due` may be given before its time; from `due` on the same as [`late`].
///
/// A dose may come forward by [`Timing::earliness`], and never nearer than `least_gap` to the last one.
/// Counting from the round, not from the last dose, keeps early doses from running ahead of the course.
pub fn early(
    timing: &Timing,
    last_dose: Option<Timestamp>,
    due: Timestamp,
    next: Option<Timestamp>,
    now: Timestamp,
) -> Advice {
    let opens = due
        .checked_sub(timing.earliness())
        .unwrap_or(Timestamp::MIN);
    answer(timing, last_dose, opens, due, next, now)
}

/// What to do now, given all rounds not yet settled, in order.
///
/// It is about the latest of them that has come, the ones before it being missed for good, or else about the first to come.
/// None when no round is open.
pub fn late_among(
    timing: &Timing,
    last_dose: Option<Timestamp>,
    open: &[Round],
    now: Timestamp,
) -> Option<Asked> {
    let place = open.partition_point(|round| round.at <= now).max(1) - 1;
    let due = open.get(place)?.at;
    let next = open.get(place + 1).map(|round| round.at);
    Some(Asked {
        open: place,
        advice: late(timing, last_dose, due, next, now),
    })
}

/// `opens` is the earliest the round may be given, `due` itself or before it.
fn answer(
    timing: &Timing,
    last_dose: Option<Timestamp>,
    opens: Timestamp,
    due: Timestamp,
    next: Option<Timestamp>,
    now: Timestamp,
) -> Advice {
    let earliest = last_dose.map_or(Timestamp::MIN, |last| later_by(last, timing.least_gap));
    let when = now.max(opens).max(earliest);
    let after = next.unwrap_or_else(|| later_by(due, timing.interval));
    if when > due && when.duration_until(after) <= timing.skip_if_next_within {
        return Advice::Skip {
            next: next.map(|next| next.max(earliest)),
        };
    }
    if when > now {
        return Advice::Wait { until: when };
    }
    Advice::GiveNow {
        then: next.map(|next| next.max(later_by(now, timing.least_gap))),
    }
}
