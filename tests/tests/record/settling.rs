//! A conflict that a person settles: whatever chains of corrections there are, the fact says what was chosen.

use hearthdose_core::record::{Change, Event, Fact, FactId, fold, put_right, readings};

use crate::facts::{fact, fact_id};

fn packs(tablets: u32) -> Event {
    Event::PacksReceived {
        product: "tablet-100".to_owned(),
        lot: None,
        tablets,
    }
}

fn first() -> FactId {
    fact_id(1, 1)
}

fn correction(on: u64, sequence: u64, target: FactId, change: Change) -> Fact {
    let millis = 1_000 * i64::try_from(sequence).unwrap();
    fact(on, sequence, millis, Event::Correction { target, change })
}

fn replace(event: Event) -> Change {
    Change::Replace {
        event: Box::new(event),
        reason: None,
    }
}

fn withdraw() -> Change {
    Change::Withdraw { reason: None }
}

/// Tablets that count, and how many conflicts there are.
fn says(facts: &[Fact]) -> (u64, usize) {
    let state = fold(facts);
    (state.all_tablets().received, state.conflicts.len())
}

/// What a device makes of a choice, as facts.
fn settled(on: u64, facts: &[Fact], to: Option<&Event>) -> Vec<Fact> {
    let events = put_right(facts, first(), to, Some("counted again"));
    let from = facts.len();
    let events = events.into_iter().enumerate();
    events
        .map(|(at, event)| {
            let sequence = u64::try_from(from + at + 1).unwrap();
            fact(
                on,
                sequence,
                1_000 * i64::try_from(sequence).unwrap(),
                event,
            )
        })
        .collect()
}

/// One device says forty, the other takes it away; chains of one, two and three links behind it.
fn contested() -> Vec<Vec<Fact>> {
    let noted = fact(1, 1, 0, packs(20));
    let gone = correction(2, 2, first(), withdraw());
    let forty = correction(3, 3, first(), replace(packs(40)));
    let sixty = correction(3, 4, forty.id, replace(packs(60)));
    let back = correction(3, 5, sixty.id, withdraw());
    let all = [noted, gone, forty, sixty, back];
    (3..=5).map(|many| all[..many].to_vec()).collect()
}

#[test]
fn whatever_is_chosen_counts_afterwards_and_nothing_is_contested() {
    for facts in contested() {
        assert_eq!(says(&facts), (20, 1));
        for (to, expected) in [(Some(packs(40)), 40), (Some(packs(20)), 20), (None, 0)] {
            let mut facts = facts.clone();
            facts.extend(settled(4, &facts, to.as_ref()));
            assert_eq!(says(&facts), (expected, 0), "{to:?}");
            // It can be settled otherwise later, as often as somebody finds that it was wrong.
            for (to, expected) in [
                (None, 0),
                (Some(packs(20)), 20),
                (Some(packs(7)), 7),
                (None, 0),
            ] {
                facts.extend(settled(5, &facts, to.as_ref()));
                assert_eq!(says(&facts), (expected, 0), "{to:?}");
            }
        }
    }
}

#[test]
fn a_fact_that_nobody_corrected_is_put_right_by_one_correction() {
    let facts = [fact(1, 1, 0, packs(20))];
    let reason = Some("counted again".to_owned());
    let change = Change::Withdraw { reason };
    let target = first();
    assert_eq!(
        put_right(&facts, target, None, Some("counted again")),
        [Event::Correction { target, change }]
    );
    assert_eq!(put_right(&facts, fact_id(9, 9), None, None), []);
}

/// Two people settle one conflict in two ways, and neither had heard of the other.
#[test]
fn two_who_settle_in_two_ways_contradict_each_other_again() {
    for facts in contested() {
        let mut both = facts.clone();
        both.extend(settled(4, &facts, None));
        both.extend(settled(5, &facts, Some(&packs(40))));
        assert_eq!(says(&both), (20, 1));
        both.extend(settled(6, &both, None));
        assert_eq!(says(&both), (0, 0));
    }
}

#[test]
fn each_side_is_read_with_its_correction() {
    let facts = &contested()[0];
    let read: Vec<(FactId, Option<Event>)> = readings(facts, first())
        .into_iter()
        .map(|reading| (reading.correction.id, reading.says))
        .collect();
    assert_eq!(read, [(facts[1].id, None), (facts[2].id, Some(packs(40)))]);
}
