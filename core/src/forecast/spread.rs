//! What many draws come to: the mean, and between which counts nine of ten lie.

use super::plans::Need;

/// A count over all draws.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Range {
    /// The mean, halves up.
    pub expected: u64,
    /// The 5th percentile by nearest rank, or the mean where that is lower still.
    pub low: u64,
    /// The 95th percentile by nearest rank, or the mean where that is higher still.
    pub high: u64,
}

impl Range {
    fn of(counts: impl Iterator<Item = u64>) -> Range {
        let mut sorted: Vec<u64> = counts.collect();
        sorted.sort_unstable();
        let number = u128::try_from(sorted.len()).unwrap_or(1).max(1);
        let sum: u128 = sorted.iter().map(|count| u128::from(*count)).sum();
        let expected = u64::try_from((2 * sum + number) / (2 * number)).unwrap_or(u64::MAX);
        let ranked = |percent: usize| {
            let rank = (sorted.len() * percent).div_ceil(100).max(1);
            sorted.get(rank - 1).copied().unwrap_or(0)
        };
        Range {
            expected,
            low: ranked(5).min(expected),
            high: ranked(95).max(expected),
        }
    }
}

/// What each draw came to.
#[derive(Default)]
pub(super) struct Counts(Vec<(u64, Need)>);

impl Counts {
    pub(super) fn add(&mut self, homes: u64, all: &Need) {
        self.0.push((homes, *all));
    }

    pub(super) fn homes(&self) -> Range {
        Range::of(self.0.iter().map(|(homes, _)| *homes))
    }

    pub(super) fn tablets(&self) -> Range {
        self.range(|need| need.tablets)
    }

    pub(super) fn handed_out(&self) -> Range {
        self.range(|need| need.handed_out)
    }

    pub(super) fn packs(&self) -> Range {
        self.range(|need| need.packs)
    }

    pub(super) fn liquid_ml(&self) -> Range {
        self.range(|need| need.liquid_ul.div_ceil(1_000))
    }

    fn range(&self, what: impl Fn(&Need) -> u64) -> Range {
        Range::of(self.0.iter().map(|(_, need)| what(need)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn percentiles_are_counts_that_came_up() {
        let range = Range::of((1..=100).rev());
        // The mean of 1 to 100 is 50.5.
        assert_eq!((range.low, range.expected, range.high), (5, 51, 95));
    }

    #[test]
    fn the_mean_lies_between_low_and_high() {
        let range = Range::of([0; 99].into_iter().chain([1_000]));
        assert_eq!((range.low, range.expected, range.high), (0, 10, 10));
        assert_eq!(Range::of([].into_iter()).expected, 0);
    }
}
