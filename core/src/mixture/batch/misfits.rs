//! Sets of doses that are known not to fit, so that no search proves the same thing twice.
//!
//! A table of fixed size: a newer entry may push out an older one, which costs time and never truth.

const ENTRIES: usize = 1 << 13;
const BITS: u32 = 5;

/// Doses per class in one number, as long as classes and counts are few enough to be told apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) struct Key(u128);

impl Key {
    /// Most classes a key can hold.
    pub(super) const CLASSES: usize = 25;
    /// Most doses of one class.
    pub(super) const MOST: u32 = (1 << BITS) - 1;

    pub(super) fn of(counts: &[u32]) -> Option<Self> {
        if counts.len() > Self::CLASSES || counts.iter().any(|&count| count > Self::MOST) {
            return None;
        }
        Some(Self(counts.iter().rev().fold(0, |key, &count| (key << BITS) | u128::from(count))))
    }

    pub(super) fn take(&mut self, class: usize, doses: u32) {
        self.0 -= u128::from(doses) << (u32::try_from(class).unwrap_or(0) * BITS);
    }

    pub(super) fn put_back(&mut self, class: usize, doses: u32) {
        self.0 += u128::from(doses) << (u32::try_from(class).unwrap_or(0) * BITS);
    }

    fn place(self, bowls: u8) -> usize {
        let [low, high] = [self.0 & u128::from(u64::MAX), self.0 >> 64];
        let [low, high] = [u64::try_from(low).unwrap_or(0), u64::try_from(high).unwrap_or(0)];
        let mixed = (low ^ high.rotate_left(29) ^ u64::from(bowls).rotate_left(57))
            .wrapping_mul(0x9E37_79B9_7F4A_7C15)
            .rotate_left(17);
        usize::try_from(mixed).unwrap_or(0) & (ENTRIES - 1)
    }
}

/// The table.
#[derive(Debug, Clone, Default)]
pub(super) struct Misfits {
    entries: Vec<(Key, u8)>,
}

impl Misfits {
    pub(super) fn holds(&self, key: Key, bowls: usize) -> bool {
        u8::try_from(bowls).is_ok_and(|bowls| self.entries.get(key.place(bowls)) == Some(&(key, bowls)))
    }

    pub(super) fn note(&mut self, key: Key, bowls: usize) {
        let Ok(bowls) = u8::try_from(bowls) else { return };
        if self.entries.is_empty() {
            // No question is ever asked about zero bowls, so this entry matches nothing.
            self.entries = vec![(Key::default(), 0); ENTRIES];
        }
        if let Some(entry) = self.entries.get_mut(key.place(bowls)) {
            *entry = (key, bowls);
        }
    }
}
