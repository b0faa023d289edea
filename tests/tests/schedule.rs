//! Rounds over a course, on ordinary days and on the nights when clocks change.
//!
//! Sources of the instants: IANA tz database NEWS 2026c (with 2026a and 2026b), compiled; the 12-hourly examples and "60 days from 08:00 = 120 doses" are plain arithmetic on them.

#[path = "schedule/clock_changes.rs"]
mod clock_changes;
#[path = "schedule/courses.rs"]
mod courses;
#[path = "schedule/follow.rs"]
mod follow;
#[path = "schedule/late_table.rs"]
mod late_table;
#[path = "schedule/random.rs"]
mod random;

use hearthdose_core::order::FirstDose;
use hearthdose_core::schedule::{Round, RoundTimes, Timing, zone};
use hearthdose_core::units::Lapse;
use jiff::Timestamp;
use jiff::tz::TimeZone;

/// Hours: interval, least gap, skip if next within, first gap.
fn timing(interval: i64, least_gap: i64, skip: i64, first_gap: i64) -> Timing {
    Timing {
        interval: Lapse::from_hours(interval),
        least_gap: Lapse::from_hours(least_gap),
        skip_if_next_within: Lapse::from_hours(skip),
        first_gap: Lapse::from_hours(first_gap),
        first_dose: FirstDose::Now,
    }
}

/// The 12-hourly order of the demo.
fn twelve() -> Timing {
    timing(12, 8, 6, 8)
}

/// Potassium iodide: not more often than every 24 hours (label).
fn iodide() -> Timing {
    timing(24, 24, 6, 24)
}

fn eight() -> Timing {
    timing(8, 6, 4, 6)
}

fn times(texts: &[&str]) -> RoundTimes {
    RoundTimes::parse(texts).expect("times of day")
}

fn tz(name: &str) -> TimeZone {
    zone(name).expect("a zone")
}

fn instant(text: &str) -> Timestamp {
    text.parse().expect("an instant")
}

/// `2026-03-08 08:00 -04`: what clocks show, and the offset.
fn shown(at: Timestamp, zone: &TimeZone) -> String {
    format!(
        "{} {}",
        zone.to_datetime(at).strftime("%Y-%m-%d %H:%M"),
        zone.to_offset(at)
    )
}

fn all_shown(rounds: &[Round], zone: &TimeZone) -> Vec<String> {
    rounds.iter().map(|round| shown(round.at, zone)).collect()
}
