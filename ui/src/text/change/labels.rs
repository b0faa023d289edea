//! The names of what can change.

use hearthdose_core::order::compare::{Detail, Field, Wording};

pub(super) fn field(field: Field) -> &'static str {
    match field {
        Field::BetweenRows => "change-of-between",
        Field::RecipeProduct => "change-of-product",
        Field::RecipeTablets => "change-of-tablets",
        Field::RecipeWater => "change-of-water-amount",
        Field::RecipeSoak => "change-of-soak",
        Field::RecipeStep => "change-of-step",
        Field::RecipeKeep => "change-of-keep",
        Field::RecipeKeepWhere => "change-of-keep-where",
        Field::SecondFluid => "change-of-fluid",
        Field::SecondFluidContains => "change-of-fluid-contains",
        Field::Water => "change-of-water",
        Field::MedicineName => "change-of-medicine",
        Field::AllergyClass => "change-of-allergy",
        Field::Interval => "change-of-interval",
        Field::SupplyDays => "change-of-supply",
        Field::CourseDays => "change-of-course",
        Field::PerKg => "change-of-per-kg",
        Field::MaxDose => "change-of-max",
        Field::Tolerance => "change-of-tolerance",
        Field::Lightest => "change-of-lightest",
        Field::Youngest => "change-of-youngest",
        Field::AdultFrom => "change-of-adult",
        Field::LeastGap => "change-of-least-gap",
        Field::SkipIfNextWithin => "change-of-skip",
        Field::FirstDose => "change-of-first",
        Field::FirstGap => "change-of-first-gap",
        Field::MostDoses => "change-of-most-doses",
        Field::Apart => "change-of-apart",
        Field::Margin => "change-of-margin",
        Field::StaleWeight => "change-of-stale-weight",
        Field::Expires => "change-of-expires",
        Field::Withdraws => "change-of-withdraws",
        Field::SealingKey => "change-of-sealing-key",
        Field::HandOut => "change-of-hand-out",
        Field::Event => "change-of-event",
        Field::Split => "change-of-split",
        Field::MissedDosesExtend => "change-of-missed",
        Field::Title => "change-of-title",
        Field::Issuer => "change-of-issuer",
        Field::TimeZone => "change-of-time-zone",
        Field::Languages => "change-of-languages",
        Field::Source => "change-of-source",
        Field::Invented => "change-of-kind",
    }
}

pub(super) fn detail(detail: Detail) -> &'static str {
    match detail {
        Detail::PrintedMass => "change-detail-mass",
        Detail::OrWeightFrom => "change-detail-heavy",
        Detail::Reason => "change-detail-reason",
        Detail::AtLeast => "change-detail-at-least",
        Detail::Sugar => "change-detail-sugar",
        Detail::FromAge => "change-detail-from-age",
        Detail::ToAge => "change-detail-to-age",
        Detail::Contains => "change-detail-contains",
        Detail::Form => "change-detail-form",
        Detail::Strength => "change-detail-strength",
        Detail::Crushable => "change-detail-crush",
        Detail::Salt => "change-detail-salt",
        Detail::PackageNumbers => "change-detail-packages",
        Detail::DrugCodes => "change-detail-codes",
        Detail::LabelSays => "change-detail-label",
        Detail::PackSize => "change-detail-pack-size",
        Detail::WholeIfRowAllows => "change-detail-whole",
        Detail::KeepOpened => "change-detail-opened",
        Detail::IfYes => "change-detail-if-yes",
        Detail::Instead => "change-detail-instead",
        Detail::Phone => "change-detail-phone",
    }
}

/// A whole sentence about words that changed.
pub(super) fn wording(wording: &Wording) -> &'static str {
    match wording {
        Wording::Title => "change-words-title",
        Wording::Medicine => "change-words-medicine",
        Wording::Apart => "change-words-apart",
        Wording::SecondFluid => "change-words-fluid",
        Wording::VehicleNames(_) | Wording::ContactNames(_) => "change-words-vehicle",
        Wording::Question(_) => "change-words-question",
        Wording::AfterYes(_) => "change-words-after-yes",
        Wording::Caution(_) => "change-words-caution",
        Wording::CautionKind(_) => "change-words-caution-kind",
        Wording::Hours(_) => "change-words-hours",
    }
}
