//! Products and recipe: what is crushed exists and may be crushed, nothing is zero, the bowl holds whole steps, foods suit their ages.

use std::collections::BTreeSet;

use crate::order::model::{Form, Order, Recipe, Vehicle};
use crate::order::parse::Parts;
use crate::order::problem::Problem;
use crate::units::{AgeSpan, Lapse, Volume, show};

pub(super) fn products(order: &Order) -> Vec<Problem> {
    let mut problems = Vec::new();
    let mut seen = BTreeSet::new();
    for (index, product) in order.products.iter().enumerate() {
        let place = format!("product {}", index + 1);
        if !seen.insert(&product.key) {
            let text = format!("Two products have the key “{}”.", product.key);
            problems.push(Problem::error("duplicate-key", place.clone(), text));
        }
        if product.label_says.is_empty() {
            let text = format!(
                "“{}” does not say which words to look for on the package.",
                product.key
            );
            problems.push(Problem::warning("nothing-on-label", place.clone(), text));
        }
        if product.pack_size == Some(0) {
            problems.push(Problem::error(
                "recipe-zero",
                format!("{place}.pack-size"),
                "A package of nothing cannot be handed out.",
            ));
        }
    }
    problems
}

pub(super) fn recipe(order: &Order, parts: Parts) -> Vec<Problem> {
    let Some(recipe) = &order.recipe else {
        let tablets = order
            .main_product()
            .is_some_and(|product| product.form == Form::Tablet);
        let text = "The order has tablets and no recipe, so nobody who needs less than a tablet can be served.";
        return tablets
            .then(|| Problem::error("no-recipe", "recipe", text))
            .into_iter()
            .collect();
    };
    let mut problems = Vec::new();
    match order.product(&recipe.product) {
        None => {
            let text = format!(
                "The recipe names the product “{}”, which the order does not list.",
                recipe.product
            );
            problems.push(Problem::error("unknown-product", "recipe.product", text));
        }
        Some(product) if product.form == Form::Tablet => {
            if !product.crushable {
                let text = format!(
                    "The recipe crushes “{}”, but the product is not marked crushable.",
                    product.key
                );
                problems.push(Problem::error("not-crushable", "recipe.product", text));
            }
            problems.extend(bowl(recipe));
            problems.extend(keeping(order, recipe, parts));
        }
        Some(_) => {}
    }
    problems.extend(step(recipe));
    for (index, vehicle) in recipe.vehicles.iter().enumerate() {
        problems.extend(vehicle_problems(index, vehicle));
    }
    problems.extend(allergens(recipe));
    problems
}

fn bowl(recipe: &Recipe) -> Vec<Problem> {
    let second = recipe.second_fluid.as_ref();
    let zero = [
        ("tablets", recipe.tablets == 0),
        ("water", recipe.water == Volume::ZERO),
        ("keep", recipe.keep == Lapse::ZERO),
        (
            "second-fluid.amount",
            second.is_some_and(|fluid| fluid.amount == Volume::ZERO),
        ),
    ];
    let mut problems: Vec<Problem> = zero
        .iter()
        .filter(|(_, zero)| *zero)
        .map(|(key, _)| {
            Problem::error(
                "recipe-zero",
                format!("recipe.{key}"),
                format!("“{key}” is zero."),
            )
        })
        .collect();
    let volume = recipe.bowl_volume().filter(|_| recipe.step > Volume::ZERO);
    if let Some(volume) = volume.filter(|volume| volume.in_steps(recipe.step).is_none()) {
        let (volume, step) = (show::spoon_text(volume), show::spoon_text(recipe.step));
        let text = format!("A bowl of {volume} is no whole number of steps of {step}.");
        problems.push(Problem::error("bowl-off-step", "recipe.step", text));
    }
    problems
}

fn step(recipe: &Recipe) -> Option<Problem> {
    if recipe.step == Volume::ZERO {
        return Some(Problem::error(
            "recipe-zero",
            "recipe.step",
            "“step” is zero.",
        ));
    }
    let syringe = recipe
        .step
        .in_steps(crate::order::model::SYRINGE_STEP)
        .is_some();
    let measurable = recipe.step.quarter_teaspoons().is_some() || syringe;
    let text = format!(
        "Neither a kitchen spoon nor an oral syringe measures steps of {}.",
        recipe.step
    );
    (!measurable).then(|| Problem::warning("odd-step", "recipe.step", text))
}

fn keeping(order: &Order, recipe: &Recipe, parts: Parts) -> Vec<Problem> {
    let mut problems = Vec::new();
    let keep = show::lapse_text(recipe.keep);
    if recipe.keep > Lapse::ZERO && recipe.soak >= recipe.keep {
        let soak = show::lapse_text(recipe.soak);
        let text = format!("The tablet soaks for {soak}, but the mixture keeps only {keep}.");
        problems.push(Problem::error("soak-over-keep", "recipe.soak", text));
    } else if recipe.soak.saturating_add(order.medicine.margin) >= recipe.keep {
        let margin = show::lapse_text(order.medicine.margin);
        let text = format!(
            "After soaking and the margin of {margin} nothing is left of the {keep} that the mixture keeps."
        );
        problems.push(Problem::error("margin-over-keep", "medicine.margin", text));
    }
    let next_round = order
        .medicine
        .interval
        .saturating_add(order.medicine.margin);
    if parts.times && recipe.keep < next_round {
        let text = format!(
            "The mixture keeps {keep}, too short for the next round; leftovers can never be used."
        );
        problems.push(Problem::warning("keep-under-interval", "recipe.keep", text));
    }
    problems
}

fn vehicle_problems(index: usize, vehicle: &Vehicle) -> Vec<Problem> {
    let place = format!("recipe.vehicle {}", index + 1);
    let name = &vehicle.name;
    let mut problems = Vec::new();
    if vehicle.at_least == Volume::ZERO {
        let text = format!("“{name}” needs an amount above zero.");
        problems.push(Problem::error(
            "recipe-zero",
            format!("{place}.at-least"),
            text,
        ));
    }
    if let (Some(from), Some(to)) = (vehicle.from_age, vehicle.to_age)
        && crate::units::Age::Told(from).reached(to)
    {
        let text = format!("“{name}” is from {from} to {to}, so it suits nobody.");
        problems.push(Problem::error("vehicle-ages", place.clone(), text));
    }
    // Infant botulism; common practice, no source in the references.
    let honey = name.to_lowercase().contains("honey");
    let early = vehicle
        .from_age
        .is_none_or(|from| !crate::units::Age::Told(from).reached(AgeSpan::years(1)));
    if honey && early {
        let text = "Honey is not for children under one year; give it “from-age = \"1 y\"”.";
        problems.push(Problem::error("honey-before-one-year", place, text));
    }
    problems
}

/// An allergen that is in every food or drink leaves some people without any.
fn allergens(recipe: &Recipe) -> Vec<Problem> {
    let Some((first, others)) = recipe.vehicles.split_first() else {
        return Vec::new();
    };
    first
        .contains
        .iter()
        .filter(|allergen| {
            others
                .iter()
                .all(|vehicle| vehicle.contains.contains(allergen))
        })
        .map(|allergen| {
            let text = format!(
                "Every food or drink contains {allergen}; people allergic to it have none."
            );
            Problem::warning("allergen-everywhere", "recipe.vehicle", text)
        })
        .collect()
}
