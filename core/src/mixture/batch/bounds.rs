//! How few bowls a course can possibly need.
//!
//! Every measure here is a *dual feasible function*: it values each dose so that no bowl, however it is filled, is
//! worth more than `whole`.
//! The doses of a course divided by `whole` are then a floor under the number of bowls, whoever plans them.
//! Invariants: all values are integers; a measure never falls as doses grow, and is superadditive, so that the
//! rest of a bowl already open is worth at most the value of its volume.
//! The families are those of Fekete and Schepers (2001) and Carlier, Clautiaux and Moukrim (2007).

use std::collections::BTreeMap;

use super::course::Course;

/// One dual feasible function for bowls of one capacity.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Measure {
    capacity: u32,
    kind: Kind,
    /// What a whole bowl is worth at most.
    pub whole: u64,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    /// The volume itself.
    Volume,
    /// How many parts of this size a dose uses up, large doses counted by what they leave over.
    Parts(u32),
    /// Doses below the limit are free, doses that leave less than it take the whole bowl.
    Limit(u32),
    /// Volume rounded down to k-ths of a bowl.
    Steps(u32),
}

impl Measure {
    fn new(capacity: u32, kind: Kind) -> Self {
        let whole = match kind {
            Kind::Volume | Kind::Limit(_) => u64::from(capacity),
            Kind::Parts(part) => 2 * u64::from(capacity / part.max(1)),
            Kind::Steps(k) => u64::from(capacity) * u64::from(k),
        };
        Self {
            capacity,
            kind,
            whole,
        }
    }

    /// What a dose of this amount (at most one bowl) is worth.
    pub(super) fn value(&self, amount: u32) -> u64 {
        let (whole, amount) = (self.capacity, amount.min(self.capacity));
        match self.kind {
            Kind::Volume => u64::from(amount),
            Kind::Parts(part) => {
                let part = part.max(1);
                match (u64::from(amount) * 2).cmp(&u64::from(whole)) {
                    std::cmp::Ordering::Less => 2 * u64::from(amount / part),
                    std::cmp::Ordering::Equal => u64::from(whole / part),
                    std::cmp::Ordering::Greater => {
                        2 * u64::from(whole / part - (whole - amount) / part)
                    }
                }
            }
            Kind::Limit(limit) if whole - amount < limit => u64::from(whole),
            Kind::Limit(limit) if amount < limit => 0,
            Kind::Limit(_) => u64::from(amount),
            Kind::Steps(k) => {
                let (k, whole) = (u64::from(k), u64::from(whole));
                let scaled = (k + 1) * u64::from(amount);
                if scaled.is_multiple_of(whole) {
                    u64::from(amount) * k
                } else {
                    scaled / whole * whole
                }
            }
        }
    }
}

/// Dose sizes, and what they leave over, that measures are built on at most.
const MARKS: usize = 64;

/// The volume, then the measures that say most about these doses (amount → how many), best first, `most` in all.
pub(super) fn measures(capacity: u32, doses: &BTreeMap<u32, u64>, most: usize) -> Vec<Measure> {
    let mut scored: Vec<(u128, Measure)> = Vec::new();
    for kind in kinds(capacity, doses) {
        let measure = Measure::new(capacity, kind);
        let total: u128 = doses
            .iter()
            .map(|(&amount, &n)| u128::from(measure.value(amount)) * u128::from(n))
            .sum();
        // Compared in fine fractions of a bowl; the score only orders, it proves nothing.
        if let Some(score) = (total << 24).checked_div(u128::from(measure.whole)) {
            scored.push((score, measure));
        }
    }
    scored
        .sort_by_key(|(score, measure)| (measure.kind != Kind::Volume, std::cmp::Reverse(*score)));
    // Measures of one score mostly say the same.
    scored.dedup_by_key(|(score, _)| *score);
    scored.truncate(most);
    scored.into_iter().map(|(_, measure)| measure).collect()
}

fn kinds(capacity: u32, doses: &BTreeMap<u32, u64>) -> Vec<Kind> {
    let half = capacity / 2;
    let mut marks: Vec<u32> = Vec::new();
    for &amount in doses.keys() {
        let rest = capacity.saturating_sub(amount);
        marks.extend([amount, rest, rest.saturating_add(1)]);
    }
    for parts in 2..=12 {
        marks.extend([capacity / parts, capacity / parts + 1]);
    }
    marks.retain(|&mark| mark >= 1 && mark <= half);
    marks.sort_unstable();
    marks.dedup();
    // Many marks lie close together: an even choice of them loses little.
    let stride = marks.len().div_ceil(MARKS).max(1);
    let marks: Vec<u32> = marks.into_iter().step_by(stride).collect();
    let mut kinds = vec![Kind::Volume];
    kinds.extend((1..=16).map(Kind::Steps));
    kinds.extend(
        marks
            .iter()
            .flat_map(|&mark| [Kind::Parts(mark), Kind::Limit(mark)]),
    );
    kinds
}

