//! A phone without Android: a glass with two buffers as the system hands them out, a finger, and a clock of its own.

use std::cell::{Cell, RefCell};
use std::rc::Rc;
use std::time::Duration;

use hearthdose_android::phone::{
    Canvas, Event, Events, Glass, Insets, Look, Patch, Phone, PhonePlatform, Touch,
};
use hearthdose_android::table::Table;
use hearthdose_ui::screens::MainWindow;
use hearthdose_ui::vm::Kitchen;
use hearthdose_ui::vm::view::View;
use slint::ComponentHandle;

use super::tree;

/// Pixels that a row of a buffer is longer than the window, as buffers of phones are.
const MARGIN: usize = 24;
/// What stands in a buffer that nobody wrote to.
const GARBAGE: u8 = 0xA5;

#[derive(Default)]
struct Buffers {
    size: Option<(u32, u32)>,
    /// The one that is shown, and the one that is written next; bytes with their size.
    front: Option<((u32, u32), Vec<u8>)>,
    back: Option<((u32, u32), Vec<u8>)>,
    shown: Vec<Patch>,
    /// What the buffer in front has newer than the one behind it.
    shown_last: Patch,
    keyboard: Vec<bool>,
}

/// Shows pixels as Android does: a buffer of another size holds garbage and asks for everything;
/// otherwise what changed in the frame before is brought over from the buffer in front.
#[derive(Clone, Default)]
pub struct Wall(Rc<RefCell<Buffers>>);

impl Glass for Wall {
    fn size(&self) -> Option<(u32, u32)> {
        self.0.borrow().size
    }

    fn show(&mut self, changed: Patch, canvas: &Canvas) {
        let mut buffers = self.0.borrow_mut();
        let size = buffers.size.expect("nothing is shown without a surface");
        let stride = 4 * (size.0 as usize + MARGIN);
        let row = 4 * size.0 as usize;
        let back = buffers.back.take().filter(|(back, _)| *back == size);
        let front = buffers.front.take();
        let (mut dirty, mut buffer) = match (&front, back) {
            (Some((in_front, pixels)), Some((_, mut older))) if *in_front == size => {
                let last = buffers.shown_last;
                let rows = last.top as usize * stride..last.bottom as usize * stride;
                older[rows.clone()].copy_from_slice(&pixels[rows]);
                (changed, older)
            }
            _ => (canvas.whole(), vec![GARBAGE; stride * size.1 as usize]),
        };
        dirty.right = dirty.right.min(size.0);
        canvas.copy(
            dirty,
            buffer.chunks_exact_mut(stride).map(|line| &mut line[..row]),
        );
        buffers.back = front;
        buffers.front = Some((size, buffer));
        buffers.shown_last = dirty;
        buffers.shown.push(dirty);
    }

    fn keyboard(&mut self, wanted: bool) {
        self.0.borrow_mut().keyboard.push(wanted);
    }
}

/// No event comes by itself; the loop ends at once.
struct Nothing;

impl Events for Nothing {
    fn wait(&mut self, _: Option<Duration>, take: &mut dyn FnMut(Event) -> bool) {
        take(Event::Over);
    }
}

/// What a phone showed, and what it was to show.
pub struct Shot {
    pub view: View,
    pub size: (u32, u32),
    pub scale: f32,
    pub pixels: Vec<u8>,
}

pub struct Device {
    pub phone: Rc<Phone<Wall>>,
    wall: Wall,
    time: Rc<Cell<Duration>>,
    table: Option<Rc<Table>>,
    look: Look,
}

impl Device {
    /// The phone of this thread; a thread can have one.
    pub fn new(size: (u32, u32), scale: f32) -> Device {
        let wall = Wall::default();
        wall.0.borrow_mut().size = Some(size);
        let phone = Phone::new(wall.clone());
        let time = Rc::new(Cell::new(Duration::ZERO));
        let clock = Rc::clone(&time);
        let platform =
            PhonePlatform::new(Rc::clone(&phone), Nothing, Box::new(move || clock.get()));
        slint::platform::set_platform(Box::new(platform)).expect("a thread without a platform");
        Device {
            phone,
            wall,
            time,
            table: None,
            look: Look {
                scale,
                insets: Insets::default(),
                dark: false,
                text: 100,
            },
        }
    }

    /// The size of text that the system asks for, in hundredths; to be said before the program starts.
    pub fn text(&mut self, size: u16) {
        self.look.text = size;
    }

    /// Starts the program on this kitchen, as the system starts it.
    pub fn start(&mut self, kitchen: Kitchen) {
        let window = MainWindow::new().expect("a window");
        let table = Table::set(window, kitchen);
        self.phone.serve(table.clone());
        table.window().show().expect("a window that can be shown");
        self.table = Some(table);
        self.phone.take(Event::Shown);
        self.phone.take(Event::Look(self.look));
        self.phone.take(Event::Surface);
        self.phone.take(Event::Focus(true));
        self.settle();
    }

