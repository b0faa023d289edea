//! The shortest way through a course whose bowls serve their own round and the next.
//!
//! What passes from one round to the next is only which of its doses are covered already.
//! A step from round to round costs as many bowls as its uncovered doses and the doses it covers ahead need,
//! packed exactly.
//! Invariants: a way is dropped only when another one is at least as short, or when it cannot become shorter than
//! `upper`; `complete` is said only when nothing was dropped for want of effort.

use std::collections::BTreeMap;

use super::bounds::{Measure, Outlook};
use super::course::{Course, Draft, Fill, Part};
use super::frontier::{CLASSES, Classes, Covered, Entry, Frontier, lane};
use super::packing::{Fit, MEASURES, Packing, Rest};

/// How much a search may do in one round.
#[derive(Debug, Clone, Copy)]
struct Limits {
    /// States kept.
    width: usize,
    /// Search steps per question whether doses fit.
    effort: u64,
}

/// Search steps to find out in how few bowls the doses covered ahead find room.
const COVERING: u64 = 3_000;
/// Steps whose findings are kept at a time.
const LEGS: usize = 4;
const WIDE: Limits = Limits {
    width: 4_000,
    effort: 200_000,
};
/// What a search falls back to when it has used up its effort.
const NARROW: Limits = Limits {
    width: 6,
    effort: 300,
};

/// The states passed through, and what they cost.
#[derive(Debug, Clone, Default)]
pub(super) struct Way {
    /// Covered doses of each round, one more than the course has rounds.
    pub covered: Vec<Covered>,
    /// New bowls made in each round.
    pub bowls: Vec<usize>,
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
    rests: usize,
    /// Rounds it was used for.
    rounds: Vec<usize>,
    /// Per measure: the worth of a bowl, of all open rests, of each class now, and of each class ahead.
    worth: Vec<(u64, u64, Vec<u64>, Vec<u64>)>,
}

/// Whether the states of this course can be told apart here.
pub(super) fn suits(course: &Course) -> bool {
    course
        .rounds
        .iter()
        .enumerate()
        .all(|(index, round)| round.last <= index + 1)
        && course
            .open
            .iter()
            .all(|open| open.last <= course.rounds.first().map_or(0, |round| round.last))
        && (0..course.rounds.len()).all(|index| classes(course, index).is_some())
}

fn classes(course: &Course, round: usize) -> Option<Classes> {
    match course.rounds.get(round) {
        Some(round) => Classes::new(round.doses.iter().map(|dose| dose.amount)),
        None => Some(Classes::default()),
    }
}

