//! What each side of a conflict says, and the corrections that put a fact right whatever was said of it before.

use std::collections::BTreeMap;

use super::correct::{Head, Says, by_id, ends};
use super::fact::{Change, Event, Fact, FactId};

/// What one correction makes of its fact.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Reading {
    pub correction: Fact,
    /// None where the fact is taken away.
    pub says: Option<Event>,
}

/// What the last corrections of a fact make of it, in the order they were made.
pub fn readings(facts: &[Fact], target: FactId) -> Vec<Reading> {
    let by_id = by_id(facts);
    let Some(original) = by_id.get(&target) else {
        return Vec::new();
    };
    let mut readings: Vec<Reading> = last(&by_id, target)
        .iter()
        .filter_map(|head| {
            Some(Reading {
                correction: (*by_id.get(&head.correction)?).clone(),
                says: head.says.of(&original.event).cloned(),
            })
        })
        .collect();
    readings.sort_by_key(|reading| (reading.correction.stamp, reading.correction.id));
    readings
}

/// Corrections after which a fact says `to` everywhere, or is gone, as far as it is corrected here.
///
/// Each chain of corrections gets one at its end, so that of two people who settle one conflict in two ways both are heard.
pub fn put_right(
    facts: &[Fact],
    target: FactId,
    to: Option<&Event>,
    reason: Option<&str>,
) -> Vec<Event> {
    let by_id = by_id(facts);
    let Some(original) = by_id.get(&target) else {
        return Vec::new();
    };
    let reason = reason.map(str::to_owned);
    let replace = |target, event: &Event| Event::Correction {
        target,
        change: Change::Replace {
            event: Box::new(event.clone()),
            reason: reason.clone(),
        },
    };
    let withdraw = Event::Correction {
        target,
        change: Change::Withdraw {
            reason: reason.clone(),
        },
    };
    let last = last(&by_id, target);
    match to {
        Some(event) if last.is_empty() => vec![replace(target, event)],
        Some(event) => {
            let ends = last.iter().map(|head| head.correction);
            ends.map(|end| replace(end, event)).collect()
        }
        // A chain can only be led back to what was there first; what takes the fact away stands beside it.
        None => {
            let others = last.iter().filter(|head| head.says != Says::Gone);
            let back = others.map(|head| replace(head.correction, &original.event));
            let is_gone = last.iter().any(|head| head.says == Says::Gone);
            (!is_gone)
                .then_some(withdraw)
                .into_iter()
                .chain(back)
                .collect()
        }
    }
}

fn last<'a>(by_id: &BTreeMap<FactId, &'a Fact>, target: FactId) -> Vec<Head<'a>> {
    let mut ordered: Vec<&Fact> = by_id.values().copied().collect();
    ordered.sort_by_key(|fact| (fact.stamp, fact.id));
    ends(&ordered, by_id).remove(&target).unwrap_or_default()
}
