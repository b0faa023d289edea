//! Answers that settle further questions about the same doses: what is no larger than a set that fits, fits too;
//! what is no smaller than a set that does not, does not.
//!
//! Invariants: only proved answers are noted; a full list forgets its oldest answer, which costs time, never truth.

const LANES: usize = 16;
const GUARD: u128 = u128::from_ne_bytes([0x80; LANES]);
const MOST: u32 = 127;
/// Answers kept per number of bowls and outcome.
const ANSWERS: usize = 192;

/// Running totals of doses, largest class first, in two times sixteen byte lanes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Totals([u128; 2]);

impl Totals {
    /// `None` when there are more classes or doses than the lanes can hold.
    pub(super) fn of(counts: &[u32]) -> Option<Self> {
        let mut lanes = [[0u8; LANES]; 2];
        if counts.len() > 2 * LANES {
            return None;
        }
        let mut total = 0;
        for (index, lane) in lanes.iter_mut().flatten().enumerate() {
            total += counts.get(index).copied().unwrap_or(0);
            if total > MOST {
                return None;
            }
            *lane = u8::try_from(total).ok()?;
        }
        Some(Self(lanes.map(u128::from_le_bytes)))
    }

    /// Whether the doses here, one by one, are no smaller.
    fn reaches(self, other: Self) -> bool {
        ((self.0[0] | GUARD) - other.0[0]) & ((self.0[1] | GUARD) - other.0[1]) & GUARD == GUARD
    }
}

/// What is known, by number of bowls.
#[derive(Debug, Clone, Default)]
pub(super) struct Known {
    fitting: Vec<Vec<Totals>>,
    misfits: Vec<Vec<Totals>>,
}

impl Known {
    pub(super) fn answer(&mut self, doses: Totals, bowls: usize) -> Option<bool> {
        if hit(&mut self.misfits, bowls, |misfit| doses.reaches(misfit)) {
            return Some(false);
        }
        hit(&mut self.fitting, bowls, |fitting| fitting.reaches(doses)).then_some(true)
    }

    pub(super) fn note(&mut self, doses: Totals, bowls: usize, fits: bool) {
        let lists = if fits {
            &mut self.fitting
        } else {
            &mut self.misfits
        };
        if lists.len() <= bowls {
            lists.resize(bowls + 1, Vec::new());
        }
        let list = &mut lists[bowls];
        list.retain(|&old| {
            if fits {
                !doses.reaches(old)
            } else {
                !old.reaches(doses)
            }
        });
        if list.len() == ANSWERS {
            list.remove(0);
        }
        list.push(doses);
    }
}

/// Looks from the newest answer back, and moves the one that settles the question to the end.
fn hit(lists: &mut [Vec<Totals>], bowls: usize, settles: impl Fn(Totals) -> bool) -> bool {
    let Some(list) = lists.get_mut(bowls) else {
        return false;
    };
    let Some(index) = list.iter().rposition(|&answer| settles(answer)) else {
        return false;
    };
    let last = list.len() - 1;
    list.swap(index, last);
    true
}
