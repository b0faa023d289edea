//! The phone's platform without a phone: touches in, pixels out, the same pictures as the desktop's.

#[path = "phone/device.rs"]
#[allow(dead_code)]
mod device;
#[path = "layout/tree.rs"]
#[allow(dead_code)]
mod tree;

use std::time::Duration;

use device::{Device, Shot};
use hearthdose_android::phone::{Event, Insets};
use hearthdose_tests::kitchen::{World, title, usual};
use hearthdose_ui::headless::Headless;
use hearthdose_ui::text::Language;
use hearthdose_ui::vm::ports::{Bell, Ring};
use hearthdose_ui::vm::view::{Screen, View};
use jiff::SignedDuration;
use slint::ComponentHandle;
use slint::platform::WindowEvent;

/// Half of a phone of 1080 by 2400 each way, which shows the same layout.
const SIZE: (u32, u32) = (540, 1200);
const SCALE: f32 = 1.5;

/// The words on what has this id.
fn words_of(view: &View, id: &str) -> String {
    fn find(value: &serde_json::Value, id: &str) -> Option<String> {
        if value.get("id").and_then(|found| found.as_str()) == Some(id) {
            let words = value.get("label").or_else(|| value.get("title"));
            return words.and_then(|words| words.as_str()).map(str::to_owned);
        }
        match value {
            serde_json::Value::Array(all) => all.iter().find_map(|value| find(value, id)),
            serde_json::Value::Object(all) => all.values().find_map(|value| find(value, id)),
            _ => None,
        }
    }
    let plain = serde_json::to_value(&view.screen).expect("a view is plain");
    find(&plain, id).unwrap_or_else(|| panic!("“{id}” is not on “{}”", title(view)))
}

/// Touches what has this id, as a person who reads its words.
fn press(device: &Device, id: &str) {
    device.touch(&words_of(&device.view(), id));
}

/// Goes on by touch until a screen of this title comes; each screen is handed to `see`.
fn go_on(device: &Device, world: &World, wanted: &str, mut see: impl FnMut(&Device, usize)) {
    for number in 0..200 {
        let view = device.view();
        see(device, number);
        if title(&view).starts_with(wanted) {
            return;
        }
        match usual(&view) {
            Some(id) => {
                world.pass(SignedDuration::from_secs(15));
                press(device, &id);
            }
            None => {
                world.pass(SignedDuration::from_secs(30));
                device.wait(Duration::from_secs(1));
            }
        }
    }
    panic!(
        "“{wanted}” never comes; the screen is “{}”",
        title(&device.view())
    );
}

/// The same views drawn by the desktop's window at the same size.
fn assert_same_as_desktop(shots: Vec<Shot>) {
    std::thread::spawn(move || {
        let headless = Headless::new().expect("a window in memory");
        for shot in shots {
            headless
                .window()
                .window()
                .dispatch_event(WindowEvent::ScaleFactorChanged {
                    scale_factor: shot.scale,
                });
            let expected = headless.render(&shot.view, shot.size.0, shot.size.1);
            let differs = expected
                .pixels
                .chunks_exact(3)
                .zip(shot.pixels.chunks_exact(3))
                .filter(|(one, other)| one != other)
                .count();
            if differs > 0
                && let Some(folder) = std::env::var_os("HEARTHDOSE_PICTURES")
            {
                let folder = std::path::PathBuf::from(folder);
                expected
                    .save_png(&folder.join("desktop.png"))
                    .expect("a picture");
                let phone = hearthdose_ui::headless::Picture {
                    pixels: shot.pixels.clone(),
                    ..expected.clone()
                };
                phone
                    .save_png(&folder.join("phone.png"))
                    .expect("a picture");
            }
            assert_eq!(expected.pixels.len(), shot.pixels.len());
            assert_eq!(
                differs,
                0,
                "{differs} pixels of “{}” at {:?} are not the desktop's",
                title(&shot.view),
                shot.size
            );
        }
    })
    .join()
    .expect("the same pictures");
}

