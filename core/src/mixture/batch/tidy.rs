//! Among plans with equally few bowls, the one that is easier to keep in the kitchen: as little as possible stands
//! covered, and the oldest bowl is used first.
//!
//! Invariants: the number of bowls never changes, and every plan that comes in valid goes out valid.

use std::collections::BTreeMap;

use super::ahead::Way;
use super::course::{Course, Draft, Part};
use super::frontier::{CLASSES, Covered};
use super::leg::Leg;
use super::packing::Fit;

/// Search steps per question; a question left open keeps the plan as it is.
const EFFORT: u64 = 2_000;
const SWEEPS: usize = 3;

/// Covers fewer doses ahead wherever the bowls made anyway, or made one round later, allow it.
pub(super) fn lighten(course: &Course, way: &mut Way) {
    for _ in 0..SWEEPS {
        let mut changed = false;
        for round in (1..course.rounds.len()).rev() {
            if way.covered[round] != Covered::default() {
                changed |= lighten_round(course, way, round);
            }
        }
        if !changed {
            break;
        }
    }
}

fn lighten_round(course: &Course, way: &mut Way, round: usize) -> bool {
    let (mut before, mut at) = (Leg::new(course, round - 1, 0), Leg::new(course, round, 0));
    let (earlier, covered, later) = (
        way.covered[round - 1],
        way.covered[round],
        way.covered[round + 1],
    );
    let same = fewest(&mut at, covered, later, way.bowls[round]);
    let moved = fewest(&mut at, covered, later, way.bowls[round] + 1);
    let cheaper = way.bowls[round - 1] > 0
        && moved.doses() < same.doses()
        && before.fits(earlier, moved, way.bowls[round - 1] - 1, EFFORT) == Fit::Yes;
    if cheaper {
        way.bowls[round - 1] -= 1;
        way.bowls[round] += 1;
        way.covered[round] = moved;
        return true;
    }
    way.covered[round] = same;
    same != covered
}

/// As few of the covered doses as the round can do with, when it has so many bowls.
fn fewest(leg: &mut Leg, covered: Covered, later: Covered, bowls: usize) -> Covered {
    if leg.fits(Covered::default(), later, bowls, EFFORT) == Fit::Yes {
        return Covered::default();
    }
    let mut best = covered;
    for class in 0..leg.now.len() {
        while let Some(less) = without(best, class) {
            if leg.fits(less, later, bowls, EFFORT) != Fit::Yes {
                break;
            }
            best = less;
        }
    }
    best
}

/// One dose of the class less.
fn without(covered: Covered, class: usize) -> Option<Covered> {
    let mut totals = covered.totals();
    let before = class.checked_sub(1).map_or(0, |class| totals[class]);
    if totals[class] == before {
        return None;
    }
    for total in &mut totals[class..CLASSES] {
        *total -= 1;
    }
    Some(Covered::from_totals(totals))
}

/// Equal doses change bowls so that each is served by the oldest bowl it can be served by.
pub(super) fn oldest_first(course: &Course, mut draft: Draft) -> Draft {
    let opened = draft.open.len();
    // A bowl with a place for a dose of some amount: until when, from when, which.
    let mut places: BTreeMap<u32, Vec<(usize, usize, usize)>> = BTreeMap::new();
    let mut doses: BTreeMap<u32, Vec<(usize, usize)>> = BTreeMap::new();
    let open = draft
        .open
        .iter()
        .zip(&course.open)
        .map(|(parts, open)| (open.last, 0, parts));
    let new = draft
        .bowls
        .iter()
        .map(|fill| (course.rounds[fill.round].last, fill.round, &fill.parts));
    for (bowl, (last, made, parts)) in open.chain(new).enumerate() {
        for part in parts {
            places
                .entry(part.amount)
                .or_default()
                .push((last, made, bowl));
            doses
                .entry(part.amount)
                .or_default()
                .push((part.round, part.position));
        }
    }
    let mut given: Vec<Vec<Part>> = vec![Vec::new(); opened + draft.bowls.len()];
    for (amount, mut doses) in doses {
        let Some(mut places) = places.remove(&amount) else {
            return draft;
        };
        places.sort_unstable();
        doses.sort_unstable();
        for (round, position) in doses {
            let Some(place) = places
                .iter()
                .position(|&(last, made, _)| made <= round && round <= last)
            else {
                return draft;
            };
            let (.., bowl) = places.remove(place);
            given[bowl].push(Part {
                round,
                position,
                amount,
            });
        }
    }
    for (bowl, parts) in given.into_iter().enumerate() {
        match bowl.checked_sub(opened) {
            None => draft.open[bowl] = parts,
            Some(new) => {
                let fill = &mut draft.bowls[new];
                fill.round = parts
                    .iter()
                    .map(|part| part.round)
                    .min()
                    .unwrap_or(fill.round);
                fill.parts = parts;
            }
        }
    }
    draft
}
