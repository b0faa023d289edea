//! What a frame costs on a phone of 1080 by 2400: the pixels that are drawn, for all that happens often.
//!
//! `valgrind --tool=callgrind` counts the instructions of the same functions; see DEVELOPERS.md.

#[path = "phone/device.rs"]
#[allow(dead_code)]
mod device;
#[path = "layout/tree.rs"]
#[allow(dead_code)]
mod tree;

use std::time::Duration;

use device::Device;
use hearthdose_android::phone::Event;
use hearthdose_tests::kitchen::{World, go_on_to, press};
use hearthdose_ui::text::Language;
use jiff::SignedDuration;

const SIZE: (u32, u32) = (1080, 2400);
const SCALE: f32 = 3.0;
const WHOLE: u64 = 1080 * 2400;

/// Pixels that are drawn while something is done.
fn drawn(device: &Device, what: &str, doing: impl FnOnce()) -> u64 {
    let before = device.phone.pixels_drawn();
    doing();
    let pixels = device.phone.pixels_drawn() - before;
    println!("{what}: {pixels} pixels, {} % of a frame", pixels * 100 / WHOLE);
    pixels
}

#[inline(never)]
fn first_frame(device: &mut Device, world: &World) {
    device.start(world.start(Language::English));
}

#[inline(never)]
fn whole_frame(device: &Device) {
    device.surface(None);
    device.send(Event::Hidden);
    device.send(Event::LowMemory);
    device.surface(Some(SIZE));
    device.send(Event::Shown);
}

#[inline(never)]
fn nothing_happens(device: &Device) {
    device.wait(Duration::from_secs(15));
}

#[inline(never)]
fn type_letter(device: &Device) {
    for down in [true, false] {
        device.send(Event::Key {
            text: "a".into(),
            down,
        });
    }
}

#[inline(never)]
fn press_digit(device: &Device) {
    device.touch("5");
}

#[inline(never)]
fn count_down(device: &Device, world: &World) {
    world.pass(SignedDuration::from_secs(5));
    device.wait(Duration::from_secs(1));
}

#[inline(never)]
fn scroll(device: &Device) {
    device.swipe(-120.0);
}

/// Typing, counting down and scrolling draw what changed and no more.
#[test]
fn little_is_drawn_for_little() {
    let world = World::new("phone-cost");
    let mut device = Device::new(SIZE, SCALE);
    let first = drawn_first(&mut device, &world);
    assert!(first >= WHOLE);
    let whole = drawn(&device, "a whole frame", || whole_frame(&device));
    assert_eq!(whole, WHOLE);
    assert_eq!(drawn(&device, "rest", || nothing_happens(&device)), 0);

    device.touch("Receive");
    device.settle();
    let letter = drawn(&device, "a letter in a field", || type_letter(&device));
    assert!((1..WHOLE / 8).contains(&letter));
    device.send(Event::Back);

    {
        let kitchen = device.table().kitchen();
        let mut kitchen = kitchen.borrow_mut();
        press(&mut kitchen, "practise");
        go_on_to(&world, &mut kitchen, "Let the tablets soften");
    }
    device.send(Event::Shown);
    device.shown();
    let second = drawn(&device, "five seconds of a soak", || count_down(&device, &world));
    assert!((1..WHOLE / 4).contains(&second));
    assert!(device.shown().iter().all(|patch| patch.area() < WHOLE / 2));
    {
        let kitchen = device.table().kitchen();
        let mut kitchen = kitchen.borrow_mut();
        go_on_to(&world, &mut kitchen, "Done for now");
        press(&mut kitchen, "to-today");
        press(&mut kitchen, "help");
    }
    device.send(Event::Shown);
    let scrolled = drawn(&device, "ten frames of scrolling", || scroll(&device));
    assert!((1..=12 * WHOLE).contains(&scrolled));
}

fn drawn_first(device: &mut Device, world: &World) -> u64 {
    first_frame(device, world);
    let pixels = device.phone.pixels_drawn();
    println!("first frame: {pixels} pixels, {} % of a frame", pixels * 100 / WHOLE);
    pixels
}
