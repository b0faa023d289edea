//! Reading what is asked, said and called: questions, cautions, contacts.

use super::section::Section;
use crate::order::model::{Caution, CautionKind, Contact, ContactKind, IfYes, Question};

pub(super) fn questions(top: &mut Section<'_>) -> Vec<Question> {
    let mut list = Vec::new();
    for mut at in top.tables("question") {
        let key = at.text("key");
        at.require("ask");
        let ask = at.words("ask");
        let if_yes = at.choice(
            "if-yes",
            &[
                ("stop", IfYes::Stop),
                ("hold", IfYes::Hold),
                ("caution", IfYes::Caution),
            ],
        );
        let instead = at.optional_text("instead");
        let then = at.words("then");
        // A stand-in where the outcome cannot be read; such an order is refused.
        let if_yes = if_yes.unwrap_or(IfYes::Stop);
        if let Some(key) = key {
            list.push(Question {
                key,
                ask,
                if_yes,
                instead,
                then,
            });
        }
        top.absorb(at);
    }
    list
}

pub(super) fn cautions(top: &mut Section<'_>) -> Vec<Caution> {
    const KINDS: [(&str, CautionKind); 5] = [
        ("emergency", CautionKind::Emergency),
        ("illness", CautionKind::Illness),
        ("effect", CautionKind::Effect),
        ("storage", CautionKind::Storage),
        ("general", CautionKind::General),
    ];
    let mut list = Vec::new();
    for mut at in top.tables("caution") {
        let key = at.text("key");
        let kind = at.optional_choice("kind", &KINDS);
        at.require("text");
        let text = at.words("text");
        if let Some(key) = key {
            let kind = kind.unwrap_or_else(|| usual_kind(&key));
            list.push(Caution { key, kind, text });
        }
        top.absorb(at);
    }
    list
}

/// The kind of a caution that names none, from its key; it decides only the order on the screen.
fn usual_kind(key: &str) -> CautionKind {
    let names = |parts: &[&str]| parts.iter().any(|part| key.contains(part));
    if names(&["emergency", "allerg", "reaction", "breath"]) {
        CautionKind::Emergency
    } else if names(&["illness", "sick", "symptom"]) {
        CautionKind::Illness
    } else if names(&["storage", "reach", "keep-away"]) {
        CautionKind::Storage
    } else {
        CautionKind::General
    }
}

pub(super) fn contacts(top: &mut Section<'_>) -> Vec<Contact> {
    const KINDS: [(&str, ContactKind); 4] = [
        ("emergency", ContactKind::Emergency),
        ("poison", ContactKind::Poison),
        ("questions", ContactKind::Questions),
        ("refill", ContactKind::Refill),
    ];
    let mut list = Vec::new();
    for mut at in top.tables("contact") {
        let kind = at.choice("kind", &KINDS);
        let name = at.text("name");
        let words = at.words("words");
        let phone = at.text("phone");
        let hours = at.words("hours");
        if let Some(kind) = kind {
            let (name, phone) = (name.unwrap_or_default(), phone.unwrap_or_default());
            list.push(Contact {
                kind,
                name,
                words,
                phone,
                hours,
            });
        }
        top.absorb(at);
    }
    list
}
