//! Writing down what a round sets out to do, at the moment it begins.

use jiff::SignedDuration;
use uuid::Uuid;

use super::Today;
use crate::dose::DoseForm;
use crate::household::Person;
use crate::mixture;
use crate::order::{CheckedOrder, KeepWhere, Recipe};
use crate::prep::{
    BowlId, FoodChoice, LaterTake, OrderRef, PersonId, PlannedBowl, PlannedTake, RoundPlan, Source,
};
use crate::record::State;
use crate::units::Volume;

/// The plan of the next round; `name` gives ids for the bowls to be made.
pub fn round_plan(
    today: &Today,
    state: &State,
    order: &CheckedOrder,
    name: &mut dyn FnMut() -> Uuid,
) -> Option<RoundPlan> {
    let (key, time) = today.rounds.first()?;
    let round = today.plan.rounds.first()?;
    let mut bowls = Vec::new();
    let mut source = std::collections::BTreeMap::new();
    if let Some(recipe) = &order.recipe {
        for (offset, index) in round.makes.iter().enumerate() {
            let bowl = today.plan.bowls.get(*index)?;
            let id = BowlId(name());
            let number = state
                .last_bowl
                .saturating_add(u32::try_from(offset).unwrap_or(0))
                .saturating_add(1);
            for (_, seat, _) in bowl.takes.iter().filter(|(when, _, _)| *when == 0) {
                source.insert(*seat, id);
            }
            let later = bowl
                .takes
                .iter()
                .filter(|(when, _, _)| *when > 0)
                .filter_map(|take| later_take(today, take))
                .collect();
            bowls.push(new_bowl(id, number, recipe, later));
        }
    }
    for (index, id) in today.standing.iter().enumerate() {
        let record = state.bowls.get(id)?;
        let mine = |(bowl, _, _, _): &&(usize, usize, usize, Volume)| *bowl == index;
        for (_, when, seat, _) in today.plan.from_standing.iter().filter(mine) {
            if *when == 0 {
                source.insert(*seat, *id);
            }
        }
        let later = today
            .plan
            .from_standing
            .iter()
            .filter(mine)
            .filter(|(_, when, _, _)| *when > 0);
        let later = later
            .filter_map(|(_, when, seat, amount)| later_take(today, &(*when, *seat, *amount)))
            .collect();
        bowls.push(PlannedBowl {
            source: Source::Covered,
            later,
            ..record.bowl.clone()
        });
    }
    bowls.sort_by_key(|bowl| bowl.number);
    let takes = round.doses.iter().filter_map(|planned| {
        let (person, seat) = today.seats.get(planned.seat)?;
        let dose = &planned.dose;
        let bowl = if dose.form == DoseForm::Mixture {
            Some(*source.get(&planned.seat)?)
        } else {
            None
        };
        let foods = if dose.form == DoseForm::Mixture {
            foods(order, &seat.person, time.day)
        } else {
            Vec::new()
        };
        Some(PlannedTake {
            person: *person,
            name: seat.person.name.clone(),
            form: dose.form,
            bowl,
            amount: dose.amount,
            tablets: dose.tablets,
            foods,
        })
    });
    let takes: Vec<PlannedTake> = takes.collect();
    // A dose that has lost its bowl is never left out in silence: no plan is better than half a plan.
    (takes.len() == round.doses.len()).then(|| RoundPlan {
        key: *key,
        order: OrderRef {
            id: order.id.clone(),
            revision: order.revision,
        },
        at: time.at,
        bowls,
        takes: smallest_first(takes),
        asks_reactions: !state.doses.is_empty(),
    })
}

/// Little ones first: their bowls are small, and a full bottle is a trap.
fn smallest_first(mut takes: Vec<PlannedTake>) -> Vec<PlannedTake> {
    takes.sort_by_key(|take| (take.form == DoseForm::Tablets, take.amount));
    takes
}

fn later_take(today: &Today, take: &(usize, usize, Volume)) -> Option<LaterTake> {
    let (when, seat, amount) = take;
    let (person, place): &(PersonId, _) = today.seats.get(*seat)?;
    let (round, time) = today.rounds.get(*when)?;
    Some(LaterTake {
        person: *person,
        name: place.person.name.clone(),
        round: *round,
        at: time.at,
        amount: *amount,
    })
}

fn new_bowl(id: BowlId, number: u32, recipe: &Recipe, later: Vec<LaterTake>) -> PlannedBowl {
    PlannedBowl {
        id,
        number,
        source: Source::New,
        tablets: recipe.tablets,
        water: recipe.water,
        second_fluid: recipe.second_fluid.as_ref().map(|fluid| fluid.amount),
        holds: recipe.bowl_volume().unwrap_or(recipe.water),
        soak: recipe.soak.max(SignedDuration::ZERO),
        keep: recipe.keep,
        refrigerated: recipe.keep_where == KeepWhere::Refrigerator,
        water_at: None,
        tool: None,
        later,
    }
}

/// Food or drink that suits this person on this day; sweet drinks come with their sugar.
fn foods(order: &CheckedOrder, person: &Person, day: jiff::civil::Date) -> Vec<FoodChoice> {
    let age = person.age_on(day);
    let vehicles = order.recipe.iter().flat_map(|recipe| &recipe.vehicles);
    vehicles
        .filter(|vehicle| mixture::suits(vehicle, age, &person.food_allergies))
        .map(|vehicle| FoodChoice {
            name: vehicle.name.clone(),
            at_least: vehicle.at_least,
            sugar: vehicle.sugar,
        })
        .collect()
}
