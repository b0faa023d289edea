//! The weighing station: from the line to a person on the scale, and the dose that follows.

use hearthdose_core::household::Manner;
use hearthdose_core::record::{Event, SiteEvent};
use hearthdose_core::store::Store;
use hearthdose_tests::kitchen::{World, press, pressable, step, title};
use hearthdose_ui::text::Language;
use hearthdose_ui::vm::ports::Shelf;
use hearthdose_ui::vm::view::Intent;

use super::{at_site, nobody, person, type_into, weigh_twice, words};

#[test]
fn a_child_is_looked_up_weighed_and_has_its_dose() {
    let (world, mut kitchen) = at_site("station");
    press(&mut kitchen, "family");
    person(&mut kitchen, "Lena", "34", "141 lb");
    press(&mut kitchen, "person-in");
    person(&mut kitchen, "Bram", "3", "");
    press(&mut kitchen, "family-all");
    nobody(&mut kitchen);
    press(&mut kitchen, "line");
    press(&mut kitchen, "station");
    press(&mut kitchen, "weigher");
    type_into(&mut kitchen, "weigher", "Wim Aldersey");
    press(&mut kitchen, "weigher-named");
    assert_eq!(title(&kitchen.view()), "Next on the scale");
    // Who waits is there at once; a few letters find anybody.
    type_into(&mut kitchen, "code", "bram");
    let home = step(&kitchen.view()).choices[0].id.clone();
    press(&mut kitchen, &home);
    let bram = step(&kitchen.view())
        .choices
        .iter()
        .find(|choice| choice.title == "Bram")
        .unwrap()
        .clone();
    assert!(bram.detail.ends_with("no dose yet"), "{}", bram.detail);
    press(&mut kitchen, &bram.id);
    // 13.6 kg is 29.98 lb: the line of 26 to 38 lb, one and a half teaspoons.
    press(&mut kitchen, "unit-kg");
    weigh_twice(&mut kitchen, "13.6", "13.6");
    press(&mut kitchen, "weighed");
    assert_eq!(title(&kitchen.view()), "Who steps on the scale?");
    let bram = step(&kitchen.view())
        .choices
        .iter()
        .find(|choice| choice.title == "Bram")
        .unwrap()
        .clone();
    assert_eq!(bram.detail, "13.6 kg · 1½ teaspoons (7.5 mL)");
    press(&mut kitchen, "station");
    assert_eq!(title(&kitchen.view()), "Next on the scale");
    let (store, _) = Store::open(&world.path(Shelf::Site)).unwrap();
    let weighed: Vec<(String, Manner, Option<String>)> = store
        .facts()
        .unwrap()
        .into_iter()
        .filter_map(|fact| match fact.event {
            Event::Site {
                site:
                    SiteEvent::HomeWeighed {
                        weight, manner, by, ..
                    },
            } => Some((weight, manner, by)),
            _ => None,
        })
        .collect();
    let by = Some("Wim Aldersey".to_owned());
    assert_eq!(weighed, [("13.6 kg".to_owned(), Manner::Site, by)]);
    // Their page tells who it was; the name stays until somebody else takes over.
    assert!(words(&kitchen).contains("Wim Aldersey"));
    press(&mut kitchen, "find");
    type_into(&mut kitchen, "find", "bram");
    let home = step(&kitchen.view()).choices[0].id.clone();
    press(&mut kitchen, &home);
    let people = pressable(&kitchen.view());
    let people = people.into_iter().filter(|id| id.starts_with("person:"));
    let told: Vec<bool> = people
        .map(|id| {
            press(&mut kitchen, &id);
            let told =
                words(&kitchen).contains("Weighed here on Thursday, April 3 by Wim Aldersey.");
            kitchen.take(&Intent::Back);
            told
        })
        .collect();
    assert_eq!(told.iter().filter(|told| **told).count(), 1);
}

/// 172 lb with the child and 150 lb without are 22 lb.
#[test]
fn a_child_in_arms_is_what_both_weigh_more() {
    let (_world, mut kitchen) = at_site("station-arms");
    press(&mut kitchen, "family");
    person(&mut kitchen, "Ilse", "1 y 2 mo", "");
    press(&mut kitchen, "family-all");
    nobody(&mut kitchen);
    press(&mut kitchen, "station");
    let home = pressable(&kitchen.view())
        .into_iter()
        .find(|id| id.starts_with("home:"))
        .unwrap();
    press(&mut kitchen, &home);
    let weigh = step(&kitchen.view()).choices[0].id.clone();
    press(&mut kitchen, &weigh);
    press(&mut kitchen, "scale-other");
    for turn in 0..2 {
        for (line, reading) in [("field:0", "172"), ("field:1", "150")] {
            press(&mut kitchen, line);
            for digit in reading.chars() {
                press(&mut kitchen, &format!("key:{digit}"));
            }
        }
        if turn == 0 {
            press(&mut kitchen, "next");
        }
    }
    // Back from the second time leads to the first, with what was read.
    kitchen.take(&Intent::Back);
    assert!(words(&kitchen).contains("172"));
    press(&mut kitchen, "next");
    press(&mut kitchen, "weighed");
    let detail = step(&kitchen.view()).choices[0].detail.clone();
    // The line of 13 to 25 lb is one teaspoon.
    assert_eq!(detail, "22 lb · 1 teaspoon (5 mL)");
}

/// A scanner types the home's code into the same line.
#[test]
fn a_code_leads_to_its_home() {
    let home_world = World::new("station-home");
    let mut home = home_world.start(Language::English);
    press(&mut home, "practise");
    press(&mut home, "show-code");
    let code = super::reading(&home).picture.unwrap().0;
    let (_world, mut kitchen) = at_site("station-code");
    press(&mut kitchen, "station");
    type_into(&mut kitchen, "code", code.strip_prefix("code:").unwrap());
    kitchen.take(&Intent::Accept);
    assert_eq!(title(&kitchen.view()), "Who steps on the scale?");
    assert!(step(&kitchen.view()).choices.len() > 1);
    press(&mut kitchen, "station");
    type_into(&mut kitchen, "code", "nobody of this name");
    kitchen.take(&Intent::Accept);
    assert_eq!(title(&kitchen.view()), "Next on the scale");
    assert!(words(&kitchen).contains("There is no home of this name here"));
}
