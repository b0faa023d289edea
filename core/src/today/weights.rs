//! Weights: which one the row goes by, when to ask for a new one, and what a new one changes.
//!
//! Asking never blocks the dose that is due.
//! A small loss, less than the scale may be wrong by, moves nobody down a row until a second weighing says the same.
//! Sources: stale limits from the order; daily gain at the upper edge of WHO's median weight-for-age (2006, 2007), and of growth spurts from memory.

use jiff::civil::Date;

use crate::dose::{self, Dose};
use crate::household::{Person, Weighing};
use crate::order::{CheckedOrder, Order};
use crate::record::{PersonRecord, State};
use crate::units::{Age, AgeSpan, BodyWeight};

/// Why a person's weight should be asked for again.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum AskWeight {
    /// Nobody knows when it was taken, or the day is still to come.
    DayUnknown,
    /// Older than the order allows for this age.
    Old { days: u32, limit: u32 },
    /// By ordinary growth since then, another row may serve.
    MayHaveGrown { days: u32 },
    /// Within the error of a scale of another row, and older than half the order's limit.
    NearEdge { days: u32 },
    /// A little lighter than before, and a row lower: weigh a second time.
    LostALittle { before: BodyWeight },
}

/// A new weight that another row serves.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Crossing {
    pub old: Dose,
    pub new: Dose,
}

/// Every reason to weigh this person again on `day`; none where the dose needs no weight, or where there is none yet.
pub fn ask_weight(order: &Order, record: &PersonRecord, day: Date) -> Vec<AskWeight> {
    let mut reasons = ask_by_age(order, &record.person, day);
    let needed = dose::needs_weight(order, &record.person, day);
    if let Some(before) = kept_for_small_loss(order, record).filter(|_| needed) {
        let before = before.weight.clone();
        reasons.insert(0, AskWeight::LostALittle { before });
    }
    reasons
}

/// [`ask_weight`] for somebody of whom only the last weight is known.
pub fn ask_by_age(order: &Order, person: &Person, day: Date) -> Vec<AskWeight> {
    let mut reasons = Vec::new();
    let Some(weighing) = person
        .weighing
        .as_ref()
        .filter(|_| dose::needs_weight(order, person, day))
    else {
        return reasons;
    };
    let age = person.age_on(day);
    let days = weighing.on.and_then(|on| days_between(on, day));
    let Some(days) = days else {
        reasons.push(AskWeight::DayUnknown);
        return reasons;
    };
    let limit = stale_after(order, age);
    if days > limit {
        reasons.push(AskWeight::Old { days, limit });
    }
    let row = dose::row_of_weight(order, &weighing.weight);
    let gain = u64::from(days).saturating_mul(daily_gain(age).as_picograms());
    let is_other = |weight: BodyWeight| dose::row_of_weight(order, &weight) != row;
    if weighing.weight.plus(gain).is_some_and(is_other) {
        reasons.push(AskWeight::MayHaveGrown { days });
    }
    let error = BodyWeight::scale_error();
    let near = [
        weighing.weight.plus(error.as_picograms()),
        weighing.weight.minus(&error),
    ];
    if days > limit / 2 && near.into_iter().flatten().any(is_other) {
        reasons.push(AskWeight::NearEdge { days });
    }
    reasons
}

/// What a new weighing would change on `day`, if both the old and the new weight give a dose and their rows differ.
pub fn crossing(
    order: &CheckedOrder,
    record: &PersonRecord,
    new: &Weighing,
    day: Date,
) -> Option<Crossing> {
    let old = dose::work_out(order, &seated(order, record), day).ok()?;
    let mut after = record.clone();
    after.weigh(new.clone());
    let new = dose::work_out(order, &seated(order, &after), day).ok()?;
    (old.row != new.row).then_some(Crossing { old, new })
}

/// The person as the row of the household's first order is read: with the weight before a small loss while nobody has weighed twice.
pub fn seated(order: &Order, record: &PersonRecord) -> Person {
    at_table(order, record, true)
}

/// [`seated`] under any order: with the answers given to that order, and screened for no other.
pub fn seated_in(state: &State, order: &Order, record: &PersonRecord) -> Person {
    let first = state.first_order();
    at_table(
        order,
        record,
        first.is_none_or(|first| first.id == order.id),
    )
}

fn at_table(order: &Order, record: &PersonRecord, first: bool) -> Person {
    let mut person = record.under(&order.id, first);
    if let Some(before) = kept_for_small_loss(order, record) {
        person.weighing = Some(before.clone());
    }
    person
}

/// The weighing before a small loss, where the loss alone would lead to a lower row.
fn kept_for_small_loss<'a>(order: &Order, record: &'a PersonRecord) -> Option<&'a Weighing> {
    let before = record.before_small_loss.as_ref()?;
    let row = |weighing: &Weighing| dose::row_of_weight(order, &weighing.weight);
    let now = record.person.weighing.as_ref().and_then(row)?;
    row(before).is_some_and(|row| row > now).then_some(before)
}

/// Days after which the order calls a weight old; an unknown age counts as a baby's.
fn stale_after(order: &Order, age: Option<Age>) -> u32 {
    let stale = order.medicine.stale_weight;
    let is_two = age.is_some_and(|age| age.reached(AgeSpan::years(2)));
    let limit = if is_two {
        stale.older
    } else {
        stale.under_two_years
    };
    u32::try_from(limit.as_hours() / 24).unwrap_or(0)
}

/// What somebody may gain in a day; an unknown age counts as a newborn's.
pub fn daily_gain(age: Option<Age>) -> DailyGain {
    let bands = [
        (AgeSpan::years(18), 0),
        (AgeSpan::years(10), 25),
        (AgeSpan::years(1), 12),
        (AgeSpan { months: 6, days: 0 }, 15),
        (AgeSpan { months: 3, days: 0 }, 25),
    ];
    let band = age.and_then(|age| bands.iter().find(|(from, _)| age.reached(*from)));
    DailyGain {
        grams: band.map_or(45, |(_, grams)| *grams),
    }
}

/// Whole grams a day.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DailyGain {
    pub grams: u32,
}

impl DailyGain {
    fn as_picograms(self) -> u64 {
        u64::from(self.grams).saturating_mul(1_000_000_000_000)
    }
}

fn days_between(from: Date, to: Date) -> Option<u32> {
    u32::try_from(from.until(to).ok()?.get_days()).ok()
}
