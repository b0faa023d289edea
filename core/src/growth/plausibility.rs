//! Whether a weight can be believed for this age, or a person should look at the scale again.
//!
//! Invariants: an answer never changes a weight and never picks a unit by itself; what is not known
//! (sex, age) makes the answer kinder, never stricter.
//!
//! Up to 10 years the limits are WHO z-scores. Above, WHO publishes no weight-for-age, so only the
//! outer limits hold, and an adult under 80 lb is asked about the unit. The limits of 2 kg, 300 kg
//! and 80 lb are common practice, no source.

use uom::si::mass::kilogram;

use super::{Mass, Sex, weight_for_age};

/// Beyond this many deviations the unit is asked for.
const ASK_BEYOND_Z: f64 = 3.0;
/// Beyond this many deviations the weight is held.
const HOLD_BEYOND_Z: f64 = 5.0;
const LIGHTEST_KILOGRAMS: f64 = 2.0;
const HEAVIEST_KILOGRAMS: f64 = 300.0;
/// 80 lb, exactly.
const LIGHT_ADULT_KILOGRAMS: f64 = 36.287_389_6;
/// Three conversions through binary fractions lose far less than this; no scale shows it.
const ONE_MILLIGRAM: f64 = 1e-6;
/// An 18th birthday falls on day 6574 or 6575; the earlier one asks a day too soon for some.
const ADULT_FROM_DAYS: u32 = 6574;

/// What to do with a weight, from the kindest answer to the strictest.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Plausibility {
    /// Nothing to ask.
    Plausible,
    /// Ask: pounds or kilograms?
    Ask,
    /// A hold, lifted by a clinician or lead after a second weighing.
    Implausible,
}

impl Plausibility {
    /// The stable name of the question or hold; none for a plausible weight.
    pub fn code(self) -> Option<&'static str> {
        match self {
            Plausibility::Plausible => None,
            Plausibility::Ask => Some("weight-pounds-or-kilograms"),
            Plausibility::Implausible => Some("weight-implausible"),
        }
    }
}

/// Judges a body weight by what is known of the person.
///
/// With the sex unknown the kinder of both curves answers. With the age unknown only the outer
/// limits hold. A weight that is no number is implausible.
pub fn plausibility(sex: Option<Sex>, age_days: Option<u32>, weight: Mass) -> Plausibility {
    let kilograms = weight.get::<kilogram>();
    if !(LIGHTEST_KILOGRAMS..=HEAVIEST_KILOGRAMS).contains(&kilograms) {
        return Plausibility::Implausible;
    }
    let Some(age_days) = age_days else {
        return Plausibility::Plausible;
    };
    if age_days >= ADULT_FROM_DAYS && kilograms + ONE_MILLIGRAM < LIGHT_ADULT_KILOGRAMS {
        return Plausibility::Ask;
    }
    match sex {
        Some(sex) => by_curve(sex, age_days, weight),
        None => by_curve(Sex::Female, age_days, weight).min(by_curve(Sex::Male, age_days, weight)),
    }
}

/// Whether the unit was probably mistaken: the weight as typed is doubtful, and the same number in
/// the other unit would be plausible.
///
/// For "22" typed as kilograms, `as_typed` is 22 kg and `in_other_unit` 22 lb. This only words
/// the question; the person who stood at the scale answers it.
pub fn likely_other_unit(
    sex: Option<Sex>,
    age_days: Option<u32>,
    as_typed: Mass,
    in_other_unit: Mass,
) -> bool {
    plausibility(sex, age_days, as_typed) != Plausibility::Plausible
        && plausibility(sex, age_days, in_other_unit) == Plausibility::Plausible
}

fn by_curve(sex: Sex, age_days: u32, weight: Mass) -> Plausibility {
    match weight_for_age(sex, age_days, weight) {
        Ok(score) if score.z.abs() > HOLD_BEYOND_Z => Plausibility::Implausible,
        Ok(score) if score.z.abs() > ASK_BEYOND_Z => Plausibility::Ask,
        // The weight is inside the outer limits here, so a refusal can only be the age.
        Ok(_) | Err(_) => Plausibility::Plausible,
    }
}

#[cfg(test)]
mod tests {
    use super::Plausibility::{Ask, Implausible, Plausible};
    use super::*;
    use crate::growth::{kilograms, pounds};

    const TWO_YEARS: Option<u32> = Some(731);
    const ADULT: Option<u32> = Some(12_000);

