//! What a helper may not decide: each case goes to the lead, with its reason, and nothing goes out without one.

use hearthdose_core::exchange::HouseholdCode;
use hearthdose_core::order::Notice;
use hearthdose_core::site::{Desk, ForLead, hand_out, serve};
use jiff::civil::date;

use crate::book::{
    Book, TEN, at, code, days_after, doxy, for_lead, gave, notice, notice_with, packs, people,
    pills, scanned, seen, seen_by, taken_away,
};

fn tarn() -> HouseholdCode {
    code(&doxy(), &people("tarn-4"), at(TEN))
}

fn found(book: &Book, notices: &[Notice], days: i64) -> Vec<&'static str> {
    for_lead(&book.serve(&doxy(), notices, days_after(at(TEN), days)))
}

#[test]
fn a_second_pick_up_before_the_last_three_days() {
    let mut book = scanned(&doxy(), &tarn());
    let out = book.note(at(TEN), gave(pills("PLENTY"), 4, 20, Some("2031-04-12")));
    // Enough until the 12th, so that from the 9th on more is a refill.
    for (days, expected) in [
        (0, true),
        (1, true),
        (5, true),
        (6, false),
        (9, false),
        (20, false),
    ] {
        let found = found(&book, &[], days);
        assert_eq!(
            found.contains(&"served-before"),
            expected,
            "after {days} days"
        );
    }
    let served = &book.serve(&doxy(), &[], days_after(at(TEN), 1)).for_lead[0];
    let until = Some(date(2031, 4, 12));
    assert_eq!(*served, ForLead::ServedBefore { at: at(TEN), until });
    // The lead may give again, so the bag is there.
    assert_eq!(
        packs(&book.serve(&doxy(), &[], days_after(at(TEN), 1))),
        [(None, 4)]
    );
    book.note_event(at(TEN), taken_away(out));
    assert_eq!(found(&book, &[], 1), [""; 0]);
}

#[test]
fn of_several_hand_outs_the_one_that_lasts_longest_counts() {
    let mut book = scanned(&doxy(), &tarn());
    book.note(at(TEN), gave(pills("PLENTY"), 4, 20, Some("2031-04-12")));
    book.note(
        days_after(at(TEN), 1),
        gave(pills("PLENTY"), 1, 20, Some("2031-04-05")),
    );
    assert_eq!(found(&book, &[], 3), ["served-before"]);
    assert_eq!(found(&book, &[], 6), [""; 0]);
    // For how long the last one is enough is not known.
    book.note(days_after(at(TEN), 2), gave(pills("PLENTY"), 1, 20, None));
    assert_eq!(found(&book, &[], 6), ["served-before"]);
}

#[test]
fn two_tablets_that_served_one_home_are_both_seen() {
    let mut one = scanned(&doxy(), &tarn());
    let mut two = Book::new(2);
    two.note(at(TEN), seen(&tarn()));
    one.note(at(TEN), gave(pills("PLENTY"), 4, 20, Some("2031-04-12")));
    two.note(at(TEN), gave(pills("PLENTY"), 4, 20, Some("2031-04-12")));
    one.merge(&two.facts);
    let home = one.home().unwrap();
    let mut devices: Vec<_> = home.handed_out.iter().map(|out| out.device).collect();
    devices.sort_unstable();
    assert_eq!(devices, [one.device, two.device]);
    assert!(!home.conflicting);
}

#[test]
fn whoever_was_held_comes_back_alone() {
    let order = crate::book::iodide();
    let all = people("tarn-4");
    let mut told = code(&order, &all, at(TEN));
    told.people[1].screened = false;
    let mut book = scanned(&order, &told);
    let serving = book.serve(&order, &[], at(TEN));
    assert_eq!(packs(&serving), [(Some(1), 1), (Some(3), 1), (Some(4), 1)]);
    for event in hand_out(&book.home().unwrap(), &serving, book.coming(), None).unwrap() {
        book.note(at(TEN), event);
    }
    told.issue = 2;
    told.people[1].screened = true;
    book.note(at(TEN), seen(&told));
    let serving = book.serve(&order, &[], at(TEN));
    assert_eq!(packs(&serving), [(Some(2), 1)]);
}

#[test]
fn codes_that_contradict_each_other() {
    let order = doxy();
    let mut other = tarn();
    other.people[0].left = Some(3);
    let mut book = scanned(&order, &tarn());
    book.note(at(TEN), seen(&tarn()));
    assert_eq!(found(&book, &[], 0), [""; 0]);
    let mut newer = tarn();
    newer.issue = 2;
    book.note(at(TEN), seen(&newer));
    assert_eq!(found(&book, &[], 0), [""; 0]);
    book.note(at(TEN), seen(&other));
    assert_eq!(found(&book, &[], 0), ["code-conflicting"]);
    let mut book = scanned(&order, &tarn());
    book.note(at(TEN), seen_by(&newer, 9));
    assert_eq!(found(&book, &[], 0), ["code-conflicting"]);
    // A higher number retires the lower, whenever it was read.
    let mut book = scanned(&order, &newer);
    book.note(at(TEN), seen(&tarn()));
    assert_eq!(book.home().unwrap().code().unwrap().issue, 2);
}

