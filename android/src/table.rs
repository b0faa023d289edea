//! A kitchen behind a phone's window.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use hearthdose_ui::bind;
use hearthdose_ui::screens::MainWindow;
use hearthdose_ui::vm::Kitchen;
use hearthdose_ui::vm::view::Intent;

use crate::phone::{Look, Program};

/// The window and the kitchen behind it.
pub struct Table {
    window: MainWindow,
    kitchen: Rc<RefCell<Kitchen>>,
    /// Dark or light as the system wanted it last.
    dark: Cell<Option<bool>>,
}

impl Table {
    /// Shows the kitchen in the window.
    pub fn set(window: MainWindow, kitchen: Kitchen) -> Rc<Table> {
        let kitchen = bind::join(&window, kitchen);
        Rc::new(Table {
            window,
            kitchen,
            dark: Cell::new(None),
        })
    }

    pub fn kitchen(&self) -> Rc<RefCell<Kitchen>> {
        Rc::clone(&self.kitchen)
    }

    pub fn window(&self) -> &MainWindow {
        &self.window
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

    /// The system's look is taken where nothing was chosen yet, and where the system changes it.
    fn look(&self, look: &Look) {
        let before = self.dark.replace(Some(look.dark));
        let mut kitchen = self.kitchen.borrow_mut();
        let fresh = before.is_none() && kitchen.state().is_none();
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
    }

    fn spare_memory(&self) {
        bind::forget_pictures();
    }
}
