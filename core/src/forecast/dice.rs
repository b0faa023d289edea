//! Chance that is the same on every device and in every run.

/// SplitMix64.
///
/// Source: Steele, Lea, Flood, "Fast splittable pseudorandom number generators" (2014), figure 17.
pub(super) struct Dice(u64);

impl Dice {
    /// One of many independent dice of a seed.
    pub(super) fn new(seed: u64, number: u64) -> Dice {
        let mut dice = Dice(seed ^ number.wrapping_mul(0xD134_2543_DE82_EF95));
        dice.next();
        dice
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let z = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        let z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// Evenly from 0 to below `end`; 0 where there is nothing below it.
    pub(super) fn below(&mut self, end: usize) -> usize {
        let wide = u128::from(self.next()) * u128::try_from(end).unwrap_or(0);
        usize::try_from(wide >> 64).unwrap_or(0)
    }

    /// Evenly from 0 to below 1.
    pub(super) fn part(&mut self) -> f64 {
        // 32 bits are enough for a share, and cross into a float exactly.
        let bits = u32::try_from(self.next() >> 32).unwrap_or(0);
        f64::from(bits) / 4_294_967_296.0
    }

    /// A deviation from the mean as in a bell curve, at most three.
    pub(super) fn deviation(&mut self) -> f64 {
        loop {
            // Twelve even parts have a variance of one, and only sums are in it.
            let sum: f64 = (0..12).map(|_| self.part()).sum();
            let z = sum - 6.0;
            if z.abs() <= 3.0 {
                return z;
            }
        }
    }

    pub(super) fn shuffle<T>(&mut self, all: &mut [T]) {
        for end in (1..all.len()).rev() {
            let other = self.below(end + 1);
            all.swap(end, other);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_seed_gives_one_row_of_numbers() {
        // The first numbers of seed 0 as its authors' reference implementation prints them.
        let mut dice = Dice(0);
        assert_eq!(dice.next(), 0xE220_A839_7B1D_CDAF);
        assert_eq!(dice.next(), 0x6E78_9E6A_A1B9_65F4);
    }

    #[test]
    fn deviations_have_the_spread_of_a_bell() {
        let mut dice = Dice::new(7, 1);
        let many: Vec<f64> = (0..20_000).map(|_| dice.deviation()).collect();
        let mean: f64 = many.iter().sum::<f64>() / 20_000.0;
        let within = many.iter().filter(|z| z.abs() < 1.0).count();
        assert!(mean.abs() < 0.03, "{mean}");
        // 68.3 of 100 in a bell; a little less where its far ends are cut off the sum of twelve.
        assert!((13_300..14_000).contains(&within), "{within}");
    }

    #[test]
    fn every_order_of_three_comes_up_alike() {
        let mut dice = Dice::new(7, 2);
        let mut seen = std::collections::BTreeMap::new();
        for _ in 0..6_000 {
            let mut cards = [1, 2, 3];
            dice.shuffle(&mut cards);
            *seen.entry(cards).or_insert(0) += 1;
        }
        assert_eq!(seen.len(), 6);
        assert!(seen.values().all(|n| (850..1_150).contains(n)), "{seen:?}");
    }
}
