//! Newborns, babies born early, and ages by the date.

use hearthdose_core::dose;
use hearthdose_core::household::{Answer, KnownAge, Person};
use hearthdose_core::screening::ReasonKind;
use hearthdose_tests::people::{DAY, someone, weighing};
use jiff::civil::{Date, date};

use super::{doxycycline, give, iodide, refusals, somebody};

/// A baby of 9 lb born on this day, screened in every way.
fn baby(born: Date) -> Person {
    let mut person = someone();
    person.age = Some(KnownAge::Born(born));
    person.weighing = Some(weighing("9 lb"));
    person.born_early = Some(Answer::No);
    person
}

/// Check C2: the chart would have a normal row for 9 lb.
#[test]
fn d02_a_newborn_is_held_even_when_cleared() {
    let order = doxycycline();
    // Twenty days old on the day of the dose.
    let newborn = baby(date(2031, 3, 14));
    assert_eq!(refusals(&order, &newborn), ["below-youngest"]);
    let reasons = dose::work_out(&order, &newborn, DAY).expect_err("a hold");
    assert_eq!(reasons[0].kind, ReasonKind::Hold);
    assert!(
        reasons[0].text.contains("younger than 1 mo")
            && reasons[0].text.contains("ask a nurse first")
    );
    assert_eq!(
        refusals(&order, &somebody("9 lb", "20 d")),
        ["below-youngest"]
    );
    // Nothing that can be lifted lifts it.
    let mut lifted = newborn.clone();
    lifted.lifted = ["below-youngest", "youngest", "born-early", "screening"]
        .map(str::to_owned)
        .into();
    assert_eq!(refusals(&order, &lifted), ["below-youngest"]);
    // It ends on the date on which the month is full.
    assert!(dose::work_out(&order, &newborn, date(2031, 4, 13)).is_err());
    let first = dose::work_out(&order, &newborn, date(2031, 4, 14)).expect("a dose");
    assert_eq!(first.text, "½ teaspoon (2.5 mL)");
}

/// Tables for babies born early reach to 44 weeks after the last period: a six-week-old born eight weeks early is still in them.
#[test]
fn d02_babies_born_early_are_held_until_three_months() {
    let order = doxycycline();
    // Forty days old.
    let mut forty_days = baby(date(2031, 2, 22));
    assert_eq!(give(&order, &forty_days).text, "½ teaspoon (2.5 mL)");
    for answer in [Answer::Yes, Answer::Unsure] {
        forty_days.born_early = Some(answer);
        assert_eq!(refusals(&order, &forty_days), ["born-early"], "{answer:?}");
    }
    // A nurse may lift this one.
    forty_days.lifted.insert("born-early".to_owned());
    assert_eq!(give(&order, &forty_days).text, "½ teaspoon (2.5 mL)");
    // Three months old to the day.
    let mut three_months = baby(date(2031, 1, 3));
    three_months.born_early = Some(Answer::Yes);
    assert!(dose::work_out(&order, &three_months, DAY).is_ok());
    assert!(dose::work_out(&order, &three_months, date(2031, 4, 2)).is_err());
}

/// Nobody asked whether a baby came early: the screening is not complete, unless it was passed elsewhere.
#[test]
fn d02_the_question_about_birth_is_never_skipped() {
    let order = doxycycline();
    let mut unasked = baby(date(2031, 2, 22));
    unasked.born_early = None;
    assert!(dose::work_out(&order, &unasked, DAY).is_ok());
    unasked.cleared = false;
    unasked.answers = order
        .questions
        .iter()
        .map(|q| (q.key.clone(), Answer::No))
        .collect();
    assert_eq!(refusals(&order, &unasked), ["screening-not-done"]);
    let reasons = dose::work_out(&order, &unasked, DAY).expect_err("a question");
    assert!(
        reasons[0].text.contains("born-early"),
        "{}",
        reasons[0].text
    );
    // Nobody older is asked.
    unasked.age = Some(KnownAge::Born(date(2031, 1, 3)));
    assert!(dose::work_out(&order, &unasked, DAY).is_ok());
}

/// One dose for newborns, in pregnancy and while breastfeeding (FDA, AAP); a week of keeping is no invitation to seven doses.
#[test]
fn d13_iodide_is_given_once_where_once_is_the_limit() {
    let order = iodide();
    assert_eq!(order.medicine.course_days, 1);
    let with = |key: &str, answer: Answer| {
        let mut person = somebody("", "30 y");
        person.answers.insert(key.to_owned(), answer);
        person
    };
    let most = |person: &Person| dose::most_doses(&order, person, DAY);
    let newborn = |born| Person {
        age: Some(KnownAge::Born(born)),
        ..someone()
    };
    // A month old to the day is still "up to 1 month"; a day older is not.
    assert_eq!(most(&newborn(date(2031, 3, 20))), Some(1));
    assert_eq!(most(&newborn(date(2031, 3, 3))), Some(1));
    assert_eq!(most(&newborn(date(2031, 3, 2))), None);
    for key in ["pregnant", "breastfeeding"] {
        assert_eq!(most(&with(key, Answer::Yes)), Some(1), "{key}");
        assert_eq!(most(&with(key, Answer::Unsure)), Some(1), "{key}");
        assert_eq!(most(&with(key, Answer::No)), None, "{key}");
    }
    assert_eq!(most(&somebody("60 lb", "9 y")), None);
    // Over 40 only if the order says so; this one asks first.
    assert_eq!(
        refusals(&order, &with("over-forty", Answer::Yes)),
        ["screening-hold"]
    );
}

/// Whole months would put a child of 3 years and some days, or of 28 to 31 days, into the wrong row, worth a factor of two.
#[test]
fn d14_ages_are_counted_by_dates() {
    let order = iodide();
    let on = |born: Date, day: Date| {
        let person = Person {
            age: Some(KnownAge::Born(born)),
            ..someone()
        };
        dose::work_out(&order, &person, day)
            .expect("a dose")
            .mass
            .milligrams()
    };
    // 28 days are a month only for somebody born in February.
    assert_eq!(on(date(2031, 2, 5), date(2031, 3, 6)), "32.5");
    assert_eq!(on(date(2031, 3, 5), date(2031, 4, 3)), "16.25");
    // Born on a leap day, three years are full on 28 February.
    assert_eq!(on(date(2028, 2, 29), date(2031, 2, 28)), "32.5");
    assert_eq!(on(date(2028, 2, 29), date(2031, 3, 1)), "65");
    assert_eq!(on(date(2027, 10, 3), date(2031, 4, 3)), "65");
    // A date after the dose is a slip of the pen, not an age.
    let unborn = Person {
        age: Some(KnownAge::Born(date(2031, 4, 4))),
        ..someone()
    };
    assert_eq!(refusals(&order, &unborn), ["born-after-dose"]);
}

/// Check C10, the dose's part: an infant who has grown past 12 lb takes the next row from the next round on.
#[test]
fn d25_a_new_weight_moves_the_row() {
    let order = doxycycline();
    let mut infant = baby(date(2030, 12, 1));
    infant.weighing = Some(weighing("11 lb 8 oz"));
    assert_eq!(give(&order, &infant).row_text, "up to 12 lb");
    infant.weighing = Some(weighing("12 lb 9 oz"));
    let grown = dose::work_out(&order, &infant, date(2031, 4, 25)).expect("a dose");
    assert_eq!(
        (grown.row_text.as_str(), grown.text.as_str()),
        ("13 lb to 25 lb", "1 teaspoon (5 mL)")
    );
}