/// A whole round by touch: turned on its side and back at two steps, out of sight and in sight again, every screen as on the desktop.
#[test]
fn a_round_by_touch_shows_what_the_desktop_shows() {
    let world = World::new("phone-round");
    let mut device = Device::new(SIZE, SCALE);
    device.start(world.start(Language::English));
    let mut shots = Vec::new();
    go_on(&device, &world, "Done for now", |device, number| {
        if number % 7 == 3 {
            device.turn_round();
            shots.push(device.shot());
            device.turn_round();
        }
        if number % 7 == 5 {
            device.send(Event::Paused);
            device.send(Event::Hidden);
            device.surface(None);
            device.send(Event::Shown);
            device.surface(Some(SIZE));
        }
        shots.push(device.shot());
    });
    assert!(shots.len() >= 35, "{} pictures", shots.len());
    println!(
        "{} pictures, {} pixels drawn",
        shots.len(),
        device.phone.pixels_drawn()
    );
    assert_same_as_desktop(shots);
}

/// Killed without a word in the middle of a soak: the same step, and the time that is really left.
#[test]
fn killed_in_a_soak_it_comes_back_to_the_same_step() {
    let world = World::new("phone-killed");
    let mut device = Device::new(SIZE, SCALE);
    device.start(world.start(Language::English));
    go_on(&device, &world, "Let the tablets soften", |_, _| {});
    let before = device.view();
    device.kill();
    world.pass(SignedDuration::from_secs(60));
    device.start(world.start(Language::English));
    let after = device.view();
    assert_eq!(title(&before), title(&after));
    let (Screen::Step(before), Screen::Step(after)) = (&before.screen, &after.screen) else {
        panic!("not a step");
    };
    assert_eq!(
        before.main, after.main,
        "it is soft at the same time as before"
    );
    assert_ne!(before.large, after.large, "a minute of the wait is over");
    assert_same_as_desktop(vec![device.shot()]);
}

/// Bars and cutouts: nothing that can be pressed lies under them, upright and on the side.
#[test]
fn nothing_lies_under_the_bars() {
    let world = World::new("phone-bars");
    let mut device = Device::new(SIZE, SCALE);
    device.start(world.start(Language::English));
    press(&device, "practise");
    let bars = Insets {
        top: 72,
        bottom: 63,
        left: 45,
        right: 30,
    };
    device.insets(bars);
    for _ in 0..2 {
        let (width, height) = device.shot().size;
        let window = tree::read(device.table().window());
        assert!(window.controls.len() > 3);
        let inside = |edge: u32| edge as f32 / SCALE - 0.5;
        for control in &window.controls {
            let seen = control.place.within(control.bounds.seen);
            if seen.height() <= 0.0 {
                continue;
            }
            let clear = seen.top >= inside(bars.top)
                && seen.left >= inside(bars.left)
                && seen.bottom <= (height as f32 - bars.bottom as f32) / SCALE + 0.5
                && seen.right <= (width as f32 - bars.right as f32) / SCALE + 0.5;
            assert!(clear, "“{}” at {seen:?} lies under a bar", control.name);
        }
        device.turn_round();
    }
}

/// A field brings the keyboard and takes its keys, a scanner types into it, and leaving it sends the keyboard away.
#[test]
fn a_field_brings_the_keyboard_and_back_leads_out() {
    let world = World::new("phone-keyboard");
    let mut device = Device::new(SIZE, SCALE);
    device.start(world.start(Language::English));
    assert_eq!(device.keyboard(), [false; 0]);
    press(&device, "receive-code");
    assert_eq!(device.keyboard().last(), Some(&true));
    for letter in "ñ7$".chars() {
        for down in [true, false] {
            let text = letter.to_string().into();
            assert!(device.send(Event::Key { text, down }));
        }
    }
    let Screen::Step(step) = device.view().screen else {
        panic!("not a step");
    };
    assert_eq!(step.entry.expect("a field").fields[0].value, "ñ7$");
    assert!(device.send(Event::Back), "there is a place before this");
    assert_eq!(device.keyboard().last(), Some(&false));
    assert!(
        !device.send(Event::Back),
        "the first screen leads out of the program"
    );
}

