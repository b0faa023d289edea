//! Doses that may come from two bowls: the liquid is used in the order in which it expires.
//!
//! Making a bowl only when what stands open is too little for the round is best, because a later bowl keeps at least
//! as long.
//! Poured in turn, a dose (at most one bowl) meets at most two bowls, as long as at most one bowl stands open; with
//! several open bowls from before, two of them may be too little for a dose, and then the rest of the older one is
//! given up.
//! Invariants: the floor counts liquid only and is no guess; the plan is the fewest whenever it meets the floor.

use super::bounds::Outlook;
use super::course::{Course, Draft, Fill, Open, Part};

/// A bowl with liquid left.
#[derive(Debug, Clone, Copy)]
struct Pot {
    left: u32,
    last: usize,
    /// Index among the open bowls of the course, or among the new ones.
    bowl: Result<usize, usize>,
}

/// New bowls that any plan needs: the liquid alone, poured without regard to doses.
pub(super) fn least(course: &Course) -> usize {
    let first = course.rounds.first().map_or(0, |round| round.last);
    if course.open.iter().any(|open| open.last > first) {
        // A bowl that outlasts the next ones may be worth saving, so pouring it in turn is no floor.
        return Outlook::new(course, 1).least();
    }
    let mut pots = standing(course);
    let mut bowls = 0;
    for round in 0..course.rounds.len() {
        let fresh = begin(course, round, &mut pots, bowls);
        bowls += fresh;
        let mut need = need(course, round);
        for pot in &mut pots {
            let taken = u32::try_from(need).unwrap_or(u32::MAX).min(pot.left);
            pot.left -= taken;
            need -= u64::from(taken);
        }
    }
    bowls
}

fn need(course: &Course, round: usize) -> u64 {
    course.rounds[round]
        .doses
        .iter()
        .map(|dose| u64::from(dose.amount))
        .sum()
}

fn standing(course: &Course) -> Vec<Pot> {
    let pot = |(index, open): (usize, &Open)| Pot {
        left: open.left,
        last: open.last,
        bowl: Err(index),
    };
    course.open.iter().enumerate().map(pot).collect()
}

/// Throws away what no longer keeps and makes the bowls that the round cannot do without; says how many.
fn begin(course: &Course, round: usize, pots: &mut Vec<Pot>, made: usize) -> usize {
    pots.retain(|pot| pot.last >= round && pot.left > 0);
    let stands: u64 = pots.iter().map(|pot| u64::from(pot.left)).sum();
    let fresh = need(course, round)
        .saturating_sub(stands)
        .div_ceil(u64::from(course.capacity));
    let fresh = usize::try_from(fresh).unwrap_or(usize::MAX);
    let last = course.rounds[round].last;
    pots.extend((made..made + fresh).map(|bowl| Pot {
        left: course.capacity,
        last,
        bowl: Ok(bowl),
    }));
    // What expires first is used first; of equals, what has least left.
    pots.sort_by_key(|pot| (pot.last, pot.left, pot.bowl));
    fresh
}

/// A plan that pours in turn.
pub(super) fn draft(course: &Course) -> Draft {
    let mut draft = Draft {
        bowls: Vec::new(),
        open: vec![Vec::new(); course.open.len()],
    };
    let mut pots = standing(course);
    for round in 0..course.rounds.len() {
        let fresh = begin(course, round, &mut pots, draft.bowls.len());
        draft.bowls.resize(
            draft.bowls.len() + fresh,
            Fill {
                round,
                parts: Vec::new(),
            },
        );
        let doses = course.rounds[round].doses.len();
        let mut waiting: Vec<Part> = (0..doses)
            .map(|position| course.whole(round, position))
            .collect();
        while let Some(&next) = waiting.first() {
            let Some(oldest) = pots.first() else {
                make(course, round, &mut pots, &mut draft);
                continue;
            };
            // Whole doses first: what uses the bowl up, or nearly so, without splitting.
            let whole = fullest(&waiting, oldest.left);
            waiting.retain(|part| whole.iter().all(|other| other.position != part.position));
            for &part in &whole {
                pour(&mut pots, 0, part, part.amount, &mut draft);
            }
            if whole.is_empty() {
                waiting.remove(0);
                share(course, round, &mut pots, next, &mut draft);
            }
            pots.retain(|pot| pot.left > 0);
        }
    }
    draft.bowls.retain(|fill| !fill.parts.is_empty());
    draft
}

fn make(course: &Course, round: usize, pots: &mut Vec<Pot>, draft: &mut Draft) {
    pots.push(Pot {
        left: course.capacity,
        last: course.rounds[round].last,
        bowl: Ok(draft.bowls.len()),
    });
    draft.bowls.push(Fill {
        round,
        parts: Vec::new(),
    });
}

/// Takes a dose larger than what the oldest bowl holds from that bowl and another one.
fn share(course: &Course, round: usize, pots: &mut Vec<Pot>, part: Part, draft: &mut Draft) {
    let first = pots[0].left.min(part.amount);
    let rest = part.amount - first;
    // The next oldest with enough for the rest; a bowl passed over keeps what it has.
    let second = (1..pots.len())
        .find(|&slot| pots[slot].left >= rest)
        .unwrap_or_else(|| {
            make(course, round, pots, draft);
            pots.len() - 1
        });
    pour(pots, 0, part, first, draft);
    pour(pots, second, part, rest, draft);
}

fn pour(pots: &mut [Pot], slot: usize, part: Part, amount: u32, draft: &mut Draft) {
    if amount == 0 {
        return;
    }
    let pot = &mut pots[slot];
    pot.left -= amount;
    let part = Part { amount, ..part };
    match pot.bowl {
        Ok(bowl) => draft.bowls[bowl].parts.push(part),
        Err(open) => draft.open[open].push(part),
    }
}

/// Whole doses that use up exactly what is left, else the largest one that fits, else none.
fn fullest(waiting: &[Part], room: u32) -> Vec<Part> {
    let exact = super::stretch::choice(waiting, room);
    if exact.iter().map(|part| part.amount).sum::<u32>() == room {
        return exact;
    }
    waiting
        .iter()
        .filter(|part| part.amount <= room)
        .take(1)
        .copied()
        .collect()
}
