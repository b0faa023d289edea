//! Wrong entries put right, later and on other devices.

use std::collections::BTreeSet;

use hearthdose_core::household::{Answer, Manner};
use hearthdose_core::prep::{Outcome, StepEvent};
use hearthdose_core::record::{Change, Event, Fact, FactId, State, fold};
use jiff::civil::date;

use crate::facts::{fact, fact_id, person};
use crate::{both, people, step, whole_round};

fn correction(on: u64, sequence: u64, target: FactId, change: Change) -> Fact {
    fact(
        on,
        sequence,
        3_600_000 + i64::try_from(sequence).unwrap(),
        Event::Correction { target, change },
    )
}

fn replace(event: Event) -> Change {
    Change::Replace {
        event: Box::new(event),
        reason: None,
    }
}

fn packs(tablets: u32) -> Event {
    Event::PacksReceived {
        product: "tablet-100".to_owned(),
        lot: None,
        tablets,
    }
}

/// Twenty tablets received, and the given corrections.
fn received(corrections: &[Fact]) -> State {
    let facts = both(&[fact(1, 1, 0, packs(20))], corrections);
    let mut turned = facts.clone();
    turned.reverse();
    assert_eq!(fold(&facts), fold(&turned));
    fold(&facts)
}

const FIRST: (u64, u64) = (1, 1);

fn first() -> FactId {
    fact_id(FIRST.0, FIRST.1)
}

#[test]
fn a_correction_waits_for_its_fact_and_then_applies() {
    let waiting = correction(2, 1, first(), replace(packs(40)));
    let state = fold(std::slice::from_ref(&waiting));
    assert_eq!(
        (state.all_tablets().received, state.waiting, state.conflicts),
        (0, vec![waiting.id], vec![])
    );
    let state = received(&[waiting]);
    assert_eq!((state.all_tablets().received, state.waiting), (40, vec![]));
}

#[test]
fn a_fact_may_be_withdrawn() {
    assert_eq!(
        received(&[correction(2, 1, first(), Change::Withdraw { reason: None })])
            .all_tablets()
            .received,
        0
    );
}

#[test]
fn of_a_chain_the_last_link_counts() {
    let mut chain = vec![correction(2, 1, first(), replace(packs(40)))];
    for (sequence, tablets) in [(2, 60), (3, 30), (4, 10)] {
        chain.push(correction(
            3,
            sequence,
            chain[chain.len() - 1].id,
            replace(packs(tablets)),
        ));
        let state = received(&chain);
        assert_eq!(
            (state.all_tablets().received, state.conflicts),
            (u64::from(tablets), vec![])
        );
    }
    // A link that has not arrived: what hangs behind it waits.
    let without = [chain[0].clone(), chain[2].clone(), chain[3].clone()];
    let state = received(&without);
    assert_eq!(
        (state.all_tablets().received, state.waiting),
        (40, vec![chain[2].id])
    );
}

#[test]
fn withdrawing_a_correction_brings_back_what_stood_before() {
    let one = correction(2, 1, first(), replace(packs(40)));
    let two = correction(2, 2, one.id, replace(packs(60)));
    let undo_two = correction(2, 3, two.id, Change::Withdraw { reason: None });
    assert_eq!(
        received(&[one.clone(), two.clone(), undo_two.clone()])
            .all_tablets()
            .received,
        40
    );
    let undo_one = correction(2, 4, one.id, Change::Withdraw { reason: None });
    assert_eq!(
        received(&[one.clone(), undo_one.clone()])
            .all_tablets()
            .received,
        20
    );
    let redo = correction(2, 5, undo_two.id, Change::Withdraw { reason: None });
    assert_eq!(
        received(&[one.clone(), two, undo_two, redo])
            .all_tablets()
            .received,
        60
    );
    let gone = correction(2, 6, first(), Change::Withdraw { reason: None });
    let back = correction(2, 7, gone.id, Change::Withdraw { reason: None });
    assert_eq!(received(&[gone, back]).all_tablets().received, 20);
}

