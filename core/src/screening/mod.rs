//! Questions and their outcome: may this person have this medicine on this day?
//!
//! Only [`evaluate`] makes a [`Cleared`], and a dose needs one, so an unscreened dose does not compile.
//! All reasons are given at once; an answer of "unsure" holds.

mod reason;

use jiff::civil::Date;

use crate::growth::{self, Plausibility};
use crate::household::{Answer, Person};
use crate::order::{CheckedOrder, IfYes};
use crate::units::{Age, AgeSpan, BodyWeight};

pub use reason::{Reason, ReasonKind};

/// Under this age being born early matters.
const BORN_EARLY_UNTIL: AgeSpan = AgeSpan { months: 3, days: 0 };
/// Key of that question and of the hold; no order asks it, the program does.
const BORN_EARLY: &str = "born-early";

/// Someone whose screening for one order is complete and free of stops and holds, on one day.
#[derive(Clone, Copy, Debug)]
pub struct Cleared<'a> {
    order: &'a CheckedOrder,
    person: &'a Person,
    day: Date,
}

impl<'a> Cleared<'a> {
    pub fn order(&self) -> &'a CheckedOrder {
        self.order
    }

    pub fn person(&self) -> &'a Person {
        self.person
    }

    pub fn age(&self) -> Option<Age> {
        self.person.age_on(self.day)
    }

    /// An adult by the order's own age; where the order names none, adults are weighed like everybody.
    pub fn is_adult(&self) -> bool {
        match (self.order.medicine.adult_from, self.age()) {
            (Some(limit), Some(age)) => age.reached(limit),
            _ => false,
        }
    }
}

/// Screens one person for one order on one day.
///
/// # Errors
/// Every reason why not: questions without an answer, stops, holds.
pub fn evaluate<'a>(
    order: &'a CheckedOrder,
    person: &'a Person,
    day: Date,
) -> Result<Cleared<'a>, Vec<Reason>> {
    let mut reasons = answers(order, person);
    reasons.extend(ages(order, person, day));
    reasons.extend(weights(order, person, day));
    if reasons.is_empty() {
        Ok(Cleared { order, person, day })
    } else {
        Err(reasons)
    }
}

/// What the answers alone say; also used while the questions are being asked.
pub fn answers(order: &CheckedOrder, person: &Person) -> Vec<Reason> {
    let mut reasons = Vec::new();
    let mut missing = Vec::new();
    for question in &order.questions {
        let lifted = person.lifted.contains(&question.key);
        match (person.answers.get(&question.key), question.if_yes) {
            (Some(Answer::No), _) | (Some(Answer::Yes), IfYes::Caution) => {}
            (Some(Answer::Yes), IfYes::Stop) => reasons.push(Reason::answered(
                question,
                &person.name,
                ReasonKind::Stop,
                Answer::Yes,
            )),
            (Some(Answer::Yes), IfYes::Hold) if !lifted => reasons.push(Reason::answered(
                question,
                &person.name,
                ReasonKind::Hold,
                Answer::Yes,
            )),
            // Whatever a yes would do: somebody who does not know talks to a nurse first.
            (Some(Answer::Unsure), _) if !lifted => reasons.push(Reason::answered(
                question,
                &person.name,
                ReasonKind::Hold,
                Answer::Unsure,
            )),
            (Some(_), _) => {}
            (None, _) if person.cleared => {}
            (None, _) => missing.push(question.key.as_str()),
        }
    }
    if !missing.is_empty() || (order.questions.is_empty() && !person.cleared) {
        reasons.push(Reason::not_screened(&person.name, &missing));
    }
    reasons
}

fn ages(order: &CheckedOrder, person: &Person, day: Date) -> Vec<Reason> {
    let mut reasons = Vec::new();
    let Some(age) = person.age_on(day) else {
        return reasons;
    };
    if age.is_unborn() {
        reasons.push(Reason::unborn(&person.name));
        return reasons;
    }
    if let Some(youngest) = order.medicine.youngest.filter(|limit| !age.reached(*limit)) {
        reasons.push(Reason::below_youngest(&person.name, youngest));
    }
    // The question is for babies only, so it is never missing for anybody else.
    if !age.reached(BORN_EARLY_UNTIL) && !person.lifted.contains(BORN_EARLY) {
        match person.born_early {
            Some(Answer::No) => {}
            Some(Answer::Yes | Answer::Unsure) => reasons.push(Reason::born_early(&person.name)),
            None if person.cleared => {}
            None => reasons.push(Reason::not_screened(&person.name, &[BORN_EARLY])),
        }
    }
    reasons
}

fn weights(order: &CheckedOrder, person: &Person, day: Date) -> Vec<Reason> {
    let mut reasons = Vec::new();
    let Some(weighing) = &person.weighing else {
        return reasons;
    };
    if order
        .medicine
        .lightest
        .as_ref()
        .is_some_and(|lightest| weighing.weight < *lightest)
    {
        reasons.push(Reason::below_lightest(
            &person.name,
            order.medicine.lightest.as_ref(),
        ));
    }
    if !weighing.hold_lifted
        && weight_question(person, &weighing.weight, day) == Plausibility::Implausible
    {
        reasons.push(Reason::implausible(&person.name, &weighing.weight));
    }
    reasons
}

/// Whether a weight fits the age: only ever a question or a hold, never a dose.
pub fn weight_question(person: &Person, weight: &BodyWeight, day: Date) -> Plausibility {
    let days = person.age_on(day).and_then(|age| match age {
        Age::Told(span) => Some(growth::days_of_months(span.months, span.days)),
        Age::Adult => Some(growth::days_of_months(18 * 12, 1)),
        Age::Born { .. } => age.days(),
    });
    growth::plausibility(person.sex, days, growth::body_weight(weight))
}
