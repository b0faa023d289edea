//! Facts in, household out.

use super::correct::effective;
use super::fact::{Event, Fact, PersonWords};
use super::state::{BowlRecord, DoseRecord, OpenRound, PersonRecord, State};
use crate::growth::Sex;
use crate::household::{KnownAge, Person, Weighing};
use crate::prep::{BowlId, BrewState, PersonId, Prep, RoundKey, Source, StepEvent, TakeStep};
use crate::units::{AgeSpan, BodyWeight};

/// Folds the facts of one household, in whatever order they arrived.
pub fn fold(facts: &[Fact]) -> State {
    let effective = effective(facts);
    let mut state = State {
        waiting: effective.waiting,
        conflicts: effective.conflicts,
        ..State::default()
    };
    for fact in &effective.facts {
        state.take(fact);
    }
    state
}

impl State {
    fn take(&mut self, fact: &Fact) {
        self.latest = Some(self.latest.map_or(fact.at, |latest| latest.max(fact.at)));
        self.last = Some(fact.now());
        match &fact.event {
            Event::HouseholdSet(words) => self.household = Some(words.clone()),
            Event::PersonSet(words) => self.set_person(words),
            Event::PersonLeft { person } => self.with(*person, |p| p.left = true),
            Event::Weighed {
                person,
                weight,
                on,
                manner,
            } => {
                if let Ok(weight) = BodyWeight::parse(weight) {
                    let weighing = Weighing {
                        weight,
                        on: Some(*on),
                        manner: *manner,
                        hold_lifted: false,
                    };
                    self.with(*person, |p| p.person.weighing = Some(weighing));
                }
            }
            Event::Answered {
                person,
                key,
                answer,
                ..
            } => {
                self.with(*person, |p| {
                    p.person.answers.insert(key.clone(), *answer);
                });
            }
            Event::HoldLifted { person, key, .. } => self.with(*person, |p| {
                p.person.lifted.insert(key.clone());
                if key == "implausible-weight"
                    && let Some(weighing) = &mut p.person.weighing
                {
                    weighing.hold_lifted = true;
                }
            }),
            Event::OrderTaken { order, .. } => {
                // An older revision never replaces a newer one.
                let newer = self
                    .order
                    .as_ref()
                    .is_none_or(|old| old.id != order.id || old.revision <= order.revision);
                if newer {
                    self.order = Some(order.clone());
                }
            }
            Event::NoticeTaken { text } => self.notices.push(text.clone()),
            Event::RoundBegun { plan } => {
                if !self.rounds_begun.insert(plan.key) {
                    self.misfits.push(fact.id);
                    return;
                }
                self.rounds_missed.remove(&plan.key);
                let prep = Prep::begin((**plan).clone(), self.latest.unwrap_or(fact.at));
                self.round = Some(OpenRound {
                    prep,
                    began: fact.now(),
                });
            }
            Event::Step { round, event } => self.step(fact, *round, event),
            Event::RoundMissed { round, .. } => {
                if !self.rounds_begun.contains(round) {
                    self.rounds_missed.insert(*round);
                }
            }
            Event::PacksReceived { tablets, .. } => {
                self.tablets_received = self.tablets_received.saturating_add(u64::from(*tablets));
            }
            Event::Reaction { person, .. } => self.with(*person, |p| p.stopped = true),
            Event::ClockMoved { .. } | Event::Correction { .. } | Event::Erased { .. } => {}
        }
    }

    fn step(&mut self, fact: &Fact, round: RoundKey, event: &StepEvent) {
        let now = fact.now();
        let open = self
            .round
            .as_ref()
            .filter(|open| open.prep.plan.key == round);
        let Some(next) = open.and_then(|open| open.prep.after(event, &now).ok()) else {
            self.misfit(fact, round, event);
            return;
        };
        self.note_dose(fact, round, event, &next);
        if let StepEvent::Reactions { people } = event {
            for person in people {
                self.with(*person, |p| p.stopped = true);
            }
        }
        self.note_bowls(&next, round, event);
        if let Some(open) = &mut self.round {
            open.prep = next;
        }
    }

    /// A dose recorded on a second device for a round that is already dealt with is never dropped: it may have been swallowed twice.
    fn misfit(&mut self, fact: &Fact, round: RoundKey, event: &StepEvent) {
        self.misfits.push(fact.id);
        if let StepEvent::Outcome { person, .. } = event
            && self
                .doses
                .iter()
                .any(|d| d.person == *person && d.round == round)
        {
            self.doubled.push((*person, round));
        }
    }

    fn note_dose(&mut self, fact: &Fact, round: RoundKey, event: &StepEvent, next: &Prep) {
        let StepEvent::Outcome { person, outcome } = event else {
            return;
        };
        let Some(taking) = next
            .takes
            .iter()
            .find(|t| t.take.person == *person && t.step == TakeStep::Closed)
        else {
            return;
        };
        if let (Some(tablets), true) = (
            taking.take.tablets,
            *outcome != crate::prep::Outcome::WouldNotTake,
        ) {
            self.tablets_used = self.tablets_used.saturating_add(u64::from(tablets));
        }
        self.doses.push(DoseRecord {
            person: *person,
            round,
            at: fact.at,
            outcome: *outcome,
            short: taking.short,
            amount: taking.take.amount,
            tablets: taking.take.tablets,
            order: fact.order.clone(),
            fact: fact.id,
        });
    }

    fn note_bowls(&mut self, next: &Prep, round: RoundKey, event: &StepEvent) {
        for brew in &next.bowls {
            self.last_bowl = self.last_bowl.max(brew.bowl.number);
            if brew.bowl.water_at.is_none() {
                continue;
            }
            let new = brew.bowl.source == Source::New && !self.bowls.contains_key(&brew.bowl.id);
            if new && *event == StepEvent::WaterIn {
                self.tablets_used = self
                    .tablets_used
                    .saturating_add(u64::from(brew.bowl.tablets));
            }
            let covered = brew.state == BrewState::Covered
                || (brew.bowl.source == Source::Covered && brew.is_open());
            self.keep_bowl(brew.bowl.id, brew, round, covered);
        }
    }

    fn keep_bowl(&mut self, id: BowlId, brew: &crate::prep::Brew, round: RoundKey, covered: bool) {
        let before = self.bowls.get(&id);
        let made_in = before.map_or(round, |b| b.made_in);
        let mut bowl = brew.bowl.clone();
        bowl.holds = brew.left();
        self.bowls.insert(
            id,
            BowlRecord {
                bowl,
                made_in,
                taken: brew.taken,
                covered,
            },
        );
    }

    fn with(&mut self, person: PersonId, change: impl FnOnce(&mut PersonRecord)) {
        if let Some(record) = self.people.get_mut(&person) {
            change(record);
        }
    }

    fn set_person(&mut self, words: &PersonWords) {
        let old = self.people.get(&words.person);
        let mut person = old.map_or_else(
            || Person::named(&words.name),
            |record| record.person.clone(),
        );
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
        let stopped = old.is_some_and(|record| record.stopped);
        if !self.seats.contains(&words.person) {
            self.seats.push(words.person);
        }
        self.people.insert(
            words.person,
            PersonRecord {
                person,
                left: false,
                stopped,
            },
        );
    }
}
