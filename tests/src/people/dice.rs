//! Chance that repeats: the splitmix64 generator, so that a seed in a failure message brings the case back.

#[derive(Clone, Debug)]
pub struct Dice(u64);

impl Dice {
    pub fn new(seed: u64) -> Dice {
        Dice(seed)
    }

    pub fn roll(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        mixed ^ (mixed >> 31)
    }

    /// From 0 up to, not including, `many`.
    pub fn below(&mut self, many: i64) -> i64 {
        let many = u64::try_from(many).expect("a positive number");
        i64::try_from(self.roll() % many).expect("a small number")
    }

    /// Both ends included.
    pub fn between(&mut self, least: i64, most: i64) -> i64 {
        least + self.below(most - least + 1)
    }

    pub fn percent(&mut self, chance: i64) -> bool {
        self.below(100) < chance
    }

    pub fn pick<T: Copy>(&mut self, from: &[T]) -> T {
        let many = i64::try_from(from.len()).expect("a short list");
        from[usize::try_from(self.below(many)).expect("an index")]
    }
}
