//! What the dose is taken with, and what not.

use std::collections::BTreeSet;

use hearthdose_core::mixture::suits;
use hearthdose_core::order::{CheckedOrder, Vehicle};
use hearthdose_core::units::Volume;
use hearthdose_tests::people::{DAY, demo_text, told};

use super::{changed, ciprofloxacin, doxycycline, doxycycline_text, errors_of, iodide};

/// Names of what suits somebody of this age (may be unknown) and these food allergies.
fn offered(order: &CheckedOrder, age: &str, allergies: &[&str]) -> Vec<String> {
    let age = (!age.is_empty()).then(|| told(age).on(DAY));
    let allergies: BTreeSet<String> = allergies.iter().map(|food| (*food).to_owned()).collect();
    let vehicles = order.recipe.as_ref().expect("a recipe").vehicles.iter();
    let fit = vehicles.filter(|vehicle: &&Vehicle| suits(vehicle, age, &allergies));
    fit.map(|vehicle| vehicle.name.clone()).collect()
}

/// Check C12. CDC names breast milk and formula for infants; cow's milk, pudding and sugared juice are not for them (common practice, no source).
#[test]
fn d20_food_suits_the_age_and_the_allergy() {
    let order = doxycycline();
    let milk = &["milk"][..];
    for (age, allergies, expected) in [
        ("2 mo", &[][..], &["breast milk", "infant formula"][..]),
        ("5 mo", milk, &["breast milk"]),
        ("11 mo", &[], &["breast milk", "infant formula"]),
        (
            "1 y",
            &[],
            &[
                "breast milk",
                "milk",
                "chocolate milk",
                "chocolate pudding",
                "apple juice",
            ],
        ),
        ("1 y", milk, &["breast milk", "apple juice"]),
        (
            "4 y",
            &[],
            &["milk", "chocolate milk", "chocolate pudding", "apple juice"],
        ),
        ("4 y", milk, &["apple juice"]),
        ("adult", milk, &["apple juice"]),
        (
            "adult",
            &["egg"],
            &["milk", "chocolate milk", "chocolate pudding", "apple juice"],
        ),
    ] {
        assert_eq!(
            offered(&order, age, allergies),
            expected,
            "{age} {allergies:?}"
        );
    }
    // Whose age is not known is offered nothing that may be wrong for a baby.
    assert_eq!(offered(&order, "", &[]), Vec::<String>::new());
}

/// At least 3 teaspoons of food or drink, with apple juice 4 teaspoons of sugar as well (common practice, no source).
#[test]
fn d20_the_least_amounts_are_the_orders() {
    let order = doxycycline();
    for vehicle in &order.recipe.as_ref().expect("a recipe").vehicles {
        assert_eq!(
            vehicle.at_least,
            Volume::microlitres(15_000),
            "{}",
            vehicle.name
        );
        let sugar = (vehicle.name == "apple juice").then_some(Volume::microlitres(20_000));
        assert_eq!(vehicle.sugar, sugar, "{}", vehicle.name);
    }
}

/// Infant botulism: no honey under one year.
#[test]
fn d20_honey_waits_for_the_first_birthday() {
    assert_eq!(
        errors_of(&demo_text("damaged/honey")),
        ["error honey-before-one-year at recipe.vehicle 1"]
    );
    let text = changed(
        &doxycycline_text(),
        "name = \"apple juice\"",
        "name = \"honey\"",
    );
    assert_eq!(errors_of(&text), Vec::<String>::new());
    let early = text.replace(
        "sugar = \"4 tsp\"\nfrom-age = \"1 y\"",
        "from-age = \"11 mo\"",
    );
    assert_eq!(
        errors_of(&early),
        ["error honey-before-one-year at recipe.vehicle 6"]
    );
}

/// Antacids, iron, calcium and vitamins two hours apart; milk is right with doxycycline and wrong with ciprofloxacin, in one kitchen.
#[test]
fn d21_what_must_stay_apart_belongs_to_each_order() {
    let apart = |order: &CheckedOrder, word: &str| {
        let entries = order.medicine.apart.iter();
        let hours = entries
            .filter(|entry| entry.what.contains(word))
            .map(|entry| entry.gap.as_hours());
        hours.collect::<Vec<i64>>()
    };
    for word in ["antacids", "iron", "calcium", "vitamins"] {
        assert_eq!(apart(&doxycycline(), word), [2], "{word}");
    }
    assert_eq!(apart(&doxycycline(), "milk"), Vec::<i64>::new());
    assert_eq!(apart(&ciprofloxacin(), "milk"), [2]);
    assert_eq!(apart(&ciprofloxacin(), "infant formula"), [2]);
    assert!(offered(&ciprofloxacin(), "5 mo", &[]).is_empty());
    assert!(offered(&ciprofloxacin(), "adult", &[]).is_empty());
}

/// A second fluid is in everybody's dose, so the demo's holds none of the usual allergens.
#[test]
fn d20_the_second_fluid_suits_everybody() {
    let order = iodide();
    let fluid = order
        .recipe
        .as_ref()
        .and_then(|recipe| recipe.second_fluid.as_ref());
    let fluid = fluid.expect("a second fluid");
    assert_eq!(fluid.name, "raspberry syrup");
    assert!(fluid.contains.is_empty());
}

/// A full glass of water and staying upright, for whoever swallows the tablet whole.
#[test]
fn d28_whole_tablets_have_their_words() {
    let order = doxycycline();
    let caution = order
        .cautions
        .iter()
        .find(|caution| caution.key == "upright");
    let words = &caution.expect("a caution").text["en"];
    assert!(
        words.contains("full glass of water") && words.contains("upright"),
        "{words}"
    );
}
