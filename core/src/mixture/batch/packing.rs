//! Whether a set of doses fits into so many bowls, exactly.
//!
//! Bowls are filled one after the other: the largest dose that is left opens the next bowl, and only fillings that
//! no single further or larger dose could improve are tried.
//! Invariants: `Fit::Yes` comes with a filling that uses every dose once, `Fit::No` is a proof, and
//! `Fit::Unknown` says that the allowed effort ran out.

use std::collections::BTreeMap;

use super::bounds::measures;
use super::misfits::{Key, Misfits};

/// The answer of a search.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Fit {
    Yes,
    No,
    Unknown,
}

/// Measures a search keeps in view, the volume first.
pub(super) const MEASURES: usize = 8;

/// What the bowls may still fall short of their worth, per measure.
pub(super) type Slack = [u64; MEASURES];

/// A measure of the doses asked about.
#[derive(Debug, Clone, Default)]
pub(super) struct Worth {
    pub bowl: u64,
    pub rests: Vec<u64>,
    /// Per class.
    pub doses: Vec<u64>,
}

/// Room in a bowl that is already open, and from which class on doses may use it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Rest {
    pub left: u32,
    /// Doses of classes marked as ahead may come from it.
    pub ahead: bool,
}

const NEXT_BOWL: usize = usize::MAX;

/// The search, with its room to work in.
#[derive(Debug, Default)]
pub(super) struct Packing {
    capacity: u32,
    /// Amount per class, never rising.
    amounts: Vec<u32>,
    /// Classes that belong to a later round (only asked for open bowls).
    ahead: Vec<bool>,
    counts: Vec<u32>,
    rests: Vec<Rest>,
    worth: Vec<Worth>,
    filled: Vec<usize>,
    /// Steps of search done so far, over all questions.
    pub nodes: u64,
    limit: u64,
    misfits: Misfits,
}

impl Packing {
    /// Classes of doses by amount, largest first; `ahead` may be shorter (then false).
    pub(super) fn new(capacity: u32, amounts: Vec<u32>, ahead: Vec<bool>, rests: Vec<Rest>) -> Self {
        let mut doses: BTreeMap<u32, u64> = BTreeMap::new();
        for &amount in &amounts {
            *doses.entry(amount).or_default() += 1;
        }
        let mut known = measures(capacity, &doses, MEASURES);
        known.sort_by_key(|measure| !measure.is_volume());
        let worth = known
            .iter()
            .map(|measure| Worth {
                bowl: measure.whole,
                rests: rests.iter().map(|rest| measure.value(rest.left)).collect(),
                doses: amounts.iter().map(|&amount| measure.value(amount)).collect(),
            })
            .collect();
        Self { capacity, amounts, ahead, rests, worth, ..Self::default() }
    }

    /// The measures, the volume first.
    pub(super) fn worth(&self) -> &[Worth] {
        &self.worth
    }

    /// How far so many bowls exceed the worth of the doses; `None` when they fall short.
    fn slack(&self, counts: &[u32], bowls: usize) -> Option<Slack> {
        let bowls = u64::try_from(bowls).unwrap_or(u64::MAX);
        let mut slack = [0; MEASURES];
        for (slack, worth) in slack.iter_mut().zip(&self.worth) {
            let need: u64 = worth.doses.iter().zip(counts).map(|(&worth, &n)| worth * u64::from(n)).sum();
            let open: u64 = worth.rests.iter().sum();
            *slack = open.saturating_add(bowls.saturating_mul(worth.bowl)).checked_sub(need)?;
        }
        Some(slack)
    }

    /// Whether `counts` doses per class fit into the open rests and `bowls` new bowls.
    pub(super) fn fits(&mut self, counts: &[u32], bowls: usize, effort: u64) -> Fit {
        self.counts.clear();
        self.counts.extend_from_slice(counts);
        self.filled.clear();
        self.limit = self.nodes.saturating_add(effort);
        match self.slack(counts, bowls) {
            None => Fit::No,
            Some(slack) => self.fill_rest(0, bowls, slack),
        }
    }

    /// After `Fit::Yes`: the classes in each bowl, open rests first, then the new bowls.
    pub(super) fn filling(&self) -> Vec<Vec<usize>> {
        let mut bowls = Vec::new();
        let mut bowl = Vec::new();
        for &class in &self.filled {
            if class == NEXT_BOWL {
                bowls.push(std::mem::take(&mut bowl));
            } else {
                bowl.push(class);
            }
        }
        bowls
    }

    /// After `Fit::Yes`: the room left that doses ahead may still use, in each bowl.
    pub(super) fn rooms(&self, bowls: usize) -> Vec<u32> {
        let filled = self.filling();
        let rests = self.rests.len();
        let room = |index: usize| {
            let whole = index.checked_sub(rests).map_or_else(|| self.rests[index].left, |_| self.capacity);
            let taken = filled.get(index).map_or(0, |bowl| bowl.iter().map(|&class| self.amounts[class]).sum());
            whole - taken
        };
        (0..rests + bowls).filter(|&index| self.rests.get(index).is_none_or(|rest| rest.ahead)).map(room).collect()
    }

