//! Random courses, the same in every run.

use hearthdose_core::mixture::batch::{OpenBowl, Problem};
use hearthdose_tests::people::Dice;

pub fn small(number: i64) -> u32 {
    u32::try_from(number).expect("not negative")
}

pub fn index(number: i64) -> usize {
    usize::try_from(number).expect("not negative")
}

/// At most so many doses in bowls of at most so many steps, in rounds of up to four, some of them empty; half of the courses repeat their rounds.
pub fn of_few_doses(dice: &mut Dice, most: i64, largest: i64) -> Problem {
    let capacity = dice.between(2, largest);
    let mut left = dice.between(1, most);
    let alike = dice.percent(50);
    let mut rounds: Vec<Vec<u32>> = Vec::new();
    while left > 0 {
        let doses = match rounds.last() {
            Some(last) if alike && !last.is_empty() => {
                last.iter().copied().take(index(left)).collect()
            }
            _ => (0..dice.between(0, left.min(4)))
                .map(|_| small(dice.between(1, capacity)))
                .collect::<Vec<u32>>(),
        };
        left -= i64::try_from(doses.len()).expect("few");
        rounds.push(doses);
    }
    Problem::with_keep(small(capacity), index(dice.between(1, 5)), false, rounds)
}

/// Each round's bowls keep as long as chance has it.
pub fn keep_irregularly(dice: &mut Dice, problem: &mut Problem) {
    for (round, last) in problem.last_use.iter_mut().enumerate() {
        *last = round + index(dice.below(4));
    }
}

pub fn with_open_bowls(dice: &mut Dice, problem: &mut Problem) {
    for _ in 0..dice.between(1, 3) {
        let left = small(dice.between(0, i64::from(problem.capacity)));
        problem.open.push(OpenBowl {
            left,
            last_use: index(dice.below(4)),
        });
    }
}

/// A household's course of `rounds` rounds; changing doses or the same all along.
pub fn household(
    dice: &mut Dice,
    capacity: u32,
    people: i64,
    rounds: usize,
    keep: usize,
    changing: bool,
) -> Problem {
    let mut round = || {
        (0..people)
            .map(|_| small(dice.between(1, i64::from(capacity))))
            .collect::<Vec<u32>>()
    };
    let first = round();
    let rounds = (0..rounds)
        .map(|_| if changing { round() } else { first.clone() })
        .collect();
    Problem::with_keep(capacity, keep, false, rounds)
}
