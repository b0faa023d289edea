//! Who comes to a site and whether somebody is to translate: said at home in the code, or noted where a family is typed in.

use hearthdose_core::exchange::{HouseholdCode, Message, Scan};
use hearthdose_core::record::{Event, SiteEvent};
use hearthdose_core::store::Store;
use hearthdose_tests::kitchen::{World, press, pressable, step, title};
use hearthdose_ui::text::Language;
use hearthdose_ui::vm::Kitchen;
use hearthdose_ui::vm::ports::Shelf;
use hearthdose_ui::vm::view::{Block, Intent, Screen};

use super::{at_site, grown_up, packs_in, reading, type_into};

fn shown(kitchen: &Kitchen) -> String {
    let picture = reading(kitchen).picture.unwrap();
    picture.0.replacen("code:", "", 1)
}

fn code_of(text: &str) -> HouseholdCode {
    match Scan::read(text) {
        Scan::Message(scanned) => match scanned.message {
            Message::Household(code) => code,
            other => panic!("no home: {other:?}"),
        },
        other => panic!("not read: {other:?}"),
    }
}

fn said(code: &HouseholdCode) -> (bool, Option<bool>) {
    (code.interpreter, code.adult_collects)
}

/// What is noted for the helper, the first first.
fn notes(kitchen: &Kitchen) -> Vec<(String, String)> {
    let blocks = reading(kitchen).blocks.into_iter();
    let notes = blocks.filter_map(|block| match block {
        Block::Note(note) => Some((note.title, note.body)),
        _ => None,
    });
    notes.collect()
}

#[test]
fn a_home_says_it_once_and_the_site_sees_it() {
    let home_world = World::new("came-home");
    let mut home = home_world.start(Language::English);
    press(&mut home, "practise");
    press(&mut home, "show-code");
    let first = code_of(&shown(&home));
    // Nobody is assumed to be anything.
    assert_eq!(said(&first), (false, None));
    press(&mut home, "code-interpreter:yes");
    press(&mut home, "code-collects:minor");
    let text = shown(&home);
    let code = code_of(&text);
    assert_eq!(said(&code), (true, Some(false)));
    assert!(code.issue > first.issue);
    // It holds for the next code, and after the program was closed.
    drop(home);
    let mut home = home_world.start(Language::English);
    press(&mut home, "people");
    press(&mut home, "show-code");
    assert_eq!(said(&code_of(&shown(&home))), (true, Some(false)));
    press(&mut home, "code-collects:adult");
    assert_eq!(said(&code_of(&shown(&home))), (true, Some(true)));
    press(&mut home, "code-collects:open");
    press(&mut home, "code-interpreter:no");
    assert_eq!(said(&code_of(&shown(&home))), (false, None));

    let (_world, mut site) = at_site("came-site");
    packs_in(&mut site, "QD9000", "2032-05-31", "30");
    type_into(&mut site, "code", &text);
    site.take(&Intent::Accept);
    let notes = notes(&site);
    let who = "Nobody grown up came to collect.";
    assert!(notes.iter().any(|(_, body)| body == who), "{notes:?}");
    let cautions: Vec<_> = notes.iter().filter(|(_, body)| body.is_empty()).collect();
    assert_eq!(
        cautions[0].0,
        "They would like an interpreter. Language: English."
    );
    // The lead decides, and nobody is sent away.
    assert!(!pressable(&site.view()).contains(&"give".to_owned()));
    press(&mut site, "lead");
    type_into(&mut site, "reason", "Ana Reyes: the mother is at work");
    press(&mut site, "give");
    assert!(title(&site.view()).starts_with("Handed out"));
}

/// The questions of a family, up to the page of who came.
fn asked(kitchen: &mut Kitchen) {
    while title(&kitchen.view()) != "Who came?" {
        let ids = pressable(&kitchen.view());
        let Screen::Step(shown) = kitchen.view().screen else {
            panic!("{}", title(&kitchen.view()));
        };
        if ids.contains(&"asked".to_owned()) {
            press(kitchen, "asked");
        } else {
            for choice in shown.choices.iter().filter(|choice| !choice.chosen) {
                press(kitchen, &choice.id);
            }
        }
    }
}

#[test]
fn a_family_that_is_typed_in_says_it_too() {
    let (world, mut kitchen) = at_site("came-typed");
    packs_in(&mut kitchen, "QD9000", "2032-05-31", "30");
    for (name, presses) in [
        ("Wim", &[][..]),
        ("Lena", &["turn:collects"][..]),
        (
            "Joos",
            &["turn:interpreter", "turn:collects", "turn:collects"][..],
        ),
    ] {
        press(&mut kitchen, "family");
        grown_up(&mut kitchen, name);
        press(&mut kitchen, "family-all");
        asked(&mut kitchen);
        for id in presses {
            press(&mut kitchen, id);
        }
        // Going back loses nothing.
        let before = step(&kitchen.view()).choices.clone();
        kitchen.take(&Intent::Back);
        press(&mut kitchen, "asked");
        assert_eq!(step(&kitchen.view()).choices, before);
        press(&mut kitchen, "asked");
        assert_eq!(title(&kitchen.view()), name);
        let helped = pressable(&kitchen.view()).contains(&"give".to_owned());
        assert_eq!(helped, name != "Joos");
        press(&mut kitchen, "line");
    }
    let (store, _) = Store::open(&world.path(Shelf::Site)).unwrap();
    let codes: Vec<(bool, Option<bool>)> = store
        .facts()
        .unwrap()
        .into_iter()
        .filter_map(|fact| match fact.event {
            Event::Site {
                site: SiteEvent::HomeSeen { code, .. },
            } => Some(said(&code_of(&code))),
            _ => None,
        })
        .collect();
    let expected = [(false, None), (false, Some(true)), (true, Some(false))];
    assert_eq!(codes, expected);
}
