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

fn taken_orders(facts: &[Fact]) -> Vec<(String, u32)> {
    let orders = fold(facts).orders.into_iter();
    orders.map(|order| (order.id, order.revision)).collect()
}

fn known(orders: &[(&str, u32)]) -> Vec<(String, u32)> {
    let owned = orders
        .iter()
        .map(|(id, revision)| ((*id).to_owned(), *revision));
    owned.collect()
}

#[test]
fn the_newer_revision_stays() {
    assert_eq!(
        taken_orders(&[taken(1, "doxy", 2), taken(2, "doxy", 1)]),
        known(&[("doxy", 2)])
    );
    assert_eq!(
        taken_orders(&[taken(1, "doxy", 1), taken(2, "doxy", 2)]),
        known(&[("doxy", 2)])
    );
    // The first that was taken stays first, whatever is taken beside it.
    assert_eq!(
        taken_orders(&[taken(1, "doxy", 2), taken(2, "cipro", 1)]),
        known(&[("doxy", 2), ("cipro", 1)])
    );
    let back = [
        taken(1, "doxy", 2),
        taken(2, "cipro", 1),
        taken(3, "doxy", 1),
    ];
    assert_eq!(taken_orders(&back), known(&[("doxy", 2), ("cipro", 1)]));
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
        let all: Vec<(String, u32)> = in_order.iter().map(revision).collect();
        let newest = |id: &String| all.iter().filter(|(own, _)| own == id).map(|(_, revision)| *revision).max().unwrap();
        let mut expected: Vec<(String, u32)> = Vec::new();
        for (id, _) in &all {
            if !expected.iter().any(|(known, _)| known == id) {
                expected.push((id.clone(), newest(id)));
            }
        }
        prop_assert_eq!(taken_orders(&shuffled), expected);
    }
}