    /// The process is gone, without a word before.
    pub fn kill(&mut self) {
        let table = self.table.take().expect("a program that runs");
        table.window().hide().expect("a window that can be hidden");
    }

    pub fn table(&self) -> &Table {
        self.table.as_ref().expect("a program that runs")
    }

    pub fn view(&self) -> View {
        self.table().kitchen().borrow().view()
    }

    /// Turns the loop until nothing moves any more.
    pub fn settle(&self) {
        for _ in 0..200 {
            self.time.set(self.time.get() + Duration::from_millis(16));
            self.phone.turn();
            if self
                .phone
                .rest()
                .is_none_or(|rest| rest > Duration::from_millis(16))
            {
                return;
            }
        }
        panic!("the window never comes to rest");
    }

    /// Time passes on the phone's own clock.
    pub fn wait(&self, length: Duration) {
        self.time.set(self.time.get() + length);
        self.settle();
    }

    pub fn send(&self, event: Event) -> bool {
        let taken = self.phone.take(event);
        self.settle();
        taken
    }

    /// The phone is turned: the surface is new and lies the other way.
    pub fn turn_round(&self) {
        let size = self.wall.0.borrow().size.expect("a surface");
        self.surface(None);
        self.surface(Some((size.1, size.0)));
    }

    pub fn surface(&self, size: Option<(u32, u32)>) {
        self.wall.0.borrow_mut().size = size;
        self.send(Event::Surface);
    }

    pub fn insets(&mut self, insets: Insets) {
        self.look.insets = insets;
        self.send(Event::Look(self.look));
    }

    /// Touches a control by the beginning of its name; scrolls to it where it is out of sight.
    pub fn touch(&self, name: &str) {
        let found = self.bring(name);
        let x = (found.left + found.right) / 2.0;
        let y = (found.top + found.bottom) / 2.0;
        self.tap(x, y);
    }

    /// Where a control is, after scrolling to it.
    pub fn bring(&self, name: &str) -> tree::Place {
        for _ in 0..12 {
            let window = tree::read(self.table().window());
            let control = window
                .controls
                .iter()
                .find(|control| control.enabled && control.name.starts_with(name));
            let Some(control) = control else {
                let names: Vec<_> = window.controls.iter().map(|c| &c.name).collect();
                panic!("there is no “{name}” among {names:?}");
            };
            let seen = control.place.within(control.bounds.seen);
            if seen.height() > control.place.height().min(40.0) - 1.0 {
                return seen;
            }
            let up = control.place.bottom > control.bounds.seen.bottom;
            self.swipe(if up { -180.0 } else { 180.0 });
        }
        panic!("“{name}” cannot be scrolled to");
    }

    pub fn tap(&self, x: f32, y: f32) {
        let (x, y) = (x * self.look.scale, y * self.look.scale);
        let finger = 0;
        self.phone.take(Event::Touch(Touch::Down { finger, x, y }));
        self.wait(Duration::from_millis(60));
        self.phone.take(Event::Touch(Touch::Up { finger, x, y }));
        self.settle();
    }

    /// Drags the middle of the window down by so many pixels of the layout.
    pub fn swipe(&self, by: f32) {
        let size = self.wall.0.borrow().size.expect("a surface");
        let (x, y) = (size.0 as f32 * 0.5, size.1 as f32 * 0.5);
        let finger = 0;
        self.phone.take(Event::Touch(Touch::Down { finger, x, y }));
        for step in 1..=10 {
            self.time.set(self.time.get() + Duration::from_millis(16));
            let y = y + by * self.look.scale * step as f32 / 10.0;
            self.phone.take(Event::Touch(Touch::Move { finger, x, y }));
            self.phone.turn();
        }
        // Held still before it leaves, so that nothing glides on.
        self.wait(Duration::from_millis(400));
        let y = y + by * self.look.scale;
        self.phone.take(Event::Touch(Touch::Up { finger, x, y }));
        self.settle();
    }

    /// The pixels in front, red, green and blue.
    pub fn pixels(&self) -> Vec<u8> {
        let buffers = self.wall.0.borrow();
        let (size, bytes) = buffers.front.as_ref().expect("something was shown");
        let stride = 4 * (size.0 as usize + MARGIN);
        bytes
            .chunks_exact(stride)
            .flat_map(|line| line[..4 * size.0 as usize].chunks_exact(4))
            .flat_map(|pixel| [pixel[0], pixel[1], pixel[2]])
            .collect()
    }

    pub fn shot(&self) -> Shot {
        Shot {
            view: self.view(),
            size: self.wall.0.borrow().size.expect("a surface"),
            scale: self.look.scale,
            pixels: self.pixels(),
        }
    }

    /// The rectangles handed out since this was asked last.
    pub fn shown(&self) -> Vec<Patch> {
        std::mem::take(&mut self.wall.0.borrow_mut().shown)
    }

    /// What was asked of the soft keyboard since this was asked last.
    pub fn keyboard(&self) -> Vec<bool> {
        std::mem::take(&mut self.wall.0.borrow_mut().keyboard)
    }
}
