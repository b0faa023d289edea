//! Every row of a weight chart against the dose for each kilogram.
//!
//! The target at a weight is `per-kg` times that weight, and never more than `max-dose`.
//! A row is tried at its lightest and at its heaviest person; the first row's lightest person is `lightest`, the last row's heaviest has no limit, so its target is `max-dose`.
//! Inside a printed gap the next row is tried from the gap's lower edge under either rule: a kitchen scale puts people there, and "enough" gives them the next row as soon as the lower one falls short.
//! The lower row never falls short inside a gap: under "enough" it then stops serving, under "next row" it does not serve.

use std::cmp::Ordering;

use super::chart::place;
use super::exact::ExactMass;
use crate::order::joint::{Joint, joint};
use crate::order::model::{BetweenRows, ChartBy, Measure, Order, Row, Tolerance};
use crate::order::problem::Problem;
use crate::units::{BodyWeight, Mass, Percent};

pub(super) fn check(order: &Order) -> Vec<Problem> {
    let medicine = &order.medicine;
    if order.chart_by() == ChartBy::Age {
        let text = "A chart by age cannot be compared with a dose for each kilogram; “per-kg” is not used.";
        let unused = medicine
            .per_kg
            .map(|_| Problem::warning("per-kg-unused", "medicine.per-kg", text));
        return unused.into_iter().collect();
    }
    let mut problems = bounds(order);
    if let (Some(per_kg), Some(tolerance)) = (medicine.per_kg, medicine.tolerance) {
        for (index, row) in order.rows.iter().enumerate() {
            problems.extend(row_problem(order, index, row, per_kg, tolerance));
        }
    }
    problems
}

/// What the comparison needs and the order may have left out.
fn bounds(order: &Order) -> Vec<Problem> {
    let medicine = &order.medicine;
    let mut problems = Vec::new();
    let gaps = order
        .rows
        .iter()
        .zip(order.rows.iter().skip(1))
        .any(|(a, b)| matches!(joint(a, b), Joint::PrintedGap { .. }));
    match medicine.per_kg {
        None => {
            let text = "The order gives no dose for each kilogram, so the chart cannot be checked against one.";
            problems.push(Problem::warning("no-per-kg", "medicine.per-kg", text));
            if gaps && order.between_rows == BetweenRows::Enough {
                let text = "The rule “enough” between rows needs a dose for each kilogram.";
                problems.push(Problem::error(
                    "rule-needs-per-kg",
                    "between-rows.rule",
                    text,
                ));
            }
        }
        Some(Mass::ZERO) => problems.push(Problem::error(
            "per-kg-zero",
            "medicine.per-kg",
            "The dose for each kilogram is zero.",
        )),
        Some(_) if medicine.tolerance.is_none() => {
            let text = "The order does not say how far a row may be from the dose for each kilogram, so the chart is not checked against it.";
            problems.push(Problem::warning("no-tolerance", "medicine.tolerance", text));
        }
        Some(_) => {}
    }
    if medicine.lightest.is_none() {
        let text = "The order does not say the lightest weight it serves, so its first row has no lightest person.";
        let needed = medicine.per_kg.is_some()
            && medicine.tolerance.is_some()
            && order.rows.first().is_some_and(|row| row.from.is_none());
        let make = if needed {
            Problem::error
        } else {
            |code, place: &str, text: &str| Problem::warning(code, place, text)
        };
        problems.push(make("no-lightest", "medicine.lightest", text));
    }
    if medicine.per_kg.is_some() && medicine.max_dose.is_none() {
        let text = "The order gives no largest dose, so the last row cannot be checked at its heaviest person.";
        problems.push(Problem::warning("no-max-dose", "medicine.max-dose", text));
    }
    problems
}

