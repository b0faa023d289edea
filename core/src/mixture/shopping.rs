//! What to have in the house for a plan.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;
use serde::ser::SerializeStruct;

use super::course::{CoursePlan, Seat};
use super::supply::supply;
use crate::dose::DoseForm;
use crate::order::{CheckedOrder, HandOut, Vehicle};
use crate::units::{Age, AgeSpan, Volume, show};

/// One line of the list.
///
/// Serialised as the command line prints it, in English: `what`, `amount`. Screens say it in their own words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Need {
    pub thing: Thing,
    pub amount: Amount,
}

/// What is needed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Thing {
    Tablets {
        medicine: String,
        strength: String,
    },
    SpareTablets,
    /// Packs of so many tablets, or of so many millilitres.
    Packs {
        size: u32,
        liquid: bool,
        /// Each person has packs of their own.
        own: bool,
    },
    Liquid {
        medicine: String,
        strength: String,
    },
    Water,
    /// Any of these, at least; places in the recipe's list of food and drink.
    Drink {
        any_of: Vec<usize>,
        names: Vec<String>,
    },
    /// At most, if every drink is one that needs it.
    Sugar,
    Teaspoon,
    /// To mix in, with covers and labels.
    Bowls,
    BowlToGiveFrom,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Amount {
    Count(u64),
    Volume(Volume),
}

impl Need {
    /// What is needed, in English.
    pub fn what(&self) -> String {
        match &self.thing {
            Thing::Tablets { medicine, strength } => format!("{medicine} tablets of {strength}"),
            Thing::SpareTablets => "spare tablets, for what is spilt".to_owned(),
            Thing::Packs { size, liquid, own } => {
                let unit = if *liquid { " mL" } else { "" };
                let own = if *own { ", of each person's own" } else { "" };
                format!("that is packs of {size}{unit}{own}")
            }
            Thing::Liquid { medicine, strength } => format!("{medicine} liquid, {strength}"),
            Thing::Water => "clean drinking water".to_owned(),
            Thing::Drink { names, .. } => format!("{}, at least", names.join(" or ")),
            Thing::Sugar => "sugar, if every drink needs it, at most".to_owned(),
            Thing::Teaspoon => "metal teaspoon".to_owned(),
            Thing::Bowls => "small bowls with covers and labels".to_owned(),
            Thing::BowlToGiveFrom => "small bowl to give from".to_owned(),
        }
    }
}

impl std::fmt::Display for Amount {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Amount::Count(count) => f.write_str(&show::decimal(*count, 0)),
            Amount::Volume(volume) => volume.fmt(f),
        }
    }
}

impl Serialize for Need {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut line = serializer.serialize_struct("Need", 2)?;
        line.serialize_field("what", &self.what())?;
        line.serialize_field("amount", &self.amount.to_string())?;
        line.end()
    }
}

/// Whether a food or drink suits somebody: old enough for it, not too old, and without what they cannot have.
pub fn suits(vehicle: &Vehicle, age: Option<Age>, allergies: &BTreeSet<String>) -> bool {
    // An unknown age gets only what suits from birth on.
    let old_enough = vehicle
        .from_age
        .is_none_or(|limit| age.is_some_and(|age| age.reached(limit)));
    let young_enough = vehicle
        .to_age
        .is_none_or(|limit: AgeSpan| age.is_some_and(|age| !age.reached(limit)));
    old_enough && young_enough && !vehicle.contains.iter().any(|food| allergies.contains(food))
}

