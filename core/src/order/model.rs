//! The order as the rest of the program sees it: parsed, every quantity exact.
//!
//! Only [`super::parse`] makes one. It may still have problems; [`super::check`] finds them all, and only a [`super::CheckedOrder`] can give a dose.

use std::collections::BTreeMap;

use jiff::Timestamp;
use jiff::civil::Date;

use super::supply::{Gtin, HandOut, Ndc, SealingKey};
use crate::units::{AgeSpan, BodyWeight, Lapse, Mass, Percent, Strength, Volume};

/// The finest step of a ready-made liquid whose order names none: a tenth of a millilitre, as oral syringes print it.
pub const SYRINGE_STEP: Volume = Volume::microlitres(100);

/// Words by language code: `en`, `es`.
pub type Words = BTreeMap<String, String>;

/// One revision of an order.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Order {
    pub id: String,
    pub revision: u32,
    pub title: String,
    /// The title in other languages.
    pub title_words: Words,
    pub issuer: String,
    pub issued: Timestamp,
    pub time_zone: String,
    /// Demo data: a banner on every screen, print and code.
    pub invented: bool,
    pub source: String,
    pub languages: Vec<String>,
    pub medicine: Medicine,
    pub products: Vec<Product>,
    pub recipe: Option<Recipe>,
    pub rows: Vec<Row>,
    pub between_rows: BetweenRows,
    pub questions: Vec<Question>,
    pub cautions: Vec<Caution>,
    pub contacts: Vec<Contact>,
    pub water: WaterRule,
    /// SHA-256 of the exact bytes of the file.
    pub fingerprint: super::Fingerprint,
    /// What reading the file remarked: warnings only, such as unknown fields.
    pub remarks: Vec<super::Problem>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Medicine {
    pub name: String,
    /// The name in other languages.
    pub words: Words,
    pub allergy_class: Option<String>,
    pub interval: Lapse,
    pub supply_days: u32,
    pub course_days: u32,
    /// Mass for each kilogram; a cross-check of a weight chart, never the dose itself.
    pub per_kg: Option<Mass>,
    pub max_dose: Option<Mass>,
    /// How far below and above `per_kg` a row may go.
    pub tolerance: Option<Tolerance>,
    pub lightest: Option<BodyWeight>,
    pub youngest: Option<AgeSpan>,
    pub adult_from: Option<AgeSpan>,
    pub least_gap: Lapse,
    pub skip_if_next_within: Lapse,
    pub first_dose: FirstDose,
    /// Shortest gap from a first dose at an odd time to the first regular round.
    pub first_gap: Lapse,
    pub most_doses: Vec<MostDoses>,
    pub apart: Vec<Apart>,
    pub margin: Lapse,
    pub stale_weight: StaleWeight,
    pub expires: Option<Date>,
    pub withdraws: Option<String>,
    /// What household codes are sealed to.
    pub sealing_key: Option<SealingKey>,
    pub hand_out: HandOut,
    /// Two orders of one event never go to one person together.
    pub event: Option<String>,
    /// A dose may come from two bowls: a setting for scarcity.
    pub split: bool,
    /// Missed doses lengthen the course.
    pub missed_doses_extend: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tolerance {
    pub under: Percent,
    pub over: Percent,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FirstDose {
    Now,
    NextRound,
}

/// At most so many doses for the people of a group.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MostDoses {
    pub group: Group,
    pub doses: u32,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Group {
    /// Written `up to 1 mo`: the age has not passed the limit.
    UpToAge(AgeSpan),
    /// Written `under 1 mo`.
    UnderAge(AgeSpan),
    /// Written `if pregnant`: the question of that key was answered yes (or unsure).
    If(String),
    /// Written `everyone`.
    Everyone,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Apart {
    pub what: String,
    /// The same in other languages.
    pub words: Words,
    pub gap: Lapse,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct StaleWeight {
    pub under_two_years: Lapse,
    pub older: Lapse,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Form {
    Tablet,
    Liquid,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Product {
    pub key: String,
    pub form: Form,
    pub strength: Strength,
    pub crushable: bool,
    /// As the label has it: `hyclate`.
    pub salt: Option<String>,
    /// Numbers of packages that are this product, where they are known.
    pub gtins: Vec<Gtin>,
    pub ndcs: Vec<Ndc>,
    /// What the caregiver must find on the package.
    pub label_says: Vec<String>,
    /// Tablets, or millilitres of liquid, in one package.
    pub pack_size: Option<u32>,
    pub whole_if_row_allows: bool,
    /// How long an opened bottle of liquid keeps.
    pub keep_opened: Option<Lapse>,
}

/// How tablets become a mixture, or, for a ready-made liquid, only its measuring step.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Recipe {
    pub product: String,
    /// Tablets in one bowl; zero, as water and soak, when the product is a ready-made liquid.
    pub tablets: u32,
    pub water: Volume,
    pub soak: Lapse,
    pub step: Volume,
    pub keep: Lapse,
    pub keep_where: KeepWhere,
    /// A fluid that goes into the whole bowl after crushing.
    pub second_fluid: Option<SecondFluid>,
    pub vehicles: Vec<Vehicle>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum KeepWhere {
    Room,
    Refrigerator,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SecondFluid {
    pub name: String,
    /// The name in other languages.
    pub words: Words,
    pub amount: Volume,
    /// Food allergens in it: `milk`.
    pub contains: Vec<String>,
}

/// Food or drink that hides the taste.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Vehicle {
    pub name: String,
    /// The name in other languages.
    pub words: Words,
    pub at_least: Volume,
    pub sugar: Option<Volume>,
    pub from_age: Option<AgeSpan>,
    pub to_age: Option<AgeSpan>,
    /// Food allergens in it: `milk`.
    pub contains: Vec<String>,
}

/// One line of the chart.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    pub from: Option<Limit>,
    pub to: Option<Limit>,
    /// Age rows only: someone this heavy takes this row although too young for it.
    pub or_weight_from: Option<BodyWeight>,
    pub amount: Volume,
    /// As printed, for a check of amount × strength.
    pub mg: Option<PrintedMass>,
    pub reason: Option<String>,
}

/// A printed mass with the number of decimals it was printed with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PrintedMass {
    pub mass: Mass,
    pub decimals: u32,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Limit {
    pub at: Measure,
    /// `from` and `up-to` are inclusive, `over` and `under` are not.
    pub inclusive: bool,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Measure {
    Weight(BodyWeight),
    Age(AgeSpan),
}

/// What a chart is read by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ChartBy {
    Weight,
    Age,
}

/// Which row serves a weight that falls between two printed limits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BetweenRows {
    /// The lower row while it still reaches `per_kg` at that weight, else the next.
    Enough,
    /// Always the heavier (or older) row.
    NextRow,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Question {
    pub key: String,
    pub ask: Words,
    pub if_yes: IfYes,
    /// The order that serves people who answer yes.
    pub instead: Option<String>,
    pub then: Words,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum IfYes {
    Caution,
    Hold,
    Stop,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Caution {
    pub key: String,
    /// What the caution is about; emergencies come first on every list.
    pub kind: CautionKind,
    pub text: Words,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum CautionKind {
    Emergency,
    Illness,
    Effect,
    Storage,
    General,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Contact {
    pub kind: ContactKind,
    pub name: String,
    /// The name in other languages.
    pub words: Words,
    pub phone: String,
    pub hours: Words,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum ContactKind {
    Emergency,
    Poison,
    Questions,
    Refill,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WaterRule {
    Tap,
    BoilAndCool,
    BottledOnly,
}

impl Question {
    /// What follows a yes, with the name of the person where the words leave a place for it.
    pub fn then_for(&self, name: &str) -> Words {
        let named =
            |(language, text): (&String, &String)| (language.clone(), text.replace("{name}", name));
        self.then.iter().map(named).collect()
    }
}

impl Order {
    pub fn product(&self, key: &str) -> Option<&Product> {
        self.products.iter().find(|p| p.key == key)
    }

    /// The product the recipe names, or the first one.
    pub fn main_product(&self) -> Option<&Product> {
        match &self.recipe {
            Some(recipe) => self.product(&recipe.product),
            None => self.products.first(),
        }
    }

    /// What the chart is read by: the kind of the first printed limit.
    pub fn chart_by(&self) -> ChartBy {
        let limit = self
            .rows
            .iter()
            .flat_map(|r| r.from.iter().chain(r.to.iter()))
            .next();
        match limit.map(|l| &l.at) {
            Some(Measure::Age(_)) => ChartBy::Age,
            _ => ChartBy::Weight,
        }
    }

    /// Strength of what is measured: the mixture of the recipe, or the liquid as it comes.
    pub fn measured_strength(&self) -> Option<Strength> {
        let product = self.main_product()?;
        match (product.strength, &self.recipe) {
            (Strength::PerTablet(mass), Some(recipe)) => Some(Strength::PerVolume {
                mass: mass.checked_mul(u64::from(recipe.tablets))?,
                volume: recipe.bowl_volume()?,
            }),
            (strength @ Strength::PerVolume { .. }, _) => Some(strength),
            (Strength::PerTablet(_), None) => None,
        }
    }

    /// The finest amount that can be measured: the recipe's step, or a tenth of a millilitre for a liquid without recipe.
    pub fn step(&self) -> Option<Volume> {
        match &self.recipe {
            Some(recipe) => Some(recipe.step),
            None => (self.main_product()?.form == Form::Liquid).then_some(SYRINGE_STEP),
        }
    }
}

impl Recipe {
    /// Mixture in one full bowl: water and, where there is one, the second fluid; nothing for a ready-made liquid.
    pub fn bowl_volume(&self) -> Option<Volume> {
        if self.tablets == 0 {
            return None;
        }
        match &self.second_fluid {
            Some(second) => self.water.checked_add(second.amount),
            None => Some(self.water),
        }
    }
}

impl std::fmt::Display for Row {
    /// The row as the chart would print it: `26 lb to 38 lb`, `up to 12 lb`, `89 lb or more`.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match (&self.from, &self.to) {
            (None, None) => f.write_str("everybody"),
            (None, Some(to)) => write!(
                f,
                "{} {}",
                if to.inclusive { "up to" } else { "under" },
                to.at
            ),
            (Some(from), None) if from.inclusive => match &from.at {
                Measure::Weight(_) => write!(f, "{} or more", from.at),
                Measure::Age(_) => write!(f, "{} or older", from.at),
            },
            (Some(from), None) => write!(f, "over {}", from.at),
            (Some(from), Some(to)) => {
                let over = if from.inclusive { "" } else { "over " };
                let under = if to.inclusive { "" } else { "under " };
                write!(f, "{over}{} to {under}{}", from.at, to.at)
            }
        }
    }
}

impl std::fmt::Display for Measure {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Measure::Weight(weight) => write!(f, "{weight}"),
            Measure::Age(age) => write!(f, "{age}"),
        }
    }
}
