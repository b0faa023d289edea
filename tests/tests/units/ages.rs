//! Ages by the calendar: a month is reached on its date, not after so many days.

use std::cmp::Ordering;

use hearthdose_core::units::{Age, AgeSpan};
use hearthdose_tests::oracle::{Length, surely};
use jiff::civil::{Date, date};

use super::age;

fn born(born: Date, on: Date) -> Age {
    Age::Born { born, on }
}

#[test]
fn somebody_reaches_an_age_on_the_date() {
    for (born_on, limit, before, reached) in [
        (date(2031, 3, 5), "1 mo", date(2031, 4, 4), date(2031, 4, 5)),
        (date(2031, 2, 5), "1 mo", date(2031, 3, 4), date(2031, 3, 5)),
        // February has no 31st: its last day counts.
        (
            date(2031, 1, 31),
            "1 mo",
            date(2031, 2, 27),
            date(2031, 2, 28),
        ),
        (
            date(2032, 1, 31),
            "1 mo",
            date(2032, 2, 28),
            date(2032, 2, 29),
        ),
        (
            date(2028, 2, 29),
            "3 y",
            date(2031, 2, 27),
            date(2031, 2, 28),
        ),
        (
            date(2028, 2, 29),
            "4 y",
            date(2032, 2, 28),
            date(2032, 2, 29),
        ),
        (
            date(2013, 12, 31),
            "18 y",
            date(2031, 12, 30),
            date(2031, 12, 31),
        ),
        (date(2031, 2, 5), "28 d", date(2031, 3, 4), date(2031, 3, 5)),
        (date(2031, 3, 5), "28 d", date(2031, 4, 1), date(2031, 4, 2)),
    ] {
        let limit = age(limit);
        assert_eq!(
            born(born_on, before).compare(limit),
            Ordering::Less,
            "{born_on}"
        );
        assert_eq!(
            born(born_on, reached).compare(limit),
            Ordering::Equal,
            "{born_on}"
        );
        let after = reached.tomorrow().unwrap();
        assert_eq!(
            born(born_on, after).compare(limit),
            Ordering::Greater,
            "{born_on}"
        );
    }
}

/// Told in days and held against months, somebody counts as older only where every calendar agrees:
/// the younger reading is the smaller dose and the earlier hold.
#[test]
fn told_lengths_err_towards_the_younger_side() {
    for (told, limit, expected) in [
        ("20 d", "1 mo", Ordering::Less),
        ("28 d", "1 mo", Ordering::Less),
        ("30 d", "1 mo", Ordering::Less),
        ("31 d", "1 mo", Ordering::Equal),
        ("32 d", "1 mo", Ordering::Greater),
        ("6 wk", "1 mo", Ordering::Greater),
        ("12 wk", "3 mo", Ordering::Less),
        ("92 d", "3 mo", Ordering::Equal),
        ("1 mo", "28 d", Ordering::Equal),
        ("1 mo", "29 d", Ordering::Less),
        ("36 mo", "3 y", Ordering::Equal),
        ("3 y", "3 y", Ordering::Equal),
        ("3 y 1 d", "3 y", Ordering::Greater),
        ("2 y 11 mo 30 d", "3 y", Ordering::Less),
        ("365 d", "1 y", Ordering::Less),
        ("366 d", "1 y", Ordering::Equal),
        ("1 y", "365 d", Ordering::Equal),
        ("1 y", "366 d", Ordering::Less),
    ] {
        assert_eq!(
            Age::Told(age(told)).compare(age(limit)),
            expected,
            "{told} {limit}"
        );
    }
    assert_eq!(Age::Adult.compare(age("18 y")), Ordering::Greater);
    assert!(!Age::Adult.reached(age("21 y")));
}

/// Days against months and months against days, held against a calendar that tries every birthday.
/// Up to two years both agree to the day; further on the program is a day or so more careful for each year.
#[test]
fn days_and_months_agree_with_the_calendar() {
    for months in 0..24 {
        for days in (28 * months - 5).max(0)..=31 * months + 5 {
            let (in_months, in_days) = (Length { months, days: 0 }, Length { months: 0, days });
            for (told, limit) in [(in_days, in_months), (in_months, in_days)] {
                let found = Age::Told(span(told)).compare(span(limit));
                assert_eq!(found, surely(told, limit), "{told:?} {limit:?}");
            }
        }
    }
}

fn span(length: Length) -> AgeSpan {
    let part = |value: i64| u32::try_from(value).expect("a positive number");
    AgeSpan {
        months: part(length.months),
        days: part(length.days),
    }
}

/// Practice D14: ages in days below 90 days are counted, not taken from months.
#[test]
fn days_of_age() {
    let on = date(2031, 4, 3);
    assert_eq!(born(date(2031, 3, 14), on).days(), Some(20));
    assert_eq!(born(on, on).days(), Some(0));
    assert_eq!(born(date(2031, 4, 4), on).days(), None);
    assert!(born(date(2031, 4, 4), on).is_unborn());
    assert!(!born(on, on).is_unborn());
    assert_eq!(Age::Told(age("6 wk")).days(), Some(42));
    assert_eq!(Age::Told(age("2 mo")).days(), None);
}

#[test]
fn ages_read_as_orders_write_them() {
    for (typed, shown) in [
        ("3 y 2 mo", "3 y 2 mo"),
        ("38 mo", "3 y 2 mo"),
        ("6 wk", "42 d"),
        ("2 years 1 month 3 days", "2 y 1 mo 3 d"),
        ("0 d", "0 d"),
    ] {
        assert_eq!(age(typed).to_string(), shown, "{typed}");
        assert_eq!(age(shown), age(typed));
    }
}
