//! A home is forgotten at the window: told what it means, refused until it was handed over, and a receipt stays.

use hearthdose_core::exchange::{Erasure, Message, Scan};
use hearthdose_core::record::{Event, Fact, SiteEvent};
use hearthdose_core::store::Store;
use hearthdose_tests::kitchen::{World, press, pressable, title};
use hearthdose_ui::vm::Kitchen;
use hearthdose_ui::vm::ports::Shelf;

use super::{adult, at_site, packs_in, reading, type_into, words};

fn facts(world: &World) -> Vec<Fact> {
    let (store, _) = Store::open(&world.path(Shelf::Site)).unwrap();
    store.facts().unwrap()
}

fn receipt(kitchen: &Kitchen) -> Erasure {
    let text = reading(kitchen).picture.unwrap().0;
    match Scan::read(text.strip_prefix("code:").unwrap()) {
        Scan::Message(scanned) => match scanned.message {
            Message::Erasure(erasure) => erasure,
            other => panic!("no receipt: {other:?}"),
        },
        other => panic!("not read: {other:?}"),
    }
}

fn at_forget(kitchen: &mut Kitchen) {
    packs_in(kitchen, "QD9000", "2032-05-31", "30");
    adult(kitchen, "Wim");
    press(kitchen, "give");
    press(kitchen, "to-home");
    press(kitchen, "forget");
    assert_eq!(title(&kitchen.view()), "Forget this home?");
}

#[test]
fn a_home_in_no_file_is_forgotten_only_with_a_reason() {
    let (world, mut kitchen) = at_site("forget-reason");
    at_forget(&mut kitchen);
    assert!(words(&kitchen).contains("in no file"));
    assert!(!pressable(&kitchen.view()).contains(&"forgotten".to_owned()));
    press(&mut kitchen, "to-home");
    assert_eq!(title(&kitchen.view()), "Wim");
    press(&mut kitchen, "forget");
    // A code, a name, a private answer and a hand-out.
    let about_home = facts(&world)
        .iter()
        .filter(|fact| matches!(&fact.event, Event::Site { site } if site.home().is_some()))
        .count();
    type_into(&mut kitchen, "reason", "They asked for it");
    press(&mut kitchen, "forgotten");
    assert_eq!(title(&kitchen.view()), "A home was forgotten");
    let erasure = receipt(&kitchen);
    assert_eq!(usize::try_from(erasure.facts).unwrap(), about_home);
    assert_eq!(erasure.reason.as_deref(), Some("They asked for it"));
    // Nothing of them is left; what went out of the lot stays counted.
    let left = facts(&world);
    let homes: Vec<_> = left
        .iter()
        .filter(|fact| matches!(&fact.event, Event::Site { site } if site.home().is_some()))
        .collect();
    assert_eq!(homes.len(), 1);
    assert!(matches!(
        &homes[0].event,
        Event::Site {
            site: SiteEvent::HomeErased { .. }
        }
    ));
    press(&mut kitchen, "print-erasure");
    press(&mut kitchen, "told");
    let paper = std::fs::read(world.folder().join("hearthdose-forgotten.pdf")).unwrap();
    assert!(paper.starts_with(b"%PDF-") && paper.len() > 2_000);
    press(&mut kitchen, "line");
    press(&mut kitchen, "find");
    type_into(&mut kitchen, "find", "wim");
    assert!(words(&kitchen).contains("There is no home of this name here"));
    press(&mut kitchen, "shelves");
    assert!(words(&kitchen).contains("Lot QD9000. 28 packs"));
    // The receipt can be had again.
    press(&mut kitchen, "line");
    press(&mut kitchen, "roles");
    press(&mut kitchen, "last-erasure");
    assert_eq!(receipt(&kitchen), erasure);
}

#[test]
fn after_the_record_was_written_no_reason_is_asked() {
    let (_world, mut kitchen) = at_site("forget-written");
    at_forget(&mut kitchen);
    press(&mut kitchen, "shift");
    press(&mut kitchen, "write-shift");
    press(&mut kitchen, "told");
    press(&mut kitchen, "find");
    type_into(&mut kitchen, "find", "wim");
    let home = pressable(&kitchen.view())
        .into_iter()
        .find(|id| id.starts_with("home:"))
        .unwrap();
    press(&mut kitchen, &home);
    press(&mut kitchen, "forget");
    press(&mut kitchen, "forgotten");
    assert_eq!(receipt(&kitchen).reason, None);
}

#[test]
fn where_the_lead_has_a_pin_nobody_else_forgets_a_home() {
    let (world, mut kitchen) = at_site("forget-pin");
    super::pins::set_pin(&mut kitchen, "pin-lead", "", "4071");
    at_forget(&mut kitchen);
    let before = facts(&world);
    type_into(&mut kitchen, "reason", "They asked for it");
    press(&mut kitchen, "forgotten");
    assert_eq!(title(&kitchen.view()), "The lead's PIN");
    assert_eq!(facts(&world), before);
    super::pins::keys(&mut kitchen, "4071");
    assert_eq!(title(&kitchen.view()), "A home was forgotten");
}
