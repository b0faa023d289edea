//! The fewest bowls of a small course, by trying everything.
//!
//! Whole doses: every way to part the doses into sets of which each can come from one bowl, by dynamic programming over sets.
//! Split doses: every way to pour, dose by dose.

use std::collections::BTreeMap;

use hearthdose_core::mixture::batch::Problem;

/// Doses in order of rounds.
fn doses(problem: &Problem) -> Vec<(usize, u32)> {
    let round = |(round, doses): (usize, &Vec<u32>)| {
        doses
            .iter()
            .map(move |&dose| (round, dose))
            .collect::<Vec<_>>()
    };
    problem.rounds.iter().enumerate().flat_map(round).collect()
}

/// The fewest new bowls.
pub fn fewest(problem: &Problem) -> usize {
    if problem.split {
        by_pouring(problem)
    } else {
        by_parting(problem)
    }
}

fn by_parting(problem: &Problem) -> usize {
    let doses = doses(problem);
    let sets = 1usize << doses.len();
    let within = |set: usize| {
        doses
            .iter()
            .enumerate()
            .filter(move |(bit, _)| set >> bit & 1 == 1)
            .map(|(_, dose)| *dose)
    };
    let total = |set: usize| {
        within(set)
            .map(|(_, amount)| u64::from(amount))
            .sum::<u64>()
    };
    let makes = |set: usize| {
        let (Some(first), Some(last)) = (
            within(set).map(|dose| dose.0).min(),
            within(set).map(|dose| dose.0).max(),
        ) else {
            return false;
        };
        total(set) <= u64::from(problem.capacity)
            && (0..=first).any(|made| problem.last_use[made] >= last)
    };
    let one_bowl: Vec<bool> = (0..sets).map(makes).collect();
    // What the open bowls alone can serve.
    let mut open = vec![false; sets];
    open[0] = true;
    for bowl in &problem.open {
        let gives = |set: usize| {
            total(set) <= u64::from(bowl.left)
                && within(set).all(|(round, _)| round <= bowl.last_use)
        };
        let gifts: Vec<usize> = (0..sets).filter(|&set| gives(set)).collect();
        let before = open.clone();
        for served in (0..sets).filter(|&served| before[served]) {
            for gift in gifts.iter().filter(|&gift| gift & served == 0) {
                open[served | gift] = true;
            }
        }
    }
    // New bowls only: some bowl serves the last dose of the set.
    // New bowls alone: one of them serves the last dose of the set.
    let mut bowls = vec![0; sets];
    for set in 1..sets {
        let top = 1 << (usize::BITS - 1 - set.leading_zeros());
        let rest = set ^ top;
        bowls[set] = parts(rest)
            .filter(|part| one_bowl[part | top])
            .map(|part| bowls[rest ^ part] + 1)
            .min()
            .expect("a dose fits into a bowl of its own");
    }
    let shared = (0..sets)
        .filter(|&set| open[set])
        .map(|set| bowls[sets - 1 - set]);
    shared.min().expect("open bowls may serve nobody")
}

/// All subsets of a set.
fn parts(set: usize) -> impl Iterator<Item = usize> {
    std::iter::successors(Some(set), move |&part| {
        part.checked_sub(1).map(|less| less & set)
    })
}

type Pots = Vec<(usize, u32)>;

fn by_pouring(problem: &Problem) -> usize {
    let pots = problem
        .open
        .iter()
        .map(|open| (open.last_use, open.left))
        .collect();
    pour(problem, &doses(problem), 0, pots, &mut BTreeMap::new())
}

fn pour(
    problem: &Problem,
    doses: &[(usize, u32)],
    next: usize,
    pots: Pots,
    known: &mut BTreeMap<(usize, Pots), usize>,
) -> usize {
    let Some(&(round, amount)) = doses.get(next) else {
        return 0;
    };
    let mut pots: Pots = pots
        .into_iter()
        .filter(|&(last, left)| last >= round && left > 0)
        .collect();
    pots.sort_unstable();
    if let Some(&bowls) = known.get(&(next, pots.clone())) {
        return bowls;
    }
    // Up to two fresh bowls, each made in any round whose bowls still keep.
    let mut lasts: Vec<usize> = problem.last_use[..=round]
        .iter()
        .copied()
        .filter(|&last| last >= round)
        .collect();
    lasts.sort_unstable();
    lasts.dedup();
    let mut best = usize::MAX;
    let mut fresh: Vec<Vec<usize>> = vec![Vec::new()];
    fresh.extend(lasts.iter().map(|&last| vec![last]));
    fresh.extend(
        lasts
            .iter()
            .flat_map(|&one| lasts.iter().map(move |&other| vec![one, other])),
    );
    for fresh in fresh {
        let mut with = pots.clone();
        with.extend(fresh.iter().map(|&last| (last, problem.capacity)));
        for one in 0..with.len() {
            for other in 0..with.len() {
                for part in 0..=amount {
                    let rest = amount - part;
                    let pours = if one == other {
                        part == amount
                    } else {
                        part > 0 && rest > 0
                    };
                    if !pours || with[one].1 < part || (one != other && with[other].1 < rest) {
                        continue;
                    }
                    let mut after = with.clone();
                    after[one].1 -= part;
                    if one != other {
                        after[other].1 -= rest;
                    }
                    best = best.min(fresh.len() + pour(problem, doses, next + 1, after, known));
                }
            }
        }
    }
    known.insert((next, pots), best);
    best
}
