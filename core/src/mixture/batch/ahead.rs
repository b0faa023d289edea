//! The shortest way through a course whose bowls serve their own round and the next.
//!
//! What passes from one round to the next is only which of its doses are covered already.
//! A step from round to round costs as many bowls as its uncovered doses and the doses it covers ahead need,
//! packed exactly.
//! Invariants: a way is dropped only when another one is at least as short, or when it cannot become shorter than
//! `upper`; `complete` is said only when nothing was dropped for want of effort.

use std::collections::BTreeMap;

use super::bounds::Outlook;
use super::course::{Course, Draft, Fill, Part};
use super::frontier::{CLASSES, Classes, Covered, Entry, Frontier, lane};
use super::packing::{Fit, MEASURES, Packing, Rest};

/// How much a search may do.
#[derive(Debug, Clone, Copy)]
pub(super) struct Limits {
    /// States kept per round.
    pub width: usize,
    /// Search steps per question whether doses fit.
    pub effort: u64,
    /// Search steps over the whole course.
    pub total: u64,
}

/// The states passed through, and what they cost.
#[derive(Debug, Clone, Default)]
pub(super) struct Way {
    /// Covered doses of each round, one more than the course has rounds.
    pub covered: Vec<Covered>,
    /// New bowls made in each round.
    pub bowls: Vec<usize>,
    /// Whether no shorter way exists.
    pub complete: bool,
    /// Search steps done.
    pub nodes: u64,
}

impl Way {
    pub(super) fn count(&self) -> usize {
        self.bowls.iter().sum()
    }
}

/// Everything a step from one round to the next needs to know.
pub(super) struct Leg {
    capacity: u32,
    pub now: Classes,
    /// What may be covered ahead; empty when these bowls keep for their own round only.
    pub next: Classes,
    packing: Packing,
    now_slot: Vec<usize>,
    next_slot: Vec<usize>,
    slots: usize,
    /// Per measure: the worth of a bowl, of all open rests, of each class now, and of each class ahead.
    worth: Vec<(u64, u64, Vec<u64>, Vec<u64>)>,
}

/// Whether the states of this course can be told apart here.
pub(super) fn suits(course: &Course) -> bool {
    course.rounds.iter().enumerate().all(|(index, round)| round.last <= index + 1)
        && course.open.iter().all(|open| open.last <= 1)
        && (0..course.rounds.len()).all(|index| classes(course, index).is_some())
}

fn classes(course: &Course, round: usize) -> Option<Classes> {
    match course.rounds.get(round) {
        Some(round) => Classes::new(round.doses.iter().map(|dose| dose.amount)),
        None => Some(Classes::default()),
    }
}

impl Leg {
    pub(super) fn new(course: &Course, round: usize) -> Self {
        let now = classes(course, round).unwrap_or_default();
        let reaches = course.rounds.get(round).is_some_and(|at| at.last > round);
        let next = if reaches { classes(course, round + 1).unwrap_or_default() } else { Classes::default() };
        let rests: Vec<Rest> = if round == 0 {
            course.open.iter().map(|open| Rest { left: open.left, ahead: open.last > 0 }).collect()
        } else {
            Vec::new()
        };
        // Only a rest that is of no use ahead makes a difference between a dose now and the same amount later.
        let apart = rests.iter().any(|rest| !rest.ahead);
        let mut slots: BTreeMap<(std::cmp::Reverse<u32>, bool), u64> = BTreeMap::new();
        let key = |amount: u32, ahead: bool| (std::cmp::Reverse(amount), ahead && apart);
        for (classes, ahead) in [(&now, false), (&next, true)] {
            for (&amount, &count) in classes.amounts.iter().zip(&classes.counts) {
                *slots.entry(key(amount, ahead)).or_default() += u64::from(count);
            }
        }
        let slot_of = |classes: &Classes, ahead: bool| -> Vec<usize> {
            classes
                .amounts
                .iter()
                .map(|&amount| slots.keys().position(|slot| *slot == key(amount, ahead)).unwrap_or(0))
                .collect()
        };
        let (now_slot, next_slot) = (slot_of(&now, false), slot_of(&next, true));
        let amounts = slots.keys().map(|(amount, _)| amount.0).collect();
        let ahead = slots.keys().map(|(_, ahead)| *ahead).collect();
        let packing = Packing::new(course.capacity, amounts, ahead, rests);
        let worth = packing
            .worth()
            .iter()
            .map(|worth| {
                let of = |slots: &[usize]| slots.iter().map(|&slot| worth.doses[slot]).collect();
                (worth.bowl, worth.rests.iter().sum(), of(&now_slot), of(&next_slot))
            })
            .collect();
        let slots = slots.len();
        Self { capacity: course.capacity, now, next, packing, now_slot, next_slot, slots, worth }
    }

