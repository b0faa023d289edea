//! From a home of the site to its kitchen table, and back to the same home.

use hearthdose_tests::kitchen::{press, pressable, title};
use hearthdose_ui::text::Language;
use hearthdose_ui::vm::Kitchen;
use hearthdose_ui::vm::ports::{Records, Shelf};
use hearthdose_ui::vm::view::{Intent, Screen, TodayView};

use super::{at_site, nobody, packs_in, person, type_into, words};

fn today(kitchen: &Kitchen) -> TodayView {
    match kitchen.view().screen {
        Screen::Today(today) => today,
        other => panic!("not at the table: {other:?}"),
    }
}

fn served(kitchen: &mut Kitchen) {
    packs_in(kitchen, "QD9000", "2032-05-31", "30");
    press(kitchen, "family");
    person(kitchen, "Lena", "34", "141 lb");
    press(kitchen, "only-bowl");
    press(kitchen, "person-in");
    person(kitchen, "Bram", "3", "31 lb");
    press(kitchen, "family-all");
    nobody(kitchen);
    press(kitchen, "give");
    press(kitchen, "to-home");
}

/// The doses at the table are those of the desk: 141 lb is the last line, four teaspoons; 31 lb is one and a half.
#[test]
fn a_home_sits_down_with_what_is_known_of_it() {
    let (world, mut kitchen) = at_site("table");
    served(&mut kitchen);
    press(&mut kitchen, "at-table");
    press(&mut kitchen, "table-hour:8");
    let rows: Vec<(String, String)> = today(&kitchen)
        .rows
        .into_iter()
        .map(|row| (row.name, row.amount))
        .collect();
    assert_eq!(
        rows,
        [
            ("Lena".to_owned(), "4 teaspoons (20 mL)".to_owned()),
            ("Bram".to_owned(), "1½ teaspoons (7.5 mL)".to_owned()),
        ]
    );
    // The packs that went out are in the house.
    let state = kitchen.state().unwrap();
    let tablets: u32 = state.packs.iter().map(|pack| pack.tablets).sum();
    assert!(tablets >= 40, "{tablets}");
    // A round is begun here, and is there again when the window is closed at the table.
    press(&mut kitchen, "begin");
    let begun = title(&kitchen.view());
    drop(kitchen);
    let mut kitchen = world.start(Language::English);
    assert_eq!(title(&kitchen.view()), begun);
    press(&mut kitchen, "today");
    kitchen.take(&Intent::Back);
    assert_eq!(title(&kitchen.view()), "Lena, Bram");
    // The second time it is the same table.
    press(&mut kitchen, "at-table");
    assert!(!kitchen.state().unwrap().open_rounds.is_empty());
    press(&mut kitchen, "today");
    press(&mut kitchen, "to-site");
    assert_eq!(title(&kitchen.view()), "Lena, Bram");
    assert_eq!(world.homes().len(), 1);
}

#[test]
fn who_is_held_at_the_site_is_held_at_the_table() {
    let (_world, mut kitchen) = at_site("table-held");
    press(&mut kitchen, "family");
    super::grown_up(&mut kitchen, "Lena");
    press(&mut kitchen, "person-in");
    super::grown_up(&mut kitchen, "Joos");
    press(&mut kitchen, "family-all");
    for _ in 0..3 {
        press(&mut kitchen, "turn:1");
    }
    nobody(&mut kitchen);
    press(&mut kitchen, "at-table");
    press(&mut kitchen, "table-hour:8");
    let held: Vec<(String, bool)> = today(&kitchen)
        .rows
        .into_iter()
        .map(|row| (row.name, row.held))
        .collect();
    assert!(held.contains(&("Joos".to_owned(), true)), "{held:?}");
    assert!(held.contains(&("Lena".to_owned(), false)), "{held:?}");
}

/// Whoever is forgotten at the site is forgotten at the table of this device too.
#[test]
fn the_record_of_the_table_goes_with_the_home() {
    let (world, mut kitchen) = at_site("table-forgotten");
    served(&mut kitchen);
    press(&mut kitchen, "at-table");
    press(&mut kitchen, "table-hour:8");
    press(&mut kitchen, "to-site");
    assert!(world.path(Shelf::Household(1)).exists());
    press(&mut kitchen, "forget");
    assert!(words(&kitchen).contains("Their record of the kitchen"));
    type_into(&mut kitchen, "reason", "They asked for it");
    press(&mut kitchen, "forgotten");
    assert!(!world.path(Shelf::Household(1)).exists());
    press(&mut kitchen, "line");
    assert!(!pressable(&kitchen.view()).contains(&"to-site".to_owned()));
}

/// The rounds begin when the family wants them; the other times of the day follow from the order.
#[test]
fn the_times_of_the_table_are_the_familys() {
    let (_world, mut kitchen) = at_site("table-times");
    served(&mut kitchen);
    press(&mut kitchen, "at-table");
    press(&mut kitchen, "table-other");
    for unread in ["", "25:10", "seven"] {
        type_into(&mut kitchen, "time", unread);
        let ids = pressable(&kitchen.view());
        assert!(!ids.contains(&"sit-down".to_owned()), "{unread}");
    }
    type_into(&mut kitchen, "time", "6:30");
    assert!(words(&kitchen).contains("6:30 a.m. and 6:30 p.m."));
    press(&mut kitchen, "sit-down");
    let household = kitchen.state().unwrap().household.clone().unwrap();
    let times: Vec<String> = household.rounds.iter().map(ToString::to_string).collect();
    assert_eq!(times, ["06:30:00", "18:30:00"]);
}
