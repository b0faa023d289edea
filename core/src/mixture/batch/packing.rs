//! Whether a set of doses fits into so many bowls, exactly.
//!
//! Bowls are filled one after the other: the largest dose that is left opens the next bowl, and only fillings that
//! no single further or larger dose could improve are tried.
//! Invariants: `Fit::Yes` comes with a filling that uses every dose once, `Fit::No` is a proof, and
//! `Fit::Unknown` says that the allowed effort ran out.

use std::collections::BTreeMap;

use super::bounds::measures;
use super::known::{Known, Totals};
use super::misfits::{Key, Misfits};

/// The answer of a search.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Fit {
    Yes,
    No,
    Unknown,
}

/// Measures a search keeps in view, the volume first.
const MEASURES: usize = 6;

/// By how much the bowls exceed the worth of the doses, per measure.
type Slack = [u64; MEASURES];

/// A measure of the doses asked about.
#[derive(Debug, Clone, Default)]
struct Worth {
    bowl: u64,
    rests: Vec<u64>,
    /// Per class.
    doses: Vec<u64>,
}

impl Worth {
    fn of(&self, counts: &[u32]) -> u64 {
        self.doses
            .iter()
            .zip(counts)
            .map(|(&worth, &count)| worth * u64::from(count))
            .sum()
    }
}

/// Room in a bowl that is already open.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Rest {
    pub left: u32,
    /// Whether doses marked as ahead may come from it.
    pub ahead: bool,
}

/// A bowl being filled: one already open, or a new one opened by a dose of this class.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Place {
    Rest(usize),
    Bowl(usize),
}

const NEXT_BOWL: usize = usize::MAX;

/// The search, with its room to work in.
#[derive(Debug, Default)]
pub(super) struct Packing {
    capacity: u32,
    /// Amount per class, never rising.
    amounts: Vec<u32>,
    /// Classes that belong to a later round, one bit each (only asked for open bowls).
    ahead: u64,
    rests: Vec<Rest>,
    worth: Vec<Worth>,
    /// Doses left per class, the classes that have any, and the same as one number.
    counts: Vec<u32>,
    live: u64,
    key: Option<Key>,
    filled: Vec<usize>,
    bowl_start: usize,
    /// Steps of search done so far, over all questions.
    pub nodes: u64,
    limit: u64,
    misfits: Misfits,
    known: Known,
}

impl Packing {
    /// Classes of doses by amount, largest first, at most 64, each with whether it is ahead.
    pub(super) fn new(capacity: u32, classes: &[(u32, bool)], rests: Vec<Rest>) -> Self {
        let amounts: Vec<u32> = classes.iter().map(|(amount, _)| *amount).collect();
        let ahead = classes
            .iter()
            .rev()
            .fold(0, |mask, (_, ahead)| (mask << 1) | u64::from(*ahead));
        let mut doses: BTreeMap<u32, u64> = BTreeMap::new();
        for &amount in &amounts {
            *doses.entry(amount).or_default() += 1;
        }
        let worth = measures(capacity, &doses, MEASURES)
            .iter()
            .map(|measure| Worth {
                bowl: measure.whole,
                rests: rests.iter().map(|rest| measure.value(rest.left)).collect(),
                doses: amounts
                    .iter()
                    .map(|&amount| measure.value(amount))
                    .collect(),
            })
            .collect();
        Self {
            capacity,
            amounts,
            ahead,
            rests,
            worth,
            ..Self::default()
        }
    }

    /// Bowls already open.
    pub(super) fn rests(&self) -> usize {
        self.rests.len()
    }

    /// The fewest new bowls that the worth of the doses allows.
    pub(super) fn least(&self, counts: &[u32]) -> u64 {
        let bowls = self.worth.iter().map(|worth| {
            let open: u64 = worth.rests.iter().sum();
            worth.of(counts).saturating_sub(open).div_ceil(worth.bowl)
        });
        bowls.max().unwrap_or(0)
    }

