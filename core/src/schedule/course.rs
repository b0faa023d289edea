//! The course: from the first round to the last day.

use jiff::civil::{Date, Time};
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan};

use super::dates::last_day;
use super::round_times::RoundTimes;
use super::timing::{Timing, later_by};
use super::walk::{Moved, Round, on_the_clock, walk, wall_rounds};
use crate::order::FirstDose;

/// When someone begins.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Start {
    /// Day 1 of the course.
    pub date: Date,
    /// When the medicine is at hand on that day; none for "in time for the first round".
    pub first_at: Option<Timestamp>,
}

impl Start {
    /// From the first round of the day.
    pub fn on(date: Date) -> Self {
        Self {
            date,
            first_at: None,
        }
    }

    /// From an instant on, on the day it is in the household's zone.
    pub fn at(first_at: Timestamp, zone: &TimeZone) -> Self {
        Self {
            date: zone.to_datetime(first_at).date(),
            first_at: Some(first_at),
        }
    }

    /// From a wall-clock time of a day on; the first of two, or after the clock change, where that night leaves a choice.
    ///
    /// None at the ends of the calendar.
    pub fn at_clock(date: Date, time: Time, zone: &TimeZone) -> Option<Self> {
        let first_at = on_the_clock(zone, date.to_datetime(time))?.first;
        Some(Self {
            date,
            first_at: Some(first_at),
        })
    }
}

/// The rounds of a course of so many calendar days, day 1 being the start date.
///
/// Sixty days twice a day from the morning of day 1 are 120 rounds, the last on the evening of day 60.
/// The course ends by date: a start later in the day, or a first regular round left out for `first_gap`, makes fewer rounds and the same last day.
///
/// A start between rounds, with [`FirstDose::Now`], makes a first round at once; the next is the first regular one at least `first_gap` (and `least_gap`) later.
/// With [`FirstDose::NextRound`] the first round is the first regular one not before the start.
/// An order whose `first_gap` is its whole interval thus wants its round times set by the first dose, else the second dose waits nearly two intervals.
pub fn course(
    timing: &Timing,
    times: &RoundTimes,
    zone: &TimeZone,
    start: Start,
    days: u32,
) -> Vec<Round> {
    let mut rounds = Vec::new();
    let Some(last) = last_day(start.date, days) else {
        return rounds;
    };
    let wall = wall_rounds(times, zone, start.date, last);
    let Some(first_at) = start.first_at else {
        walk(wall, None, timing.least_gap, &mut rounds);
        return rounds;
    };
    let on_a_round = wall.iter().any(|round| round.at == first_at);
    let nominal = zone.to_datetime(first_at);
    let now = timing.first_dose == FirstDose::Now && !on_a_round && nominal.date() <= last;
    let (before, from) = if now {
        rounds.push(Round {
            index: 0,
            at: first_at,
            nominal,
            time_of_day: None,
            since_last: None,
            moved: None,
        });
        let gap = timing.first_gap.max(timing.least_gap);
        (Some(first_at), later_by(first_at, gap))
    } else {
        (None, first_at)
    };
    let regular = wall.into_iter().filter(|round| round.at >= from);
    walk(regular, before, timing.least_gap, &mut rounds);
    rounds
}

/// The rest of a course after advice has named the next clock time.
///
/// The first round is at `said`, whatever the wall clock would prefer, because somebody has been told so; the others follow the rules.
/// `last_dose` only serves to tell the hours elapsed. Indices count from 0.
pub fn onward(
    timing: &Timing,
    times: &RoundTimes,
    zone: &TimeZone,
    last_dose: Option<Timestamp>,
    said: Timestamp,
    last: Date,
) -> Vec<Round> {
    let said_clock = zone.to_datetime(said);
    // Two days back hold the wall-clock round that stands at `said` or moved there.
    let from = said_clock.date().saturating_sub(2.days());
    let wall = wall_rounds(times, zone, from, last);
    let stands_for = wall.iter().rev().find(|round| round.at <= said);
    let by = stands_for.map(|round| round.at.duration_until(said));
    let mut rounds = vec![Round {
        index: 0,
        at: said,
        nominal: stands_for.map_or(said_clock, |round| round.nominal),
        time_of_day: stands_for.map(|round| round.time_of_day),
        since_last: last_dose.map(|before| before.duration_until(said)),
        moved: by
            .filter(|by| by.is_positive())
            .map(|by| Moved::LeastGap { by }),
    }];
    let rest = wall
        .into_iter()
        .filter(|round| round.at > said && round.nominal.date() <= last);
    walk(rest, Some(said), timing.least_gap, &mut rounds);
    rounds
}

/// So many further rounds after the last one, for an order whose missed doses lengthen the course.
pub fn extra_rounds(
    timing: &Timing,
    times: &RoundTimes,
    zone: &TimeZone,
    last: &Round,
    count: u32,
) -> Vec<Round> {
    // One date more than rounds asked for is always enough, but for a day or two that a zone leaves out.
    let until = i64::from(count).saturating_add(3).days();
    let from = last.nominal.date();
    let wall = wall_rounds(times, zone, from, from.saturating_add(until));
    let rest = wall.into_iter().filter(|round| round.at > last.at);
    let mut rounds = Vec::new();
    walk(rest, Some(last.at), timing.least_gap, &mut rounds);
    rounds.truncate(usize::try_from(count).unwrap_or(usize::MAX));
    rounds
}
