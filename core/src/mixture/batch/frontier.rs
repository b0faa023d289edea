//! Which doses of the next round are covered, and which such states need no second look.
//!
//! A state counts covered doses per class of equal amount, largest class first, as running totals in byte lanes.
//! Invariants: every lane is at most `MOST`, lanes never fall, and a state is dropped only when another one in the
//! frontier leads to a plan with at most as many bowls.

/// Classes of equal amount that a state can tell apart.
pub(super) const CLASSES: usize = 16;
/// Doses that a lane can count.
pub(super) const MOST: u32 = 127;

const GUARD: u128 = u128::from_ne_bytes([0x80; CLASSES]);

/// Running totals of covered doses, largest amount first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub(super) struct Covered(u128);

impl Covered {
    pub(super) fn from_totals(totals: [u8; CLASSES]) -> Self {
        Self(u128::from_le_bytes(totals))
    }

    pub(super) fn totals(self) -> [u8; CLASSES] {
        self.0.to_le_bytes()
    }

    pub(super) fn doses(self) -> u32 {
        u32::from(self.totals()[CLASSES - 1])
    }

    /// Covered doses of each class.
    pub(super) fn counts(self, classes: usize) -> Vec<u32> {
        let mut before = 0;
        let totals = self.totals();
        totals
            .iter()
            .take(classes)
            .map(|&total| u32::from(total - std::mem::replace(&mut before, total)))
            .collect()
    }

    /// More covered than any lane of the two; no state of its own.
    fn with(self, more: Self) -> Self {
        Self(self.0 + more.0)
    }

    /// The least state that covers both.
    pub(super) fn join(self, other: Self) -> Self {
        let (mut totals, others) = (self.totals(), other.totals());
        for (total, other) in totals.iter_mut().zip(others) {
            *total = (*total).max(other);
        }
        Self::from_totals(totals)
    }

    /// Whether this state covers at least as many doses among the largest, however many one looks at: then the
    /// doses that remain are, one by one, no larger.
    pub(super) fn reaches(self, other: Self) -> bool {
        ((self.0 | GUARD) - other.0) & GUARD == GUARD
    }
}

/// The doses of a round by class.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Classes {
    /// Amounts, falling.
    pub amounts: Vec<u32>,
    pub counts: Vec<u32>,
}

impl Classes {
    /// From amounts that never rise; `None` when there are more than a state can hold.
    pub(super) fn new(falling: impl Iterator<Item = u32>) -> Option<Self> {
        let mut classes = Self::default();
        let mut doses = 0;
        for amount in falling {
            doses += 1;
            match classes.counts.last_mut() {
                Some(count) if classes.amounts.last() == Some(&amount) => *count += 1,
                _ => {
                    classes.amounts.push(amount);
                    classes.counts.push(1);
                }
            }
        }
        (classes.amounts.len() <= CLASSES && doses <= MOST).then_some(classes)
    }

    pub(super) fn len(&self) -> usize {
        self.amounts.len()
    }

    pub(super) fn doses(&self) -> u32 {
        self.counts.iter().sum()
    }

    pub(super) fn volume(&self, covered: Covered) -> u64 {
        let mut before = 0;
        let totals = covered.totals();
        let counts = totals
            .iter()
            .map(|&total| total - std::mem::replace(&mut before, total));
        counts
            .zip(&self.amounts)
            .map(|(count, &amount)| u64::from(count) * u64::from(amount))
            .sum()
    }

    /// The least state that covers so many doses of a class and larger ones; `None` when there are not so many.
    pub(super) fn least_with(&self, class: usize, doses: u32) -> Option<Covered> {
        let mut totals = [lane(doses); CLASSES];
        let mut left = doses;
        for index in (0..=class).rev() {
            totals[index] = lane(left);
            left = left.saturating_sub(self.counts[index]);
        }
        (left == 0).then_some(Covered::from_totals(totals))
    }

    /// For 0, 1, 2 … bowls: the most doses up to each class that their volume can hold.
    fn most_in_bowls(&self, capacity: u32) -> Vec<Covered> {
        // With more doses than this, the sum of two states could overflow a lane.
        if self.doses() > MOST / 2 {
            return Vec::new();
        }
        let most = |bowls: u64| {
            let mut totals = [0; CLASSES];
            for (class, total) in totals.iter_mut().enumerate() {
                let mut room = bowls * u64::from(capacity);
                for (&amount, &count) in self.amounts.iter().zip(&self.counts).take(class + 1).rev()
                {
                    let fitting = u64::from(count).min(room / u64::from(amount));
                    room -= fitting * u64::from(amount);
                    *total += u8::try_from(fitting).unwrap_or(0);
                }
            }
            Covered::from_totals(totals)
        };
        (0..8).map(most).collect()
    }

