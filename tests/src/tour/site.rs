//! A day at a dispensing site: packs come in, families are typed in, one is handed out, the lead is asked.

use hearthdose_ui::vm::view::Intent;

use super::{ORDER, RECALL, Tour};
use crate::kitchen::{pressable, title};

impl Tour<'_> {
    pub(super) fn write(&mut self, field: &str, text: &str) {
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
        self.see("site-name");
        self.write("site-name", "The school hall behind the mill");
        self.press("name-site");
        self.see("site-name-long");
        self.write("site-name", "Quillmere school hall");
        self.press("name-site");
        self.see("site-line");
        self.press("orders");
        self.press("desk");
        self.see("site-desk");
        self.press("line");
        self.shelves();
        self.family();
        self.hand_out();
        self.press("day");
        self.see("site-day");
        self.press("print-list");
        self.see("site-list-printed");
        self.press("told");
        self.pins();
        self.tablets();
        self.press("help");
        self.see("site-help");
        self.press("settings");
        self.see("site-settings");
        self.press("leave-site");
    }

    /// The record as codes, and a home's own table.
    fn codes_and_table(&mut self) {
        self.press("shift");
        self.write("code", "0123456789");
        self.press("read-part");
        self.see("site-shift");
        self.press("show-shift");
        self.see("site-codes");
        self.press("by-itself");
        self.see("site-codes-turning");
        self.press("by-hand");
        self.press("find");
        self.write("find", "joos");
        let home = self.find("home:");
        self.press(&home);
        self.press("at-table");
        self.see("site-table");
        self.press("table-other");
        self.write("time", "6:30");
        self.see("site-table-time");
        self.kitchen.take(&Intent::Back);
        self.press("table-hour:8");
        self.see("site-at-table");
        self.press("to-site");
        self.press("line");
    }

    /// What was typed is compared a moment later, once that is on the screen.
    fn pin_in(&mut self) {
        self.press("pin-in");
        self.kitchen.take(&Intent::Tick);
    }

    /// PINs are set, a home is forgotten behind the lead's, and the volunteers' opens the site.
    fn pins(&mut self) {
        self.press("line");
        self.press("roles");
        self.see("site-roles-none");
        self.press("pin-lead");
        self.keys("44");
        self.see("site-pin-new");
        self.pin_in();
        self.see("site-pin-short");
        for _ in 0..2 {
            self.keys("4071");
            self.pin_in();
        }
        self.see("site-pin-set");
        self.press("told");
        self.press("pin-volunteer");
        self.keys("4071");
        self.pin_in();
        for _ in 0..2 {
            self.keys("2468");
            self.pin_in();
        }
        self.press("told");
        self.see("site-roles");
        self.press("find");
        self.write("find", "joos");
        let home = self.find("home:");
        self.press(&home);
        self.press("forget");
        self.write("reason", "They asked for it");
        self.see("site-forget");
        self.press("forgotten");
        self.keys("9753");
        self.pin_in();
        self.see("site-pin-wrong");
        self.keys("4071");
        self.pin_in();
        self.see("site-forgotten");
        self.press("line");
        self.press("leave-site");
        self.press("work-at-site");
        self.see("site-pin-open");
        self.keys("2468");
        self.pin_in();
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
        let read = self.find("lot-read:");
        self.press(&read);
        self.write("expiry", "May");
        self.write("reason", "Ana Reyes: a smeared label");
        self.press("lot-was-read");
        self.see("site-lot-read");
        self.kitchen.take(&Intent::Back);
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
        let (mut aside, mut came) = (false, false);
        while title(&self.kitchen.view()) != "Lena, Bram, Ilse, Joos" {
            let ids = pressable(&self.kitchen.view());
            let has = |id: &str| ids.iter().any(|there| there == id);
            if has("turn:collects") && !came {
                self.press("turn:interpreter");
                self.see("site-family-came");
                came = true;
            } else if has("asked") {
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
        self.keys("31");
        self.see("site-weigh");
        self.press("next");
        self.keys("33");
        self.see("site-weigh-differ");
        self.kitchen.take(&Intent::Back);
        self.press("scale-other");
        self.see("site-weigh-held");
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
        self.press("family");
        self.write("name", "Lena and Bram’s grandmother");
        self.write("age", "71");
        self.press("person-in");
        self.write("name", "Pim");
        self.press("waiting");
        self.see("site-waiting");
        let parked = self.find("parked:");
        self.press(&parked);
        self.see("site-family-again");
        self.press("family-away");
        self.see("site-family-away");
        self.press("family-gone");
        self.press("station");
        self.press("weigher");
        self.write("weigher", "Wim Aldersey");
        self.see("site-weigher");
        self.press("weigher-named");
        self.see("site-station");
        self.write("code", "joos");
        let home = self.find("home:");
        self.press(&home);
        self.see("site-station-home");
        self.press("waiting");
        self.press("find");
        self.write("find", "joos");
        self.see("site-find");
        let home = self.find("home:");
        self.press(&home);
        self.see("site-home-again");
        assert!(!title(&self.kitchen.view()).is_empty());
        self.press("list");
        self.write("time", "25:10");
        self.write("packs-0", "2");
        self.write("reason", "Ana Reyes: the battery was empty");
        self.press("list-in");
        self.see("site-list");
        self.press("to-home");
        self.press("lead");
        self.see("site-lead");
        self.press("line");
        self.codes_and_table();
    }
}
