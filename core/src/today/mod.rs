//! What comes next at this table: the next round, when it begins, who takes what from which bowl.
//!
//! It is worked out afresh from the record, the order and the moment; nothing in here is remembered.

mod begin;
mod evening;
mod follow;
mod notices;
mod refill;
mod rounds;
mod weights;

use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};

use crate::mixture::{self, CoursePlan, Pace, PlanRefusal, RoundTime, Seat, Standing, Wish};
use crate::order::{CheckedOrder, Notice};
use crate::prep::{BowlId, PersonId, RoundKey};
use crate::record::{RoundName, State};
use crate::schedule::{self, Advice, Timing};
use crate::time::Now;

pub use begin::round_plan;
pub use evening::{Evening, together};
pub use follow::{instead_for, may_follow};
pub use notices::{
    Begins, Collection, Cut, InForce, LotInHouse, LotStanding, Stretch, lots, water_rule,
};
pub use refill::refill_date;
pub use weights::{
    AskWeight, Crossing, DailyGain, ask_by_age, ask_weight, crossing, daily_gain, seated, seated_in,
};

/// The next round and everything that follows from it.
#[derive(Clone, Debug)]
pub struct Today {
    /// Person of each seat, in the order of the household.
    pub seats: Vec<(PersonId, Seat)>,
    /// The rounds still to come; the first is the next.
    pub rounds: Vec<(RoundKey, RoundTime)>,
    pub plan: CoursePlan,
    /// Covered bowls, as the plan counts them.
    pub standing: Vec<BowlId>,
    pub advice: Advice,
    /// Rounds before the next one that nobody gave; they stay missed.
    pub missed: Vec<RoundKey>,
    pub zone: TimeZone,
    /// Day of the course of the next round, from 1.
    pub day: i32,
    pub days: u32,
    /// Who follows this order and another of the same event, and gets the other's medicine only.
    pub refused: Vec<PersonId>,
}

/// Why there is no next round.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoRound {
    NoHousehold,
    /// The household's times or zone do not fit the order.
    Times {
        code: &'static str,
        text: String,
    },
    /// Everybody is stopped or waits for a nurse; that is not the end of the course.
    Nobody,
    /// The issuer said to stop.
    Stopped {
        notice: Box<Notice>,
    },
    /// Every round of the course is behind.
    CourseOver,
    Plan(PlanRefusal),
}

impl Today {
    pub fn next_key(&self) -> Option<RoundKey> {
        self.rounds.first().map(|(key, _)| *key)
    }

    pub fn next_at(&self) -> Option<Timestamp> {
        self.rounds.first().map(|(_, round)| round.at)
    }

    /// How long the next round takes; shorter when only covered bowls serve.
    pub fn pace(&self, soak: SignedDuration) -> Pace {
        let Some(round) = self.plan.rounds.first() else {
            return Pace::of(SignedDuration::ZERO, false, 0, 0);
        };
        let whole = round
            .doses
            .iter()
            .filter(|d| d.dose.form == crate::dose::DoseForm::Tablets)
            .count();
        Pace::of(
            soak,
            !round.makes.is_empty(),
            round.doses.len() - whole,
            whole,
        )
    }
}

/// Looks at the record at `now`, for the people who follow this order.
///
/// # Errors
/// Why there is nothing to do.
pub fn look(state: &State, order: &CheckedOrder, now: &Now) -> Result<Today, NoRound> {
    look_among(state, order, &[], now)
}

