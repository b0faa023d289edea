//! A household's plan for people to read: one paragraph a round.

use std::fmt::Write;

use hearthdose_core::mixture::{PlannedRound, shopping};
use hearthdose_core::schedule;
use jiff::Timestamp;

use super::Course;
use crate::commands::advice;

/// The whole page.
pub fn page(course: &Course) -> String {
    let mut page = String::new();
    head(course, &mut page);
    for (index, round) in course
        .plan
        .rounds
        .iter()
        .enumerate()
        .filter(|(_, round)| !round.doses.is_empty())
    {
        paragraph(course, index, round, &mut page);
    }
    for (seat, from, reasons) in &course.plan.held {
        let at = course
            .plan
            .rounds
            .get(*from)
            .map(|round| clock(course, round.at))
            .unwrap_or_default();
        line(
            &mut page,
            &format!("No dose for {} from {at}:", course.name(*seat)),
        );
        reasons
            .iter()
            .for_each(|reason| line(&mut page, &format!("  {} ({})", reason.text, reason.code)));
        let words = reasons.iter().filter_map(|reason| reason.then.get("en"));
        words.for_each(|words| line(&mut page, &format!("  {words}")));
        page.push('\n');
    }
    foot(course, &mut page);
    page
}

fn head(course: &Course, page: &mut String) {
    let (order, file) = (&course.order, &course.file);
    let household = file
        .name
        .as_ref()
        .map(|name| format!("{name}: "))
        .unwrap_or_default();
    line(
        page,
        &format!("{household}{}, revision {}", order.title, order.revision),
    );
    let (zone, edition, days) = (&file.time_zone, schedule::data_version(), course.table.days);
    line(
        page,
        &format!(
            "{days} days from {}; clock times of {zone}, zone data {edition}",
            file.start
        ),
    );
    page.push('\n');
}

fn paragraph(course: &Course, index: usize, round: &PlannedRound, page: &mut String) {
    let pace = course.pace(round);
    let begin = round.at.checked_sub(pace.lead()).unwrap_or(round.at);
    let begin = begin
        .to_zoned_datetime(course.table.zone.clone())
        .strftime("%H:%M")
        .to_string();
    line(
        page,
        &format!(
            "{} (begin at {begin}, about {} minutes)",
            clock(course, round.at),
            pace.total().as_mins()
        ),
    );
    for &bowl in &round.makes {
        if let Some(made) = course.plan.bowls.get(bowl) {
            let tablets = if made.tablets == 1 {
                "tablet"
            } else {
                "tablets"
            };
            let away = clock(course, made.discard_at);
            line(
                page,
                &format!(
                    "  make bowl {} with {} {tablets}; throw away by {away}",
                    bowl + 1,
                    made.tablets
                ),
            );
        }
    }
    for planned in &round.doses {
        let bowls: Vec<String> = course
            .bowls_of(index, planned.seat)
            .iter()
            .map(|bowl| format!("bowl {}", bowl + 1))
            .collect();
        let from = if bowls.is_empty() {
            String::new()
        } else {
            format!(" from {}", bowls.join(" and "))
        };
        let food = course.food_or_drink(round.day, planned);
        let food = if food.is_empty() {
            String::new()
        } else {
            format!(", in {}", food.join(" or "))
        };
        line(
            page,
            &format!(
                "  {}: {}{from}{food}",
                course.name(planned.seat),
                course.words(planned)
            ),
        );
    }
    page.push('\n');
}

fn foot(course: &Course, page: &mut String) {
    let plan = &course.plan;
    let least = if plan.proven {
        "no plan needs fewer".to_owned()
    } else {
        format!("at least {} are needed", plan.lower_bound)
    };
    line(
        page,
        &format!(
            "Tablets: {} ({} swallowed whole; {least})",
            plan.tablets, plan.whole_tablets
        ),
    );
    if let Some(date) = course.refill_date() {
        line(
            page,
            &format!("Collect more on or before {date}, also when a bottle is not empty yet."),
        );
    }
    line(
        page,
        &format!("Last day of the course: {}", course.table.course_end),
    );
    line(page, "To have in the house:");
    for need in shopping(&course.order, plan, &course.table.seats) {
        line(page, &format!("  {}: {}", need.what(), need.amount));
    }
    page.push('\n');
    advice::closing(&course.order)
        .iter()
        .for_each(|words| line(page, words));
}

/// `Thursday 3 April 2031, 08:00`
fn clock(course: &Course, at: Timestamp) -> String {
    at.to_zoned_datetime(course.table.zone.clone())
        .strftime("%A %-d %B %Y, %H:%M")
        .to_string()
}

fn line(page: &mut String, text: &str) {
    // Writing to a string cannot fail.
    let _ = writeln!(page, "{text}");
}