    /// Whether `counts` doses per class fit into the open rests and `bowls` new bowls; a yes comes without filling.
    pub(super) fn fits(&mut self, counts: &[u32], bowls: usize, effort: u64) -> Fit {
        // Rests that not every dose may use put the doses in no simple order.
        let totals = if self.rests.is_empty() {
            Totals::of(counts)
        } else {
            None
        };
        match totals.and_then(|totals| self.known.answer(totals, bowls)) {
            Some(true) => Fit::Yes,
            Some(false) => Fit::No,
            None => self.fill(counts, bowls, effort),
        }
    }

    /// As [`Packing::fits`], and a yes leaves the filling behind.
    pub(super) fn fill(&mut self, counts: &[u32], bowls: usize, effort: u64) -> Fit {
        let Some(slack) = self.slack(counts, bowls) else {
            return Fit::No;
        };
        self.counts.clear();
        self.counts.extend_from_slice(counts);
        self.live = counts
            .iter()
            .rev()
            .fold(0, |mask, &count| (mask << 1) | u64::from(count > 0));
        self.key = Key::of(counts);
        self.filled.clear();
        self.bowl_start = 0;
        self.limit = self.nodes.saturating_add(effort);
        let fit = self.fill_rest(0, bowls, slack);
        if self.rests.is_empty()
            && fit != Fit::Unknown
            && let Some(totals) = Totals::of(counts)
        {
            self.known.note(totals, bowls, fit == Fit::Yes);
        }
        fit
    }

    /// How far so many bowls exceed the worth of the doses; `None` when they fall short.
    fn slack(&self, counts: &[u32], bowls: usize) -> Option<Slack> {
        let bowls = u64::try_from(bowls).unwrap_or(u64::MAX);
        let mut slack = [0; MEASURES];
        for (slack, worth) in slack.iter_mut().zip(&self.worth) {
            let open: u64 = worth.rests.iter().sum();
            *slack = open
                .saturating_add(bowls.saturating_mul(worth.bowl))
                .checked_sub(worth.of(counts))?;
        }
        Some(slack)
    }

    /// After `Fit::Yes`: the classes in each bowl, open rests first, then the new bowls.
    pub(super) fn filling(&self) -> Vec<Vec<usize>> {
        let mut bowls: Vec<Vec<usize>> = self
            .filled
            .split(|&class| class == NEXT_BOWL)
            .map(<[usize]>::to_vec)
            .collect();
        bowls.pop();
        bowls
    }

    fn take(&mut self, class: usize, doses: u32) {
        self.counts[class] -= doses;
        if self.counts[class] == 0 {
            self.live &= !(1 << class);
        }
        if let Some(key) = &mut self.key {
            key.take(class, doses);
        }
        for _ in 0..doses {
            self.filled.push(class);
        }
    }

    /// Undoes [`Packing::take`], except that a filling found stays in `filled`.
    fn put_back(&mut self, class: usize, doses: u32) {
        if doses > 0 {
            self.counts[class] += doses;
            self.live |= 1 << class;
            if let Some(key) = &mut self.key {
                key.put_back(class, doses);
            }
        }
    }

    fn fill_rest(&mut self, index: usize, bowls: usize, slack: Slack) -> Fit {
        match self.rests.get(index).copied() {
            Some(rest) => self.complete(0, rest.left, slack, bowls, Place::Rest(index)),
            None => self.fill_bowl(bowls, slack),
        }
    }

