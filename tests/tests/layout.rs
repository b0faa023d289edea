//! Nothing is clipped, nothing overlaps, everything is large enough to hit: every screen of a practice round and of the tour,
//! in four window sizes, at 100 and 200 %, in each language, with the real fonts and the real layout.

#[path = "layout/judge.rs"]
mod judge;
#[path = "layout/tree.rs"]
mod tree;

use std::collections::BTreeMap;

use hearthdose_tests::kitchen::World;
use hearthdose_tests::tour;
use hearthdose_ui::bind;
use hearthdose_ui::headless::Headless;
use hearthdose_ui::text::Language;
use hearthdose_ui::vm::view::View;
use slint::platform::Key;
use slint::{ComponentHandle, PhysicalSize};

const SIZES: [(u32, u32); 4] = [(360, 640), (390, 844), (768, 1024), (1180, 820)];
const SCALES: [u16; 2] = [100, 200];

/// Looks at every screen in every size; each fault once, with where it was first seen.
fn look(language: Language) {
    let headless = Headless::new().expect("a window in memory");
    let mut faults: BTreeMap<String, (String, usize)> = BTreeMap::new();
    let mut seen = 0;
    for (width, height) in SIZES {
        headless
            .window()
            .window()
            .set_size(PhysicalSize::new(width, height));
        for scale in SCALES {
            let mut show = |name: &str, view: &View| {
                let mut view = view.clone();
                view.scale = scale;
                bind::show(headless.window(), &view);
                tree::settle(headless.window());
                let window = tree::read(headless.window());
                let mut wrong = judge::faults(&window);
                if window.focused.len() > 1 {
                    wrong.push(format!(
                        "at once these have the keyboard: {:?}",
                        window.focused
                    ));
                }
                let whole = (width, scale) == (390, 100);
                wrong.extend(tab(&headless, &window, whole));
                seen += 1;
                for fault in wrong {
                    let place = format!("{name}, {width} x {height}, {scale} %");
                    faults.entry(fault).or_insert((place, 0)).1 += 1;
                }
            };
            let code = language.code();
            let world = |what: &str| World::new(&format!("{what}-{code}-{width}-{scale}"));
            tour::practice(world("look-round"), language, &mut show);
            tour::everywhere(world("look-tour"), language, &mut show);
        }
    }
    let listed: Vec<String> = faults
        .iter()
        .map(|(fault, (place, times))| format!("{place} ({times} times): {fault}"))
        .collect();
    println!("{} screens, {} faults", seen, listed.len());
    assert!(listed.is_empty(), "{}", listed.join("\n"));
    assert!(seen > 800, "only {seen} screens");
}

/// Each Tab gives the keyboard to exactly one control; the whole walk comes to all that can be pressed.
fn tab(headless: &Headless, window: &tree::Window, whole: bool) -> Vec<String> {
    let mut wrong = Vec::new();
    let all = window.controls.iter().filter(|control| control.enabled);
    let mut missed: Vec<&str> = all.map(|control| control.name.as_str()).collect();
    let steps = if whole { missed.len() } else { 1 };
    for _ in 0..steps {
        headless.key(Key::Tab);
        tree::settle(headless.window());
        let focused = tree::read(headless.window()).focused;
        if focused.len() != 1 {
            wrong.push(format!("after Tab these have the keyboard: {focused:?}"));
        }
        missed.retain(|name| !focused.iter().any(|focused| focused == name));
    }
    if whole && !missed.is_empty() {
        wrong.push(format!("Tab never comes to {missed:?}"));
    }
    wrong
}

#[test]
fn nothing_is_clipped_or_overlaps_in_english() {
    look(Language::English);
}

#[test]
fn nothing_is_clipped_or_overlaps_in_spanish() {
    look(Language::Spanish);
}
