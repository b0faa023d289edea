//! The amounts of the chart: measurable, in the bowl, as strong as printed, never falling and never above the maximum.

use std::cmp::Ordering;

use super::chart::{Placed, neighbours, place};
use super::exact::ExactMass;
use crate::order::joint::{Joint, joint};
use crate::order::model::{Form, Order, Row};
use crate::order::problem::Problem;
use crate::units::{Strength, Volume, show};

/// Amounts and bowls beyond a litre are slips of the pen.
const MOST: Volume = Volume::microlitres(1_000_000);
/// So is more than 100 g of medicine in one tablet or bowl.
const MOST_MICROGRAMS: u64 = 100_000_000;

pub(super) fn check(order: &Order) -> Vec<Problem> {
    let mut problems = Vec::new();
    let strength = order.measured_strength();
    if let Some(Strength::PerVolume { mass, volume }) = strength
        && (mass.as_micrograms() > MOST_MICROGRAMS || volume > MOST)
    {
        let text =
            format!("{mass} in {volume} is far more than any dose; look for a slip in the units.");
        problems.push(Problem::error("quantity-too-large", "product", text));
    }
    for (index, row) in order.rows.iter().enumerate() {
        problems.extend(measurable(order, index, row));
        let mass = strength.and_then(|strength| ExactMass::of(strength, row.amount));
        if let Some(mass) = mass {
            problems.extend(as_printed(index, row, mass));
            problems.extend(within_maximum(order, index, row, mass));
            if row.amount > Volume::ZERO && mass.whole().is_none() {
                let text = format!(
                    "{} holds {}, which is no whole number of micrograms; no dose can be given from this row.",
                    show::spoon_text(row.amount),
                    mass.shown()
                );
                problems.push(Problem::error("mass-not-exact", place(index), text));
            }
        }
    }
    for (lower, upper) in neighbours(order) {
        problems.extend(falls(lower, upper));
        problems.extend(jumps(lower, upper, strength));
    }
    problems.extend(whole_tablets(order, strength));
    problems
}

fn measurable(order: &Order, index: usize, row: &Row) -> Vec<Problem> {
    let mut problems = Vec::new();
    let amount = row.amount;
    if amount == Volume::ZERO {
        problems.push(Problem::error(
            "amount-zero",
            place(index),
            "This row gives nothing.",
        ));
        return problems;
    }
    if amount > MOST {
        let text = format!("{amount} is far more than any dose; look for a slip in the units.");
        problems.push(Problem::error("quantity-too-large", place(index), text));
    }
    let bowl = order
        .recipe
        .as_ref()
        .and_then(|recipe| recipe.bowl_volume());
    if let Some(bowl) = bowl.filter(|bowl| amount > *bowl) {
        let (amount, bowl) = (show::spoon_text(amount), show::spoon_text(bowl));
        let text = format!("This row needs {amount}, but a bowl holds only {bowl}.");
        problems.push(Problem::error("amount-over-bowl", place(index), text));
    }
    let step = order.step().filter(|step| *step > Volume::ZERO);
    if let Some(step) = step.filter(|step| amount.in_steps(*step).is_none()) {
        let (amount, step) = (show::spoon_text(amount), show::spoon_text(step));
        let text = format!("This row needs {amount}, which cannot be measured in steps of {step}.");
        problems.push(Problem::error("amount-off-step", place(index), text));
    }
    problems
}

fn as_printed(index: usize, row: &Row, mass: ExactMass) -> Option<Problem> {
    let printed = row.mg?;
    let agrees = mass.agrees_with(printed.mass, printed.decimals)?;
    let (amount, shown) = (show::spoon_text(row.amount), mass.shown());
    let text = format!(
        "This row prints {}, but {amount} of this mixture holds {shown}.",
        printed.mass
    );
    (!agrees).then(|| Problem::error("mg-differs", place(index), text))
}

fn within_maximum(order: &Order, index: usize, row: &Row, mass: ExactMass) -> Option<Problem> {
    let most = order.medicine.max_dose?;
    let above = mass.compare(most)? == Ordering::Greater
        || row.mg.is_some_and(|printed| printed.mass > most);
    let text = format!(
        "This row gives {}, more than the largest dose of {most}.",
        mass.shown()
    );
    above.then(|| Problem::error("mg-over-maximum", place(index), text))
}

fn falls((below, lower): Placed<'_>, (above, upper): Placed<'_>) -> Option<Problem> {
    (upper.amount < lower.amount).then(|| {
        let (less, more) = (show::spoon_text(upper.amount), show::spoon_text(lower.amount));
        let (one, two) = (below + 1, above + 1);
        let text = format!("Row {two} gives {less}, less than the {more} of row {one}, although it is for bigger people.");
        Problem::error("dose-falls", place(above), text)
    })
}

/// A jump of 1.5 times or more, with the mg/kg that it makes inside a printed gap.
fn jumps(
    (below, lower): Placed<'_>,
    (above, upper): Placed<'_>,
    strength: Option<Strength>,
) -> Option<Problem> {
    let (from, to) = (lower.amount.as_microlitres(), upper.amount.as_microlitres());
    let jump = from > 0 && to.checked_mul(2)? >= from.checked_mul(3)?;
    if !jump {
        return None;
    }
    let hundredths = to
        .checked_mul(100)?
        .checked_add(from / 2)?
        .checked_div(from)?;
    let times = show::decimal(hundredths, 2);
    let mut text = format!(
        "Row {} gives {times} times as much as row {}",
        above + 1,
        below + 1
    );
    let mass = strength.and_then(|strength| ExactMass::of(strength, upper.amount));
    if let (Joint::PrintedGap { above, below }, Some(mass)) = (joint(lower, upper), mass) {
        let most = mass.per_kg_shown(&above);
        text.push_str(&format!(
            "; between {above} and {below} it reaches {most} mg/kg"
        ));
    }
    text.push('.');
    Some(Problem::warning("dose-jump", place(above), text))
}

/// A product that may be swallowed whole needs a row of exactly whole tablets.
fn whole_tablets(order: &Order, strength: Option<Strength>) -> Vec<Problem> {
    let Some(strength) = strength else {
        return Vec::new();
    };
    let promised = order
        .products
        .iter()
        .enumerate()
        .filter(|(_, product)| product.whole_if_row_allows);
    promised
        .filter(|(_, product)| product.form == Form::Tablet)
        .filter(|(_, product)| {
            let Strength::PerTablet(tablet) = product.strength else {
                return false;
            };
            let masses = order.rows.iter().filter_map(|row| ExactMass::of(strength, row.amount));
            !masses.into_iter().any(|mass| mass.whole_tablets(tablet).is_some_and(|count| count > 0))
        })
        .map(|(index, product)| {
            let text = format!("“{}” may be swallowed whole where a row allows it, but no row is exactly whole tablets.", product.key);
            Problem::warning("no-whole-tablet-row", format!("product {}", index + 1), text)
        })
        .collect()
}
