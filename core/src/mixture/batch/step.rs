//! All states that can follow the states of one round.
//!
//! For each state and each number of bowls, doses of the next round are added one by one, large ones first, as long
//! as the bowls hold them and something new may come of it.
//! Invariants: a state is left out only when another one in the frontier is at least as good; `complete` is said
//! only when nothing was left out for want of effort.

use super::frontier::{CLASSES, Covered, Entry, Frontier, lane};
use super::leg::Leg;
use super::packing::{Fit, MEASURES};

/// Search steps per question whether doses fit.
#[derive(Debug, Clone, Copy)]
pub(super) struct Effort(pub u64);

/// All states of the next round worth going on from.
pub(super) fn advance(leg: &mut Leg, from: &Frontier, effort: Effort) -> (Frontier, bool) {
    let mut next = Frontier::new(&leg.next, leg.capacity);
    let mut complete = true;
    let all = leg.next.all();
    let mut least: Vec<u32> = from
        .entries
        .iter()
        .map(|entry| leg.least_bowls(entry.covered))
        .collect();
    let Some(mut price) = from
        .entries
        .iter()
        .zip(&least)
        .map(|(entry, least)| entry.bowls + least)
        .min()
    else {
        return (next, true);
    };
    while !next.dominates(&leg.next, all, price, leg.capacity) {
        for (index, entry) in from.entries.iter().enumerate() {
            let due = leg.now.doses() - entry.covered.doses();
            let Some(bowls) = price
                .checked_sub(entry.bowls)
                .filter(|&bowls| bowls >= least[index] && bowls <= due)
            else {
                continue;
            };
            let worth = leg.worth_left(entry.covered, bowls);
            let counts = leg.counts(entry.covered, Covered::default());
            let totals = all.totals();
            let bowls = usize::try_from(bowls).unwrap_or(usize::MAX);
            let entry = Entry {
                bowls: price,
                from: index,
                ..*entry
            };
            let mut step = Step {
                leg: &mut *leg,
                next: &mut next,
                effort,
                complete: true,
                entry,
                bowls,
                counts,
                totals,
                most: totals,
            };
            match step.begin(worth) {
                Some(spot) => {
                    if !step.useless(0, &spot) && step.limit() {
                        step.extend(0, spot);
                    }
                }
                None => least[index] += 1,
            }
            complete &= step.complete;
        }
        price += 1;
        if from
            .entries
            .iter()
            .all(|entry| price > entry.bowls + leg.now.doses())
        {
            break;
        }
    }
    (next, complete)
}

/// One step of the search: all that can be covered ahead from one state with so many bowls.
struct Step<'a> {
    leg: &'a mut Leg,
    next: &'a mut Frontier,
    effort: Effort,
    complete: bool,
    entry: Entry,
    bowls: usize,
    counts: Vec<u32>,
    /// Running totals of all doses of the next round.
    totals: [u8; CLASSES],
    /// No more doses than this can be covered up to each class, whichever they are.
    most: [u8; CLASSES],
}

#[derive(Debug, Clone)]
struct Spot {
    covered: [u8; CLASSES],
    total: u8,
    /// Doses taken or passed by.
    passed: u8,
    /// Worth still to be had, per measure.
    worth: [u64; MEASURES],
    /// Room in each bowl of one filling.
    rooms: Vec<u32>,
}