    /// Whether at most `bowls` bowls of fresh doses bring `from` up to `to`.
    ///
    /// The doses are the smallest that do it, one by one, so nothing else does it with less.
    fn bring(
        &self,
        from: Covered,
        to: Covered,
        bowls: u32,
        capacity: u32,
        room: &mut Vec<u32>,
    ) -> bool {
        let (have, want) = (from.totals(), to.totals());
        room.clear();
        let mut free = [0u8; CLASSES];
        let (mut before, mut added) = (0, 0);
        for class in 0..self.len() {
            free[class] = lane(self.counts[class]) - (have[class] - before);
            before = have[class];
            while have[class] + added < want[class] {
                let Some(smallest) = (0..=class).rev().find(|&index| free[index] > 0) else {
                    return false;
                };
                free[smallest] -= 1;
                added += 1;
                if !place(room, self.amounts[smallest], bowls, capacity) {
                    return false;
                }
            }
        }
        true
    }
}

/// Puts a dose into the first bowl with room; says no when that needs one more than `bowls`.
fn place(room: &mut Vec<u32>, amount: u32, bowls: u32, capacity: u32) -> bool {
    if let Some(left) = room.iter_mut().find(|left| **left >= amount) {
        *left -= amount;
        return true;
    }
    let open = u32::try_from(room.len()).unwrap_or(u32::MAX);
    if open >= bowls || amount > capacity {
        return false;
    }
    room.push(capacity - amount);
    true
}

pub(super) fn lane(count: u32) -> u8 {
    u8::try_from(count.min(MOST)).unwrap_or(0)
}

/// A state with the bowls it took and the state it came from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Entry {
    pub covered: Covered,
    pub bowls: u32,
    /// Volume of the covered doses.
    pub volume: u64,
    /// Index in the frontier of the round before.
    pub from: usize,
}

/// The states of one round that are worth going on from, by rising number of bowls.
#[derive(Debug, Clone, Default)]
pub(super) struct Frontier {
    pub entries: Vec<Entry>,
    /// Comparisons of states so far.
    pub looks: u64,
    /// The entry that was no worse than what was asked about last.
    last: usize,
    /// The most doses up to each class that so many fresh bowls can add, by volume.
    fresh: Vec<Covered>,
    room: Vec<u32>,
}

impl Frontier {
    /// No states yet, for a round with these doses.
    pub(super) fn new(classes: &Classes, capacity: u32) -> Self {
        Self {
            fresh: classes.most_in_bowls(capacity),
            ..Self::default()
        }
    }

    /// The state before the first round.
    pub(super) fn start() -> Self {
        Self {
            entries: vec![Entry {
                covered: Covered::default(),
                bowls: 0,
                volume: 0,
                from: 0,
            }],
            ..Self::default()
        }
    }

    /// How many bowls each state here has more than the same state there, when that is the same for all.
    pub(super) fn shift_from(&self, earlier: &Self) -> Option<u32> {
        let apart = self
            .entries
            .first()?
            .bowls
            .checked_sub(earlier.entries.first()?.bowls)?;
        let same = |(now, then): (&Entry, &Entry)| {
            now.covered == then.covered && now.bowls == then.bowls + apart
        };
        (self.entries.len() == earlier.entries.len()
            && self.entries.iter().zip(&earlier.entries).all(same))
        .then_some(apart)
    }

    pub(super) fn shifted(&self, bowls: u32) -> Self {
        let entries = self
            .entries
            .iter()
            .map(|entry| Entry {
                bowls: entry.bowls + bowls,
                ..*entry
            })
            .collect();
        Self {
            entries,
            ..Self::default()
        }
    }

