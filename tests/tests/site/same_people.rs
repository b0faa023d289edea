//! The same people under another id: found in codes made weeks apart, and no alarm for people of whom little is known.

use hearthdose_core::exchange::{CodedAge, HouseholdCode, HouseholdId};
use hearthdose_core::household::KnownAge;
use hearthdose_core::site::{Desk, ForLead, PeopleMark, serve};
use hearthdose_tests::people::{Dice, someone, told, weighing, weighing_and_aged};
use jiff::civil::Date;

use crate::book::{TEN, at, code, days_after, doxy, people, scanned};

fn mark(code: &HouseholdCode) -> Option<PeopleMark> {
    PeopleMark::of(code)
}

#[test]
fn a_second_telephone_with_the_same_people() {
    let order = doxy();
    for name in ["tarn-4", "ferrow-9"] {
        let mut all = people(name);
        let first = mark(&code(&order, &all, at(TEN))).unwrap();
        all.reverse();
        for days in [0, 3, 20, 45, 200] {
            let later = mark(&code(&order, &all, days_after(at(TEN), days))).unwrap();
            assert!(
                first.matches(&later) && later.matches(&first),
                "{name} {days}"
            );
            assert_eq!(first.shelf(), later.shelf());
        }
        all[0].weighing = Some(weighing("37 lb"));
        let other = mark(&code(&order, &all, at(TEN))).unwrap();
        assert!(!first.matches(&other), "{name}");
        all.pop();
        let fewer = mark(&code(&order, &all, at(TEN))).unwrap();
        assert!(!first.matches(&fewer) && !other.matches(&fewer));
    }
}

#[test]
fn people_of_whom_little_is_known_match_nobody() {
    let order = doxy();
    let adult = |weight: &str| weighing_and_aged(weight, "adult");
    for home in [
        vec![adult("")],
        vec![adult("176 lb")],
        vec![adult(""), adult("")],
        vec![adult("150 lb"), adult("")],
        vec![someone()],
    ] {
        assert_eq!(mark(&code(&order, &home, at(TEN))), None);
    }
    assert!(mark(&code(&order, &[adult("150 lb"), adult("176 lb")], at(TEN))).is_some());
}

#[test]
fn a_match_goes_to_the_lead() {
    let order = doxy();
    let book = scanned(&order, &code(&order, &people("tarn-4"), at(TEN)));
    let stock = book.stock();
    let other = (HouseholdId([9; 8]), at("2031-04-02T15:00:00-05:00"));
    let desk = Desk {
        order: &order,
        notices: &[],
        stock: &stock,
        now: at(TEN),
        same_people: &[other],
    };
    let serving = serve(&desk, &book.home().unwrap()).unwrap();
    let (home, at) = other;
    assert_eq!(serving.for_lead, [ForLead::SamePeople { home, at }]);
}

/// Born on any day, coded on any two days: always the same child.
#[test]
fn every_child_is_found_again() {
    let order = doxy();
    let mut dice = Dice::new(31);
    for case in 0..4_000 {
        let days = |dice: &mut Dice, most| jiff::Span::new().days(dice.below(most));
        let made = at(TEN);
        let born: Date = "2031-04-03".parse::<Date>().unwrap() - days(&mut dice, 700);
        let child = weighing_and_aged("20 lb", &born.to_string());
        let first = code(&order, std::slice::from_ref(&child), made);
        let second = code(&order, &[child], days_after(made, dice.below(60)));
        let (one, two) = (mark(&first).unwrap(), mark(&second).unwrap());
        assert!(
            one.matches(&two) && two.matches(&one),
            "case {case}: {born}"
        );
    }
}

/// Against every way to put the people of one home beside those of another.
#[test]
fn matching_is_by_the_best_way_to_pair_them() {
    let order = doxy();
    let mut dice = Dice::new(7);
    let mut both = [0, 0];
    for case in 0..6_000 {
        let home = |dice: &mut Dice| -> Vec<i64> {
            let mut months: Vec<i64> = (0..4).map(|_| dice.between(20, 26)).collect();
            months.sort_unstable();
            months
        };
        let (a, b) = (home(&mut dice), home(&mut dice));
        let coded = |months: &[i64]| {
            let people: Vec<_> = months
                .iter()
                .map(|months| {
                    let mut person = weighing_and_aged("20 lb", "2 y");
                    person.age = Some(told(&format!("{months} mo")));
                    person
                })
                .collect();
            mark(&code(&order, &people, at(TEN))).unwrap()
        };
        let expected = pairs(&a, &b);
        both[usize::from(expected)] += 1;
        assert_eq!(
            coded(&a).matches(&coded(&b)),
            expected,
            "case {case}: {a:?} {b:?}"
        );
    }
    assert!(both.iter().all(|count| *count > 100), "{both:?}");
}

fn pairs(a: &[i64], b: &[i64]) -> bool {
    let Some((first, rest)) = a.split_first() else {
        return true;
    };
    b.iter().enumerate().any(|(at, other)| {
        let mut left = b.to_vec();
        left.remove(at);
        (first - other).abs() <= 1 && pairs(rest, &left)
    })
}

#[test]
fn an_age_in_days_and_in_months_tell_the_same_month() {
    let order = doxy();
    let mut young = people("ferrow-9").swap_remove(8);
    young.age = Some(KnownAge::Born("2031-01-31".parse().unwrap()));
    let made = |day: &str| {
        code(
            &order,
            std::slice::from_ref(&young),
            at(&format!("{day}T10:00:00-05:00")),
        )
    };
    let first = made("2031-01-31");
    assert_eq!(first.people[0].age, Some(CodedAge::Days(0)));
    for day in ["2031-03-01", "2031-04-30", "2031-05-01", "2031-07-31"] {
        assert!(
            mark(&first).unwrap().matches(&mark(&made(day)).unwrap()),
            "{day}"
        );
    }
}