    fn fill_rest(&mut self, index: usize, bowls: usize, slack: Slack) -> Fit {
        match self.rests.get(index).copied() {
            Some(rest) => self.complete(0, rest.left, slack, bowls, Place::Rest(index, rest.ahead)),
            None => self.fill_bowl(0, bowls, slack),
        }
    }

    fn fill_bowl(&mut self, from: usize, bowls: usize, slack: Slack) -> Fit {
        let Some(first) = (from..self.counts.len()).find(|&class| self.counts[class] > 0) else {
            return Fit::Yes;
        };
        if bowls == 0 {
            return Fit::No;
        }
        if bowls == 1 {
            // The slack has never been negative, so what is left fits.
            for class in first..self.counts.len() {
                for _ in 0..self.counts[class] {
                    self.filled.push(class);
                }
            }
            self.filled.push(NEXT_BOWL);
            return Fit::Yes;
        }
        let key = Key::of(&self.counts);
        if key.is_some_and(|key| self.misfits.holds(key, bowls)) {
            return Fit::No;
        }
        self.counts[first] -= 1;
        self.filled.push(first);
        let room = self.capacity - self.amounts[first];
        let fit = self.complete(first, room, slack, bowls - 1, Place::Bowl(first));
        if fit != Fit::Yes {
            self.filled.pop();
        }
        self.counts[first] += 1;
        if let (Fit::No, Some(key)) = (fit, key) {
            self.misfits.note(key, bowls);
        }
        fit
    }

    fn complete(&mut self, from: usize, room: u32, slack: Slack, bowls: usize, place: Place) -> Fit {
        self.nodes += 1;
        if self.nodes > self.limit {
            return Fit::Unknown;
        }
        let classes = self.counts.len();
        let next = (from..classes)
            .find(|&class| self.counts[class] > 0 && self.amounts[class] <= room && self.allowed(class, place));
        let Some(class) = next else {
            return self.close(room, slack, bowls, place);
        };
        let amount = self.amounts[class];
        let most = self.counts[class].min(room / amount);
        let mark = self.filled.len();
        for take in (0..=most).rev() {
            self.counts[class] -= take;
            for _ in 0..take {
                self.filled.push(class);
            }
            let fit = self.complete(class + 1, room - take * amount, slack, bowls, place);
            self.counts[class] += take;
            if fit != Fit::No {
                return fit;
            }
            self.filled.truncate(mark);
        }
        Fit::No
    }

    /// The bowl is as full as this branch makes it.
    fn close(&mut self, room: u32, slack: Slack, bowls: usize, place: Place) -> Fit {
        let Some(slack) = self.after(slack, place) else {
            return Fit::No;
        };
        if self.improvable(room, place) {
            return Fit::No;
        }
        self.filled.push(NEXT_BOWL);
        let fit = match place {
            Place::Rest(index, _) => self.fill_rest(index + 1, bowls, slack),
            Place::Bowl(first) => self.fill_bowl(first, bowls, slack),
        };
        if fit != Fit::Yes {
            self.filled.pop();
        }
        fit
    }

    /// What slack is left when the bowl being filled stays as it is.
    fn after(&self, mut slack: Slack, place: Place) -> Option<Slack> {
        let inside = self.filled.get(self.bowl_start()..).unwrap_or_default();
        for (slack, worth) in slack.iter_mut().zip(&self.worth) {
            let bowl = match place {
                Place::Rest(index, _) => worth.rests[index],
                Place::Bowl(_) => worth.bowl,
            };
            let held: u64 = inside.iter().map(|&class| worth.doses[class]).sum();
            *slack = slack.checked_sub(bowl.saturating_sub(held))?;
        }
        Some(slack)
    }

    fn bowl_start(&self) -> usize {
        self.filled.iter().rposition(|&class| class == NEXT_BOWL).map_or(0, |at| at + 1)
    }

    /// Whether one more dose fits, or a larger dose fits in the place of one that is in: another branch then does
    /// at least as well.
    fn improvable(&self, room: u32, place: Place) -> bool {
        let anchor = usize::from(matches!(place, Place::Bowl(_)));
        let inside = self.filled.get(self.bowl_start() + anchor..).unwrap_or_default();
        (0..self.counts.len()).filter(|&class| self.counts[class] > 0 && self.allowed(class, place)).any(|class| {
            let amount = self.amounts[class];
            amount <= room
                || inside.iter().any(|&held| {
                    self.amounts[held] < amount && amount - self.amounts[held] <= room && self.same_kind(held, class)
                })
        })
    }

    /// A swap is an improvement only when the two doses may use the same rests.
    fn same_kind(&self, one: usize, other: usize) -> bool {
        self.is_ahead(one) == self.is_ahead(other)
    }

    fn is_ahead(&self, class: usize) -> bool {
        self.ahead.get(class).copied().unwrap_or(false)
    }

    fn allowed(&self, class: usize, place: Place) -> bool {
        match place {
            Place::Rest(_, ahead) => ahead || !self.is_ahead(class),
            Place::Bowl(_) => true,
        }
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Place {
    Rest(usize, bool),
    Bowl(usize),
}
