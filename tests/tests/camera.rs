//! Codes before a camera: taken in as if typed, once, only when it is clear which one is meant, and only where one is waited for.
#![expect(
    clippy::unwrap_used,
    reason = "what builds a case fails the test, wherever it stands"
)]

use std::sync::Arc;
use std::time::{Duration, Instant};

use hearthdose_core::exchange::{frames, write_frame};
use hearthdose_tests::camera::{Film, Scene, before_camera, covered};
use hearthdose_tests::kitchen::{World, press, step, title};
use hearthdose_tests::tour::{receipt, shown_code};
use hearthdose_ui::machine::viewfinder::Viewfinder;
use hearthdose_ui::text::Language;
use hearthdose_ui::vm::Kitchen;
use hearthdose_ui::vm::ports::NoSight;
use hearthdose_ui::vm::view::{Intent, Screen};

const ORDER: &str = include_str!("../../demo-data/orders/quillmere-doxy-1.toml");
/// More than any machine needs for a frame, also a busy one without optimized code.
const PATIENCE: Duration = Duration::from_secs(60);

fn kitchen(world: &World, film: &Film) -> Kitchen {
    let mut kitchen = world.start(Language::English);
    kitchen.give_camera(Box::new(Viewfinder::of(Arc::new(film.clone()))));
    kitchen
}

/// The window's timer goes on until this holds.
fn tick_until(kitchen: &mut Kitchen, what: &str, holds: impl Fn(&Kitchen) -> bool) {
    let begun = Instant::now();
    while !holds(kitchen) {
        assert!(
            begun.elapsed() < PATIENCE,
            "{what}: “{}”",
            title(&kitchen.view())
        );
        std::thread::sleep(Duration::from_millis(20));
        kitchen.take(&Intent::Tick);
    }
}

/// The camera gives this many frames more.
fn play(kitchen: &mut Kitchen, film: &Film, count: u32) {
    let wanted = film.frames() + count;
    tick_until(kitchen, "frames are taken", |_| film.frames() >= wanted);
}

fn said(kitchen: &Kitchen) -> Option<String> {
    match kitchen.view().screen {
        Screen::Step(step) => step.note.map(|note| note.title),
        _ => None,
    }
}

/// A practice home that waits for a code, and a receipt for it.
fn waiting(name: &str) -> (World, Film, Kitchen, String) {
    let world = World::new(name);
    let film = Film::showing(Scene::Frame(before_camera(&[])));
    let mut kitchen = kitchen(&world, &film);
    press(&mut kitchen, "practise");
    press(&mut kitchen, "people");
    press(&mut kitchen, "show-code");
    let slip = receipt(&shown_code(&kitchen.view()).unwrap());
    assert!(!film.is_on(), "nobody waits for a code yet");
    press(&mut kitchen, "receive-code");
    (world, film, kitchen, slip)
}

#[test]
fn a_receipt_is_taken_in_and_the_camera_goes_off() {
    let (_world, film, mut kitchen, slip) = waiting("camera-receipt");
    tick_until(&mut kitchen, "a picture is seen", |kitchen| {
        step(&kitchen.view()).seen.is_some()
    });
    assert!(kitchen.view().looking);
    film.show(Scene::Frame(before_camera(&[&slip])));
    tick_until(&mut kitchen, "the receipt is asked about", |kitchen| {
        title(&kitchen.view()) != "Receive a code"
    });
    assert_eq!(title(&kitchen.view()), "Is this on the desk's paper?");
    press(&mut kitchen, "desk-same");
    assert_eq!(title(&kitchen.view()), "Is this what you got?");
    assert!(!kitchen.view().looking);
    tick_until(&mut kitchen, "the camera goes off", |_| !film.is_on());
    // And on again where a code is waited for once more, but the code that is still there is not told anew.
    press(&mut kitchen, "not-this-slip");
    tick_until(&mut kitchen, "the camera goes on", |_| film.is_on());
    play(&mut kitchen, &film, 5);
    assert_eq!(title(&kitchen.view()), "Receive a code");
    press(&mut kitchen, "today");
    tick_until(&mut kitchen, "the camera goes off", |_| !film.is_on());
}

