//! Deals a population into homes by chance.

use std::collections::BTreeMap;

use super::dice::Dice;
use super::people::{self, Guest};
use super::plans::{Kind, Plans};
use super::population::Population;
use crate::order::CheckedOrder;

/// Of 100 homes, how many have 1, 2, 3, 4, 5 and 6 people in them: a round guess at homes of today, with larger ones among those of 6.
pub(super) const SHARES: [usize; 6] = [28, 35, 15, 13, 6, 3];

/// Everybody, and who they may be.
pub(super) struct Town {
    /// By size of home: how many people, and who stands for them.
    groups: BTreeMap<Option<u32>, Vec<(u64, Vec<Guest>)>>,
    seed: u64,
}

impl Town {
    pub(super) fn of(
        order: &CheckedOrder,
        population: &Population,
        plans: &mut Plans<'_>,
        seed: u64,
    ) -> Town {
        // Numbers below are those of the draws.
        let mut dice = Dice::new(seed, u64::MAX);
        let mut groups: BTreeMap<_, Vec<_>> = BTreeMap::new();
        for group in population.groups.iter().filter(|group| group.people > 0) {
            let guests = people::of(order, group, plans, &mut dice);
            groups
                .entry(group.home)
                .or_default()
                .push((group.people, guests));
        }
        Town { groups, seed }
    }

    /// The homes of one draw: in each, what its people take. Who takes nothing has a place and no entry.
    pub(super) fn deal(&self, draw: u64) -> Vec<Vec<Kind>> {
        let mut dice = Dice::new(self.seed, draw);
        let mut homes = Vec::new();
        for (size, groups) in &self.groups {
            let (mut adults, mut others) = (Vec::new(), Vec::new());
            for (people, guests) in groups {
                for _ in 0..*people {
                    let guest = guests.get(dice.below(guests.len()));
                    let guest = guest.copied().unwrap_or(NOBODY);
                    let side = if guest.adult {
                        &mut adults
                    } else {
                        &mut others
                    };
                    side.push(guest.takes.ok());
                }
            }
            settle(*size, adults, others, &mut dice, &mut homes);
        }
        homes
    }

    /// How many get no dose from the chart, by reason.
    pub(super) fn held(&self) -> BTreeMap<&'static str, u64> {
        let mut shares: BTreeMap<&'static str, f64> = BTreeMap::new();
        for (people, guests) in self.groups.values().flatten() {
            let each = float(*people) / float(u64::try_from(guests.len()).unwrap_or(1));
            for code in guests.iter().filter_map(|guest| guest.takes.err()) {
                *shares.entry(code).or_default() += each;
            }
        }
        let whole = |share: f64| format!("{share:.0}").parse().unwrap_or(0);
        let counted = shares.into_iter().map(|(code, share)| (code, whole(share)));
        counted.filter(|(_, people)| *people > 0).collect()
    }
}

const NOBODY: Guest = Guest {
    adult: false,
    takes: Err("no-dose"),
};

/// Numbers of people, which a float holds exactly.
fn float(number: u64) -> f64 {
    u32::try_from(number).map_or(f64::MAX, f64::from)
}

/// An adult for each home as long as there are any, then everybody else as they come.
fn settle(
    size: Option<u32>,
    mut adults: Vec<Option<Kind>>,
    mut others: Vec<Option<Kind>>,
    dice: &mut Dice,
    homes: &mut Vec<Vec<Kind>>,
) {
    let sizes = sizes(size, adults.len() + others.len(), dice);
    dice.shuffle(&mut adults);
    let firsts = adults.split_off(adults.len().saturating_sub(sizes.len()));
    others.append(&mut adults);
    dice.shuffle(&mut others);
    let mut firsts = firsts.into_iter();
    let mut others = others.into_iter();
    for size in sizes {
        let first = firsts.next();
        let left = size - usize::from(first.is_some());
        let home = first.into_iter().chain(others.by_ref().take(left));
        homes.push(home.flatten().collect());
    }
}

/// Sizes of homes for so many people; the last one is what is left.
fn sizes(size: Option<u32>, people: usize, dice: &mut Dice) -> Vec<usize> {
    let mut found = Vec::new();
    let mut left = people;
    while left > 0 {
        let wanted = match size {
            Some(size) => usize::try_from(size).unwrap_or(1),
            None => by_chance(dice),
        };
        let taken = wanted.clamp(1, left);
        found.push(taken);
        left -= taken;
    }
    found
}

fn by_chance(dice: &mut Dice) -> usize {
    let mut ticket = dice.below(SHARES.iter().sum());
    for (size, share) in (1..).zip(SHARES) {
        if ticket < share {
            return size;
        }
        ticket -= share;
    }
    1
}
