//! What can be wrong with a notice, alone and beside the order it names.

use jiff::civil::Date;

use super::{Action, CourseEnd, Notice};
use crate::order::model::Order;
use crate::order::problem::Problem;

/// Everything wrong with a notice, seen alone; what reading it remarked comes first.
pub fn check_notice(notice: &Notice) -> Vec<Problem> {
    let mut problems = notice.remarks.clone();
    for language in &notice.languages {
        if !notice.text.contains_key(language) {
            let text = format!("The words in the language “{language}” are missing.");
            problems.push(Problem::error("missing-words", "text", text));
        }
    }
    if notice.text.is_empty() {
        problems.push(Problem::error(
            "missing-words",
            "text",
            "The notice says nothing.",
        ));
    }
    let names_lots = matches!(
        notice.action,
        Action::ExtendLot { .. } | Action::QuarantineLot { .. } | Action::RecallLot { .. }
    );
    if names_lots && notice.lots().is_empty() {
        problems.push(Problem::error(
            "no-lots",
            "lots",
            "The notice names no lot.",
        ));
    }
    if notice.orders.is_empty() {
        problems.push(Problem::error(
            "no-order",
            "order",
            "The notice names no order.",
        ));
    }
    problems.extend(days(notice));
    problems
}

fn days(notice: &Notice) -> Vec<Problem> {
    let issued_on = jiff::tz::TimeZone::UTC.to_datetime(notice.issued).date();
    // The issuer's own day may still be the one before.
    let day_before = issued_on.yesterday().unwrap_or(issued_on);
    let past = |key: &str, day: Date| {
        let text = format!("{day} was over when the notice was issued.");
        (day < day_before).then(|| Problem::error("date-before-issue", key, text))
    };
    let zero = |key: &str, count: u32| {
        (count == 0).then(|| Problem::error("days-zero", key, format!("“{key}” is zero.")))
    };
    let found: Vec<Option<Problem>> = match &notice.action {
        Action::Shorten {
            until: CourseEnd::Days(count),
        } => vec![zero("course-days", *count)],
        Action::Shorten {
            until: CourseEnd::LastDay(day),
        } => vec![past("last-day", *day)],
        Action::Renew { days, .. } => vec![zero("days", *days)],
        Action::ExtendLot { expires, .. } => vec![past("expires", *expires)],
        Action::Collection {
            most_people,
            from,
            until,
            ..
        } => {
            let text = "The collection ends before it begins.";
            let turned = matches!((from, until), (Some(from), Some(until)) if until < from);
            vec![
                most_people.and_then(|count| zero("most-people", count)),
                until.and_then(|day| past("until", day)),
                turned.then(|| Problem::error("date-before-issue", "until", text)),
            ]
        }
        Action::Stop { .. }
        | Action::QuarantineLot { .. }
        | Action::RecallLot { .. }
        | Action::Water { .. } => Vec::new(),
    };
    found.into_iter().flatten().collect()
}

/// Also whether it fits an order that it names.
pub fn check_notice_with(notice: &Notice, order: &Order) -> Vec<Problem> {
    let mut problems = check_notice(notice);
    if notice.orders.contains(&order.id) && notice.issuer != order.issuer {
        let text = format!(
            "The order “{}” is issued by {}, not by {}.",
            order.id, order.issuer, notice.issuer
        );
        problems.push(Problem::error("other-issuer", "issuer", text));
    }
    if let (
        true,
        Action::Shorten {
            until: CourseEnd::Days(days),
        },
    ) = (notice.applies_to(order), &notice.action)
        && *days >= order.medicine.course_days
    {
        let text = format!(
            "{days} days do not shorten a course of {}.",
            order.medicine.course_days
        );
        problems.push(Problem::error("not-shorter", "course-days", text));
    }
    problems
}
