//! The words of a whole round as a caregiver reads them, kept to be read over when they change.

use hearthdose_tests::kitchen::World;
use hearthdose_tests::tour;
use hearthdose_ui::text::Language;
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

/// A changed word fails here until somebody has read the whole round again and accepted it.
#[test]
fn the_words_of_a_round() {
    for language in Language::ALL {
        insta::assert_json_snapshot!(format!("round-{}", language.code()), pages(language));
    }
}
