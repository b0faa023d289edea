//! The kitchen without a window: what is pressed, what is shown, what is in the record.

use hearthdose_core::prep::{Outcome, Stage};
use hearthdose_core::store::Setup;
use hearthdose_tests::kitchen::{World, go_on_to, press, pressable, step, title, usual};
use hearthdose_ui::text::Language;
use hearthdose_ui::vm::Kitchen;
use hearthdose_ui::vm::ports::Shelf;
use hearthdose_ui::vm::view::{Intent, Screen, View};
use jiff::SignedDuration;

fn practice(world: &World) -> Kitchen {
    let mut kitchen = world.start(Language::English);
    press(&mut kitchen, "practise");
    kitchen
}

fn outcomes(kitchen: &Kitchen) -> Vec<Outcome> {
    kitchen
        .state()
        .map(|state| state.doses.iter().map(|dose| dose.outcome).collect())
        .unwrap_or_default()
}

#[test]
fn the_usual_answers_lead_through_a_whole_round() {
    let world = World::new("whole");
    let mut kitchen = practice(&world);
    go_on_to(&world, &mut kitchen, "Done for now");
    assert_eq!(outcomes(&kitchen), [Outcome::All; 4]);
    press(&mut kitchen, "to-today");
    // The next morning, by the household's own times.
    assert_eq!(title(&kitchen.view()), "Morning dose, 8:00 a.m.");
}

/// Every screen of a round: one clear next action, words for everything, the step told in words and stitches.
#[test]
fn every_screen_has_its_words_and_one_thing_to_do() {
    for language in Language::ALL {
        let world = World::new(&format!("words-{}", language.code()));
        let mut kitchen = world.start(language);
        press(&mut kitchen, "practise");
        for _ in 0..60 {
            let view = kitchen.view();
            assert_words(&view, language);
            if let Screen::Step(step) = &view.screen {
                let usual = step.choices.iter().filter(|choice| choice.main).count();
                let main = usize::from(step.main.is_some());
                assert_eq!(
                    usual + main,
                    1,
                    "one usual answer or one main button on “{}”",
                    step.title
                );
            }
            match usual(&view) {
                Some(id) if id == "to-today" => break,
                Some(id) => press(&mut kitchen, &id),
                None => {
                    world.pass(SignedDuration::from_secs(60));
                    kitchen.take(&Intent::Tick);
                }
            }
        }
        for place in ["people", "ahead", "order", "record", "help", "about"] {
            if pressable(&kitchen.view()).contains(&place.to_owned()) {
                press(&mut kitchen, place);
                assert_words(&kitchen.view(), language);
            }
        }
    }
}

fn assert_words(view: &View, language: Language) {
    let text = serde_json::to_string(view).expect("a view is plain");
    assert!(
        !text.contains("\"[") || !text.contains("]\""),
        "a word is missing in {}: {text}",
        language.code()
    );
    assert!(
        !text.contains('{') || text.starts_with('{'),
        "a placeholder is left"
    );
    for mark in ['\u{2068}', '\u{2069}'] {
        assert!(
            !text.contains(mark),
            "isolation marks stay out of what is shown"
        );
    }
    assert!(!text.contains(".."), "a sentence ends once: {text}");
}

/// P13, P14: closed at any screen of a round and opened again, it shows the same screen.
// promise: P13
// promise: P14
#[test]
fn closing_anywhere_resumes_there() {
    let world = World::new("resume");
    let mut kitchen = practice(&world);
    let mut screens = 0;
    press(&mut kitchen, "begin");
    loop {
        let before = kitchen.view();
        drop(kitchen);
        kitchen = world.start(Language::English);
        let after = kitchen.view();
        if title(&before) == "Done for now." {
            // A farewell is not said twice: what comes next is shown.
            assert!(matches!(after.screen, Screen::Today(_)));
            break;
        }
        assert_eq!(
            before.screen,
            after.screen,
            "“{}” came back as “{}”",
            title(&before),
            title(&after)
        );
        screens += 1;
        match usual(&after) {
            Some(id) => press(&mut kitchen, &id),
            None => {
                world.pass(SignedDuration::from_secs(45));
                kitchen.take(&Intent::Tick);
            }
        }
    }
    assert!(screens > 25, "only {screens} screens were tried");
}

/// P8 on screen: a clock put forward by an hour does not end the soak; the person is told.
// promise: P8
#[test]
fn a_clock_put_forward_in_the_soak_shortens_nothing_and_is_told() {
    let world = World::new("forward");
    let mut kitchen = practice(&world);
    go_on_to(&world, &mut kitchen, "Let the tablets soften");
    world.pass(SignedDuration::from_secs(100));
    world.move_clock(SignedDuration::from_hours(1));
    kitchen.take(&Intent::Tick);
    assert_eq!(title(&kitchen.view()), "The clock was moved");
    press(&mut kitchen, "told");
    let view = kitchen.view();
    assert_eq!(step(&view).large, "3 min 20 s left");
    assert!(
        usual(&view).is_none(),
        "nothing to press before the soak is over"
    );
}

