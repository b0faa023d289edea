//! The platform under the window of a phone, over two ports: a [`Glass`] that shows pixels and [`Events`] that come in.
//!
//! It draws into a canvas of its own and hands out only what changed.
//! A surface that comes back gets the whole canvas without drawing it anew; while there is none nothing is drawn, and while the program is out of sight nothing wakes it.

mod event;
mod finger;
mod window;

use std::cell::{Cell, RefCell};
use std::rc::Rc;
use std::time::Duration;

use slint::platform::{Platform, PlatformError, WindowAdapter, WindowEvent};

pub use hearthdose_canvas::{Byte, Canvas, Patch, Pixel};

pub use event::{Event, Insets, Look, Touch};
use finger::Finger;
pub use window::PhoneWindow;

/// What shows pixels: a window of the system.
pub trait Glass {
    /// Width and height of the surface in pixels; none while there is no surface.
    fn size(&self) -> Option<(u32, u32)>;

    /// Shows what changed. Where the system gives a buffer with older content, more than that must be copied.
    fn show(&mut self, changed: Patch, canvas: &Canvas);

    /// Brings the soft keyboard, or takes it away.
    fn keyboard(&mut self, wanted: bool);
}

/// Where events come from.
pub trait Events {
    /// Waits, at most so long, and delivers what came; `take` says whether an event was of use.
    fn wait(&mut self, at_most: Option<Duration>, take: &mut dyn FnMut(Event) -> bool);
}

/// What is behind the window.
pub trait Program {
    /// Goes back by one place; false where there is none to go back to.
    fn back(&self) -> bool;
    /// The system's wishes for light, dark and the size of text.
    fn look(&self, look: &Look);
    /// Time has passed out of sight.
    fn came_back(&self);
    /// Frees what can be made again.
    fn spare_memory(&self);
}

/// The time between two frames of something that moves.
const FRAME: Duration = Duration::from_millis(16);

/// The phone: window, surface and life cycle.
pub struct Phone<G: Glass> {
    window: Rc<PhoneWindow>,
    glass: RefCell<G>,
    canvas: RefCell<Canvas>,
    finger: RefCell<Finger>,
    program: RefCell<Option<Rc<dyn Program>>>,
    in_sight: Cell<bool>,
    over: Cell<bool>,
    /// The surface knows nothing of the canvas yet.
    all_new: Cell<bool>,
    drawn: Cell<u64>,
}

impl<G: Glass> Phone<G> {
    pub fn new(glass: G) -> Rc<Phone<G>> {
        Rc::new(Phone {
            window: PhoneWindow::new(),
            glass: RefCell::new(glass),
            canvas: RefCell::default(),
            finger: RefCell::default(),
            program: RefCell::new(None),
            in_sight: Cell::new(true),
            over: Cell::new(false),
            all_new: Cell::new(true),
            drawn: Cell::new(0),
        })
    }

    /// Names what is behind the window.
    pub fn serve(&self, program: Rc<dyn Program>) {
        *self.program.borrow_mut() = Some(program);
    }

    /// Pixels drawn so far, which is what a frame costs.
    pub fn pixels_drawn(&self) -> u64 {
        self.drawn.get()
    }

    /// Whether the system has asked for the end.
    pub fn is_over(&self) -> bool {
        self.over.get()
    }

    /// Takes one event; false where it is of no use here and the system should deal with it.
    pub fn take(&self, event: Event) -> bool {
        match event {
            Event::Surface => self.surface(),
            Event::Look(look) => self.look(&look),
            Event::Shown => self.come_back(),
            Event::Hidden => self.in_sight.set(false),
            Event::Paused => {
                self.send(self.finger.borrow_mut().lift());
                self.glass.borrow_mut().keyboard(false);
            }
            Event::Focus(active) => self.send([WindowEvent::WindowActiveChanged(active)]),
            Event::Redraw => self.show_all(),
            Event::LowMemory => self.spare_memory(),
            Event::Over => self.over.set(true),
            Event::Touch(touch) => {
                let events = self.finger.borrow_mut().feel(&touch, self.window.scale());
                self.send(events);
            }
            Event::Key { text, down } => self.send([if down {
                WindowEvent::KeyPressed { text }
            } else {
                WindowEvent::KeyReleased { text }
            }]),
            Event::Back => {
                let program = self.program.borrow().clone();
                return program.is_some_and(|program| program.back());
            }
        }
        true
    }