impl Leg {
    /// The step from `round` to the next; the first `plain` of its new bowls are asked to cover nothing ahead.
    pub(super) fn new(course: &Course, round: usize, plain: usize) -> Self {
        let now = classes(course, round).unwrap_or_default();
        let reaches = course.rounds.get(round).is_some_and(|at| at.last > round);
        let next = if reaches {
            classes(course, round + 1).unwrap_or_default()
        } else {
            Classes::default()
        };
        let opened = if round == 0 { &course.open[..] } else { &[] };
        let mut rests: Vec<Rest> = opened
            .iter()
            .map(|open| Rest {
                left: open.left,
                ahead: open.last > 0,
            })
            .collect();
        rests.resize(
            rests.len() + plain,
            Rest {
                left: course.capacity,
                ahead: false,
            },
        );
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
                .map(|&amount| {
                    slots
                        .keys()
                        .position(|slot| *slot == key(amount, ahead))
                        .unwrap_or(0)
                })
                .collect()
        };
        let (now_slot, next_slot) = (slot_of(&now, false), slot_of(&next, true));
        let kinds: Vec<(u32, bool)> = slots
            .keys()
            .map(|(amount, ahead)| (amount.0, *ahead))
            .collect();
        let packing = Packing::new(course.capacity, &kinds, rests);
        let worth = packing
            .worth()
            .iter()
            .map(|worth| {
                let of = |slots: &[usize]| slots.iter().map(|&slot| worth.doses[slot]).collect();
                (
                    worth.bowl,
                    worth.rests.iter().sum(),
                    of(&now_slot),
                    of(&next_slot),
                )
            })
            .collect();
        let (slots, rests, rounds) = (slots.len(), packing.rests(), Vec::new());
        Self {
            capacity: course.capacity,
            now,
            next,
            packing,
            now_slot,
            next_slot,
            slots,
            rests,
            rounds,
            worth,
        }
    }

    fn same(&self, other: &Self) -> bool {
        self.rests == 0 && other.rests == 0 && self.now == other.now && self.next == other.next
    }

    /// The states after `round`, when the states before it are those before an earlier such round, but for a
    /// number of bowls that all have in common.
    fn again(&self, frontiers: &[Frontier], round: usize) -> Option<Frontier> {
        self.rounds.iter().rev().find_map(|&earlier| {
            let apart = frontiers[round].shift_from(&frontiers[earlier])?;
            Some(frontiers[earlier + 1].shifted(apart))
        })
    }

    /// Doses per slot when `done` are covered and `ahead` are to be.
    fn counts(&self, done: Covered, ahead: Covered) -> Vec<u32> {
        let mut counts = vec![0; self.slots];
        let open = self
            .now
            .counts
            .iter()
            .zip(done.counts(self.now.len()))
            .map(|(all, done)| all - done);
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

    fn fill(&mut self, done: Covered, ahead: Covered, bowls: usize, effort: u64) -> Fit {
        let counts = self.counts(done, ahead);
        self.packing.fill(&counts, bowls, effort)
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
    /// No more doses than this can be covered up to each class, whichever they are.
    limits_by_class: [u8; CLASSES],
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
        let effort = self.limits.effort;
        match self.leg.packing.fill(&self.counts, self.bowls, effort) {
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

    /// For each class, the most doses of it and larger ones that can be covered: the smallest of them.
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
                match self
                    .leg
                    .packing
                    .fits(&counts, self.bowls, self.limits.effort)
                {
                    Fit::Yes => most += 1,
                    Fit::No => break,
                    Fit::Unknown => {
                        self.complete = false;
                        break;
                    }
                }
            }
            self.limits_by_class[class] = most;
        }
        self.limits_by_class[self.leg.next.len()..].fill(most);
        let best = Covered::from_totals(self.limits_by_class);
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
            if self.entry.bowls.saturating_add((self.floor)(covered)) < self.upper {
                let volume = self.leg.next.volume(covered);
                self.next.insert(Entry {
                    covered,
                    volume,
                    ..self.entry
                });
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
        let mut more = Spot {
            rooms: Vec::new(),
            ..*spot
        };
        for (left, (_, _, _, values)) in more.worth.iter_mut().zip(&self.leg.worth) {
            *left = left.checked_sub(values[class])?;
        }
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
            .fits(&self.counts, self.bowls, self.limits.effort)
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
            highest = highest.min(self.limits_by_class[index]);
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

/// What a search found.
pub(super) struct Found {
    /// A way with fewer than `upper` bowls.
    pub way: Option<Way>,
    /// Whether no shorter way, or without a way no way below `upper`, exists.
    pub complete: bool,
}

/// Looks for the shortest way with fewer than `upper` bowls; after `effort` search steps only roughly.
pub(super) fn search(
    course: &Course,
    outlook: &Outlook,
    upper: Option<usize>,
    effort: u64,
    tell: &mut dyn FnMut(usize, usize),
) -> Found {
    let upper = upper
        .and_then(|upper| u32::try_from(upper).ok())
        .unwrap_or(u32::MAX);
    let mut frontiers = vec![Frontier::start()];
    let mut legs: Vec<Leg> = Vec::new();
    let mut complete = true;
    let mut steps = 0u64;
    for round in 0..course.rounds.len() {
        // The same doses meet again and again: what was found out about them stays.
        let leg = Leg::new(course, round, 0);
        let index = legs
            .iter()
            .position(|known| known.same(&leg))
            .unwrap_or_else(|| {
                if legs.len() == LEGS {
                    legs.remove(0);
                }
                legs.push(leg);
                legs.len() - 1
            });
        let leg = &mut legs[index];
        let before = leg.packing.nodes;
        let limits = if steps < effort { WIDE } else { NARROW };
        let next = if upper == u32::MAX {
            leg.again(&frontiers, round)
        } else {
            None
        };
        let next = next.unwrap_or_else(|| {
            let floor = floor(outlook, round + 1, &leg.next);
            let (mut next, whole) = advance(leg, &frontiers[round], &floor, upper, limits);
            complete &= whole & !next.narrow(limits.width, course.capacity);
            steps = steps
                .saturating_add(leg.packing.nodes - before)
                .saturating_add(next.looks / 16);
            next
        });
        leg.rounds.push(round);
        frontiers.push(next);
        tell(round + 1, course.rounds.len());
    }
    Found {
        way: trace(&frontiers),
        complete,
    }
}

/// The fewest bowls still to come once some doses of the round are covered.
fn floor<'a>(
    outlook: &'a Outlook,
    round: usize,
    doses: &Classes,
) -> impl Fn(Covered) -> u32 + use<'a> {
    let value = |measure: &Measure| {
        doses
            .amounts
            .iter()
            .map(|&amount| measure.value(amount))
            .collect()
    };
    let values: Vec<Vec<u64>> = outlook.measures.iter().map(value).collect();
    let classes = doses.len();
    move |covered: Covered| {
        let counts = covered.counts(classes);
        outlook.at_least(round, |which| {
            values[which]
                .iter()
                .zip(&counts)
                .map(|(value, &count)| value * u64::from(count))
                .sum()
        })
    }
}