#[test]
fn a_clock_set_back_a_day_loses_nothing() {
    let world = World::new("back");
    let mut kitchen = practice(&world);
    go_on_to(&world, &mut kitchen, "Let the tablets soften");
    world.move_clock(SignedDuration::from_hours(-24));
    drop(kitchen);
    let mut kitchen = world.start(Language::English);
    kitchen.take(&Intent::Tick);
    assert_eq!(title(&kitchen.view()), "The clock was moved");
    press(&mut kitchen, "told");
    assert_eq!(title(&kitchen.view()), "Let the tablets soften.");
    go_on_to(&world, &mut kitchen, "Done for now");
    assert_eq!(outcomes(&kitchen).len(), 4);
}

/// P14: a write that fails is told, and the screen stays where the record is.
// promise: P14
#[test]
fn a_full_disk_is_told_and_changes_nothing() {
    let world = World::new("full");
    let mut kitchen = practice(&world);
    go_on_to(&world, &mut kitchen, "Set the table");
    drop(kitchen);
    let pages = std::fs::metadata(world.path(Shelf::Practice))
        .expect("the record")
        .len()
        / 4096;
    world.limit(Setup {
        most_pages: Some(u32::try_from(pages).expect("a small file")),
        ..Setup::default()
    });
    let mut kitchen = world.start(Language::English);
    let mut told = false;
    // What is left of the last page may hold a fact or two; then there is no room.
    for _ in 0..60 {
        let before = kitchen.state().cloned();
        let Some(id) = usual(&kitchen.view()) else {
            world.pass(SignedDuration::from_secs(60));
            kitchen.take(&Intent::Tick);
            continue;
        };
        press(&mut kitchen, &id);
        if title(&kitchen.view()) == "This was not saved" {
            assert_eq!(
                before,
                kitchen.state().cloned(),
                "nothing moved without being written"
            );
            assert!(
                step(&kitchen.view())
                    .body
                    .concat()
                    .contains("The disk is full")
            );
            told = true;
            break;
        }
    }
    assert!(told, "the disk never became full");
    press(&mut kitchen, "told");
    let shown = title(&kitchen.view());
    drop(kitchen);
    world.limit(Setup::default());
    let mut kitchen = world.start(Language::English);
    assert_eq!(
        title(&kitchen.view()),
        shown,
        "with room again it goes on at the same screen"
    );
    go_on_to(&world, &mut kitchen, "Done for now");
    assert_eq!(outcomes(&kitchen), [Outcome::All; 4]);
}

#[test]
fn a_bottle_that_does_not_match_stops_with_the_number_to_call() {
    let world = World::new("bottle");
    let mut kitchen = practice(&world);
    press(&mut kitchen, "begin");
    press(&mut kitchen, "label-no");
    let view = kitchen.view();
    assert_eq!(step(&view).title, "Do not use this bottle.");
    let note = step(&view).note.clone().expect("what to do");
    assert!(note.body.contains("555-0142"), "{}", note.body);
    press(&mut kitchen, "look-again");
    assert!(title(&kitchen.view()).starts_with("Does the bottle say"));
}

#[test]
fn a_spilled_bowl_is_made_anew_for_those_who_still_need_it() {
    let world = World::new("spill");
    let mut kitchen = practice(&world);
    go_on_to(&world, &mut kitchen, "Measure for Bram");
    press(&mut kitchen, "wrong");
    let lost = pressable(&kitchen.view())
        .into_iter()
        .find(|id| id.starts_with("bowl-lost:"))
        .expect("a bowl to name");
    press(&mut kitchen, &lost);
    assert_eq!(title(&kitchen.view()), "Set the table.");
    go_on_to(&world, &mut kitchen, "Done for now");
    let state = kitchen.state().expect("a record");
    assert_eq!(state.doses.len(), 4, "each dose once");
    // Two bowls and one whole tablet, and one more bowl for the spill.
    assert_eq!(state.all_tablets().used, 4);
}

