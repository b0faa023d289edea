//! Where `instead` sends people: to another order, never in a circle, never to the medicine they must not have.

use std::collections::BTreeSet;

use crate::order::model::{IfYes, Order, Question};
use crate::order::problem::Problem;

pub(super) fn check(order: &Order, others: &[Order]) -> Vec<Problem> {
    let mut problems = Vec::new();
    for (index, question) in order.questions.iter().enumerate() {
        if let Some(target) = &question.instead {
            let place = format!("question {}.instead", index + 1);
            problems.extend(lead(order, others, question, target, &place));
        }
    }
    problems
}

fn lead(
    order: &Order,
    others: &[Order],
    question: &Question,
    target: &str,
    place: &str,
) -> Vec<Problem> {
    let mut problems = Vec::new();
    if question.if_yes == IfYes::Caution {
        let text = format!(
            "“{}” only cautions, so nobody goes to “{target}” instead.",
            question.key
        );
        problems.push(Problem::warning("instead-without-stop", place, text));
    }
    if target == order.id {
        problems.push(Problem::error(
            "instead-cycle",
            place,
            "This order sends people to itself.",
        ));
        return problems;
    }
    if let Some(way) = way_back(order, others, target) {
        let text = format!("“instead” runs in a circle: {way}.");
        problems.push(Problem::error("instead-cycle", place, text));
    }
    match newest(others, target) {
        Some(other) => problems.extend(suits(order, other, question, place)),
        None if others.iter().any(|other| other.id != order.id) => {
            let text = format!(
                "The order “{target}” is not among the orders at hand; people sent to it would be held."
            );
            problems.push(Problem::warning("instead-not-here", place, text));
        }
        None => {}
    }
    problems
}

fn suits(order: &Order, other: &Order, question: &Question, place: &str) -> Vec<Problem> {
    let mut problems = Vec::new();
    let class = &order.medicine.allergy_class;
    let allergy = question.key.to_lowercase().contains("allerg");
    if allergy && class.is_some() && *class == other.medicine.allergy_class {
        let text = format!(
            "“{}” is for people with an allergy, but “{}” belongs to the same class.",
            question.key, other.id
        );
        problems.push(Problem::error("instead-same-class", place, text));
    }
    if order.medicine.event != other.medicine.event {
        let text = format!(
            "“{}” is for another event, so nothing keeps one person from getting both.",
            other.id
        );
        problems.push(Problem::warning("instead-other-event", place, text));
    }
    problems
}

/// The highest revision of an order at hand.
fn newest<'a>(others: &'a [Order], id: &str) -> Option<&'a Order> {
    others
        .iter()
        .filter(|other| other.id == id)
        .max_by_key(|other| other.revision)
}

/// The way from `target` back to this order, if there is one: `a, then b, then a`.
fn way_back(order: &Order, others: &[Order], target: &str) -> Option<String> {
    let mut seen = BTreeSet::new();
    let mut open = vec![(target.to_owned(), vec![order.id.clone(), target.to_owned()])];
    while let Some((at, way)) = open.pop() {
        if !seen.insert(at.clone()) {
            continue;
        }
        let here = newest(others, &at);
        for next in here
            .into_iter()
            .flat_map(|other| other.questions.iter())
            .filter_map(|question| question.instead.as_ref())
        {
            let mut longer = way.clone();
            longer.push(next.clone());
            if *next == order.id {
                return Some(longer.join(", then "));
            }
            open.push((next.clone(), longer));
        }
    }
    None
}
