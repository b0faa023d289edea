//! Refills: what is left of the course, what is left at home, and what the issuer said since.

use hearthdose_core::exchange::{HouseholdCode, Supply};
use hearthdose_core::household::Person;
use hearthdose_core::order::{CheckedOrder, Notice};
use hearthdose_core::site::{Remark, Serving};
use hearthdose_tests::people::{checked, demo_text};
use jiff::civil::date;

use crate::book::{
    Book, TEN, at, cipro, code, days_after, dose, doxy, for_lead, gave, iodide, lot, notice,
    notice_with, packs, people, pills, reasons, scanned,
};

/// Corin, an adult who swallows two tablets a day.
fn corin(order: &CheckedOrder) -> HouseholdCode {
    code(order, &people("alder-1"), at(TEN))
}

fn corin_at(day: u16, left: Option<u16>) -> HouseholdCode {
    let mut told = corin(&doxy());
    told.people[0].course_day = Some(day);
    told.people[0].left = left;
    told
}

fn served(told: &HouseholdCode, notices: &[Notice], days: i64) -> Serving {
    let order = doxy();
    scanned(&order, told).serve(&order, notices, days_after(at(TEN), days))
}

/// Packs of the one bag, or none.
fn bag(serving: &Serving) -> u32 {
    serving.bags.iter().map(|bag| bag.packs).sum()
}

#[test]
fn a_refill_stops_with_the_course() {
    // Day of the course; tablets for the days that are left, ten at most, and 4 to spare; packs of 20.
    for (day, expected, until) in [
        (1, 2, Some(12)),
        (51, 2, Some(12)),
        (52, 2, Some(11)),
        (53, 1, Some(10)),
        (55, 1, Some(8)),
        (60, 1, Some(3)),
        (61, 0, None),
        (400, 0, None),
    ] {
        let serving = served(&corin_at(day, None), &[], 0);
        assert_eq!(bag(&serving), expected, "day {day}");
        let until = until.map(|day| date(2031, 4, day));
        assert_eq!(serving.enough_until, until, "day {day}");
        let over = serving.remarks.contains(&Remark::CourseOver { person: 1 });
        assert_eq!(over, day > 60, "day {day}");
    }
}

#[test]
fn what_is_left_is_counted_in() {
    // 24 are wanted.
    for (left, expected) in [(0, 2), (3, 2), (4, 1), (23, 1), (24, 0), (900, 0)] {
        let serving = served(&corin_at(11, Some(left)), &[], 0);
        assert_eq!(bag(&serving), expected, "{left} left");
    }
    // What was called back, and what is not this product, is not there.
    let mut told = corin_at(11, Some(24));
    let supply = |product, lot: &str| {
        Some(Supply {
            product,
            lot: Some(lot.to_owned()),
        })
    };
    told.people[0].supply = supply(0, "QD3112");
    assert_eq!(bag(&served(&told, &[], 0)), 0);
    for name in ["recall-lot", "quarantine-lot"] {
        let serving = served(&told, &[notice(name)], 9);
        assert_eq!(bag(&serving), 2, "{name}");
        let lot = "QD3112".to_owned();
        assert!(serving.remarks.contains(&Remark::AtHome { lot }));
    }
    told.people[0].supply = supply(1, "QD3100");
    assert_eq!(bag(&served(&told, &[], 0)), 2);
}

#[test]
fn a_code_of_days_ago_is_moved_on() {
    // Made on day 50 with 10 left; five days later it is day 55, and those are used up: 12 and 4.
    let serving = served(&corin_at(50, Some(10)), &[], 5);
    assert_eq!(
        (bag(&serving), serving.enough_until),
        (1, Some(date(2031, 4, 13)))
    );
    // With 40 left on day 11, 30 are left five days later, which is enough.
    assert_eq!(bag(&served(&corin_at(11, Some(40)), &[], 5)), 0);
    // With 20 left, 10: fourteen more.
    assert_eq!(bag(&served(&corin_at(11, Some(20)), &[], 5)), 1);
    assert_eq!(bag(&served(&corin_at(50, None), &[], 11)), 0);
}

