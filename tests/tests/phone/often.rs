//! What happens often on a phone, one after the other, so that it can be measured.

use std::time::Duration;

use hearthdose_android::phone::Event;
use hearthdose_tests::kitchen::{World, go_on_to, press, pressable};
use hearthdose_ui::text::Language;
use hearthdose_ui::vm::Kitchen;
use jiff::SignedDuration;

use super::device::Device;

/// Takes the name of a thing and does it; what is done in between is not measured.
pub type Measure<'a> = &'a mut dyn FnMut(&'static str, &mut Device, &mut dyn FnMut(&mut Device));

pub const START: &str = "the program starts";
pub const WHOLE_FRAME: &str = "a whole frame";
pub const REST: &str = "fifteen seconds of rest";
pub const FIRST_LETTER: &str = "the first letter in a field";
pub const LETTER: &str = "a letter more";
pub const SOAK: &str = "five seconds of a soak";
pub const FIRST_DIGIT: &str = "the first digit on the pad";
pub const DIGIT: &str = "a digit more";
pub const SCROLL: &str = "ten frames of scrolling";

/// Size of the surface, and its pixels for one of the layout.
pub const SIZE: (u32, u32) = (1080, 2400);
pub const SCALE: f32 = 3.0;

pub fn all(device: &mut Device, world: &World, measure: Measure) {
    measure(START, device, &mut |device| {
        device.start(world.start(Language::English));
    });
    measure(WHOLE_FRAME, device, &mut |device| {
        device.surface(None);
        device.send(Event::Hidden);
        device.send(Event::LowMemory);
        device.surface(Some(SIZE));
        device.send(Event::Shown);
    });
    measure(REST, device, &mut |device| {
        device.wait(Duration::from_secs(15));
    });

    // The first letter also makes the button ready.
    device.touch("Receive");
    measure(FIRST_LETTER, device, &mut type_letter);
    measure(LETTER, device, &mut type_letter);
    device.send(Event::Back);

    behind(device, |kitchen| {
        press(kitchen, "practise");
        go_on_to(world, kitchen, "Let the tablets soften");
    });
    measure(SOAK, device, &mut |device| {
        world.pass(SignedDuration::from_secs(5));
        device.wait(Duration::from_secs(1));
    });

    behind(device, |kitchen| {
        go_on_to(world, kitchen, "Done for now");
        press(kitchen, "to-today");
        press(kitchen, "people");
        for id in ["person:", "weigh:", "alone"] {
            press_first(kitchen, id);
        }
    });
    // The first digit also brings what the number comes to, and moves what is below.
    for name in [FIRST_DIGIT, DIGIT] {
        let place = device.bring("5");
        let (x, y) = (
            (place.left + place.right) / 2.0,
            (place.top + place.bottom) / 2.0,
        );
        measure(name, device, &mut |device| device.tap(x, y));
    }

    behind(device, |kitchen| press(kitchen, "help"));
    measure(SCROLL, device, &mut |device| device.swipe(-120.0));
}

fn type_letter(device: &mut Device) {
    for down in [true, false] {
        device.send(Event::Key {
            text: "a".into(),
            down,
        });
    }
}

/// Does something behind the window and shows it.
fn behind(device: &Device, doing: impl FnOnce(&mut Kitchen)) {
    doing(&mut device.table().kitchen().borrow_mut());
    device.send(Event::Shown);
}

/// Presses the first thing whose id begins so.
fn press_first(kitchen: &mut Kitchen, start: &str) {
    let all = pressable(&kitchen.view());
    let found = all.iter().find(|id| id.starts_with(start));
    let id = found.unwrap_or_else(|| panic!("no “{start}” among {all:?}"));
    press(kitchen, id);
}
