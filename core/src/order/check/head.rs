//! The head of the order: a usable name, a revision, a zone that exists, a source, and the limits by age that it should state.

use jiff::tz::TimeZone;

use crate::order::model::{CautionKind, ChartBy, Order};
use crate::order::problem::Problem;

pub(super) fn check(order: &Order) -> Vec<Problem> {
    let mut problems = Vec::new();
    let plain = |c: char| c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '.');
    if !order.id.is_empty() && !order.id.chars().all(plain) {
        let text = format!(
            "The name “{}” may hold only letters a to z, digits, hyphens, dots and underscores.",
            order.id
        );
        problems.push(Problem::error("odd-id", "id", text));
    }
    if order.revision == 0 {
        problems.push(Problem::error(
            "revision-zero",
            "revision",
            "Revisions are counted from 1.",
        ));
    }
    if !order.time_zone.is_empty() && TimeZone::get(&order.time_zone).is_err() {
        let text = format!(
            "There is no time zone “{}”; write it as “America/Chicago”.",
            order.time_zone
        );
        problems.push(Problem::error("unknown-zone", "time-zone", text));
    }
    if order.source.is_empty() {
        let text = "The order does not say where its chart and recipe come from.";
        problems.push(Problem::warning("no-source", "source", text));
    }
    problems.extend(ages(order));
    if !order
        .cautions
        .iter()
        .any(|caution| caution.kind == CautionKind::Emergency)
    {
        let text =
            "No caution says what an emergency looks like, such as hives or trouble breathing.";
        problems.push(Problem::warning("no-emergency-caution", "caution", text));
    }
    if order.medicine.withdraws.as_ref() == Some(&order.id) {
        problems.push(Problem::error(
            "withdraws-itself",
            "withdraws",
            "The order withdraws itself.",
        ));
    }
    problems
}

fn ages(order: &Order) -> Vec<Problem> {
    let medicine = &order.medicine;
    let mut problems = Vec::new();
    if medicine.youngest.is_none() {
        let text = "The order does not say from which age it may be given; newborns would get a dose by the chart alone.";
        problems.push(Problem::warning("no-youngest", "medicine.youngest", text));
    }
    if medicine.adult_from.is_none() && order.chart_by() == ChartBy::Weight {
        let text = "The order does not say from which age the last row applies, so adults must be weighed.";
        problems.push(Problem::warning(
            "no-adult-from",
            "medicine.adult-from",
            text,
        ));
    }
    problems
}