#[test]
fn a_home_on_paper_comes_to_the_end_of_its_course_too() {
    let order = doxy();
    let mut book = scanned(&order, &corin(&order));
    book.note(at(TEN), gave(pills("PLENTY"), 2, 20, Some("2031-04-12")));
    for (days, expected) in [(9, 2), (49, 2), (50, 2), (54, 1), (59, 1), (60, 0)] {
        let serving = book.serve(&order, &[], days_after(at(TEN), days));
        assert_eq!(bag(&serving), expected, "after {days} days");
    }
}

#[test]
fn people_at_different_days_each_get_their_own_days() {
    let order = doxy();
    let mut told = code(&order, &people("tarn-4")[..2], at(TEN));
    told.people[0].course_day = Some(58);
    told.people[1].course_day = Some(1);
    let book = scanned(&order, &told);
    let serving = book.serve(&order, &[], at(TEN));
    // Odile's three days, 6 tablets; Sunniva's ten, 20 bowls; 4 to spare.
    assert_eq!(packs(&serving), [(None, 2)]);
    assert_eq!(serving.enough_until, Some(date(2031, 4, 12)));
    told.people[1].course_day = Some(57);
    let serving = scanned(&order, &told).serve(&order, &[], at(TEN));
    // 6 and 8 and 4.
    assert_eq!(packs(&serving), [(None, 1)]);
    assert_eq!(serving.enough_until, Some(date(2031, 4, 6)));
}

#[test]
fn bottles_are_no_millilitres() {
    let order = cipro();
    let mut told = corin(&order);
    // 200 mL are wanted. One of the bottles may be open and nearly empty.
    for (left, expected) in [(0, 2), (1, 2), (2, 1), (3, 0)] {
        told.people[0].left = Some(left);
        told.people[0].course_day = Some(11);
        let book = scanned(&order, &told);
        assert_eq!(bag(&book.serve(&order, &[], at(TEN))), expected, "{left}");
    }
}

#[test]
fn other_intervals_have_their_own_rounds() {
    let every = |hours: &str, packs_of: &str| -> CheckedOrder {
        let text = demo_text("orders/quillmere-doxy-1")
            .replace("interval = \"12 h\"", &format!("interval = \"{hours}\""))
            .replace("least-gap = \"8 h\"", "least-gap = \"6 h\"")
            .replace("first-gap = \"8 h\"", "first-gap = \"6 h\"")
            .replace(
                "skip-if-next-within = \"6 h\"",
                "skip-if-next-within = \"4 h\"",
            )
            .replace("pack-size = 20", packs_of);
        checked(&text)
    };
    // Single tablets, so that each one is seen: ten days and 4 to spare.
    for (hours, expected) in [("8 h", 34), ("12 h", 24), ("24 h", 14), ("48 h", 9)] {
        let order = every(hours, "pack-size = 1");
        let book = scanned(&order, &corin(&order));
        // Spring forward, an ordinary week, fall back: always the same number.
        for day in ["2031-03-05", "2031-04-03", "2031-10-30"] {
            let now = at(&format!("{day}T10:00:00-05:00"));
            assert_eq!(
                bag(&book.serve(&order, &[], now)),
                expected,
                "{hours} {day}"
            );
        }
    }
}

#[test]
fn the_issuers_word_about_the_course_is_kept() {
    // Shortened to 30 days.
    let shorten = [notice("shorten")];
    for (day, expected) in [(25, 1), (30, 1), (31, 0)] {
        assert_eq!(
            bag(&served(&corin_at(day, None), &shorten, 18)),
            0,
            "{day} at 18 days"
        );
        assert_eq!(
            bag(&served(&corin_at(day, None), &shorten, 0)),
            expected,
            "{day}"
        );
    }
    // Stopped from the day after tomorrow: two days, 4 tablets and 4 to spare.
    let stop = notice_with(
        "stop",
        &[
            ("quillmere-iodide", "quillmere-doxy"),
            ("from = \"2031-05-12\"", "from = \"2031-04-05\""),
        ],
    );
    let serving = served(&corin_at(1, None), std::slice::from_ref(&stop), 0);
    assert_eq!(
        (bag(&serving), serving.enough_until),
        (1, Some(date(2031, 4, 4)))
    );
    assert_eq!(for_lead(&serving), [""; 0]);
    let serving = served(&corin_at(1, None), &[stop], 2);
    assert_eq!(bag(&serving), 0);
    assert_eq!(for_lead(&serving), ["order-stopped"]);
}

