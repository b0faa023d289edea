//! Which lot goes out, and which never: dates, notices, counts, and sums that survive undoing.

use hearthdose_core::record::{LotName, SiteEvent};
use hearthdose_core::site::{Need, Pick, Stock, Wanted, Why, hand_out, pick, take_back};
use hearthdose_core::today::LotStanding;
use jiff::civil::{Date, date};

use crate::book::{
    Book, TEN, at, code, days_after, doxy, for_lead, notice, packs, people, pills, received,
    scanned, seen, taken_away,
};

const TODAY: Date = date(2031, 4, 3);

fn shelves(lots: &[(&str, &str, u32)]) -> Stock {
    let mut book = Book::new(1);
    for (name, expiry, packs) in lots {
        book.note(at(TEN), received(pills(name), expiry, *packs, 20));
    }
    book.stock()
}

fn need(packs: u32) -> Need {
    Need {
        units: u64::from(packs) * 20,
        at_least: 0,
    }
}

fn wanted(last_day: Date) -> Wanted<'static> {
    Wanted {
        product: "tablet-100",
        each: 20,
        today: TODAY,
        last_day,
    }
}

/// One bag of so many packs, to last until 12 April.
fn one(stock: &Stock, packs: u32) -> Pick {
    let wanted = wanted(date(2031, 4, 12));
    let picks = pick(stock, &wanted, &[need(packs)], |_| LotStanding::AsPrinted);
    picks.into_iter().next().unwrap()
}

fn takes(pick: &Pick) -> Vec<(&str, u32)> {
    let takes = pick.takes.iter();
    takes
        .map(|take| (take.lot.lot.as_str(), take.packs))
        .collect()
}

fn over(pick: &Pick) -> Vec<(&str, Why)> {
    let over = pick.passed_over.iter();
    over.map(|over| (over.lot.lot.as_str(), over.why)).collect()
}

#[test]
fn the_first_to_expire_that_covers_it() {
    let stock = shelves(&[
        ("A", "2031-06-30", 1),
        ("B", "2031-09-30", 5),
        ("C", "2032-01-31", 9),
    ]);
    assert_eq!(takes(&one(&stock, 1)), [("A", 1)]);
    // One lot, although A expires sooner.
    assert_eq!(takes(&one(&stock, 3)), [("B", 3)]);
    assert_eq!(takes(&one(&stock, 6)), [("C", 6)]);
    // No lot has so many: then the first to expire in front.
    let pick = one(&stock, 12);
    assert_eq!(takes(&pick), [("A", 1), ("B", 5), ("C", 6)]);
    assert_eq!((pick.short, pick.packs()), (0, 12));
    assert_eq!(pick.good_until, Some(date(2031, 6, 30)));
    let pick = one(&stock, 20);
    assert_eq!((pick.short, pick.packs()), (5, 20));
    assert_eq!(one(&stock, 0), Pick::default());
}

#[test]
fn the_printed_day_is_still_good() {
    for (expiry, expected) in [("2031-04-03", 1), ("2031-04-02", 0), ("2031-04-04", 1)] {
        let stock = shelves(&[("A", expiry, 4)]);
        let wanted = wanted(TODAY);
        let pick = &pick(&stock, &wanted, &[need(1)], |_| LotStanding::AsPrinted)[0];
        assert_eq!(takes(pick).len(), expected, "{expiry}");
        assert_eq!(pick.short, 1 - u32::try_from(expected).unwrap());
        if expected == 0 {
            let on = expiry.parse().unwrap();
            assert_eq!(over(pick), [("A", Why::Expired { on })]);
        }
    }
}

