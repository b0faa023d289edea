//! What of a home was handed over, by the numbers under which its facts arrived.

use hearthdose_core::record::{Change, Event, Fact, SiteEvent};
use hearthdose_core::store::Store;

use crate::facts::{fact, fact_id};
use crate::history::HOMES;

fn named(sequence: u64, home: usize) -> Fact {
    let (home, words) = (HOMES[home], "blue door".to_owned());
    let site = SiteEvent::HomeNamed { home, words };
    let millis = i64::try_from(sequence).unwrap();
    fact(1, sequence, millis, Event::Site { site })
}

/// Facts of the first home, and how many were not handed over.
fn of_first(store: &Store) -> (usize, usize) {
    let (facts, unheard) = store.facts_of_home(HOMES[0]).unwrap();
    (facts.len(), unheard)
}

#[test]
fn every_fact_must_be_in_some_file_and_later_ones_in_a_later_one() {
    let mut store = Store::in_memory().unwrap();
    // Arrivals 1, 3 and 4 are the first home's; the last is a correction.
    let target = fact_id(1, 1);
    let change = Change::Withdraw { reason: None };
    let correction = fact(1, 4, 4, Event::Correction { target, change });
    store
        .append(&[named(1, 0), named(2, 1), named(3, 0), correction])
        .unwrap();
    assert_eq!(of_first(&store), (3, 3));
    store.note_handed_over(4, 3).unwrap();
    assert_eq!(of_first(&store), (3, 3));
    store.note_handed_over(3, 3).unwrap();
    assert_eq!(of_first(&store), (3, 2));
    store.note_handed_over(1, 1).unwrap();
    assert_eq!(of_first(&store), (3, 1));
    store.note_handed_over(2, 4).unwrap();
    assert_eq!(of_first(&store), (3, 0));
    store.append(&[named(5, 1), named(6, 0)]).unwrap();
    assert_eq!(of_first(&store), (4, 1));
    store.note_handed_over(1, 6).unwrap();
    assert_eq!(of_first(&store), (4, 0));
    // An erasure is no fact that another would have to go with.
    let receipt = "ab".repeat(32);
    let home = HOMES[0];
    let site = SiteEvent::HomeErased { home, receipt };
    let erasure = fact(1, 7, 7, Event::Site { site });
    assert_eq!(store.forget_home(&erasure).unwrap(), 4);
    assert_eq!(of_first(&store), (0, 0));
}
