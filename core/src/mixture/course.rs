//! The plan of a household's course.

use jiff::Timestamp;
use jiff::civil::Date;

use super::batch::{self, OpenBowl, Problem};
use super::pace::Pace;
use crate::dose::{self, Dose, DoseForm};
use crate::household::Person;
use crate::order::CheckedOrder;
use crate::screening::Reason;
use crate::units::{Lapse, Volume};

/// A place at the table: a person and what the plan must know of the past.
#[derive(Clone, Debug)]
pub struct Seat {
    pub person: Person,
    /// Doses already had, for orders that limit them.
    pub had: u32,
    /// Doses the issuer has added since to what everyone may have.
    pub renewed: u32,
}

/// One round to be planned and who has a dose in it, by seat.
#[derive(Clone, Debug)]
pub struct RoundTime {
    pub at: Timestamp,
    pub day: Date,
    pub who: Vec<usize>,
}

/// A bowl that stands covered when the plan begins.
#[derive(Clone, Copy, Debug)]
pub struct Standing {
    pub left: Volume,
    pub discard_at: Timestamp,
}

/// Everything a plan is made from.
pub struct Wish<'a> {
    pub order: &'a CheckedOrder,
    pub seats: &'a [Seat],
    pub rounds: &'a [RoundTime],
    pub standing: &'a [Standing],
    /// Every round makes its own bowls and keeps none.
    pub fresh: bool,
}

#[derive(Clone, Debug)]
pub struct CoursePlan {
    pub rounds: Vec<PlannedRound>,
    pub bowls: Vec<CourseBowl>,
    /// Doses taken from standing bowls: which one, round, seat.
    pub from_standing: Vec<(usize, usize, usize, Volume)>,
    /// Who has no dose, and why; at the first round in which that is so.
    pub held: Vec<(usize, usize, Vec<Reason>)>,
    /// Tablets for bowls and whole ones together.
    pub tablets: u64,
    pub whole_tablets: u64,
    /// No plan can do with fewer tablets.
    pub lower_bound: u64,
    pub proven: bool,
    pub liquid: Volume,
}

#[derive(Clone, Debug)]
pub struct PlannedRound {
    pub at: Timestamp,
    pub day: Date,
    pub doses: Vec<PlannedDose>,
    /// Indices of the bowls made in this round.
    pub makes: Vec<usize>,
    pub pace: Pace,
}

#[derive(Clone, Debug)]
pub struct PlannedDose {
    pub seat: usize,
    pub dose: Dose,
}

#[derive(Clone, Debug)]
pub struct CourseBowl {
    pub round: usize,
    pub made_at: Timestamp,
    pub discard_at: Timestamp,
    /// Round, seat, amount.
    pub takes: Vec<(usize, usize, Volume)>,
    pub tablets: u32,
}

/// Why there is no plan at all.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlanRefusal {
    pub code: &'static str,
    pub text: String,
}

/// Plans the bowls of a course; `tell` hears rounds done and rounds in all.
///
/// # Errors
/// An order whose amounts do not fit its own bowl, or a household too large for the planner.
pub fn plan(
    wish: &Wish<'_>,
    tell: &mut dyn FnMut(usize, usize),
) -> Result<CoursePlan, PlanRefusal> {
    let mut result = CoursePlan {
        rounds: Vec::new(),
        bowls: Vec::new(),
        from_standing: Vec::new(),
        held: Vec::new(),
        tablets: 0,
        whole_tablets: 0,
        lower_bound: 0,
        proven: true,
        liquid: Volume::ZERO,
    };
    give_doses(wish, &mut result);
    for planned in result.rounds.iter().flat_map(|r| &r.doses) {
        match planned.dose.form {
            DoseForm::Tablets => {
                result.whole_tablets += u64::from(planned.dose.tablets.unwrap_or(0))
            }
            DoseForm::Liquid => {
                result.liquid = result
                    .liquid
                    .checked_add(planned.dose.amount)
                    .unwrap_or(result.liquid)
            }
            DoseForm::Mixture => {}
        }
    }
    result.tablets = result.whole_tablets;
    result.lower_bound = result.whole_tablets;
    if result
        .rounds
        .iter()
        .any(|r| r.doses.iter().any(|d| d.dose.form == DoseForm::Mixture))
    {
        fill_bowls(wish, &mut result, tell)?;
    }
    Ok(result)
}

fn give_doses(wish: &Wish<'_>, result: &mut CoursePlan) {
    let soak = wish.order.recipe.as_ref().map_or(Lapse::ZERO, |r| r.soak);
    let mut had: Vec<u32> = wish.seats.iter().map(|seat| seat.had).collect();
    for (index, round) in wish.rounds.iter().enumerate() {
        let mut doses = Vec::new();
        for &seat in &round.who {
            let (Some(place), Some(had)) = (wish.seats.get(seat), had.get_mut(seat)) else {
                continue;
            };
            if dose::most_doses_renewed(wish.order, &place.person, round.day, place.renewed)
                .is_some_and(|most| *had >= most)
            {
                continue;
            }
            match dose::work_out(wish.order, &place.person, round.day) {
                Ok(dose) => {
                    *had = had.saturating_add(1);
                    doses.push(PlannedDose { seat, dose });
                }
                Err(reasons) => {
                    if !result.held.iter().any(|(held, _, _)| *held == seat) {
                        result.held.push((seat, index, reasons));
                    }
                }
            }
        }
        let whole = doses
            .iter()
            .filter(|d| d.dose.form == DoseForm::Tablets)
            .count();
        let pace = Pace::of(soak, true, doses.len() - whole, whole);
        result.rounds.push(PlannedRound {
            at: round.at,
            day: round.day,
            doses,
            makes: Vec::new(),
            pace,
        });
    }
}

