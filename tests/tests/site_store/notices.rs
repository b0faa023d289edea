//! The issuer's messages at a site: of two rules the later counts, wherever and whenever they were heard.

use hearthdose_core::record::{Change, Event, Fact};
use hearthdose_core::store::Store;
use hearthdose_tests::people::demo_text;

use crate::facts::{fact, fact_id};

fn taken(on: u64, sequence: u64, millis: i64, name: &str) -> Fact {
    let text = demo_text(&format!("notices/quillmere-{name}"));
    fact(on, sequence, millis, Event::NoticeTaken { text })
}

fn ids(store: &Store) -> Vec<String> {
    let notices = store.notices().unwrap();
    notices.into_iter().map(|notice| notice.id).collect()
}

#[test]
fn they_stand_in_the_order_of_facts_and_each_once() {
    let first = taken(2, 1, 10, "quarantine-lot");
    let second = taken(1, 1, 20, "recall-lot");
    let again = taken(3, 1, 25, "quarantine-lot");
    let third = taken(1, 2, 30, "extend-lot");
    let all = [first.clone(), second.clone(), again, third.clone()];
    let expected: Vec<String> = {
        let mut one = Store::in_memory().unwrap();
        let each = [first, second.clone(), third].map(|fact| {
            let mut alone = Store::in_memory().unwrap();
            alone.append(&[fact]).unwrap();
            ids(&alone).remove(0)
        });
        one.append(&all).unwrap();
        assert_eq!(ids(&one), each);
        each.to_vec()
    };
    assert_ne!(expected[0], expected[1]);
    // Whatever was heard first.
    for order in [[3, 2, 1, 0], [1, 3, 0, 2], [2, 0, 3, 1]] {
        let mut store = Store::in_memory().unwrap();
        for at in order {
            store.append(&all[at..=at]).unwrap();
        }
        assert_eq!(ids(&store), expected, "{order:?}");
        // One that was taken back is gone, the others stay where they were.
        let change = Change::Withdraw { reason: None };
        let target = second.id;
        assert_eq!(target, fact_id(1, 1));
        let back = fact(1, 3, 40, Event::Correction { target, change });
        store.append(&[back]).unwrap();
        assert_eq!(ids(&store), [&expected[0][..], &expected[2]], "{order:?}");
    }
}
