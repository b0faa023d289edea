//! The only place where views meet Slint.
//!
//! `show` maps a view onto the window's properties, `connect` turns what a person does into intents.
//! Nothing is decided here: words, yes or no, small kinds, ids and pictures cross, and nothing that is measured.
//! A property is only touched where its value differs, so showing an equal view again draws nothing.

mod extent;
mod lines;
mod pictures;
mod reading;
mod rows;
mod start;
mod step;
mod today;

use crate::screens::{Act, Colours, Frame, LinkData, MainWindow, ScreenKind, Type};
use crate::vm::Kitchen;
use crate::vm::view::{Button, Intent, Link, Note, Screen, View};
use lines::{drawn, words};
use slint::{ComponentHandle, Global, SharedString};
use std::cell::RefCell;
use std::rc::Rc;

/// Shows a view in the window.
///
/// A screen other than the one before starts at its top, with the keyboard before its first control.
pub fn show(window: &MainWindow, view: &View) {
    let colours = Colours::get(window);
    colours.set_dark(view.dark);
    colours.set_contrast(view.contrast);
    Type::get(window).set_scale(f32::from(view.scale.max(100)) / 100.0);
    lines::words_are_large(view.scale >= 150);
    frame(window, view);
    Frame::get(window).set_typing(is_typed_into(&view.screen));
    let before = mark(window);
    let kind = match &view.screen {
        Screen::Start(start) => {
            start::show(window, start, view.dark);
            ScreenKind::Start
        }
        Screen::Today(today) => {
            today::show(window, today, view.dark);
            ScreenKind::Today
        }
        Screen::Step(step) => {
            step::show(window, step, &view.shelf, view.dark);
            ScreenKind::Step
        }
        Screen::Reading(reading) => {
            reading::show(window, reading, view.dark);
            ScreenKind::Reading
        }
    };
    window.set_kind(kind);
    window.set_counting(view.waiting || counts_down(&view.screen));
    window.set_looking(view.looking);
    if mark(window) != before {
        window.invoke_settle();
    }
}

/// Frees pictures that can be made again, for a machine that is short of memory.
pub fn forget_pictures() {
    pictures::forget();
}

/// Whether the screen has lines of words.
fn is_typed_into(screen: &Screen) -> bool {
    match screen {
        Screen::Step(step) => {
            let mut fields = step.entry.iter().flat_map(|entry| &entry.fields);
            fields.any(|field| field.text)
        }
        _ => false,
    }
}

/// Whether a wait is counted down on this screen.
fn counts_down(screen: &Screen) -> bool {
    match screen {
        Screen::Step(step) => {
            !step.large.is_empty() && step.main.as_ref().is_some_and(|main| !main.ready)
        }
        _ => false,
    }
}

/// Puts a kitchen behind the window: what a person does goes in, what is to be seen comes out.
pub fn join(window: &MainWindow, kitchen: Kitchen) -> Rc<RefCell<Kitchen>> {
    let kitchen = Rc::new(RefCell::new(kitchen));
    show(window, &kitchen.borrow().view());
    let (weak, behind) = (window.as_weak(), Rc::clone(&kitchen));
    connect(window, move |intent| {
        let view = {
            let mut kitchen = behind.borrow_mut();
            kitchen.take(&intent);
            kitchen.view()
        };
        if let Some(window) = weak.upgrade() {
            show(&window, &view);
        }
    });
    kitchen
}

/// Reports everything a person does in the window, and each second that passes.
pub fn connect(window: &MainWindow, on: impl Fn(Intent) + 'static) {
    let on = Rc::new(on);
    let press = Rc::clone(&on);
    let back = Rc::clone(&on);
    let act = Act::get(window);
    act.on_press(move |id| press(Intent::Press { id: id.into() }));
    act.on_back(move || back(Intent::Back));
    let typed = Rc::clone(&on);
    act.on_typed(move |id, text| {
        typed(Intent::Type {
            id: id.into(),
            text: text.into(),
        })
    });
    let accept = Rc::clone(&on);
    act.on_accepted(move || accept(Intent::Accept));
    window.on_tick(move || on(Intent::Tick));
}

fn frame(window: &MainWindow, view: &View) {
    let frame = Frame::get(window);
    let strip = view.strip.as_deref().unwrap_or_default();
    frame.set_strip(strip.into());
    frame.set_back_word(view.back_word.as_str().into());
    frame.set_has_help(view.help.is_some());
    if let Some(help) = &view.help {
        frame.set_help(link(help));
    }
    frame.set_has_banner(view.banner.is_some());
    if let Some(banner) = &view.banner {
        frame.set_banner(link(banner));
    }
    frame.set_still(view.still);
    frame.set_flash(view.flash);
    frame.set_household(view.household.as_str().into());
    rows::update(frame.get_shelf(), links(&view.shelf), |rows| {
        frame.set_shelf(rows)
    });
    window.set_sign(pictures::small("covered-bowl", view.dark));
}

/// What tells one screen from another: its kind and its headline.
fn mark(window: &MainWindow) -> (ScreenKind, [SharedString; 2]) {
    use crate::screens::{ReadingState, StepState, TodayState};
    let kind = window.get_kind();
    let words = match kind {
        ScreenKind::Step => {
            let step = StepState::get(window);
            [step.get_title().words, step.get_place()]
        }
        ScreenKind::Reading => [
            ReadingState::get(window).get_title(),
            SharedString::default(),
        ],
        ScreenKind::Today => {
            let today = TodayState::get(window);
            [today.get_household(), today.get_title().words]
        }
        _ => Default::default(),
    };
    (kind, words)
}

fn link(link: &Link) -> LinkData {
    LinkData {
        id: link.id.as_str().into(),
        label: link.label.as_str().into(),
        here: link.here,
    }
}

fn links(all: &[Link]) -> Vec<LinkData> {
    all.iter().map(link).collect()
}

fn button(button: Option<&Button>) -> crate::screens::ButtonData {
    button.map_or_else(Default::default, |b| crate::screens::ButtonData {
        id: b.id.as_str().into(),
        label: b.label.as_str().into(),
        drawn: drawn(&b.label),
        ready: b.ready,
    })
}

fn note(note: Option<&Note>, dark: bool) -> crate::screens::NoteData {
    note.map_or_else(Default::default, |n| crate::screens::NoteData {
        title: n.title.as_str().into(),
        body: words(&n.body),
        picture: n
            .picture
            .as_ref()
            .map_or_else(Default::default, |p| pictures::small(&p.0, dark)),
    })
}

/// Words joined for a screen reader, without empty parts.
fn spoken<'a>(parts: impl IntoIterator<Item = &'a str>) -> SharedString {
    let parts: Vec<&str> = parts.into_iter().filter(|part| !part.is_empty()).collect();
    parts.join(", ").into()
}
