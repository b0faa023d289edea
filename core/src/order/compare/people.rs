//! What is asked, said and called.

use super::{Changes, Detail, Entry, Value, Wording};
use crate::order::model::{Caution, Contact, Order, Question};

pub(super) fn compare(changes: &mut Changes, old: &Order, new: &Order) {
    changes.lists(
        &old.questions,
        &new.questions,
        |one| Entry::from(one),
        question,
    );
    changes.lists(
        &old.cautions,
        &new.cautions,
        |one| Entry::from(one),
        caution,
    );
    changes.lists(
        &old.contacts,
        &new.contacts,
        |one| Entry::from(one),
        contact,
    );
}

fn question(changes: &mut Changes, old: &Question, new: &Question, of: &Entry) {
    let outcome = |question: &Question| Some(Value::IfYes(question.if_yes));
    changes.detail(of, Detail::IfYes, outcome(old), outcome(new));
    let instead = |question: &Question| question.instead.as_deref().and_then(Value::text);
    changes.detail(of, Detail::Instead, instead(old), instead(new));
    changes.words(Wording::Question(of.clone()), &old.ask, &new.ask);
    changes.words(Wording::AfterYes(of.clone()), &old.then, &new.then);
}

fn caution(changes: &mut Changes, old: &Caution, new: &Caution, of: &Entry) {
    changes.words(Wording::Caution(of.clone()), &old.text, &new.text);
    changes.words(Wording::CautionKind(of.clone()), &old.kind, &new.kind);
}

fn contact(changes: &mut Changes, old: &Contact, new: &Contact, of: &Entry) {
    let phone = |contact: &Contact| Value::text(&contact.phone);
    changes.detail(of, Detail::Phone, phone(old), phone(new));
    changes.words(Wording::ContactNames(of.clone()), &old.words, &new.words);
    changes.words(Wording::Hours(of.clone()), &old.hours, &new.hours);
}
