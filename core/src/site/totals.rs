//! How the day goes: served in each hour, stock against demand, when a lot runs out.
//!
//! Floats are right here: nobody swallows an estimate.

use std::collections::BTreeMap;

use jiff::Timestamp;

use super::stock::Stock;
use crate::record::LotName;
use crate::units::Lapse;

/// Figures of one site up to a moment.
#[derive(Clone, Debug, PartialEq)]
pub struct Totals {
    /// Homes and people served in each hour, by its first instant.
    pub hours: BTreeMap<Timestamp, (u64, u64)>,
    pub homes: u64,
    pub people: u64,
    /// Homes an hour over the last hour that is measured.
    pub per_hour: f64,
    pub lots: Vec<LotOutlook>,
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
    /// From hand-outs (when, people, packs by product) and the shelves.
    pub fn of(
        hand_outs: impl IntoIterator<Item = (Timestamp, u64, Vec<(LotName, u32)>)>,
        stock: &Stock,
        now: Timestamp,
    ) -> Totals {
        let mut totals = Totals {
            hours: BTreeMap::new(),
            homes: 0,
            people: 0,
            per_hour: 0.0,
            lots: Vec::new(),
        };
        let mut recent: BTreeMap<String, u64> = BTreeMap::new();
        let mut recent_homes = 0_u32;
        for (at, people, lines) in hand_outs {
            totals.homes = totals.homes.saturating_add(1);
            totals.people = totals.people.saturating_add(people);
            let hour = totals.hours.entry(hour_of(at)).or_insert((0, 0));
            hour.0 = hour.0.saturating_add(1);
            hour.1 = hour.1.saturating_add(people);
            let ago = now.duration_since(at).as_secs();
            if (0..HOUR).contains(&ago) {
                recent_homes = recent_homes.saturating_add(1);
                for (lot, packs) in lines {
                    let count = recent.entry(lot.product).or_insert(0);
                    *count = count.saturating_add(u64::from(packs));
                }
            }
        }
        totals.per_hour = f64::from(recent_homes);
        totals.lots = outlook(stock, &recent, now);
        totals
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