    /// Doses per slot when `done` are covered and `ahead` are to be.
    fn counts(&self, done: Covered, ahead: Covered) -> Vec<u32> {
        let mut counts = vec![0; self.slots];
        let open = self.now.counts.iter().zip(done.counts(self.now.len())).map(|(all, done)| all - done);
        for (&slot, count) in self.now_slot.iter().zip(open) {
            counts[slot] += count;
        }
        for (&slot, count) in self.next_slot.iter().zip(ahead.counts(self.next.len())) {
            counts[slot] += count;
        }
        counts
    }

    pub(super) fn fits(&mut self, done: Covered, ahead: Covered, bowls: usize, effort: u64) -> Fit {
        let counts = self.counts(done, ahead);
        self.packing.fits(&counts, bowls, effort)
    }
}

/// One step of the search: all that can be covered ahead from one state with so many bowls.
struct Step<'a> {
    leg: &'a mut Leg,
    next: &'a mut Frontier,
    floor: &'a dyn Fn(Covered) -> u32,
    upper: u32,
    limits: Limits,
    complete: bool,
    entry: Entry,
    bowls: usize,
    counts: Vec<u32>,
    /// Running totals of all doses of the next round.
    totals: [u8; CLASSES],
}

#[derive(Debug, Clone)]
struct Spot {
    covered: [u8; CLASSES],
    total: u8,
    /// Worth still to be had, per measure.
    worth: [u64; MEASURES],
    /// Room in each bowl of one filling.
    rooms: Vec<u32>,
}

impl Step<'_> {
    /// Fills the bowls with what is due now; `None` when it does not fit.
    fn begin(&mut self, worth: [u64; MEASURES]) -> Option<Spot> {
        let effort = self.limits.effort;
        match self.leg.packing.fits(&self.counts, self.bowls, effort) {
            Fit::Yes => {}
            Fit::No => return None,
            Fit::Unknown => {
                self.complete = false;
                return None;
            }
        }
        Some(Spot { covered: [0; CLASSES], total: 0, worth, rooms: self.rooms() })
    }

    fn rooms(&self) -> Vec<u32> {
        self.leg.packing.rooms(self.bowls)
    }

    fn extend(&mut self, class: usize, spot: Spot) {
        let covered = self.most_from(class, &spot);
        if self.next.dominates(&self.leg.next, covered, self.entry.bowls, self.leg.capacity) {
            return;
        }
        if class == self.leg.next.len() {
            if self.entry.bowls.saturating_add((self.floor)(covered)) < self.upper {
                self.next.insert(Entry { covered, ..self.entry });
            }
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
            for lane in &mut spot.covered[class..] {
                *lane = spot.total;
            }
            self.extend(class + 1, spot);
            if !spots.is_empty() {
                self.counts[slot] -= 1;
            }
        }
    }

    /// The spot after one more dose of the class, which `counts` holds already.
    fn add(&mut self, class: usize, spot: &Spot) -> Option<Spot> {
        let mut worth = spot.worth;
        for (left, (_, _, _, values)) in worth.iter_mut().zip(&self.leg.worth) {
            *left = left.checked_sub(values[class])?;
        }
        let amount = self.leg.next.amounts[class];
        let tightest = spot.rooms.iter().enumerate().filter(|(_, room)| **room >= amount).min_by_key(|(_, room)| **room);
        let rooms = if let Some((index, _)) = tightest {
            let mut rooms = spot.rooms.clone();
            rooms[index] -= amount;
            rooms
        } else {
            match self.leg.packing.fits(&self.counts, self.bowls, self.limits.effort) {
                Fit::Yes => self.rooms(),
                Fit::No => return None,
                Fit::Unknown => {
                    self.complete = false;
                    return None;
                }
            }
        };
        Some(Spot { covered: spot.covered, total: spot.total + 1, worth, rooms })
    }

    /// More than anything reachable from here covers.
    fn most_from(&self, class: usize, spot: &Spot) -> Covered {
        let before = class.checked_sub(1).map_or(0, |class| self.totals[class]);
        let mut totals = spot.covered;
        for (index, lane_total) in totals.iter_mut().enumerate().skip(class) {
            let Some(&amount) = self.leg.next.amounts.get(index) else {
                // Lanes past the last class repeat the total.
                *lane_total = 0;
                continue;
            };
            let room = u32::try_from(spot.worth[0] / u64::from(amount)).unwrap_or(u32::MAX);
            *lane_total = spot.total + (self.totals[index] - before).min(lane(room));
        }
        let mut highest = 0;
        for lane_total in &mut totals {
            highest = highest.max(*lane_total);
            *lane_total = highest;
        }
        Covered::from_totals(totals)
    }
}