    /// Whether covering `covered` with `bowls` bowls is no better than what is already here.
    pub(super) fn dominates(
        &mut self,
        classes: &Classes,
        covered: Covered,
        bowls: u32,
        capacity: u32,
    ) -> bool {
        let Self {
            entries,
            looks,
            room,
            last,
            fresh,
        } = self;
        // What was no better than a state is often followed by more that is no better than the same state.
        if let Some(entry) = entries.get(*last) {
            *looks += 1;
            if entry.bowls <= bowls && entry.covered.reaches(covered) {
                return true;
            }
        }
        *looks += u64::try_from(entries.len()).unwrap_or(0);
        let reaching = entries
            .iter()
            .position(|entry| entry.bowls <= bowls && entry.covered.reaches(covered));
        if let Some(index) = reaching {
            *last = index;
            return true;
        }
        // What reaches a state has at least its volume.
        let volume = classes.volume(covered);
        let mut brings = |entry: &Entry| {
            let Some(more) = bowls.checked_sub(entry.bowls).filter(|&more| more > 0) else {
                return false;
            };
            let most = u64::from(more) * u64::from(capacity);
            let index = usize::try_from(more).unwrap_or(usize::MAX);
            entry.volume.saturating_add(most) >= volume
                && fresh
                    .get(index)
                    .is_none_or(|fresh| entry.covered.with(*fresh).reaches(covered))
                && classes.bring(entry.covered, covered, more, capacity, room)
        };
        if entries.get(*last).is_some_and(&mut brings) {
            return true;
        }
        let bringing = entries.iter().position(brings);
        *last = bringing.unwrap_or(*last);
        bringing.is_some()
    }

    /// Adds a state that nothing here dominates; states of the same price that it reaches go.
    pub(super) fn insert(&mut self, entry: Entry) {
        self.entries
            .retain(|old| old.bowls < entry.bowls || !entry.covered.reaches(old.covered));
        self.entries.push(entry);
    }

    /// Keeps the most promising states only; says whether any had to go.
    pub(super) fn narrow(&mut self, width: usize, capacity: u32) -> bool {
        if self.entries.len() <= width {
            return false;
        }
        let price = |entry: &Entry| {
            (u64::from(entry.bowls) * u64::from(capacity)).saturating_sub(entry.volume)
        };
        self.entries.sort_by_key(price);
        self.entries.truncate(width);
        self.entries.sort_by_key(|entry| entry.bowls);
        true
    }
}

#[cfg(test)]
impl Covered {
    /// This state with another total in one lane and all after it.
    pub(super) fn with_total(self, class: usize, total: u32) -> Self {
        let mut totals = self.totals();
        totals[class..].fill(lane(total));
        Self::from_totals(totals)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn covered(counts: &[u8]) -> Covered {
        let mut totals = [0; CLASSES];
        let mut sum = 0;
        for (index, total) in totals.iter_mut().enumerate() {
            sum += counts.get(index).copied().unwrap_or(0);
            *total = sum;
        }
        Covered::from_totals(totals)
    }

    #[test]
    fn a_larger_dose_covered_does_as_well_as_a_smaller_one() {
        let (large, small, both) = (covered(&[1, 0]), covered(&[0, 1]), covered(&[1, 1]));
        assert!(large.reaches(small) && !small.reaches(large));
        assert!(both.reaches(large) && both.reaches(small) && !large.reaches(both));
        assert_eq!(both.counts(2), [1, 1]);
        assert_eq!((both.doses(), small.doses()), (2, 1));
    }

    #[test]
    fn a_dearer_state_counts_only_when_fresh_bowls_do_not_make_up_for_it() {
        let classes = Classes::new([5, 5, 3].into_iter()).unwrap();
        let mut frontier = Frontier::start();
        // One bowl later on serves 5 and 3, not 5 and 5.
        assert!(frontier.dominates(&classes, covered(&[1, 1]), 1, 8));
        assert!(!frontier.dominates(&classes, covered(&[2, 0]), 1, 8));
        assert!(frontier.dominates(&classes, covered(&[2, 1]), 2, 8));
        let entry = Entry {
            covered: covered(&[2, 0]),
            bowls: 1,
            volume: 10,
            from: 0,
        };
        frontier.insert(entry);
        assert!(frontier.dominates(&classes, covered(&[1, 1]), 1, 8));
        assert!(frontier.dominates(&classes, covered(&[2, 1]), 2, 8));
        assert!(!frontier.dominates(&classes, covered(&[2, 1]), 1, 8));
    }

    #[test]
    fn only_so_many_classes_and_doses_are_told_apart() {
        assert!(Classes::new((1..=16).rev()).is_some());
        assert!(Classes::new((1..=17).rev()).is_none());
        assert!(Classes::new(std::iter::repeat_n(3, 127)).is_some());
        assert!(Classes::new(std::iter::repeat_n(3, 128)).is_none());
    }
}
