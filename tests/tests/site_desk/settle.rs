//! What two tablets say differently is shown side by side, and the lead chooses with a reason.

use hearthdose_core::record::{Event, SiteEvent};
use hearthdose_core::store::Store;
use hearthdose_tests::kitchen::{World, press, pressable, step, title};
use hearthdose_ui::text::Language;
use hearthdose_ui::vm::Kitchen;
use hearthdose_ui::vm::ports::Shelf;
use hearthdose_ui::vm::view::Intent;

use super::{at_site, at_site_on, packs_in, reading, type_into, words};

struct Tablet(World, Kitchen);

/// The code of the practice home, as its device shows it.
fn a_code(name: &str) -> String {
    let world = World::new(name);
    let mut home = world.start(Language::English);
    press(&mut home, "practise");
    press(&mut home, "show-code");
    reading(&home).picture.unwrap().0.replacen("code:", "", 1)
}

fn serve(kitchen: &mut Kitchen, code: &str) {
    packs_in(kitchen, "QD9000", "2032-05-31", "30");
    type_into(kitchen, "code", code);
    kitchen.take(&Intent::Accept);
    if pressable(&kitchen.view()).contains(&"lead".to_owned()) {
        press(kitchen, "lead");
        type_into(kitchen, "reason", "Ana Reyes");
    }
    press(kitchen, "give");
    press(kitchen, "line");
}

/// The record of one tablet is carried to another and taken in there.
fn carry(from: &mut Tablet, to: &mut Tablet) {
    press(&mut from.1, "shift");
    press(&mut from.1, "write-shift");
    press(&mut from.1, "told");
    press(&mut from.1, "line");
    let file = std::fs::read_dir(from.0.folder())
        .unwrap()
        .map(|file| file.unwrap().path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "shift"))
        .max_by_key(|path| std::fs::metadata(path).unwrap().modified().unwrap());
    to.0.carry("other.shift", std::fs::read(file.unwrap()).unwrap());
    press(&mut to.1, "shift");
    press(&mut to.1, "shift:0");
    if pressable(&to.1.view()).contains(&"trust-shift".to_owned()) {
        press(&mut to.1, "trust-shift");
    }
}

/// Two tablets, each of which served the home of one code.
fn two_that_served(name: &str) -> (Tablet, Tablet) {
    let code = a_code(&format!("settle-{name}-home"));
    let (world, kitchen) = at_site(&format!("settle-{name}-one"));
    let mut one = Tablet(world, kitchen);
    let (world, kitchen) = at_site_on(&format!("settle-{name}-two"), 9);
    let mut two = Tablet(world, kitchen);
    serve(&mut one.1, &code);
    serve(&mut two.1, &code);
    (one, two)
}

/// Packs of each hand-out in a record.
fn given(world: &World) -> Vec<u32> {
    let (store, _) = Store::open(&world.path(Shelf::Site)).unwrap();
    let facts = store.facts().unwrap().into_iter();
    let packs = facts.filter_map(|fact| match fact.event {
        Event::Site {
            site: SiteEvent::HandedOut { lines, .. },
        } => Some(lines.iter().map(|line| line.packs).sum()),
        _ => None,
    });
    packs.collect()
}

fn settle(kitchen: &mut Kitchen, title_of_side: &str) {
    press(kitchen, "settle:0");
    let choices = step(&kitchen.view()).choices.clone();
    let side = choices.iter().find(|choice| choice.title == title_of_side);
    press(kitchen, &side.unwrap().id);
    assert_eq!(title(&kitchen.view()), "Why is this right?");
    // Without a reason nothing is settled.
    assert!(!pressable(&kitchen.view()).contains(&"settled".to_owned()));
    type_into(kitchen, "reason", "Ana Reyes: looked into both bags");
    press(kitchen, "settled");
}

fn open_matters(kitchen: &mut Kitchen) {
    press(kitchen, "line");
    press(kitchen, "day");
    press(kitchen, "to-settle");
}

#[test]
fn of_two_hand_outs_the_lead_takes_the_wrong_one_back() {
    let (mut one, mut two) = two_that_served("twice");
    carry(&mut two, &mut one);
    let kitchen = &mut one.1;
    press(kitchen, "told");
    assert_eq!(title(&kitchen.view()), "To settle");
    press(kitchen, "settle:0");
    let shown = step(&kitchen.view()).clone();
    assert_eq!(
        shown.note.as_ref().unwrap().title,
        "Until you choose, both count."
    );
    // Who says what stands in each of the two.
    assert!(
        shown.choices[0].detail.contains("this tablet"),
        "{shown:?}",
        shown = shown.choices
    );
    assert!(shown.choices[1].detail.contains("tablet "));
    assert!(
        shown
            .choices
            .iter()
            .take(2)
            .all(|side| side.detail.contains("Lot QD9000"))
    );
    // Until then the day tells of it.
    press(kitchen, "settle-home");
    open_matters(kitchen);
    settle(kitchen, "The second was wrong");
    press(kitchen, "told");
    assert!(words(kitchen).contains("Everything fits together."));
    press(kitchen, "line");
    press(kitchen, "shelves");
    let left = 60 - given(&one.0)[0];
    assert!(
        words(kitchen).contains(&format!("Lot QD9000. {left} packs")),
        "{}",
        words(kitchen)
    );
    press(kitchen, "line");
    press(kitchen, "day");
    assert!(!pressable(&kitchen.view()).contains(&"to-settle".to_owned()));
}

/// One lead takes it back, the other writes down that both were right: shown side by side, and settled for good.
#[test]
fn two_leads_who_say_different_things_are_shown_side_by_side() {
    let (mut one, mut two) = two_that_served("leads");
    carry(&mut two, &mut one);
    press(&mut one.1, "told");
    carry_back(&mut one, &mut two);
    settle(&mut one.1, "The second was wrong");
    press(&mut one.1, "told");
    settle(&mut two.1, "Both were right");
    press(&mut two.1, "told");
    assert!(words(&two.1).contains("Everything fits together."));
    press(&mut one.1, "line");
    press(&mut two.1, "line");
    carry(&mut two, &mut one);
    press(&mut one.1, "told");
    let kitchen = &mut one.1;
    assert!(words(kitchen).contains("One entry was changed in two ways."));
    press(kitchen, "settle:0");
    let shown = step(&kitchen.view()).clone();
    let titles: Vec<_> = shown
        .choices
        .iter()
        .map(|side| side.title.as_str())
        .collect();
    assert_eq!(titles.len(), 2);
    assert!(titles.contains(&"They went out") && titles.contains(&"They were taken back"));
    assert!(shown.choices.iter().all(|side| {
        side.detail
            .contains("The lead said: Ana Reyes: looked into both bags.")
    }));
    kitchen.take(&Intent::Back);
    settle(kitchen, "They went out");
    // Its packs were noted as back: nobody but a count puts that right.
    assert!(
        words(kitchen).contains("Count these lots: QD9000"),
        "{}",
        words(kitchen)
    );
    press(kitchen, "told");
    assert!(words(kitchen).contains("Everything fits together."));
}

/// The other way round, from a tablet whose list is open.
fn carry_back(from: &mut Tablet, to: &mut Tablet) {
    press(&mut from.1, "line");
    press(&mut to.1, "line");
    carry(from, to);
    press(&mut to.1, "told");
    press(&mut from.1, "day");
    press(&mut from.1, "to-settle");
}