/// Out of sight nothing is drawn and nothing wakes the phone; a surface that comes back gets everything without drawing it anew.
#[test]
fn out_of_sight_nothing_happens() {
    let world = World::new("phone-sight");
    let mut device = Device::new(SIZE, SCALE);
    device.start(world.start(Language::English));
    go_on(&device, &world, "Let the tablets soften", |_, _| {});
    let before = device.pixels();
    device.send(Event::Paused);
    device.send(Event::Hidden);
    device.send(Event::LowMemory);
    device.surface(None);
    device.shown();
    assert_eq!(device.phone.rest(), None);
    device.wait(Duration::from_secs(120));
    assert_eq!(device.shown(), []);
    device.surface(Some(SIZE));
    device.send(Event::Shown);
    assert_eq!(
        device.pixels(),
        before,
        "no time has passed on the household's clock"
    );

    let drawn = device.phone.pixels_drawn();
    device.send(Event::Hidden);
    device.surface(None);
    device.surface(Some(SIZE));
    device.send(Event::Shown);
    assert_eq!(
        device.phone.pixels_drawn(),
        drawn,
        "nothing changed, so nothing is drawn"
    );
    assert_eq!(
        device.shown().last().map(|patch| patch.area()),
        Some(540 * 1200)
    );
    assert_eq!(device.pixels(), before);

    world.pass(SignedDuration::from_secs(100));
    device.send(Event::Hidden);
    device.send(Event::Shown);
    assert_ne!(
        device.pixels(),
        before,
        "the time that passed is told at once"
    );
    assert_same_as_desktop(vec![device.shot()]);
}

/// A bell that keeps what it was asked for.
struct Rings(std::rc::Rc<std::cell::RefCell<Vec<Ring>>>, bool);

impl Bell for Rings {
    fn ring(&mut self, ring: &Ring) -> bool {
        self.0.borrow_mut().push(ring.clone());
        self.1
    }
}

/// The phone's clock is asked only when a person asks, for the whole wait that is left and for the hour of the start.
#[test]
fn the_clock_of_the_phone_rings_when_asked() {
    let world = World::new("phone-bell");
    let mut device = Device::new(SIZE, SCALE);
    let rung = std::rc::Rc::default();
    let mut kitchen = world.start(Language::English);
    kitchen.hang_bell(Box::new(Rings(std::rc::Rc::clone(&rung), true)));
    device.start(kitchen);
    go_on(&device, &world, "Let the tablets soften", |_, _| {});
    assert_eq!(rung.borrow().len(), 0);
    world.pass(SignedDuration::from_millis(90_500));
    device.wait(Duration::from_secs(1));
    press(&device, "ring-timer");
    let Some(Ring::After { seconds, .. }) = rung.borrow().first().cloned() else {
        panic!("no timer");
    };
    // Thirty minutes of the demo order's soak, less what has passed; a part of a second counts whole.
    let soak = soak_seconds(&device);
    assert_eq!(seconds, soak);
    go_on(&device, &world, "Done for now", |_, _| {});
    press(&device, "to-today");
    press(&device, "ring-alarm");
    let Some(Ring::At { hour, minute, .. }) = rung.borrow().last().cloned() else {
        panic!("no alarm");
    };
    let Screen::Today(today) = device.view().screen else {
        panic!("not today");
    };
    let twelve = format!("{}:{minute:02} a.m.", hour);
    assert!(
        today.start.contains(&twelve),
        "{twelve} is not in “{}”",
        today.start
    );
}

/// The time left as the screen tells it, in seconds.
fn soak_seconds(device: &Device) -> i32 {
    let Screen::Step(step) = device.view().screen else {
        panic!("not a step");
    };
    let numbers: Vec<i32> = step
        .large
        .split(' ')
        .filter_map(|word| word.parse().ok())
        .collect();
    match numbers[..] {
        [minutes, seconds] => 60 * minutes + seconds,
        _ => panic!("“{}” is no time", step.large),
    }
}

/// A phone whose clock takes nothing says so.
#[test]
fn a_phone_without_a_clock_says_so() {
    let world = World::new("phone-no-bell");
    let mut device = Device::new(SIZE, SCALE);
    let mut kitchen = world.start(Language::English);
    kitchen.hang_bell(Box::new(Rings(std::rc::Rc::default(), false)));
    device.start(kitchen);
    go_on(&device, &world, "Let the tablets soften", |_, _| {});
    press(&device, "ring-timer");
    assert_eq!(title(&device.view()), "No clock");
}
