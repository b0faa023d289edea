//! Rounds in the fold: what each device did in a round, and what it adds up to.
//!
//! Two devices that have not met may both begin the same round, each with bowls of its own.
//! Each one's steps belong to its own run; a device without a run of its own goes on with another's.
//! No outcome is dropped: one that fits no run still counts as a dose, and two for one person and round are "may have had it twice".

use std::collections::{BTreeMap, BTreeSet};

use super::erase;
use super::fact::{DeviceId, Fact};
use super::state::{BowlRecord, DoseRecord, OpenRound, RoundName, State, Stop};
use crate::prep::{
    Brew, BrewState, Outcome, PersonId, PlannedTake, Prep, RoundKey, RoundPlan, Source, StepEvent,
    TakeStep, Taking, Wrong,
};

/// One device's way through one round.
#[derive(Clone, Debug)]
struct Run {
    device: DeviceId,
    open: OpenRound,
}

#[derive(Debug, Default)]
pub(super) struct Rounds {
    /// In the order in which they were begun.
    runs: Vec<Run>,
    /// People erased so far.
    erased: BTreeSet<PersonId>,
}

impl Rounds {
    pub(super) fn begin(&mut self, state: &mut State, fact: &Fact, plan: &RoundPlan) {
        let device = fact.stamp.device;
        let round = name_of(plan);
        if self.runs_of(&round).any(|run| run.device == device) {
            state.misfits.push(fact.id);
            return;
        }
        state.rounds_missed.remove(&round);
        state.rounds_begun.insert(round);
        // Another order's round that begins beside this one goes on counting after its bowls.
        let numbers = plan.bowls.iter().map(|bowl| bowl.number);
        state.last_bowl = numbers.fold(state.last_bowl, u32::max);
        let mut prep = Prep::begin(plan.clone(), state.latest.unwrap_or(fact.at));
        for person in &self.erased {
            erase::leave_out(&mut prep, *person);
        }
        let open = OpenRound {
            prep,
            began: fact.now(),
        };
        self.runs.push(Run { device, open });
    }

    pub(super) fn step(
        &mut self,
        state: &mut State,
        fact: &Fact,
        round: RoundKey,
        event: &StepEvent,
    ) {
        if let StepEvent::Reactions { people } = event {
            for person in people {
                state.with(*person, |record| {
                    record.stops.insert(Stop::Reaction);
                });
            }
        }
        let order = match &fact.order {
            Some(order) => order.id.clone(),
            None => self.begun_as(round).unwrap_or_else(|| state.order_of(fact)),
        };
        let round = &RoundName { order, key: round };
        let Some((index, next)) = self.fitting(state, fact, round, event) else {
            self.misfit(state, fact, round, event);
            return;
        };
        if let StepEvent::Outcome { person, outcome } = event
            && let Some(taking) = next
                .takes
                .iter()
                .find(|taking| taking.take.person == *person && taking.outcome == Some(*outcome))
        {
            note_dose(state, fact, round, &taking.take, taking.short, *outcome);
        }
        note_dropped(state, &next, round, event);
        note_bowls(state, &next, round, event);
        if let Some(run) = self.runs.get_mut(index) {
            run.open.prep = next;
        }
    }

    /// The run an event belongs to, and that run after it.
    fn fitting(
        &self,
        state: &State,
        fact: &Fact,
        round: &RoundName,
        event: &StepEvent,
    ) -> Option<(usize, Prep)> {
        let now = fact.now();
        let own = self.position(round, fact.stamp.device);
        let mut indices: Vec<usize> = match own {
            Some(own) => vec![own],
            None => (0..self.runs.len()).rev().collect(),
        };
        indices.sort_by_key(|index| Some(*index) != self.front(round));
        indices.into_iter().find_map(|index| {
            let prep = &self
                .runs
                .get(index)
                .filter(|run| run.name() == *round)?
                .open
                .prep;
            let next = prep.after(event, &now).or_else(|_| {
                // A device that knows what was given elsewhere passes over these people.
                skip_who_has_none(prep, state).after(event, &now)
            });
            Some((index, next.ok()?))
        })
    }

