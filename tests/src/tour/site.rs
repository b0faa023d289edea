//! A day at a dispensing site: packs come in, families are typed in, one is handed out, the lead is asked.

use hearthdose_ui::vm::view::Intent;

use super::{ORDER, RECALL, Tour};
use crate::kitchen::{pressable, title};

impl Tour<'_> {
    fn write(&mut self, field: &str, text: &str) {
        self.kitchen.take(&Intent::Type {
            id: field.to_owned(),
            text: text.to_owned(),
        });
    }

    /// Every screen of a site.
    pub fn site(&mut self) {
        self.world.bring("order.toml", ORDER);
        self.world.bring("recall.toml", RECALL);
        self.press("work-at-site");
        self.see("site-orders");
        self.press("order:0");
        self.see("site-order");
        self.press("work-by-order");
        self.see("site-line");
        self.shelves();
        self.family();
        self.hand_out();
        self.press("day");
        self.see("site-day");
        self.press("help");
        self.see("site-help");
        self.press("settings");
        self.see("site-settings");
        self.press("leave-site");
    }

    fn shelves(&mut self) {
        self.press("shelves");
        self.see("site-shelves-empty");
        for (lot, until) in [("QD3112", "2032-01-31"), ("QD9000", "2032-05-31")] {
            self.press("receive-packs");
            self.write("lot", lot);
            self.write("expiry", until);
            self.write("packs", "two");
            self.press("packs-in");
            self.write("packs", "24");
            self.see(&format!("site-receive-{lot}"));
            self.press("packs-in");
        }
        self.press("orders");
        self.press("order:1");
        self.see("site-notice");
        self.press("take-paper");
        self.press("shelves");
        self.see("site-shelves");
        let lot = self.find("count:");
        self.press(&lot);
        self.write("counted", "23");
        self.see("site-count");
        self.kitchen.take(&Intent::Back);
        self.press("line");
    }

    fn family(&mut self) {
        self.press("family");
        self.see("site-family-first");
        for (name, age, weight) in [
            ("Lena", "", ""),
            ("Bram", "3", ""),
            ("Ilse", "8 mo", "18 lb 4 oz"),
        ] {
            self.write("name", name);
            self.write("age", age);
            self.write("weight", weight);
            if age.is_empty() {
                self.press("grown-up");
            }
            if name == "Ilse" {
                self.press("only-bowl");
                self.see("site-family-person");
            }
            self.press("person-in");
        }
        self.write("name", "Joos");
        self.write("age", "old");
        self.press("family-all");
        self.see("site-family-unread");
        self.write("age", "71");
        self.press("family-all");
        self.see("site-family-question");
        for _ in 0..3 {
            self.press("turn:3");
        }
        self.see("site-family-unsure");
        let mut aside = false;
        while title(&self.kitchen.view()) != "Lena, Bram, Ilse, Joos" {
            let ids = pressable(&self.kitchen.view());
            let has = |id: &str| ids.iter().any(|there| there == id);
            if has("asked") {
                self.press("asked");
            } else if has("all-no") {
                self.press("all-no");
            } else {
                if !aside {
                    self.see("site-family-aside");
                }
                aside = true;
                for at in 0..4 {
                    self.press(&format!("turn:{at}"));
                }
            }
        }
    }

    fn hand_out(&mut self) {
        self.see("site-home");
        let person = self.find("person:");
        self.press(&person);
        self.see("site-person");
        let ask = self.find("ask:");
        self.press(&ask);
        self.see("site-ask");
        self.kitchen.take(&Intent::Back);
        let weigh = self.find("weigh:");
        self.press(&weigh);
        self.write("weight", "31");
        self.write("again", "31");
        self.press("weighed");
        self.see("site-weigh");
        self.kitchen.take(&Intent::Back);
        let lift = self.find("lift:");
        self.press(&lift);
        self.see("site-lift");
        self.kitchen.take(&Intent::Back);
        self.press("to-home");
        self.press("give");
        self.see("site-slip");
        let undo = self.find("undo:");
        self.press(&undo);
        self.see("site-undo");
        self.press("to-home");
        self.press("line");
        self.see("site-line-served");
        self.press("waiting");
        self.see("site-waiting");
        self.press("find");
        self.write("find", "joos");
        self.see("site-find");
        let home = self.find("home:");
        self.press(&home);
        self.see("site-home-again");
        assert!(!title(&self.kitchen.view()).is_empty());
        self.press("lead");
        self.see("site-lead");
        self.press("line");
    }
}
