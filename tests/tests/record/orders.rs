//! An older revision of an order never replaces a newer one.

use hearthdose_core::prep::OrderRef;
use hearthdose_core::record::{Event, Fact, fold};
use proptest::prelude::*;

use crate::facts::fact;

fn taken(sequence: u64, id: &str, revision: u32) -> Fact {
    let order = OrderRef {
        id: id.to_owned(),
        revision,
    };
    fact(
        1,
        sequence,
        i64::try_from(sequence).unwrap(),
        Event::OrderTaken {
            order,
            fingerprint: String::new(),
        },
    )
}

fn followed(facts: &[Fact]) -> (String, u32) {
    let order = fold(facts).order.unwrap();
    (order.id, order.revision)
}

#[test]
fn the_newer_revision_stays() {
    assert_eq!(
        followed(&[taken(1, "doxy", 2), taken(2, "doxy", 1)]),
        ("doxy".to_owned(), 2)
    );
    assert_eq!(
        followed(&[taken(1, "doxy", 1), taken(2, "doxy", 2)]),
        ("doxy".to_owned(), 2)
    );
    assert_eq!(
        followed(&[taken(1, "doxy", 2), taken(2, "cipro", 1)]),
        ("cipro".to_owned(), 1)
    );
    // Not even when another order was followed in between.
    let back = [
        taken(1, "doxy", 2),
        taken(2, "cipro", 1),
        taken(3, "doxy", 1),
    ];
    assert_eq!(followed(&back), ("doxy".to_owned(), 2));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn whatever_arrives_when(
        facts in prop::collection::vec((prop::sample::select(vec!["a", "b"]), 1..9_u32), 1..12)
            .prop_map(|taken_orders| (1..).zip(taken_orders).map(|(n, (id, revision))| taken(n, id, revision)).collect::<Vec<_>>())
            .prop_flat_map(|facts| (Just(facts.clone()), Just(facts).prop_shuffle()))
    ) {
        let (in_order, shuffled) = facts;
        let revision = |fact: &Fact| match &fact.event {
            Event::OrderTaken { order, .. } => (order.id.clone(), order.revision),
            _ => unreachable!("only orders are taken here"),
        };
        let last = revision(in_order.last().unwrap()).0;
        let newest = in_order.iter().map(revision).filter(|(id, _)| *id == last).map(|(_, revision)| revision).max().unwrap();
        prop_assert_eq!(followed(&shuffled), (last, newest));
    }
}