/// The way to the cheapest state of the last round.
fn trace(frontiers: &[Frontier]) -> Option<Way> {
    let mut way = Way::default();
    let mut index = 0;
    for frontier in frontiers.iter().rev() {
        let entry = frontier.entries.get(index)?;
        way.covered.push(entry.covered);
        way.bowls.push(usize::try_from(entry.bowls).ok()?);
        index = entry.from;
    }
    way.covered.reverse();
    way.bowls.reverse();
    way.bowls = way.bowls.windows(2).map(|pair| pair[1] - pair[0]).collect();
    Some(way)
}

/// All states of the next round worth going on from.
fn advance(
    leg: &mut Leg,
    from: &Frontier,
    floor: &dyn Fn(Covered) -> u32,
    upper: u32,
    limits: Limits,
) -> (Frontier, bool) {
    let mut next = Frontier::default();
    let mut complete = true;
    let all = leg.next.all();
    let mut least: Vec<u32> = from
        .entries
        .iter()
        .map(|entry| least_bowls(leg, entry.covered))
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
    let best = floor(all);
    while price.saturating_add(best) < upper
        && !next.dominates(&leg.next.clone(), all, price, leg.capacity)
    {
        for (index, entry) in from.entries.iter().enumerate() {
            let due = leg.now.doses() - entry.covered.doses();
            let Some(bowls) = price
                .checked_sub(entry.bowls)
                .filter(|&bowls| bowls >= least[index] && bowls <= due)
            else {
                continue;
            };
            let worth = worth_left(leg, entry.covered, bowls);
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
                floor,
                upper,
                limits,
                complete: true,
                entry,
                bowls,
                counts,
                totals,
                limits_by_class: totals,
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

/// The worth that bowls and open rests hold beyond what is due now.
fn worth_left(leg: &Leg, done: Covered, bowls: u32) -> [u64; MEASURES] {
    let done = done.counts(leg.now.len());
    let mut left = [0; MEASURES];
    for (left, (whole, open, values, _)) in left.iter_mut().zip(&leg.worth) {
        let counts = leg
            .now
            .counts
            .iter()
            .zip(&done)
            .map(|(all, done)| u64::from(all - done));
        let due: u64 = counts.zip(values).map(|(count, value)| count * value).sum();
        *left = (u64::from(bowls) * whole + open).saturating_sub(due);
    }
    left
}

fn least_bowls(leg: &Leg, done: Covered) -> u32 {
    let done = done.counts(leg.now.len());
    let bowls = leg.worth.iter().map(|(whole, open, values, _)| {
        let counts = leg
            .now
            .counts
            .iter()
            .zip(&done)
            .map(|(all, done)| u64::from(all - done));
        let due: u64 = counts.zip(values).map(|(count, value)| count * value).sum();
        due.saturating_sub(*open).div_ceil(*whole)
    });
    u32::try_from(bowls.max().unwrap_or(0)).unwrap_or(u32::MAX)
}

/// The bowls of a way, filled.
pub(super) fn draft(course: &Course, way: &Way) -> Option<Draft> {
    let mut draft = Draft {
        bowls: Vec::new(),
        open: vec![Vec::new(); course.open.len()],
    };
    for round in 0..course.rounds.len() {
        pour(course, way, round, &mut draft)?;
    }
    Some(draft)
}

/// Fills the bowls of one round so that few of them stand covered until the next.
fn pour(course: &Course, way: &Way, round: usize, draft: &mut Draft) -> Option<()> {
    let (done, ahead, bowls) = (way.covered[round], way.covered[round + 1], way.bowls[round]);
    let volume = course
        .rounds
        .get(round + 1)
        .map_or(0, |_| Leg::new(course, round, 0).next.volume(ahead));
    let fewest = usize::try_from(volume.div_ceil(u64::from(course.capacity))).unwrap_or(bowls);
    let covering = (fewest.max(1)..bowls)
        .filter(|_| volume > 0)
        .find_map(|covering| {
            let mut leg = Leg::new(course, round, bowls - covering);
            (leg.fill(done, ahead, covering, COVERING) == Fit::Yes).then_some(leg)
        });
    let leg = match covering {
        Some(leg) => leg,
        None => {
            let mut leg = Leg::new(course, round, 0);
            if leg.fill(done, ahead, bowls, u64::MAX) != Fit::Yes {
                return None;
            }
            leg
        }
    };
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
    hand(
        round + 1,
        &leg.next,
        &leg.next_slot,
        &vec![0; leg.next.len()],
        &ahead,
    );
    let done = done.counts(leg.now.len());
    let open: Vec<u32> = leg
        .now
        .counts
        .iter()
        .zip(&done)
        .map(|(all, done)| all - done)
        .collect();
    hand(round, &leg.now, &leg.now_slot, &done, &open);
    let opened = if round == 0 { course.open.len() } else { 0 };
    for (index, bowl) in leg.packing.filling().into_iter().enumerate() {
        let parts: Vec<Part> = bowl
            .into_iter()
            .filter_map(|slot| due[slot].pop())
            .collect();
        if index < opened {
            draft.open[index] = parts;
        } else if !parts.is_empty() {
            draft.bowls.push(Fill { round, parts });
        }
    }
    Some(())
}
