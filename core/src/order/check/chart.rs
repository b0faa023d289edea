//! The chart as a partition: every person in exactly one row, rows in order, somewhere for the heaviest and for adults.

use std::cmp::Ordering;

use crate::order::joint::{Joint, compare, joint};
use crate::order::model::{ChartBy, Measure, Order, Row};
use crate::order::problem::Problem;

pub(super) fn check(order: &Order) -> Vec<Problem> {
    let mut problems = Vec::new();
    let by = order.chart_by();
    let mixed = order
        .rows
        .iter()
        .enumerate()
        .filter(|(_, row)| !speaks(row, by))
        .map(|(index, _)| place(index))
        .map(|place| {
            let text =
                "The chart mixes weights and ages; every row must use the same kind of limit.";
            Problem::error("mixed-limits", place, text)
        });
    problems.extend(mixed);
    for (index, row) in order.rows.iter().enumerate() {
        problems.extend(upside_down(index, row));
        problems.extend(weight_beside_age(index, row, by));
    }
    let printed = order.rows.iter().zip(order.rows.iter().skip(1)).enumerate();
    problems
        .extend(printed.filter_map(|(index, (first, second))| out_of_order(index, first, second)));
    for (lower, upper) in neighbours(order) {
        problems.extend(meeting(lower, upper));
    }
    problems.extend(ends(order, by));
    problems
}

pub(super) fn place(index: usize) -> String {
    format!("row {}", index + 1)
}

/// Whether every limit of the row is of the chart's kind.
fn speaks(row: &Row, by: ChartBy) -> bool {
    row.from.iter().chain(row.to.iter()).all(|limit| {
        let kind = match limit.at {
            Measure::Weight(_) => ChartBy::Weight,
            Measure::Age(_) => ChartBy::Age,
        };
        kind == by
    })
}

fn upside_down(index: usize, row: &Row) -> Option<Problem> {
    let (from, to) = (row.from.as_ref()?, row.to.as_ref()?);
    let empty = match compare(&from.at, &to.at)? {
        Ordering::Greater => true,
        Ordering::Equal => !(from.inclusive && to.inclusive),
        Ordering::Less => false,
    };
    let text = format!(
        "This row begins at {} and ends at {}, so nobody is in it.",
        from.at, to.at
    );
    empty.then(|| Problem::error("row-upside-down", place(index), text))
}

fn weight_beside_age(index: usize, row: &Row, by: ChartBy) -> Option<Problem> {
    let weight = row.or_weight_from.as_ref()?;
    (by == ChartBy::Weight).then(|| {
        let text = format!(
            "“or-weight-from” ({weight}) belongs in a chart by age; this chart goes by weight."
        );
        Problem::error("weight-beside-weight", place(index), text)
    })
}

/// A row with its place in the file, counted from 0.
pub(super) type Placed<'a> = (usize, &'a Row);

/// Neighbouring rows from the lightest or youngest upward, even where the file has them in another order.
pub(super) fn neighbours(order: &Order) -> Vec<(Placed<'_>, Placed<'_>)> {
    let mut rows: Vec<Placed<'_>> = order.rows.iter().enumerate().collect();
    rows.sort_by(|(_, a), (_, b)| match (&a.from, &b.from) {
        (Some(a), Some(b)) => compare(&a.at, &b.at).unwrap_or(Ordering::Equal),
        (a, b) => a.is_some().cmp(&b.is_some()),
    });
    rows.iter()
        .copied()
        .zip(rows.iter().copied().skip(1))
        .collect()
}

fn out_of_order(index: usize, first: &Row, second: &Row) -> Option<Problem> {
    let (one, two) = (index + 1, index + 2);
    let text = format!(
        "Row {two} belongs before row {one}; write the rows from the lightest or youngest upward."
    );
    (joint(first, second) == Joint::OutOfOrder)
        .then(|| Problem::error("rows-out-of-order", place(index + 1), text))
}

/// How two neighbours meet; the problem stands at the upper of them.
fn meeting((below, lower): Placed<'_>, (above, upper): Placed<'_>) -> Option<Problem> {
    let (one, two) = (below + 1, above + 1);
    let at = place(above);
    let end = lower
        .to
        .as_ref()
        .map(|limit| limit.at.to_string())
        .unwrap_or_default();
    let start = upper
        .from
        .as_ref()
        .map(|limit| limit.at.to_string())
        .unwrap_or_default();
    let by_age = matches!(upper.from.as_ref().map(|l| &l.at), Some(Measure::Age(_)));
    match joint(lower, upper) {
        Joint::Touching | Joint::PrintedGap { .. } | Joint::Mixed | Joint::OutOfOrder => None,
        Joint::Hole if by_age => {
            let text = format!(
                "Nobody serves an age between {end} (row {one}) and {start} (row {two}); write “over-age” where “up-to-age” ends."
            );
            Some(Problem::error("gap", at, text))
        }
        Joint::Hole => {
            let text = format!(
                "Nobody serves a weight between {end} (row {one}) and {start} (row {two})."
            );
            Some(Problem::error("gap", at, text))
        }
        Joint::Overlap => {
            let text = format!(
                "Rows {one} and {two} overlap: row {one} ends at {end} and row {two} begins at {start}."
            );
            Some(Problem::error("overlap", at, text))
        }
        Joint::Open if lower.to.is_none() => {
            let text = format!(
                "Row {one} has no upper limit, so it serves everybody above it and row {two} is never used."
            );
            Some(Problem::error("overlap", at, text))
        }
        Joint::Open => {
            let text = format!("Row {two} has no lower limit.");
            Some(Problem::error("overlap", at, text))
        }
    }
}

/// The two ends of the chart: who is lighter than the first row, who is heavier than the last.
fn ends(order: &Order, by: ChartBy) -> Vec<Problem> {
    let mut problems = Vec::new();
    let medicine = &order.medicine;
    if let Some(limit) = order.rows.first().and_then(|row| row.from.as_ref()) {
        let stated = match by {
            ChartBy::Weight => medicine.lightest.clone().map(Measure::Weight),
            ChartBy::Age => medicine.youngest.map(Measure::Age),
        };
        let name = if by == ChartBy::Weight {
            "lightest"
        } else {
            "youngest"
        };
        match stated.map(|stated| (compare(&stated, &limit.at), stated)) {
            None => {
                let text = format!(
                    "The first row begins at {}, and the order does not say with “{name}” that people below it are not served.",
                    limit.at
                );
                problems.push(Problem::warning("nothing-below-first-row", "row 1", text));
            }
            Some((Some(Ordering::Less), stated)) => {
                let text = format!(
                    "“{name}” is {stated}, but the first row begins only at {}.",
                    limit.at
                );
                problems.push(Problem::error("gap", "row 1", text));
            }
            Some(_) => {}
        }
    }
    if let Some(limit) = order.rows.last().and_then(|row| row.to.as_ref()) {
        let who = if by == ChartBy::Weight {
            "heavier"
        } else {
            "older"
        };
        let text = format!(
            "The last row ends at {}; there is no row for adults and everybody {who}.",
            limit.at
        );
        problems.push(Problem::error(
            "no-adult-row",
            place(order.rows.len().saturating_sub(1)),
            text,
        ));
    }
    problems
}
