//! The real window on a virtual display, driven by a real mouse and a real keyboard.
//!
//! The usual answer of every screen stands on ochre, so what to press is found by looking, as a person does.
#![cfg(feature = "system")]

#[path = "system/aloud.rs"]
mod aloud;
#[path = "system/assistive.rs"]
mod assistive;
#[path = "system/bus.rs"]
mod bus;
#[path = "system/display.rs"]
mod display;
#[path = "system/exchange.rs"]
mod exchange;
#[path = "system/household.rs"]
mod household;
#[path = "system/killed.rs"]
mod killed;
#[path = "system/past.rs"]
mod past;
#[path = "system/program.rs"]
mod program;

use std::time::{Duration, Instant};

use display::Display;
use hearthdose_core::dose::DoseForm;
use hearthdose_core::prep::Stage;
use household::Table;
use program::Program;

/// Long enough for a slow machine; a hung window still fails.
const PATIENCE: Duration = Duration::from_secs(60);

/// Presses the usual answer until the record says so, by mouse.
fn press_until(display: &Display, table: &Table, what: &str, reached: impl Fn(&Stage) -> bool) {
    let begun = Instant::now();
    loop {
        if let Some(stage) = table.stage()
            && reached(&stage)
        {
            return;
        }
        assert!(
            begun.elapsed() < PATIENCE,
            "never came to {what}; the round is at {:?}",
            table.stage()
        );
        match display.usual() {
            Some(place) => {
                let before = table.facts();
                display.click(place.centre());
                display.settle(|| table.facts() != before);
            }
            None => std::thread::sleep(Duration::from_millis(300)),
        }
    }
}

#[test]
fn a_whole_round_by_mouse() {
    let display = Display::start(390, 844);
    let table = Table::lay("mouse", "3 s");
    let program = Program::open(&display, &table);
    display.wait_for_usual();
    press_until(&display, &table, "the end of the round", |stage| {
        *stage == Stage::Done
    });
    let state = table.state();
    assert_eq!(
        state.doses.len(),
        4,
        "each of the four people has one dose in the record"
    );
    let whole = state.round().map(|r| {
        r.prep
            .plan
            .takes
            .iter()
            .filter(|t| t.form == DoseForm::Tablets)
            .count()
    });
    assert_eq!(whole, Some(1), "one of them swallows tablets whole");
    drop(program);
}

#[test]
fn a_whole_round_by_keyboard_alone() {
    let display = Display::start(390, 844);
    let table = Table::lay("keys", "3 s");
    let program = Program::open(&display, &table);
    display.wait_for_usual();
    let begun = Instant::now();
    while table.stage() != Some(Stage::Done) {
        assert!(
            begun.elapsed() < PATIENCE * 3,
            "the keyboard stays at {:?}",
            table.stage()
        );
        if display.usual().is_none() {
            std::thread::sleep(Duration::from_millis(300));
            continue;
        }
        let before = table.facts();
        if display.tab_to_usual() {
            display.key("Return");
            display.settle(|| table.facts() != before);
        }
    }
    assert_eq!(table.state().doses.len(), 4);
    drop(program);
}

/// P13: killed in the middle of the soak, it comes back to the soak, and the wait takes its full time.
// promise: P13
#[test]
fn killed_in_the_soak_it_resumes_with_the_right_time_left() {
    let soak = Duration::from_secs(25);
    let display = Display::start(390, 844);
    let table = Table::lay("kill", "25 s");
    let program = Program::open(&display, &table);
    display.wait_for_usual();
    press_until(&display, &table, "the soak", |stage| {
        matches!(stage, Stage::Soak { .. })
    });
    let water = Instant::now();
    std::thread::sleep(Duration::from_secs(6));
    program.kill();
    let program = Program::again(&display, &table);
    assert!(
        matches!(table.stage(), Some(Stage::Soak { .. })),
        "it comes back to the soak"
    );
    // No usual answer to press until the soak is over, and then soon.
    let ready = loop {
        if display.usual().is_some() {
            break water.elapsed();
        }
        assert!(water.elapsed() < soak + PATIENCE, "the soak never ends");
        std::thread::sleep(Duration::from_millis(200));
    };
    assert!(
        ready + Duration::from_secs(1) >= soak,
        "the wait was shortened: ready after {ready:?}"
    );
    assert!(
        ready < soak + Duration::from_secs(12),
        "the wait began anew: ready after {ready:?}"
    );
    press_until(&display, &table, "the end of the round", |stage| {
        *stage == Stage::Done
    });
    assert_eq!(table.state().doses.len(), 4);
    drop(program);
}
