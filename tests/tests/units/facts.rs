//! Published measures, and weights worked out from them by hand.

use std::cmp::Ordering;

use hearthdose_core::units::{Mass, Percent, Strength, Volume, show};

use super::{mass, volume, weight};

/// 21 CFR 101.9(b)(5)(viii), quoted in UCUM ticket 120: a teaspoon is 5 mL.
/// UCUM calls it [tsp_m]; its [tsp_us] would be 4.92892159375 mL, 1.42 % less.
#[test]
fn a_teaspoon_is_5_ml() {
    assert_eq!(volume("1 tsp"), volume("5 mL"));
    assert_eq!(volume("1 tsp").as_microlitres(), 5_000);
    assert_ne!(volume("1 tsp"), Volume::microlitres(4_929));
    // CDC, "Prepare Doxycycline Hyclate for Non-Pill Swallowers": 4 tsp = 20 mL.
    assert_eq!(volume("4 tsp"), volume("20 mL"));
    for (spoons, millilitres) in [
        ("1/4 tsp", "1.25 mL"),
        ("½ tsp", "2.5 mL"),
        ("¾ teaspoon", "3.75 mL"),
        ("1 1/2 tsp", "7.5 mL"),
        ("1½ teaspoons", "7.5 mL"),
        ("1.5 tsp", "7.5 ml"),
        ("200 tsp", "1 L"),
    ] {
        assert_eq!(volume(spoons), volume(millilitres), "{spoons}");
    }
}

/// Source of the pound: international pound of 1959, 0.45359237 kg exactly; UCUM [lb_av] = 7000 grains of 64.79891 mg.
/// The products of the right column are worked out by hand (references d, "Checks").
#[test]
fn pounds_are_exact() {
    for (typed, picograms) in [
        ("1 lb", 453_592_370_000_000_u64),
        ("12 lb", 5_443_108_440_000_000),
        ("76 lb", 34_473_020_120_000_000),
        ("99 lb", 44_905_644_630_000_000),
        ("100 lb 8 oz", 45_586_033_185_000_000),
        ("7 lb", 3_175_146_590_000_000),
        ("31 lb 4 oz", 14_174_761_562_500_000),
        ("150 lb", 68_038_855_500_000_000),
        ("45 kg", 45_000_000_000_000_000),
        ("4200 g", 4_200_000_000_000_000),
    ] {
        assert_eq!(weight(typed).as_picograms(), picograms, "{typed}");
        assert_eq!(weight(typed).typed(), typed);
    }
    let grains = 7_000 * 64_798_910_000_u64;
    assert_eq!(weight("1 lb").as_picograms(), grains);
    // An ounce is 28.349523125 g, a sixteenth of a pound.
    let ounce = weight("1 lb 1 oz").distance(&weight("1 lb"));
    assert_eq!(ounce, 28_349_523_125_000);
    assert_eq!(16 * ounce, grains);
}

/// References d: 45 kg = 99.2080 lb; references c: 70 kg = 154.32 lb, and 150 lb is lighter than that.
#[test]
fn kilograms_lie_where_they_should_among_pounds() {
    for (kilograms, below, above) in [
        ("45 kg", "99.20795 lb", "99.20805 lb"),
        ("70 kg", "154.3235 lb", "154.3237 lb"),
        ("35 kg", "77.1617 lb", "77.1618 lb"),
    ] {
        assert!(weight(below) < weight(kilograms), "{kilograms}");
        assert!(weight(kilograms) < weight(above), "{kilograms}");
    }
    assert!(weight("150 lb") < weight("70 kg"));
}

#[test]
fn one_weight_may_be_written_in_many_ways() {
    for same in [
        "31.25 lb",
        "31 1/4 lb",
        "31¼ lb",
        "31 lb 4 oz",
        "31lb 4oz",
        "31 LB 4 OZ",
        "31 pounds 4 ounces",
        "  31  lbs   4 oz ",
        "14.1747615625 kg",
    ] {
        let found = hearthdose_core::units::BodyWeight::parse(same);
        match same {
            // Finer than any scale: more than six decimals are refused.
            "14.1747615625 kg" => assert_eq!(found.unwrap_err().code(), "quantity-too-fine"),
            _ => assert_eq!(found.unwrap(), weight("31.25 lb"), "{same}"),
        }
    }
}

