//! What stands under every answer: the order's status, whom to call, and what this program is not.

use hearthdose_core::growth::Plausibility;
use hearthdose_core::household::Person;
use hearthdose_core::order::{CautionKind, ContactKind, Order};
use hearthdose_core::screening;
use hearthdose_core::units::{BodyWeight, WeightUnit};
use jiff::civil::Date;
use serde::Serialize;

pub const NOT_A_CLINICIAN: &str = "This does not replace your clinician; the order rules.";

/// Lines for the end of a readable answer.
pub fn closing(order: &Order) -> Vec<String> {
    let mut lines = Vec::new();
    if order.invented {
        lines.push("Invented order, for practice only: never for a real person.".to_owned());
    }
    lines.push("The order is not signed: compare it with the paper you were given.".to_owned());
    let urgent = order
        .cautions
        .iter()
        .filter(|caution| caution.kind == CautionKind::Emergency);
    lines.extend(urgent.filter_map(|caution| caution.text.get("en").cloned()));
    lines.extend(contact(order, ContactKind::Emergency, "Emergency"));
    lines.extend(contact(order, ContactKind::Questions, "Questions"));
    lines.push(NOT_A_CLINICIAN.to_owned());
    lines
}

/// Whom to call, as the order says.
pub fn contact(order: &Order, kind: ContactKind, title: &str) -> Option<String> {
    let contact = order.contacts.iter().find(|contact| contact.kind == kind)?;
    let hours = contact
        .hours
        .get("en")
        .map(|hours| format!(", {hours}"))
        .unwrap_or_default();
    Some(format!(
        "{title}: {}, {}{hours}",
        contact.name, contact.phone
    ))
}

/// Something to ask again that keeps no dose back.
#[derive(Clone, Debug, Serialize)]
pub struct Question {
    pub person: String,
    pub code: &'static str,
    pub text: String,
}

/// "Pounds or kilograms?", when a weight is unusual at this age.
pub fn weight_question(person: &Person, day: Date) -> Option<Question> {
    let weight = person.weight()?;
    let found = screening::weight_question(person, weight, day);
    if found != Plausibility::Ask {
        return None;
    }
    let other = in_other_unit(weight)
        .filter(|other| screening::weight_question(person, other, day) == Plausibility::Plausible)
        .map(|other| format!(" {other} would be usual."))
        .unwrap_or_default();
    let text = format!(
        "{weight} is unusual at this age: pounds or kilograms?{other} Look at the scale again."
    );
    Some(Question {
        person: person.name.clone(),
        code: found.code()?,
        text,
    })
}

/// The same number in the other unit, where one number was typed.
fn in_other_unit(weight: &BodyWeight) -> Option<BodyWeight> {
    let unit = match weight.unit() {
        WeightUnit::Pounds => "kg",
        WeightUnit::Kilograms => "lb",
        WeightUnit::PoundsAndOunces => return None,
    };
    let number: String = weight
        .typed()
        .chars()
        .take_while(|c| c.is_ascii_digit() || *c == '.')
        .collect();
    BodyWeight::parse(&format!("{number} {unit}")).ok()
}
