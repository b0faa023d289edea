//! How a dose came about, line by line, in English.

use super::DoseForm;
use super::row::{Found, Why};
use crate::order::{BetweenRows, Order, Row};
use crate::screening::Cleared;
use crate::units::{Mass, Percent, show};

/// One line of a trace: what it is about, and the words.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
pub struct TraceLine {
    pub about: &'static str,
    pub text: String,
}

fn line(about: &'static str, text: impl Into<String>) -> TraceLine {
    TraceLine {
        about,
        text: text.into(),
    }
}

pub(super) fn write(
    cleared: &Cleared<'_>,
    found: &Found,
    row: &Row,
    mass: Mass,
    form: DoseForm,
    tablets: Option<u32>,
    text: &str,
) -> Vec<TraceLine> {
    let order: &Order = cleared.order();
    let person = cleared.person();
    let mut lines = vec![line(
        "order",
        format!(
            "{} revision {}, chart from: {}",
            order.id, order.revision, order.source
        ),
    )];
    match person.weight() {
        Some(weight) => lines.push(line(
            "weight",
            format!(
                "{} = {} kg to the nearest gram",
                weight.typed(),
                weight.shown_kilograms()
            ),
        )),
        None => lines.push(line("weight", "none given")),
    }
    if let Some(age) = cleared.age() {
        lines.push(line("age", Found::age_words(age)));
    }
    lines.push(line("row", row.to_string()));
    if let Some(words) = why(order, found) {
        lines.push(line("between-rows", words));
    }
    lines.push(line("amount", amount(order, row, form, tablets, text)));
    lines.push(line(
        "mass",
        format!(
            "{mass}{}",
            row.mg
                .map(|p| format!(", printed {} mg", p.mass.milligrams()))
                .unwrap_or_default()
        ),
    ));
    if let (Some(weight), Some(per_kg)) = (person.weight(), order.medicine.per_kg) {
        let hundredths = weight.hundredths_mg_per_kg(mass);
        let shown = show::decimal(u64::try_from(hundredths).unwrap_or(u64::MAX), 2);
        let most = order
            .medicine
            .tolerance
            .map(|t| t.over.above_whole())
            .map(|over| format!(", at most {over} of it"))
            .unwrap_or_default();
        let reached = if weight.compare_dose(mass, per_kg, Percent::WHOLE).is_ge() {
            "reached"
        } else {
            "not reached"
        };
        lines.push(line(
            "per-kilogram",
            format!("{shown} mg/kg; target {per_kg}/kg {reached}{most}"),
        ));
    }
    if let Some(max) = order.medicine.max_dose {
        let place = if mass == max { "at" } else { "below" };
        lines.push(line(
            "maximum",
            format!("{place} the largest dose of {max}"),
        ));
    }
    if order.invented {
        lines.push(line("invented", "an invented order, for practice only"));
    }
    lines
}

fn why(order: &Order, found: &Found) -> Option<String> {
    let name = |index: usize| {
        order
            .rows
            .get(index)
            .map(ToString::to_string)
            .unwrap_or_default()
    };
    match &found.why {
        Why::Within => None,
        Why::Adult => Some("an adult takes the last line, whatever the weight".to_owned()),
        Why::HeavyForAge => Some("heavy enough for the line of the next age".to_owned()),
        Why::LowerStillEnough {
            between: (lower, upper),
        } => Some(format!(
            "between “{}” and “{}”; rule “enough”: the lower line still reaches the target at this weight",
            name(*lower),
            name(*upper)
        )),
        Why::UpperTaken {
            between: (lower, upper),
            rule,
        } => Some(format!(
            "between “{}” and “{}”; rule “{}”: {}",
            name(*lower),
            name(*upper),
            match rule {
                BetweenRows::Enough => "enough",
                BetweenRows::NextRow => "next row",
            },
            match rule {
                BetweenRows::Enough => "the lower line no longer reaches the target at this weight",
                BetweenRows::NextRow => "the heavier or older line serves",
            }
        )),
    }
}

fn amount(order: &Order, row: &Row, form: DoseForm, tablets: Option<u32>, text: &str) -> String {
    match form {
        DoseForm::Tablets => {
            format!(
                "{text}: the line is exactly {}, and tablets are swallowed whole",
                count(tablets.unwrap_or_default())
            )
        }
        DoseForm::Mixture => match &order.recipe {
            Some(recipe) => {
                let bowl = recipe.bowl_volume().unwrap_or(recipe.water);
                format!(
                    "{text} of a bowl of {} ({} in {bowl})",
                    show::spoon_text(bowl),
                    count(recipe.tablets)
                )
            }
            None => text.to_owned(),
        },
        DoseForm::Liquid => format!("{text}, {} by the line", row.amount),
    }
}

fn count(tablets: u32) -> String {
    format!(
        "{} {}",
        show::decimal(u64::from(tablets), 0),
        if tablets == 1 { "tablet" } else { "tablets" }
    )
}