#[test]
fn half_a_code_is_nothing() {
    let (_world, film, mut kitchen, slip) = waiting("camera-half");
    film.show(Scene::Frame(covered(&before_camera(&[&slip]), 50)));
    play(&mut kitchen, &film, 4);
    assert_eq!(title(&kitchen.view()), "Receive a code");
    assert_eq!(said(&kitchen), None);
}

#[test]
fn of_two_codes_none_is_taken() {
    let (_world, film, mut kitchen, slip) = waiting("camera-two");
    press(&mut kitchen, "people");
    press(&mut kitchen, "show-code");
    let Screen::Reading(reading) = kitchen.view().screen else {
        panic!("a code is shown");
    };
    let own = reading.picture.unwrap().0.replacen("code:", "", 1);
    press(&mut kitchen, "receive-code");
    film.show(Scene::Frame(before_camera(&[&slip, &own])));
    tick_until(&mut kitchen, "something is said", |kitchen| {
        said(kitchen).is_some()
    });
    assert_eq!(
        said(&kitchen).unwrap(),
        "There are several codes before the camera. Hold up one alone."
    );
    assert_eq!(title(&kitchen.view()), "Receive a code");
    // A code of a shop beside it is no reason to ask.
    film.show(Scene::Frame(before_camera(&[&slip, "4006381333931"])));
    tick_until(&mut kitchen, "the receipt is asked about", |kitchen| {
        title(&kitchen.view()) == "Is this on the desk's paper?"
    });
}

#[test]
fn a_wrong_code_is_told_once() {
    let (_world, film, mut kitchen, _) = waiting("camera-wrong");
    film.show(Scene::Frame(before_camera(&["4006381333931"])));
    tick_until(&mut kitchen, "it is told", |kitchen| {
        said(kitchen).is_some()
    });
    assert_eq!(
        said(&kitchen).unwrap(),
        "This is another kind of code. Look for the one on your receipt."
    );
    // What is said by hand afterwards is not overwritten by a code that still lies there.
    press(&mut kitchen, "look-for-codes");
    let after = said(&kitchen).unwrap();
    assert_eq!(
        after,
        "No code was found in pictures. Put a picture of it in Downloads. Then look again."
    );
    play(&mut kitchen, &film, 20);
    assert_eq!(said(&kitchen).unwrap(), after);
}

#[test]
fn parts_of_an_order_come_one_after_the_other_or_together() {
    let world = World::new("camera-parts");
    let film = Film::showing(Scene::Frame(before_camera(&[])));
    let mut kitchen = kitchen(&world, &film);
    press(&mut kitchen, "receive-code");
    let parts = frames(ORDER.as_bytes(), 0).unwrap();
    let texts: Vec<String> = parts
        .iter()
        .map(|part| write_frame(part).unwrap())
        .collect();
    let (first, rest) = texts.split_at(2);
    let first: Vec<&str> = first.iter().map(String::as_str).collect();
    film.show(Scene::Frame(before_camera(&first)));
    let parts_there = |kitchen: &Kitchen| {
        let view = kitchen.view();
        let entry = step(&view).entry.clone();
        entry
            .and_then(|entry| entry.result)
            .map(|result| result.title)
    };
    tick_until(&mut kitchen, "two parts are there", |kitchen| {
        parts_there(kitchen).is_some_and(|words| words.starts_with("2 of "))
    });
    for text in rest {
        let before = parts_there(&kitchen);
        film.show(Scene::Frame(before_camera(&[text])));
        tick_until(&mut kitchen, "one part more", |kitchen| {
            matches!(kitchen.view().screen, Screen::Reading(_)) || parts_there(kitchen) != before
        });
    }
    assert_eq!(title(&kitchen.view()), "Is this the right one?");
}

