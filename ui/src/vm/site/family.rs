//! A family as it is typed in: its people page by page, then their answers question by question.
//!
//! Plain values, so that one half typed in can be kept and taken up again. Going back loses nothing.

use std::collections::BTreeMap;

use hearthdose_core::dose;
use hearthdose_core::household::{Answer, KnownAge, Manner, Person, Weighing};
use hearthdose_core::order::Order;
use hearthdose_core::units::{AgeSpan, BodyWeight};
use jiff::civil::Date;
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use super::words::day_or_month;

/// Letters of a name that a code has place for.
const LETTERS: usize = 24;

/// What was typed so far.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Family {
    /// Its name in the record as long as it is half typed in; none before anything of it was kept.
    pub id: Option<Uuid>,
    pub people: Vec<Typed>,
    /// The page that is shown: one of the people, or behind the last of them a new one.
    pub at: usize,
    /// The question that is shown, after the people; behind the last one, who came.
    pub question: Option<usize>,
    #[serde(default)]
    pub interpreter: bool,
    /// Whether somebody grown up collects; not noted as long as nobody said it.
    #[serde(default)]
    pub adult_collects: Option<bool>,
}

#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Typed {
    pub name: String,
    pub age: String,
    pub weight: String,
    /// A grown-up whose age nobody needs.
    pub adult: bool,
    pub only_bowl: bool,
    /// By the key of the question; who was not asked has none.
    pub answers: BTreeMap<String, Answer>,
}

impl Typed {
    pub(super) fn is_blank(&self) -> bool {
        self.name.is_empty() && self.age.is_empty() && self.weight.is_empty()
    }

    /// The age as it was told; a grown-up by the press of it only.
    fn age(&self, today: Date) -> Option<KnownAge> {
        match self.adult {
            true => Some(KnownAge::Adult),
            false => age_of(&self.age, today),
        }
    }

    /// Whether the order gives this person's dose without a weight.
    pub(super) fn needs_no_weight(&self, order: &Order, today: Date) -> bool {
        !dose::needs_weight(order, &self.person(today), today)
    }

    /// What cannot be read.
    pub(super) fn problem(&self, today: Date) -> Option<&'static str> {
        if self.name.is_empty() {
            return Some("family-name-missing");
        }
        if !self.adult && self.age.is_empty() {
            return Some("family-age-missing");
        }
        if self.age(today).is_none() {
            return Some("family-age-unread");
        }
        if !self.weight.is_empty() && BodyWeight::parse(&self.weight).is_err() {
            return Some("family-weight-unread");
        }
        None
    }

    pub(super) fn person(&self, day: Date) -> Person {
        let mut person = Person::named(&self.name.chars().take(LETTERS).collect::<String>());
        person.age = self.age(day);
        person.swallows_tablets = !self.only_bowl;
        person.weighing = BodyWeight::parse(&self.weight).ok().map(|weight| Weighing {
            weight,
            on: Some(day),
            manner: Manner::Told,
            hold_lifted: false,
        });
        person.answers.clone_from(&self.answers);
        person
    }
}

/// A bare number is years, as the field says; a birth date stands as 2029-07-19, or as 2029-07 where its day is not known.
fn age_of(text: &str, today: Date) -> Option<KnownAge> {
    if text.is_empty() {
        return None;
    }
    if let Some(born) = day_or_month(text) {
        return (born <= today).then_some(KnownAge::Born(born));
    }
    let years = match text.bytes().all(|byte| byte.is_ascii_digit()) {
        true => format!("{text} y"),
        false => text.to_owned(),
    };
    AgeSpan::parse(&years).ok().map(KnownAge::Told)
}

impl Family {
    pub(super) fn is_blank(&self) -> bool {
        self.people.iter().all(Typed::is_blank)
    }

    pub(super) fn names(&self) -> Vec<String> {
        let named = self.people.iter().filter(|typed| !typed.name.is_empty());
        named.map(|typed| typed.name.clone()).collect()
    }

    /// The person of the page, as far as it was typed.
    pub(super) fn here(&self) -> Typed {
        self.people.get(self.at).cloned().unwrap_or_default()
    }

    /// Keeps the page as it is typed; an empty page behind the last person is nobody.
    pub(super) fn write(&mut self, typed: Typed) {
        match self.people.get_mut(self.at) {
            Some(here) => *here = typed,
            None if typed.is_blank() && !typed.adult && !typed.only_bowl => {}
            None => self.people.push(typed),
        }
    }

    /// Pages behind the last person that were only begun and emptied again are nobody.
    pub(super) fn drop_blank(&mut self) {
        while self.people.last().is_some_and(Typed::is_blank) {
            self.people.pop();
        }
        self.at = self.at.min(self.people.len());
    }

    /// One step back inside the family; false at its first page.
    pub(super) fn back(&mut self) -> bool {
        match self.question {
            Some(0) => {
                self.question = None;
                self.at = self.people.len().saturating_sub(1);
                true
            }
            Some(at) => {
                self.question = Some(at.saturating_sub(1));
                true
            }
            None => match self.at.checked_sub(1) {
                Some(before) => {
                    self.at = before;
                    true
                }
                None => false,
            },
        }
    }

    /// The first page on which something cannot be read.
    pub(super) fn first_problem(&self, today: Date) -> Option<(usize, &'static str)> {
        let mut pages = self.people.iter().enumerate();
        pages.find_map(|(at, typed)| Some((at, typed.problem(today)?)))
    }

    /// The first question that somebody was not asked.
    pub(super) fn first_open(&self, order: &Order) -> Option<usize> {
        let is_open = |key: &str| {
            let mut people = self.people.iter();
            people.any(|typed| !typed.answers.contains_key(key))
        };
        order
            .questions
            .iter()
            .position(|question| is_open(&question.key))
    }
}