    fn fill_bowl(&mut self, bowls: usize, slack: Slack) -> Fit {
        if self.live == 0 {
            return Fit::Yes;
        }
        if bowls == 0 {
            return Fit::No;
        }
        if bowls == 1 {
            // The slack has never been negative, so what is left fits.
            for (class, &count) in self.counts.iter().enumerate() {
                for _ in 0..count {
                    self.filled.push(class);
                }
            }
            self.filled.push(NEXT_BOWL);
            return Fit::Yes;
        }
        if self.key.is_some_and(|key| self.misfits.holds(key, bowls)) {
            return Fit::No;
        }
        let key = self.key;
        let first = first(self.live);
        let mark = self.filled.len();
        self.take(first, 1);
        let fit = self.complete(
            first,
            self.capacity - self.amounts[first],
            slack,
            bowls - 1,
            Place::Bowl(first),
        );
        self.put_back(first, 1);
        if fit != Fit::Yes {
            self.filled.truncate(mark);
        }
        if let (Fit::No, Some(key)) = (fit, key) {
            self.misfits.note(key, bowls);
        }
        fit
    }

    fn complete(
        &mut self,
        from: usize,
        room: u32,
        slack: Slack,
        bowls: usize,
        place: Place,
    ) -> Fit {
        self.nodes += 1;
        if self.nodes > self.limit {
            return Fit::Unknown;
        }
        let usable = self.usable(place);
        let mut left = usable
            & (u64::MAX
                .checked_shl(u32::try_from(from).unwrap_or(64))
                .unwrap_or(0));
        while left != 0 && self.amounts[first(left)] > room {
            left &= left - 1;
        }
        if left == 0 {
            return self.close(room, slack, bowls, place);
        }
        let class = first(left);
        let amount = self.amounts[class];
        let most = self.counts[class].min(room / amount);
        let mark = self.filled.len();
        // A new bowl that takes only one more dose takes the largest; in a rest, one of another kind may be better.
        let least =
            u32::from(matches!(place, Place::Bowl(_)) && room / 2 < self.amounts[last(usable)]);
        for take in (least..=most).rev() {
            self.take(class, take);
            let fit = self.complete(class + 1, room - take * amount, slack, bowls, place);
            self.put_back(class, take);
            if fit != Fit::No {
                return fit;
            }
            self.filled.truncate(mark);
        }
        Fit::No
    }

    /// The bowl is as full as this branch makes it.
    fn close(&mut self, room: u32, slack: Slack, bowls: usize, place: Place) -> Fit {
        if u64::from(room) > slack[0] || self.improvable(room, place) {
            return Fit::No;
        }
        let Some(slack) = self.after(slack, place) else {
            return Fit::No;
        };
        let start = self.bowl_start;
        self.filled.push(NEXT_BOWL);
        self.bowl_start = self.filled.len();
        let fit = match place {
            Place::Rest(index) => self.fill_rest(index + 1, bowls, slack),
            Place::Bowl(_) => self.fill_bowl(bowls, slack),
        };
        self.bowl_start = start;
        fit
    }

    /// What slack is left when the bowl being filled stays as it is.
    fn after(&self, mut slack: Slack, place: Place) -> Option<Slack> {
        let inside = &self.filled[self.bowl_start..];
        for (slack, worth) in slack.iter_mut().zip(&self.worth) {
            let bowl = match place {
                Place::Rest(index) => worth.rests[index],
                Place::Bowl(_) => worth.bowl,
            };
            let held: u64 = inside.iter().map(|&class| worth.doses[class]).sum();
            *slack = slack.checked_sub(bowl.saturating_sub(held))?;
        }
        Some(slack)
    }

    /// Whether one more dose fits, or a larger dose fits in the place of one that is in: another branch then does
    /// at least as well.
    fn improvable(&self, room: u32, place: Place) -> bool {
        let usable = self.usable(place);
        if usable != 0 && self.amounts[last(usable)] <= room {
            return true;
        }
        let anchor = usize::from(matches!(place, Place::Bowl(_)));
        self.filled[self.bowl_start + anchor..].iter().any(|&held| {
            // A swap is an improvement only when the two doses may use the same rests.
            let alike = if self.ahead >> held & 1 == 1 {
                self.ahead
            } else {
                !self.ahead
            };
            let larger = usable & alike & ((1 << held) - 1);
            larger != 0 && self.amounts[last(larger)] - self.amounts[held] <= room
        })
    }