#[test]
fn two_corrections_that_say_the_same_agree() {
    let same = [
        correction(2, 1, first(), replace(packs(40))),
        correction(3, 1, first(), replace(packs(40))),
    ];
    let state = received(&same);
    assert_eq!(
        (state.all_tablets().received, state.conflicts),
        (40, vec![])
    );
}

#[test]
fn two_that_differ_are_a_conflict_until_a_person_settles_it() {
    let (one, two) = (
        correction(2, 1, first(), replace(packs(40))),
        correction(3, 1, first(), replace(packs(60))),
    );
    let state = received(&[one.clone(), two.clone()]);
    assert_eq!(state.all_tablets().received, 20);
    assert_eq!(state.conflicts.len(), 1);
    assert_eq!(
        (
            state.conflicts[0].target,
            state.conflicts[0].corrections.clone()
        ),
        (first(), vec![one.id, two.id])
    );

    // Settled by taking one of them back.
    let back = correction(1, 2, one.id, Change::Withdraw { reason: None });
    let state = received(&[one.clone(), two.clone(), back]);
    assert_eq!(
        (state.all_tablets().received, state.conflicts),
        (60, vec![])
    );
    // Or by saying the same behind both.
    let settled = [
        correction(1, 2, one.id, replace(packs(50))),
        correction(1, 3, two.id, replace(packs(50))),
    ];
    let state = received(&both(&[one, two], &settled));
    assert_eq!(
        (state.all_tablets().received, state.conflicts),
        (50, vec![])
    );
}

#[test]
fn two_that_differ_about_a_correction_are_a_conflict_too() {
    let one = correction(2, 1, first(), replace(packs(40)));
    let undo = correction(2, 2, one.id, Change::Withdraw { reason: None });
    let other = correction(3, 1, one.id, replace(packs(60)));
    let state = received(&[one, undo, other]);
    assert_eq!(
        (state.all_tablets().received, state.conflicts.len()),
        (20, 1)
    );
}

#[test]
fn corrections_in_a_ring_change_nothing() {
    let ring = [
        correction(2, 1, fact_id(2, 2), replace(packs(1))),
        correction(2, 2, fact_id(2, 1), replace(packs(2))),
        correction(2, 3, fact_id(2, 3), Change::Withdraw { reason: None }),
        correction(2, 4, fact_id(2, 1), Change::Withdraw { reason: None }),
    ];
    assert_eq!(received(&ring).all_tablets().received, 20);
}

fn outcome(outcome: Outcome) -> Event {
    step(StepEvent::Outcome {
        person: person(1),
        outcome,
    })
}

fn ana(changes: &[Change], noted: Outcome) -> State {
    let facts = both(&people(), &whole_round(1, 0, noted, Outcome::All));
    let target = facts
        .iter()
        .find(|fact| fact.event == outcome(noted))
        .unwrap()
        .id;
    let corrections: Vec<Fact> = (1..)
        .zip(changes)
        .map(|(on, change)| correction(20 + on, 1, target, change.clone()))
        .collect();
    fold(&both(&facts, &corrections))
}

#[test]
fn a_contested_dose_counts_as_given() {
    let would_not = || replace(outcome(Outcome::WouldNotTake));
    let cases: [(Outcome, [Change; 2], Outcome); 5] = [
        (
            Outcome::All,
            [would_not(), Change::Withdraw { reason: None }],
            Outcome::All,
        ),
        (
            Outcome::WouldNotTake,
            [
                replace(outcome(Outcome::Some)),
                Change::Withdraw { reason: None },
            ],
            Outcome::Some,
        ),
        (
            Outcome::WouldNotTake,
            [
                replace(outcome(Outcome::Some)),
                replace(outcome(Outcome::All)),
            ],
            Outcome::All,
        ),
        (
            Outcome::CameBackUp,
            [would_not(), Change::Withdraw { reason: None }],
            Outcome::CameBackUp,
        ),
        (
            Outcome::Some,
            [would_not(), replace(outcome(Outcome::CameBackUp))],
            Outcome::Some,
        ),
    ];
    for (noted, changes, expected) in cases {
        let state = ana(&changes, noted);
        assert_eq!(state.conflicts.len(), 1);
        let doses: Vec<Outcome> = state
            .doses
            .iter()
            .filter(|dose| dose.person == person(1))
            .map(|dose| dose.outcome)
            .collect();
        assert_eq!(doses, [expected], "{noted:?} {changes:?}");
    }
}