/// Tablets with those to spare and in packs, water, food or drink for every measured dose, tools.
pub fn shopping(order: &CheckedOrder, plan: &CoursePlan, seats: &[Seat]) -> Vec<Need> {
    let mut needs = medicine(order, plan, seats);
    let mut add = |thing: Thing, amount: Amount| needs.push(Need { thing, amount });
    let Some(recipe) = order.recipe.as_ref().filter(|_| !plan.bowls.is_empty()) else {
        return needs;
    };
    let bowls = u64::try_from(plan.bowls.len()).unwrap_or(u64::MAX);
    if let Some(water) = recipe.water.checked_mul(bowls) {
        add(Thing::Water, Amount::Volume(water));
    }
    let (drinks, sugar) = drinks(&recipe.vehicles, plan, seats);
    for (any_of, volume) in drinks {
        let name = |index: &usize| recipe.vehicles.get(*index).map(|v| v.name.clone());
        let names = any_of.iter().filter_map(name).collect();
        add(Thing::Drink { any_of, names }, Amount::Volume(volume));
    }
    if sugar > Volume::ZERO {
        add(Thing::Sugar, Amount::Volume(sugar));
    }
    let at_once = plan.rounds.iter().map(|r| r.makes.len()).max().unwrap_or(0);
    let at_once = u64::try_from(at_once).unwrap_or(u64::MAX);
    add(Thing::Teaspoon, Amount::Count(1));
    add(Thing::Bowls, Amount::Count(at_once.saturating_mul(2)));
    add(Thing::BowlToGiveFrom, Amount::Count(1));
    needs
}

fn medicine(order: &CheckedOrder, plan: &CoursePlan, seats: &[Seat]) -> Vec<Need> {
    let product = order.main_product();
    let strength = product.map(|p| p.strength.to_string()).unwrap_or_default();
    let medicine = order.medicine.name.clone();
    let handed = supply(order, plan, seats);
    let liquid = plan.liquid > Volume::ZERO;
    let mut needs = Vec::new();
    if plan.tablets > 0 {
        let (medicine, strength) = (medicine.clone(), strength.clone());
        needs.push(Need {
            thing: Thing::Tablets { medicine, strength },
            amount: Amount::Count(plan.tablets),
        });
        if handed.spare > 0 {
            needs.push(Need {
                thing: Thing::SpareTablets,
                amount: Amount::Count(handed.spare),
            });
        }
    }
    if liquid {
        needs.push(Need {
            thing: Thing::Liquid { medicine, strength },
            amount: Amount::Volume(plan.liquid),
        });
    }
    if let (Some(packs), Some(size)) = (handed.packs, product.and_then(|p| p.pack_size))
        && !needs.is_empty()
    {
        let own = order.medicine.hand_out == HandOut::PerPerson;
        needs.push(Need {
            thing: Thing::Packs { size, liquid, own },
            amount: Amount::Count(packs),
        });
    }
    needs
}

/// For each choice of food or drink how much the plan needs at least, and the most sugar with all of it.
fn drinks(
    vehicles: &[Vehicle],
    plan: &CoursePlan,
    seats: &[Seat],
) -> (BTreeMap<Vec<usize>, Volume>, Volume) {
    let mut amounts: BTreeMap<Vec<usize>, Volume> = BTreeMap::new();
    let mut sugar = Volume::ZERO;
    for round in &plan.rounds {
        let measured = round
            .doses
            .iter()
            .filter(|planned| planned.dose.form == DoseForm::Mixture);
        for seat in measured.filter_map(|planned| seats.get(planned.seat)) {
            let age = seat.person.age_on(round.day);
            let fits: Vec<(usize, &Vehicle)> = vehicles
                .iter()
                .enumerate()
                .filter(|(_, vehicle)| suits(vehicle, age, &seat.person.food_allergies))
                .collect();
            let Some((_, first)) = fits.first() else {
                continue;
            };
            let any_of = fits.iter().map(|(index, _)| *index).collect();
            let amount = amounts.entry(any_of).or_default();
            *amount = amount.checked_add(first.at_least).unwrap_or(*amount);
            let most = fits.iter().filter_map(|(_, v)| v.sugar).max();
            sugar = sugar
                .checked_add(most.unwrap_or(Volume::ZERO))
                .unwrap_or(sugar);
        }
    }
    (amounts, sugar)
}