    #[test]
    fn a_two_year_old_girl_is_judged_by_her_curve() {
        // WHO deviation columns for day 731: -3 is 8.068 kg, +3 is 17.019 kg; a further deviation
        // is 0.971 kg below (9.039 - 8.068) and 2.169 kg above (17.019 - 14.850).
        let judge = |number| plausibility(Some(Sex::Female), TWO_YEARS, kilograms(number));
        assert_eq!(judge(11.5), Plausible);
        assert_eq!(judge(8.08), Plausible);
        assert_eq!(judge(8.05), Ask);
        assert_eq!(judge(6.14), Ask);
        assert_eq!(judge(6.11), Implausible);
        assert_eq!(judge(17.00), Plausible);
        assert_eq!(judge(17.04), Ask);
        assert_eq!(judge(21.34), Ask);
        assert_eq!(judge(21.38), Implausible);
    }

    #[test]
    fn an_unknown_sex_gets_the_kinder_answer() {
        // Day 731, -3: girl 8.068 kg, boy 8.634 kg; +3: girl 17.019 kg, boy 17.139 kg.
        let judge = |sex, number| plausibility(sex, TWO_YEARS, kilograms(number));
        assert_eq!(judge(Some(Sex::Male), 8.3), Ask);
        assert_eq!(judge(None, 8.3), Plausible);
        assert_eq!(judge(Some(Sex::Female), 17.08), Ask);
        assert_eq!(judge(None, 17.08), Plausible);
        assert_eq!(judge(None, 8.0), Ask);
    }

    #[test]
    fn the_outer_limits_hold_for_everybody() {
        for age in [None, ADULT, Some(4000)] {
            for (weight, expected) in [
                (1.99, Implausible),
                (300.0, Plausible),
                (300.1, Implausible),
            ] {
                assert_eq!(
                    plausibility(None, age, kilograms(weight)),
                    expected,
                    "{age:?} {weight}"
                );
            }
            for broken in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 0.0, -70.0] {
                assert_eq!(plausibility(None, age, kilograms(broken)), Implausible);
            }
        }
        assert_eq!(plausibility(None, None, kilograms(2.0)), Plausible);
        assert_eq!(
            plausibility(Some(Sex::Female), Some(0), kilograms(1.9)),
            Implausible
        );
    }

    #[test]
    fn a_light_adult_is_asked_and_a_schoolchild_is_not() {
        assert_eq!(plausibility(None, ADULT, pounds(79.9)), Ask);
        assert_eq!(plausibility(None, ADULT, pounds(80.0)), Plausible);
        // The same 80 lb on other ways through binary fractions.
        assert_eq!(
            plausibility(None, ADULT, kilograms(36_287_389.6 / 1e6)),
            Plausible
        );
        assert_eq!(
            plausibility(None, ADULT, kilograms(80.0 * 16.0 * 0.028_349_523_125)),
            Plausible
        );
        assert_eq!(plausibility(None, Some(6574), pounds(79.0)), Ask);
        assert_eq!(plausibility(None, Some(6573), pounds(79.0)), Plausible);
        assert_eq!(plausibility(None, Some(4015), pounds(79.0)), Plausible);
        assert_eq!(plausibility(None, None, pounds(79.0)), Plausible);
    }

    #[test]
    fn the_other_unit_is_named_only_when_it_would_fit() {
        let girl = Some(Sex::Female);
        // 25 typed as kilograms: z +6.7; 25 lb is 11.3 kg, a usual two-year-old.
        assert!(likely_other_unit(
            girl,
            TWO_YEARS,
            kilograms(25.0),
            pounds(25.0)
        ));
        // 11.5 typed as pounds: 5.2 kg.
        assert!(likely_other_unit(
            girl,
            TWO_YEARS,
            pounds(11.5),
            kilograms(11.5)
        ));
        // Plausible as typed: nothing to ask, whatever the other unit says.
        assert!(!likely_other_unit(
            girl,
            TWO_YEARS,
            kilograms(11.5),
            pounds(11.5)
        ));
        assert!(!likely_other_unit(
            girl,
            TWO_YEARS,
            kilograms(14.0),
            pounds(31.0)
        ));
        // Doubtful in both units: another mistake.
        assert!(!likely_other_unit(
            girl,
            TWO_YEARS,
            kilograms(90.0),
            pounds(90.0)
        ));
        // An adult's 68 kg entered as pounds.
        assert!(likely_other_unit(
            None,
            ADULT,
            pounds(68.0),
            kilograms(68.0)
        ));
        // 400 is too heavy in kilograms and believable in pounds, age unknown.
        assert!(likely_other_unit(
            None,
            None,
            kilograms(400.0),
            pounds(400.0)
        ));
    }

    #[test]
    fn questions_and_holds_have_codes() {
        assert_eq!(Plausible.code(), None);
        assert_eq!(Ask.code(), Some("weight-pounds-or-kilograms"));
        assert_eq!(Implausible.code(), Some("weight-implausible"));
        assert!(Plausible < Ask && Ask < Implausible);
    }
}
