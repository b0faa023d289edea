//! The course round by round, the state being the bowls that stand covered: what is left in each, and how long it
//! keeps.
//!
//! Exact or nothing: the effort lasts for a few people or a short course.
//! Invariants: a state is dropped only when another one, with fresh bowls for what that one lacks, costs no more,
//! or when it cannot lead below `upper`.

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
pub(super) enum Found {
    /// A plan below `upper`, with the fewest bowls there are.
    Fewest(Draft),
    /// No plan below `upper` exists.
    Nothing,
    /// The effort ran out.
    Unknown,
}

/// States of one round that are weeded out before more are added.
const CROWD: usize = 4_096;

/// Looks for the fewest bowls below `upper`, for at most `effort` search steps.
pub(super) fn search(
    course: &Course,
    outlook: &Outlook,
    upper: usize,
    effort: u64,
    tell: &mut dyn FnMut(usize, usize),
) -> Found {
    let pots = course
        .open
        .iter()
        .enumerate()
        .map(|(id, open)| Pot {
            last: open.last,
            left: open.left,
            id,
        })
        .collect();
    let mut levels = vec![vec![State {
        bowls: 0,
        pots,
        from: 0,
        given: Vec::new(),
    }]];
    let mut steps = 0;
    for round in 0..course.rounds.len() {
        let mut next: Vec<State> = Vec::new();
        for (from, state) in levels[round].iter().enumerate() {
            let mut serving = Serving {
                course,
                outlook,
                upper,
                round,
                from,
                steps,
                effort,
                out: &mut next,
            };
            serving.place(&mut state.pots.clone(), &mut Vec::new(), state.bowls);
            steps = serving.steps;
            if next.len() > CROWD {
                next = without_dominated(next, course, round + 1, &mut steps, effort);
            }
            if steps > effort {
                return Found::Unknown;
            }
        }
        levels.push(without_dominated(
            next,
            course,
            round + 1,
            &mut steps,
            effort,
        ));
        if steps > effort {
            return Found::Unknown;
        }
        tell(round + 1, course.rounds.len());
    }
    trace(course, &levels).map_or(Found::Nothing, Found::Fewest)
}

/// The fewest bowls still to come when these stand covered before `round`.
fn floor(course: &Course, outlook: &Outlook, round: usize, pots: &[Pot]) -> usize {
    let worth = |which: usize| {
        pots.iter()
            .map(|pot| outlook.measures[which].value(pot.left))
            .sum()
    };
    if round >= course.rounds.len() {
        0
    } else {
        usize::try_from(outlook.at_least(round, worth)).unwrap_or(0)
    }
}

/// All ways to serve one round from one state.
struct Serving<'a> {
    course: &'a Course,
    outlook: &'a Outlook,
    upper: usize,
    round: usize,
    from: usize,
    steps: u64,
    effort: u64,
    out: &'a mut Vec<State>,
}

impl Serving<'_> {
    /// Gives the next dose to each bowl in turn; `given` has the slot and the bowl of the doses before.
    fn place(&mut self, pots: &mut Vec<Pot>, given: &mut Vec<(usize, usize)>, bowls: usize) {
        self.steps += 1;
        if self.steps > self.effort {
            return;
        }
        let position = given.len();
        let round = &self.course.rounds[self.round];
        let Some(dose) = round.doses.get(position) else {
            self.keep(pots, given, bowls);
            return;
        };
        // Equal doses take bowls in the order of the list: the other orders are the same plan.
        let first = match given.last() {
            Some(&(slot, _)) if round.doses[position - 1].amount == dose.amount => slot,
            _ => 0,
        };
        for slot in first..pots.len() {
            let pot = pots[slot];
            let twin = pots[first..slot]
                .iter()
                .any(|other| (other.last, other.left) == (pot.last, pot.left));
            if pot.left < dose.amount || twin {
                continue;
            }
            pots[slot].left -= dose.amount;
            given.push((slot, pot.id));
            self.place(pots, given, bowls);
            given.pop();
            pots[slot].left += dose.amount;
        }
        if bowls + 1 < self.upper {
            let id = self.course.open.len() + bowls;
            pots.push(Pot {
                last: round.last,
                left: self.course.capacity - dose.amount,
                id,
            });
            given.push((pots.len() - 1, id));
            self.place(pots, given, bowls + 1);
            given.pop();
            pots.pop();
        }
    }

    fn keep(&mut self, pots: &[Pot], given: &[(usize, usize)], bowls: usize) {
        // Sorting, judging and storing a state costs about as much as so many placings.
        self.steps += 12;
        let next = self.round + 1;
        let useful = |pot: &Pot| {
            let reach = self.course.rounds.get(next..=pot.last).unwrap_or_default();
            reach.iter().any(|round| {
                round
                    .doses
                    .last()
                    .is_some_and(|smallest| smallest.amount <= pot.left)
            })
        };
        let mut pots: Vec<Pot> = pots.iter().copied().filter(useful).collect();
        pots.sort_unstable();
        if bowls + floor(self.course, self.outlook, next, &pots) < self.upper {
            let given = given.iter().map(|&(_, id)| id).collect();
            self.out.push(State {
                bowls,
                pots,
                from: self.from,
                given,
            });
        }
    }
}

/// Drops every state that another one matches at the same price or less.
fn without_dominated(
    mut states: Vec<State>,
    course: &Course,
    round: usize,
    steps: &mut u64,
    effort: u64,
) -> Vec<State> {
    let volume = |state: &State| {
        state
            .pots
            .iter()
            .map(|pot| u64::from(pot.left))
            .sum::<u64>()
    };
    states.sort_by_cached_key(|state| {
        (
            state.bowls,
            std::cmp::Reverse(volume(state)),
            state.pots.clone(),
        )
    });
    // A bowl made next.
    let last = course.rounds.get(round).map_or(0, |round| round.last);
    let fresh = Pot {
        last,
        left: course.capacity,
        id: 0,
    };
    let mut kept: Vec<State> = Vec::new();
    for state in states {
        *steps += 2 * u64::try_from(kept.len()).unwrap_or(0);
        if *steps > effort {
            break;
        }
        if !kept.iter().any(|better| matches(better, &state, fresh)) {
            kept.push(state);
        }
    }
    kept
}

/// Whether the bowls of `better`, and fresh ones up to the price of `state`, can give all that those of `state` can.
fn matches(better: &State, state: &State, fresh: Pot) -> bool {
    let Some(mut more) = state.bowls.checked_sub(better.bowls) else {
        return false;
    };
    let mut pots = better.pots.clone();
    for wanted in state.pots.iter().rev() {
        let fitting = pots
            .iter_mut()
            .filter(|pot| pot.last >= wanted.last && pot.left >= wanted.left);
        if let Some(pot) = fitting.min_by_key(|pot| (pot.left, pot.last)) {
            pot.left -= wanted.left;
        } else if more > 0 && fresh.last >= wanted.last {
            more -= 1;
            pots.push(Pot {
                left: fresh.left - wanted.left,
                ..fresh
            });
        } else {
            return false;
        }
    }
    true
}

/// The bowls on the way to the cheapest last state.
fn trace(course: &Course, levels: &[Vec<State>]) -> Option<Draft> {
    let mut index = 0;
    let mut cheapest = levels
        .last()?
        .iter()
        .enumerate()
        .min_by_key(|(_, state)| state.bowls)?
        .0;
    let opened = course.open.len();
    let bowls = levels.last()?[cheapest].bowls;
    let mut draft = Draft {
        bowls: vec![
            Fill {
                round: usize::MAX,
                parts: Vec::new()
            };
            bowls
        ],
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
