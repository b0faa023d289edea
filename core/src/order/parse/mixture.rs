//! Reading the products and the recipe.

use super::section::Section;
use super::supply;
use crate::order::model::{
    Form, KeepWhere, Product, Recipe, SYRINGE_STEP, SecondFluid, Vehicle, Words,
};
use crate::order::problem::Problem;
use crate::units::{AgeSpan, Lapse, Strength, Volume, parse_lapse};

/// The products, and whether all of them could be read.
pub(super) fn products(top: &mut Section<'_>) -> (Vec<Product>, bool) {
    let sections = top.tables("product");
    let count = sections.len();
    if count == 0 {
        top.error(
            "no-product",
            "product",
            "The order names no product; write one [[product]] for each package.",
        );
    }
    let mut products = Vec::with_capacity(count);
    for mut at in sections {
        products.extend(product(&mut at));
        top.absorb(at);
    }
    let whole = count > 0 && products.len() == count;
    (products, whole)
}

fn product(at: &mut Section<'_>) -> Option<Product> {
    let key = at.text("key");
    let form = at.choice(
        "form",
        &[("tablet", Form::Tablet), ("liquid", Form::Liquid)],
    );
    let strength = at.quantity("strength", Strength::parse);
    let rest = Product {
        key: key.unwrap_or_default(),
        form: form.unwrap_or(Form::Tablet),
        strength: strength?,
        crushable: at.optional_flag("crushable").unwrap_or(false),
        salt: at.optional_text("salt"),
        gtins: supply::gtins(at),
        ndcs: supply::ndcs(at),
        label_says: at.texts("label-says"),
        pack_size: at.optional_whole("pack-size"),
        whole_if_row_allows: at.optional_flag("whole-if-row-allows").unwrap_or(false),
        keep_opened: at.optional_quantity("keep-opened", parse_lapse),
    };
    let fits = match rest.strength {
        Strength::PerTablet(_) => Form::Tablet,
        Strength::PerVolume { .. } => Form::Liquid,
    };
    if let Some(form) = form
        && form != fits
    {
        let text = match form {
            Form::Tablet => "A tablet's strength is a mass alone, such as “100 mg”.",
            Form::Liquid => "A liquid's strength names a volume, such as “25 mg / 5 mL”.",
        };
        at.error("strength-form", "strength", text);
        return None;
    }
    form.and(Some(rest))
}

/// The recipe where there is one, and whether everything in it could be read.
pub(super) fn recipe(top: &mut Section<'_>, products: &[Product]) -> (Option<Recipe>, bool) {
    let Some(mut at) = top.optional_table("recipe") else {
        return (None, !top.has("recipe"));
    };
    let named = at.text("product");
    let liquid = named
        .as_ref()
        .and_then(|key| products.iter().find(|product| product.key == *key))
        .is_some_and(|product| product.form == Form::Liquid);
    let vehicles = at.tables("vehicle");
    let vehicles: Vec<Vehicle> = vehicles
        .into_iter()
        .fold(Vec::new(), |mut list, mut entry| {
            list.extend(vehicle(&mut entry));
            at.absorb(entry);
            list
        });
    let second_fluid = second_fluid(&mut at);
    let second_read = second_fluid.is_some() || !at.has("second-fluid");
    let keep_where = at.optional_choice(
        "keep-where",
        &[
            ("room", KeepWhere::Room),
            ("refrigerator", KeepWhere::Refrigerator),
        ],
    );
    if !liquid {
        for key in ["tablets", "water", "soak", "step", "keep"] {
            at.require(key);
        }
    }
    // A ready-made liquid has no tablets and no water; what its recipe leaves out is nothing, not unread.
    let nothing = |zero: Lapse| if liquid { Some(zero) } else { None };
    let tablets = at.optional_whole("tablets").or(liquid.then_some(0));
    let water = at
        .optional_quantity("water", Volume::parse)
        .or(liquid.then_some(Volume::ZERO));
    let soak = at
        .optional_quantity("soak", parse_lapse)
        .or(nothing(Lapse::ZERO));
    let keep = at
        .optional_quantity("keep", parse_lapse)
        .or(nothing(Lapse::ZERO));
    let step = at
        .optional_quantity("step", Volume::parse)
        .or(liquid.then_some(SYRINGE_STEP));
    if liquid {
        for key in ["tablets", "water", "soak"] {
            if at.has(key) {
                let text =
                    format!("“{key}” has no meaning for a ready-made liquid and is ignored.");
                let place = at.place_of(key);
                at.report(Problem::warning("liquid-with-recipe", place, text));
            }
        }
    }
    top.absorb(at);
    let read = (|| {
        Some(Recipe {
            product: named?,
            tablets: if liquid { 0 } else { tablets? },
            water: if liquid { Volume::ZERO } else { water? },
            soak: if liquid { Lapse::ZERO } else { soak? },
            step: step?,
            keep: keep?,
            keep_where: keep_where.unwrap_or(KeepWhere::Room),
            second_fluid,
            vehicles,
        })
    })();
    let whole = read.is_some() && second_read;
    (read, whole)
}

/// A fluid for the whole bowl, or only its amount; its words are the name in other languages.
fn second_fluid(at: &mut Section<'_>) -> Option<SecondFluid> {
    if at.optional("second-fluid").is_some_and(toml::Value::is_str) {
        let amount = at.optional_quantity("second-fluid", Volume::parse)?;
        return Some(SecondFluid {
            name: "drink".to_owned(),
            words: Words::new(),
            amount,
            contains: Vec::new(),
        });
    }
    let mut table = at.optional_table("second-fluid")?;
    let name = table.text("name");
    let words = table.words("words");
    let amount = table.quantity("amount", Volume::parse);
    let contains = table.texts("contains");
    at.absorb(table);
    Some(SecondFluid {
        name: name?,
        words,
        amount: amount?,
        contains,
    })
}

fn vehicle(at: &mut Section<'_>) -> Option<Vehicle> {
    let name = at.text("name");
    let at_least = at.quantity("at-least", Volume::parse);
    let rest = Vehicle {
        name: name.clone().unwrap_or_default(),
        words: at.words("words"),
        at_least: at_least.unwrap_or(Volume::ZERO),
        sugar: at.optional_quantity("sugar", Volume::parse),
        from_age: at.optional_quantity("from-age", AgeSpan::parse),
        to_age: at.optional_quantity("to-age", AgeSpan::parse),
        contains: at.texts("contains"),
    };
    name.and(at_least).and(Some(rest))
}