/// Finds a way with fewer than `upper` bowls, or nothing.
pub(super) fn search(course: &Course, outlook: &Outlook, upper: usize, limits: Limits, tell: &mut dyn FnMut(usize, usize)) -> (Option<Way>, bool, u64) {
    let upper = u32::try_from(upper).unwrap_or(u32::MAX);
    let mut frontiers = vec![Frontier::start()];
    let mut complete = true;
    let mut nodes = 0u64;
    for round in 0..course.rounds.len() {
        let mut leg = Leg::new(course, round);
        let values: Vec<Vec<u64>> = outlook
            .measures
            .iter()
            .map(|measure| leg.next.amounts.iter().map(|&amount| measure.value(amount)).collect())
            .collect();
        let classes = leg.next.len();
        let floor = |covered: Covered| {
            let counts = covered.counts(classes);
            outlook.at_least(round + 1, |which| {
                values[which].iter().zip(&counts).map(|(value, &count)| value * u64::from(count)).sum()
            })
        };
        let (mut next, whole) = advance(&mut leg, &frontiers[round], &floor, upper, limits);
        complete &= whole;
        nodes = nodes.saturating_add(leg.packing.nodes);
        if next.narrow(limits.width, &leg.next, course.capacity) {
            complete = false;
        }
        frontiers.push(next);
        tell(round + 1, course.rounds.len());
        if nodes > limits.total {
            return (None, false, nodes);
        }
    }
    if frontiers.last().is_none_or(|last| last.entries.is_empty()) {
        return (None, complete, nodes);
    }
    let mut way = Way { complete, nodes, ..Way::default() };
    let mut index = 0;
    for frontier in frontiers.iter().rev() {
        let entry = frontier.entries[index];
        way.covered.push(entry.covered);
        way.bowls.push(usize::try_from(entry.bowls).unwrap_or(usize::MAX));
        index = entry.from;
    }
    way.covered.reverse();
    way.bowls.reverse();
    way.bowls = way.bowls.windows(2).map(|pair| pair[1] - pair[0]).collect();
    (Some(way), complete, nodes)
}

