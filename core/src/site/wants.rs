//! How much the people at the desk need, by the hand-out rule of the order.

use jiff::civil::Date;
use jiff::{SignedDuration, Span, Timestamp};

use super::course::{self, Course};
use super::home::Home;
use super::pick::Need;
use super::serve::Shown;
use crate::mixture::{CoursePlan, RoundTime, Seat, Wish, of_seat, plan, supply};
use crate::order::{CheckedOrder, Form, HandOut, Product};
use crate::schedule;
use crate::today::InForce;

/// What each bag must hold.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Wants {
    /// Product key.
    pub(super) product: String,
    /// Tablets, or millilitres, in one pack as the order has it; 1 where it names none.
    pub(super) each: u32,
    /// Person, or none for the home together.
    pub(super) bags: Vec<(Option<u16>, Need)>,
    /// Whom all of it is for.
    pub(super) people: Vec<u16>,
    /// The last day for which this is enough.
    pub(super) last_day: Date,
}

/// Nothing where nobody may have a dose or the course is over.
pub(super) fn of(
    order: &CheckedOrder,
    home: &Home,
    force: &InForce<'_>,
    people: &[Shown],
    day: Date,
) -> Option<Wants> {
    let product = order.main_product()?;
    let mut ready: Vec<(&Shown, Course)> = Vec::new();
    for shown in people.iter().filter(|shown| shown.dose.is_ok()) {
        ready.push((shown, course::of(order, home, force, shown, day)?));
    }
    let rounds = rounds(order, day, &ready)?;
    let ahead = ready
        .iter()
        .filter_map(|(_, course)| course.days.iter().rposition(|day| *day))
        .max()?;
    let last_day = day
        .checked_add(Span::new().try_days(i64::try_from(ahead).ok()?).ok()?)
        .ok()?;
    let renewed = force
        .renewed_days()
        .saturating_mul(course::rounds_a_day(order));
    let seats: Vec<Seat> = ready
        .iter()
        .map(|(shown, course)| Seat {
            person: home.person(&shown.coded, order),
            had: course.had,
            renewed,
        })
        .collect();
    let needs = needs(order, &seats, &rounds)?;
    let longest = ready.iter().map(|(_, course)| course.length()).max()?;
    let bags = match order.medicine.hand_out {
        HandOut::PerPerson => ready
            .iter()
            .enumerate()
            .map(|(seat, (shown, course))| {
                let need = needs.each.get(seat).copied().unwrap_or(0);
                let need = need_of(order, product, need, course.left, course.length());
                (Some(shown.id), need)
            })
            .collect(),
        HandOut::PlanAndSpare { .. } => {
            // Packs of the home are everybody's, also of those who wait for a nurse.
            let all = people
                .iter()
                .filter_map(|shown| course::of(order, home, force, shown, day));
            let left = all.fold(0_u64, |sum, course| sum.saturating_add(course.left));
            let need = need_of(order, product, needs.together, left, longest);
            vec![(None, need)]
        }
    };
    let served = ready.iter().filter(|(_, course)| course.length() > 0);
    Some(Wants {
        people: served.map(|(shown, _)| shown.id).collect(),
        product: product.key.clone(),
        each: product.pack_size.filter(|size| *size > 0).unwrap_or(1),
        bags: bags
            .into_iter()
            .filter(|(_, need)| !need.is_nothing())
            .collect(),
        last_day,
    })
}

/// People who share bowls. A shelter is counted by tables, each with bowls of its own: the line cannot wait for a plan of fifty.
const TABLE: usize = 12;

/// Tablets, or millilitres.
struct Needs {
    /// From packs of one's own, by seat.
    each: Vec<u64>,
    /// Of the whole home, with bowls that are shared.
    together: u64,
}

fn needs(order: &CheckedOrder, seats: &[Seat], rounds: &[RoundTime]) -> Option<Needs> {
    let mut needs = Needs {
        each: Vec::new(),
        together: 0,
    };
    for (table, seats) in seats.chunks(TABLE).enumerate() {
        let first = table.checked_mul(TABLE)?;
        let here = |seat: &usize| seat.checked_sub(first).filter(|at| *at < seats.len());
        let rounds: Vec<RoundTime> = rounds
            .iter()
            .map(|round| RoundTime {
                who: round.who.iter().filter_map(here).collect(),
                ..round.clone()
            })
            .collect();
        let wish = Wish {
            order,
            seats,
            rounds: &rounds,
            standing: &[],
            fresh: false,
        };
        let plan = plan(&wish, &mut |_, _| {}).ok()?;
        let each = (0..seats.len()).map(|seat| of_seat(order, &plan, seat));
        needs.each.extend(each);
        needs.together = needs.together.saturating_add(together(order, &plan, seats));
    }
    Some(needs)
}

/// Tablets, or millilitres, of one table.
fn together(order: &CheckedOrder, plan: &CoursePlan, seats: &[Seat]) -> u64 {
    match supply(order, plan, seats).tablets {
        0 => (0..seats.len()).fold(0, |sum, seat| {
            u64::saturating_add(sum, of_seat(order, plan, seat))
        }),
        tablets => tablets,
    }
}

/// What is needed beyond what is left; nothing for somebody who needs nothing, spare included.
fn need_of(order: &CheckedOrder, product: &Product, need: u64, left: u64, days: usize) -> Need {
    if need == 0 {
        return Need::default();
    }
    let spare = match product.form {
        Form::Tablet => u64::from(order.medicine.hand_out.spare()),
        Form::Liquid => 0,
    };
    let units = need.saturating_add(spare).saturating_sub(left);
    Need {
        units,
        // An opened bottle is thrown away after its days, however much is in it.
        at_least: match opened_days(product) {
            Some(opened) if units > 0 => u32::try_from(days).unwrap_or(u32::MAX).div_ceil(opened),
            _ => 0,
        },
    }
}

/// Whole days that an opened bottle keeps.
fn opened_days(product: &Product) -> Option<u32> {
    let keeps = product
        .keep_opened
        .filter(|_| product.form == Form::Liquid)?;
    let days = keeps.as_hours().checked_div(24)?;
    u32::try_from(days).ok().filter(|days| *days > 0)
}

/// Rounds at even distances from eight in the morning on, by days of 24 hours: a clock change adds no dose.
fn rounds(order: &CheckedOrder, day: Date, ready: &[(&Shown, Course)]) -> Option<Vec<RoundTime>> {
    let zone = schedule::zone(&order.time_zone).ok()?;
    let start: Timestamp = zone.to_timestamp(day.at(8, 0, 0, 0)).ok()?;
    let interval = order.medicine.interval;
    let mut rounds = Vec::new();
    let mut gone = SignedDuration::ZERO;
    loop {
        let ahead = u32::try_from(gone.as_hours().checked_div(24)?).ok()?;
        if ahead >= order.medicine.supply_days {
            return Some(rounds);
        }
        let on = usize::try_from(ahead).ok()?;
        let who = ready
            .iter()
            .enumerate()
            .filter(|(_, (_, course))| course.days.get(on).is_some_and(|has_doses| *has_doses));
        rounds.push(RoundTime {
            at: start.checked_add(gone).ok()?,
            day: day
                .checked_add(Span::new().try_days(i64::from(ahead)).ok()?)
                .ok()?,
            who: who.map(|(seat, _)| seat).collect(),
        });
        gone = gone.checked_add(interval)?;
        if rounds.len() > MOST_ROUNDS || interval <= SignedDuration::ZERO {
            return None;
        }
    }
}

/// More rounds than any supply has.
const MOST_ROUNDS: usize = 2_000;
