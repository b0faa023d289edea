//! Laws of quantities over random ones.

use std::cmp::Ordering;

use hearthdose_core::units::{Age, AgeSpan, BodyWeight, Mass, Percent, Strength, Volume, show};
use hearthdose_tests::oracle::{Fraction, kilograms};
use jiff::ToSpan;
use jiff::civil::{Date, date};
use proptest::prelude::*;

/// Weights in every spelling a person may choose.
fn typed_weight() -> impl Strategy<Value = String> {
    prop_oneof![
        (1u32..400, 0u32..1_000_000).prop_map(|(whole, part)| format!("{whole}.{part:06} lb")),
        (1u32..400, 0u32..16).prop_map(|(pounds, ounces)| format!("{pounds} lb {ounces} oz")),
        (1u32..300, 0u32..1000).prop_map(|(whole, part)| format!("{whole}.{part:03} kg")),
        (500u32..200_000).prop_map(|grams| format!("{grams} g")),
        (1u32..400).prop_map(|whole| format!("{whole} 3/4 lb")),
    ]
}

fn days() -> impl Strategy<Value = Date> {
    (0i64..60_000).prop_map(|days| date(1900, 1, 1).checked_add(days.days()).expect("a date"))
}

fn spans() -> impl Strategy<Value = AgeSpan> {
    (0u32..1200, 0u32..800).prop_map(|(months, days)| AgeSpan { months, days })
}

fn picograms(weight: &BodyWeight) -> Fraction {
    Fraction::new(i128::from(weight.as_picograms()), 1_000_000_000_000_000)
}

// promise: P5
proptest! {
    /// Not a picogram is lost between what was typed and what is counted with.
    #[test]
    fn weights_are_exact_in_the_unit_typed(typed in typed_weight()) {
        let weight = BodyWeight::parse(&typed).unwrap();
        prop_assert_eq!(picograms(&weight), kilograms(&typed).unwrap());
        prop_assert_eq!(BodyWeight::parse(weight.typed()).unwrap(), weight);
    }

    #[test]
    fn volumes_come_back_as_shown(microlitres in 0u64..5_000_000) {
        let volume = Volume::microlitres(microlitres);
        // The thousands mark is for reading; typed, it is refused.
        let shown = volume.to_string().replace(',', "");
        prop_assert_eq!(Volume::parse(&shown).unwrap(), volume);
        if let Some(spoons) = show::teaspoon_number(volume) {
            let shown = format!("{} tsp", spoons.replace(',', ""));
            prop_assert_eq!(Volume::parse(&shown).unwrap(), volume);
        }
    }

    #[test]
    fn masses_come_back_as_shown(micrograms in 0u64..5_000_000_000) {
        let mass = Mass::micrograms(micrograms);
        prop_assert_eq!(Mass::parse(&mass.to_string().replace(',', "")).unwrap(), mass);
    }

    #[test]
    fn ages_come_back_as_shown(span in spans()) {
        prop_assert_eq!(AgeSpan::parse(&span.to_string()).unwrap(), span);
    }

    /// Shown milligrams per kilogram are within half a hundredth, and the limit itself is tested on the exact ratio.
    #[test]
    fn rounding_never_passes_a_limit(
        typed in typed_weight(),
        micrograms in 1u64..2_000_000,
        per_kg in 1u64..100_000,
        percent in 1u32..1000,
    ) {
        let weight = BodyWeight::parse(&typed).unwrap();
        let exact = Fraction::new(i128::from(micrograms), 1000) / kilograms(&typed).unwrap();
        let shown = weight.hundredths_mg_per_kg(Mass::micrograms(micrograms));
        let shown = Fraction::new(i128::try_from(shown).unwrap(), 100);
        let half = Fraction::new(1, 200);
        prop_assert!(shown - half <= exact && exact < shown + half);

        let share = Percent::parse(&format!("{percent} %")).unwrap();
        let limit = Fraction::new(i128::from(per_kg), 1000) * Fraction::new(i128::from(percent), 100);
        let found = weight.compare_dose(Mass::micrograms(micrograms), Mass::micrograms(per_kg), share);
        prop_assert_eq!(found, exact.cmp(&limit));
    }

    /// The mass in an amount is exact, or there is none.
    #[test]
    fn masses_are_never_rounded(tablet in 1u64..1_000_000, bowl in 1u64..100_000, amount in 0u64..100_000) {
        let strength = Strength::PerVolume { mass: Mass::micrograms(tablet), volume: Volume::microlitres(bowl) };
        let exact = Fraction::new(i128::from(tablet) * i128::from(amount), i128::from(bowl));
        let found = strength.mass_in(Volume::microlitres(amount));
        prop_assert_eq!(found.is_some(), exact.is_whole());
        if let Some(found) = found {
            prop_assert_eq!(i128::from(found.as_micrograms()), exact.floor());
        }
    }

    /// Two weighings and their mean (practice D23): never outside the two.
    #[test]
    fn the_mean_lies_between(one in typed_weight(), other in typed_weight()) {
        let (one, other) = (BodyWeight::parse(&one).unwrap(), BodyWeight::parse(&other).unwrap());
        let mean = one.mean(&other);
        prop_assert!(mean >= one.clone().min(other.clone()) && mean <= one.clone().max(other.clone()));
        prop_assert!(mean.distance(&one).abs_diff(mean.distance(&other)) <= 1);
    }

    /// Nobody grows younger, and a longer limit is reached no sooner.
    #[test]
    fn ages_only_grow(born in days(), more in 0i64..40_000, limit in spans(), longer in 0u32..400) {
        let on = born.checked_add(more.days()).unwrap();
        let age = Age::Born { born, on };
        let next = Age::Born { born, on: on.tomorrow().unwrap() };
        prop_assert!(next.compare(limit) >= age.compare(limit));
        let further = AgeSpan { days: limit.days + longer, ..limit };
        prop_assert!(age.compare(further) <= age.compare(limit));
        prop_assert_eq!(age.compare(limit) == Ordering::Less, limit.reached_on(born).unwrap() > on);
    }

    /// A told length counts as reached only if it is so for this birthday too.
    #[test]
    fn told_ages_never_run_ahead_of_a_birthday(born in days(), told in spans(), limit in spans()) {
        let on = told.reached_on(born).unwrap();
        let by_date = Age::Born { born, on }.compare(limit);
        prop_assert!(Age::Told(told).compare(limit) <= by_date);
    }

    /// Whatever is typed, reading ends with a value or a sentence.
    #[test]
    fn nothing_typed_is_a_surprise(text in "\\PC{0,40}") {
        for error in [
            BodyWeight::parse(&text).err(),
            Volume::parse(&text).err(),
            Mass::parse(&text).err(),
            AgeSpan::parse(&text).err(),
            Strength::parse(&text).err(),
            Percent::parse(&text).err(),
            hearthdose_core::units::parse_lapse(&text).err(),
        ].into_iter().flatten() {
            prop_assert!(!error.to_string().is_empty());
            prop_assert!(error.code().starts_with("quantity-"));
        }
    }
}
