//! Files on their way out of a device whose program can write to no folder that people look into.

use std::cell::RefCell;
use std::rc::Rc;

use hearthdose_tests::kitchen::{World, go_on_to, press, pressable, title};
use hearthdose_ui::scan::{Cascade, Frame, Scanner, Symbol};
use hearthdose_ui::text::Language;
use hearthdose_ui::vm::Kitchen;
use hearthdose_ui::vm::ports::{Handing, Left, Outbox};
use hearthdose_ui::vm::view::Screen;

/// What a device did with its files.
#[derive(Default)]
struct Seen {
    left: Vec<(String, Vec<u8>)>,
    handed: Vec<Handing>,
}

/// A device that takes files, may hand them on, and may have programs that take them.
#[derive(Clone)]
struct Phone {
    seen: Rc<RefCell<Seen>>,
    takes: bool,
    hands: bool,
    programs: bool,
}

impl Outbox for Phone {
    fn leave(&mut self, name: &str, bytes: &[u8]) -> Option<Left> {
        let mut seen = self.seen.borrow_mut();
        seen.left.push((name.to_owned(), bytes.to_vec()));
        self.takes.then(|| Left {
            name: format!("own-{name}"),
            place: "Downloads".to_owned(),
            file: self.hands,
        })
    }

    fn hand_on(&mut self, handing: Handing) -> bool {
        self.seen.borrow_mut().handed.push(handing);
        self.programs
    }
}

fn device(takes: bool, hands: bool, programs: bool) -> Phone {
    Phone {
        seen: Rc::default(),
        takes,
        hands,
        programs,
    }
}

/// A practice home on the screen of the coming days.
fn ahead(name: &str, device: Option<&Phone>) -> (World, Kitchen) {
    let world = World::new(name);
    let mut kitchen = world.start(Language::English);
    if let Some(device) = device {
        kitchen.hang_outbox(Box::new(device.clone()));
    }
    press(&mut kitchen, "practise");
    go_on_to(&world, &mut kitchen, "Done for now");
    press(&mut kitchen, "to-today");
    press(&mut kitchen, "ahead");
    (world, kitchen)
}

fn told(kitchen: &Kitchen) -> String {
    match kitchen.view().screen {
        Screen::Step(step) => step.body.join(" "),
        other => panic!("nothing is told on {other:?}"),
    }
}

fn ways(kitchen: &Kitchen) -> usize {
    let ids = pressable(&kitchen.view());
    ids.iter().filter(|id| id.ends_with("-file")).count()
}

/// Papers and the calendar go where the device puts them, under the name it gave, and on from there as often as wanted.
#[test]
fn a_file_goes_out_and_on() {
    let device = device(true, true, true);
    let (world, mut kitchen) = ahead("leaving-on", Some(&device));
    for (id, name, begin) in [
        ("print-home", "hearthdose-home.pdf", &b"%PDF-"[..]),
        ("calendar", "hearthdose.ics", b"BEGIN:VCALENDAR\r\n"),
    ] {
        press(&mut kitchen, id);
        assert_eq!(title(&kitchen.view()), "It is ready");
        assert!(told(&kitchen).starts_with(&format!("own-{name} lies in Downloads.")));
        let (left, bytes) = device.seen.borrow_mut().left.pop().expect("a file");
        assert_eq!(left, name);
        assert!(bytes.starts_with(begin) && bytes.len() > 1000);
        // Nothing of it lies where only the desktop's files lie.
        assert!(!world.folder().join(name).exists());
        press(&mut kitchen, "open-file");
        press(&mut kitchen, "send-file");
        assert_eq!(title(&kitchen.view()), "It is ready");
        let handed = std::mem::take(&mut device.seen.borrow_mut().handed);
        assert_eq!(handed, [Handing::Open, Handing::Send]);
        press(&mut kitchen, "told");
        assert!(pressable(&kitchen.view()).contains(&id.to_owned()));
    }
    assert!(device.seen.borrow().left.is_empty());
}

/// Where no program takes the file, and where none could be left, that is what is said.
#[test]
fn a_file_that_goes_nowhere_is_told() {
    let refused = device(true, true, false);
    let (_world, mut kitchen) = ahead("leaving-refused", Some(&refused));
    press(&mut kitchen, "calendar");
    press(&mut kitchen, "send-file");
    assert_eq!(title(&kitchen.view()), "Nothing here takes it");
    assert_eq!(ways(&kitchen), 0);
    press(&mut kitchen, "told");

    let full = device(false, true, true);
    kitchen.hang_outbox(Box::new(full.clone()));
    press(&mut kitchen, "calendar");
    assert_eq!(title(&kitchen.view()), "This could not be made.");
    assert_eq!(full.seen.borrow().left.len(), 1);
    assert_eq!(ways(&kitchen), 0);
}

/// An older phone and a desktop leave the file and offer nothing that they cannot do.
#[test]
fn nothing_is_offered_that_the_device_cannot_do() {
    let older = device(true, false, true);
    let (_world, mut kitchen) = ahead("leaving-older", Some(&older));
    press(&mut kitchen, "print-home");
    assert_eq!(title(&kitchen.view()), "It is ready");
    assert_eq!(ways(&kitchen), 0);

    let (world, mut kitchen) = ahead("leaving-desktop", None);
    press(&mut kitchen, "print-home");
    assert!(told(&kitchen).starts_with("hearthdose-home.pdf lies in Documents."));
    assert_eq!(ways(&kitchen), 0);
    assert!(world.folder().join("hearthdose-home.pdf").exists());
}

/// The picture of the code is what the screen shows: a reader that never saw the drawing reads the same text from it.
#[test]
fn the_picture_of_the_code_is_read_by_another_program() {
    let device = device(true, true, true);
    let (_world, mut kitchen) = ahead("leaving-code", Some(&device));
    press(&mut kitchen, "people");
    press(&mut kitchen, "show-code");
    let Screen::Reading(reading) = kitchen.view().screen else {
        panic!("no code");
    };
    let shown = reading.picture.expect("a code").0;
    press(&mut kitchen, "code-picture");
    assert!(told(&kitchen).starts_with("own-hearthdose-code.png lies in Downloads."));
    let (_, bytes) = device.seen.borrow_mut().left.pop().expect("a picture");
    let picture = image::load_from_memory_with_format(&bytes, image::ImageFormat::Png)
        .expect("a PNG")
        .into_luma8();
    let (width, height) = (picture.width() as usize, picture.height() as usize);
    assert_eq!(width, height);
    let frame = Frame::new(width, height, picture.into_raw()).expect("a frame");
    let found = Cascade::thorough()
        .scan(&frame, Symbol::Qr)
        .expect("a code in it");
    assert_eq!(shown.strip_prefix("code:"), Some(found.text.as_str()));
}