#[test]
fn what_is_no_code_of_this_home_is_no_code() {
    let mut book = Book::new(1);
    let mut foreign = tarn();
    foreign.household.0 = [9; 8];
    let mut events = vec![seen(&foreign), seen(&tarn()), seen(&tarn())];
    for event in &mut events {
        let hearthdose_core::record::SiteEvent::HomeSeen { home, .. } = event else {
            panic!("{event:?}");
        };
        *home = crate::book::HOME;
    }
    for (event, text) in events.iter_mut().skip(1).zip(["", "HD1NONSENSE"]) {
        let hearthdose_core::record::SiteEvent::HomeSeen { code, .. } = event else {
            panic!("{event:?}");
        };
        *code = text.to_owned();
    }
    for event in events {
        book.note(at(TEN), event);
    }
    let home = book.home().unwrap();
    assert!(home.code().is_none() && !home.conflicting);
    let stock = book.stock();
    let desk = Desk {
        order: &doxy(),
        notices: &[],
        stock: &stock,
        now: at(TEN),
        same_people: &[],
    };
    assert_eq!(serve(&desk, &home), None);
}

#[test]
fn a_stop_and_rules_about_fetching() {
    let order = doxy();
    let book = scanned(&order, &tarn());
    // From 9 to 13 April, up to 12 people.
    let collection = [notice("collection")];
    for (days, expected) in [(5, vec!["collection-not-today"]), (6, vec![]), (10, vec![])] {
        assert_eq!(
            found(&book, &collection, days),
            expected,
            "after {days} days"
        );
    }
    assert_eq!(found(&book, &collection, 11), ["collection-not-today"]);
    let few = [notice_with(
        "collection",
        &[("most-people = 12", "most-people = 3")],
    )];
    assert_eq!(found(&book, &few, 6), ["too-many-people"]);
    let just = [notice_with(
        "collection",
        &[("most-people = 12", "most-people = 4")],
    )];
    assert_eq!(found(&book, &just, 6), [""; 0]);
    let stop = notice_with(
        "stop",
        &[
            ("quillmere-iodide", "quillmere-doxy"),
            ("from = \"2031-05-12\"\n", ""),
        ],
    );
    let serving = book.serve(&order, &[stop], at(TEN));
    assert_eq!(for_lead(&serving), ["order-stopped"]);
    assert_eq!(packs(&serving), []);
}

#[test]
fn nobody_grown_up() {
    let order = doxy();
    let days_only = notice_with("collection", &[("youngest-collector = \"16 y\"\n", "")]);
    for notices in [vec![], vec![notice("collection")], vec![days_only]] {
        let mut told = tarn();
        for (adult, expected) in [
            (Some(false), vec!["collector-not-adult"]),
            (Some(true), vec![]),
            (None, vec![]),
        ] {
            told.adult_collects = adult;
            let book = scanned(&order, &told);
            assert_eq!(found(&book, &notices, 6), expected, "{adult:?}");
        }
    }
}

#[test]
fn nothing_goes_out_past_the_lead_without_a_reason() {
    let order = doxy();
    let mut told = tarn();
    told.adult_collects = Some(false);
    let book = scanned(&order, &told);
    let serving = book.serve(&order, &[], at(TEN));
    let home = book.home().unwrap();
    for lead in [None, Some(""), Some("  ")] {
        let lead = lead.map(str::to_owned);
        assert_eq!(hand_out(&home, &serving, book.coming(), lead), None);
    }
    let reason = Some("her neighbour came along".to_owned());
    assert!(hand_out(&home, &serving, book.coming(), reason).is_some());
}

#[test]
fn what_is_short_is_told_and_is_enough_for_no_known_day() {
    let order = doxy();
    let mut book = Book::new(1);
    book.note(
        at(TEN),
        crate::book::received(pills("A"), "2032-01-31", 3, 20),
    );
    book.note(at(TEN), seen(&tarn()));
    let serving = book.serve(&order, &[], at(TEN));
    let product = "tablet-100".to_owned();
    assert_eq!(serving.for_lead, [ForLead::Short { product, packs: 1 }]);
    let reason = Some("the rest tomorrow".to_owned());
    for event in hand_out(&book.home().unwrap(), &serving, book.coming(), reason).unwrap() {
        book.note(at(TEN), event);
    }
    assert_eq!(book.home().unwrap().handed_out[0].enough_until, None);
}
