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
use hearthdose_tests::kitchen::{World, go_on_to, press, pressable};
use hearthdose_ui::text::Language;
use hearthdose_ui::vm::Kitchen;
use jiff::SignedDuration;

const SIZE: (u32, u32) = (1080, 2400);
const SCALE: f32 = 3.0;
const WHOLE: u64 = 1080 * 2400;

/// Pixels that are drawn while something is done.
fn drawn(device: &Device, what: &str, doing: impl FnOnce()) -> u64 {
    let before = device.phone.pixels_drawn();
    doing();
    let pixels = device.phone.pixels_drawn() - before;
    println!(
        "{what}: {pixels} pixels, {} % of a frame",
        pixels * 100 / WHOLE
    );
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
    // The first letter also makes the button ready.
    let first = drawn(&device, "the first letter in a field", || {
        type_letter(&device)
    });
    let letter = drawn(&device, "a letter more", || type_letter(&device));
    assert!((1..WHOLE / 2).contains(&first));
    assert!((1..WHOLE / 10).contains(&letter));
    device.send(Event::Back);

    on(&device, |kitchen| {
        press(kitchen, "practise");
        go_on_to(&world, kitchen, "Let the tablets soften");
    });
    let moment = drawn(&device, "five seconds of a soak", || {
        count_down(&device, &world);
    });
    assert!((1..WHOLE / 3).contains(&moment));

    on(&device, |kitchen| {
        go_on_to(&world, kitchen, "Done for now");
        press(kitchen, "to-today");
        press(kitchen, "people");
        let person = of(kitchen, "person:");
        press(kitchen, &person);
        let weigh = of(kitchen, "weigh:");
        press(kitchen, &weigh);
        press(kitchen, "alone");
    });
    // The first digit also brings what the number comes to, and moves what is below.
    device.bring("5");
    let first = drawn(&device, "the first digit on the pad", || {
        press_digit(&device)
    });
    let digit = drawn(&device, "a digit more", || press_digit(&device));
    assert!((1..=WHOLE).contains(&first));
    assert!((1..WHOLE / 2).contains(&digit));

    on(&device, |kitchen| press(kitchen, "help"));
    let scroll_area = tree::read(device.table().window())
        .texts
        .iter()
        .filter(|text| text.bounds.scroll.is_some())
        .map(|text| text.bounds.seen)
        .next()
        .expect("a page that scrolls");
    device.shown();
    let scrolled = drawn(&device, "ten frames of scrolling", || scroll(&device));
    let shown = device.shown();
    assert!((5..=14).contains(&shown.len()), "{} frames", shown.len());
    for patch in shown {
        // What stands still above and below is left alone.
        assert!(
            patch.top as f32 >= scroll_area.top * SCALE - 2.0,
            "{patch:?}"
        );
        assert!(
            patch.bottom as f32 <= scroll_area.bottom * SCALE + 2.0,
            "{patch:?}"
        );
    }
    assert!(scrolled > 0);
}

/// Does something behind the window and shows it.
fn on(device: &Device, doing: impl FnOnce(&mut Kitchen)) {
    doing(&mut device.table().kitchen().borrow_mut());
    device.send(Event::Shown);
}

/// The first thing to press whose id begins so.
fn of(kitchen: &Kitchen, start: &str) -> String {
    let all = pressable(&kitchen.view());
    let found = all.iter().find(|id| id.starts_with(start));
    found
        .cloned()
        .unwrap_or_else(|| panic!("no “{start}” among {all:?}"))
}

fn drawn_first(device: &mut Device, world: &World) -> u64 {
    first_frame(device, world);
    let pixels = device.phone.pixels_drawn();
    println!(
        "first frame: {pixels} pixels, {} % of a frame",
        pixels * 100 / WHOLE
    );
    pixels
}