    /// What fits nowhere is kept and told; a dose counts all the same.
    fn misfit(&self, state: &mut State, fact: &Fact, round: &RoundName, event: &StepEvent) {
        state.misfits.push(fact.id);
        if let StepEvent::Outcome { person, outcome } = event
            && !self.erased.contains(person)
        {
            let takes = self.runs_of(round).flat_map(|run| &run.open.prep.takes);
            let own = |taking: &&Taking| taking.take.person == *person;
            if let Some(taking) = takes.filter(own).last() {
                note_dose(state, fact, round, &taking.take, false, *outcome);
            }
        }
    }

    pub(super) fn erase(&mut self, state: &mut State, person: PersonId) {
        self.erased.insert(person);
        for run in &mut self.runs {
            erase::leave_out(&mut run.open.prep, person);
        }
        erase::forget(state, person);
    }

    /// The latest round of each order as `device` shows it: its own run, or the one that came furthest.
    pub(super) fn shown(
        &self,
        state: &State,
        device: Option<DeviceId>,
    ) -> BTreeMap<String, OpenRound> {
        let orders: BTreeSet<&String> = self.runs.iter().map(Run::order).collect();
        let shown = orders.into_iter().filter_map(|order| {
            let own = self.runs.iter().filter(|run| run.order() == order);
            let latest = own.map(Run::name).max()?;
            let own = device.and_then(|device| self.position(&latest, device));
            let mut open = self.runs.get(own.or(self.front(&latest))?)?.open.clone();
            open.prep = skip_who_has_none(&open.prep, state);
            Some((order.clone(), open))
        });
        shown.collect()
    }

    /// The run of a round in which most doses are dealt with; of several the one begun last.
    fn front(&self, round: &RoundName) -> Option<usize> {
        let dealt_with = |run: &Run| {
            let takes = run.open.prep.takes.iter();
            takes.filter(|taking| taking.outcome.is_some()).count()
        };
        let runs = self.runs.iter().enumerate();
        runs.filter(|(_, run)| run.name() == *round)
            .max_by_key(|(index, run)| (dealt_with(run), *index))
            .map(|(index, _)| index)
    }

    fn position(&self, round: &RoundName, device: DeviceId) -> Option<usize> {
        self.runs
            .iter()
            .position(|run| run.name() == *round && run.device == device)
    }

    /// The order of the round of this key that was begun last, for a step that names no order.
    fn begun_as(&self, key: RoundKey) -> Option<String> {
        let mut runs = self.runs.iter().rev();
        let run = runs.find(|run| run.open.prep.plan.key == key)?;
        Some(run.order().clone())
    }

    fn runs_of(&self, round: &RoundName) -> impl Iterator<Item = &Run> {
        self.runs.iter().filter(move |run| run.name() == *round)
    }
}

impl Run {
    fn name(&self) -> RoundName {
        name_of(&self.open.prep.plan)
    }

    fn order(&self) -> &String {
        &self.open.prep.plan.order.id
    }
}

fn name_of(plan: &RoundPlan) -> RoundName {
    RoundName {
        order: plan.order.id.clone(),
        key: plan.key,
    }
}

/// A round without those who swallowed this dose already, as another device noted, who left, or whom a clinician stopped.
fn skip_who_has_none(prep: &Prep, state: &State) -> Prep {
    let mut prep = prep.clone();
    let (round, order) = (prep.plan.key, prep.plan.order.id.clone());
    for taking in prep
        .takes
        .iter_mut()
        .filter(|t| t.step == TakeStep::ToMeasure)
    {
        let person = taking.take.person;
        let given = |dose: &&DoseRecord| {
            let same = dose.round == round && dose.is_under(&order) && dose.person == person;
            same && dose.outcome != Outcome::WouldNotTake
        };
        if let Some(dose) = state.doses.iter().find(given) {
            taking.outcome = Some(dose.outcome);
            taking.step = TakeStep::Closed;
        }
        let record = state.people.get(&person);
        if record.is_some_and(|p| p.left || p.stops.contains(&Stop::Clinician)) {
            taking.step = TakeStep::Closed;
        }
    }
    prep
}

