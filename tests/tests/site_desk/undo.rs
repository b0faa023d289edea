//! A hand-out that was wrong, taken back at the window.

use hearthdose_core::record::{Change, Event};
use hearthdose_core::store::Store;
use hearthdose_tests::kitchen::{press, pressable, title};
use hearthdose_ui::vm::Kitchen;
use hearthdose_ui::vm::ports::Shelf;

use super::{adult, at_site, packs_in, type_into, words};

/// The packs of a hand-out that was wrong stand on the shelf again, the home waits for its own, and the record says who said so and why.
#[test]
fn a_wrong_hand_out_is_taken_back_by_the_lead_with_a_reason() {
    let (world, mut kitchen) = at_site("undo");
    packs_in(&mut kitchen, "QD9000", "2032-05-31", "30");
    adult(&mut kitchen, "Wim");
    press(&mut kitchen, "give");
    let undo = |kitchen: &Kitchen| {
        let ids = pressable(&kitchen.view());
        ids.into_iter().find(|id| id.starts_with("undo:"))
    };
    let from_receipt = undo(&kitchen).unwrap();
    press(&mut kitchen, &from_receipt);
    // Without a reason nothing is taken back.
    assert!(!pressable(&kitchen.view()).contains(&"undone".to_owned()));
    press(&mut kitchen, "to-home");
    assert_eq!(undo(&kitchen).as_ref(), Some(&from_receipt));
    press(&mut kitchen, &from_receipt);
    type_into(
        &mut kitchen,
        "reason",
        "Ana Reyes: the bag of somebody else",
    );
    press(&mut kitchen, "undone");
    assert!(words(&kitchen).contains("2 packs of 20 tablets. Lot QD9000"));
    press(&mut kitchen, "told");
    assert_eq!(title(&kitchen.view()), "Wim");
    assert_eq!(undo(&kitchen), None);
    // Nobody asks the lead a second time: what was withdrawn was never handed out.
    assert!(pressable(&kitchen.view()).contains(&"give".to_owned()));
    press(&mut kitchen, "line");
    press(&mut kitchen, "shelves");
    assert!(words(&kitchen).contains("Lot QD9000. 30 packs"));
    let (store, _) = Store::open(&world.path(Shelf::Site)).unwrap();
    let reasons: Vec<Option<String>> = store
        .facts()
        .unwrap()
        .into_iter()
        .filter_map(|fact| match fact.event {
            Event::Correction {
                change: Change::Withdraw { reason },
                ..
            } => Some(reason),
            _ => None,
        })
        .collect();
    assert_eq!(
        reasons,
        [Some("Ana Reyes: the bag of somebody else".to_owned())]
    );
}
