//! Potassium iodide by age.
//!
//! Doses: FDA guidance on potassium iodide as a thyroid blocking agent, November/December 2001 (secondary copies agree).
//! Mixture: AAP technical report box citing FDA: 130 mg in 40 mL, 16.25 mg in a teaspoon. Two of FDA's age rows are held back from the references.

use hearthdose_core::dose::{self, DoseForm};
use hearthdose_core::household::KnownAge;
use hearthdose_core::order::CheckedOrder;
use hearthdose_tests::people::{demo_order, someone, weighing_and_aged};
use jiff::civil::{Date, date};

use super::{give, of};

fn order() -> CheckedOrder {
    demo_order("quillmere-iodide-1")
}

/// The mass for somebody born on `born`, on `on`.
fn born(born: Date, on: Date) -> String {
    let mut person = someone();
    person.age = Some(KnownAge::Born(born));
    let dose = dose::work_out(&order(), &person, on).expect("a dose");
    dose.mass.milligrams()
}

#[test]
fn published_rows() {
    for (age, weight, teaspoons, mg) in [
        // Birth to 1 month: 16 mg, 1 teaspoon of 16.25 mg.
        ("0 d", "7 lb", "1 teaspoon (5 mL)", "16.25"),
        ("28 d", "9 lb", "1 teaspoon (5 mL)", "16.25"),
        // Over 12 to 18 years: 65 mg unless adult size. 4 to 17 years (AAP's words): 4 teaspoons.
        ("12 y 1 d", "90 lb", "4 teaspoons (20 mL)", "65"),
        ("15 y", "120 lb", "4 teaspoons (20 mL)", "65"),
        ("17 y", "149 lb", "4 teaspoons (20 mL)", "65"),
        ("4 y", "40 lb", "4 teaspoons (20 mL)", "65"),
        // 18 to 40 years: 130 mg, the whole bowl of 8 teaspoons.
        ("25 y", "130 lb", "8 teaspoons (40 mL)", "130"),
        // Adult size, about 150 lb or 70 kg: 130 mg.
        ("15 y", "150 lb", "8 teaspoons (40 mL)", "130"),
        ("15 y", "70 kg", "8 teaspoons (40 mL)", "130"),
    ] {
        let dose = of(&order(), weight, age);
        assert_eq!(dose.text, teaspoons, "{age} {weight}");
        assert_eq!(dose.mass.milligrams(), mg, "{age} {weight}");
        assert_eq!(dose.form, DoseForm::Mixture);
    }
}

/// Over 70 kg, who swallows tablets: one whole 130 mg tablet.
#[test]
fn an_adult_may_swallow_one_tablet() {
    for (age, weight) in [("30 y", ""), ("adult", ""), ("16 y", "71 kg")] {
        let mut person = weighing_and_aged(weight, age);
        person.swallows_tablets = true;
        let dose = give(&order(), &person);
        assert_eq!(
            (dose.tablets, dose.text.as_str()),
            (Some(1), "1 whole tablet"),
            "{age}"
        );
    }
    // 65 mg is half a tablet, so a child who swallows tablets gets the bowl all the same.
    let mut child = weighing_and_aged("60 lb", "9 y");
    child.swallows_tablets = true;
    assert_eq!(give(&order(), &child).form, DoseForm::Mixture);
}

/// FDA's words are by the birthday: "over 3 years". AAP's "4 through 11 years" would halve the dose of a child of 3 y 6 m.
#[test]
fn over_three_years_begins_the_day_after_the_birthday() {
    let birthday = date(2028, 5, 10);
    assert_eq!(born(birthday, date(2031, 5, 9)), "32.5");
    assert_eq!(born(birthday, date(2031, 5, 10)), "32.5");
    assert_eq!(born(birthday, date(2031, 5, 11)), "65");
    assert_eq!(born(birthday, date(2031, 11, 10)), "65");
}

#[test]
fn the_first_month_ends_on_its_date() {
    for (born_on, last, after) in [
        (date(2031, 4, 5), date(2031, 5, 5), date(2031, 5, 6)),
        (date(2031, 1, 31), date(2031, 2, 28), date(2031, 3, 1)),
        (date(2031, 2, 10), date(2031, 3, 10), date(2031, 3, 11)),
    ] {
        assert_eq!(born(born_on, last), "16.25", "{born_on}");
        assert_eq!(born(born_on, after), "32.5", "{born_on}");
    }
}

/// Weight stands for age only in the row just below: a heavy child never skips a row.
#[test]
fn nobody_skips_a_row_by_weight() {
    assert_eq!(of(&order(), "155 lb", "11 y").mass.milligrams(), "65");
    assert_eq!(of(&order(), "149.9 lb", "16 y").mass.milligrams(), "65");
    assert_eq!(of(&order(), "68.04 kg", "16 y").mass.milligrams(), "130");
}
