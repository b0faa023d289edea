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

/// Names are written in the first language and should have their own words in others; hours should be told in every language.
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
    let hours = order
        .contacts
        .iter()
        .enumerate()
        .filter(|(_, contact)| !contact.hours.is_empty());
    let mut problems: Vec<Problem> = hours
        .filter_map(|(index, contact)| {
            untranslated(
                order,
                0,
                &format!("contact {}.hours", index + 1),
                &contact.hours,
            )
        })
        .collect();
    let contacts = order.contacts.iter().enumerate();
    let contacts =
        contacts.map(|(index, contact)| (format!("contact {}", index + 1), &contact.words));
    let own = [
        ("title-words".to_owned(), &order.title_words),
        ("medicine".to_owned(), &order.medicine.words),
    ];
    let names = vehicles.chain(second).chain(apart);
    for (place, words) in names.chain(contacts).chain(own) {
        problems.extend(untranslated(order, 1, &place, words));
    }
    problems
}

/// One warning for all the languages, after the first `skip`, in which something is missing.
fn untranslated(order: &Order, skip: usize, place: &str, words: &Words) -> Option<Problem> {
    let languages = order
        .languages
        .iter()
        .skip(skip)
        .filter(|language| !words.contains_key(*language));
    let absent: Vec<&str> = languages.map(String::as_str).collect();
    let text = format!(
        "This is not given in {}; screens and papers show it untranslated and say so.",
        absent.join(", ")
    );
    (!absent.is_empty()).then(|| Problem::warning("name-not-translated", place, text))
}
