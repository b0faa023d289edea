//! A person as the rules take it: the newest code, with what was asked, weighed and lifted here.
//!
//! What was said later counts; where it is not known which is later, the safer of two answers.
//! Answers and a stated screening count for the order under which they were given, and for no other.

use jiff::Timestamp;
use jiff::civil::Date;

use super::home::{Home, IMPLAUSIBLE, Seen};
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
        self.answer(&mut person, coded, order);
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

    fn answer(&self, person: &mut Person, coded: &PersonCode, order: &CheckedOrder) {
        let mine = self.answers.iter().filter(|((id, _), _)| *id == coded.id);
        for ((_, key), here) in mine {
            let answer = self.seen.last().map_or(Some(here.0), |seen| {
                self.said(seen, coded.id, key, Some(*here), order)
            });
            match answer {
                Some(answer) if key == BORN_EARLY => person.born_early = Some(answer),
                Some(answer) => {
                    person.answers.insert(key.clone(), answer);
                }
                None => {}
            }
        }
    }

    /// The answer to one question, from a code and from what was said here.
    fn said(
        &self,
        seen: &Seen,
        id: u16,
        key: &str,
        here: Option<(Answer, Timestamp)>,
        order: &CheckedOrder,
    ) -> Option<Answer> {
        let coded = seen.code.people.iter().find(|person| person.id == id);
        let told: CodedAnswer = coded.and_then(|coded| {
            if key == BORN_EARLY {
                return coded.born_early.map(|answer| (answer, None));
            }
            let keys = self.keys(&seen.code, order)?;
            let place = keys.iter().position(|known| known == key)?;
            *coded.answers.get(place)?
        });
        let (Some((told, on)), Some((here, at))) = (told, here) else {
            return here.map(|(here, _)| here).or(told.map(|(told, _)| told));
        };
        if seen.told_at() <= at {
            return Some(here);
        }
        let day = day_of(order, at);
        Some(match on {
            Some(on) if on < day => here,
            Some(on) if on > day => told,
            // The same day, or nobody knows which.
            _ => safer(told, here),
        })
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
        for (of, under) in &self.lifted_under {
            let (id, key) = of;
            if *id != coded.id || !self.lifted.contains_key(of) {
                continue;
            }
            let then = self
                .seen
                .iter()
                .find(|seen| under.code == Some((seen.code.issue, seen.code.made)));
            if key == IMPLAUSIBLE {
                let before = then.and_then(|then| then.code.people.iter().find(|p| p.id == *id));
                let is_told = before.is_some_and(|before| before.weighing == coded.weighing);
                let is_here = self.weighings.get(id) == person.weighing.as_ref();
                if let Some(weighing) = person.weighing.as_mut().filter(|_| is_here || is_told) {
                    weighing.hold_lifted = true;
                    person.lifted.insert(key.clone());
                }
                continue;
            }
            let now = if key == BORN_EARLY {
                person.born_early
            } else {
                person.answers.get(key).copied()
            };
            let before = match then {
                Some(then) => self.said(then, *id, key, under.here, order),
                None => under.here.map(|(here, _)| here),
            };
            if before == now {
                person.lifted.insert(key.clone());
            }
        }
    }
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
