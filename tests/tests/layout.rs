//! Nothing is clipped, nothing overlaps, everything is large enough to hit: every screen of a practice round and of the tour,
//! in four window sizes, at 100 and 200 %, in each language, with the real fonts and the real layout.
//! Two languages that nobody speaks stand for those to come: a stretched one, and one from right to left.

#[path = "layout/judge.rs"]
mod judge;
#[path = "layout/tree.rs"]
mod tree;

use std::collections::BTreeMap;

use hearthdose_tests::kitchen::World;
use hearthdose_tests::tour;
use hearthdose_tests::voices::{self, Voice};
use hearthdose_ui::bind;
use hearthdose_ui::headless::Headless;
use hearthdose_ui::text::Language;
use hearthdose_ui::vm::view::View;
use slint::platform::Key;
use slint::{ComponentHandle, PhysicalSize};

const SIZES: [(u32, u32); 4] = [(360, 640), (390, 844), (768, 1024), (1180, 820)];
/// The smallest phone and a desktop.
const ENDS: [(u32, u32); 2] = [(360, 640), (1180, 820)];
const SCALES: [u16; 2] = [100, 200];

/// Looks at every screen in every size; each fault once, with where it was first seen.
fn look(language: Language, sizes: &[(u32, u32)], voice: Option<(&str, Voice)>) {
    let headless = Headless::new().expect("a window in memory");
    let mut faults: BTreeMap<String, (String, usize)> = BTreeMap::new();
    let mut seen = 0;
    for &(width, height) in sizes {
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
                wrong.extend(tab(&headless, &window));
                if name == "person" {
                    wrong.extend(scroll_away(&headless));
                }
                seen += 1;
                for fault in wrong {
                    let place = format!("{name}, {width} x {height}, {scale} %");
                    faults.entry(fault).or_insert((place, 0)).1 += 1;
                }
            };
            let code = language.code();
            let mark = voice.map_or(code, |(name, _)| name);
            let world = |what: &str| {
                World::new(&format!("{what}-{mark}-{width}-{scale}"))
                    .speaking(voice.map(|(_, voice)| voice))
            };
            tour::practice(world("look-round"), language, &mut show);
            tour::site(world("look-site"), language, &mut show);
            tour::everywhere(world("look-tour"), language, &mut show);
            if voice.is_none() {
                tour::untranslated(world("look-other"), language, &mut show);
            }
        }
    }
    let listed: Vec<String> = faults
        .iter()
        .map(|(fault, (place, times))| format!("{place} ({times} times): {fault}"))
        .collect();
    println!("{} screens, {} faults", seen, listed.len());
    assert!(listed.is_empty(), "{}", listed.join("\n"));
    assert!(seen > 200 * sizes.len(), "only {seen} screens");
}

/// Each Tab gives the keyboard to exactly one control, where it is seen; the whole walk comes to all that can be pressed.
fn tab(headless: &Headless, window: &tree::Window) -> Vec<String> {
    let mut wrong = Vec::new();
    let all = window.controls.iter().filter(|control| control.enabled);
    let mut missed: Vec<&str> = all.map(|control| control.name.as_str()).collect();
    for _ in 0..missed.len() {
        let window = press(headless, Key::Tab);
        if window.focused.len() != 1 {
            let focused = &window.focused;
            wrong.push(format!("after Tab these have the keyboard: {focused:?}"));
        }
        wrong.extend(unseen(&window));
        missed.retain(|name| !window.focused.iter().any(|focused| focused == name));
    }
    if !missed.is_empty() {
        wrong.push(format!("Tab never comes to {missed:?}"));
    }
    wrong
}

/// The arrow keys may scroll what has the keyboard out of sight; it keeps it, and the next Tab goes on from there.
fn scroll_away(headless: &Headless) -> Vec<String> {
    let mut wrong = Vec::new();
    let mut start = press(headless, Key::Tab);
    while !scrolls(&start) {
        start = press(headless, Key::Tab);
    }
    for _ in 0..40 {
        press(headless, Key::UpArrow);
    }
    for _ in 0..40 {
        press(headless, Key::DownArrow);
    }
    let away = press(headless, Key::DownArrow);
    if away.focused != start.focused {
        let (was, now) = (&start.focused, &away.focused);
        wrong.push(format!(
            "scrolling moved the keyboard from {was:?} to {now:?}"
        ));
    }
    let next = press(headless, Key::Tab);
    wrong.extend(unseen(&next));
    if next.focused.len() != 1 || next.focused == start.focused {
        wrong.push(format!("after scrolling, Tab leads to {:?}", next.focused));
    }
    wrong
}

/// Whether what has the keyboard moves with the words around it.
fn scrolls(window: &tree::Window) -> bool {
    let mut controls = window.controls.iter();
    controls.any(|one| window.focused.contains(&one.name) && one.bounds.scroll.is_some())
}

fn press(headless: &Headless, key: Key) -> tree::Window {
    headless.key(key);
    tree::settle(headless.window());
    tree::read(headless.window())
}

/// What has the keyboard and is not seen, at least its beginning.
fn unseen(window: &tree::Window) -> Option<String> {
    let [name] = window.focused.as_slice() else {
        return None;
    };
    let mut named = window.controls.iter().filter(|one| one.name == *name);
    let seen = named.any(|control| {
        let (place, edge) = (control.place, control.bounds.seen);
        place.top >= edge.top && place.top < edge.bottom
    });
    (!seen).then(|| format!("{name:?} has the keyboard out of sight"))
}

#[test]
fn nothing_is_clipped_or_overlaps_in_english() {
    look(Language::English, &SIZES, None);
}

#[test]
fn nothing_is_clipped_or_overlaps_in_spanish() {
    look(Language::Spanish, &SIZES, None);
}

#[test]
fn nothing_is_clipped_or_overlaps_in_a_longer_language() {
    look(
        Language::English,
        &ENDS,
        Some(("stretched", voices::stretched)),
    );
}

/// Letters run the other way; where lines and controls stand is not mirrored, see the known limits.
#[test]
fn nothing_is_clipped_or_overlaps_from_right_to_left() {
    look(
        Language::English,
        &ENDS,
        Some(("leftward", voices::leftward)),
    );
}
