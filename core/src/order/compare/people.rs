//! What is asked, said and called.

use super::{Changes, said};
use crate::order::model::{Caution, Contact, ContactKind, IfYes, Order, Question};

pub(super) fn compare(changes: &mut Changes, old: &Order, new: &Order) {
    changes.lists(
        "question",
        &old.questions,
        &new.questions,
        |entry| entry.key.clone(),
        question,
    );
    changes.lists(
        "caution",
        &old.cautions,
        &new.cautions,
        |entry| entry.key.clone(),
        caution,
    );
    changes.lists(
        "contact",
        &old.contacts,
        &new.contacts,
        contact_name,
        contact,
    );
}

fn question(changes: &mut Changes, old: &Question, new: &Question, place: &str) {
    let outcome = |question: &Question| match question.if_yes {
        IfYes::Stop => "stop",
        IfYes::Hold => "ask a nurse first",
        IfYes::Caution => "caution",
    };
    changes.changed(
        place,
        &format!("{place}: a yes means"),
        outcome(old),
        outcome(new),
    );
    let instead = |question: &Question| said(question.instead.as_ref());
    changes.changed(
        place,
        &format!("{place}: instead"),
        &instead(old),
        &instead(new),
    );
    if old.ask != new.ask {
        changes.push(
            "changed",
            place,
            format!("{place}: the words of the question changed"),
        );
    }
    if old.then != new.then {
        changes.push(
            "changed",
            place,
            format!("{place}: the words after a yes changed"),
        );
    }
}

fn caution(changes: &mut Changes, old: &Caution, new: &Caution, place: &str) {
    if old.text != new.text {
        changes.push("changed", place, format!("{place}: the words changed"));
    }
    if old.kind != new.kind {
        changes.push(
            "changed",
            place,
            format!("{place}: its place among the cautions changed"),
        );
    }
}

fn contact_name(contact: &Contact) -> String {
    let kind = match contact.kind {
        ContactKind::Emergency => "emergency",
        ContactKind::Poison => "poison",
        ContactKind::Questions => "questions",
        ContactKind::Refill => "refill",
    };
    format!("{kind} ({})", contact.name)
}

fn contact(changes: &mut Changes, old: &Contact, new: &Contact, place: &str) {
    changes.changed(place, &format!("{place}: phone"), &old.phone, &new.phone);
    if old.hours != new.hours {
        changes.push("changed", place, format!("{place}: the hours changed"));
    }
}
