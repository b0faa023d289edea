//! Records of tablets brought together by codes alone: shown part by part, scanned in any order, taken in like a file.

use hearthdose_tests::kitchen::{World, press, pressable, step, title};
use hearthdose_ui::text::Language;
use hearthdose_ui::vm::Kitchen;
use hearthdose_ui::vm::view::Intent;
use jiff::SignedDuration;

use super::locked::opening;
use super::{adult, at_site, at_site_on, packs_in, reading, type_into, words};

fn shown(kitchen: &Kitchen) -> String {
    let picture = reading(kitchen).picture.unwrap().0;
    picture.strip_prefix("code:").unwrap().to_owned()
}

/// "Part 3 of 20": 20.
fn parts(kitchen: &Kitchen) -> usize {
    let lead = reading(kitchen).lead;
    lead.rsplit(' ').next().unwrap().parse().unwrap()
}

/// One tablet with a hand-out, at its codes.
fn showing(name: &str) -> (World, Kitchen, Vec<String>) {
    let (world, mut kitchen) = at_site(name);
    packs_in(&mut kitchen, "QD9000", "2032-05-31", "30");
    adult(&mut kitchen, "Wim");
    press(&mut kitchen, "give");
    press(&mut kitchen, "shift");
    press(&mut kitchen, "show-shift");
    let mut texts = Vec::new();
    for _ in 0..parts(&kitchen) {
        texts.push(shown(&kitchen));
        press(&mut kitchen, "next-page");
    }
    // After the last part the first one comes again.
    assert_eq!(shown(&kitchen), texts[0]);
    (world, kitchen, texts)
}

fn scan(kitchen: &mut Kitchen, text: &str) {
    type_into(kitchen, "code", &format!("{text}\r\n"));
    kitchen.take(&Intent::Accept);
}

#[test]
fn a_record_goes_over_by_codes_from_the_last_part_to_the_first() {
    let (_one_world, _one, texts) = showing("codes-one");
    let (two_world, _) = at_site_on("codes-two", 9);
    // Private answers are in it, so it is locked; this tablet has the key.
    two_world.site_key.set(Some(opening()));
    let mut two = two_world.start(Language::English);
    press(&mut two, "shift");
    scan(&mut two, &texts[texts.len() - 1]);
    let result = step(&two.view()).entry.clone().unwrap().result.unwrap();
    assert!(result.title.contains('1'), "{}", result.title);
    // A part that is scanned twice counts once; what is no part is told.
    scan(&mut two, &texts[texts.len() - 1]);
    let again = step(&two.view()).entry.clone().unwrap().result.unwrap();
    assert_eq!(again, result);
    scan(&mut two, "0123456789");
    assert!(words(&two).contains("no part of a tablet"));
    for text in texts.iter().rev().skip(1) {
        if title(&two.view()) == "Bring tablets together" {
            scan(&mut two, text);
        }
    }
    // Whose it is, a person says; then it is the report of any file.
    assert_eq!(title(&two.view()), "Is this one of your tablets?");
    press(&mut two, "trust-shift");
    assert_eq!(title(&two.view()), "Taken in");
    press(&mut two, "told");
    press(&mut two, "shelves");
    assert!(words(&two).contains("Lot QD9000. 28 packs"));
}

/// One part in five may be missed by the scanner.
#[test]
fn a_missed_part_is_made_up_for() {
    let (_one_world, _one, texts) = showing("codes-missed-one");
    let (two_world, _) = at_site_on("codes-missed-two", 9);
    two_world.site_key.set(Some(opening()));
    let mut two = two_world.start(Language::English);
    // Pictures in the usual folders: all but the first part.
    *two_world.codes.borrow_mut() = texts[1..].to_vec();
    press(&mut two, "shift");
    press(&mut two, "look-for-parts");
    assert_eq!(title(&two.view()), "Is this one of your tablets?");
    press(&mut two, "trust-shift");
    assert_eq!(title(&two.view()), "Taken in");
}

/// By itself a page stays for three seconds, and stops when somebody says so.
#[test]
fn parts_turn_slowly_by_themselves_and_stop() {
    let (world, mut kitchen, texts) = showing("codes-turn");
    assert!(!kitchen.view().looking);
    press(&mut kitchen, "by-itself");
    assert!(kitchen.view().looking);
    world.pass(SignedDuration::from_millis(2_900));
    kitchen.take(&Intent::Tick);
    assert_eq!(shown(&kitchen), texts[0]);
    world.pass(SignedDuration::from_millis(200));
    kitchen.take(&Intent::Tick);
    assert_eq!(shown(&kitchen), texts[1]);
    press(&mut kitchen, "by-hand");
    world.pass(SignedDuration::from_secs(10));
    kitchen.take(&Intent::Tick);
    assert_eq!(shown(&kitchen), texts[1]);
    assert!(pressable(&kitchen.view()).contains(&"next-page".to_owned()));
}