/// All states of the next round worth going on from.
fn advance(leg: &mut Leg, from: &Frontier, floor: &dyn Fn(Covered) -> u32, upper: u32, limits: Limits) -> (Frontier, bool) {
    let mut next = Frontier::default();
    let mut complete = true;
    let all = leg.next.all();
    let mut least: Vec<u32> = from.entries.iter().map(|entry| least_bowls(leg, entry.covered)).collect();
    let Some(mut price) = from.entries.iter().zip(&least).map(|(entry, least)| entry.bowls + least).min() else {
        return (next, true);
    };
    let best = floor(all);
    while price.saturating_add(best) < upper && !next.dominates(&leg.next.clone(), all, price, leg.capacity) {
        for (index, entry) in from.entries.iter().enumerate() {
            let due = leg.now.doses() - u32::from(entry.covered.totals()[CLASSES - 1]);
            let Some(bowls) = price.checked_sub(entry.bowls).filter(|&bowls| bowls >= least[index] && bowls <= due) else {
                continue;
            };
            let worth = worth_left(leg, entry.covered, bowls);
            let counts = leg.counts(entry.covered, Covered::default());
            let totals = all.totals();
            let bowls = usize::try_from(bowls).unwrap_or(usize::MAX);
            let entry = Entry { bowls: price, from: index, ..*entry };
            let mut step =
                Step { leg: &mut *leg, next: &mut next, floor, upper, limits, complete: true, entry, bowls, counts, totals };
            match step.begin(worth) {
                Some(spot) => step.extend(0, spot),
                None => least[index] += 1,
            }
            complete &= step.complete;
        }
        price += 1;
        if from.entries.iter().all(|entry| price > entry.bowls + leg.now.doses()) {
            break;
        }
    }
    (next, complete)
}

/// The worth that bowls and open rests hold beyond what is due now.
fn worth_left(leg: &Leg, done: Covered, bowls: u32) -> [u64; MEASURES] {
    let done = done.counts(leg.now.len());
    let mut left = [0; MEASURES];
    for (left, (whole, open, values, _)) in left.iter_mut().zip(&leg.worth) {
        let counts = leg.now.counts.iter().zip(&done).map(|(all, done)| u64::from(all - done));
        let due: u64 = counts.zip(values).map(|(count, value)| count * value).sum();
        *left = (u64::from(bowls) * whole + open).saturating_sub(due);
    }
    left
}

fn least_bowls(leg: &Leg, done: Covered) -> u32 {
    let done = done.counts(leg.now.len());
    let bowls = leg.worth.iter().map(|(whole, open, values, _)| {
        let counts = leg.now.counts.iter().zip(&done).map(|(all, done)| u64::from(all - done));
        let due: u64 = counts.zip(values).map(|(count, value)| count * value).sum();
        due.saturating_sub(*open).div_ceil(*whole)
    });
    u32::try_from(bowls.max().unwrap_or(0)).unwrap_or(u32::MAX)
}

/// The bowls of a way, filled.
pub(super) fn draft(course: &Course, way: &Way) -> Option<Draft> {
    let mut draft = Draft { bowls: Vec::new(), open: vec![Vec::new(); course.open.len()] };
    for (round, &bowls) in way.bowls.iter().enumerate() {
        let mut leg = Leg::new(course, round);
        let (done, ahead) = (way.covered[round], way.covered[round + 1]);
        if leg.fits(done, ahead, bowls, u64::MAX) != Fit::Yes {
            return None;
        }
        let mut due: Vec<Vec<Part>> = vec![Vec::new(); leg.slots];
        let mut hand = |at: usize, classes: &Classes, slots: &[usize], skip: &[u32], take: &[u32]| {
            let mut first = 0;
            for (class, &count) in classes.counts.iter().enumerate() {
                let from = first + usize::try_from(skip[class]).unwrap_or(0);
                let to = from + usize::try_from(take[class]).unwrap_or(0);
                due[slots[class]].extend((from..to).map(|position| course.whole(at, position)));
                first += usize::try_from(count).unwrap_or(0);
            }
        };
        let ahead = ahead.counts(leg.next.len());
        hand(round + 1, &leg.next, &leg.next_slot, &vec![0; leg.next.len()], &ahead);
        let done = done.counts(leg.now.len());
        let open: Vec<u32> = leg.now.counts.iter().zip(&done).map(|(all, done)| all - done).collect();
        hand(round, &leg.now, &leg.now_slot, &done, &open);
        let filling = leg.packing.filling();
        let rests = if round == 0 { course.open.len() } else { 0 };
        for (index, bowl) in filling.into_iter().enumerate() {
            let parts: Vec<Part> = bowl.into_iter().filter_map(|slot| due[slot].pop()).collect();
            if index < rests {
                draft.open[index] = parts;
            } else if !parts.is_empty() {
                draft.bowls.push(Fill { round, parts });
            }
        }
    }
    Some(draft)
}
