//! How the day goes: served in each hour, stock against demand, when a lot runs out.
//!
//! A home that was served twice is one home, and its people are counted once; a person in it who got nothing is not counted.
//! Floats are right here: nobody swallows an estimate.

use std::collections::BTreeMap;

use jiff::Timestamp;

use super::stock::Stock;
use crate::household::HouseholdId;
use crate::record::LotName;
use crate::units::Lapse;

/// One hand-out, as totals are made of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Served {
    pub home: HouseholdId,
    pub at: Timestamp,
    /// Whom it was for, by their numbers in the home's code.
    pub people: Vec<u16>,
    /// Packs by lot; only those of the last hour are looked at.
    pub packs: Vec<(LotName, u32)>,
}

/// Figures of one site up to a moment.
#[derive(Clone, Debug, PartialEq)]
pub struct Totals {
    /// Each hour with a hand-out, by its first instant.
    pub hours: BTreeMap<Timestamp, Count>,
    /// Of all hours; a home that came in two of them counts once.
    pub all: Count,
    /// Of the hour before now.
    pub last_hour: Count,
    pub lots: Vec<LotOutlook>,
}

/// How many were served.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Count {
    pub hand_outs: u64,
    /// Each once.
    pub homes: u64,
    /// Each once.
    pub people: u64,
}

/// A lot and how long it will last.
#[derive(Clone, Debug, PartialEq)]
pub struct LotOutlook {
    pub lot: LotName,
    pub packs: i64,
    /// When its product runs out at the present pace; none where nothing leaves.
    pub out_at: Option<Timestamp>,
}

const HOUR: i64 = 3_600;

/// The first instant of the hour.
pub fn hour_of(at: Timestamp) -> Timestamp {
    let second = at.as_second();
    Timestamp::from_second(second - second.rem_euclid(HOUR)).unwrap_or(at)
}

impl Totals {
    /// From hand-outs in any order and the shelves.
    pub fn of(
        hand_outs: impl IntoIterator<Item = Served>,
        stock: &Stock,
        now: Timestamp,
    ) -> Totals {
        let mut recent: BTreeMap<String, u64> = BTreeMap::new();
        let (mut by_hour, mut all, mut last_hour) = (Tally::new(), Tally::new(), Tally::new());
        for served in hand_outs {
            by_hour.note(hour_of(served.at), &served);
            all.note((), &served);
            let ago = now.duration_since(served.at).as_secs();
            if (0..HOUR).contains(&ago) {
                last_hour.note((), &served);
                for (lot, packs) in served.packs {
                    let count = recent.entry(lot.product).or_insert(0);
                    *count = count.saturating_add(u64::from(packs));
                }
            }
        }
        let of_all = |tally: Tally<()>| tally.counts().remove(&()).unwrap_or_default();
        Totals {
            hours: by_hour.counts(),
            all: of_all(all),
            last_hour: of_all(last_hour),
            lots: outlook(stock, &recent, now),
        }
    }
}

/// Hand-outs, homes and people under something they are counted by.
struct Tally<T> {
    hand_outs: BTreeMap<T, u64>,
    homes: Vec<(T, HouseholdId)>,
    people: Vec<(T, HouseholdId, u16)>,
}

impl<T: Copy + Ord> Tally<T> {
    fn new() -> Tally<T> {
        Tally {
            hand_outs: BTreeMap::new(),
            homes: Vec::new(),
            people: Vec::new(),
        }
    }

    fn note(&mut self, under: T, served: &Served) {
        let hand_outs = self.hand_outs.entry(under).or_insert(0);
        *hand_outs = hand_outs.saturating_add(1);
        self.homes.push((under, served.home));
        let people = served.people.iter();
        self.people
            .extend(people.map(|person| (under, served.home, *person)));
    }

    /// Each home and each person once.
    fn counts(mut self) -> BTreeMap<T, Count> {
        self.homes.sort_unstable();
        self.homes.dedup();
        self.people.sort_unstable();
        self.people.dedup();
        let hand_outs = self.hand_outs.into_iter();
        let mut counts: BTreeMap<T, Count> = hand_outs
            .map(|(under, hand_outs)| {
                let count = Count {
                    hand_outs,
                    ..Count::default()
                };
                (under, count)
            })
            .collect();
        for (under, _) in self.homes {
            let count = counts.entry(under).or_default();
            count.homes = count.homes.saturating_add(1);
        }
        for (under, _, _) in self.people {
            let count = counts.entry(under).or_default();
            count.people = count.people.saturating_add(1);
        }
        counts
    }
}

/// Lots of one product leave one after the other, the first to expire in front.
fn outlook(stock: &Stock, recent: &BTreeMap<String, u64>, now: Timestamp) -> Vec<LotOutlook> {
    let mut lots: Vec<_> = stock.lots().collect();
    lots.sort_by_key(|(name, lot)| (name.product.clone(), lot.expiry, name.lot.clone()));
    let mut before: BTreeMap<&str, u64> = BTreeMap::new();
    lots.into_iter()
        .map(|(name, lot)| {
            let there = u64::try_from(lot.packs()).unwrap_or(0);
            let sum = before.entry(name.product.as_str()).or_insert(0);
            *sum = sum.saturating_add(there);
            let pace = recent.get(&name.product).copied().unwrap_or(0);
            let seconds = sum
                .saturating_mul(3_600)
                .checked_div(pace)
                .and_then(|seconds| i64::try_from(seconds).ok());
            LotOutlook {
                lot: name.clone(),
                packs: lot.packs(),
                out_at: seconds.and_then(|s| now.checked_add(Lapse::from_secs(s)).ok()),
            }
        })
        .collect()
}
