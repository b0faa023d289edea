//! Where each person stands in the course on the day at the desk: as the code says, moved on to today.
//!
//! A code may be days old, of another order, or of somebody who has not begun; medicine it tells of may be called back.
//! What is uncertain counts as not there: a bottle too many is better than a course that breaks off.

use jiff::civil::Date;
use jiff::{Span, Timestamp, Unit};

use super::home::Home;
use super::serve::{Shown, day_of};
use crate::dose::DoseForm;
use crate::exchange::OrderMark;
use crate::order::{CheckedOrder, Form};
use crate::schedule;
use crate::today::{Begins, InForce, LotStanding};

/// Course of one person, seen from today.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Course {
    /// For each day of a supply from today on, whether there are doses.
    pub(super) days: Vec<bool>,
    /// Doses had before today, as far as a code tells.
    pub(super) had: u32,
    /// Tablets, or millilitres, that are still there and may be used.
    pub(super) left: u64,
}

impl Course {
    /// Days with doses.
    pub(super) fn length(&self) -> usize {
        self.days.iter().filter(|day| **day).count()
    }
}

const DAY: i64 = 86_400;

/// Rounds of one day; one for an order whose doses are days apart.
pub(super) fn rounds_a_day(order: &CheckedOrder) -> u32 {
    DAY.checked_div(order.medicine.interval.as_secs())
        .and_then(|rounds| u32::try_from(rounds).ok())
        .map_or(1, |rounds| rounds.max(1))
}

/// Days from one to another; zero for a day that lies before.
fn days(from: Date, to: Date) -> u32 {
    let span = from.until((Unit::Day, to)).map(|span| span.get_days());
    u32::try_from(span.unwrap_or(0)).unwrap_or(0)
}

fn after(day: Date, days: u32) -> Option<Date> {
    day.checked_add(Span::new().try_days(i64::from(days)).ok()?)
        .ok()
}

/// What is known of a course before it is laid over the calendar.
struct Told {
    /// Day of the course that today is; none for somebody who begins today.
    day: Option<u32>,
    /// Days since the code was made.
    since: u32,
    is_of_this_order: bool,
}

pub(super) fn of(
    order: &CheckedOrder,
    home: &Home,
    force: &InForce<'_>,
    shown: &Shown,
    day: Date,
) -> Option<Course> {
    let told = told(order, home, shown, day);
    let start = day
        .checked_sub(Span::new().days(i64::from(told.day.unwrap_or(1).saturating_sub(1))))
        .ok()?;
    let days: Option<Vec<bool>> = (0..order.medicine.supply_days)
        .map(|ahead| Some(has_doses(order, force, start, after(day, ahead)?)))
        .collect();
    let least = u32::from(told.is_of_this_order && shown.coded.last_dose.is_some());
    let had = told.day.map_or(0, |day| day.saturating_sub(1));
    Some(Course {
        days: days?,
        had: had.saturating_mul(rounds_a_day(order)).max(least),
        left: left(order, force, shown, &told),
    })
}

fn told(order: &CheckedOrder, home: &Home, shown: &Shown, day: Date) -> Told {
    let seen = home.seen.last();
    let mark = seen.and_then(|seen| seen.code.order.as_ref());
    let is_of_this_order = mark.is_some_and(|mark| mark.id == order.id);
    let told_on = home.told_at().map_or(day, |at| day_of(order, at));
    let since = days(told_on, day);
    let served = first_served(order, home, shown.id).map(|at| day_of(order, at));
    let coded = shown.coded.course_day.filter(|_| is_of_this_order);
    let by_code = coded.map(|coded| u32::from(coded.max(1)).saturating_add(since));
    let by_hand_out = served.map(|served| days(served, day).saturating_add(1));
    // A household's days begin with its first entry; without medicine that was no course.
    let has_begun = served.is_some() || (is_of_this_order && shown.coded.last_dose.is_some());
    let is_one_supply = order.medicine.course_days <= order.medicine.supply_days;
    Told {
        day: by_code
            .or(by_hand_out)
            .filter(|_| has_begun || !is_one_supply),
        since,
        is_of_this_order,
    }
}

/// When this person was first handed something of this order, alone or with the home.
fn first_served(order: &CheckedOrder, home: &Home, person: u16) -> Option<Timestamp> {
    let for_them = |out: &&super::handed_out::HandedOut| {
        out.lines.iter().any(|line| {
            line.person.is_none_or(|id| id == person) && order.product(&line.lot.product).is_some()
        })
    };
    let outs = home.handed_out.iter().filter(for_them);
    outs.map(|out| out.at).min()
}

/// Whether a day is one of the course, after all that the issuer said.
fn has_doses(order: &CheckedOrder, force: &InForce<'_>, start: Date, day: Date) -> bool {
    let Ok(zone) = schedule::zone(&order.time_zone) else {
        return false;
    };
    let Ok(at) = zone.to_timestamp(day.at(0, 0, 0, 0)) else {
        return false;
    };
    force.stopped_on(day).is_none()
        && force.stretches.iter().any(|stretch| {
            let first = match stretch.begins {
                Begins::Own => start,
                Begins::On(day) => day,
                Begins::At(at) => day_of(order, at),
            };
            let inside = after(first, stretch.days).is_some_and(|end| first <= day && day < end);
            inside && force.leaves(stretch, day, at)
        })
}

/// What the code says is left, less what was used since, and nothing of what may not be used.
fn left(order: &CheckedOrder, force: &InForce<'_>, shown: &Shown, told: &Told) -> u64 {
    let Some(product) = order.main_product().filter(|_| told.is_of_this_order) else {
        return 0;
    };
    let supply = shown.coded.supply.as_ref();
    let is_other = supply.is_some_and(|supply| {
        let place = order.products.get(usize::from(supply.product));
        place.is_none_or(|place| place.key != product.key)
    });
    let lot = supply.and_then(|supply| supply.lot.as_deref());
    let is_called_back = lot.is_some_and(|lot| force.lot(lot) >= LotStanding::SetAside);
    if is_other || is_called_back {
        return 0;
    }
    let told_left = shown.coded.left.map_or(0, u64::from);
    let there = match product.form {
        Form::Tablet => told_left,
        // Bottles; one of them may be open, and nobody knows how full it is.
        Form::Liquid => told_left
            .saturating_sub(1)
            .saturating_mul(product.pack_size.map_or(0, u64::from)),
    };
    let rounds = u64::from(told.since).saturating_mul(u64::from(rounds_a_day(order)));
    there.saturating_sub(rounds.saturating_mul(a_dose(order, shown)))
}

/// Tablets, or millilitres, of one dose from packs of one's own.
fn a_dose(order: &CheckedOrder, shown: &Shown) -> u64 {
    let Ok(dose) = &shown.dose else { return 0 };
    match dose.form {
        DoseForm::Liquid => dose.amount.as_microlitres().div_ceil(1_000),
        DoseForm::Tablets | DoseForm::Mixture => {
            let bowl = order.recipe.as_ref().map_or(0, |recipe| recipe.tablets);
            u64::from(dose.tablets.unwrap_or(bowl))
        }
    }
}

/// Whether the code is of this order, of a revision that this desk has or had.
pub(super) fn fits(mark: Option<&OrderMark>, order: &CheckedOrder) -> bool {
    mark.is_none_or(|mark| {
        let own = OrderMark::of(order);
        mark.id == own.id && (mark.revision < own.revision || *mark == own)
    })
}
