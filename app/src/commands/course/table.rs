//! Who sits at the table in which round.

use hearthdose_core::household::HouseholdFile;
use hearthdose_core::mixture::{RoundTime, Seat};
use hearthdose_core::order::CheckedOrder;
use hearthdose_core::schedule::{self, Round, RoundTimes, Start, Timing};
use hearthdose_core::units::Lapse;
use jiff::civil::Date;
use jiff::tz::TimeZone;

use crate::answer::{Reason, Stop};

/// Rounds of the planned days, with the people of each.
pub struct Table {
    pub zone: TimeZone,
    pub seats: Vec<Seat>,
    pub rounds: Vec<RoundTime>,
    /// For each round the time since the dose before, of whoever waited least; none where everybody has a first dose.
    pub since_last: Vec<Option<Lapse>>,
    /// Calendar days planned.
    pub days: u32,
    /// Last day of the course of whoever begins last.
    pub course_end: Date,
    /// Said when more days were asked for than the order has.
    pub cut_short: Option<String>,
}

impl Table {
    /// # Errors
    /// A zone or round times that do not serve this order, and courses that are over before the plan begins.
    pub fn lay(
        order: &CheckedOrder,
        file: &HouseholdFile,
        days: Option<u32>,
    ) -> Result<Table, Stop> {
        let timing = Timing::from(&order.medicine);
        let zone = schedule::zone(&file.time_zone);
        let times = RoundTimes::for_order(&file.rounds, &timing);
        let (zone, times) = match (zone, times) {
            (Ok(zone), Ok(times)) => (zone, times),
            (zone, times) => {
                let refusals = zone
                    .err()
                    .into_iter()
                    .chain(times.err().into_iter().flatten());
                return Err(Stop::refused(
                    refusals
                        .map(|r| Reason::new(r.code(), r.to_string()))
                        .collect(),
                ));
            }
        };
        let (last, course_end, cut_short) = last_days(order, file, days)?;
        let mut seats = Vec::new();
        let mut courses: Vec<Vec<Round>> = Vec::new();
        for person in &file.people {
            let start = start(file, person.starts, &zone)?;
            let rounds =
                schedule::course(&timing, &times, &zone, start, order.medicine.course_days);
            let (before, now): (Vec<Round>, Vec<Round>) = rounds
                .into_iter()
                .filter(|round| round.nominal.date() <= last)
                .partition(|round| round.nominal.date() < file.start);
            seats.push(Seat {
                person: person.clone(),
                had: u32::try_from(before.len()).unwrap_or(u32::MAX),
                renewed: 0,
            });
            courses.push(now);
        }
        let together = schedule::together(&courses);
        let since_last = together
            .iter()
            .map(|round| round.who.iter().filter_map(|(_, own)| own.since_last).min())
            .collect();
        let rounds = together
            .iter()
            .map(|round| RoundTime {
                at: round.at,
                day: zone.to_datetime(round.at).date(),
                who: round.who.iter().map(|(seat, _)| *seat).collect(),
            })
            .collect();
        let days = file
            .start
            .until(last)
            .map(|span| span.get_days())
            .unwrap_or_default()
            .saturating_add(1);
        let days = u32::try_from(days).unwrap_or_default();
        Ok(Table {
            zone,
            seats,
            rounds,
            since_last,
            days,
            course_end,
            cut_short,
        })
    }
}

fn start(file: &HouseholdFile, own: Option<Date>, zone: &TimeZone) -> Result<Start, Stop> {
    let date = own.unwrap_or(file.start);
    match file.first_dose_at.filter(|_| date == file.start) {
        Some(time) => Start::at_clock(date, time, zone).ok_or_else(beyond_calendar),
        None => Ok(Start::on(date)),
    }
}

/// The last day planned, the last day of all courses, and what to say if that is less than was asked for.
fn last_days(
    order: &CheckedOrder,
    file: &HouseholdFile,
    days: Option<u32>,
) -> Result<(Date, Date, Option<String>), Stop> {
    let course_days = order.medicine.course_days;
    let mut course_end = file.start;
    let starts = file
        .people
        .iter()
        .map(|person| person.starts.unwrap_or(file.start));
    let ends: Option<Vec<Date>> = starts
        .map(|start| schedule::last_day(start, course_days))
        .collect();
    let end = ends
        .ok_or_else(beyond_calendar)?
        .into_iter()
        .max()
        .ok_or_else(beyond_calendar)?;
    if end < file.start {
        return Err(Stop::refused(vec![Reason::new(
            "course-over",
            format!("every course ends before {}", file.start),
        )]));
    }
    course_end = course_end.max(end);
    let Some(days) = days else {
        return Ok((course_end, course_end, None));
    };
    let asked = schedule::last_day(file.start, days).ok_or_else(beyond_calendar)?;
    let words =
        format!("the course of this order ends on {course_end}; nothing is planned after that");
    Ok((
        asked.min(course_end),
        course_end,
        (asked > course_end).then_some(words),
    ))
}

fn beyond_calendar() -> Stop {
    Stop::unusable("start: the course would end beyond the calendar")
}