#[test]
fn a_reaction_stops_one_person_and_the_others_go_on() {
    let world = World::new("reaction");
    let mut kitchen = practice(&world);
    go_on_to(&world, &mut kitchen, "Done for now");
    press(&mut kitchen, "to-today");
    world.pass(SignedDuration::from_hours(12));
    kitchen.take(&Intent::Tick);
    press(&mut kitchen, "begin");
    let view = kitchen.view();
    assert!(step(&view).title.starts_with("Since the last dose"));
    let pim = step(&view)
        .choices
        .iter()
        .find(|choice| choice.title.contains("Pim"))
        .expect("Pim is asked about")
        .id
        .clone();
    press(&mut kitchen, &pim);
    press(&mut kitchen, "reactions-some");
    let view = kitchen.view();
    assert!(step(&view).title.contains("Pim"), "{}", step(&view).title);
    assert!(
        step(&view)
            .note
            .as_ref()
            .is_some_and(|note| note.body.contains("555-0100")),
        "the emergency number"
    );
    press(&mut kitchen, "reaction-stop");
    go_on_to(&world, &mut kitchen, "Done for now");
    let state = kitchen.state().expect("a record");
    assert_eq!(state.doses.len(), 7, "four doses, then three");
    press(&mut kitchen, "to-today");
    let Screen::Today(today) = kitchen.view().screen else {
        panic!("not today")
    };
    let row = today
        .rows
        .iter()
        .find(|row| row.name == "Pim")
        .expect("Pim is still on the list");
    assert!(
        row.held && row.spoons.is_empty(),
        "no dose is shown for Pim"
    );
}

/// With everybody stopped the course is not over: there is a number to call.
#[test]
fn everybody_stopped_is_not_the_end_of_the_course() {
    let world = World::new("everybody");
    let mut kitchen = practice(&world);
    go_on_to(&world, &mut kitchen, "Done for now");
    press(&mut kitchen, "to-today");
    world.pass(SignedDuration::from_hours(12));
    kitchen.take(&Intent::Tick);
    press(&mut kitchen, "begin");
    let ids = pressable(&kitchen.view());
    for id in ids.iter().filter(|id| id.starts_with("reaction:")) {
        press(&mut kitchen, id);
    }
    press(&mut kitchen, "reactions-some");
    press(&mut kitchen, "reaction-stop");
    go_on_to(&world, &mut kitchen, "Done for now");
    press(&mut kitchen, "to-today");
    let view = kitchen.view();
    assert_eq!(title(&view), "Nobody may take it now");
    assert!(step(&view).body.concat().contains("555-0142"));
}

/// P18 on screen: half past two in the afternoon is within six hours of the night round: skip, and one clock time.
// promise: P18
#[test]
fn a_dose_remembered_too_late_is_skipped_in_one_sentence() {
    let world = World::new("late");
    let mut kitchen = practice(&world);
    go_on_to(&world, &mut kitchen, "Done for now");
    press(&mut kitchen, "to-today");
    // From a little before eight in the evening to half past two the next afternoon.
    world.pass(SignedDuration::from_mins(18 * 60 + 45));
    kitchen.take(&Intent::Tick);
    let Screen::Today(today) = kitchen.view().screen else {
        panic!("not today")
    };
    let note = today.note.expect("a sentence about the missed dose");
    assert!(note.title.contains("was missed"), "{}", note.title);
    assert!(note.body.contains("8:00 p.m."), "{}", note.body);
    assert_eq!(today.title, "Night dose, 8:00 p.m.");
}

/// An answer that is not "all of it" says what to do, and nothing more is given.
#[test]
fn a_dose_that_came_back_up_is_told_and_not_repeated() {
    let world = World::new("vomit");
    let mut kitchen = practice(&world);
    go_on_to(&world, &mut kitchen, "Did Pim get all of it");
    press(&mut kitchen, "outcome-back-up");
    let view = kitchen.view();
    assert_eq!(step(&view).title, "It came back up.");
    assert!(step(&view).body.concat().contains("Pim"));
    press(&mut kitchen, "after-outcome");
    assert_eq!(title(&kitchen.view()), "Measure for Bram.");
    assert_eq!(outcomes(&kitchen), [Outcome::CameBackUp]);
}

#[test]
fn an_answer_put_off_is_asked_again_before_the_bowls_are_put_away() {
    let world = World::new("later");
    let mut kitchen = practice(&world);
    go_on_to(&world, &mut kitchen, "Did Pim get all of it");
    press(&mut kitchen, "answer-later");
    assert_eq!(title(&kitchen.view()), "Measure for Bram.");
    go_on_to(&world, &mut kitchen, "Did Pim get all of it");
    let state = kitchen.state().expect("a record");
    assert_eq!(state.doses.len(), 3, "the other three are dealt with first");
    let round = state.round().expect("a round");
    let now = hearthdose_ui::vm::ports::Clock::now(&world);
    assert!(matches!(round.prep.stage(&now), Stage::AskOutcome { .. }));
}

#[test]
fn back_leads_out_of_reading_and_never_loses_the_round() {
    let world = World::new("reading");
    let mut kitchen = practice(&world);
    go_on_to(&world, &mut kitchen, "Measure for Pim");
    let before = kitchen.view();
    press(&mut kitchen, "help");
    assert_eq!(title(&kitchen.view()), "Help");
    kitchen.take(&Intent::Back);
    assert_eq!(kitchen.view(), before);
}