fn row_problem(
    order: &Order,
    index: usize,
    row: &Row,
    per_kg: Mass,
    tolerance: Tolerance,
) -> Option<Problem> {
    let mass = ExactMass::of(order.measured_strength()?, row.amount)?;
    let floor = order.medicine.lightest.as_ref();
    let heaviest = match row.to.as_ref().map(|limit| &limit.at) {
        Some(Measure::Weight(weight)) => Some(weight),
        _ => None,
    };
    if let (Some(floor), Some(heaviest)) = (floor, heaviest)
        && heaviest < floor
    {
        let text = format!(
            "This row ends at {heaviest}, below the lightest weight served, {floor}; it is never used."
        );
        return Some(Problem::warning("row-never-used", place(index), text));
    }
    let mut faults = Vec::new();
    if let Some(lightest) = lightest(order, index, row) {
        let limit = tolerance.over.above_whole();
        if mass.compare_per_kg(per_kg, lightest, limit) == Some(Ordering::Greater) {
            faults.push(fault(
                mass,
                per_kg,
                lightest,
                &format!("{} over", tolerance.over),
            ));
        }
    }
    let least = tolerance.under.below_whole();
    let below_most = order
        .medicine
        .max_dose
        .map(|most| mass.compare_share(most, least) == Some(Ordering::Less));
    match heaviest {
        Some(weight) => {
            let short = mass.compare_per_kg(per_kg, weight, least) == Some(Ordering::Less);
            if short && below_most != Some(false) {
                faults.push(fault(
                    mass,
                    per_kg,
                    weight,
                    &format!("{} under", tolerance.under),
                ));
            }
        }
        None if below_most == Some(true) => {
            let most = order
                .medicine
                .max_dose
                .map(|most| most.to_string())
                .unwrap_or_default();
            faults.push(format!(
                "it gives {} to everybody heavier, more than {} under the largest dose of {most}",
                mass.shown(),
                tolerance.under
            ));
        }
        None => {}
    }
    if faults.is_empty() {
        return heaviest.and_then(|weight| far_above(index, mass, per_kg, weight));
    }
    let faults = faults.join("; ");
    Some(match &row.reason {
        Some(reason) => {
            let text = format!(
                "This row leaves the tolerance with a written reason ({reason}): {faults}."
            );
            Problem::warning("tolerance-with-reason", place(index), text)
        }
        None => Problem::error(
            "tolerance",
            place(index),
            format!("This row leaves the tolerance: {faults}."),
        ),
    })
}

/// A row that gives even its heaviest person half as much again has slipped, however wide the tolerance is.
fn far_above(
    index: usize,
    mass: ExactMass,
    per_kg: Mass,
    heaviest: &BodyWeight,
) -> Option<Problem> {
    let half_more = Percent::parse("50 %").ok()?.above_whole();
    let above = mass.compare_per_kg(per_kg, heaviest, half_more)? == Ordering::Greater;
    let distance = mass.distance_shown(per_kg, heaviest);
    let text =
        format!("Even at {heaviest}, its heaviest person, this row is {distance} {per_kg}/kg.");
    above.then(|| Problem::warning("row-far-above", place(index), text))
}

/// The lightest person whom the row may serve.
fn lightest<'a>(order: &'a Order, index: usize, row: &'a Row) -> Option<&'a BodyWeight> {
    let printed = match row.from.as_ref().map(|limit| &limit.at) {
        Some(Measure::Weight(weight)) => Some(weight),
        _ => None,
    };
    let before = index
        .checked_sub(1)
        .and_then(|before| order.rows.get(before));
    let edge = before.and_then(|before| {
        match (
            joint(before, row),
            before.to.as_ref().map(|limit| &limit.at),
        ) {
            (Joint::PrintedGap { .. }, Some(Measure::Weight(above))) => Some(above),
            _ => None,
        }
    });
    edge.or(printed).max(order.medicine.lightest.as_ref())
}

fn fault(mass: ExactMass, per_kg: Mass, weight: &BodyWeight, allowed: &str) -> String {
    format!(
        "at {weight} it gives {} = {} mg/kg, {} {per_kg}/kg, where {allowed} is allowed",
        mass.shown(),
        mass.per_kg_shown(weight),
        mass.distance_shown(per_kg, weight)
    )
}
