//! Interval, gaps, course and supply: they must fit the day, each other and the calendar.

use jiff::SignedDuration;

use crate::order::model::{Medicine, Order};
use crate::order::problem::Problem;
use crate::units::{Lapse, show};

const DAY: Lapse = SignedDuration::from_hours(24);

pub(super) fn check(order: &Order) -> Vec<Problem> {
    let medicine = &order.medicine;
    let mut problems = Vec::from_iter(rounds(medicine));
    problems.extend(gaps(medicine));
    problems.extend(course(medicine));
    problems.extend(spacing(medicine));
    let issued_on = jiff::tz::TimeZone::UTC.to_datetime(order.issued).date();
    if let Some(expires) = medicine.expires.filter(|expires| *expires < issued_on) {
        let text = format!("The order expires on {expires}, before it was issued.");
        problems.push(Problem::error(
            "expires-before-issue",
            "medicine.expires",
            text,
        ));
    }
    problems
}

/// Rounds stand at the same wall-clock times each day, so the interval must divide the day or be whole days.
fn rounds(medicine: &Medicine) -> Option<Problem> {
    let (interval, day) = (medicine.interval.as_secs(), DAY.as_secs());
    let fits = day.checked_rem(interval) == Some(0) || interval.checked_rem(day) == Some(0);
    let text = format!(
        "A dose every {} never falls on the same times of the day; the interval must divide 24 hours or be whole days.",
        show::lapse_text(medicine.interval)
    );
    (!fits).then(|| Problem::error("interval-does-not-fit-day", "medicine.interval", text))
}

fn gaps(medicine: &Medicine) -> Vec<Problem> {
    let interval = show::lapse_text(medicine.interval);
    let mut problems = Vec::new();
    let mut long = |code, key: &str, gap: Lapse, what: &str| {
        let text = format!(
            "{what} is {}, but doses are {interval} apart.",
            show::lapse_text(gap)
        );
        problems.push(Problem::error(code, format!("medicine.{key}"), text));
    };
    if medicine.least_gap > medicine.interval {
        long(
            "least-gap-over-interval",
            "least-gap",
            medicine.least_gap,
            "The least gap between two doses",
        );
    }
    if medicine.first_gap > medicine.interval && medicine.first_gap != medicine.least_gap {
        long(
            "first-gap-over-interval",
            "first-gap",
            medicine.first_gap,
            "The gap after the first dose",
        );
    }
    if medicine.skip_if_next_within >= medicine.interval {
        long(
            "skip-window-over-interval",
            "skip-if-next-within",
            medicine.skip_if_next_within,
            "The time before the next dose in which a late one is skipped",
        );
    }
    problems
}

fn course(medicine: &Medicine) -> Vec<Problem> {
    let mut problems = Vec::new();
    for (key, days) in [
        ("supply-days", medicine.supply_days),
        ("course-days", medicine.course_days),
    ] {
        if days == 0 {
            problems.push(Problem::error(
                "days-zero",
                format!("medicine.{key}"),
                format!("“{key}” is zero."),
            ));
        }
    }
    let (supply, course) = (medicine.supply_days, medicine.course_days);
    if supply > course && course > 0 {
        let text = format!("{supply} days are handed out, but the course has only {course}.");
        problems.push(Problem::error(
            "supply-over-course",
            "medicine.supply-days",
            text,
        ));
    }
    let seconds = i64::from(course).saturating_mul(DAY.as_secs());
    if course > 0
        && seconds
            .checked_rem(medicine.interval.as_secs())
            .is_some_and(|rest| rest > 0)
    {
        let text = format!(
            "{course} days are no whole number of doses every {}.",
            show::lapse_text(medicine.interval)
        );
        problems.push(Problem::warning(
            "course-not-whole-rounds",
            "medicine.course-days",
            text,
        ));
    }
    problems
}

/// Something that must be taken apart on both sides needs room between two doses.
fn spacing(medicine: &Medicine) -> Vec<Problem> {
    let tight = |gap: Lapse| gap.saturating_add(gap) >= medicine.interval;
    let entries = medicine
        .apart
        .iter()
        .enumerate()
        .filter(|(_, entry)| tight(entry.gap));
    entries
        .map(|(index, entry)| {
            let text = format!(
                "{} must be {} apart on both sides, which leaves no time between two doses.",
                entry.what,
                show::lapse_text(entry.gap)
            );
            Problem::warning(
                "no-room-apart",
                format!("medicine.apart {}", index + 1),
                text,
            )
        })
        .collect()
}