impl Step<'_> {
    /// Fills the bowls with what is due now; `None` when it does not fit.
    fn begin(&mut self, worth: [u64; MEASURES]) -> Option<Spot> {
        match self
            .leg
            .packing
            .fill(&self.counts, self.bowls, self.effort.0)
        {
            Fit::Yes => {}
            Fit::No => return None,
            Fit::Unknown => {
                self.complete = false;
                return None;
            }
        }
        Some(Spot {
            covered: [0; CLASSES],
            total: 0,
            passed: 0,
            worth,
            rooms: self.rooms(),
        })
    }

    /// For each class, finds the most doses of it and larger ones that can be covered: the smallest of them.
    /// Says whether anything new may come of it.
    fn limit(&mut self) -> bool {
        let mut most = 0u8;
        for class in 0..self.leg.next.len() {
            for _ in 0..self.leg.next.counts[class] {
                let mut counts = self.counts.clone();
                let mut wanted = u32::from(most) + 1;
                for index in (0..=class).rev() {
                    let take = wanted.min(self.leg.next.counts[index]);
                    counts[self.leg.next_slot[index]] += take;
                    wanted -= take;
                }
                match self.leg.packing.fits(&counts, self.bowls, self.effort.0) {
                    // A limit may be too high, never too low.
                    Fit::Yes | Fit::Unknown => most += 1,
                    Fit::No => break,
                }
            }
            self.most[class] = most;
        }
        self.most[self.leg.next.len()..].fill(most);
        let best = Covered::from_totals(self.most);
        !self
            .next
            .dominates(&self.leg.next, best, self.entry.bowls, self.leg.capacity)
    }

    fn rooms(&self) -> Vec<u32> {
        self.leg.packing.rooms(self.bowls)
    }

    fn extend(&mut self, class: usize, spot: Spot) {
        if self.useless(class, &spot) {
            return;
        }
        if class == self.leg.next.len() {
            let covered = Covered::from_totals(spot.covered);
            let volume = self.leg.next.volume(covered);
            self.next.insert(Entry {
                covered,
                volume,
                ..self.entry
            });
            return;
        }
        let slot = self.leg.next_slot[class];
        let mut spots = vec![spot];
        for _ in 0..self.leg.next.counts[class] {
            self.counts[slot] += 1;
            let more = spots.last().and_then(|spot| self.add(class, spot));
            let Some(more) = more else {
                self.counts[slot] -= 1;
                break;
            };
            spots.push(more);
        }
        while let Some(mut spot) = spots.pop() {
            spot.passed = self.totals[class];
            self.extend(class + 1, spot);
            if !spots.is_empty() {
                self.counts[slot] -= 1;
            }
        }
    }

    /// The spot after one more dose of the class, which `counts` holds already; `None` when that does not fit or
    /// leads nowhere.
    fn add(&mut self, class: usize, spot: &Spot) -> Option<Spot> {
        let worth = self.leg.with_one_more(spot.worth, class)?;
        let mut more = Spot {
            rooms: Vec::new(),
            worth,
            ..*spot
        };
        more.passed += 1;
        more.total += 1;
        more.covered[class..].fill(more.total);
        let amount = self.leg.next.amounts[class];
        let tightest = spot
            .rooms
            .iter()
            .enumerate()
            .filter(|(_, room)| **room >= amount)
            .min_by_key(|(_, room)| **room);
        if let Some((index, _)) = tightest {
            more.rooms.clone_from(&spot.rooms);
            more.rooms[index] -= amount;
            return Some(more);
        }
        if self.useless(class, &more) {
            return None;
        }
        let before = self.leg.packing.nodes;
        match self
            .leg
            .packing
            .fits(&self.counts, self.bowls, self.effort.0)
        {
            // A known answer has no filling to go with it; the next dose is then a question again.
            Fit::Yes if self.leg.packing.nodes == before => {}
            Fit::Yes => more.rooms = self.rooms(),
            Fit::No => return None,
            Fit::Unknown => {
                self.complete = false;
                return None;
            }
        }
        Some(more)
    }

    /// Whether even more than anything reachable from here is no better than what is found already.
    fn useless(&mut self, class: usize, spot: &Spot) -> bool {
        let mut totals = spot.covered;
        let mut highest = spot.total;
        for (index, &amount) in self.leg.next.amounts.iter().enumerate().skip(class) {
            let room = u32::try_from(spot.worth[0] / u64::from(amount)).unwrap_or(u32::MAX);
            highest = highest.max(spot.total + (self.totals[index] - spot.passed).min(lane(room)));
            highest = highest.min(self.most[index]);
            totals[index] = highest;
        }
        totals[self.leg.next.len()..].fill(highest);
        self.next.dominates(
            &self.leg.next,
            Covered::from_totals(totals),
            self.entry.bowls,
            self.leg.capacity,
        )
    }
}
