//! Lots on the shelves: what was counted last, and the movements since.
//!
//! A count is what it says at its place in the one order of all facts: what stands before it no longer matters,
//! so that two people who count one shelf at the same time do not both put the same difference right.

use std::collections::BTreeMap;

use jiff::civil::Date;

use crate::record::{Event, Fact, FactId, LotName, SiteEvent};

/// What stands on the shelves.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Stock {
    lots: BTreeMap<LotName, LotStock>,
    /// What came back of a hand-out so far, by lot.
    back: BTreeMap<(FactId, LotName), u64>,
}

/// One lot of one product, in packs.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct LotStock {
    /// As it was read last from the package; of several that were typed since, the earliest. None for a lot that was never received here.
    pub expiry: Option<Date>,
    /// Tablets, or millilitres, in one pack; of several, the smallest.
    pub each: u32,
    pub received: u64,
    pub out: u64,
    pub back: u64,
    /// What the last count put right in the sum of all that stands before it.
    pub counted: i64,
    /// Expiry dates or pack sizes that do not agree were entered, and nobody read the package since.
    pub unlike: bool,
}

/// What one fact does to a lot.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Movement<'a> {
    pub lot: &'a LotName,
    pub received: u64,
    pub out: u64,
    pub back: u64,
    /// So many are there, whatever was before.
    pub counted: Option<u32>,
    /// Said of the packs, where it was.
    pub words: Option<(Date, u32)>,
    /// The words are what the package says, whatever stands before them.
    pub is_reading: bool,
    /// The hand-out this came back from. However often it is said, that counts once: of several, the most.
    pub once: Option<FactId>,
}

impl<'a> Movement<'a> {
    /// Nothing for a fact that moves no stock.
    pub fn of(event: &'a Event) -> Option<Movement<'a>> {
        let Event::Site { site } = event else {
            return None;
        };
        let mut movement = Movement {
            lot: site.lot()?,
            received: 0,
            out: 0,
            back: 0,
            counted: None,
            words: None,
            is_reading: false,
            once: None,
        };
        match site {
            SiteEvent::LotReceived {
                packs,
                expiry,
                each,
                ..
            } => {
                movement.received = u64::from(*packs);
                movement.words = Some((*expiry, *each));
            }
            SiteEvent::LotOut { packs, .. } => movement.out = u64::from(*packs),
            SiteEvent::LotBack {
                packs, hand_out, ..
            } => {
                movement.back = u64::from(*packs);
                movement.once = Some(*hand_out);
            }
            SiteEvent::LotCounted { counted, .. } => movement.counted = Some(*counted),
            SiteEvent::LotRead { expiry, each, .. } => {
                movement.words = Some((*expiry, *each));
                movement.is_reading = true;
            }
            _ => return None,
        }
        Some(movement)
    }
}

impl LotStock {
    /// Packs on the shelf by the sum; below zero when more left than ever came.
    pub fn packs(&self) -> i64 {
        self.moved().saturating_add(self.counted)
    }

    /// The sum of all movements, as if nobody had ever counted.
    fn moved(&self) -> i64 {
        let sum = i128::from(self.received) - i128::from(self.out) + i128::from(self.back);
        i64::try_from(sum).unwrap_or(if sum < 0 { i64::MIN } else { i64::MAX })
    }

    /// So many were counted, and so much was moved since.
    pub fn set_count(&mut self, counted: u32, since: i64) {
        let there = i64::from(counted).saturating_add(since);
        self.counted = there.saturating_sub(self.moved());
    }

    /// Whether words change what is known of the package.
    pub fn is_news(&self, words: (Date, u32)) -> bool {
        self.expiry.is_some_and(|known| (known, self.each) != words)
    }

    /// Adds what a fact does that comes after all that is in; whoever calls sees to it that a return counts once.
    pub fn add(&mut self, movement: &Movement<'_>) {
        self.received = self.received.saturating_add(movement.received);
        self.out = self.out.saturating_add(movement.out);
        self.back = self.back.saturating_add(movement.back);
        if let Some(counted) = movement.counted {
            self.set_count(counted, 0);
        }
        let Some((expiry, each)) = movement.words else {
            return;
        };
        if movement.is_reading {
            (self.expiry, self.each, self.unlike) = (Some(expiry), each, false);
            return;
        }
        let agrees = self
            .expiry
            .is_none_or(|known| known == expiry && self.each == each);
        self.unlike |= !agrees;
        // The earliest and the smallest, so that the order of arrival does not matter.
        let first = self.expiry.is_none();
        self.expiry = Some(self.expiry.map_or(expiry, |known| known.min(expiry)));
        self.each = if first { each } else { self.each.min(each) };
    }
}

impl Stock {
    /// From facts in any order; what was recorded twice must be in once only.
    pub fn fold<'a>(facts: impl IntoIterator<Item = &'a Fact>) -> Stock {
        let moving = facts.into_iter().filter_map(|fact| {
            let movement = Movement::of(&fact.event)?;
            Some((fact.stamp, movement))
        });
        let mut moving: Vec<_> = moving.collect();
        moving.sort_by_key(|(stamp, _)| *stamp);
        let mut stock = Stock::default();
        for (_, movement) in moving {
            stock.take(movement);
        }
        stock
    }

    /// From sums that were kept.
    pub fn from_lots(lots: impl IntoIterator<Item = (LotName, LotStock)>) -> Stock {
        Stock {
            lots: lots.into_iter().collect(),
            back: BTreeMap::new(),
        }
    }

    fn take(&mut self, mut movement: Movement<'_>) {
        if let Some(hand_out) = movement.once {
            let key = (hand_out, movement.lot.clone());
            let so_far = self.back.entry(key).or_insert(0);
            let more = movement.back.saturating_sub(*so_far);
            *so_far = so_far.saturating_add(more);
            movement.back = more;
        }
        self.lots
            .entry(movement.lot.clone())
            .or_default()
            .add(&movement);
    }

    pub fn lots(&self) -> impl Iterator<Item = (&LotName, &LotStock)> {
        self.lots.iter()
    }

    pub fn lot(&self, name: &LotName) -> Option<&LotStock> {
        self.lots.get(name)
    }

    /// Packs of a product on the shelf; lots below zero count as none.
    pub fn packs_of(&self, product: &str) -> u64 {
        let mine = self.lots.iter().filter(|(name, _)| name.product == product);
        mine.filter_map(|(_, lot)| u64::try_from(lot.packs()).ok())
            .fold(0, u64::saturating_add)
    }
}