#[test]
fn an_outcome_that_was_put_right_once_is_as_it_was_put() {
    let state = ana(&[replace(outcome(Outcome::WouldNotTake))], Outcome::All);
    assert_eq!(
        (
            state.doses_of(person(1)),
            state.doses_of(person(2)),
            state.conflicts
        ),
        (0, 1, vec![])
    );
}

#[test]
fn a_contested_lifting_keeps_the_hold() {
    let lifted = Event::HoldLifted {
        person: person(1),
        key: "kidney".to_owned(),
        by: "nurse".to_owned(),
        reason: "seen".to_owned(),
    };
    let lift = fact(1, 1, 0, lifted.clone());
    let is_lifted = |corrections: &[Fact]| {
        let state = fold(&both(
            &people(),
            &both(std::slice::from_ref(&lift), corrections),
        ));
        state.people[&person(1)].person.lifted.contains("kidney")
    };
    assert!(is_lifted(&[]));
    let withdrawn = correction(2, 1, lift.id, Change::Withdraw { reason: None });
    assert!(!is_lifted(std::slice::from_ref(&withdrawn)));
    assert!(!is_lifted(&[
        withdrawn,
        correction(3, 1, lift.id, replace(lifted))
    ]));
}

#[test]
fn a_contested_answer_holds_and_a_contested_reaction_stops() {
    let answered = |answer| Event::Answered {
        person: person(1),
        order: "quillmere-doxy".to_owned(),
        key: "pregnant".to_owned(),
        answer,
    };
    for (noted, one, two, expected) in [
        (Answer::No, Answer::Unsure, Answer::Yes, Answer::Yes),
        (Answer::Yes, Answer::No, Answer::Unsure, Answer::Yes),
        (Answer::Unsure, Answer::No, Answer::Yes, Answer::Yes),
        (Answer::No, Answer::Unsure, Answer::No, Answer::Unsure),
    ] {
        let facts = [
            fact(1, 1, 0, answered(noted)),
            correction(2, 1, first(), replace(answered(one))),
            correction(3, 1, first(), replace(answered(two))),
        ];
        let state = fold(&both(&people(), &facts));
        assert_eq!(state.conflicts.len(), 1);
        assert_eq!(
            state.people[&person(1)].person.answers["pregnant"],
            expected
        );
    }
    let reactions = |people: &[u64]| {
        step(StepEvent::Reactions {
            people: people
                .iter()
                .map(|number| person(*number))
                .collect::<BTreeSet<_>>(),
        })
    };
    let facts = [
        fact(1, 1, 0, reactions(&[])),
        correction(2, 1, first(), replace(reactions(&[1]))),
        correction(3, 1, first(), replace(reactions(&[2]))),
    ];
    let state = fold(&both(&people(), &facts));
    assert!(
        [1, 2]
            .iter()
            .all(|number| state.people[&person(*number)].is_stopped())
    );
}

#[test]
fn a_weight_that_cannot_be_read_is_told() {
    let weighed = |weight: &str| Event::Weighed {
        person: person(1),
        weight: weight.to_owned(),
        on: date(2031, 4, 2),
        manner: Manner::Alone,
    };
    let facts = [
        fact(1, 1, 0, weighed("31 lb")),
        fact(1, 2, 1, weighed("heavy")),
    ];
    let state = fold(&both(&people(), &facts));
    assert_eq!(state.misfits, [facts[1].id]);
    assert!(state.people[&person(1)].person.weighing.is_some());
}
