//! Corrections: which facts still count, which wait, and which contradict each other.

use std::collections::{BTreeMap, BTreeSet};

use super::fact::{Change, Event, Fact, FactId};
use crate::prep::{PersonId, StepEvent};

/// Two corrections of one fact that do not say the same.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Conflict {
    pub target: FactId,
    pub corrections: Vec<FactId>,
}

/// What is left of a record once corrections and erasures are applied.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Effective {
    /// In the one order; replaced events stand at their target's place.
    pub facts: Vec<Fact>,
    /// Corrections whose target is not known yet.
    pub waiting: Vec<FactId>,
    pub conflicts: Vec<Conflict>,
}

/// Sorts, removes doubles, applies corrections and erasures.
pub fn effective(facts: &[Fact]) -> Effective {
    let mut by_id: BTreeMap<FactId, &Fact> = BTreeMap::new();
    for fact in facts {
        by_id.entry(fact.id).or_insert(fact);
    }
    let mut ordered: Vec<&Fact> = by_id.values().copied().collect();
    ordered.sort_by_key(|fact| (fact.stamp, fact.id));
    let erased: BTreeSet<PersonId> = ordered
        .iter()
        .filter_map(|fact| match &fact.event {
            Event::Erased { person } => Some(*person),
            _ => None,
        })
        .collect();
    let heads = heads(&ordered, &by_id);
    let mut result = Effective {
        facts: Vec::new(),
        waiting: Vec::new(),
        conflicts: Vec::new(),
    };
    for fact in &ordered {
        if let Event::Correction { target, .. } = &fact.event {
            if !by_id.contains_key(target) {
                result.waiting.push(fact.id);
            }
            continue;
        }
        let about_erased = fact
            .event
            .person()
            .is_some_and(|person| erased.contains(&person));
        if about_erased && !matches!(fact.event, Event::Erased { .. }) {
            continue;
        }
        match heads.get(&fact.id).map(Vec::as_slice) {
            None | Some([]) => result.facts.push((*fact).clone()),
            Some([one]) => push_changed(&mut result.facts, fact, one),
            Some(many) if agree(many) => push_changed(
                &mut result.facts,
                fact,
                many.first().copied().unwrap_or(fact),
            ),
            Some(many) => {
                result.conflicts.push(Conflict {
                    target: fact.id,
                    corrections: many.iter().map(|c| c.id).collect(),
                });
                push_safer(&mut result.facts, fact, many);
            }
        }
    }
    result
}

/// For each corrected fact the corrections that nothing else corrects; a chain counts by its last link.
fn heads<'a>(
    ordered: &[&'a Fact],
    by_id: &BTreeMap<FactId, &'a Fact>,
) -> BTreeMap<FactId, Vec<&'a Fact>> {
    let targets: BTreeMap<FactId, FactId> = ordered
        .iter()
        .filter_map(|fact| match &fact.event {
            Event::Correction { target, .. } => Some((fact.id, *target)),
            _ => None,
        })
        .collect();
    let corrected: BTreeSet<FactId> = targets.values().copied().collect();
    let mut heads: BTreeMap<FactId, Vec<&Fact>> = BTreeMap::new();
    for fact in ordered
        .iter()
        .filter(|fact| targets.contains_key(&fact.id) && !corrected.contains(&fact.id))
    {
        let mut root = fact.id;
        let mut seen = BTreeSet::new();
        while let Some(target) = targets.get(&root).filter(|_| seen.insert(root)) {
            root = *target;
        }
        if by_id.contains_key(&root) {
            heads.entry(root).or_default().push(fact);
        }
    }
    heads
}

fn agree(corrections: &[&Fact]) -> bool {
    corrections.windows(2).all(|pair| match pair {
        [a, b] => change_of(a) == change_of(b),
        _ => true,
    })
}

fn change_of(fact: &Fact) -> Option<&Change> {
    match &fact.event {
        Event::Correction { change, .. } => Some(change),
        _ => None,
    }
}

fn push_changed(out: &mut Vec<Fact>, fact: &Fact, correction: &Fact) {
    if let Some(Change::Replace { event }) = change_of(correction) {
        out.push(Fact {
            event: (**event).clone(),
            ..fact.clone()
        });
    }
}

/// A contested dose counts as given and a contested lifting of a hold as not lifted.
fn push_safer(out: &mut Vec<Fact>, fact: &Fact, corrections: &[&Fact]) {
    let is_outcome = |event: &Event| {
        matches!(
            event,
            Event::Step {
                event: StepEvent::Outcome { .. },
                ..
            }
        )
    };
    if matches!(fact.event, Event::HoldLifted { .. }) {
        return;
    }
    if is_outcome(&fact.event) {
        let mut most = fact.event.clone();
        for correction in corrections {
            if let Some(Change::Replace { event }) = change_of(correction)
                && outcome_rank(event) < outcome_rank(&most)
            {
                most = (**event).clone();
            }
        }
        out.push(Fact {
            event: most,
            ..fact.clone()
        });
        return;
    }
    out.push(fact.clone());
}

/// Smaller means more of the medicine was swallowed.
fn outcome_rank(event: &Event) -> u8 {
    match event {
        Event::Step {
            event: StepEvent::Outcome { outcome, .. },
            ..
        } => match outcome {
            crate::prep::Outcome::All => 0,
            crate::prep::Outcome::Some => 1,
            crate::prep::Outcome::CameBackUp => 2,
            crate::prep::Outcome::WouldNotTake => 3,
        },
        _ => 4,
    }
}
