//! From wall-clock times to rounds: the one place where clock changes and gaps meet.

use jiff::civil::{Date, DateTime};
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan};

use super::round_times::RoundTimes;
use super::timing::later_by;
use crate::units::Lapse;

/// One dosing time of the household.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Round {
    /// Counted from 0 within its list.
    pub index: usize,
    /// When it is.
    pub at: Timestamp,
    /// The wall-clock time it stands for; what clocks show at [`Round::at`], unless it moved.
    pub nominal: DateTime,
    /// Which of the household's times of day; none for a first round at an odd time.
    pub time_of_day: Option<usize>,
    /// Elapsed since the round (or dose) before, none for the first.
    pub since_last: Option<Lapse>,
    /// Why it is not at its usual wall-clock time.
    pub moved: Option<Moved>,
}

/// Why a round is not simply at its wall-clock time.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Moved {
    /// The clocks were put forward over this time, so it did not exist that day; it moves forward by as much as they did.
    ClockSkipped { by: Lapse },
    /// The time came twice that night and the first was too near to the dose before.
    SecondOfTwo,
    /// The wall-clock time would have been nearer than `least-gap` to the dose before; later by so much.
    LeastGap { by: Lapse },
}

/// A wall-clock time of the household in its zone, before the gaps are looked at.
#[derive(Clone, Copy, Debug)]
pub(super) struct WallRound {
    pub nominal: DateTime,
    pub time_of_day: usize,
    /// The first occurrence; after the gap where the time does not exist.
    pub at: Timestamp,
    second: Option<Timestamp>,
    skipped: Option<Lapse>,
    /// The earliest of all later wall-clock rounds.
    next_at: Timestamp,
}

/// Every wall-clock round from the first date to the last, both included.
pub(super) fn wall_rounds(
    times: &RoundTimes,
    zone: &TimeZone,
    first: Date,
    last: Date,
) -> Vec<WallRound> {
    // Rounds after the last day are only looked at, to tell how far the last one may move. A clock change is at most a day.
    let beyond = last.saturating_add(2.days());
    let dates = std::iter::successors(Some(first), |date| date.tomorrow().ok());
    let mut rounds: Vec<WallRound> = dates
        .take_while(|date| *date <= beyond)
        .flat_map(|date| {
            times
                .iter()
                .enumerate()
                .filter_map(move |(index, time)| wall_round(zone, date.to_datetime(time), index))
        })
        .collect();
    let mut next_at = Timestamp::MAX;
    for round in rounds.iter_mut().rev() {
        round.next_at = next_at;
        next_at = next_at.min(round.at);
    }
    rounds.retain(|round| round.nominal.date() <= last);
    rounds
}

/// None only at the ends of the calendar, where a date has no instant.
fn wall_round(zone: &TimeZone, nominal: DateTime, time_of_day: usize) -> Option<WallRound> {
    let found = on_the_clock(zone, nominal)?;
    Some(WallRound {
        nominal,
        time_of_day,
        at: found.first,
        second: found.second,
        skipped: found.skipped,
        next_at: Timestamp::MAX,
    })
}

/// When clocks show a time.
pub(super) struct OnTheClock {
    /// The first occurrence; after the gap where the time does not exist.
    pub first: Timestamp,
    second: Option<Timestamp>,
    /// How far the clocks went past it.
    skipped: Option<Lapse>,
}

/// Finds a wall-clock time and looks at the clock again to be sure.
///
/// jiff 1.0.2 reports a second occurrence that is none where a zone's listed changes hand over to its yearly rule without moving the clock (America/Nuuk, 2023-10-28 23:00), so its word on what is double or missing is not taken.
pub(super) fn on_the_clock(zone: &TimeZone, nominal: DateTime) -> Option<OnTheClock> {
    let found = zone.to_ambiguous_timestamp(nominal);
    let mut shown = [found.earlier().ok(), found.later().ok()]
        .into_iter()
        .flatten()
        .filter(|at| zone.to_datetime(*at) == nominal);
    if let Some(first) = shown.next() {
        let second = shown.next().filter(|second| *second > first);
        return Some(OnTheClock {
            first,
            second,
            skipped: None,
        });
    }
    let first = found.compatible().ok()?;
    let by = nominal.duration_until(zone.to_datetime(first));
    Some(OnTheClock {
        first,
        second: None,
        skipped: Some(by),
    })
}

/// Turns wall-clock rounds into rounds, each at least `least_gap` after the one before.
///
/// A round that would have to move to, or past, the time of a later one is left out: that one takes its place.
/// It happens to a household that has drifted a whole interval, and where a zone left out a whole day.
pub(super) fn walk(
    wall: impl IntoIterator<Item = WallRound>,
    mut before: Option<Timestamp>,
    least_gap: Lapse,
    rounds: &mut Vec<Round>,
) {
    for round in wall {
        let earliest = before.map_or(Timestamp::MIN, |before| later_by(before, least_gap));
        let (at, moved) = if round.at >= earliest {
            (round.at, round.skipped.map(|by| Moved::ClockSkipped { by }))
        } else if let Some(second) = round.second.filter(|second| *second >= earliest) {
            (second, Some(Moved::SecondOfTwo))
        } else {
            let by = round.at.duration_until(earliest);
            (earliest, Some(Moved::LeastGap { by }))
        };
        if at >= round.next_at || before.is_some_and(|before| at <= before) {
            continue;
        }
        rounds.push(Round {
            index: rounds.len(),
            at,
            nominal: round.nominal,
            time_of_day: Some(round.time_of_day),
            since_last: before.map(|before| before.duration_until(at)),
            moved,
        });
        before = Some(at);
    }
}
