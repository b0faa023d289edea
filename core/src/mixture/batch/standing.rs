//! The course round by round, the state being the bowls that stand covered: what is left in each, and how long it
//! keeps.
//!
//! Exact as long as the effort lasts, which it does for a few people or short courses; then only the most promising
//! states are followed.
//! Invariants: a state is dropped only when another one, with fresh bowls for what that one lacks, costs no more,
//! or when it cannot lead below `upper`; `complete` is said only when nothing was dropped for want of effort.

use super::bounds::Outlook;
use super::course::{Course, Draft, Fill};

/// A bowl that stands covered.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Pot {
    last: usize,
    left: u32,
    /// Open bowls of the course first, then new bowls in the order in which they are made.
    id: usize,
}

#[derive(Debug, Clone, PartialEq, Eq)]
struct State {
    bowls: usize,
    /// By `last`, then `left`.
    pots: Vec<Pot>,
    from: usize,
    /// The bowl of each dose of the round just served.
    given: Vec<usize>,
}

/// What a search found.
pub(super) struct Found {
    /// A plan with fewer than `upper` bowls.
    pub draft: Option<Draft>,
    /// Whether no plan with fewer bowls, or without a draft none below `upper`, exists.
    pub complete: bool,
}

/// States followed once the effort is used up, and ways to serve a round tried from each.
const WIDTH: usize = 24;
const WAYS: u64 = 60;

/// Looks for the fewest bowls below `upper`; after `effort` search steps only roughly.
pub(super) fn search(
    course: &Course,
    outlook: &Outlook,
    upper: usize,
    effort: u64,
    tell: &mut dyn FnMut(usize, usize),
) -> Found {
    let pots = course.open.iter().enumerate().map(|(id, open)| Pot { last: open.last, left: open.left, id }).collect();
    let mut levels = vec![vec![State { bowls: 0, pots, from: 0, given: Vec::new() }]];
    let mut steps = 0;
    let mut complete = true;
    for round in 0..course.rounds.len() {
        let mut next: Vec<State> = Vec::new();
        for (from, state) in levels[round].iter().enumerate() {
            let ways = if steps < effort { u64::MAX } else { WAYS };
            let mut serving = Serving { course, round, state, from, ways: 0, most: ways, effort, steps, out: Vec::new() };
            complete &= serving.run(outlook, upper);
            steps = serving.steps;
            next.append(&mut serving.out);
        }
        let mut next = without_dominated(next, course, round + 1, &mut steps);
        if steps >= effort && next.len() > WIDTH {
            complete = false;
            next.sort_by_key(|state| (state.bowls + floor(course, outlook, round + 1, &state.pots), state.bowls));
            next.truncate(WIDTH);
        }
        levels.push(next);
        tell(round + 1, course.rounds.len());
    }
    Found { draft: trace(course, &levels), complete }
}

/// The fewest bowls still to come when these stand covered before `round`.
fn floor(course: &Course, outlook: &Outlook, round: usize, pots: &[Pot]) -> usize {
    let worth = |which: usize| pots.iter().map(|pot| outlook.measures[which].value(pot.left)).sum();
    if round >= course.rounds.len() { 0 } else { usize::try_from(outlook.at_least(round, worth)).unwrap_or(0) }
}

/// All ways to serve one round from one state.
struct Serving<'a> {
    course: &'a Course,
    round: usize,
    state: &'a State,
    from: usize,
    ways: u64,
    most: u64,
    effort: u64,
    steps: u64,
    out: Vec<State>,
}