/// For each round of a course, the fewest bowls still to be made from there on.
#[derive(Debug, Clone)]
pub(super) struct Outlook {
    pub measures: Vec<Measure>,
    /// Per round and measure: the worth that is left, later bowls known to be needed counted in; one round more
    /// than the course has.
    worth: Vec<Vec<u64>>,
    /// Per round: bowls made from there on, whatever happened before.
    bowls: Vec<u64>,
}

impl Outlook {
    pub(super) fn new(course: &Course, most: usize) -> Self {
        let mut doses: BTreeMap<u32, u64> = BTreeMap::new();
        for dose in course.rounds.iter().flat_map(|round| &round.doses) {
            *doses.entry(dose.amount).or_default() += 1;
        }
        let measures = measures(course.capacity, &doses, most);
        let rounds = course.rounds.len();
        let mut outlook = Self {
            worth: vec![vec![0; measures.len()]; rounds + 1],
            bowls: vec![0; rounds + 1],
            measures,
        };
        for index in (0..rounds).rev() {
            outlook.look(course, index);
        }
        outlook
    }

    fn look(&mut self, course: &Course, index: usize) {
        let later = self.bowls[index + 1];
        self.bowls[index] = self.bowls[index].max(later);
        let mut needed = 0;
        for (which, measure) in self.measures.iter().enumerate() {
            let doses: u64 = course.rounds[index]
                .doses
                .iter()
                .map(|dose| measure.value(dose.amount))
                .sum();
            let worth = doses + self.worth[index + 1][which].max(measure.whole * later);
            self.worth[index][which] = worth;
            let usable = course.open.iter().filter(|open| open.last >= index);
            let open: u64 = usable.map(|open| measure.value(open.left)).sum();
            needed = needed.max(worth.saturating_sub(open).div_ceil(measure.whole));
        }
        let maker = course.first_maker(index);
        // Bowls made before `maker` are of no use to this round or any later one.
        self.bowls[maker] = self.bowls[maker].max(needed);
    }

    /// The fewest bowls for the whole course.
    pub(super) fn least(&self) -> usize {
        usize::try_from(self.bowls.first().copied().unwrap_or(0)).unwrap_or(usize::MAX)
    }

    /// The fewest bowls made from `round` on when doses of it worth `covered` (per measure) need none.
    pub(super) fn at_least(&self, round: usize, covered: impl Fn(usize) -> u64) -> u32 {
        let worth = self.worth.get(round).map_or(&[][..], Vec::as_slice);
        let bowls = worth
            .iter()
            .zip(&self.measures)
            .enumerate()
            .map(|(which, (worth, measure))| {
                worth.saturating_sub(covered(which)).div_ceil(measure.whole)
            })
            .max();
        u32::try_from(bowls.unwrap_or(0)).unwrap_or(u32::MAX)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// For every measure of every small bowl: the most that doses of a total can be worth, by trying all, is what
    /// the total itself is worth at most.
    #[test]
    fn no_filling_is_worth_more_than_the_bowl() {
        for capacity in 1..=24u32 {
            let doses: BTreeMap<u32, u64> = (1..=capacity).map(|amount| (amount, 1)).collect();
            for kind in kinds(capacity, &doses) {
                let measure = Measure::new(capacity, kind);
                let mut most = vec![0u64];
                for total in 1..=capacity {
                    let best = (1..=total)
                        .map(|last| {
                            most[usize::try_from(total - last).unwrap()] + measure.value(last)
                        })
                        .max();
                    most.push(best.unwrap());
                    assert!(
                        best.unwrap() <= measure.value(total),
                        "{measure:?}, total {total}"
                    );
                }
                assert!(measure.value(capacity) <= measure.whole, "{measure:?}");
            }
        }
    }

    #[test]
    fn threes_go_two_to_a_bowl_of_eight() {
        let doses = BTreeMap::from([(3, 3)]);
        let needed = measures(8, &doses, 6)
            .iter()
            .map(|measure| (3 * measure.value(3)).div_ceil(measure.whole))
            .max();
        assert_eq!(needed, Some(2));
    }
}
