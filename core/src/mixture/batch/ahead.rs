//! The shortest way through a course whose bowls serve their own round and the next.
//!
//! What passes from one round to the next is only which of its doses are covered already.
//! A step from round to round costs as many bowls as its uncovered doses and the doses it covers ahead need,
//! packed exactly.
//! Invariants: a way is dropped only when another one is at least as short; `complete` is said only when nothing
//! was dropped for want of effort.

use super::course::Course;
use super::frontier::{Covered, Frontier};
use super::leg::{Leg, classes};
use super::step::{Effort, advance};

/// Steps whose findings are kept at a time.
const LEGS: usize = 4;
/// Effort per question, and states per round, as long as the search is exact.
const WIDE: (Effort, usize) = (Effort(200_000), 4_000);
/// The same once the effort is used up.
const NARROW: (Effort, usize) = (Effort(300), 6);

/// The states passed through, and what they cost.
#[derive(Debug, Clone, Default)]
pub(super) struct Way {
    /// Covered doses of each round, one more than the course has rounds.
    pub covered: Vec<Covered>,
    /// New bowls made in each round.
    pub bowls: Vec<usize>,
}

/// Whether the states of this course can be told apart here.
pub(super) fn suits(course: &Course) -> bool {
    course
        .rounds
        .iter()
        .enumerate()
        .all(|(index, round)| round.last <= index + 1)
        && course
            .open
            .iter()
            .all(|open| open.last <= course.rounds.first().map_or(0, |round| round.last))
        && (0..course.rounds.len()).all(|index| classes(course, index).is_some())
}

/// What a search found.
pub(super) struct Found {
    pub way: Option<Way>,
    /// Whether no shorter way exists.
    pub complete: bool,
}

/// Looks for the shortest way; after `effort` search steps only roughly.
pub(super) fn search(course: &Course, effort: u64, tell: &mut dyn FnMut(usize, usize)) -> Found {
    let mut frontiers = vec![Frontier::start()];
    let mut legs: Vec<Leg> = Vec::new();
    let mut complete = true;
    let mut steps = 0u64;
    for round in 0..course.rounds.len() {
        // The same doses meet again and again: what was found out about them stays.
        let leg = Leg::new(course, round, 0);
        let index = legs
            .iter()
            .position(|known| known.same(&leg))
            .unwrap_or_else(|| {
                if legs.len() == LEGS {
                    legs.remove(0);
                }
                legs.push(leg);
                legs.len() - 1
            });
        let leg = &mut legs[index];
        let next = leg.again(&frontiers, round).unwrap_or_else(|| {
            let before = leg.packing.nodes;
            let (per_question, width) = if steps < effort { WIDE } else { NARROW };
            let (mut next, whole) = advance(leg, &frontiers[round], per_question);
            complete &= whole & !next.narrow(width, course.capacity);
            // Comparing two states costs about a third of a step of packing.
            steps = steps
                .saturating_add(leg.packing.nodes - before)
                .saturating_add(next.looks / 3);
            next
        });
        leg.rounds.push(round);
        frontiers.push(next);
        tell(round + 1, course.rounds.len());
    }
    Found {
        way: trace(&frontiers),
        complete,
    }
}

/// The way to the cheapest state of the last round.
fn trace(frontiers: &[Frontier]) -> Option<Way> {
    let mut way = Way::default();
    let mut index = 0;
    for frontier in frontiers.iter().rev() {
        let entry = frontier.entries.get(index)?;
        way.covered.push(entry.covered);
        way.bowls.push(usize::try_from(entry.bowls).ok()?);
        index = entry.from;
    }
    way.covered.reverse();
    way.bowls.reverse();
    way.bowls = way.bowls.windows(2).map(|pair| pair[1] - pair[0]).collect();
    Some(way)
}
