//! Products, recipe, foods and drinks, water.

use super::{Change, Changes, Detail, Entry, Field, Value, Wording};
use crate::order::model::{Order, Product, Recipe, SecondFluid, Vehicle};

pub(super) fn compare(changes: &mut Changes, old: &Order, new: &Order) {
    match (&old.recipe, &new.recipe) {
        (Some(old), Some(new)) => recipe(changes, old, new),
        (None, Some(_)) => changes.push(Change::RecipeNew),
        (Some(_), None) => changes.push(Change::RecipeGone),
        (None, None) => {}
    }
    changes.lists(
        &old.products,
        &new.products,
        |one| Entry::from(one),
        product,
    );
    let water = |order: &Order| Some(Value::Water(order.water));
    changes.field(Field::Water, water(old), water(new));
}

fn recipe(changes: &mut Changes, old: &Recipe, new: &Recipe) {
    let mut tell = |field, say: &dyn Fn(&Recipe) -> Option<Value>| {
        changes.field(field, say(old), say(new));
    };
    tell(Field::RecipeProduct, &|r| Value::text(&r.product));
    tell(Field::RecipeTablets, &|r| Some(Value::Count(r.tablets)));
    tell(Field::RecipeWater, &|r| Some(Value::Volume(r.water)));
    tell(Field::RecipeSoak, &|r| Some(Value::Lapse(r.soak)));
    tell(Field::RecipeStep, &|r| Some(Value::Volume(r.step)));
    tell(Field::RecipeKeep, &|r| Some(Value::Lapse(r.keep)));
    tell(Field::RecipeKeepWhere, &|r| {
        Some(Value::KeepWhere(r.keep_where))
    });
    second_fluid(
        changes,
        old.second_fluid.as_ref(),
        new.second_fluid.as_ref(),
    );
    changes.lists(
        &old.vehicles,
        &new.vehicles,
        |one| Entry::from(one),
        vehicle,
    );
}

fn second_fluid(changes: &mut Changes, old: Option<&SecondFluid>, new: Option<&SecondFluid>) {
    let what = |fluid: &SecondFluid| (fluid.amount, fluid.name.clone());
    if old.map(what) != new.map(what) {
        let value = |fluid: Option<&SecondFluid>| fluid.cloned().map(Value::SecondFluid);
        changes.field(Field::SecondFluid, value(old), value(new));
    } else {
        let words = |fluid: &SecondFluid| fluid.words.clone();
        changes.words(Wording::SecondFluid, &old.map(words), &new.map(words));
    }
    let contains =
        |fluid: Option<&SecondFluid>| fluid.and_then(|fluid| Value::allergens(&fluid.contains));
    changes.field(Field::SecondFluidContains, contains(old), contains(new));
}

fn vehicle(changes: &mut Changes, old: &Vehicle, new: &Vehicle, of: &Entry) {
    let mut tell = |detail, say: &dyn Fn(&Vehicle) -> Option<Value>| {
        changes.detail(of, detail, say(old), say(new));
    };
    tell(Detail::AtLeast, &|v| Some(Value::Volume(v.at_least)));
    tell(Detail::Sugar, &|v| v.sugar.map(Value::Volume));
    tell(Detail::FromAge, &|v| v.from_age.map(Value::Age));
    tell(Detail::ToAge, &|v| v.to_age.map(Value::Age));
    tell(Detail::Contains, &|v| Value::allergens(&v.contains));
    changes.words(Wording::VehicleNames(of.clone()), &old.words, &new.words);
}

fn product(changes: &mut Changes, old: &Product, new: &Product, of: &Entry) {
    let mut tell = |detail, say: &dyn Fn(&Product) -> Option<Value>| {
        changes.detail(of, detail, say(old), say(new));
    };
    tell(Detail::Form, &|p| Some(Value::Form(p.form)));
    tell(Detail::Strength, &|p| Some(Value::Strength(p.strength)));
    tell(Detail::Crushable, &|p| Some(Value::YesNo(p.crushable)));
    tell(Detail::Salt, &|p| p.salt.as_deref().and_then(Value::text));
    tell(Detail::PackageNumbers, &|p| Value::list(&p.gtins));
    tell(Detail::DrugCodes, &|p| Value::list(&p.ndcs));
    tell(Detail::LabelSays, &|p| Value::list(&p.label_says));
    tell(Detail::PackSize, &|p| p.pack_size.map(Value::Count));
    tell(Detail::WholeIfRowAllows, &|p| {
        Some(Value::YesNo(p.whole_if_row_allows))
    });
    tell(Detail::KeepOpened, &|p| p.keep_opened.map(Value::Lapse));
}
