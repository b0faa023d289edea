//! A kitchen behind a phone's window.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use hearthdose_ui::bind;
use hearthdose_ui::screens::MainWindow;
use hearthdose_ui::vm::Kitchen;
use hearthdose_ui::vm::view::Intent;

use crate::arrival::Arrival;
use crate::phone::{Look, Program};

/// The window and the kitchen behind it.
pub struct Table {
    window: MainWindow,
    kitchen: Rc<RefCell<Kitchen>>,
    /// Dark or light as the system wanted it last.
    dark: Cell<Option<bool>>,
    arrivals: RefCell<Option<Arrivals>>,
}

/// Tells what came in since it was asked last.
pub type Arrivals = Box<dyn Fn() -> Option<Arrival>>;

impl Table {
    /// Shows the kitchen in the window.
    pub fn set(window: MainWindow, kitchen: Kitchen) -> Rc<Table> {
        let kitchen = bind::join(&window, kitchen);
        Rc::new(Table {
            window,
            kitchen,
            dark: Cell::new(None),
            arrivals: RefCell::new(None),
        })
    }

    pub fn kitchen(&self) -> Rc<RefCell<Kitchen>> {
        Rc::clone(&self.kitchen)
    }

    pub fn window(&self) -> &MainWindow {
        &self.window
    }

    /// Names who knows what came in while the program was out of sight.
    pub fn look_for(&self, arrivals: Arrivals) {
        *self.arrivals.borrow_mut() = Some(arrivals);
    }

    /// Goes to the place where a file that was shared is looked at; Back leads to where one was.
    pub fn show_arrival(&self, arrival: Arrival) {
        let presses: &[&str] = match arrival {
            Arrival::Paper => &["look-for-papers"],
            Arrival::Picture => &["receive-code", "look-for-codes"],
        };
        for id in presses {
            let id = (*id).to_owned();
            self.kitchen.borrow_mut().take(&Intent::Press { id });
        }
        self.show();
    }

    fn show(&self) {
        bind::show(&self.window, &self.kitchen.borrow().view());
    }
}

impl Program for Table {
    fn back(&self) -> bool {
        let moved = {
            let mut kitchen = self.kitchen.borrow_mut();
            let before = kitchen.view().screen;
            kitchen.take(&Intent::Back);
            before != kitchen.view().screen
        };
        self.show();
        moved
    }

    /// The system's look is taken where nothing was chosen on this phone, and where the system changes it.
    fn look(&self, look: &Look) {
        let before = self.dark.replace(Some(look.dark));
        let mut kitchen = self.kitchen.borrow_mut();
        let fresh = before.is_none() && !kitchen.has_chosen() && kitchen.state().is_none();
        if fresh {
            kitchen.set_scale(look.text);
        }
        if fresh || before.is_some_and(|before| before != look.dark) {
            kitchen.set_dark(look.dark);
        }
        drop(kitchen);
        self.show();
    }

    fn came_back(&self) {
        self.kitchen.borrow_mut().take(&Intent::Tick);
        self.show();
        let arrived = self
            .arrivals
            .borrow()
            .as_ref()
            .and_then(|arrivals| arrivals());
        if let Some(arrival) = arrived {
            self.show_arrival(arrival);
        }
    }

    fn spare_memory(&self) {
        bind::forget_pictures();
    }
}
