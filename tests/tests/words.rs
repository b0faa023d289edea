//! The words of a whole round as a caregiver reads them, kept to be read over when they change.

use hearthdose_tests::kitchen::World;
use hearthdose_tests::tour;
use hearthdose_ui::text::{Language, Words};
use hearthdose_ui::vm::view::{Screen, View};
use serde::Serialize;

#[derive(Serialize)]
struct Page {
    title: String,
    body: Vec<String>,
    amount: Option<String>,
    choices: Vec<String>,
    main: Option<String>,
}

fn pages(language: Language) -> Vec<Page> {
    let mut pages = Vec::new();
    let mut read = |_: &str, view: &View| {
        if let Screen::Step(step) = &view.screen {
            pages.push(Page {
                title: step.title.clone(),
                body: step.body.clone(),
                amount: step.amount.as_ref().map(|amount| amount.words.clone()),
                choices: step
                    .choices
                    .iter()
                    .map(|choice| choice.title.clone())
                    .collect(),
                main: step.main.as_ref().map(|main| main.label.clone()),
            });
        }
    };
    tour::practice(
        World::new(&format!("words-of-{}", language.code())),
        language,
        &mut read,
    );
    pages
}

/// "Crush at 1:00 p.m.": Spanish has another article before one o'clock than before all others.
#[test]
fn every_hour_has_its_article() {
    let words = Words::load(Language::Spanish);
    for hour in 0..24 {
        let time = words.time(jiff::civil::time(hour, 5, 0, 0));
        let said = words.say_with("crush-at", &[("time", time.into())]);
        let wanted = match hour {
            1 => "Aplastar a la 1:05 a. m.".to_owned(),
            13 => "Aplastar a la 1:05 p. m.".to_owned(),
            0 => "Aplastar a las 12:05 a. m.".to_owned(),
            12 => "Aplastar a las 12:05 p. m.".to_owned(),
            2..=11 => format!("Aplastar a las {hour}:05 a. m."),
            _ => format!("Aplastar a las {}:05 p. m.", hour - 12),
        };
        assert_eq!(said, wanted);
    }
    // No sentence writes the article itself.
    let source = include_str!("../../ui/words/es.ftl");
    let written: Vec<&str> = source
        .lines()
        .filter(|line| line.contains("las { $time") || line.contains("las { $start"))
        .collect();
    assert!(written.is_empty(), "{written:#?}");
}

/// A changed word fails here until somebody has read the whole round again and accepted it.
#[test]
fn the_words_of_a_round() {
    for language in Language::ALL {
        insta::assert_json_snapshot!(format!("round-{}", language.code()), pages(language));
    }
}
