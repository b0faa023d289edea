//! What a population takes: tablets and packs for so many days, before anybody has come.
//!
//! It deals the people into homes by chance, many times over, and plans every home as [`crate::mixture::plan`] plans a real one;
//! so bowls are shared within a home and nowhere else.
//! The dice are seeded: one file, one order and one number of days always give one answer.
//! Floats are right here: nobody swallows an estimate, and nothing in here gives a dose to a person.
//!
//! What is taken for granted is said with every answer, see [`Assumption`].
//! Source of weights below ten years: WHO weight-for-age, see [`crate::growth`].

mod assume;
mod cells;
mod deal;
mod dice;
mod people;
mod plans;
mod population;
mod spread;

use std::collections::BTreeMap;

use crate::mixture::PlanRefusal;
use crate::order::CheckedOrder;
use crate::units::show;

pub use assume::Assumption;
pub use cells::AgeBand;
pub use population::{Group, LineProblem, MOST_IN_A_HOME, Population, read};
pub use spread::Range;

use deal::Town;
use plans::{Need, Plans};
use spread::Counts;

/// More than one file of a district holds; beyond it a forecast takes too long.
pub const MOST_PEOPLE: u64 = 10_000_000;
/// People dealt out in all draws together, as far as the number of draws allows.
const DEALT: u64 = 20_000_000;
const DRAWS: std::ops::RangeInclusive<u64> = 40..=1_000;
/// Any number does; it stands here so that the answer never changes.
const SEED: u64 = 0x0051_4865_6172_7468;

/// What a population takes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Forecast {
    pub people: u64,
    pub days: u32,
    /// Doses of one person in these days.
    pub rounds: u64,
    /// Of those who are dealt into one; a place of one's own counts.
    pub homes: Range,
    /// What the plans use.
    pub tablets: Range,
    /// What is handed out for them by the order's rule: spares, whole packs.
    pub handed_out: Range,
    /// Whole packs, or bottles; none where the order names no size.
    pub packs: Option<Range>,
    /// Whole millilitres, for a ready-made liquid.
    pub liquid_ml: Option<Range>,
    /// A tablet for each person and dose, whoever it is.
    pub one_tablet_per_dose: u64,
    /// People who get no dose from the chart, by the code of the first reason; the nearest whole number.
    pub held: BTreeMap<&'static str, u64>,
    /// How often the people were dealt into homes.
    pub draws: u64,
    /// No home can do with fewer tablets than its plan.
    pub proven: bool,
    pub assumptions: Vec<Assumption>,
}

/// Why there is no forecast.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Refusal {
    BeyondCourse { days: u32, course: u32 },
    TooManyPeople { people: u64 },
    Plan(PlanRefusal),
}

impl Refusal {
    /// The stable name of the refusal.
    pub fn code(&self) -> &'static str {
        match self {
            Refusal::BeyondCourse { .. } => "beyond-course",
            Refusal::TooManyPeople { .. } => "too-many-people",
            Refusal::Plan(refusal) => refusal.code,
        }
    }
}

impl std::fmt::Display for Refusal {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Refusal::BeyondCourse { days, course } => write!(
                f,
                "the course of this order is {course} days, not {days}: ask for {course} days or fewer"
            ),
            Refusal::TooManyPeople { people } => write!(
                f,
                "{} people are more than one forecast takes: make one for each district of at most {}",
                show::decimal(*people, 0),
                show::decimal(MOST_PEOPLE, 0)
            ),
            Refusal::Plan(refusal) => f.write_str(&refusal.text),
        }
    }
}

/// Forecasts `days` days of an order for a population; `tell` hears draws done and draws in all.
///
/// # Errors
/// More days than the course has, more people than can be dealt out, an order whose homes cannot be planned.
pub fn forecast(
    order: &CheckedOrder,
    population: &Population,
    days: u32,
    tell: &mut dyn FnMut(u64, u64),
) -> Result<Forecast, Refusal> {
    let course = order.medicine.course_days;
    if days > course {
        return Err(Refusal::BeyondCourse { days, course });
    }
    let people = population.people();
    if people > MOST_PEOPLE {
        return Err(Refusal::TooManyPeople { people });
    }
    let mut plans = Plans::new(order, days);
    let town = Town::of(order, population, &mut plans, SEED);
    let draws = (DEALT / people.max(1)).clamp(*DRAWS.start(), *DRAWS.end());
    let mut counts = Counts::default();
    for draw in 0..draws {
        let mut all = Need::default();
        let mut homes = 0;
        for home in town.deal(draw) {
            all.add(&plans.of(&home).map_err(Refusal::Plan)?);
            homes += 1;
        }
        counts.add(homes, &all);
        tell(draw + 1, draws);
    }
    let rounds = plans.rounds();
    Ok(Forecast {
        people,
        days,
        rounds,
        homes: counts.homes(),
        tablets: counts.tablets(),
        handed_out: counts.handed_out(),
        packs: plans.knows_packs().then(|| counts.packs()),
        liquid_ml: plans.is_liquid().then(|| counts.liquid_ml()),
        one_tablet_per_dose: people.saturating_mul(rounds),
        held: town.held(),
        draws,
        proven: plans.proven(),
        assumptions: assume::all(order, population, days),
    })
}
