//! Codes that come to a household: nothing is taken in unseen, unsaid, or a second time.
#![expect(
    clippy::unwrap_used,
    reason = "what builds a case fails the test, wherever it stands"
)]

use hearthdose_core::exchange::{DeviceSecret, Message, Scan, frames, write, write_frame};
use hearthdose_core::household::HouseholdId;
use hearthdose_tests::kitchen::{World, press};
use hearthdose_tests::tour::{receipt, shown_code};
use hearthdose_ui::text::Language;
use hearthdose_ui::vm::Kitchen;
use hearthdose_ui::vm::view::{Intent, Screen};

const ORDER: &str = include_str!("../../demo-data/orders/quillmere-doxy-1.toml");
const NEWER: &str = include_str!("../../demo-data/orders/quillmere-doxy-2.toml");

/// A practice home whose people page is open.
fn at_home(name: &str) -> (World, Kitchen) {
    let world = World::new(name);
    let mut kitchen = world.start(Language::English);
    press(&mut kitchen, "practise");
    (world, kitchen)
}

/// A scanner types the code and ends with Enter.
fn scan(kitchen: &mut Kitchen, text: &str) {
    kitchen.take(&Intent::Type {
        id: "code".to_owned(),
        text: text.to_owned(),
    });
    kitchen.take(&Intent::Accept);
}

fn said(kitchen: &Kitchen) -> String {
    match kitchen.view().screen {
        Screen::Step(step) => step.note.map_or(step.title, |note| note.title),
        Screen::Reading(reading) => reading.title,
        Screen::Today(today) => today.title,
        Screen::Start(start) => start.question,
    }
}

/// Tablets that came into the house so far.
fn tablets(kitchen: &Kitchen) -> u64 {
    let state = kitchen.state().unwrap();
    state.packs.iter().map(|pack| u64::from(pack.tablets)).sum()
}

fn own_receipt(kitchen: &mut Kitchen) -> String {
    press(kitchen, "people");
    press(kitchen, "show-code");
    receipt(&shown_code(&kitchen.view()).unwrap())
}

#[test]
fn a_receipt_is_counted_once_and_only_after_a_yes() {
    let (_world, mut kitchen) = at_home("receipt");
    let before = tablets(&kitchen);
    let slip = own_receipt(&mut kitchen);
    press(&mut kitchen, "receive-code");
    scan(&mut kitchen, &slip);
    assert_eq!(said(&kitchen), "Is this what you got?");
    press(&mut kitchen, "not-this-slip");
    press(&mut kitchen, "today");
    assert_eq!(tablets(&kitchen), before);
    press(&mut kitchen, "people");
    press(&mut kitchen, "show-code");
    press(&mut kitchen, "receive-code");
    scan(&mut kitchen, &format!("{slip}\r\n"));
    press(&mut kitchen, "take-slip");
    press(&mut kitchen, "told");
    assert_eq!(tablets(&kitchen), before + 40);
    let state = kitchen.state().unwrap();
    let pack = state.packs.last().unwrap();
    assert_eq!(
        (pack.product.as_str(), pack.lot.as_deref()),
        ("tablet-100", Some("QD4471A"))
    );
    // The same receipt once more, and another one for somebody else.
    press(&mut kitchen, "people");
    press(&mut kitchen, "show-code");
    press(&mut kitchen, "receive-code");
    scan(&mut kitchen, &slip);
    assert_eq!(
        said(&kitchen),
        "This receipt is in the record already. You do not have to do anything."
    );
}

#[test]
fn what_is_not_for_this_home_is_told_and_changes_nothing() {
    let (_world, mut kitchen) = at_home("strange-codes");
    let slip = own_receipt(&mut kitchen);
    let Screen::Reading(reading) = kitchen.view().screen else {
        panic!("a code is shown");
    };
    let own_code = reading.picture.unwrap().0;
    let own_code = own_code.strip_prefix("code:").unwrap().to_owned();
    let Scan::Message(scanned) = Scan::read(&slip) else {
        panic!("a slip");
    };
    let Message::Slip(mut other) = scanned.message else {
        panic!("a slip");
    };
    other.household = HouseholdId([9; 8]);
    let secret = DeviceSecret::from_bytes(&[7; 32]);
    let other = write(&Message::Slip(other), &secret).unwrap();
    // One letter of the text was read as another one.
    let mut bent: Vec<char> = slip.chars().collect();
    bent[20] = if bent[20] == 'A' { 'B' } else { 'A' };
    let bent: String = bent.into_iter().collect();
    press(&mut kitchen, "receive-code");
    for (text, expected) in [
        (
            other.as_str(),
            "This receipt is for another home. Open that home first.",
        ),
        (
            own_code.as_str(),
            "This code is for a dispensing site. Show it there.",
        ),
        (
            bent.as_str(),
            "The code cannot be read whole. Scan it once more.",
        ),
        (
            &slip[..slip.len() / 2],
            "The code cannot be read whole. Scan it once more.",
        ),
        (
            "HD2ABCZ",
            "This code was made by a newer version. Please update.",
        ),
        (
            "4006381333931",
            "This is another kind of code. Look for the one on your receipt.",
        ),
    ] {
        scan(&mut kitchen, text);
        assert_eq!(said(&kitchen), expected, "{text}");
    }
}

#[test]
fn instructions_arrive_in_parts_in_any_order_and_are_compared_before_they_count() {
    let world = World::new("order-by-code");
    let mut kitchen = world.start(Language::English);
    press(&mut kitchen, "receive-code");
    let all: Vec<String> = frames(ORDER.as_bytes(), 4)
        .unwrap()
        .iter()
        .map(|frame| write_frame(frame).unwrap())
        .collect();
    let foreign = write_frame(&frames(NEWER.as_bytes(), 0).unwrap()[0]).unwrap();
    scan(&mut kitchen, all.last().unwrap());
    scan(&mut kitchen, &foreign);
    assert_eq!(
        said(&kitchen),
        "This part belongs to something else. Begin again."
    );
    // Every second one was missed; the spare ones make up for two.
    for text in all.iter().rev() {
        scan(&mut kitchen, text);
        if matches!(kitchen.view().screen, Screen::Reading(_)) {
            break;
        }
    }
    assert_eq!(said(&kitchen), "Is this the right one?");
    press(&mut kitchen, "take-paper");
    assert_eq!(said(&kitchen), "Who takes this medicine?");
}

#[test]
fn pictures_are_looked_for_in_the_usual_folders() {
    let world = World::new("order-by-pictures");
    let mut kitchen = world.start(Language::English);
    press(&mut kitchen, "receive-code");
    press(&mut kitchen, "look-for-codes");
    assert_eq!(
        said(&kitchen),
        "No code was found in pictures. Put a picture of it in Downloads. Then look again."
    );
    let all = frames(ORDER.as_bytes(), 0).unwrap();
    for frame in &all {
        world.codes.borrow_mut().push(write_frame(frame).unwrap());
    }
    press(&mut kitchen, "look-for-codes");
    assert_eq!(said(&kitchen), "Is this the right one?");
}
