//! From which lots to take: the one that expires first and covers the need, one lot where that is possible.

use std::cmp::Reverse;

use jiff::civil::Date;

use super::stock::Stock;
use crate::record::LotName;
use crate::today::LotStanding;

/// What one bag must hold.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Need {
    /// Tablets, or millilitres.
    pub units: u64,
    /// Packs that it takes at least, because an opened one does not last.
    pub at_least: u32,
}

impl Need {
    pub fn is_nothing(self) -> bool {
        self.units == 0 && self.at_least == 0
    }

    /// Whole packs of this size.
    fn packs(self, each: u32) -> u64 {
        self.units
            .div_ceil(u64::from(each.max(1)))
            .max(u64::from(self.at_least))
    }

    /// What is still missing after so many packs of this size.
    fn without(self, packs: u32, each: u32) -> Need {
        let units = u64::from(packs).saturating_mul(u64::from(each));
        Need {
            units: self.units.saturating_sub(units),
            at_least: self.at_least.saturating_sub(packs),
        }
    }
}

/// What is looked for on the shelves.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Wanted<'a> {
    /// Product key.
    pub product: &'a str,
    /// Tablets, or millilitres, in a pack as the order has it: for lots that do not say, and for what is short.
    pub each: u32,
    pub today: Date,
    /// It must last until this day.
    pub last_day: Date,
}

/// What to take into one bag.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Pick {
    /// In the order in which lots are taken from.
    pub takes: Vec<Take>,
    /// Packs that no lot has.
    pub short: u32,
    /// Lots of the product from which nothing may be taken, and why.
    pub passed_over: Vec<PassedOver>,
    /// Some of it expires before the last day it is for: the lead decides.
    pub expires_in_course: bool,
    /// The last day on which all that was taken may be used.
    pub good_until: Option<Date>,
}

/// Packs from one lot.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Take {
    pub lot: LotName,
    pub packs: u32,
    /// Tablets, or millilitres, in one pack of this lot.
    pub each: u32,
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
    /// Packs in the bag, and those that are missing.
    pub fn packs(&self) -> u32 {
        let packs = self.takes.iter().map(|take| take.packs);
        packs.fold(self.short, u32::saturating_add)
    }
}

struct Shelf<'a> {
    name: &'a LotName,
    until: Date,
    packs: u32,
    each: u32,
}

/// Fills bags one after the other, each from what the ones before left; `said` is what the issuer said of a lot.
///
/// One lot for all bags where one has enough and lasts, else one lot for a bag, else those that last, else what there is.
pub fn pick(
    stock: &Stock,
    wanted: &Wanted<'_>,
    needs: &[Need],
    said: impl Fn(&str) -> LotStanding,
) -> Vec<Pick> {
    let mut passed_over = Vec::new();
    let mut shelves = Vec::new();
    for (name, lot) in stock.lots() {
        if name.product != wanted.product {
            continue;
        }
        let packs = u32::try_from(lot.packs().max(0)).unwrap_or(u32::MAX);
        let why = match usable(lot.expiry, said(&name.lot), wanted.today) {
            Ok(until) if packs > 0 => {
                shelves.push(Shelf {
                    name,
                    until,
                    packs,
                    each: if lot.each > 0 { lot.each } else { wanted.each },
                });
                continue;
            }
            Ok(_) => Why::Empty,
            Err(why) => why,
        };
        let lot = name.clone();
        passed_over.push(PassedOver { lot, why });
    }
    // Those that last, the first to expire in front; then those that end, the last to expire in front.
    let (mut shelves, mut ending): (Vec<Shelf<'_>>, Vec<Shelf<'_>>) = shelves
        .into_iter()
        .partition(|shelf| shelf.until >= wanted.last_day);
    shelves.sort_by_key(|shelf| (shelf.until, shelf.name));
    ending.sort_by_key(|shelf| (Reverse(shelf.until), shelf.name));
    let for_all = shelves.iter().position(|shelf| {
        let packs = needs.iter().map(|need| need.packs(shelf.each));
        packs.fold(0, u64::saturating_add) <= u64::from(shelf.packs)
    });
    if let Some(shelf) = for_all {
        shelves.rotate_left(shelf);
    }
    let lasting = shelves.len();
    shelves.extend(ending);
    let bag = |need: &Need| Pick {
        passed_over: passed_over.clone(),
        ..fill(&mut shelves, lasting, *need, wanted)
    };
    needs.iter().map(bag).collect()
}

/// One bag; the first `lasting` shelves last long enough.
fn fill(shelves: &mut [Shelf<'_>], lasting: usize, need: Need, wanted: &Wanted<'_>) -> Pick {
    let mut pick = Pick::default();
    let covers = |shelf: &Shelf<'_>| need.packs(shelf.each) <= u64::from(shelf.packs);
    let alone = shelves.iter().take(lasting).position(covers);
    let mut open = need;
    for (at, shelf) in shelves.iter_mut().enumerate() {
        if open.is_nothing() {
            break;
        }
        if alone.is_some_and(|alone| alone != at) {
            continue;
        }
        let packs = u32::try_from(open.packs(shelf.each).min(u64::from(shelf.packs)));
        let packs = packs.unwrap_or(shelf.packs);
        if packs == 0 {
            continue;
        }
        shelf.packs -= packs;
        open = open.without(packs, shelf.each);
        pick.expires_in_course |= at >= lasting;
        let until = pick
            .good_until
            .map_or(shelf.until, |day| day.min(shelf.until));
        pick.good_until = Some(until);
        pick.takes.push(Take {
            lot: shelf.name.clone(),
            packs,
            each: shelf.each,
        });
    }
    pick.short = u32::try_from(open.packs(wanted.each)).unwrap_or(u32::MAX);
    pick
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
