//! Words in every declared language: what is asked and said must be complete, names should be.

use std::collections::BTreeSet;

use crate::order::model::{Order, Words};
use crate::order::problem::Problem;

pub(super) fn check(order: &Order) -> Vec<Problem> {
    let mut problems = languages(order);
    for (index, question) in order.questions.iter().enumerate() {
        let place = format!("question {}", index + 1);
        problems.extend(missing(order, &question.ask, &format!("{place}.ask"), true));
        problems.extend(missing(
            order,
            &question.then,
            &format!("{place}.then"),
            false,
        ));
    }
    for (index, caution) in order.cautions.iter().enumerate() {
        problems.extend(missing(
            order,
            &caution.text,
            &format!("caution {}.text", index + 1),
            true,
        ));
    }
    for (index, contact) in order.contacts.iter().enumerate() {
        problems.extend(missing(
            order,
            &contact.hours,
            &format!("contact {}.hours", index + 1),
            false,
        ));
    }
    problems.extend(names(order));
    problems
}

fn languages(order: &Order) -> Vec<Problem> {
    let mut problems = Vec::new();
    let mut seen = BTreeSet::new();
    for language in &order.languages {
        let plain = (2..=12).contains(&language.len())
            && language
                .chars()
                .all(|c| c.is_ascii_alphanumeric() || c == '-');
        if !plain {
            let text = format!("“{language}” is no language code such as “en” or “es”.");
            problems.push(Problem::error("odd-language", "languages", text));
        }
        if !seen.insert(language) {
            let text = format!("The language “{language}” is listed twice.");
            problems.push(Problem::error("duplicate-key", "languages", text));
        }
    }
    problems
}

/// Languages without these words. Words that are optional may be left out in every language, never in some.
fn missing(order: &Order, words: &Words, place: &str, needed: bool) -> Vec<Problem> {
    if words.is_empty() && !needed {
        return Vec::new();
    }
    let absent = order
        .languages
        .iter()
        .filter(|language| !words.contains_key(*language));
    absent
        .map(|language| {
            let text = format!("The words in the language “{language}” are missing.");
            Problem::error("missing-words", place, text)
        })
        .collect()
}

/// Names are written in the first language; other languages should have their own.
fn names(order: &Order) -> Vec<Problem> {
    let recipe = order.recipe.iter();
    let vehicles = recipe
        .clone()
        .flat_map(|recipe| recipe.vehicles.iter().enumerate());
    let vehicles =
        vehicles.map(|(index, vehicle)| (format!("recipe.vehicle {}", index + 1), &vehicle.words));
    let second = recipe.filter_map(|recipe| recipe.second_fluid.as_ref());
    let second = second.map(|fluid| ("recipe.second-fluid".to_owned(), &fluid.words));
    let apart = order.medicine.apart.iter().enumerate();
    let apart = apart.map(|(index, entry)| (format!("medicine.apart {}", index + 1), &entry.words));
    let mut problems = Vec::new();
    for (place, words) in vehicles.chain(second).chain(apart) {
        let absent: Vec<&str> = order
            .languages
            .iter()
            .skip(1)
            .filter(|language| !words.contains_key(*language))
            .map(String::as_str)
            .collect();
        if !absent.is_empty() {
            let text = format!(
                "The name is not given in {}; screens show it untranslated.",
                absent.join(", ")
            );
            problems.push(Problem::warning("name-not-translated", place, text));
        }
    }
    problems
}
