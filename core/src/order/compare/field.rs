//! What can change, by name: fields that an order has once, details of the entries of its lists, and its words.

use super::value::Entry;

/// What an order says once.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Field {
    BetweenRows,
    RecipeProduct,
    RecipeTablets,
    RecipeWater,
    RecipeSoak,
    RecipeStep,
    RecipeKeep,
    RecipeKeepWhere,
    SecondFluid,
    SecondFluidContains,
    Water,
    MedicineName,
    AllergyClass,
    Interval,
    SupplyDays,
    CourseDays,
    PerKg,
    MaxDose,
    Tolerance,
    Lightest,
    Youngest,
    AdultFrom,
    LeastGap,
    SkipIfNextWithin,
    FirstDose,
    FirstGap,
    MostDoses,
    Apart,
    Margin,
    StaleWeight,
    Expires,
    Withdraws,
    SealingKey,
    HandOut,
    Event,
    Split,
    MissedDosesExtend,
    Title,
    Issuer,
    TimeZone,
    Languages,
    Source,
    Invented,
}

impl Field {
    /// Where in the file: `medicine.lightest`.
    pub fn place(self) -> &'static str {
        match self {
            Field::BetweenRows => "between-rows.rule",
            Field::RecipeProduct => "recipe.product",
            Field::RecipeTablets => "recipe.tablets",
            Field::RecipeWater => "recipe.water",
            Field::RecipeSoak => "recipe.soak",
            Field::RecipeStep => "recipe.step",
            Field::RecipeKeep => "recipe.keep",
            Field::RecipeKeepWhere => "recipe.keep-where",
            Field::SecondFluid => "recipe.second-fluid",
            Field::SecondFluidContains => "recipe.second-fluid.contains",
            Field::Water => "water.rule",
            Field::MedicineName => "medicine.name",
            Field::AllergyClass => "medicine.allergy-class",
            Field::Interval => "medicine.interval",
            Field::SupplyDays => "medicine.supply-days",
            Field::CourseDays => "medicine.course-days",
            Field::PerKg => "medicine.per-kg",
            Field::MaxDose => "medicine.max-dose",
            Field::Tolerance => "medicine.tolerance",
            Field::Lightest => "medicine.lightest",
            Field::Youngest => "medicine.youngest",
            Field::AdultFrom => "medicine.adult-from",
            Field::LeastGap => "medicine.least-gap",
            Field::SkipIfNextWithin => "medicine.skip-if-next-within",
            Field::FirstDose => "medicine.first-dose",
            Field::FirstGap => "medicine.first-gap",
            Field::MostDoses => "medicine.most-doses",
            Field::Apart => "medicine.apart",
            Field::Margin => "medicine.margin",
            Field::StaleWeight => "medicine.stale-weight",
            Field::Expires => "medicine.expires",
            Field::Withdraws => "medicine.withdraws",
            Field::SealingKey => "medicine.sealing-key",
            Field::HandOut => "medicine.hand-out",
            Field::Event => "medicine.event",
            Field::Split => "medicine.split",
            Field::MissedDosesExtend => "medicine.missed-doses-extend",
            Field::Title => "title",
            Field::Issuer => "issuer",
            Field::TimeZone => "time-zone",
            Field::Languages => "languages",
            Field::Source => "source",
            Field::Invented => "invented",
        }
    }
}

/// What an order says about one entry of a list.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Detail {
    PrintedMass,
    OrWeightFrom,
    Reason,
    AtLeast,
    Sugar,
    FromAge,
    ToAge,
    Contains,
    Form,
    Strength,
    Crushable,
    Salt,
    PackageNumbers,
    DrugCodes,
    LabelSays,
    PackSize,
    WholeIfRowAllows,
    KeepOpened,
    IfYes,
    Instead,
    Phone,
}

/// Words of the order, of which only is told that they changed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Wording {
    /// The title in other languages.
    Title,
    /// The name of the medicine in other languages.
    Medicine,
    /// What is to be taken apart, in other languages.
    Apart,
    /// The second fluid in other languages.
    SecondFluid,
    /// A food or drink in other languages.
    VehicleNames(Entry),
    Question(Entry),
    AfterYes(Entry),
    Caution(Entry),
    /// Not words, but as little to be quoted: what a caution is about.
    CautionKind(Entry),
    Hours(Entry),
    /// Whom to call, in other languages.
    ContactNames(Entry),
}

impl Wording {
    pub(super) fn place(&self) -> String {
        match self {
            Wording::Title => "title-words".to_owned(),
            Wording::Medicine => "medicine.words".to_owned(),
            Wording::Apart => Field::Apart.place().to_owned(),
            Wording::SecondFluid => Field::SecondFluid.place().to_owned(),
            Wording::VehicleNames(of)
            | Wording::Question(of)
            | Wording::AfterYes(of)
            | Wording::Caution(of)
            | Wording::CautionKind(of)
            | Wording::Hours(of)
            | Wording::ContactNames(of) => of.place(),
        }
    }
}
