//! A wait that ends while a person reads another page.

use hearthdose_ui::vm::view::Intent;

use super::Tour;

impl Tour<'_> {
    /// Where the window has just begun to flash, another page shows the banner.
    pub(super) fn look_away(&mut self) {
        if !self.kitchen.view().flash {
            return;
        }
        self.see("wait-over");
        self.press("help");
        self.see("wait-over-help");
        self.kitchen.take(&Intent::Back);
    }
}