fn fill_bowls(
    wish: &Wish<'_>,
    result: &mut CoursePlan,
    tell: &mut dyn FnMut(usize, usize),
) -> Result<(), PlanRefusal> {
    let broken = |text: &str| PlanRefusal {
        code: "order-incomplete",
        text: text.to_owned(),
    };
    let recipe = wish
        .order
        .recipe
        .as_ref()
        .ok_or_else(|| broken("the order has no recipe"))?;
    let full = recipe
        .bowl_volume()
        .ok_or_else(|| broken("the bowl of the recipe is too large"))?;
    let steps = |volume: Volume| {
        volume
            .in_steps(recipe.step)
            .and_then(|n| u32::try_from(n).ok())
    };
    let capacity = steps(full).ok_or_else(|| broken("the bowl is not a whole number of steps"))?;
    let mut amounts = Vec::new();
    let mut seats: Vec<Vec<usize>> = Vec::new();
    for round in &result.rounds {
        let mixtures: Vec<&PlannedDose> = round
            .doses
            .iter()
            .filter(|d| d.dose.form == DoseForm::Mixture)
            .collect();
        let row: Option<Vec<u32>> = mixtures.iter().map(|d| steps(d.dose.amount)).collect();
        amounts.push(row.ok_or_else(|| broken("an amount is not a whole number of steps"))?);
        seats.push(mixtures.iter().map(|d| d.seat).collect());
    }
    let made: Vec<Timestamp> = result
        .rounds
        .iter()
        .map(|r| earlier(r.at, r.pace.make))
        .collect();
    let last_use = |made: Timestamp, from: usize| {
        let discard = later(made, recipe.keep);
        let usable =
            |r: &PlannedRound| later(r.at, wish.order.medicine.margin.max(r.pace.give)) <= discard;
        let after = result
            .rounds
            .iter()
            .enumerate()
            .skip(from)
            .take_while(|(index, r)| *index == from || usable(r));
        after.map(|(index, _)| index).last().unwrap_or(from)
    };
    let problem = Problem {
        capacity,
        last_use: made
            .iter()
            .enumerate()
            .map(|(index, made)| {
                if wish.fresh {
                    index
                } else {
                    last_use(*made, index)
                }
            })
            .collect(),
        split: wish.order.medicine.split,
        rounds: amounts,
        open: wish
            .standing
            .iter()
            .filter_map(|bowl| open_bowl(bowl, recipe.step, result, wish))
            .collect(),
    };
    let solved = batch::solve_with(&problem, tell).map_err(|r| PlanRefusal {
        code: r.code(),
        text: r.to_string(),
    })?;
    let back = |steps: u32| {
        recipe
            .step
            .checked_mul(u64::from(steps))
            .unwrap_or(Volume::ZERO)
    };
    let seat_of = |take: &batch::Take| {
        seats
            .get(take.round)
            .and_then(|row| row.get(take.dose))
            .copied()
            .unwrap_or(usize::MAX)
    };
    for bowl in &solved.bowls {
        let made_at = made
            .get(bowl.round)
            .copied()
            .unwrap_or(Timestamp::UNIX_EPOCH);
        if let Some(round) = result.rounds.get_mut(bowl.round) {
            round.makes.push(result.bowls.len());
        }
        let takes = bowl
            .takes
            .iter()
            .map(|take| (take.round, seat_of(take), back(take.amount)))
            .collect();
        let discard_at = later(made_at, recipe.keep);
        result.bowls.push(CourseBowl {
            round: bowl.round,
            made_at,
            discard_at,
            takes,
            tablets: recipe.tablets,
        });
    }
    result.from_standing = solved
        .from_open
        .iter()
        .map(|(bowl, take)| (*bowl, take.round, seat_of(take), back(take.amount)))
        .collect();
    let per_bowl = u64::from(recipe.tablets);
    let bowls = |count: usize| {
        u64::try_from(count)
            .unwrap_or(u64::MAX)
            .saturating_mul(per_bowl)
    };
    result.tablets = result.tablets.saturating_add(bowls(solved.count));
    result.lower_bound = result.lower_bound.saturating_add(bowls(solved.lower_bound));
    result.proven = solved.proven;
    Ok(())
}

/// A standing bowl as the planner sees it. One that keeps for no round at all stays in the list, empty, so that indices agree.
fn open_bowl(
    bowl: &Standing,
    step: Volume,
    result: &CoursePlan,
    wish: &Wish<'_>,
) -> Option<OpenBowl> {
    let usable = |r: &PlannedRound| {
        later(r.at, wish.order.medicine.margin.max(r.pace.give)) <= bowl.discard_at
    };
    let last_use = result
        .rounds
        .iter()
        .take_while(|r| usable(r))
        .count()
        .checked_sub(1);
    let left = bowl.left.as_microlitres() / step.as_microlitres().max(1);
    let left = if last_use.is_some() && !wish.fresh {
        u32::try_from(left).ok()?
    } else {
        0
    };
    Some(OpenBowl {
        left,
        last_use: last_use.unwrap_or(0),
    })
}

fn later(at: Timestamp, lapse: Lapse) -> Timestamp {
    at.checked_add(lapse).unwrap_or(Timestamp::MAX)
}

fn earlier(at: Timestamp, lapse: Lapse) -> Timestamp {
    at.checked_sub(lapse).unwrap_or(Timestamp::MIN)
}