#[test]
fn what_expires_before_the_last_day_comes_last_and_goes_to_the_lead() {
    let stock = shelves(&[
        ("A", "2031-04-11", 9),
        ("B", "2031-04-12", 1),
        ("C", "2031-04-05", 9),
    ]);
    let pick = one(&stock, 1);
    assert_eq!(
        (takes(&pick), pick.expires_in_course),
        (vec![("B", 1)], false)
    );
    let pick = one(&stock, 3);
    assert_eq!(takes(&pick), [("B", 1), ("A", 2)]);
    assert!(pick.expires_in_course);
    let order = doxy();
    let mut book = Book::new(1);
    book.note(at(TEN), received(pills("C"), "2031-04-05", 9, 20));
    book.note(at(TEN), seen(&code(&order, &people("alder-1"), at(TEN))));
    let serving = book.serve(&order, &[], at(TEN));
    assert_eq!(for_lead(&serving), ["expires-in-course"]);
    // If the lead lets it pass, it is enough for as long as it may be used.
    assert_eq!(serving.enough_until, Some(date(2031, 4, 5)));
}

#[test]
fn the_issuers_word_about_a_lot() {
    let order = doxy();
    let book = |lot: &str, expiry: &str| {
        let mut book = Book::new(1);
        book.note(at(TEN), received(pills(lot), expiry, 9, 20));
        book.note(at(TEN), seen(&code(&order, &people("alder-1"), at(TEN))));
        book
    };
    let now = days_after(at(TEN), 10);
    // Printed for January, extended to the end of the year; in whatever case it was typed.
    for name in ["QD3107", "qd3107"] {
        let book = book(name, "2031-01-31");
        assert_eq!(for_lead(&book.serve(&order, &[], now)), ["stock-short"]);
        let serving = book.serve(&order, &[notice("extend-lot")], now);
        assert_eq!(
            (for_lead(&serving), packs(&serving)),
            (vec![], vec![(None, 2)])
        );
    }
    for (name, why) in [
        ("recall-lot", Why::Recalled),
        ("quarantine-lot", Why::SetAside),
    ] {
        let book = book("QD3112", "2035-01-31");
        let serving = book.serve(&order, &[notice(name)], now);
        assert_eq!(for_lead(&serving), ["stock-short"]);
        assert_eq!(over(&serving.bags[0].pick), [("QD3112", why)]);
        assert!(serving.bags[0].pick.takes.is_empty());
        assert_eq!(serving.enough_until, None);
    }
}

#[test]
fn a_lot_that_was_never_received_has_no_expiry() {
    let mut book = Book::new(1);
    let counted = SiteEvent::LotCounted {
        lot: pills("A"),
        counted: 5,
        difference: 5,
        reason: "found in the store room".to_owned(),
    };
    book.note(at(TEN), counted);
    let pick = one(&book.stock(), 1);
    assert_eq!((over(&pick), pick.short), (vec![("A", Why::Unknown)], 1));
}

#[test]
fn a_count_below_zero_is_seen_and_gives_nothing() {
    let mut book = Book::new(1);
    book.note(at(TEN), received(pills("A"), "2032-01-31", 2, 20));
    let out = SiteEvent::LotOut {
        lot: pills("A"),
        packs: 5,
        hand_out: book.coming(),
    };
    book.note(at(TEN), out);
    let stock = book.stock();
    assert_eq!(stock.lot(&pills("A")).unwrap().packs(), -3);
    assert_eq!(stock.packs_of("tablet-100"), 0);
    assert_eq!(over(&one(&stock, 1)), [("A", Why::Empty)]);
    let counted = SiteEvent::LotCounted {
        lot: pills("A"),
        counted: 1,
        difference: 4,
        reason: "counted at noon".to_owned(),
    };
    book.note(at(TEN), counted);
    assert_eq!(takes(&one(&book.stock(), 1)), [("A", 1)]);
}

#[test]
fn packs_of_another_size_are_counted_in_tablets() {
    let order = doxy();
    // Corin needs 24 tablets: three packs of 10, one of 30.
    for (each, expected) in [(10, 3), (30, 1), (24, 1), (23, 2)] {
        let mut book = Book::new(1);
        book.note(at(TEN), received(pills("A"), "2032-01-31", 9, each));
        book.note(at(TEN), seen(&code(&order, &people("alder-1"), at(TEN))));
        let serving = book.serve(&order, &[], at(TEN));
        assert_eq!(packs(&serving), [(None, expected)], "of {each}");
        let events = hand_out(&book.home().unwrap(), &serving, book.coming(), None).unwrap();
        let SiteEvent::HandedOut { lines, .. } = &events[0] else {
            panic!("{events:?}");
        };
        assert_eq!((lines[0].packs, lines[0].each), (expected, each));
    }
}

