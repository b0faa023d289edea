//! A line of the paper list, typed in at the window.

use hearthdose_core::record::{Event, SiteEvent};
use hearthdose_core::store::Store;
use hearthdose_tests::kitchen::{press, pressable, step, title};
use hearthdose_ui::vm::Kitchen;
use hearthdose_ui::vm::ports::Shelf;

use super::{adult, at_site, packs_in, type_into, words};

/// It is half past seven in the evening; the list says twenty past two.
#[test]
fn a_line_of_the_list_comes_in_with_its_time_and_its_packs() {
    let (world, mut kitchen) = at_site("list");
    packs_in(&mut kitchen, "QD9000", "2032-05-31", "30");
    adult(&mut kitchen, "Wim");
    press(&mut kitchen, "list");
    // The lead's word comes with it.
    assert!(!pressable(&kitchen.view()).contains(&"list-in".to_owned()));
    type_into(&mut kitchen, "reason", "Ana Reyes: the battery was empty");
    let said = |kitchen: &Kitchen, text: &str| {
        let view = kitchen.view();
        let step = step(&view);
        let above = step.entry.iter().flat_map(|entry| &entry.fields);
        let told = above.map(|field| field.problem.clone());
        let note = step.note.iter().map(|note| note.title.clone());
        assert!(told.chain(note).any(|told| told.contains(text)), "{text}");
    };
    press(&mut kitchen, "list-in");
    said(&kitchen, "This is no time");
    for unread in [
        "25:10",
        "2",
        "14:2",
        "13:20 p.m.",
        "14:60",
        "-2:20",
        "later",
    ] {
        type_into(&mut kitchen, "time", unread);
        press(&mut kitchen, "list-in");
        said(&kitchen, "This is no time");
    }
    type_into(&mut kitchen, "time", "2:20 p.m.");
    press(&mut kitchen, "list-in");
    said(&kitchen, "No packs were typed");
    type_into(&mut kitchen, "packs-0", "2");
    type_into(&mut kitchen, "day", "tomorrow");
    press(&mut kitchen, "list-in");
    said(&kitchen, "This is no day");
    type_into(&mut kitchen, "day", "2031-04-04");
    press(&mut kitchen, "list-in");
    said(&kitchen, "still to come");
    type_into(&mut kitchen, "day", "2031-04-03");
    press(&mut kitchen, "list-in");
    assert!(words(&kitchen).contains("2 packs of 20 tablets. Lot QD9000"));
    press(&mut kitchen, "told");
    assert_eq!(title(&kitchen.view()), "Wim");
    let (store, _) = Store::open(&world.path(Shelf::Site)).unwrap();
    let facts = store.facts().unwrap();
    let mut given = facts.iter().filter(|fact| {
        matches!(
            &fact.event,
            Event::Site {
                site: SiteEvent::HandedOut { .. }
            }
        )
    });
    let given = given.next().unwrap();
    assert_eq!(given.at, "2031-04-03T14:20:00-05:00".parse().unwrap());
    // Typed in once more it is known; the shelf lacks its packs once.
    press(&mut kitchen, "list");
    type_into(&mut kitchen, "time", "14:20");
    type_into(&mut kitchen, "packs-0", "2");
    type_into(&mut kitchen, "reason", "Ana Reyes: the battery was empty");
    press(&mut kitchen, "list-in");
    said(&kitchen, "in the record already");
    press(&mut kitchen, "to-home");
    press(&mut kitchen, "line");
    press(&mut kitchen, "shelves");
    assert!(words(&kitchen).contains("Lot QD9000. 28 packs"));
}

#[test]
fn an_empty_list_is_printed_from_the_day() {
    let (world, mut kitchen) = at_site("empty-list");
    press(&mut kitchen, "day");
    press(&mut kitchen, "print-list");
    assert!(words(&kitchen).contains("hearthdose-list.pdf"));
    let left = std::fs::read(world.folder().join("hearthdose-list.pdf")).unwrap();
    assert!(left.starts_with(b"%PDF-"));
}
