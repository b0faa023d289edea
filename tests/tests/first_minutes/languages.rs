//! Every language is on the first screen under its own name, and can be changed on the way without losing the place.

use hearthdose_tests::kitchen::{World, press, pressable, title};
use hearthdose_ui::text::Language;
use hearthdose_ui::vm::view::{Screen, View};

fn labels(view: &View) -> Vec<String> {
    match &view.screen {
        Screen::Start(start) => start.ways.iter().map(|link| link.label.clone()).collect(),
        Screen::Reading(reading) => reading.ways.iter().map(|link| link.label.clone()).collect(),
        _ => Vec::new(),
    }
}

#[test]
fn each_language_is_chosen_by_its_own_name_on_the_first_screen() {
    let world = World::new("languages");
    let mut kitchen = world.start(Language::English);
    for language in [Language::Spanish, Language::English] {
        // Whoever reads only this language finds it while the screen is in the other one.
        assert!(
            labels(&kitchen.view())
                .iter()
                .any(|label| label == language.own_name()),
            "{:?}",
            labels(&kitchen.view())
        );
        press(&mut kitchen, "language");
        let said = hearthdose_ui::text::Words::load(language).say("start-question");
        assert_eq!(title(&kitchen.view()), said);
    }
}

#[test]
fn in_a_round_the_language_is_changed_from_help_and_the_step_stays() {
    let world = World::new("languages-round");
    let mut kitchen = world.start(Language::English);
    for id in ["practise", "begin", "label-yes", "help", "language"] {
        press(&mut kitchen, id);
    }
    assert_eq!(title(&kitchen.view()), "Ayuda");
    kitchen.take(&hearthdose_ui::vm::view::Intent::Back);
    assert_eq!(title(&kitchen.view()), "¿Cuchara o jeringa?");
    assert!(pressable(&kitchen.view()).contains(&"tool-spoon".to_owned()));
}
