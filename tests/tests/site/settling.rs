//! What the merged records of two tablets leave to be settled, and what holds until then.

use hearthdose_core::exchange::HouseholdCode;
use hearthdose_core::record::{Change, Event, Fact, FactId, put_right};
use hearthdose_core::site::Matter;

use crate::book::{
    Book, TEN, at, code, days_after, doxy, gave, people, pills, seen, seen_by, taken_away,
};

fn alder() -> HouseholdCode {
    code(&doxy(), &people("alder-1"), at(TEN))
}

/// A tablet that read the code and handed two packs out.
fn served(number: u64, hour: i64, until: Option<&str>) -> (Book, FactId) {
    let mut book = Book::new(number);
    let when = at(TEN) + jiff::SignedDuration::from_hours(hour);
    book.note(when, seen(&alder()));
    let out = book.note(when, gave(pills("A"), 2, 20, until));
    (book, out)
}

const UNTIL: Option<&str> = Some("2031-04-12");

fn matters(book: &Book) -> Vec<Matter> {
    book.home().unwrap().to_settle()
}

fn outs(book: &Book) -> usize {
    book.home().unwrap().handed_out.len()
}

/// What the hand-out said first: to write it once more is to say that it was right.
fn confirmed(book: &Book, out: FactId) -> Event {
    let fact = book.facts.iter().find(|fact| fact.id == out).unwrap();
    fact.event.clone()
}

fn note_all(book: &mut Book, events: Vec<Event>) {
    for event in events {
        book.note_event(at(TEN), event);
    }
}

#[test]
fn two_tablets_that_served_one_home_are_to_be_settled_until_somebody_says_which() {
    let (mut one, first) = served(1, 0, UNTIL);
    let (two, second) = served(2, 1, UNTIL);
    assert_eq!(matters(&one), []);
    one.merge(&two.facts);
    assert_eq!(matters(&one), [Matter::Twice { first, second }]);
    // Until then both count.
    assert_eq!(outs(&one), 2);
    for out in [first, second] {
        let mut taken = one.clone();
        taken.note_event(at(TEN), taken_away(out));
        assert_eq!((matters(&taken), outs(&taken)), (vec![], 1));
    }
    // Two leads who both say that it was right, each in other words, do not contradict each other.
    let event = confirmed(&one, second);
    let right = |book: &Book, why| put_right(&book.facts, second, Some(&event), Some(why));
    let mut other = Book::new(3);
    other.merge(&one.facts);
    let events = right(&other, "Wim: two families");
    note_all(&mut other, events);
    let events = right(&one, "Ana Reyes: two bags were needed");
    note_all(&mut one, events);
    assert_eq!((matters(&one), outs(&one)), (vec![], 2));
    one.merge(&other.facts);
    assert_eq!((matters(&one), outs(&one)), (vec![], 2));
    // It can still be taken back after all.
    let events = put_right(&one.facts, second, None, Some("Ana Reyes: it was one bag"));
    note_all(&mut one, events);
    assert_eq!((matters(&one), outs(&one)), (vec![], 1));
}

#[test]
fn a_second_hand_out_of_one_tablet_and_a_refill_are_not() {
    let (mut one, _) = served(1, 0, UNTIL);
    one.note(at(TEN), gave(pills("A"), 2, 20, UNTIL));
    assert_eq!(matters(&one), []);
    let (mut one, _) = served(1, 0, UNTIL);
    // The last three days of the first supply are for the refill.
    let mut two = Book::new(2);
    two.note(days_after(at(TEN), 6), gave(pills("A"), 2, 20, None));
    let mut early = one.clone();
    early.merge(&two.facts);
    assert_eq!(matters(&early), []);
    let mut two = Book::new(2);
    two.note(days_after(at(TEN), 5), gave(pills("A"), 2, 20, None));
    one.merge(&two.facts);
    assert_eq!(matters(&one).len(), 1);
}

/// One lead takes the second hand-out back, another writes down that it was right.
#[test]
fn a_hand_out_taken_back_here_and_confirmed_there_counts_until_it_is_settled() {
    let (mut one, first) = served(1, 0, UNTIL);
    let (mut two, second) = served(2, 1, UNTIL);
    one.merge(&two.facts);
    two.merge(&one.facts);
    let change = Change::Withdraw { reason: None };
    let target = second;
    one.note_event(at(TEN), Event::Correction { target, change });
    let event = confirmed(&two, second);
    let events = put_right(&two.facts, second, Some(&event), None);
    note_all(&mut two, events);
    one.merge(&two.facts);
    let found = matters(&one);
    let [Matter::Corrections(conflict)] = found.as_slice() else {
        panic!("{found:?}");
    };
    assert_eq!((conflict.target, outs(&one)), (second, 2));
    for (to, left) in [(None, vec![first]), (Some(&event), vec![first, second])] {
        let mut book = one.clone();
        let events = put_right(&book.facts, second, to, Some("Ana Reyes"));
        note_all(&mut book, events);
        let home = book.home().unwrap();
        let outs: Vec<FactId> = home.handed_out.iter().map(|out| out.fact).collect();
        assert_eq!((matters(&book), outs), (vec![], left));
    }
}

#[test]
fn of_two_codes_the_chosen_one_counts_and_another_choice_elsewhere_is_told() {
    let old = alder();
    let mut new = alder();
    new.people[0].left = Some(7);
    let mut one = Book::new(1);
    one.note(at(TEN), seen_by(&old, 1));
    one.note(at(TEN), seen_by(&new, 2));
    assert_eq!(matters(&one), [Matter::Codes]);
    let choose = |book: &mut Book, code: &HouseholdCode| {
        let home = book.home().unwrap();
        let chosen = home.seen.iter().find(|seen| seen.code == *code).unwrap();
        let events = home.choose_code(chosen, &book.facts, "Ana Reyes: looked at both");
        assert_eq!(events.len(), 1);
        note_all(book, events);
    };
    let mut two = Book::new(2);
    two.merge(&one.facts);
    choose(&mut one, &old);
    choose(&mut two, &new);
    for (book, code) in [(&one, &old), (&two, &new)] {
        assert_eq!(matters(book), []);
        assert_eq!(book.home().unwrap().code(), Some(code));
    }
    let heard: Vec<Fact> = two.facts.clone();
    one.merge(&heard);
    // No code is lost by it, and the lead is asked again.
    assert_eq!(matters(&one), [Matter::Codes]);
    assert_eq!(one.home().unwrap().seen.len(), 2);
}
