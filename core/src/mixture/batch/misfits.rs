//! Sets of doses that are known not to fit, so that no search proves the same thing twice.
//!
//! A table of fixed size: a newer entry may push out an older one, which costs time and never truth.

const ENTRIES: usize = 1 << 12;
/// Bits for the doses of one class, and for the bowls.
const BITS: u32 = 5;
const BOWLS: u32 = 8;

/// Doses per class in one number, as long as classes and counts are few enough to be told apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) struct Key(u128);

impl Key {
    const CLASSES: usize = 24;
    const MOST: u32 = (1 << BITS) - 1;

    pub(super) fn of(counts: &[u32]) -> Option<Self> {
        if counts.len() > Self::CLASSES || counts.iter().any(|&count| count > Self::MOST) {
            return None;
        }
        Some(Self(
            counts
                .iter()
                .rev()
                .fold(0, |key, &count| (key << BITS) | u128::from(count))
                << BOWLS,
        ))
    }

    pub(super) fn take(&mut self, class: usize, doses: u32) {
        self.0 -= u128::from(doses) << place(class);
    }

    pub(super) fn put_back(&mut self, class: usize, doses: u32) {
        self.0 += u128::from(doses) << place(class);
    }
}

fn place(class: usize) -> u32 {
    u32::try_from(class).unwrap_or(0) * BITS + BOWLS
}

/// The table: doses and bowls in one number; zero is no entry, for no dose is ever without a bowl.
#[derive(Debug, Clone, Default)]
pub(super) struct Misfits {
    entries: Vec<u128>,
}

impl Misfits {
    pub(super) fn holds(&self, key: Key, bowls: usize) -> bool {
        let Ok(bowls) = u8::try_from(bowls) else {
            return false;
        };
        let entry = key.0 | u128::from(bowls);
        self.entries
            .get(slot(entry))
            .is_some_and(|&held| held == entry)
    }

    pub(super) fn note(&mut self, key: Key, bowls: usize) {
        let Ok(bowls) = u8::try_from(bowls) else {
            return;
        };
        if self.entries.is_empty() {
            self.entries = vec![0; ENTRIES];
        }
        let entry = key.0 | u128::from(bowls);
        if let Some(place) = self.entries.get_mut(slot(entry)) {
            *place = entry;
        }
    }
}

fn slot(entry: u128) -> usize {
    let [low, high] =
        [entry & u128::from(u64::MAX), entry >> 64].map(|half| u64::try_from(half).unwrap_or(0));
    let mixed = (low ^ high.rotate_left(29))
        .wrapping_mul(0x9E37_79B9_7F4A_7C15)
        .rotate_left(17);
    usize::try_from(mixed).unwrap_or(0) & (ENTRIES - 1)
}
