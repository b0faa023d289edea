//! The dose of one person: the row of the chart, and nothing else.
//!
//! There is no rounding of a dose and no clamping: the amount is the row's, and what does not fit is refused.
//! Every dose carries the trace of how it came about; screens, prints and tests read that one trace.

mod row;
mod trace;

use jiff::civil::Date;

use crate::household::Person;
use crate::order::{ChartBy, CheckedOrder, Form, Group, Order, Row};
use crate::screening::{self, Cleared, Reason, ReasonKind};
use crate::units::{BodyWeight, Mass, Strength, Volume, show};

pub use trace::TraceLine;

/// How a dose is taken.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize, serde::Deserialize,
)]
#[serde(rename_all = "kebab-case")]
pub enum DoseForm {
    /// Measured from a bowl of tablet and water.
    Mixture,
    /// Measured from a bottle of ready-made liquid.
    Liquid,
    /// Swallowed whole.
    Tablets,
}

/// What one person takes in one round.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Dose {
    pub form: DoseForm,
    /// Index of the row in the order.
    pub row: usize,
    /// The row as the chart prints it: `26 lb to 38 lb`.
    pub row_text: String,
    /// What is measured; for whole tablets what the row would measure.
    pub amount: Volume,
    /// Whole tablets, for [`DoseForm::Tablets`] only.
    pub tablets: Option<u32>,
    pub mass: Mass,
    /// Hundredths of mg/kg, half away from zero; absent without a weight.
    pub hundredths_mg_per_kg: Option<u128>,
    /// The amount in English, by the label-writing rules.
    pub text: String,
    pub trace: Vec<TraceLine>,
}

/// The dose of `person` on `day`, or every reason why there is none.
///
/// # Errors
/// Screening reasons and chart reasons together, so that a person is sent once.
pub fn work_out(order: &CheckedOrder, person: &Person, day: Date) -> Result<Dose, Vec<Reason>> {
    match screening::evaluate(order, person, day) {
        Ok(cleared) => of_cleared(&cleared).map_err(|reason| vec![reason]),
        Err(mut reasons) => {
            // The chart is asked too: a missing weight is worth knowing before the walk to the site.
            if let Err(reason) = row::missing(order, person, day) {
                reasons.push(reason);
            }
            Err(reasons)
        }
    }
}

/// The dose of somebody whose screening is complete.
///
/// # Errors
/// No weight or age where the chart needs one, or a person outside the chart.
pub fn of_cleared(cleared: &Cleared<'_>) -> Result<Dose, Reason> {
    let order: &Order = cleared.order();
    let person = cleared.person();
    let found = row::find(cleared)?;
    let row = order.rows.get(found.index).ok_or_else(|| {
        Reason::new(
            ReasonKind::Hold,
            "no-row",
            "the chart has no such line".to_owned(),
        )
    })?;
    let broken = |text: &str| Reason::new(ReasonKind::Hold, "order-incomplete", text.to_owned());
    let product = order
        .main_product()
        .ok_or_else(|| broken("the order names no product"))?;
    let strength = order
        .measured_strength()
        .ok_or_else(|| broken("the strength of the mixture is not known"))?;
    let mass = strength
        .mass_in(row.amount)
        .ok_or_else(|| broken("the amount is not a whole number of micrograms"))?;
    let tablets = if person.swallows_tablets && product.whole_if_row_allows {
        whole_tablets(product.strength, mass)
    } else {
        None
    };
    let form = match (tablets, product.form) {
        (Some(_), _) => DoseForm::Tablets,
        (None, Form::Tablet) => DoseForm::Mixture,
        (None, Form::Liquid) => DoseForm::Liquid,
    };
    let text = amount_text(form, row.amount, tablets, product.strength);
    let hundredths = person
        .weight()
        .map(|weight| weight.hundredths_mg_per_kg(mass));
    let trace = trace::write(cleared, &found, row, mass, form, tablets, &text);
    let row_text = row.to_string();
    Ok(Dose {
        form,
        row: found.index,
        row_text,
        amount: row.amount,
        tablets,
        mass,
        hundredths_mg_per_kg: hundredths,
        text,
        trace,
    })
}

/// How many doses this person may have at most on this order, if the order limits it.
///
/// The smallest limit of all groups the person belongs to; an unsure answer belongs to the group.
pub fn most_doses(order: &Order, person: &Person, day: Date) -> Option<u32> {
    most_doses_renewed(order, person, day, 0)
}

/// [`most_doses`] after the issuer renewed the order for so many more doses.
///
/// A renewal raises the limit for everyone only: newborns and other groups keep theirs, as the published advice has it.
pub fn most_doses_renewed(order: &Order, person: &Person, day: Date, renewed: u32) -> Option<u32> {
    let age = person.age_on(day);
    let belongs = |group: &Group| match group {
        Group::UpToAge(limit) => age.is_some_and(|age| age.compare(*limit).is_le()),
        Group::UnderAge(limit) => age.is_some_and(|age| age.compare(*limit).is_lt()),
        Group::If(key) => person
            .answers
            .get(key)
            .is_some_and(|a| *a != crate::household::Answer::No),
        Group::Everyone => true,
    };
    order
        .medicine
        .most_doses
        .iter()
        .filter(|m| belongs(&m.group))
        .map(|m| match m.group {
            Group::Everyone => m.doses.saturating_add(renewed),
            _ => m.doses,
        })
        .min()
}

/// Whether a chart can be read for this person without a weight.
pub fn needs_weight(order: &Order, person: &Person, day: Date) -> bool {
    let adult = match (order.medicine.adult_from, person.age_on(day)) {
        (Some(limit), Some(age)) => age.reached(limit),
        _ => false,
    };
    order.chart_by() == ChartBy::Weight && !adult
}

/// Place in the order of the row that serves a weight, whoever weighs it; none for a chart by age, or outside the chart.
///
/// For questions about a weighing; only [`work_out`] gives a dose.
pub fn row_of_weight(order: &Order, weight: &BodyWeight) -> Option<usize> {
    let by_weight = order.chart_by() == ChartBy::Weight;
    row::of_weight(order, weight)
        .filter(|_| by_weight)
        .map(|found| found.index)
}

/// Whether a row is exactly a number of whole tablets of the order's own product.
pub fn row_in_tablets(order: &Order, row: &Row) -> Option<u32> {
    let strength = order.measured_strength()?;
    whole_tablets(
        order.main_product()?.strength,
        strength.mass_in(row.amount)?,
    )
}

fn whole_tablets(strength: Strength, mass: Mass) -> Option<u32> {
    match strength {
        Strength::PerTablet(one)
            if one > Mass::ZERO && mass.as_micrograms().is_multiple_of(one.as_micrograms()) =>
        {
            u32::try_from(mass.as_micrograms() / one.as_micrograms())
                .ok()
                .filter(|n| *n > 0)
        }
        _ => None,
    }
}

fn amount_text(form: DoseForm, amount: Volume, tablets: Option<u32>, strength: Strength) -> String {
    match (form, tablets) {
        (DoseForm::Tablets, Some(1)) => "1 whole tablet".to_owned(),
        (DoseForm::Tablets, Some(n)) => format!("{n} whole tablets"),
        (DoseForm::Liquid, _) => format!("{amount} of the liquid with {strength}"),
        _ => show::spoon_text(amount),
    }
}