fn note_dose(
    state: &mut State,
    fact: &Fact,
    round: &RoundName,
    take: &PlannedTake,
    short: bool,
    outcome: Outcome,
) {
    let swallowed = outcome != Outcome::WouldNotTake;
    if let (Some(tablets), true) = (take.tablets, swallowed) {
        use_up(state, round, u64::from(tablets));
    }
    let is_same = |dose: &DoseRecord| {
        dose.person == take.person && dose.round == round.key && dose.is_under(&round.order)
    };
    let mut doses = state.doses.iter();
    let again = doses.any(|dose| is_same(dose) && dose.outcome != Outcome::WouldNotTake);
    let twice = (take.person, round.clone());
    if swallowed && again && !state.doubled.contains(&twice) {
        state.doubled.push(twice);
    }
    state.with(take.person, |record| match outcome {
        Outcome::CameBackUp => {
            record.came_back_up.insert(round.clone());
        }
        // What another device says of the same round does not end a hold, nor does another order's dose.
        Outcome::All | Outcome::Some => record
            .came_back_up
            .retain(|other| other == round || other.order != round.order),
        // Nothing was swallowed, so nothing is known of the stomach.
        Outcome::WouldNotTake => {}
    });
    // The revision it was done under; a fact without one was done under the newest.
    let mut known = fact.order.iter().chain(&state.orders);
    let order = known.find(|order| order.id == round.order).cloned();
    state.doses.push(DoseRecord {
        person: take.person,
        round: round.key,
        at: fact.at,
        outcome,
        short,
        amount: take.amount,
        tablets: take.tablets,
        order,
        fact: fact.id,
    });
}

/// Whole tablets that fell are used up; what fell out of a bowl was counted with the bowl.
fn note_dropped(state: &mut State, next: &Prep, round: &RoundName, event: &StepEvent) {
    let StepEvent::WentWrong {
        what: Wrong::DoseDropped { person, .. },
    } = event
    else {
        return;
    };
    let mut takes = next.takes.iter();
    let dropped = takes.find(|taking| taking.take.person == *person);
    if let Some(tablets) = dropped.and_then(|taking| taking.take.tablets) {
        use_up(state, round, u64::from(tablets));
    }
}

fn use_up(state: &mut State, round: &RoundName, tablets: u64) {
    state.count_tablets(&round.order, |count| {
        count.used = count.used.saturating_add(tablets);
    });
}

fn note_bowls(state: &mut State, next: &Prep, round: &RoundName, event: &StepEvent) {
    for brew in &next.bowls {
        state.last_bowl = state.last_bowl.max(brew.bowl.number);
        if brew.bowl.water_at.is_none() {
            continue;
        }
        let new = brew.bowl.source == Source::New && !state.bowls.contains_key(&brew.bowl.id);
        if new && *event == StepEvent::WaterIn {
            use_up(state, round, u64::from(brew.bowl.tablets));
        }
        keep_bowl(state, brew, round);
    }
}

fn keep_bowl(state: &mut State, brew: &Brew, round: &RoundName) {
    let id = brew.bowl.id;
    let made_in = state
        .bowls
        .get(&id)
        .map_or(round.key, |record| record.made_in);
    let covered =
        brew.state == BrewState::Covered || (brew.bowl.source == Source::Covered && brew.is_open());
    let mut bowl = brew.bowl.clone();
    bowl.holds = brew.left();
    let record = BowlRecord {
        bowl,
        made_in,
        order: round.order.clone(),
        taken: brew.taken,
        covered,
    };
    state.bowls.insert(id, record);
}
