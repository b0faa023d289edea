//! Forgetting a person: here and in everything that is merged later.
//!
//! What was measured out of a bowl for somebody stays, without a name, so that the bowl still adds up for the others.

use std::collections::BTreeSet;

use super::fact::{Event, Fact};
use super::state::State;
use crate::prep::{PersonId, PlannedBowl, Prep, TakeStep};

/// Everybody who was ever erased. An erasure cannot be corrected.
pub(super) fn erased(facts: &[&Fact]) -> BTreeSet<PersonId> {
    facts
        .iter()
        .filter_map(|fact| match &fact.event {
            Event::Erased { person } => Some(*person),
            _ => None,
        })
        .collect()
}

/// Whether an event is only about somebody who was erased.
pub(super) fn is_gone(event: &Event, erased: &BTreeSet<PersonId>) -> bool {
    let is_kept = matches!(event, Event::Erased { .. } | Event::Step { .. });
    !is_kept
        && event
            .person()
            .is_some_and(|person| erased.contains(&person))
}

/// The plan of a round without the names of the erased.
pub(super) fn without_names(mut event: Event, erased: &BTreeSet<PersonId>) -> Event {
    if let Event::RoundBegun { plan } = &mut event {
        let takes = plan
            .takes
            .iter_mut()
            .map(|take| (take.person, &mut take.name));
        let later = plan.bowls.iter_mut().flat_map(|bowl| {
            bowl.later
                .iter_mut()
                .map(|take| (take.person, &mut take.name))
        });
        for (_, name) in takes
            .chain(later)
            .filter(|(person, _)| erased.contains(person))
        {
            name.clear();
        }
    }
    event
}

/// Nothing is measured or kept for this person any more.
pub(super) fn leave_out(prep: &mut Prep, person: PersonId) {
    for taking in prep.takes.iter_mut().filter(|t| t.take.person == person) {
        taking.step = TakeStep::Closed;
    }
    let bowls = prep.bowls.iter_mut().map(|brew| &mut brew.bowl);
    for bowl in bowls.chain(prep.plan.bowls.iter_mut()) {
        keep_for_others(bowl, person);
    }
}

/// Takes a person out of what the facts added up to so far.
pub(super) fn forget(state: &mut State, person: PersonId) {
    state.doses.retain(|dose| dose.person != person);
    state.doubled.retain(|(doubled, _)| *doubled != person);
    for record in state.bowls.values_mut() {
        keep_for_others(&mut record.bowl, person);
    }
}

fn keep_for_others(bowl: &mut PlannedBowl, person: PersonId) {
    bowl.later.retain(|take| take.person != person);
}
