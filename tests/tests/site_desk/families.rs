//! A family half typed in: nothing of it is lost by Back, by other screens, or by closing the window.

use hearthdose_core::record::{Event, SiteEvent};
use hearthdose_core::store::Store;
use hearthdose_tests::kitchen::{press, pressable, step, title};
use hearthdose_ui::text::Language;
use hearthdose_ui::vm::Kitchen;
use hearthdose_ui::vm::ports::Shelf;
use hearthdose_ui::vm::view::{Field, Intent};

use super::{adult, at_site, nobody, packs_in, person, type_into, words};

fn field(kitchen: &Kitchen, id: &str) -> Field {
    let entry = step(&kitchen.view()).entry.clone().unwrap();
    entry.fields.into_iter().find(|line| line.id == id).unwrap()
}

fn parked(kitchen: &Kitchen) -> Vec<String> {
    let ids = pressable(&kitchen.view()).into_iter();
    ids.filter(|id| id.starts_with("parked:")).collect()
}

#[test]
fn whoever_is_half_typed_is_there_again_after_back() {
    let (_world, mut kitchen) = at_site("family-back");
    press(&mut kitchen, "family");
    person(&mut kitchen, "Lena", "34", "141 lb");
    press(&mut kitchen, "person-in");
    person(&mut kitchen, "Bra", "3", "");
    kitchen.take(&Intent::Back);
    assert_eq!(field(&kitchen, "name").value, "Lena");
    type_into(&mut kitchen, "weight", "142 lb");
    press(&mut kitchen, "person-in");
    assert_eq!(field(&kitchen, "name").value, "Bra");
    assert_eq!(field(&kitchen, "age").value, "3");
    type_into(&mut kitchen, "name", "Bram");
    press(&mut kitchen, "family-all");
    press(&mut kitchen, "turn:1");
    press(&mut kitchen, "turn:1");
    // Back among the people and on again: answers stay, too.
    kitchen.take(&Intent::Back);
    assert_eq!(field(&kitchen, "name").value, "Bram");
    press(&mut kitchen, "family-all");
    assert_eq!(step(&kitchen.view()).choices[1].detail, "Yes");
    press(&mut kitchen, "turn:1");
    press(&mut kitchen, "turn:1");
    nobody(&mut kitchen);
    assert_eq!(title(&kitchen.view()), "Lena, Bram");
}

/// Closed in the middle: it waits with what was typed, and is one home, once, when it is done.
#[test]
fn a_family_waits_over_closing_and_is_taken_up_again() {
    let (world, mut kitchen) = at_site("family-parked");
    packs_in(&mut kitchen, "QD9000", "2032-05-31", "30");
    press(&mut kitchen, "family");
    person(&mut kitchen, "Lena", "34", "141 lb");
    press(&mut kitchen, "person-in");
    person(&mut kitchen, "Bram", "3", "31 lb");
    press(&mut kitchen, "family-all");
    press(&mut kitchen, "turn:0");
    press(&mut kitchen, "turn:1");
    press(&mut kitchen, "asked");
    drop(kitchen);
    let mut kitchen = world.start(Language::English);
    // Others are served meanwhile.
    adult(&mut kitchen, "Wim");
    press(&mut kitchen, "line");
    press(&mut kitchen, "waiting");
    let waiting = parked(&kitchen);
    assert_eq!(waiting.len(), 1);
    assert!(words(&kitchen).contains("Lena and Bram"));
    press(&mut kitchen, &waiting[0]);
    assert_eq!(step(&kitchen.view()).place, "Question 2 of 5");
    kitchen.take(&Intent::Back);
    assert_eq!(step(&kitchen.view()).choices[0].detail, "No");
    nobody(&mut kitchen);
    assert_eq!(title(&kitchen.view()), "Lena, Bram");
    press(&mut kitchen, "waiting");
    assert_eq!(parked(&kitchen), Vec::<String>::new());
    let (store, _) = Store::open(&world.path(Shelf::Site)).unwrap();
    let named = store.facts().unwrap().into_iter().filter(|fact| {
        matches!(
            &fact.event,
            Event::Site {
                site: SiteEvent::HomeNamed { words, .. }
            } if words == "Lena, Bram"
        )
    });
    assert_eq!(named.count(), 1);
}

/// Somebody looks at the shelves in the middle of a page.
#[test]
fn what_stands_on_the_page_is_kept_when_one_goes_elsewhere() {
    let (_world, mut kitchen) = at_site("family-elsewhere");
    press(&mut kitchen, "family");
    person(&mut kitchen, "Lena", "34", "");
    press(&mut kitchen, "shelves");
    press(&mut kitchen, "line");
    press(&mut kitchen, "waiting");
    let waiting = parked(&kitchen);
    press(&mut kitchen, &waiting[0]);
    assert_eq!(field(&kitchen, "name").value, "Lena");
    // Thrown away only when somebody says so, twice.
    press(&mut kitchen, "family-away");
    press(&mut kitchen, "waiting");
    assert_eq!(parked(&kitchen), waiting);
    press(&mut kitchen, &waiting[0]);
    press(&mut kitchen, "family-away");
    press(&mut kitchen, "family-gone");
    press(&mut kitchen, "waiting");
    assert_eq!(parked(&kitchen), Vec::<String>::new());
}

/// What cannot be read is said above its line, and the keyboard is there.
#[test]
fn the_keyboard_goes_to_the_line_that_cannot_be_read() {
    let (_world, mut kitchen) = at_site("family-problem");
    press(&mut kitchen, "family");
    person(&mut kitchen, "Lena", "old", "141 lb");
    press(&mut kitchen, "person-in");
    let age = field(&kitchen, "age");
    assert!(age.active && age.problem.contains("This age cannot be read"));
    assert!(!field(&kitchen, "name").active);
    assert!(step(&kitchen.view()).note.is_none());
    // Typing goes on in that line, and what was said goes away.
    type_into(&mut kitchen, "age", "3");
    let age = field(&kitchen, "age");
    assert!(age.active && age.problem.is_empty());
    press(&mut kitchen, "person-in");
    assert!(field(&kitchen, "name").active);
    // A page that was left half typed comes up again with what is missing.
    person(&mut kitchen, "Bram", "", "31 lb");
    kitchen.take(&Intent::Back);
    press(&mut kitchen, "family-all");
    assert_eq!(field(&kitchen, "name").value, "Bram");
    let age = field(&kitchen, "age");
    assert!(age.active && age.problem.contains("How old is this person"));
}
