//! From which lots to take: the one that expires first and covers the need, one lot where that is possible.

use std::cmp::Reverse;

use jiff::civil::Date;

use super::stock::Stock;
use crate::record::LotName;
use crate::today::LotStanding;

/// What to take.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Pick {
    /// Lots and packs of each, the one that expires first in front.
    pub takes: Vec<(LotName, u32)>,
    /// Packs that no lot has.
    pub short: u32,
    /// Lots of the product from which nothing is taken, and why.
    pub passed_over: Vec<PassedOver>,
    /// Some of it expires before the last day it is for: the lead decides.
    pub expires_in_course: bool,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PassedOver {
    pub lot: LotName,
    pub why: Why,
}

/// Why nothing may be taken from a lot.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Why {
    Recalled,
    SetAside,
    Expired {
        on: Date,
    },
    /// Nothing of it is left, or less than nothing.
    Empty,
    /// It was never received here, so nobody knows its expiry.
    Unknown,
}

impl Why {
    pub fn code(self) -> &'static str {
        match self {
            Why::Recalled => "lot-recalled",
            Why::SetAside => "lot-set-aside",
            Why::Expired { .. } => "lot-expired",
            Why::Empty => "lot-empty",
            Why::Unknown => "lot-unknown",
        }
    }
}

impl Pick {
    /// The first `packs` of it, for one bag; what is short goes to the last bags.
    pub(super) fn split_off(&mut self, packs: u32) -> Pick {
        let mut first = Pick::default();
        let mut wanted = packs;
        for (lot, there) in &mut self.takes {
            let taken = wanted.min(*there);
            if taken > 0 {
                first.takes.push((lot.clone(), taken));
                *there -= taken;
                wanted -= taken;
            }
        }
        self.takes.retain(|(_, there)| *there > 0);
        first.short = wanted;
        first
    }
}

struct Shelf<'a> {
    name: &'a LotName,
    until: Date,
    packs: u32,
}

/// Takes `packs` of a product on `today`, to last until `last_day`; `said` is what the issuer said of a lot.
pub fn pick(
    stock: &Stock,
    product: &str,
    packs: u32,
    today: Date,
    last_day: Date,
    said: impl Fn(&str) -> LotStanding,
) -> Pick {
    let mut pick = Pick::default();
    let mut shelves = Vec::new();
    for (name, lot) in stock.lots().filter(|(name, _)| name.product == product) {
        let left = u32::try_from(lot.packs().max(0)).unwrap_or(u32::MAX);
        match usable(lot.expiry, said(&name.lot), today) {
            Err(why) => pick.passed_over.push(PassedOver {
                lot: name.clone(),
                why,
            }),
            Ok(_) if left == 0 => pick.passed_over.push(PassedOver {
                lot: name.clone(),
                why: Why::Empty,
            }),
            Ok(until) => shelves.push(Shelf {
                name,
                until,
                packs: left,
            }),
        }
    }
    if packs == 0 {
        return pick;
    }
    shelves.sort_by_key(|shelf| (shelf.until, shelf.name));
    let lasts = |shelf: &&Shelf<'_>| shelf.until >= last_day;
    // One lot for all, else those that last, else what there is.
    if let Some(one) = shelves.iter().filter(lasts).find(|s| s.packs >= packs) {
        pick.takes.push((one.name.clone(), packs));
        return pick;
    }
    let (mut lasting, mut ending): (Vec<&Shelf<'_>>, Vec<&Shelf<'_>>) =
        shelves.iter().partition(lasts);
    ending.sort_by_key(|shelf| (Reverse(shelf.until), shelf.name));
    let mut wanted = packs;
    for shelf in lasting.drain(..) {
        wanted -= take(&mut pick, shelf, wanted);
    }
    for shelf in ending {
        let taken = take(&mut pick, shelf, wanted);
        pick.expires_in_course |= taken > 0;
        wanted -= taken;
    }
    pick.short = wanted;
    pick
}

fn take(pick: &mut Pick, shelf: &Shelf<'_>, wanted: u32) -> u32 {
    let taken = wanted.min(shelf.packs);
    if taken > 0 {
        pick.takes.push((shelf.name.clone(), taken));
    }
    taken
}

/// The last day on which a lot may be used, by its print and what the issuer said.
pub(super) fn usable(printed: Option<Date>, said: LotStanding, today: Date) -> Result<Date, Why> {
    let until = match (said, printed) {
        (LotStanding::BringBack, _) => return Err(Why::Recalled),
        (LotStanding::SetAside, _) => return Err(Why::SetAside),
        (LotStanding::Extended { until }, printed) => {
            printed.map_or(until, |printed| printed.max(until))
        }
        (LotStanding::AsPrinted, Some(printed)) => printed,
        (LotStanding::AsPrinted, None) => return Err(Why::Unknown),
    };
    if until < today {
        return Err(Why::Expired { on: until });
    }
    Ok(until)
}
