//! A paper list that is typed in later: real times, each line once, no pack taken off twice.

use hearthdose_core::record::{FactId, LotName, SiteEvent};
use hearthdose_core::site::{Desk, Home, NotWritten, Written, from_paper, take_back};
use jiff::Timestamp;
use jiff::civil::date;

use crate::book::{Book, TEN, at, code, doxy, lot, people, pills, received, scanned};

const TWO: &str = "2031-04-03T14:00:00-05:00";
const SIX: &str = "2031-04-03T18:00:00-05:00";

fn line(when: &str, lot: LotName, packs: u32) -> Written {
    Written {
        at: at(when),
        packs: vec![(lot, packs)],
        reason: "the battery was empty".to_owned(),
    }
}

/// Types a line in at six; the count is what the test says it is.
fn typed(
    book: &mut Book,
    written: &Written,
    counted: Option<Timestamp>,
) -> Result<FactId, NotWritten> {
    let (stock, home, id) = (book.stock(), book.home().unwrap(), book.coming());
    let order = doxy();
    let desk = Desk {
        order: &order,
        notices: &[],
        stock: &stock,
        now: at(SIX),
        same_people: &[],
    };
    for event in from_paper(&desk, &home, written, |_| counted, id)? {
        book.note(written.at, event);
    }
    Ok(id)
}

fn served() -> Book {
    let order = doxy();
    scanned(&order, &code(&order, &people("tarn-4"), at(TEN)))
}

fn there(book: &Book) -> i64 {
    book.stock().lot(&pills("PLENTY")).unwrap().packs()
}

fn home(book: &Book) -> Home {
    book.home().unwrap()
}

#[test]
fn it_stands_in_the_record_at_its_real_time() {
    let mut book = served();
    let id = typed(&mut book, &line(TWO, pills("PLENTY"), 4), None).unwrap();
    let out = &home(&book).handed_out[0];
    assert_eq!((out.fact, out.at), (id, at(TWO)));
    assert_eq!(out.lead.as_deref(), Some("the battery was empty"));
    assert!(!out.people.is_empty());
    assert_eq!(there(&book), 1_000 - 4);
    // The home is known as served: the next visit goes to the lead.
    let serving = book.serve(&doxy(), &[], at(SIX));
    assert!(crate::book::for_lead(&serving).contains(&"served-before"));
}

#[test]
fn enough_is_said_only_where_it_was() {
    let wanted: u32 = served()
        .serve(&doxy(), &[], at(TWO))
        .bags
        .iter()
        .map(|bag| bag.packs)
        .sum();
    let mut book = served();
    typed(&mut book, &line(TWO, pills("PLENTY"), wanted), None).unwrap();
    // Ten days are handed out at a time, the first on 3 April.
    assert_eq!(
        home(&book).handed_out[0].enough_until,
        Some(date(2031, 4, 12))
    );
    let mut short = served();
    typed(&mut short, &line(TWO, pills("PLENTY"), wanted - 1), None).unwrap();
    assert_eq!(home(&short).handed_out[0].enough_until, None);
}

#[test]
fn a_count_in_between_lacks_the_packs_already() {
    let mut book = served();
    // At four somebody counts what the paper list has left there.
    let counted = SiteEvent::LotCounted {
        lot: pills("PLENTY"),
        counted: 996,
        difference: -4,
        reason: "counted".to_owned(),
    };
    book.note(at("2031-04-03T16:00:00-05:00"), counted);
    let count = Some(at("2031-04-03T16:00:00-05:00"));
    typed(&mut book, &line(TWO, pills("PLENTY"), 4), count).unwrap();
    assert_eq!(there(&book), 996);
    // Nor does a mistake that is undone bring packs that never left the sum.
    let out = home(&book).handed_out[0].clone();
    assert_eq!(out.in_count, vec![pills("PLENTY")]);
    assert!(take_back(&out).is_empty());
}

#[test]
fn a_count_before_it_changes_nothing() {
    let mut book = served();
    let before = Some(at("2031-04-03T13:59:00-05:00"));
    typed(&mut book, &line(TWO, pills("PLENTY"), 4), before).unwrap();
    assert_eq!(there(&book), 996);
    assert_eq!(take_back(&home(&book).handed_out[0]).len(), 1);
}

#[test]
fn the_same_line_is_taken_in_once() {
    let mut book = served();
    typed(&mut book, &line(TWO, pills("PLENTY"), 4), None).unwrap();
    for again in [
        TWO,
        "2031-04-03T14:30:00-05:00",
        "2031-04-03T13:30:00-05:00",
    ] {
        let refused = typed(&mut book, &line(again, pills("PLENTY"), 4), None);
        assert_eq!(refused, Err(NotWritten::Known { at: at(TWO) }));
    }
    // Later, or other packs, is another hand-out.
    typed(
        &mut book,
        &line("2031-04-03T14:31:00-05:00", pills("PLENTY"), 4),
        None,
    )
    .unwrap();
    typed(&mut book, &line(TWO, pills("PLENTY"), 1), None).unwrap();
    assert_eq!(home(&book).handed_out.len(), 3);
    assert_eq!(there(&book), 1_000 - 9);
}

#[test]
fn what_happened_is_taken_in_also_from_a_lot_that_should_have_stayed() {
    let mut book = served();
    book.note(at(TEN), received(pills("PAST"), "2030-12-31", 5, 20));
    typed(&mut book, &line(TWO, pills("PAST"), 2), None).unwrap();
    assert_eq!(book.stock().lot(&pills("PAST")).unwrap().packs(), 3);
}

#[test]
fn what_cannot_have_been_is_refused() {
    let mut book = served();
    let none = line(TWO, pills("PLENTY"), 0);
    assert_eq!(typed(&mut book, &none, None), Err(NotWritten::NoPacks));
    let ahead = line("2031-04-03T18:00:01-05:00", pills("PLENTY"), 1);
    assert_eq!(typed(&mut book, &ahead, None), Err(NotWritten::Ahead));
    let silent = Written {
        reason: " ".to_owned(),
        ..line(TWO, pills("PLENTY"), 1)
    };
    assert_eq!(typed(&mut book, &silent, None), Err(NotWritten::NoReason));
    let other = lot("tablet-100", "NEVER");
    assert_eq!(
        typed(&mut book, &line(TWO, other.clone(), 1), None),
        Err(NotWritten::LotUnknown(other))
    );
    assert!(home(&book).handed_out.is_empty());
    assert_eq!(there(&book), 1_000);
}

#[test]
fn old_facts_read_as_before() {
    let text = r#"{"at-site":"handed-out","home":"0707070707070707","issue":1,"lines":[],"enough_until":null,"lead":null}"#;
    let event: Result<SiteEvent, _> = serde_json::from_str(text);
    let event = event.unwrap();
    assert!(matches!(&event, SiteEvent::HandedOut { in_count, .. } if in_count.is_empty()));
    assert!(!serde_json::to_string(&event).unwrap().contains("in_count"));
}