/// [`look`] in a kitchen with other orders: nobody gets two medicines of one event.
///
/// # Errors
/// Why there is nothing to do.
pub fn look_among(
    state: &State,
    order: &CheckedOrder,
    others: &[&CheckedOrder],
    now: &Now,
) -> Result<Today, NoRound> {
    let household = state.household.as_ref().ok_or(NoRound::NoHousehold)?;
    let zone = schedule::zone(&household.zone).map_err(|r| NoRound::Times {
        code: r.code(),
        text: r.to_string(),
    })?;
    let (refused, followers): (Vec<PersonId>, Vec<PersonId>) = state
        .people()
        .map(|(id, _)| id)
        .filter(|id| state.follows(*id, &order.id))
        .partition(|id| follow::same_event(state, *id, order, others).is_some());
    let may = |id: &PersonId| {
        let record = state.people.get(id);
        record.is_some_and(|p| !p.is_stopped()) && !state.hold_after(*id)
    };
    let people: Vec<PersonId> = followers.into_iter().filter(may).collect();
    if people.is_empty() {
        return Err(NoRound::Nobody);
    }
    let force = InForce::of(state, order);
    let stopped = |notice: &Notice| NoRound::Stopped {
        notice: Box::new(notice.clone()),
    };
    if let Some(notice) = force.stopped_on(zone.to_datetime(now.wall).date()) {
        return Err(stopped(notice));
    }
    let all = rounds::of_household(state, household, order, &force, &zone, &people)?;
    let last = all.last().map(|(key, _)| key.day);
    let timing = Timing::from(&order.medicine);
    let open: Vec<(RoundKey, RoundTime)> = all
        .into_iter()
        .filter(|(key, _)| {
            let order = order.id.clone();
            let round = RoundName { order, key: *key };
            !state.rounds_begun.contains(&round) && !state.rounds_missed.contains(&round)
        })
        .collect();
    let last_dose = rounds::last_dose(state, order, &people, open.first());
    let over = force
        .stop
        .map_or(NoRound::CourseOver, |(stop, _)| stopped(stop));
    let (skip, advice) = rounds::next_of(&timing, last_dose, &open, now.wall).ok_or(over)?;
    let missed: Vec<RoundKey> = open.iter().take(skip).map(|(key, _)| *key).collect();
    let rounds: Vec<(RoundKey, RoundTime)> = open.into_iter().skip(skip).collect();
    let rounds_a_day = u32::try_from(household.rounds.len()).unwrap_or(0);
    let renewed = force.renewed_days().saturating_mul(rounds_a_day);
    let seats: Vec<(PersonId, Seat)> = people
        .iter()
        .filter_map(|id| seat(state, order, renewed, *id))
        .collect();
    let covered = state.covered_under(&order.id);
    let standing: Vec<Standing> = covered.iter().map(|b| standing_of(state, b, now)).collect();
    let times: Vec<RoundTime> = rounds.iter().map(|(_, round)| round.clone()).collect();
    let table: Vec<Seat> = seats.iter().map(|(_, seat)| seat.clone()).collect();
    let wish = Wish {
        order,
        seats: &table,
        rounds: &times,
        standing: &standing,
        fresh: household.fresh,
    };
    let plan = mixture::plan(&wish, &mut |_, _| {}).map_err(NoRound::Plan)?;
    let first = rounds.first().ok_or(NoRound::CourseOver)?;
    let day_of = |day: Date| {
        let days = household.start.until(day).map_or(0, |span| span.get_days());
        days.saturating_add(1)
    };
    let day = day_of(first.0.day);
    let as_ordered = order.medicine.course_days;
    let days = match last.filter(|_| force.changes_course(order)) {
        Some(last) => u32::try_from(day_of(last)).unwrap_or(as_ordered),
        None => as_ordered,
    };
    let standing = covered.iter().map(|b| b.bowl.id).collect();
    Ok(Today {
        seats,
        rounds,
        plan,
        standing,
        advice,
        missed,
        zone,
        day,
        days,
        refused,
    })
}

fn seat(
    state: &State,
    order: &CheckedOrder,
    renewed: u32,
    id: PersonId,
) -> Option<(PersonId, Seat)> {
    let record = state.people.get(&id)?;
    let here = u32::try_from(state.doses_under(id, &order.id)).unwrap_or(u32::MAX);
    let elsewhere = state.elsewhere(id, &order.id);
    let had = here.saturating_add(elsewhere.map_or(0, |elsewhere| elsewhere.doses));
    Some((
        id,
        Seat {
            person: seated_in(state, order, record),
            had,
            renewed,
        },
    ))
}

/// When a covered bowl must be gone, by the wall clock of this moment.
fn standing_of(state: &State, bowl: &crate::record::BowlRecord, now: &Now) -> Standing {
    let latest = state.latest.unwrap_or(now.wall);
    let age = bowl
        .bowl
        .water_at
        .as_ref()
        .map(|water| now.at_most_since(water, latest));
    let left = match age {
        Some(crate::time::AtMost::Known(age)) => bowl.bowl.keep - age,
        _ => SignedDuration::ZERO,
    };
    Standing {
        left: bowl.bowl.holds,
        discard_at: now.wall.checked_add(left).unwrap_or(now.wall),
    }
}
