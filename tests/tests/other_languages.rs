//! Where an order has no words in the language of the screen, the screen and the paper say so: nothing is mixed silently.

use std::collections::BTreeMap;

use hearthdose_core::order::{CheckedOrder, Order};
use hearthdose_tests::kitchen::World;
use hearthdose_tests::tour;
use hearthdose_ui::text::{Language, Words};
use hearthdose_ui::vm::view::View;

const DOXY: &str = include_str!("../../demo-data/orders/quillmere-doxy-1.toml");
const IODIDE: &str = include_str!("../../demo-data/orders/quillmere-iodide-1.toml");

const IN_ENGLISH: &str = "Hay palabras que solo están en inglés. Pida ayuda a alguien que lo lea.";
const IN_SPANISH: &str = "Some words here are only in Spanish. Ask somebody who reads it.";

fn order(text: &str) -> CheckedOrder {
    CheckedOrder::new(hearthdose_core::order::parse(text.as_bytes()).expect("readable"))
        .expect("usable")
}

/// Looks up each kind of text an order has, by name.
fn looked_up(words: &Words, order: &Order) -> BTreeMap<&'static str, Option<String>> {
    let mut found = BTreeMap::new();
    let mut look = |name, text: &str| {
        assert!(!text.is_empty(), "{name} says nothing");
        found.insert(name, words.foreign());
    };
    let question = order.questions.first().expect("a question");
    let contact = order.contacts.first().expect("a contact");
    look("title", words.title(order));
    look("medicine", words.medicine(order));
    look("question", &words.of_order_about(&question.ask, "Pim"));
    look("outcome", &words.of_order_about(&question.then, "Pim"));
    for caution in order.cautions.iter().take(1) {
        look("caution", words.of_order(&caution.text));
    }
    look("contact", words.named(order, &contact.name, &contact.words));
    look("hours", words.of_order(&contact.hours));
    for apart in order.medicine.apart.iter().take(1) {
        look("apart", words.named(order, &apart.what, &apart.words));
    }
    let recipe = order.recipe.as_ref().expect("a recipe");
    for food in recipe.vehicles.iter().take(1) {
        look("food", words.named(order, &food.name, &food.words));
    }
    if let Some(fluid) = &recipe.second_fluid {
        look("fluid", words.named(order, &fluid.name, &fluid.words));
    }
    found
}

#[test]
fn every_kind_of_text_is_told_when_it_is_missing() {
    for text in [DOXY, IODIDE] {
        for (language, sentence) in [
            (Language::Spanish, IN_ENGLISH),
            (Language::English, IN_SPANISH),
        ] {
            let words = Words::load(language);
            let whole = looked_up(&words, &order(text));
            assert!(whole.values().all(Option::is_none), "{whole:?}");
            let lacking = looked_up(&words, &order(&tour::without(text, language.code())));
            assert!(lacking.len() >= 8, "{lacking:?}");
            for (name, told) in lacking {
                assert_eq!(told.as_deref(), Some(sentence), "{name}");
            }
        }
    }
}

/// One text alone is enough, whichever it is.
#[test]
fn one_missing_text_is_told_on_paper() {
    let words = Words::load(Language::Spanish);
    assert_eq!(words.foreign_in(&order(DOXY)), None);
    for (from, to) in [
        (
            "title-words = { es = \"Doxiciclina después del escape de Quillmere\" }\n",
            "",
        ),
        ("words = { es = \"doxiciclina\" }\n", ""),
        ("words = { es = \"leche materna\" }\n", ""),
        (
            "words = { es = \"antiácidos, hierro, calcio, vitaminas\" }, ",
            "",
        ),
        (
            "words = { es = \"Línea de emergencia de Quillmere\" }\n",
            "",
        ),
        (
            "hours = { en = \"day and night\", es = \"día y noche\" }",
            "hours = { en = \"day and night\" }",
        ),
    ] {
        assert!(DOXY.contains(from), "{from}");
        let order = order(&DOXY.replacen(from, to, 1));
        assert_eq!(
            words.foreign_in(&order).as_deref(),
            Some(IN_ENGLISH),
            "{from}"
        );
    }
}

/// A missing name is among the warnings of the order's checker too.
#[test]
fn the_checker_warns_of_each_missing_name() {
    let text = DOXY.replace(
        "title-words = { es = \"Doxiciclina después del escape de Quillmere\" }\n",
        "",
    );
    let order = hearthdose_core::order::parse(text.as_bytes()).expect("readable");
    let problems = hearthdose_core::order::check(&order);
    assert!(
        problems
            .iter()
            .any(|problem| problem.code == "name-not-translated" && problem.place == "title-words"),
        "{problems:?}"
    );
}

/// Every screen that shows the order's words says it; the others do not.
#[test]
fn the_screens_with_such_words_say_so() {
    // Who is not sure is told so in the program's own words.
    const OWN: [&str; 5] = [
        "untranslated-name",
        "untranslated-outcome",
        "untranslated-today",
        "untranslated-people",
        "untranslated-record",
    ];
    for (language, sentence) in [
        (Language::Spanish, IN_ENGLISH),
        (Language::English, IN_SPANISH),
    ] {
        let mut seen = 0;
        let mut show = |name: &str, view: &View| {
            seen += 1;
            let told = view
                .strip
                .as_ref()
                .is_some_and(|strip| strip.contains(sentence));
            let text = serde_json::to_string(&view.screen).expect("plain");
            assert_eq!(
                told,
                !OWN.contains(&name),
                "{name}: {:?} {text}",
                view.strip
            );
        };
        tour::untranslated(
            World::new(&format!("other-{}", language.code())),
            language,
            &mut show,
        );
        assert!(seen >= 12, "{seen}");
    }
}

/// An order that has all its words makes no such sentence in a whole round.
#[test]
fn a_whole_order_is_silent() {
    for language in Language::ALL {
        let mut show = |name: &str, view: &View| {
            let strip = view.strip.clone().unwrap_or_default();
            assert!(
                !strip.contains(IN_ENGLISH) && !strip.contains(IN_SPANISH),
                "{name}: {strip}"
            );
        };
        tour::practice(
            World::new(&format!("silent-{}", language.code())),
            language,
            &mut show,
        );
    }
}
