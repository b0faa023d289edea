//! The next rounds of all orders a household follows, as one evening.

use jiff::{SignedDuration, Timestamp};

use super::{NoRound, Today, look_among};
use crate::order::CheckedOrder;
use crate::record::State;
use crate::time::Now;
use crate::units::Lapse;

/// Rounds due this near to the first one belong to the same sitting; common practice, no source.
const ONE_SITTING: SignedDuration = SignedDuration::from_hours(2);

/// What comes next under each order.
#[derive(Clone, Debug)]
pub struct Evening {
    /// The next round of each order that has one, by its place in the list of orders; the earliest first.
    pub rounds: Vec<(usize, Today)>,
    /// Orders without a next round, and why.
    pub without: Vec<(usize, NoRound)>,
    /// When to begin, so that every round of the sitting is given on time, one led through after the other.
    pub start: Option<Timestamp>,
}

impl Evening {
    /// The rounds of the next sitting, in the order in which they are led through.
    pub fn sitting(&self) -> impl Iterator<Item = &(usize, Today)> {
        let first = self.rounds.first().and_then(|(_, today)| today.next_at());
        self.rounds.iter().filter(move |(_, today)| {
            let gap = first.zip(today.next_at());
            gap.is_some_and(|(first, at)| first.duration_until(at) <= ONE_SITTING)
        })
    }
}

/// Looks at every order at `now`; the orders as the household took them, each id once.
pub fn together(state: &State, orders: &[&CheckedOrder], now: &Now) -> Evening {
    let mut evening = Evening {
        rounds: Vec::new(),
        without: Vec::new(),
        start: None,
    };
    for (index, order) in orders.iter().enumerate() {
        match look_among(state, order, orders, now) {
            Ok(today) => evening.rounds.push((index, today)),
            Err(why) => evening.without.push((index, why)),
        }
    }
    evening
        .rounds
        .sort_by_key(|(index, today)| (today.next_at(), *index));
    evening.start = start(&evening, orders);
    evening
}

/// Each round of the sitting begins when those before it are done.
fn start(evening: &Evening, orders: &[&CheckedOrder]) -> Option<Timestamp> {
    let mut before = Lapse::ZERO;
    let mut start: Option<Timestamp> = None;
    for (index, today) in evening.sitting() {
        let soak = orders.get(*index)?.recipe.as_ref();
        let pace = today.pace(soak.map_or(Lapse::ZERO, |recipe| recipe.soak));
        let lead = before.saturating_add(pace.lead());
        let latest = today.next_at()?.checked_sub(lead).ok()?;
        start = Some(start.map_or(latest, |start| start.min(latest)));
        before = before.saturating_add(pace.total());
    }
    start
}
