//! What to have in the house for a plan.

use super::course::{CoursePlan, Seat};
use super::supply::supply;
use crate::dose::DoseForm;
use crate::order::{CheckedOrder, HandOut, Vehicle};
use crate::units::{Age, AgeSpan, Volume, show};

/// One line of the list.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
pub struct Need {
    pub what: String,
    pub amount: String,
}

/// Whether a food or drink suits somebody: old enough for it, not too old, and without what they cannot have.
pub fn suits(
    vehicle: &Vehicle,
    age: Option<Age>,
    allergies: &std::collections::BTreeSet<String>,
) -> bool {
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
    let mut needs = Vec::new();
    let mut add = |what: String, amount: String| needs.push(Need { what, amount });
    let product = order.main_product();
    let handed = supply(order, plan, seats);
    let size = product.and_then(|p| p.pack_size);
    let own = match order.medicine.hand_out {
        HandOut::PerPerson => ", of each person's own",
        HandOut::PlanAndSpare { .. } => "",
    };
    let add_packs = |add: &mut dyn FnMut(String, String), unit: &str| {
        if let (Some(packs), Some(size)) = (handed.packs, size) {
            let what = format!("that is packs of {size}{unit}{own}");
            add(what, show::decimal(packs, 0));
        }
    };
    if plan.tablets > 0 {
        let strength = product.map(|p| p.strength.to_string()).unwrap_or_default();
        add(
            format!("{} tablets of {strength}", order.medicine.name),
            show::decimal(plan.tablets, 0),
        );
        if handed.spare > 0 {
            add(
                "spare tablets, for what is spilt".to_owned(),
                show::decimal(handed.spare, 0),
            );
        }
        add_packs(&mut add, "");
    }
    if plan.liquid > Volume::ZERO {
        let strength = product.map(|p| p.strength.to_string()).unwrap_or_default();
        add(
            format!("{} liquid, {strength}", order.medicine.name),
            plan.liquid.to_string(),
        );
        add_packs(&mut add, " mL");
    }
    let Some(recipe) = order.recipe.as_ref().filter(|_| !plan.bowls.is_empty()) else {
        return needs;
    };
    let bowls = u64::try_from(plan.bowls.len()).unwrap_or(u64::MAX);
    if let Some(water) = recipe.water.checked_mul(bowls) {
        add("clean drinking water".to_owned(), water.to_string());
    }
    let mut by_names: std::collections::BTreeMap<String, (u64, u64)> =
        std::collections::BTreeMap::new();
    for round in &plan.rounds {
        for planned in round
            .doses
            .iter()
            .filter(|d| d.dose.form == DoseForm::Mixture)
        {
            let Some(seat) = seats.get(planned.seat) else {
                continue;
            };
            let age = seat.person.age_on(round.day);
            let fits: Vec<&Vehicle> = recipe
                .vehicles
                .iter()
                .filter(|v| suits(v, age, &seat.person.food_allergies))
                .collect();
            let names: Vec<&str> = fits.iter().map(|v| v.name.as_str()).collect();
            if let Some(first) = fits.first() {
                let entry = by_names.entry(names.join(" or ")).or_default();
                entry.0 += first.at_least.as_microlitres();
                entry.1 += fits
                    .iter()
                    .filter_map(|v| v.sugar)
                    .map(Volume::as_microlitres)
                    .max()
                    .unwrap_or(0);
            }
        }
    }
    let sugar: u64 = by_names.values().map(|(_, sugar)| sugar).sum();
    for (names, (drink, _)) in by_names {
        add(
            format!("{names}, at least"),
            Volume::microlitres(drink).to_string(),
        );
    }
    if sugar > 0 {
        add(
            "sugar, if every drink needs it, at most".to_owned(),
            Volume::microlitres(sugar).to_string(),
        );
    }
    let at_once = plan.rounds.iter().map(|r| r.makes.len()).max().unwrap_or(0);
    add("metal teaspoon".to_owned(), "1".to_owned());
    add(
        "small bowls with covers and labels".to_owned(),
        (at_once * 2).to_string(),
    );
    add("small bowl to give from".to_owned(), "1".to_owned());
    needs
}
