//! Kept line by line it is what the pure folds give, in whatever order and in whatever parts the facts arrived; made anew it is the same.

use std::collections::BTreeSet;

use hearthdose_core::record::{Event, Fact};
use hearthdose_core::store::Store;
use hearthdose_tests::people::Dice;

use crate::asked::{ask, expect, should_be_gone};
use crate::history::{Codes, history, shuffle};

/// Hands facts over in parts; much of it comes a second time.
fn filled(dice: &mut Dice, facts: &[Fact]) -> Store {
    let mut store = Store::in_memory().unwrap();
    let mut rest = facts;
    let mut added = 0;
    while !rest.is_empty() {
        let many = usize::try_from(dice.between(1, 9)).unwrap().min(rest.len());
        for part in [&rest[..many], &rest[..many / 2]] {
            let appended = store.append(part).unwrap();
            assert_eq!(appended.added + appended.known, part.len());
            added += appended.added;
        }
        rest = &rest[many..];
    }
    let again = store.append(facts).unwrap();
    assert_eq!((again.added, again.known), (0, facts.len()));
    assert!(added >= store.facts().unwrap().len());
    store
}

// promise: P15
#[test]
fn kept_line_by_line_it_is_what_the_facts_add_up_to() {
    let codes = Codes::new();
    let (mut served, mut gone, mut waiting, mut same, mut corrected, mut found) =
        (0, 0, 0, 0, 0, 0);
    for seed in 0..500 {
        let mut dice = Dice::new(seed);
        let facts = history(&mut dice, &codes);
        let expected = expect(&facts);
        for turn in 0..3 {
            let mut arrived = facts.clone();
            if turn > 0 {
                shuffle(&mut dice, &mut arrived);
            }
            let mut store = filled(&mut dice, &arrived);
            assert_eq!(ask(&store), expected, "seed {seed}, turn {turn}");
            let before = store.facts().unwrap();
            store.rebuild_site().unwrap();
            assert_eq!(ask(&store), expected, "seed {seed}, turn {turn}, made anew");
            assert_eq!(store.facts().unwrap(), before, "seed {seed}, turn {turn}");
            let kept: BTreeSet<_> = before.iter().map(|fact| fact.id).collect();
            for fact in should_be_gone(&facts) {
                assert!(!kept.contains(&fact.id), "seed {seed}: {fact:?}");
                gone += 1;
            }
        }
        served += expected.totals.all.hand_outs;
        waiting += expected.waiting.len();
        found += expected.found.len() + expected.found_by_two.len();
        same += expected.same.iter().map(Vec::len).sum::<usize>();
        let corrections = facts.iter().map(|fact| &fact.event);
        corrected += corrections
            .filter(|event| matches!(event, Event::Correction { .. }))
            .count();
    }
    // The cases are there at all.
    assert!(served > 500 && gone > 500 && waiting > 100 && same > 100 && corrected > 500);
    assert!(found > 100);
}