#[test]
fn a_home_in_line_is_shown_as_if_it_were_typed() {
    let (_home_world, _, home, _) = waiting("camera-home");
    let mut home = home;
    press(&mut home, "people");
    press(&mut home, "show-code");
    let Screen::Reading(reading) = home.view().screen else {
        panic!("a code is shown");
    };
    let code = reading.picture.unwrap().0.replacen("code:", "", 1);
    let world = World::new("camera-line");
    world.become_another_device(9);
    world.bring("order.toml", ORDER);
    let film = Film::showing(Scene::Frame(before_camera(&[])));
    let mut site = kitchen(&world, &film);
    press(&mut site, "work-at-site");
    press(&mut site, "order:0");
    press(&mut site, "work-by-order");
    site.take(&Intent::Type {
        id: "site-name".to_owned(),
        text: "Old mill".to_owned(),
    });
    press(&mut site, "name-site");
    film.show(Scene::Frame(before_camera(&[&code])));
    tick_until(&mut site, "the home is in front", |site| {
        title(&site.view()).starts_with("Home ")
    });
    tick_until(&mut site, "the camera goes off", |_| !film.is_on());
}

#[test]
fn without_a_camera_everything_is_as_before() {
    let world = World::new("camera-none");
    let mut without = world.start(Language::English);
    press(&mut without, "receive-code");
    let expected = without.view();
    drop(without);
    let film = Film::showing(Scene::NoCamera);
    let mut kitchen = kitchen(&world, &film);
    press(&mut kitchen, "receive-code");
    kitchen.take(&Intent::Tick);
    assert_eq!(kitchen.view(), expected);
}

#[test]
fn a_camera_that_refuses_is_told_in_plain_words_until_it_can() {
    for (why, words) in [
        (
            NoSight::Busy,
            "Another program is using the camera. Close it, and this page goes on by itself.",
        ),
        (
            NoSight::Denied,
            "This program may not use the camera. Use a scanner or a picture.",
        ),
        (
            NoSight::Broken,
            "The camera shows nothing. Use a scanner or a picture.",
        ),
    ] {
        let (_world, film, mut kitchen, slip) = waiting("camera-refused");
        film.show(Scene::Refused(why));
        tick_until(&mut kitchen, "it is told", |kitchen| {
            said(kitchen).is_some()
        });
        assert_eq!(said(&kitchen).unwrap(), words);
        film.show(Scene::Frame(before_camera(&[&slip])));
        tick_until(&mut kitchen, "it goes on by itself", |kitchen| {
            title(&kitchen.view()) == "Is this on the desk's paper?"
        });
    }
}

#[test]
fn the_window_never_waits_for_the_camera() {
    let (_world, film, mut kitchen, _) = waiting("camera-slow");
    film.show(Scene::Slow(Duration::from_secs(2)));
    tick_until(&mut kitchen, "the slow frame is asked for", |_| {
        film.is_on()
    });
    let mut longest = Duration::ZERO;
    for _ in 0..50 {
        let begun = Instant::now();
        kitchen.take(&Intent::Tick);
        longest = longest.max(begun.elapsed());
        std::thread::sleep(Duration::from_millis(20));
    }
    press(&mut kitchen, "today");
    assert!(longest < Duration::from_millis(500), "{longest:?}");
}

#[test]
fn a_camera_that_nobody_looks_through_goes_off() {
    let (_world, film, mut kitchen, _) = waiting("camera-left");
    tick_until(&mut kitchen, "it is on", |_| film.is_on());
    let begun = Instant::now();
    while film.is_on() {
        assert!(begun.elapsed() < PATIENCE, "it stays on");
        std::thread::sleep(Duration::from_millis(50));
    }
    tick_until(&mut kitchen, "it is on again", |_| film.is_on());
}
