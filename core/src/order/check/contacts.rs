//! Who can be called: the screens send people to an emergency number and to somebody who answers questions.

use crate::order::model::{Contact, ContactKind, Order};
use crate::order::problem::Problem;

pub(super) fn check(order: &Order) -> Vec<Problem> {
    let mut problems = Vec::new();
    let has = |kind| order.contacts.iter().any(|contact| contact.kind == kind);
    for (kind, name) in [
        (ContactKind::Emergency, "emergency"),
        (ContactKind::Questions, "questions"),
    ] {
        if !has(kind) {
            let text =
                format!("There is no contact of the kind “{name}”; every order must have one.");
            problems.push(Problem::error("missing-contact", "contact", text));
        }
    }
    if !has(ContactKind::Poison) {
        let text = "There is no contact of the kind “poison”, to whom a dose taken twice is sent.";
        problems.push(Problem::warning("missing-step-contact", "contact", text));
    }
    let refills = order.medicine.supply_days < order.medicine.course_days;
    if refills && !has(ContactKind::Refill) {
        let text = "The course is longer than the first supply, but there is no contact of the kind “refill”.";
        problems.push(Problem::warning("missing-step-contact", "contact", text));
    }
    for (index, contact) in order.contacts.iter().enumerate() {
        problems.extend(phone(order, index, contact));
    }
    problems
}

fn phone(order: &Order, index: usize, contact: &Contact) -> Option<Problem> {
    let place = format!("contact {}.phone", index + 1);
    let phone = &contact.phone;
    if phone.is_empty() {
        return None;
    }
    if !phone.chars().any(|c| c.is_ascii_digit()) {
        let text = format!("“{phone}” is no telephone number.");
        return Some(Problem::error("phone-without-digits", place, text));
    }
    let fictional = phone.contains("555-01") && !order.invented;
    let text = format!("{phone} is reserved for fiction, but the order is not marked “invented”.");
    fictional.then(|| Problem::warning("phone-looks-invented", place, text))
}
