//! The questions: unique, each leading somewhere, and none of the usual topics forgotten (D29).

use std::collections::BTreeSet;

use crate::order::model::{Group, IfYes, Order, Question};
use crate::order::problem::Problem;

pub(super) fn check(order: &Order) -> Vec<Problem> {
    let mut problems = Vec::new();
    problems.extend(duplicates(
        "question",
        order.questions.iter().map(|q| &q.key),
    ));
    problems.extend(duplicates("caution", order.cautions.iter().map(|c| &c.key)));
    for (index, question) in order.questions.iter().enumerate() {
        problems.extend(leads_nowhere(index, question));
    }
    problems.extend(groups(order));
    problems.extend(topics(order));
    problems
}

fn duplicates<'a>(what: &str, keys: impl Iterator<Item = &'a String>) -> Vec<Problem> {
    let mut seen = BTreeSet::new();
    keys.enumerate()
        .filter(|(_, key)| !seen.insert(*key))
        .map(|(index, key)| {
            let text = format!("The key “{key}” is used twice.");
            Problem::error("duplicate-key", format!("{what} {}", index + 1), text)
        })
        .collect()
}

/// An answer that stops or holds somebody must say what happens then.
fn leads_nowhere(index: usize, question: &Question) -> Option<Problem> {
    if !question.then.is_empty() {
        return None;
    }
    let place = format!("question {}", index + 1);
    let key = &question.key;
    if question.if_yes != IfYes::Caution && question.instead.is_none() {
        let text = format!(
            "Nothing answers a yes to “{key}”: it has neither “then” words nor an order to go to instead."
        );
        return Some(Problem::error("question-leads-nowhere", place, text));
    }
    let text = format!("A yes to “{key}” shows no words of its own; add “then”.");
    Some(Problem::warning("question-without-words", place, text))
}

/// A group "if pregnant" needs the question "pregnant".
fn groups(order: &Order) -> Vec<Problem> {
    let asked: BTreeSet<&str> = order
        .questions
        .iter()
        .map(|question| question.key.as_str())
        .collect();
    let groups = order
        .medicine
        .most_doses
        .iter()
        .filter_map(|most| match &most.group {
            Group::If(key) if !asked.contains(key.as_str()) => Some(key),
            _ => None,
        });
    groups
        .map(|key| {
            let text = format!(
                "“most-doses” has a group “if {key}”, but no question has the key “{key}”."
            );
            Problem::error("group-without-question", "medicine.most-doses", text)
        })
        .collect()
}

/// Topics an order for a whole population normally asks about, with the parts of words that show it does.
const TOPICS: [(&str, &[&str]); 3] = [
    (
        "other medicines people already take",
        &["medicine", "medication", "drug", "taking"],
    ),
    ("pregnancy", &["pregnan"]),
    ("kidney disease", &["kidney", "renal"]),
];

fn topics(order: &Order) -> Vec<Problem> {
    let asks = |parts: &[&str], by_key_only: bool| {
        order.questions.iter().any(|question| {
            let words = question.ask.values().map(|text| text.to_lowercase());
            let key = question.key.to_lowercase();
            let said = |text: &str| parts.iter().any(|part| text.contains(part));
            said(&key) || (!by_key_only && words.into_iter().any(|text| said(&text)))
        })
    };
    let warn = |topic: &str| {
        let text = format!("No question asks about {topic}.");
        Problem::warning("topic-not-asked", "question", text)
    };
    let mut problems = Vec::new();
    if !asks(&["allerg"], false) {
        let class = order
            .medicine
            .allergy_class
            .as_deref()
            .unwrap_or(&order.medicine.name);
        problems.push(warn(&format!("an allergy to {class}")));
    }
    for (topic, parts) in TOPICS {
        let by_key_only = topic.starts_with("other");
        if !asks(parts, by_key_only) {
            problems.push(warn(topic));
        }
    }
    problems
}
