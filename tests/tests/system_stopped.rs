//! What papers say where something is missing, read by a program that shares no code with ours:
//! people whose medicine was stopped stand there by name, and words of another language are told on every page.
//!
//! Needs pdftotext (poppler).
#![cfg(feature = "system")]
#![allow(clippy::unwrap_used, reason = "a test ends where something is missing")]

use std::collections::BTreeMap;
use std::path::Path;
use std::process::Command;

use hearthdose_core::exchange::Slip;
use hearthdose_core::household::HouseholdId;
use hearthdose_core::order::{CheckedOrder, parse};
use hearthdose_tests::kitchen::{World, go_on_to, press, pressable};
use hearthdose_tests::tour::without;
use hearthdose_ui::paper::{Paper, SlipSheet, slip};
use hearthdose_ui::text::{Language, Words};
use hearthdose_ui::vm::view::Intent;
use jiff::SignedDuration;

/// Pim and the others had the first round; then Pim has a rash.
fn papers_after_a_reaction(language: Language, done: &str) -> String {
    let world = World::new(&format!("stopped-{}", language.code()));
    let mut kitchen = world.start(language);
    press(&mut kitchen, "practise");
    go_on_to(&world, &mut kitchen, done);
    press(&mut kitchen, "to-today");
    world.pass(SignedDuration::from_hours(12));
    kitchen.take(&Intent::Tick);
    press(&mut kitchen, "begin");
    let view = kitchen.view();
    let reactions: Vec<String> = pressable(&view)
        .into_iter()
        .filter(|id| id.starts_with("reaction:"))
        .collect();
    press(&mut kitchen, &reactions[0]);
    press(&mut kitchen, "reactions-some");
    press(&mut kitchen, "reaction-stop");
    go_on_to(&world, &mut kitchen, done);
    press(&mut kitchen, "to-today");
    press(&mut kitchen, "ahead");
    press(&mut kitchen, "print-home");
    let file = world.folder().join("hearthdose-home.pdf");
    read(&file)
}

/// The words of a PDF, with single spaces.
fn read(file: &Path) -> String {
    let output = Command::new("pdftotext")
        .args(["-layout", file.to_str().unwrap(), "-"])
        .output()
        .unwrap();
    let text = String::from_utf8(output.stdout).unwrap();
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn who_was_stopped_is_named_with_no_dose_and_whom_to_call() {
    let text = papers_after_a_reaction(Language::English, "Done for now");
    let (_, people) = text.split_once("How much for whom").unwrap();
    let (people, _) = people.split_once("How to make and give it").unwrap();
    for name in ["Odile", "Sunniva", "Bram", "Pim"] {
        assert!(people.contains(name), "{name}: {people}");
    }
    assert_eq!(
        people.matches("No dose. Call 555-0142.").count(),
        1,
        "{people}"
    );
    assert!(people.contains("Stopped after a reaction."), "{people}");
    let text = papers_after_a_reaction(Language::Spanish, "Listo por ahora");
    assert!(text.contains("Sin dosis. Llame al 555-0142."), "{text}");
    assert!(
        text.contains("Suspendida después de una reacción."),
        "{text}"
    );
}

/// A receipt in Spanish under an order that has no Spanish words, and under the whole one.
#[test]
fn words_of_another_language_are_told() {
    const ORDER: &str = include_str!("../../demo-data/orders/quillmere-doxy-1.toml");
    let said = |text: &str| {
        let order = CheckedOrder::new(parse(text.as_bytes()).unwrap()).unwrap();
        let zone = jiff::tz::TimeZone::get(&order.time_zone).unwrap();
        let slip_of = Slip {
            household: HouseholdId([9; 8]),
            issue: 1,
            site: "Q7".to_owned(),
            at: "2031-04-03T12:00:00Z".parse().unwrap(),
            order: None,
            lines: Vec::new(),
        };
        let sheet = SlipSheet {
            order: &order,
            slip: &slip_of,
            code: "HD1",
            mark: "1a2b-3c4d-5e6f-7081-92a3",
            zone: &zone,
            names: &BTreeMap::new(),
        };
        let pdf = slip(&sheet, &Words::load(Language::Spanish), Paper::A4).unwrap();
        let file =
            std::env::temp_dir().join(format!("hearthdose-words-{}.pdf", std::process::id()));
        std::fs::write(&file, pdf).unwrap();
        let text = read(&file);
        std::fs::remove_file(&file).unwrap();
        text
    };
    let sentence = "Hay palabras que solo están en inglés.";
    assert!(said(&without(ORDER, "es")).contains(sentence));
    assert!(!said(ORDER).contains(sentence));
}