    /// Classes that have doses left which may go into this bowl.
    fn usable(&self, place: Place) -> u64 {
        match place {
            Place::Rest(index) if !self.rests[index].ahead => self.live & !self.ahead,
            _ => self.live,
        }
    }
}

/// Lowest class of a set that is not empty.
fn first(set: u64) -> usize {
    usize::try_from(set.trailing_zeros()).unwrap_or(0)
}

/// Highest class of a set that is not empty.
fn last(set: u64) -> usize {
    usize::try_from(63 - set.leading_zeros().min(63)).unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Puts dose after dose into any bowl with room: slow, and without a thought.
    fn any_way(doses: &[(u32, bool)], bowls: &mut [(u32, bool)]) -> bool {
        let Some((&(amount, ahead), rest)) = doses.split_first() else {
            return true;
        };
        (0..bowls.len()).any(|index| {
            let (left, takes_ahead) = bowls[index];
            if left < amount || (ahead && !takes_ahead) {
                return false;
            }
            bowls[index].0 -= amount;
            let fits = any_way(rest, bowls);
            bowls[index].0 += amount;
            fits
        })
    }

    #[test]
    fn fits_exactly_when_some_way_fits() {
        let mut number = 12_345u32;
        let mut below = |most: u32| {
            number = number.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            (number >> 16) % most
        };
        for _ in 0..3_000 {
            let capacity = 6 + below(20);
            let mut doses: Vec<(u32, bool)> = (0..1 + below(8))
                .map(|_| (1 + below(capacity), below(2) == 1))
                .collect();
            doses.sort_unstable_by_key(|&(amount, ahead)| (std::cmp::Reverse(amount), ahead));
            let rests: Vec<Rest> = (0..below(3))
                .map(|_| Rest {
                    left: below(capacity + 1),
                    ahead: below(2) == 1,
                })
                .collect();
            let bowls = usize::try_from(below(5)).unwrap();
            let mut classes = doses.clone();
            classes.dedup();
            let counts: Vec<u32> = classes
                .iter()
                .map(|class| {
                    u32::try_from(doses.iter().filter(|dose| *dose == class).count()).unwrap()
                })
                .collect();
            let mut room: Vec<(u32, bool)> =
                rests.iter().map(|rest| (rest.left, rest.ahead)).collect();
            room.resize(room.len() + bowls, (capacity, true));
            let mut packing = Packing::new(capacity, &classes, rests);
            let fit = packing.fill(&counts, bowls, u64::MAX);
            assert_eq!(
                fit == Fit::Yes,
                any_way(&doses, &mut room),
                "{doses:?} {room:?}"
            );
            assert_eq!(packing.fits(&counts, bowls, u64::MAX), fit);
            if fit == Fit::Yes {
                packing.fill(&counts, bowls, u64::MAX);
                let mut left = counts.clone();
                for (bowl, (space, takes_ahead)) in packing.filling().into_iter().zip(room) {
                    assert!(bowl.iter().map(|&class| classes[class].0).sum::<u32>() <= space);
                    for class in bowl {
                        assert!(takes_ahead || !classes[class].1);
                        left[class] -= 1;
                    }
                }
                assert!(left.iter().all(|&count| count == 0), "{doses:?}");
            }
        }
    }

    #[test]
    fn too_little_effort_is_no_answer() {
        let mut packing = Packing::new(
            20,
            &[(9, false), (7, false), (5, false), (4, false)],
            Vec::new(),
        );
        assert_eq!(packing.fits(&[3, 3, 3, 3], 4, 1), Fit::Unknown);
        assert_ne!(packing.fits(&[3, 3, 3, 3], 4, 100_000), Fit::Unknown);
    }
}
