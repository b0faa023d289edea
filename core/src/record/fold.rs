//! Facts in, household out.

use std::collections::BTreeMap;

use super::correct::effective;
use super::fact::{DeviceId, Event, Fact, PersonWords};
use super::rounds::Rounds;
use super::state::{Elsewhere, PackRecord, PersonRecord, State, Stop, VOMITED_TWICE};
use crate::growth::Sex;
use crate::household::{KnownAge, Person, Weighing};
use crate::order::parse_notice;
use crate::prep::{OrderRef, PersonId};
use crate::units::{AgeSpan, BodyWeight};

/// Folds the facts of one household, in whatever order they arrived.
pub fn fold(facts: &[Fact]) -> State {
    fold_on(facts, None)
}

/// [`fold`] as one device shows it: where two devices began the same round, its own stays in front.
///
/// Only `round` may differ from what other devices see.
pub fn fold_for(facts: &[Fact], device: DeviceId) -> State {
    fold_on(facts, Some(device))
}

fn fold_on(facts: &[Fact], device: Option<DeviceId>) -> State {
    let effective = effective(facts);
    let mut fold = Fold {
        state: State {
            waiting: effective.waiting,
            conflicts: effective.conflicts,
            ..State::default()
        },
        ..Fold::default()
    };
    for fact in &effective.facts {
        fold.take(fact);
    }
    fold.state.round = fold.rounds.shown(&fold.state, device);
    fold.state
}

/// The state so far, and what is needed to go on but is nobody else's business.
#[derive(Debug, Default)]
struct Fold {
    state: State,
    rounds: Rounds,
    /// The newest revision of each order that was ever taken.
    newest: BTreeMap<String, u32>,
}

impl Fold {
    fn take(&mut self, fact: &Fact) {
        let state = &mut self.state;
        state.latest = Some(state.latest.map_or(fact.at, |latest| latest.max(fact.at)));
        state.last = Some(fact.now());
        match &fact.event {
            Event::HouseholdSet(words) => state.household = Some(words.clone()),
            Event::OrderTaken { order, .. } => self.take_order(order),
            Event::NoticeTaken { text } => match parse_notice(text.as_bytes()) {
                Ok(notice) if !state.notices.contains(&notice) => state.notices.push(notice),
                Ok(_) => {}
                Err(_) => state.misfits.push(fact.id),
            },
            Event::RoundBegun { plan } => self.rounds.begin(state, fact, plan),
            Event::Step { round, event } => self.rounds.step(state, fact, *round, event),
            Event::RoundMissed { round, .. } => {
                if !state.rounds_begun.contains(round) {
                    state.rounds_missed.insert(*round);
                }
            }
            Event::PacksReceived {
                product,
                lot,
                tablets,
            } => {
                state.tablets_received = state.tablets_received.saturating_add(u64::from(*tablets));
                state.packs.push(PackRecord {
                    product: product.clone(),
                    lot: lot.clone(),
                    tablets: *tablets,
                    at: fact.at,
                    order: fact.order.as_ref().map(|order| order.id.clone()),
                });
            }
            Event::Erased { person } => self.rounds.erase(state, *person),
            Event::PersonSet(_)
            | Event::PersonLeft { .. }
            | Event::Joined { .. }
            | Event::MedicineStopped { .. }
            | Event::Weighed { .. }
            | Event::Answered { .. }
            | Event::HoldLifted { .. }
            | Event::Reaction { .. } => state.take_person(fact),
            Event::ClockMoved { .. } | Event::Correction { .. } => {}
        }
    }

    /// An older revision never replaces a newer one, not even with another order in between.
    fn take_order(&mut self, order: &OrderRef) {
        let newest = self.newest.entry(order.id.clone()).or_default();
        *newest = order.revision.max(*newest);
        self.state.order = Some(OrderRef {
            id: order.id.clone(),
            revision: *newest,
        });
    }
}

impl State {
    /// What is known about one person.
    fn take_person(&mut self, fact: &Fact) {
        match &fact.event {
            Event::PersonSet(words) => self.set_person(words),
            Event::PersonLeft { person, tablets } => {
                let along = u64::from(*tablets);
                self.tablets_taken_along = self.tablets_taken_along.saturating_add(along);
                self.with(*person, |p| p.left = true);
            }
            Event::Joined {
                person,
                order,
                last_dose,
                course_started,
                doses,
                tablets,
            } => {
                let brought = u64::from(*tablets);
                self.tablets_received = self.tablets_received.saturating_add(brought);
                let elsewhere = Elsewhere {
                    last_dose: *last_dose,
                    course_started: *course_started,
                    // Who had a last dose had one.
                    doses: (*doses).max(u32::from(last_dose.is_some())),
                    joined: fact.at,
                };
                self.with(*person, |p| {
                    p.left = false;
                    p.elsewhere.insert(order.clone(), elsewhere);
                });
            }
            Event::MedicineStopped { person, .. } => self.with(*person, |p| {
                p.stops.insert(Stop::Clinician);
            }),
            Event::Weighed {
                person,
                weight,
                on,
                manner,
            } => {
                let Ok(weight) = BodyWeight::parse(weight) else {
                    self.misfits.push(fact.id);
                    return;
                };
                let weighing = Weighing {
                    weight,
                    on: Some(*on),
                    manner: *manner,
                    hold_lifted: false,
                };
                self.with(*person, |p| p.weigh(weighing));
            }
            Event::Answered {
                person,
                key,
                answer,
                ..
            } => {
                self.with(*person, |p| {
                    let before = p.person.answers.insert(key.clone(), *answer);
                    // What was lifted was the hold on another answer.
                    if before.is_some_and(|before| before != *answer) {
                        p.person.lifted.remove(key);
                    }
                });
            }
            Event::HoldLifted { person, key, .. } => self.with(*person, |p| {
                p.person.lifted.insert(key.clone());
                p.stops.retain(|stop| stop.key() != key);
                if key == VOMITED_TWICE {
                    p.came_back_up.clear();
                }
                if key == "implausible-weight"
                    && let Some(weighing) = &mut p.person.weighing
                {
                    weighing.hold_lifted = true;
                }
            }),
            Event::Reaction { person, .. } => self.with(*person, |p| {
                p.stops.insert(Stop::Reaction);
            }),
            _ => {}
        }
    }

    pub(super) fn with(&mut self, person: PersonId, change: impl FnOnce(&mut PersonRecord)) {
        if let Some(record) = self.people.get_mut(&person) {
            change(record);
        }
    }

    fn set_person(&mut self, words: &PersonWords) {
        if !self.seats.contains(&words.person) {
            self.seats.push(words.person);
        }
        let new = || PersonRecord::of(Person::named(&words.name));
        let record = self.people.entry(words.person).or_insert_with(new);
        record.left = false;
        let person = &mut record.person;
        person.name.clone_from(&words.name);
        person.age = match (words.born, &words.told_age, words.adult) {
            (Some(born), _, _) => Some(KnownAge::Born(born)),
            (None, Some(told), _) => AgeSpan::parse(told).ok().map(KnownAge::Told),
            (None, None, true) => Some(KnownAge::Adult),
            (None, None, false) => None,
        };
        person.sex = match words.sex.as_deref() {
            Some("f") => Some(Sex::Female),
            Some("m") => Some(Sex::Male),
            _ => None,
        };
        person.swallows_tablets = words.swallows_tablets;
        person.born_early = words.born_early;
        person.food_allergies.clone_from(&words.food_allergies);
        person.starts = words.starts;
        person.cleared = words.screened;
    }
}
