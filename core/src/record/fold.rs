//! Facts in, household out.

use super::correct::effective;
use super::fact::{DeviceId, Event, Fact, PersonWords};
use super::rounds::Rounds;
use super::state::{
    DeskRecord, Elsewhere, PackRecord, PersonRecord, RoundName, State, Stop, Tablets, VOMITED_TWICE,
};
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
/// Only `open_rounds` may differ from what other devices see.
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
    fold.state.open_rounds = fold.rounds.shown(&fold.state, device);
    fold.state.answer_for_the_first_order();
    fold.state
}

/// The state so far, and what is needed to go on but is nobody else's business.
#[derive(Debug, Default)]
struct Fold {
    state: State,
    rounds: Rounds,
}

impl Fold {
    fn take(&mut self, fact: &Fact) {
        let state = &mut self.state;
        state.latest = Some(state.latest.map_or(fact.at, |latest| latest.max(fact.at)));
        state.last = Some(fact.now());
        match &fact.event {
            Event::HouseholdSet(words) => state.household = Some(words.clone()),
            Event::OrderTaken { order, .. } => state.take_order(order),
            Event::NoticeTaken { text } => match parse_notice(text.as_bytes()) {
                Ok(notice) if !state.notices.contains(&notice) => state.notices.push(notice),
                Ok(_) => {}
                Err(_) => state.misfits.push(fact.id),
            },
            Event::RoundBegun { plan } => self.rounds.begin(state, fact, plan),
            Event::Step { round, event } => self.rounds.step(state, fact, *round, event),
            Event::RoundMissed { round, .. } => {
                let order = state.order_of(fact);
                let round = RoundName { order, key: *round };
                if !state.rounds_begun.contains(&round) {
                    state.rounds_missed.insert(round);
                }
            }
            Event::PacksReceived {
                product,
                lot,
                tablets,
            } => {
                let order = state.order_of(fact);
                state.count_tablets(&order, |count| {
                    count.received = count.received.saturating_add(u64::from(*tablets));
                });
                state.packs.push(PackRecord {
                    product: product.clone(),
                    lot: lot.clone(),
                    tablets: *tablets,
                    at: fact.at,
                    order: fact.order.as_ref().map(|order| order.id.clone()),
                });
            }
            Event::DeskCompared { site, key, same } => {
                let (site, same) = (site.clone(), *same);
                state.desks.insert(key.clone(), DeskRecord { site, same });
            }
            Event::Erased { person } => self.rounds.erase(state, *person),
            Event::PersonSet(_)
            | Event::PersonLeft { .. }
            | Event::Joined { .. }
            | Event::MedicineStopped { .. }
            | Event::Follows { .. }
            | Event::FollowsNoMore { .. }
            | Event::Weighed { .. }
            | Event::Answered { .. }
            | Event::HoldLifted { .. }
            | Event::Reaction { .. } => state.take_person(fact),
            Event::ClockMoved { .. } | Event::Correction { .. } | Event::Site { .. } => {}
        }
    }
}

impl State {
    /// An older revision never replaces a newer one, not even with another order in between.
    fn take_order(&mut self, order: &OrderRef) {
        match self.orders.iter_mut().find(|known| known.id == order.id) {
            Some(known) => known.revision = known.revision.max(order.revision),
            None => self.orders.push(order.clone()),
        }
    }

    /// The order a fact belongs to: the one it names, else the first that was taken.
    pub(super) fn order_of(&self, fact: &Fact) -> String {
        let named = fact.order.as_ref();
        named
            .or(self.first_order())
            .map_or_else(String::new, |order| order.id.clone())
    }

    pub(super) fn count_tablets(&mut self, order: &str, count: impl FnOnce(&mut Tablets)) {
        count(self.tablets.entry(order.to_owned()).or_default());
    }

    /// Everybody's own entry holds the answers for the first order; for every order while none was taken.
    fn answer_for_the_first_order(&mut self) {
        let first = self.first_order().map(|order| order.id.clone());
        let is_first = |order: &String| {
            let first = first.as_ref();
            order.is_empty() || first.is_none_or(|first| first == order)
        };
        for record in self.people.values_mut() {
            let answers = record.answers.iter().filter(|(order, _)| is_first(order));
            let answers = answers.flat_map(|(_, answers)| answers.clone());
            record.person.answers = answers.collect();
            let lifted = record.lifted.iter().filter(|(order, _)| is_first(order));
            let lifted = lifted.flat_map(|(_, lifted)| lifted.clone());
            record.person.lifted = lifted.collect();
        }
    }

    /// What is known about one person.
    fn take_person(&mut self, fact: &Fact) {
        match &fact.event {
            Event::PersonSet(words) => self.set_person(words),
            Event::PersonLeft { person, tablets } => {
                let order = self.order_of(fact);
                self.count_tablets(&order, |count| {
                    count.taken_along = count.taken_along.saturating_add(u64::from(*tablets));
                });
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
                self.count_tablets(order, |count| {
                    count.received = count.received.saturating_add(u64::from(*tablets));
                });
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
            Event::Follows {
                person,
                order,
                instead_of,
            } => self.with(*person, |p| {
                let before = instead_of.iter().map(|before| (before.clone(), false));
                p.follows.extend(before);
                p.follows.push((order.clone(), true));
            }),
            Event::FollowsNoMore { person, order } => self.with(*person, |p| {
                p.follows.push((order.clone(), false));
            }),
            Event::Answered {
                person,
                order,
                key,
                answer,
            } => self.with(*person, |p| {
                let answers = p.answers.entry(order.clone()).or_default();
                let before = answers.insert(key.clone(), *answer);
                // What was lifted was the hold on another answer.
                if before.is_some_and(|before| before != *answer) {
                    for of in [order.as_str(), ""] {
                        if let Some(lifted) = p.lifted.get_mut(of) {
                            lifted.remove(key);
                        }
                    }
                }
            }),
            Event::HoldLifted { person, key, .. } => {
                let order = self.order_of(fact);
                self.with(*person, |p| {
                    p.lifted.entry(order).or_default().insert(key.clone());
                    p.stops.retain(|stop| stop.key() != key);
                    if key == VOMITED_TWICE {
                        p.came_back_up.clear();
                    }
                    if key == "implausible-weight"
                        && let Some(weighing) = &mut p.person.weighing
                    {
                        weighing.hold_lifted = true;
                    }
                });
            }
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
