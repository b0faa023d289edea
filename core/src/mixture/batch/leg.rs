//! The step from one round to the next: which doses are due, which can be covered ahead, and what fits into the
//! bowls of the round.
//!
//! Doses of one amount share a slot of the [`Packing`], whichever of the two rounds they belong to, unless a bowl
//! that is already open may serve only one of them.

use std::collections::BTreeMap;

use super::course::Course;
use super::frontier::{Classes, Covered, Frontier};
use super::packing::{Fit, Packing, Rest};

/// Everything a step from one round to the next needs to know.
pub(super) struct Leg {
    pub capacity: u32,
    pub now: Classes,
    /// What may be covered ahead; empty when these bowls keep for their own round only.
    pub next: Classes,
    pub packing: Packing,
    /// Slot of each class.
    pub now_slot: Vec<usize>,
    pub next_slot: Vec<usize>,
    pub slots: usize,
    rests: usize,
    /// Rounds it was used for.
    pub rounds: Vec<usize>,
}

/// The doses of a round by class; `None` when there are more than a state can hold.
pub(super) fn classes(course: &Course, round: usize) -> Option<Classes> {
    match course.rounds.get(round) {
        Some(round) => Classes::new(round.doses.iter().map(|dose| dose.amount)),
        None => Some(Classes::default()),
    }
}

impl Leg {
    /// The step from `round` to the next; the first `plain` of its new bowls are asked to cover nothing ahead.
    pub(super) fn new(course: &Course, round: usize, plain: usize) -> Self {
        let now = classes(course, round).unwrap_or_default();
        let reaches = course.rounds.get(round).is_some_and(|at| at.last > round);
        let next = if reaches {
            classes(course, round + 1).unwrap_or_default()
        } else {
            Classes::default()
        };
        let opened = if round == 0 { &course.open[..] } else { &[] };
        let mut rests: Vec<Rest> = opened
            .iter()
            .map(|open| Rest {
                left: open.left,
                ahead: open.last > 0,
            })
            .collect();
        rests.resize(
            rests.len() + plain,
            Rest {
                left: course.capacity,
                ahead: false,
            },
        );
        // Only a rest that is of no use ahead makes a difference between a dose now and the same amount later.
        let apart = rests.iter().any(|rest| !rest.ahead);
        let mut slots: BTreeMap<(std::cmp::Reverse<u32>, bool), u64> = BTreeMap::new();
        let key = |amount: u32, ahead: bool| (std::cmp::Reverse(amount), ahead && apart);
        for (classes, ahead) in [(&now, false), (&next, true)] {
            for (&amount, &count) in classes.amounts.iter().zip(&classes.counts) {
                *slots.entry(key(amount, ahead)).or_default() += u64::from(count);
            }
        }
        let slot_of = |classes: &Classes, ahead: bool| -> Vec<usize> {
            classes
                .amounts
                .iter()
                .map(|&amount| {
                    slots
                        .keys()
                        .position(|slot| *slot == key(amount, ahead))
                        .unwrap_or(0)
                })
                .collect()
        };
        let (now_slot, next_slot) = (slot_of(&now, false), slot_of(&next, true));
        let kinds: Vec<(u32, bool)> = slots
            .keys()
            .map(|(amount, ahead)| (amount.0, *ahead))
            .collect();
        let packing = Packing::new(course.capacity, &kinds, rests);
        let (slots, rests, rounds) = (slots.len(), packing.rests(), Vec::new());
        Self {
            capacity: course.capacity,
            now,
            next,
            packing,
            now_slot,
            next_slot,
            slots,
            rests,
            rounds,
        }
    }

    /// Whether this is the same step between other rounds.
    pub(super) fn same(&self, other: &Self) -> bool {
        self.rests == 0 && other.rests == 0 && self.now == other.now && self.next == other.next
    }

    /// The states after `round`, when the states before it are those before an earlier such round, but for a
    /// number of bowls that all have in common.
    pub(super) fn again(&self, frontiers: &[Frontier], round: usize) -> Option<Frontier> {
        self.rounds.iter().rev().find_map(|&earlier| {
            let apart = frontiers[round].shift_from(&frontiers[earlier])?;
            Some(frontiers[earlier + 1].shifted(apart))
        })
    }

    /// Doses of each class that are due once `done` are covered.
    pub(super) fn due(&self, done: Covered) -> Vec<u32> {
        let done = done.counts(self.now.len());
        self.now
            .counts
            .iter()
            .zip(done)
            .map(|(all, done)| all - done)
            .collect()
    }

    /// The fewest new bowls that what is due can need.
    pub(super) fn least_bowls(&self, done: Covered) -> u32 {
        let counts = self.counts(done, Covered::default());
        u32::try_from(self.packing.least(&counts)).unwrap_or(u32::MAX)
    }

    /// Doses per slot when `done` are covered and `ahead` are to be.
    fn counts(&self, done: Covered, ahead: Covered) -> Vec<u32> {
        let mut counts = vec![0; self.slots];
        for (&slot, count) in self.now_slot.iter().zip(self.due(done)) {
            counts[slot] += count;
        }
        for (&slot, count) in self.next_slot.iter().zip(ahead.counts(self.next.len())) {
            counts[slot] += count;
        }
        counts
    }

    pub(super) fn fits(&mut self, done: Covered, ahead: Covered, bowls: usize, effort: u64) -> Fit {
        let counts = self.counts(done, ahead);
        self.packing.fits(&counts, bowls, effort)
    }

    pub(super) fn fill(&mut self, done: Covered, ahead: Covered, bowls: usize, effort: u64) -> Fit {
        let counts = self.counts(done, ahead);
        self.packing.fill(&counts, bowls, effort)
    }
}
