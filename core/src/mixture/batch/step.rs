//! All states that can follow the states of one round.
//!
//! Prices rise one bowl at a time.
//! For each state before and the bowls that the price leaves it, goals are asked for until none fits.
//! Invariants: a state is left out only when another one in the frontier is at least as good; the answer is
//! complete only when nothing was left out for want of effort.

use super::frontier::{Covered, Entry, Frontier};
use super::goals::{Goals, climb};
use super::leg::Leg;
use super::packing::Fit;

/// Search steps per question whether doses fit.
#[derive(Debug, Clone, Copy)]
pub(super) struct Effort(pub u64);

/// All states of the next round worth going on from, and whether these are all.
pub(super) fn advance(leg: &mut Leg, from: &Frontier, effort: Effort) -> (Frontier, bool) {
    let mut next = Frontier::new(&leg.next, leg.capacity);
    let mut complete = true;
    let due: Vec<u32> = from
        .entries
        .iter()
        .map(|entry| leg.now.doses() - entry.covered.doses())
        .collect();
    let mut least: Vec<u32> = from
        .entries
        .iter()
        .map(|entry| leg.least_bowls(entry.covered))
        .collect();
    let prices = |least: &[u32]| {
        let lowest = from
            .entries
            .iter()
            .zip(least)
            .map(|(entry, least)| entry.bowls + least)
            .min();
        // A bowl that serves nobody now can be made next round.
        let highest = from
            .entries
            .iter()
            .zip(&due)
            .map(|(entry, due)| entry.bowls + due)
            .max();
        lowest.zip(highest)
    };
    let Some((lowest, highest)) = prices(&least) else {
        return (next, true);
    };
    let mut goals = Goals::all();
    for price in lowest..=highest {
        leave_out_dominated(leg, &mut next, &mut goals, price);
        if goals.is_empty() {
            break;
        }
        for (index, entry) in from.entries.iter().enumerate() {
            let Some(bowls) = price.checked_sub(entry.bowls) else {
                continue;
            };
            if bowls < least[index] || bowls > due[index] {
                continue;
            }
            let mut asking = Asking {
                leg: &mut *leg,
                done: entry.covered,
                bowls,
                effort,
                complete: true,
            };
            if !asking.fits(Covered::default()) {
                least[index] += 1;
            } else {
                goals.ask_anew();
                while let Some(goal) = goals.ask() {
                    if asking.fits(goal) {
                        let classes = asking.leg.next.clone();
                        let covered = climb(&classes, goal, |covered| asking.fits(covered));
                        let volume = classes.volume(covered);
                        next.insert(Entry {
                            covered,
                            bowls: price,
                            volume,
                            from: index,
                        });
                        goals.cut(&classes, covered);
                    }
                }
            }
            complete &= asking.complete;
        }
    }
    next.looks += goals.looks;
    (next, complete)
}

/// Takes away the goals that a cheaper state, with fresh bowls for the difference, is as good as.
fn leave_out_dominated(leg: &Leg, next: &mut Frontier, goals: &mut Goals, price: u32) {
    let classes = &leg.next;
    goals.ask_anew();
    while let Some(goal) = goals.ask() {
        let mut dominated = |covered| next.dominates(classes, covered, price, leg.capacity);
        if dominated(goal) {
            let highest = climb(classes, goal, dominated);
            goals.cut(classes, highest);
        }
    }
}

/// Whether some bowls hold what is due after `done` and what is to be covered ahead.
struct Asking<'a> {
    leg: &'a mut Leg,
    done: Covered,
    bowls: u32,
    effort: Effort,
    complete: bool,
}

impl Asking<'_> {
    fn fits(&mut self, ahead: Covered) -> bool {
        let bowls = usize::try_from(self.bowls).unwrap_or(usize::MAX);
        let fit = self.leg.fits(self.done, ahead, bowls, self.effort.0);
        self.complete &= fit != Fit::Unknown;
        fit == Fit::Yes
    }
}
