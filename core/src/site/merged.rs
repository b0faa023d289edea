//! A person as the rules take it: the newest code, with what was asked, weighed and lifted here.
//!
//! What was said later counts; where it is not known which is later, the safer of two answers.
//! Answers and a stated screening count for the order under which they were given, and for no other.

use jiff::Timestamp;
use jiff::civil::Date;

use super::home::{Home, IMPLAUSIBLE};
use super::serve::day_of;
use crate::exchange::{
    CodedAge, CodedAnswer, HouseholdCode, OrderMark, PersonCode, ScreeningOutcome, is_private,
};
use crate::household::{Answer, KnownAge, Person, Weighing};
use crate::order::{CheckedOrder, Order};

/// Key of the question that no order asks.
const BORN_EARLY: &str = "born-early";

impl Home {
    /// A person of the newest code, with what was asked, weighed and lifted here since.
    pub fn person(&self, coded: &PersonCode, order: &CheckedOrder) -> Person {
        let mut person = coded.person(order);
        if person.name.is_empty() {
            person.name = coded.id.to_string();
        }
        self.grow(&mut person, coded, order);
        let keys = self.code().and_then(|code| self.keys(code, order));
        // A statement covers what was asked when it was made.
        person.cleared &= keys.as_ref().is_some_and(|keys| {
            let mut asked = order.questions.iter();
            asked.all(|question| keys.contains(&question.key))
        });
        person.answers = keys
            .iter()
            .flatten()
            .zip(&coded.answers)
            .filter_map(|(key, told)| Some((key.clone(), told.as_ref()?.0)))
            .collect();
        self.answer(&mut person, coded, order, keys.as_deref().unwrap_or(&[]));
        self.weigh(&mut person, coded, order);
        self.lift(&mut person, coded, order);
        let mut questions = order.questions.iter();
        let is_open = questions.any(|question| {
            is_private(&question.key) && !person.answers.contains_key(&question.key)
        });
        // An open code leaves private answers out, also of somebody whose screening was stated.
        let is_said = matches!(
            coded.outcome,
            ScreeningOutcome::Clear | ScreeningOutcome::Caution
        );
        person.cleared &= is_said || !is_open;
        person
    }

    /// Keys of the questions a code answers by their places; none for another order or an unknown revision.
    fn keys(&self, code: &HouseholdCode, order: &CheckedOrder) -> Option<Vec<String>> {
        let mark = code.order.as_ref().filter(|mark| mark.id == order.id)?;
        if mark.is(order) {
            let keys = order.questions.iter().map(|question| question.key.clone());
            return Some(keys.collect());
        }
        let known = |(known, _): &&(OrderMark, Vec<String>)| known == mark;
        let (_, keys) = self.questions.iter().find(known)?;
        Some(keys.clone())
    }

    /// An age in a code counts from the day the code was made.
    fn grow(&self, person: &mut Person, coded: &PersonCode, order: &CheckedOrder) {
        let (Some(age), Some(told)) = (coded.age, self.told_at()) else {
            return;
        };
        let made = day_of(order, told);
        if let CodedAge::Days(days) = age
            && let Ok(born) = made.checked_sub(jiff::Span::new().days(i64::from(days)))
        {
            person.age = Some(KnownAge::Born(born));
        }
    }

    fn answer(&self, person: &mut Person, coded: &PersonCode, order: &Order, keys: &[String]) {
        let mine = self.answers.iter().filter(|((id, _), _)| *id == coded.id);
        for ((_, key), (here, at)) in mine {
            let told: CodedAnswer = if key == BORN_EARLY {
                coded.born_early.map(|answer| (answer, None))
            } else {
                answer_of(coded, keys, key)
            };
            let answer = self.later(told, *here, *at, order);
            if key == BORN_EARLY {
                person.born_early = Some(answer);
            } else {
                person.answers.insert(key.clone(), answer);
            }
        }
    }

    /// Of an answer in the code and one given here, the one that counts.
    fn later(&self, told: CodedAnswer, here: Answer, at: Timestamp, order: &Order) -> Answer {
        let Some((told, on)) = told else { return here };
        if self.told_at().is_none_or(|told_at| told_at <= at) {
            return here;
        }
        let day = day_of(order, at);
        match on {
            Some(on) if on < day => here,
            Some(on) if on > day => told,
            // The same day, or nobody knows which.
            _ => safer(told, here),
        }
    }

    fn weigh(&self, person: &mut Person, coded: &PersonCode, order: &Order) {
        let Some(here) = self.weighings.get(&coded.id) else {
            return;
        };
        // Nobody was weighed after the code was made, whatever the clock of its device says.
        let made = self.told_at().map(|at| day_of(order, at));
        let on = |told: &Weighing| -> Option<Date> { told.on.min(made.or(told.on)) };
        if person
            .weighing
            .as_ref()
            .is_none_or(|told| on(told) <= here.on)
        {
            person.weighing = Some(here.clone());
        }
    }

    /// A lifted hold stays lifted while what it was about is still the same.
    fn lift(&self, person: &mut Person, coded: &PersonCode, order: &CheckedOrder) {
        for key in self.lifted.keys().filter(|(id, _)| *id == coded.id) {
            let under = self.lifted_under.get(key).copied().flatten();
            let then = self
                .seen
                .iter()
                .find(|seen| under.is_some_and(|under| under == (seen.code.issue, seen.code.made)));
            let (_, key) = key;
            let is_weight = key == IMPLAUSIBLE;
            let is_here = if is_weight {
                self.weighings.get(&coded.id) == person.weighing.as_ref()
            } else {
                self.answers.contains_key(&(coded.id, key.clone()))
            };
            let same = |then: &HouseholdCode| {
                let before = then.people.iter().find(|before| before.id == coded.id);
                before.is_some_and(|before| {
                    let keys = self.keys(then, order).unwrap_or_default();
                    let now = self.code().and_then(|code| self.keys(code, order));
                    let now = now.unwrap_or_default();
                    let said = |person: &PersonCode, keys: &[String]| {
                        answer_of(person, keys, key).map(|(answer, _)| answer)
                    };
                    if is_weight {
                        before.weighing == coded.weighing
                    } else if key == BORN_EARLY {
                        before.born_early == coded.born_early
                    } else {
                        said(before, &keys) == said(coded, &now)
                    }
                })
            };
            if is_here && !self.was_told_otherwise(person, coded, key)
                || then.is_some_and(|then| same(&then.code))
            {
                person.lifted.insert(key.clone());
                if is_weight && let Some(weighing) = &mut person.weighing {
                    weighing.hold_lifted = true;
                }
            }
        }
    }

    /// Whether a later code overruled the answer given here.
    fn was_told_otherwise(&self, person: &Person, coded: &PersonCode, key: &str) -> bool {
        let here = self.answers.get(&(coded.id, key.to_owned()));
        let now = if key == BORN_EARLY {
            person.born_early
        } else {
            person.answers.get(key).copied()
        };
        here.is_some_and(|(here, _)| now != Some(*here))
    }
}

fn answer_of(coded: &PersonCode, keys: &[String], key: &str) -> CodedAnswer {
    let place = keys.iter().position(|known| known == key)?;
    *coded.answers.get(place)?
}

/// What would hold somebody goes before what would not.
fn safer(one: Answer, other: Answer) -> Answer {
    let rank = |answer: &Answer| match answer {
        Answer::Yes => 0,
        Answer::Unsure => 1,
        Answer::No => 2,
    };
    [one, other].into_iter().min_by_key(rank).unwrap_or(one)
}
