//! Back on every screen of the set-up, and forward again: what was typed and pressed is still there.

use hearthdose_tests::kitchen::{World, press, pressable, step, title};
use hearthdose_ui::text::Language;
use hearthdose_ui::vm::Kitchen;
use hearthdose_ui::vm::view::{Intent, Screen, View};

const ORDER: &str = include_str!("../../../demo-data/orders/quillmere-doxy-1.toml");

/// What a person does on one screen: types, then presses what leads on.
enum Do {
    Name(&'static str),
    Keys(&'static str),
    Field(&'static str),
}

fn keys(kitchen: &mut Kitchen, keys: &str) {
    for key in keys.chars() {
        press(kitchen, &format!("key:{key}"));
    }
}

fn at_the_first_question(name: &str) -> (World, Kitchen) {
    let world = World::new(name);
    world.bring("order.toml", ORDER);
    let mut kitchen = world.start(Language::English);
    for id in ["with-order", "paper:0", "take-paper"] {
        press(&mut kitchen, id);
    }
    (world, kitchen)
}

/// What was typed into a screen and which answer is marked.
fn input(view: &View) -> (Vec<String>, Vec<String>) {
    let Screen::Step(step) = &view.screen else {
        return Default::default();
    };
    let fields = step.entry.iter().flat_map(|entry| &entry.fields);
    let chosen = step.choices.iter().filter(|choice| choice.chosen);
    (
        fields.map(|field| field.value.clone()).collect(),
        chosen.map(|choice| choice.id.clone()).collect(),
    )
}

/// Leads on, goes back, and finds the screen as it was left; then leads on once more.
fn there_and_back(kitchen: &mut Kitchen, todo: &[Do], on: &str) {
    for one in todo {
        match one {
            Do::Name(text) => kitchen.take(&Intent::Type {
                id: "name".to_owned(),
                text: (*text).to_owned(),
            }),
            Do::Keys(text) => keys(kitchen, text),
            Do::Field(id) => press(kitchen, id),
        }
    }
    let before = kitchen.view();
    let (typed, _) = input(&before);
    let is_choice = matches!(&before.screen, Screen::Step(step) if step.choices.iter().any(|choice| choice.id == on));
    press(kitchen, on);
    let next = title(&kitchen.view());
    assert_ne!(next, title(&before), "“{on}” leads on");
    kitchen.take(&Intent::Back);
    let after = kitchen.view();
    assert_eq!(title(&after), title(&before), "Back from “{next}”");
    let (still, chosen) = input(&after);
    assert_eq!(still, typed, "typed on “{}”", title(&before));
    // A way of weighing is pressed again; what was read by it is kept.
    if is_choice && !title(&before).starts_with("How do you weigh") {
        assert_eq!(chosen, [on], "pressed on “{}”", title(&before));
    }
    press(kitchen, on);
    assert_eq!(title(&kitchen.view()), next, "forward again");
}

#[test]
fn every_screen_of_the_set_up_is_found_as_it_was_left() {
    let (_world, mut kitchen) = at_the_first_question("back");
    let kitchen = &mut kitchen;
    there_and_back(kitchen, &[Do::Name("Pim")], "next");
    there_and_back(kitchen, &[], "child");
    there_and_back(kitchen, &[Do::Keys("07192028")], "next");
    there_and_back(kitchen, &[], "no");
    there_and_back(kitchen, &[], "unsure");
    for _ in 0..4 {
        there_and_back(kitchen, &[], "no");
    }
    there_and_back(kitchen, &[], "unsure");
    assert_eq!(title(&kitchen.view()), "Pim: ask a nurse first.");
    there_and_back(kitchen, &[], "next");
    assert_eq!(title(&kitchen.view()), "What does Pim weigh?");
    there_and_back(kitchen, &[], "weigh");
    there_and_back(kitchen, &[], "together");
    there_and_back(
        kitchen,
        &[Do::Keys("170.4"), Do::Field("field:1"), Do::Keys("139.2")],
        "next",
    );
    there_and_back(
        kitchen,
        &[Do::Keys("170.6"), Do::Field("field:1"), Do::Keys("139.2")],
        "next",
    );
    // All the way back to the first name, and forward to the same weight: nothing is typed a second time.
    for _ in 0..60 {
        if title(&kitchen.view()) == "Who takes this medicine?" {
            break;
        }
        kitchen.take(&Intent::Back);
    }
    assert_eq!(input(&kitchen.view()).0, ["Pim"]);
    for _ in 0..60 {
        let view = kitchen.view();
        if title(&view).starts_with("Pim: 3") {
            break;
        }
        let step = step(&view);
        let marked = step.choices.iter().find(|choice| choice.chosen);
        // Of the ways of weighing none is marked; the reading itself is kept.
        let on = marked.map(|choice| choice.id.clone()).or_else(|| {
            let main = step.main.as_ref().filter(|main| main.ready);
            main.map(|main| main.id.clone())
        });
        press(kitchen, &on.unwrap_or_else(|| "together".to_owned()));
    }
    // 170.4 − 139.2 and 170.6 − 139.2, and the middle of both.
    assert_eq!(title(&kitchen.view()), "Pim: 31.3 lb");
    press(kitchen, "keep-weight");
    press(kitchen, "everybody");
    there_and_back(kitchen, &[], "other-time");
    there_and_back(kitchen, &[Do::Keys("0730")], "next");
    assert_eq!(title(&kitchen.view()), "Do you have the tablets at home?");
    press(kitchen, "start-now");
    there_and_back(kitchen, &[Do::Keys("40")], "next");
}

/// The next person does not find the answers of the one before.
#[test]
fn the_next_person_begins_with_empty_screens() {
    let (_world, mut kitchen) = at_the_first_question("empty");
    let kitchen = &mut kitchen;
    kitchen.take(&Intent::Type {
        id: "name".to_owned(),
        text: "Ana".to_owned(),
    });
    for id in [
        "next", "adult", "yes", "yes", "no", "no", "no", "no", "no", "another",
    ] {
        press(kitchen, id);
    }
    assert_eq!(input(&kitchen.view()).0, [""]);
    kitchen.take(&Intent::Type {
        id: "name".to_owned(),
        text: "Ben".to_owned(),
    });
    press(kitchen, "next");
    for id in ["adult", "yes", "no", "no", "no"] {
        let view = kitchen.view();
        assert!(
            input(&view).1.is_empty(),
            "“{}” is answered already",
            title(&view)
        );
        press(kitchen, id);
    }
}

/// A month is enough where no day counts, and the screen says which day it goes by; for a baby the day is asked for.
#[test]
fn the_day_of_a_birth_may_be_left_out() {
    let (_world, mut kitchen) = at_the_first_question("month");
    let kitchen = &mut kitchen;
    kitchen.take(&Intent::Type {
        id: "name".to_owned(),
        text: "Pim".to_owned(),
    });
    for id in ["next", "child"] {
        press(kitchen, id);
    }
    let result = |kitchen: &Kitchen| {
        let view = kitchen.view();
        let result = step(&view)
            .entry
            .as_ref()
            .and_then(|entry| entry.result.clone());
        let ready = pressable(&view).contains(&"next".to_owned());
        result.map(|note| (note.title, note.body, ready))
    };
    keys(kitchen, "07");
    press(kitchen, "field:2");
    keys(kitchen, "2028");
    let last = "The day is left out. The last day of the month counts.".to_owned();
    assert_eq!(
        result(kitchen),
        Some(("Monday, July 31, 2028".to_owned(), last, true))
    );
    // The world's day is April 3, 2031.
    for (month, year, title) in [
        ("02", "2031", "Type the day too."),
        ("05", "2031", "This is not a day up to today."),
        ("13", "2028", "This is not a day up to today."),
    ] {
        for field in ["field:2", "field:0"] {
            press(kitchen, field);
            for _ in 0..4 {
                press(kitchen, "key:back");
            }
        }
        press(kitchen, "field:0");
        keys(kitchen, month);
        press(kitchen, "field:2");
        keys(kitchen, year);
        let (said, body, ready) = result(kitchen).expect("something is said");
        assert_eq!(said, title, "{month} {year}");
        assert!(!body.is_empty() && !ready);
    }
}