/// By hand: 37.5 mg for 31 lb 4 oz is 2.6455 mg/kg; the ties are exact eighths and two-hundredths.
#[test]
fn milligrams_for_each_kilogram_round_half_away_from_zero() {
    for (dose, kilograms, shown) in [
        ("37.5 mg", "31 lb 4 oz", "2.65"),
        ("12.5 mg", "7 lb", "3.94"),
        ("87.5 mg", "87 lb", "2.22"),
        ("100 mg", "200 kg", "0.50"),
        ("1 mg", "8 kg", "0.13"),
        ("3 mg", "8 kg", "0.38"),
        ("401 mg", "200 kg", "2.01"),
        ("400.999 mg", "200 kg", "2.00"),
        ("16 mg", "2 kg", "8.00"),
    ] {
        let hundredths = weight(kilograms).hundredths_mg_per_kg(mass(dose));
        assert_eq!(show::hundredths(hundredths), shown, "{dose} {kilograms}");
    }
}

#[test]
fn kilograms_are_shown_to_the_nearest_gram() {
    for (typed, shown) in [
        ("12 lb", "5.443"),
        ("31 lb 4 oz", "14.175"),
        ("45 kg", "45"),
        ("4.0005 kg", "4.001"),
        ("4.000499 kg", "4"),
        ("0.5 kg", "0.5"),
    ] {
        assert_eq!(weight(typed).shown_kilograms(), shown, "{typed}");
    }
}

/// What is shown rounded is never what a limit is tested on.
#[test]
fn a_limit_is_tested_on_the_exact_ratio() {
    let per_kg = mass("4.4 mg");
    let whole = Percent::WHOLE;
    // 44 mg for 10 kg is 4.4 mg/kg to the last digit; a microgram more shows the same and is above.
    let ten = weight("10 kg");
    assert_eq!(
        ten.compare_dose(mass("44 mg"), per_kg, whole),
        Ordering::Equal
    );
    let more = Mass::micrograms(44_001);
    assert_eq!(ten.hundredths_mg_per_kg(more), 440);
    assert_eq!(ten.compare_dose(more, per_kg, whole), Ordering::Greater);
    let less = Mass::micrograms(43_999);
    assert_eq!(ten.hundredths_mg_per_kg(less), 440);
    assert_eq!(ten.compare_dose(less, per_kg, whole), Ordering::Less);
    // 12.000001 lb shows the kilograms of 12 lb and is heavier all the same.
    assert_eq!(weight("12.000001 lb").shown_kilograms(), "5.443");
    assert!(weight("12.000001 lb") > weight("12 lb"));
}

/// Strengths of references a1, b and c1, with their amounts.
#[test]
fn masses_in_an_amount_are_exact_or_refused() {
    for (strength, amount, expected) in [
        // CDC page: one 100 mg tablet in 20 mL, so 25 mg in 5 mL.
        ("100 mg / 20 mL", "5 mL", Some("25 mg")),
        ("100 mg / 20 mL", "1/4 tsp", Some("6.25 mg")),
        // emeddb: suspension 25 mg/5 mL, syrup 50 mg/5 mL.
        ("25 mg / 5 mL", "4.4 mL", Some("22 mg")),
        ("50 mg / 5 mL", "4.4 mL", Some("44 mg")),
        // ThyroSafe label and AAP: 65 mg/mL, 0.25 mL = 16.25 mg, 2 mL = 130 mg.
        ("65 mg / mL", "0.25 mL", Some("16.25 mg")),
        ("65 mg/1 mL", "2 mL", Some("130 mg")),
        // AAP box: 130 mg in 40 mL is 16.25 mg in a teaspoon; older FDA sheet: 65 mg gives 8.125 mg.
        ("130 mg / 40 mL", "1 tsp", Some("16.25 mg")),
        ("65 mg / 40 mL", "1 tsp", Some("8.125 mg")),
        // A third of a tablet is no number of micrograms.
        ("100 mg / 15 mL", "5 mL", None),
    ] {
        let strength = Strength::parse(strength).expect("a strength");
        let found = strength.mass_in(volume(amount));
        assert_eq!(found, expected.map(mass), "{strength} {amount}");
    }
    assert_eq!(
        Strength::parse("100 mg").unwrap().mass_in(volume("5 mL")),
        None
    );
}
