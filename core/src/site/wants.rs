//! How much the people at the desk need, in whole packs, by the hand-out rule of the order.

use jiff::civil::Date;
use jiff::{Span, Timestamp};

use super::home::Home;
use super::serve::Shown;
use crate::mixture::{RoundTime, Seat, Wish, of_seat, plan, supply};
use crate::order::{CheckedOrder, HandOut};
use crate::schedule;

/// Packs for each bag.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Wants {
    /// Product key.
    pub(super) product: String,
    pub(super) each: u32,
    /// Person, or none for the home together, and packs.
    pub(super) bags: Vec<(Option<u16>, u32)>,
    /// The last day for which this is enough.
    pub(super) last_day: Date,
}

/// Nothing where nobody may have a dose or the course is over.
pub(super) fn of(order: &CheckedOrder, home: &Home, people: &[Shown], day: Date) -> Option<Wants> {
    let product = order.main_product()?;
    let ready: Vec<&Shown> = people.iter().filter(|shown| shown.dose.is_ok()).collect();
    let days: Vec<u32> = ready
        .iter()
        .map(|shown| days_to_cover(order, shown))
        .collect();
    let most = days.iter().copied().max().filter(|days| *days > 0)?;
    let rounds = rounds(order, day, &days, most)?;
    let a_day = u32::try_from(rounds.len()).ok()?.div_ceil(most).max(1);
    let seats: Vec<Seat> = ready
        .iter()
        .map(|shown| Seat {
            person: home.person(&shown.coded, order),
            had: had(shown, a_day),
            renewed: 0,
        })
        .collect();
    let wish = Wish {
        order,
        seats: &seats,
        rounds: &rounds,
        standing: &[],
        fresh: false,
    };
    let plan = plan(&wish, &mut |_, _| {}).ok()?;
    let each = product.pack_size.filter(|size| *size > 0).unwrap_or(1);
    let spare = order.medicine.hand_out.spare();
    let packs = |need: u64, left: u64| -> Option<u32> {
        if need == 0 {
            return Some(0);
        }
        let wanted = need.saturating_add(u64::from(spare)).saturating_sub(left);
        u32::try_from(wanted.div_ceil(u64::from(each))).ok()
    };
    let bags = match order.medicine.hand_out {
        HandOut::PerPerson => ready
            .iter()
            .enumerate()
            .map(|(seat, shown)| {
                let need = of_seat(order, &plan, seat);
                Some((Some(shown.id), packs(need, left(shown))?))
            })
            .collect::<Option<Vec<_>>>()?,
        HandOut::PlanAndSpare { .. } => {
            let left = ready.iter().map(|shown| left(shown)).sum();
            let need = match supply(order, &plan, &seats) {
                supply if supply.tablets > 0 => supply.tablets,
                // A liquid: millilitres.
                _ => (0..seats.len())
                    .map(|seat| of_seat(order, &plan, seat))
                    .sum(),
            };
            vec![(None, packs(need, left)?)]
        }
    };
    Some(Wants {
        product: product.key.clone(),
        each,
        bags: bags.into_iter().filter(|(_, packs)| *packs > 0).collect(),
        last_day: day
            .checked_add(Span::new().try_days(i64::from(most) - 1).ok()?)
            .ok()?,
    })
}

/// What one hand-out is for, and no day longer than this person's course; zero at its end.
fn days_to_cover(order: &CheckedOrder, shown: &Shown) -> u32 {
    let day = shown.coded.course_day.map_or(1, u32::from).max(1);
    let to_go = order.medicine.course_days.saturating_sub(day - 1);
    order.medicine.supply_days.min(to_go)
}

/// Rounds at even distances from eight in the morning on; each seat sits in those of its own days.
fn rounds(order: &CheckedOrder, day: Date, days: &[u32], most: u32) -> Option<Vec<RoundTime>> {
    let zone = schedule::zone(&order.time_zone).ok()?;
    let start = |after: u32| -> Option<Timestamp> {
        let on = day
            .checked_add(Span::new().try_days(i64::from(after)).ok()?)
            .ok()?;
        zone.to_timestamp(on.at(8, 0, 0, 0)).ok()
    };
    let ends: Vec<Timestamp> = days
        .iter()
        .map(|days| start(*days))
        .collect::<Option<_>>()?;
    let end = start(most)?;
    let mut rounds = Vec::new();
    let mut at = start(0)?;
    while at < end {
        let who = ends.iter().enumerate().filter(|(_, end)| at < **end);
        rounds.push(RoundTime {
            at,
            day: zone.to_datetime(at).date(),
            who: who.map(|(seat, _)| seat).collect(),
        });
        at = at.checked_add(order.medicine.interval).ok()?;
        if rounds.len() > MOST_ROUNDS {
            return None;
        }
    }
    Some(rounds)
}

/// More rounds than any supply has.
const MOST_ROUNDS: usize = 2_000;

/// Doses had before, as far as a code tells; at least the last one.
fn had(shown: &Shown, a_day: u32) -> u32 {
    let days = shown
        .coded
        .course_day
        .map_or(0, |day| u32::from(day).saturating_sub(1));
    let least = u32::from(shown.coded.last_dose.is_some());
    days.saturating_mul(a_day).max(least)
}

fn left(shown: &Shown) -> u64 {
    shown.coded.left.map_or(0, u64::from)
}
