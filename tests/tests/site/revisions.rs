//! Codes of another order or revision: answers stand in a code by their places, so they count under no other order.

use hearthdose_core::exchange::OrderMark;
use hearthdose_core::order::CheckedOrder;
use hearthdose_core::site::{Desk, serve};
use hearthdose_tests::people::{checked, demo_order, demo_text};

use crate::book::{
    TEN, answered, at, cipro, code, doxy, for_lead, packs, people, reasons, scanned,
};
use hearthdose_core::household::Answer;

/// Runa, who answered no to every question of the order.
fn runa() -> hearthdose_core::household::Person {
    people("ferrow-9").swap_remove(5)
}

/// The second revision, with its first two questions in the other order.
fn turned() -> CheckedOrder {
    let text = demo_text("orders/quillmere-doxy-2");
    let mut parts: Vec<&str> = text.split("[[question]]").collect();
    parts.swap(1, 2);
    checked(&parts.join("[[question]]"))
}

#[test]
fn a_code_of_another_order_clears_nobody() {
    // Five times no to questions about doxycycline say nothing about ciprofloxacin.
    let told = code(&doxy(), &[runa()], at(TEN));
    let book = scanned(&cipro(), &told);
    let serving = book.serve(&cipro(), &[], at(TEN));
    assert_eq!(for_lead(&serving), ["other-order"]);
    assert_eq!(reasons(&serving, 1), ["screening-not-done"]);
    assert_eq!(packs(&serving), []);
    let mut stated = runa();
    stated.cleared = true;
    let book = scanned(&cipro(), &code(&doxy(), &[stated], at(TEN)));
    assert_eq!(
        reasons(&book.serve(&cipro(), &[], at(TEN)), 1),
        ["screening-not-done"]
    );
}

#[test]
fn a_code_without_an_order_is_asked_everything() {
    let order = doxy();
    let mut told = code(&order, &people("alder-1"), at(TEN));
    told.order = None;
    told.people[0].course_day = Some(59);
    told.people[0].left = Some(20);
    let mut book = scanned(&order, &told);
    let serving = book.serve(&order, &[], at(TEN));
    assert_eq!(for_lead(&serving), [""; 0]);
    assert_eq!(reasons(&serving, 1), ["screening-not-done"]);
    for question in &order.questions {
        book.note(at(TEN), answered(1, &question.key, Answer::No));
    }
    // Days and pills of no order are not counted: ten days and 4 to spare.
    assert_eq!(packs(&book.serve(&order, &[], at(TEN))), [(None, 2)]);
}

#[test]
fn answers_of_an_older_revision_are_read_by_its_own_questions() {
    let (old, new) = (doxy(), turned());
    let mut told = code(&old, &[runa()], at(TEN));
    // Pregnant, which stands where the new revision asks for an allergy.
    told.people[0].answers[1].as_mut().unwrap().0 = Answer::Yes;
    let book = scanned(&new, &told);
    let stock = book.stock();
    let desk = Desk {
        order: &new,
        notices: &[],
        stock: &stock,
        now: at(TEN),
        same_people: &[],
    };
    let mut home = book.home().unwrap();
    // Without the old revision nobody knows what was asked.
    let serving = serve(&desk, &home).unwrap();
    assert_eq!(reasons(&serving, 1), ["screening-not-done"]);
    assert_eq!(for_lead(&serving), [""; 0]);
    home.learn(&demo_order("quillmere-doxy-2"));
    assert_eq!(
        reasons(&serve(&desk, &home).unwrap(), 1),
        ["screening-not-done"]
    );
    home.learn(&old);
    assert_eq!(
        reasons(&serve(&desk, &home).unwrap(), 1),
        ["screening-hold"]
    );
}

#[test]
fn a_newer_revision_than_the_desks_goes_to_the_lead() {
    let (old, new) = (doxy(), demo_order("quillmere-doxy-2"));
    let book = scanned(&old, &code(&new, &people("alder-1"), at(TEN)));
    let serving = book.serve(&old, &[], at(TEN));
    assert_eq!(for_lead(&serving), ["other-order"]);
    assert_eq!(packs(&serving), []);
    // The same id and revision, but other bytes.
    let mut told = code(&old, &people("alder-1"), at(TEN));
    told.order = Some(OrderMark {
        fingerprint: [1; 6],
        ..OrderMark::of(&old)
    });
    let serving = scanned(&old, &told).serve(&old, &[], at(TEN));
    assert_eq!(for_lead(&serving), ["other-order"]);
}
