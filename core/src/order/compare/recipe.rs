//! Products, recipe, foods and drinks, water.

use super::{Changes, said};
use crate::order::model::{
    Form, KeepWhere, Order, Product, Recipe, SecondFluid, Vehicle, WaterRule,
};
use crate::units::show::{lapse_text, spoon_text};

pub(super) fn compare(changes: &mut Changes, old: &Order, new: &Order) {
    match (&old.recipe, &new.recipe) {
        (Some(old), Some(new)) => recipe(changes, old, new),
        (None, Some(_)) => changes.push("added", "recipe", "the order now has a recipe"),
        (Some(_), None) => changes.push("removed", "recipe", "the order no longer has a recipe"),
        (None, None) => {}
    }
    changes.lists(
        "product",
        &old.products,
        &new.products,
        |entry| entry.key.clone(),
        product,
    );
    changes.changed("water.rule", "water", water(old), water(new));
}

fn recipe(changes: &mut Changes, old: &Recipe, new: &Recipe) {
    changes.changed(
        "recipe.product",
        "product of the recipe",
        &old.product,
        &new.product,
    );
    let tablets = |recipe: &Recipe| recipe.tablets.to_string();
    changes.changed(
        "recipe.tablets",
        "tablets in a bowl",
        &tablets(old),
        &tablets(new),
    );
    changes.changed(
        "recipe.water",
        "water",
        &spoon_text(old.water),
        &spoon_text(new.water),
    );
    changes.changed(
        "recipe.soak",
        "soak",
        &lapse_text(old.soak),
        &lapse_text(new.soak),
    );
    changes.changed(
        "recipe.step",
        "smallest step",
        &spoon_text(old.step),
        &spoon_text(new.step),
    );
    changes.changed(
        "recipe.keep",
        "the mixture keeps",
        &lapse_text(old.keep),
        &lapse_text(new.keep),
    );
    changes.changed(
        "recipe.keep-where",
        "the mixture is kept",
        kept(old),
        kept(new),
    );
    let second = |recipe: &Recipe| said(recipe.second_fluid.as_ref().map(fluid));
    changes.changed(
        "recipe.second-fluid",
        "second fluid",
        &second(old),
        &second(new),
    );
    changes.lists(
        "food or drink",
        &old.vehicles,
        &new.vehicles,
        |entry| entry.name.clone(),
        vehicle,
    );
}

fn fluid(fluid: &SecondFluid) -> String {
    format!("{} of {}", spoon_text(fluid.amount), fluid.name)
}

fn kept(recipe: &Recipe) -> &'static str {
    match recipe.keep_where {
        KeepWhere::Room => "at room temperature",
        KeepWhere::Refrigerator => "in the refrigerator",
    }
}

fn vehicle(changes: &mut Changes, old: &Vehicle, new: &Vehicle, place: &str) {
    let label = |what: &str| format!("{place}: {what}");
    changes.changed(
        place,
        &label("at least"),
        &spoon_text(old.at_least),
        &spoon_text(new.at_least),
    );
    changes.changed(
        place,
        &label("sugar"),
        &said(old.sugar.map(spoon_text)),
        &said(new.sugar.map(spoon_text)),
    );
    changes.changed(
        place,
        &label("from age"),
        &said(old.from_age),
        &said(new.from_age),
    );
    changes.changed(
        place,
        &label("up to age"),
        &said(old.to_age),
        &said(new.to_age),
    );
    changes.changed(
        place,
        &label("contains"),
        &old.contains.join(", "),
        &new.contains.join(", "),
    );
    if old.words != new.words {
        changes.push(
            "changed",
            place,
            format!("{place}: the translated names changed"),
        );
    }
}

fn product(changes: &mut Changes, old: &Product, new: &Product, place: &str) {
    let label = |what: &str| format!("{place}: {what}");
    let form = |product: &Product| match product.form {
        Form::Tablet => "tablet",
        Form::Liquid => "liquid",
    };
    changes.changed(place, &label("form"), form(old), form(new));
    changes.changed(
        place,
        &label("strength"),
        &old.strength.to_string(),
        &new.strength.to_string(),
    );
    changes.changed(
        place,
        &label("may be crushed"),
        yes(old.crushable),
        yes(new.crushable),
    );
    changes.changed(
        place,
        &label("salt"),
        &said(old.salt.as_ref()),
        &said(new.salt.as_ref()),
    );
    let gtins = |product: &Product| list(product.gtins.iter().map(ToString::to_string));
    changes.changed(place, &label("package numbers"), &gtins(old), &gtins(new));
    let ndcs = |product: &Product| list(product.ndcs.iter().map(ToString::to_string));
    changes.changed(place, &label("drug codes"), &ndcs(old), &ndcs(new));
    changes.changed(
        place,
        &label("label says"),
        &old.label_says.join(", "),
        &new.label_says.join(", "),
    );
    changes.changed(
        place,
        &label("pack size"),
        &said(old.pack_size),
        &said(new.pack_size),
    );
    let whole = |product: &Product| yes(product.whole_if_row_allows);
    changes.changed(
        place,
        &label("whole where a row allows it"),
        whole(old),
        whole(new),
    );
    let opened = |product: &Product| said(product.keep_opened.map(lapse_text));
    changes.changed(
        place,
        &label("keeps after opening"),
        &opened(old),
        &opened(new),
    );
}

fn list(entries: impl Iterator<Item = String>) -> String {
    entries.collect::<Vec<_>>().join(", ")
}

fn yes(value: bool) -> &'static str {
    if value { "yes" } else { "no" }
}

fn water(order: &Order) -> &'static str {
    match order.water {
        WaterRule::Tap => "from the tap",
        WaterRule::BoilAndCool => "boiled and cooled",
        WaterRule::BottledOnly => "from bottles only",
    }
}