fn iodide_home(people: &[Person]) -> Book {
    scanned(
        &iodide(),
        &code(&iodide(), people, at("2031-05-10T10:00:00-05:00")),
    )
}

#[test]
fn iodide_goes_out_for_one_day_unless_it_was_renewed() {
    let order = iodide();
    let mut book = iodide_home(&people("tarn-4")[..1]);
    let first = "2031-05-10T10:00:00-05:00";
    let second = at("2031-05-11T10:00:00-05:00");
    assert_eq!(packs(&book.serve(&order, &[], at(first))), [(Some(1), 1)]);
    // Whoever comes a day later for the first time gets the same.
    assert_eq!(packs(&book.serve(&order, &[], second)), [(Some(1), 1)]);
    book.note(
        at(first),
        gave(lot("tablet-130", "PLENTY"), 1, 14, Some("2031-05-10")),
    );
    assert_eq!(packs(&book.serve(&order, &[], second)), []);
    let renewed = book.serve(&order, &[notice("renew")], second);
    assert_eq!(packs(&renewed), [(Some(1), 1)]);
    let stopped = [notice("renew"), notice("stop")];
    let third = at("2031-05-12T10:00:00-05:00");
    assert_eq!(packs(&book.serve(&order, &stopped, third)), []);
}

#[test]
fn a_household_that_began_its_days_without_medicine_gets_it() {
    let order = iodide();
    let mut told = code(&order, &people("tarn-4")[..1], at(TEN));
    told.people[0].course_day = Some(2);
    let book = scanned(&order, &told);
    assert_eq!(packs(&book.serve(&order, &[], at(TEN))), [(Some(1), 1)]);
    // Who had the dose already is through.
    told.people[0].last_dose = Some(at("2031-04-02T10:00:00-05:00"));
    let book = scanned(&order, &told);
    assert_eq!(packs(&book.serve(&order, &[], at(TEN))), []);
}

#[test]
fn a_newborn_gets_no_second_dose() {
    let order = iodide();
    // Three weeks old, and the order was renewed for everybody else.
    let baby = people("ferrow-9").swap_remove(8);
    let first = "2031-04-03T10:00:00-05:00";
    let mut told = code(&order, &[baby], at(first));
    let renew = notice_with("renew", &[("2031-05-11\"", "2031-04-04\"")]);
    let next = days_after(at(first), 1);
    let serving = scanned(&order, &told).serve(&order, std::slice::from_ref(&renew), next);
    assert_eq!(packs(&serving), [(Some(1), 1)]);
    told.people[0].last_dose = Some(at("2031-04-03T08:00:00-05:00"));
    told.people[0].course_day = Some(1);
    let serving = scanned(&order, &told).serve(&order, &[renew], next);
    assert_eq!(reasons(&serving, 1), [""; 0]);
    assert_eq!(dose(&serving, 1), "1 teaspoon (5 mL)");
    assert_eq!(packs(&serving), []);
}

#[test]
fn on_the_long_night_of_autumn_one_dose_stays_one() {
    let text = demo_text("orders/quillmere-iodide-1").replace("pack-size = 14", "pack-size = 1");
    let order = checked(&text);
    let now = "2031-11-01T10:00:00-05:00";
    let book = scanned(&order, &code(&order, &people("tarn-4")[..1], at(now)));
    assert_eq!(packs(&book.serve(&order, &[], at(now))), [(Some(1), 1)]);
}