#[test]
fn entries_that_do_not_agree_count_by_the_more_careful() {
    let stock = shelves(&[
        ("A", "2031-06-30", 1),
        ("A", "2031-04-02", 1),
        ("B", "2031-06-30", 1),
    ]);
    assert!(stock.lot(&pills("A")).unwrap().unlike);
    assert!(!stock.lot(&pills("B")).unwrap().unlike);
    assert_eq!(takes(&one(&stock, 1)), [("B", 1)]);
}

fn left(book: &Book, lot: &LotName) -> i64 {
    book.stock().lot(lot).unwrap().packs()
}

#[test]
fn a_hand_out_and_its_undoing_leave_the_shelf_as_it_was() {
    let order = crate::book::iodide();
    // Four bags out of one lot.
    let mut book = scanned(&order, &code(&order, &people("tarn-4"), at(TEN)));
    let plenty = crate::book::lot("tablet-130", "PLENTY");
    let serving = book.serve(&order, &[], at(TEN));
    let events = hand_out(&book.home().unwrap(), &serving, book.coming(), None).unwrap();
    let first = book.coming();
    for event in events {
        book.note(at(TEN), event);
    }
    assert_eq!(left(&book, &plenty), 996);
    let out = book.home().unwrap().handed_out[0].clone();
    assert_eq!(out.fact, first);
    // Two devices undo the same.
    let mut other = Book::new(2);
    other.merge(&book.facts);
    for book in [&mut book, &mut other] {
        for event in take_back(&out) {
            book.note(at(TEN), event);
        }
        book.note_event(at(TEN), taken_away(out.fact));
        assert_eq!(left(book, &plenty), 1_000);
    }
    book.merge(&other.facts);
    other.merge(&book.facts);
    for book in [&book, &other] {
        assert_eq!(left(book, &plenty), 1_000);
        assert!(book.home().unwrap().handed_out.is_empty());
    }
}

#[test]
fn one_bag_is_from_one_lot_where_that_is_possible() {
    let stock = shelves(&[("A", "2031-06-30", 3), ("B", "2031-09-30", 3)]);
    let wanted = wanted(date(2031, 4, 12));
    let needs = [need(2), need(2), need(2)];
    let picks = pick(&stock, &wanted, &needs, |_| LotStanding::AsPrinted);
    let found: Vec<_> = picks.iter().map(takes).collect();
    assert_eq!(found[0], [("A", 2)]);
    assert_eq!(found[1], [("B", 2)]);
    assert_eq!(found[2], [("A", 1), ("B", 1)]);
}

/// Whoever reads the package once more ends what was typed before, and nothing that is typed after.
#[test]
fn a_package_that_was_read_counts_until_something_else_is_typed() {
    let mut book = Book::new(1);
    let came = |until: &str| received(pills("A"), until, 5, 20);
    book.note(at(TEN), came("2032-05-31"));
    book.note(at(TEN), came("2032-03-31"));
    let known = |book: &Book| {
        let stock = book.stock();
        let lot = stock.lot(&pills("A")).unwrap();
        (lot.expiry.unwrap().to_string(), lot.unlike, lot.packs())
    };
    assert_eq!(known(&book), ("2032-03-31".to_owned(), true, 10));
    let read = SiteEvent::LotRead {
        lot: pills("A"),
        expiry: "2032-08-31".parse().unwrap(),
        each: 20,
        reason: "Ana Reyes: the 8 was smeared".to_owned(),
    };
    book.note(at(TEN), read);
    assert_eq!(known(&book), ("2032-08-31".to_owned(), false, 10));
    book.note(at(TEN), came("2032-08-31"));
    assert_eq!(known(&book), ("2032-08-31".to_owned(), false, 15));
    book.note(at(TEN), came("2032-05-31"));
    assert_eq!(known(&book), ("2032-05-31".to_owned(), true, 20));
    let mut turned = book.facts.clone();
    turned.reverse();
    assert_eq!(Stock::fold(&turned), book.stock());
}
