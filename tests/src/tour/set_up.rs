//! A home's first minutes: its instructions, its people, their answers and weights.

use hearthdose_ui::vm::view::Intent;

use super::{ORDER, Tour};

impl Tour<'_> {
    /// A home of two: a grown-up and a toddler.
    pub fn set_up(&mut self) {
        self.see("start");
        self.press("with-order");
        self.see("papers-none");
        self.world.bring("order.toml", ORDER);
        self.press("look-for-papers");
        self.see("papers");
        self.press("paper:0");
        self.see("paper-order");
        self.press("take-paper");
        self.restarts = true;
        self.see("set-up-name-empty");
        self.type_name("Odile");
        self.see("set-up-name");
        self.press("next");
        self.see("set-up-age");
        self.press("adult");
        self.see("set-up-swallows");
        self.press("yes");
        self.see("set-up-food");
        self.press("no");
        self.see("set-up-question");
        for _ in 0..4 {
            self.press("no");
        }
        self.press("unsure");
        self.see("set-up-outcome-hold");
        // Back, and put right: a wrong press loses nothing.
        self.kitchen.take(&Intent::Back);
        self.press("no");
        self.see("set-up-more");
        self.press("another");
        self.type_name("Pim");
        self.press("next");
        self.press("child");
        self.see("set-up-birth-empty");
        self.keys(if self.english() {
            "07192028"
        } else {
            "19072028"
        });
        self.see("set-up-birth");
        self.press("told-age");
        self.press("field:0");
        self.keys("2");
        self.see("set-up-told");
        self.press("birth-date");
        self.keys(if self.english() {
            "07192028"
        } else {
            "19072028"
        });
        self.press("next");
        self.press("no");
        self.press("yes");
        for _ in 0..5 {
            self.press("no");
        }
        self.see("set-up-weigh");
        self.press("weigh");
        self.see("weigh-how");
        self.press("together");
        self.see("weigh-together-empty");
        self.keys("170.4");
        self.press("field:1");
        self.keys("139.2");
        self.see("weigh-together");
        self.press("next");
        self.keys("172.4");
        self.press("field:1");
        self.keys("139.2");
        self.see("weigh-differ");
        self.press("field:0");
        for _ in 0..3 {
            self.press("key:back");
        }
        self.keys("0.6");
        self.see("weigh-agree");
        self.press("next");
        self.see("weigh-found");
        self.press("keep-weight");
        self.see("set-up-more-two");
        self.press("everybody");
        self.see("set-up-times");
        self.press("other-time");
        self.keys("0730");
        self.see("set-up-other-time");
        self.press("next");
        self.see("set-up-ready");
        self.press("start-now");
        self.keys("40");
        self.see("set-up-tablets");
        self.press("next");
        self.type_name("QD3112");
        self.see("set-up-lot");
        self.restarts = false;
        self.press("next");
        self.see("today-own-home");
    }
}
