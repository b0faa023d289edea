//! Dosing rules and worked examples of references b, as exact arithmetic.

use std::cmp::Ordering;

use hearthdose_core::units::{BodyWeight, Mass, Percent, Strength, Volume};
use hearthdose_tests::people::demo_order;

use super::{of, per_kilogram};

fn weight(text: &str) -> BodyWeight {
    BodyWeight::parse(text).expect("a weight")
}

fn mass(text: &str) -> Mass {
    Mass::parse(text).expect("a mass")
}

fn volume(text: &str) -> Volume {
    Volume::parse(text).expect("a volume")
}

/// Doxycycline 2.2 mg/kg, most 100 mg (AAP, Bradley et al., Pediatrics 2014;133:e1411, appendix 1), as a liquid of 5 mg/mL:
/// weight, exact mg, exact mL, and mL to the nearest half millilitre. Worked out by hand.
#[test]
fn doxycycline_by_weight() {
    let per_kg = mass("2.2 mg");
    let liquid = Strength::parse("25 mg / 5 mL").expect("a strength");
    let half = volume("0.5 mL");
    for (typed, mg, ml, nearest) in [
        ("3.175 kg", "6.985 mg", "1.397 mL", "1.5 mL"),
        ("10 kg", "22 mg", "4.4 mL", "4.5 mL"),
        ("14 kg", "30.8 mg", "6.16 mL", "6 mL"),
        ("20 kg", "44 mg", "8.8 mL", "9 mL"),
        ("34 kg", "74.8 mg", "14.96 mL", "15 mL"),
        ("44.9 kg", "98.78 mg", "19.756 mL", "20 mL"),
    ] {
        let (weight, exact) = (weight(typed), mass(mg));
        assert_eq!(
            weight.compare_dose(exact, per_kg, Percent::WHOLE),
            Ordering::Equal,
            "{typed}"
        );
        let less = Mass::micrograms(exact.as_micrograms() - 1);
        assert_eq!(
            weight.compare_dose(less, per_kg, Percent::WHOLE),
            Ordering::Less,
            "{typed}"
        );
        assert_eq!(liquid.mass_in(volume(ml)), Some(exact), "{typed}");
        assert_eq!(weight.hundredths_mg_per_kg(exact), 220, "{typed}");
        // What a syringe with half millilitres measures: the exact amount is none of its marks.
        assert_eq!(volume(ml).in_steps(half), None, "{typed}");
        let off = volume(nearest)
            .as_microlitres()
            .abs_diff(volume(ml).as_microlitres());
        assert!(
            volume(nearest).in_steps(half).is_some() && off <= 250,
            "{typed}"
        );
    }
    // At exactly 45 kg the rule by weight gives 99 mg and the adult dose 100 mg: worth 1 mg.
    assert_eq!(
        weight("45 kg").compare_dose(mass("99 mg"), per_kg, Percent::WHOLE),
        Ordering::Equal
    );
    assert_eq!(liquid.mass_in(volume("20 mL")), Some(mass("100 mg")));
}

/// The other rules of the table (same source; tularemia: Oregon Health Authority 2021; British table: J Clin Pathol 2002, table 2):
/// drug, mg/kg for one dose, a weight, the mass there.
#[test]
fn rules_for_each_kilogram() {
    for (drug, per_kg, typed, mg) in [
        ("ciprofloxacin", "15 mg", "10 kg", "150 mg"),
        ("levofloxacin, under 50 kg", "8 mg", "20 kg", "160 mg"),
        ("amoxicillin", "25 mg", "12 kg", "300 mg"),
        ("doxycycline, tularemia", "2.2 mg", "30 kg", "66 mg"),
        ("doxycycline, British table", "2.5 mg", "20 kg", "50 mg"),
    ] {
        let order = weight(typed).compare_dose(mass(mg), mass(per_kg), Percent::WHOLE);
        assert_eq!(order, Ordering::Equal, "{drug}");
    }
    // Largest doses: ciprofloxacin 500 mg from 33⅓ kg, amoxicillin 1 g from 40 kg, levofloxacin 250 mg from 31.25 kg.
    let at = |typed, mg, per_kg| weight(typed).compare_dose(mass(mg), mass(per_kg), Percent::WHOLE);
    assert_eq!(at("33.333333 kg", "500 mg", "15 mg"), Ordering::Greater);
    assert_eq!(at("33.333334 kg", "500 mg", "15 mg"), Ordering::Less);
    assert_eq!(at("40 kg", "1 g", "25 mg"), Ordering::Equal);
    assert_eq!(at("31.25 kg", "250 mg", "8 mg"), Ordering::Equal);
}

/// Ciprofloxacin 30 mg/kg/day in two doses, most 500 mg (AAP 2014): the demo's chart in half millilitres of 250 mg / 5 mL.
#[test]
fn the_ciprofloxacin_chart_keeps_to_its_rule() {
    let order = demo_order("quillmere-ciprofloxacin-1");
    for (typed, words, mg) in [
        // 10 kg lies between the printed 22 and 23 lb; 150 mg is exactly 15 mg/kg there, and a limit met exactly is kept.
        ("10 kg", "3 mL of the liquid with 250 mg per 5 mL", "150"),
        (
            "10.001 kg",
            "3.5 mL of the liquid with 250 mg per 5 mL",
            "175",
        ),
        ("8 lb", "1.5 mL of the liquid with 250 mg per 5 mL", "75"),
        ("20 kg", "6 mL of the liquid with 250 mg per 5 mL", "300"),
        ("67 lb", "10 mL of the liquid with 250 mg per 5 mL", "500"),
        ("90 kg", "10 mL of the liquid with 250 mg per 5 mL", "500"),
    ] {
        let dose = of(&order, typed, "");
        assert_eq!(
            (dose.text.as_str(), dose.mass.milligrams().as_str()),
            (words, mg),
            "{typed}"
        );
    }
    assert_eq!(per_kilogram(&of(&order, "10 kg", "")).unwrap(), "15.00");
}

/// Contract of the command line: 31 lb 4 oz by the demo order.
#[test]
fn the_dose_of_the_contract() {
    let dose = of(&demo_order("quillmere-doxy-1"), "31 lb 4 oz", "");
    assert_eq!(dose.row_text, "26 lb to 38 lb");
    assert_eq!(dose.amount.half_teaspoons(), Some(3));
    assert_eq!(dose.amount.millilitres(), "7.5");
    assert_eq!(dose.mass.milligrams(), "37.5");
    assert_eq!(per_kilogram(&dose).unwrap(), "2.65");
    assert_eq!(dose.text, "1½ teaspoons (7.5 mL)");
    assert_eq!(dose.tablets, None);
}
