//! Corrections: which facts still count, which wait, and which contradict each other.
//!
//! A correction may itself be corrected; the last link of a chain counts.
//! Withdrawing a correction brings back what stood before it.

use std::collections::{BTreeMap, BTreeSet};

use super::erase;
use super::fact::{Change, Event, Fact, FactId};
use super::safer::safer;

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
    let by_id = by_id(facts);
    let mut ordered: Vec<&Fact> = by_id.values().copied().collect();
    ordered.sort_by_key(|fact| (fact.stamp, fact.id));
    let erased = erase::erased(&ordered);
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
        if erase::is_gone(&fact.event, &erased) {
            continue;
        }
        let event = match heads.get(&fact.id).map(Vec::as_slice) {
            None | Some([]) => Some(fact.event.clone()),
            Some([first, rest @ ..]) if rest.iter().all(|head| head.says == first.says) => {
                first.says.of(&fact.event).cloned()
            }
            Some(heads) => {
                result.conflicts.push(Conflict {
                    target: fact.id,
                    corrections: heads.iter().map(|head| head.correction).collect(),
                });
                let said: Vec<Option<&Event>> =
                    heads.iter().map(|head| head.says.of(&fact.event)).collect();
                safer(&fact.event, &said)
            }
        };
        // A correction may make a fact one about somebody who was erased.
        let kept = event
            .map(|event| erase::without_names(event, &erased))
            .filter(|event| !erase::is_gone(event, &erased));
        result.facts.extend(kept.map(|event| Fact {
            event,
            ..(*fact).clone()
        }));
    }
    result
}

/// Each fact once. Of two with one id but other content every device keeps the same.
pub(super) fn by_id(facts: &[Fact]) -> BTreeMap<FactId, &Fact> {
    let mut by_id: BTreeMap<FactId, &Fact> = BTreeMap::new();
    for fact in facts {
        let kept = by_id.entry(fact.id).or_insert(fact);
        if *kept != fact && spelled(fact) < spelled(kept) {
            *kept = fact;
        }
    }
    by_id
}

/// Any order will do that is the same everywhere.
fn spelled(fact: &Fact) -> String {
    serde_json::to_string(fact).unwrap_or_default()
}

/// What a correction makes of its fact.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Says<'a> {
    /// It undoes all corrections.
    AsItWas,
    Gone,
    Instead(&'a Event),
}

impl<'a> Says<'a> {
    pub(super) fn of(self, original: &'a Event) -> Option<&'a Event> {
        match self {
            Says::AsItWas => Some(original),
            Says::Gone => None,
            Says::Instead(event) => Some(event),
        }
    }
}

/// A correction that nothing else corrects.
#[derive(Clone, Copy, Debug)]
pub(super) struct Head<'a> {
    pub(super) correction: FactId,
    /// What it points at: a fact or another correction.
    target: FactId,
    pub(super) says: Says<'a>,
}

/// For each corrected fact the corrections that count.
fn heads<'a>(
    ordered: &[&'a Fact],
    by_id: &BTreeMap<FactId, &'a Fact>,
) -> BTreeMap<FactId, Vec<Head<'a>>> {
    let mut heads = ends(ordered, by_id);
    heads.values_mut().for_each(drop_undone);
    heads
}

/// For each corrected fact the last link of every chain.
pub(super) fn ends<'a>(
    ordered: &[&'a Fact],
    by_id: &BTreeMap<FactId, &'a Fact>,
) -> BTreeMap<FactId, Vec<Head<'a>>> {
    let corrections: BTreeMap<FactId, (FactId, &'a Change)> = ordered
        .iter()
        .filter_map(|fact| match &fact.event {
            Event::Correction { target, change } => Some((fact.id, (*target, change))),
            _ => None,
        })
        .collect();
    let corrected: BTreeSet<FactId> = corrections.values().map(|(target, _)| *target).collect();
    let mut heads: BTreeMap<FactId, Vec<Head<'a>>> = BTreeMap::new();
    for fact in ordered.iter().filter(|fact| !corrected.contains(&fact.id)) {
        let Some((target, _)) = corrections.get(&fact.id) else {
            continue;
        };
        let (root, says) = (root(fact.id, &corrections), says(fact.id, &corrections));
        let (Some(first), Some(says)) = (by_id.get(&root), says) else {
            continue;
        };
        heads.entry(root).or_default().push(Head {
            correction: fact.id,
            target: *target,
            // To put what was there first in its place is to undo.
            says: match says {
                Says::Instead(event) if *event == first.event => Says::AsItWas,
                says => says,
            },
        });
    }
    heads
}

/// The fact at the beginning of a chain. Nothing leads into a ring of corrections, so none is entered.
fn root(correction: FactId, corrections: &BTreeMap<FactId, (FactId, &Change)>) -> FactId {
    let mut at = correction;
    let mut seen = BTreeSet::new();
    while let Some((target, _)) = corrections.get(&at).filter(|_| seen.insert(at)) {
        at = *target;
    }
    at
}

fn says<'a>(
    correction: FactId,
    corrections: &BTreeMap<FactId, (FactId, &'a Change)>,
) -> Option<Says<'a>> {
    let mut at = correction;
    let mut seen = BTreeSet::new();
    while seen.insert(at) {
        let Some((target, change)) = corrections.get(&at) else {
            return Some(Says::AsItWas);
        };
        match (change, corrections.get(target)) {
            (Change::Replace { event, .. }, _) => return Some(Says::Instead(event)),
            (Change::Withdraw { .. }, None) => return Some(Says::Gone),
            // What was withdrawn is a correction: what stood before it stands again.
            (Change::Withdraw { .. }, Some((before, _))) => at = *before,
        }
    }
    None
}

/// A correction that was withdrawn is off the table, unless somebody else made something else of it.
fn drop_undone(heads: &mut Vec<Head<'_>>) {
    let all = heads.clone();
    let is_contested = |head: &Head<'_>| {
        all.iter()
            .any(|other| other.target == head.target && other.says != head.says)
    };
    if all
        .iter()
        .any(|head| head.says != Says::AsItWas || is_contested(head))
    {
        heads.retain(|head| head.says != Says::AsItWas || is_contested(head));
    }
}