impl Serving<'_> {
    /// Says whether all ways were tried.
    fn run(&mut self, outlook: &Outlook, upper: usize) -> bool {
        let mut pots = self.state.pots.clone();
        let mut given = Vec::new();
        let all = self.place(&mut pots, &mut given, self.state.bowls, outlook, upper);
        all
    }

    fn place(
        &mut self,
        pots: &mut Vec<Pot>,
        given: &mut Vec<(usize, usize)>,
        bowls: usize,
        outlook: &Outlook,
        upper: usize,
    ) -> bool {
        self.steps += 1;
        let position = given.len();
        let round = &self.course.rounds[self.round];
        let Some(dose) = round.doses.get(position) else {
            self.ways += 1;
            return self.keep(pots, given, bowls, outlook, upper);
        };
        // Equal doses take bowls in the order of the list: the other orders are the same plan.
        let first = match given.last() {
            Some(&(slot, _)) if round.doses[position - 1].amount == dose.amount => slot,
            _ => 0,
        };
        let mut all = true;
        for slot in first..pots.len() {
            let pot = pots[slot];
            let twin = pots[first..slot].iter().any(|other| (other.last, other.left) == (pot.last, pot.left));
            if pot.left < dose.amount || twin {
                continue;
            }
            if self.ways >= self.most {
                return false;
            }
            pots[slot].left -= dose.amount;
            given.push((slot, pot.id));
            all &= self.place(pots, given, bowls, outlook, upper);
            given.pop();
            pots[slot].left += dose.amount;
        }
        if self.ways >= self.most && !all {
            return false;
        }
        if bowls + 1 < upper {
            let id = self.course.open.len() + bowls;
            pots.push(Pot { last: round.last, left: self.course.capacity - dose.amount, id });
            given.push((pots.len() - 1, id));
            all &= self.place(pots, given, bowls + 1, outlook, upper);
            given.pop();
            pots.pop();
        }
        all
    }

    fn keep(
        &mut self,
        pots: &[Pot],
        given: &[(usize, usize)],
        bowls: usize,
        outlook: &Outlook,
        upper: usize,
    ) -> bool {
        let next = self.round + 1;
        let useful = |pot: &Pot| {
            let reach = self.course.rounds.get(next..=pot.last).unwrap_or_default();
            reach.iter().any(|round| round.doses.last().is_some_and(|smallest| smallest.amount <= pot.left))
        };
        let mut pots: Vec<Pot> = pots.iter().copied().filter(useful).collect();
        pots.sort_unstable();
        if bowls + floor(self.course, outlook, next, &pots) < upper {
            let given = given.iter().map(|&(_, id)| id).collect();
            self.out.push(State { bowls, pots, from: self.from, given });
        }
        if self.steps >= self.effort {
            self.most = self.most.min(self.ways.max(WAYS));
        }
        true
    }
}

/// Drops every state that another one matches at the same price or less.
fn without_dominated(mut states: Vec<State>, course: &Course, round: usize, steps: &mut u64) -> Vec<State> {
    let volume = |state: &State| state.pots.iter().map(|pot| u64::from(pot.left)).sum::<u64>();
    states.sort_by_cached_key(|state| (state.bowls, std::cmp::Reverse(volume(state)), state.pots.clone()));
    // A bowl made next.
    let last = course.rounds.get(round).map_or(0, |round| round.last);
    let fresh = Pot { last, left: course.capacity, id: 0 };
    let mut kept: Vec<State> = Vec::new();
    for state in states {
        *steps += u64::try_from(kept.len() / 8).unwrap_or(0);
        if !kept.iter().any(|better| matches(better, &state, fresh)) {
            kept.push(state);
        }
    }
    kept
}

/// Whether the bowls of `better`, and fresh ones up to the price of `state`, can give all that those of `state` can.
fn matches(better: &State, state: &State, fresh: Pot) -> bool {
    let Some(mut more) = state.bowls.checked_sub(better.bowls) else { return false };
    let mut pots = better.pots.clone();
    for wanted in state.pots.iter().rev() {
        let fitting = pots.iter_mut().filter(|pot| pot.last >= wanted.last && pot.left >= wanted.left);
        if let Some(pot) = fitting.min_by_key(|pot| (pot.left, pot.last)) {
            pot.left -= wanted.left;
        } else if more > 0 && fresh.last >= wanted.last {
            more -= 1;
            pots.push(Pot { left: fresh.left - wanted.left, ..fresh });
        } else {
            return false;
        }
    }
    true
}

/// The bowls on the way to the cheapest last state.
fn trace(course: &Course, levels: &[Vec<State>]) -> Option<Draft> {
    let mut index = 0;
    let mut cheapest = levels.last()?.iter().enumerate().min_by_key(|(_, state)| state.bowls)?.0;
    let opened = course.open.len();
    let bowls = levels.last()?[cheapest].bowls;
    let mut draft = Draft {
        bowls: vec![Fill { round: usize::MAX, parts: Vec::new() }; bowls],
        open: vec![Vec::new(); opened],
    };
    std::mem::swap(&mut index, &mut cheapest);
    for round in (0..course.rounds.len()).rev() {
        let state = levels[round + 1].get(index)?;
        for (position, &id) in state.given.iter().enumerate() {
            let part = course.whole(round, position);
            match id.checked_sub(opened) {
                Some(bowl) => {
                    draft.bowls[bowl].parts.push(part);
                    draft.bowls[bowl].round = round;
                }
                None => draft.open[id].push(part),
            }
        }
        index = state.from;
    }
    Some(draft)
}