    /// One turn of the loop: what is due happens, and what changed is drawn.
    pub fn turn(&self) {
        slint::platform::update_timers_and_animations();
        if let Some(wanted) = self.window.keyboard_wish() {
            self.glass.borrow_mut().keyboard(wanted);
        }
        if self.in_sight.get() {
            self.draw();
        }
    }

    /// How long nothing will happen by itself; none for as long as nobody does anything.
    pub fn rest(&self) -> Option<Duration> {
        if !self.in_sight.get() {
            None
        } else if self.window.window().has_active_animations() {
            Some(FRAME)
        } else if self.window.wants_drawing() && self.glass.borrow().size().is_some() {
            Some(Duration::ZERO)
        } else {
            slint::platform::duration_until_next_timer_update()
        }
    }

    fn send(&self, events: impl IntoIterator<Item = WindowEvent>) {
        for event in events {
            self.window.window().dispatch_event(event);
        }
    }

    fn surface(&self) {
        let size = self.glass.borrow().size();
        if let Some((width, height)) = size {
            self.window.fit(width, height);
            self.show_all();
        }
    }

    fn show_all(&self) {
        self.all_new.set(true);
        self.window.request_redraw();
    }

    fn look(&self, look: &Look) {
        self.window.scale_to(look.scale);
        self.window.keep_clear_of(look.insets);
        if let Some(program) = self.program.borrow().clone() {
            program.look(look);
        }
    }

    fn come_back(&self) {
        self.in_sight.set(true);
        if let Some(program) = self.program.borrow().clone() {
            program.came_back();
        }
        self.show_all();
    }

    fn spare_memory(&self) {
        if let Some(program) = self.program.borrow().clone() {
            program.spare_memory();
        }
        if !self.in_sight.get() {
            *self.canvas.borrow_mut() = Canvas::default();
        }
    }

    fn draw(&self) {
        let Some((width, height)) = self.glass.borrow().size() else {
            return;
        };
        // Turned, and not told of it yet.
        let size = self.window.size();
        if (size.width, size.height) != (width, height) {
            self.surface();
        }
        if !self.window.take_drawing() {
            return;
        }
        let mut canvas = self.canvas.borrow_mut();
        let fresh = canvas.fit(width, height);
        let region = self.window.render(&mut canvas, fresh);
        let pixels: u64 = region
            .iter()
            .map(|(_, size)| u64::from(size.width) * u64::from(size.height))
            .sum();
        self.drawn.set(self.drawn.get() + pixels);
        let changed = if self.all_new.replace(false) || fresh {
            canvas.whole()
        } else {
            Patch::around(&region)
        };
        if !changed.is_empty() {
            self.glass.borrow_mut().show(changed, &canvas);
        }
    }
}

/// A phone and its events, as Slint wants them.
pub struct PhonePlatform<G: Glass, E: Events> {
    phone: Rc<Phone<G>>,
    events: RefCell<E>,
    clock: Box<dyn Fn() -> Duration>,
}

impl<G: Glass + 'static, E: Events + 'static> PhonePlatform<G, E> {
    /// `clock` is the time since the start; it never runs backwards.
    pub fn new(phone: Rc<Phone<G>>, events: E, clock: Box<dyn Fn() -> Duration>) -> Self {
        PhonePlatform {
            phone,
            events: RefCell::new(events),
            clock,
        }
    }
}

impl<G: Glass + 'static, E: Events + 'static> Platform for PhonePlatform<G, E> {
    fn create_window_adapter(&self) -> Result<Rc<dyn WindowAdapter>, PlatformError> {
        Ok(Rc::clone(&self.phone.window) as Rc<dyn WindowAdapter>)
    }

    fn run_event_loop(&self) -> Result<(), PlatformError> {
        let mut events = self.events.borrow_mut();
        while !self.phone.is_over() {
            self.phone.turn();
            events.wait(self.phone.rest(), &mut |event| self.phone.take(event));
        }
        Ok(())
    }

    fn duration_since_start(&self) -> Duration {
        (self.clock)()
    }
}
