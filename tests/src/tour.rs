//! A tour of every screen outside the round: from the first screen through a home of one's own to its record.
//!
//! It presses what a person would press and hands each view to whoever draws or checks it.

mod orders;
mod receipt;
mod site;
mod tablets;
mod untranslated;
mod wait;

pub use receipt::{receipt, shown_code};
pub use untranslated::{untranslated, without};

use hearthdose_ui::text::Language;
use hearthdose_ui::vm::Kitchen;
use hearthdose_ui::vm::view::{Intent, View};
use jiff::SignedDuration;

use crate::kitchen::{World, go_on_to, press, pressable, title, usual};

const ORDER: &str = include_str!("../../demo-data/orders/quillmere-doxy-1.toml");
const REVISION: &str = include_str!("../../demo-data/orders/quillmere-doxy-2.toml");
const WATER: &str = include_str!("../../demo-data/notices/quillmere-water.toml");
const RECALL: &str = include_str!("../../demo-data/notices/quillmere-recall-lot.toml");
const STOP: &str = include_str!("../../demo-data/notices/quillmere-stop.toml");
const DAMAGED: &str = include_str!("../../demo-data/damaged/gap.toml");

/// One tourist.
pub struct Tour<'a> {
    pub world: World,
    pub kitchen: Kitchen,
    show: &'a mut dyn FnMut(&str, &View),
    /// Closed and opened again after every press, at screens that must come back as they were.
    restarts: bool,
}

/// Walks through a round of the practice household.
pub fn practice(world: World, language: Language, show: &mut dyn FnMut(&str, &View)) {
    Tour::new(world, language, show).practise();
}

/// Walks through all screens outside of it; `show` gets each with a name that is the same in every language.
pub fn everywhere(world: World, language: Language, show: &mut dyn FnMut(&str, &View)) {
    let mut tour = Tour::new(world, language, show);
    tour.set_up();
    tour.weigh();
    tour.join();
    tour.after_a_round();
    tour.papers();
}

/// A day at a dispensing site.
pub fn site(world: World, language: Language, show: &mut dyn FnMut(&str, &View)) {
    Tour::new(world, language, show).site();
}

/// Two medicines in one home.
pub fn two_orders(world: World, language: Language, show: &mut dyn FnMut(&str, &View)) {
    let mut silent = |_: &str, _: &View| {};
    let mut tour = Tour::new(world, language, &mut silent);
    tour.set_up();
    let Tour { world, kitchen, .. } = tour;
    drop(kitchen);
    Tour::new(world, language, show).more_orders();
}

impl<'a> Tour<'a> {
    pub fn new(world: World, language: Language, show: &'a mut dyn FnMut(&str, &View)) -> Tour<'a> {
        let kitchen = world.start(language);
        Tour {
            world,
            kitchen,
            show,
            restarts: false,
        }
    }

    /// English, also where a voice speaks it.
    fn english(&self) -> bool {
        self.kitchen.view().back_word != "Atrás"
    }

    fn see(&mut self, name: &str) {
        let view = self.kitchen.view();
        (self.show)(name, &view);
    }

    fn press(&mut self, id: &str) {
        press(&mut self.kitchen, id);
        if self.restarts {
            self.restart();
        }
    }

    /// Closes the program and opens it again; the screen must be the same.
    fn restart(&mut self) {
        let before = self.kitchen.view();
        let language = if self.english() {
            Language::English
        } else {
            Language::Spanish
        };
        self.kitchen = self.world.start(language);
        let after = self.kitchen.view();
        assert_eq!(
            before.screen,
            after.screen,
            "“{}” came back otherwise",
            title(&before)
        );
    }

    fn keys(&mut self, keys: &str) {
        for key in keys.chars() {
            self.press(&format!("key:{key}"));
        }
    }

    fn type_name(&mut self, name: &str) {
        self.kitchen.take(&Intent::Type {
            id: "name".to_owned(),
            text: name.to_owned(),
        });
    }

    /// The id on the screen that begins like this.
    fn find(&self, start: &str) -> String {
        let view = self.kitchen.view();
        pressable(&view)
            .into_iter()
            .find(|id| id.starts_with(start))
            .unwrap_or_else(|| panic!("no “{start}” on “{}”", title(&view)))
    }

    /// The practice household, from the first screen to the end of its first round.
    pub fn practise(&mut self) {
        self.press("practise");
        for number in 1..80 {
            let view = self.kitchen.view();
            self.see(&format!("round-{number:02}"));
            match usual(&view) {
                Some(id) if id == "to-today" => break,
                Some(id) => self.press(&id),
                None => {
                    self.world.pass(SignedDuration::from_secs(140));
                    self.kitchen.take(&Intent::Tick);
                    self.look_away();
                }
            }
        }
    }

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

    /// A new weight in another line of the chart, and weights that cannot be.
    pub fn weigh(&mut self) {
        self.press("people");
        self.see("people");
        let person = self.second_person();
        self.press(&person);
        self.see("person");
        let weigh = self.find("weigh:");
        self.press(&weigh);
        self.press("alone");
        self.press("unit-lb-oz");
        self.keys("40");
        self.press("field:1");
        self.keys("8");
        self.see("weigh-alone-ounces");
        self.press("next");
        self.keys("40");
        self.press("field:1");
        self.keys("4");
        self.press("next");
        self.see("weigh-crosses");
        self.press("keep-weight");
        self.see("weigh-told");
        self.press("told");
        let weigh = self.find("weigh:");
        self.press(&weigh);
        self.press("clinic");
        self.press("unit-kg");
        self.keys("19");
        self.press("next");
        self.see("weigh-day");
        self.kitchen.take(&Intent::Back);
        for _ in 0..2 {
            self.press("key:back");
        }
        self.keys("60");
        self.press("next");
        let day = if self.english() {
            "04022031"
        } else {
            "02042031"
        };
        self.keys(day);
        self.press("next");
        self.see("weigh-implausible");
        self.kitchen.take(&Intent::Back);
        self.kitchen.take(&Intent::Back);
        for _ in 0..2 {
            self.press("key:back");
        }
        self.keys("24");
        self.press("next");
        self.press("next");
        self.see("weigh-which-unit");
        self.press("unit-lb");
        for _ in 0..2 {
            self.kitchen.take(&Intent::Back);
        }
        self.press("people");
        let person = self.second_person();
        self.press(&person);
        let answer = self.find("answer:0:");
        self.press(&answer);
        self.see("answer");
        self.press("yes");
        self.see("answer-outcome-stop");
        self.press("next");
        self.see("person-stopped");
        let answer = self.find("answer:0:");
        self.press(&answer);
        self.press("no");
        let swallows = self.find("swallows:");
        self.press(&swallows);
        self.see("swallows");
        self.press("no");
        let reacts = self.find("reacts:");
        self.press(&reacts);
        self.see("reacts");
        self.press("no");
        let leaves = self.find("leaves:");
        self.press(&leaves);
        self.see("leaves");
        self.press("no");
        let stop = self.find("stop:");
        self.press(&stop);
        self.type_name("Nurse Ilse");
        self.see("stop");
        self.press("next");
        self.see("person-held");
        let lift = self.find("lift:");
        self.press(&lift);
        self.type_name("Nurse Ilse");
        self.see("lift");
        self.press("next");
        self.press("today");
    }

    /// Somebody comes from another home with a course begun there.
    pub fn join(&mut self) {
        self.press("people");
        self.press("join");
        self.type_name("Bram");
        self.press("next");
        self.press("adult");
        self.press("yes");
        self.press("no");
        for _ in 0..5 {
            self.press("no");
        }
        self.see("join-elsewhere");
        self.press("yes");
        self.see("join-last-day");
        self.press("last-yesterday");
        self.keys("0800");
        self.press("after-noon");
        self.see("join-last-time");
        self.press("next");
        self.see("join-start");
        let first = if self.english() {
            "03302031"
        } else {
            "30032031"
        };
        self.keys(first);
        self.press("next");
        self.keys("12");
        self.see("join-tablets");
        self.press("next");
        self.see("today-joined");
    }

    fn second_person(&self) -> String {
        let view = self.kitchen.view();
        let mut people = pressable(&view)
            .into_iter()
            .filter(|id| id.starts_with("person:"));
        people.nth(1).expect("two people")
    }

    /// The record after a round, a line put right, the days ahead.
    pub fn after_a_round(&mut self) {
        let done = if self.english() {
            self.world.said("Done for now.")
        } else {
            "Listo por ahora".to_owned()
        };
        let before = self.world.clone();
        go_on_to(&before, &mut self.kitchen, &done);
        self.see("round-done");
        self.press("to-today");
        self.see("today-after");
        self.press("record");
        self.see("record");
        let line = self.find("correct:");
        self.press(&line);
        self.see("correct");
        self.press("outcome-back-up");
        self.see("record-corrected");
        self.press("ahead");
        self.see("ahead");
        self.press("fresh");
        self.see("ahead-fresh");
        self.press("fresh");
        self.press("packs");
        self.keys("20");
        self.see("packs-tablets");
        self.press("next");
        self.type_name("QD3112");
        self.see("packs-lot");
        self.press("next");
        self.press("help");
        self.see("help");
        self.press("about");
        self.see("about");
        self.press("settings");
        self.see("settings");
        // The look of high contrast on a page, on the table and in a list.
        self.press("contrast:yes");
        self.see("settings-contrast");
        self.press("today");
        self.see("today-contrast");
        self.press("help");
        self.see("help-contrast");
        self.press("settings");
        self.press("contrast:no");
        self.own_code();
        self.receipt();
        self.press("people");
        self.press("show-code");
        self.press("code-names");
        self.press("people");
        self.press("homes");
        self.see("homes");
        self.world.pass(SignedDuration::from_mins(5));
    }

    /// A damaged file, a notice and a newer revision arrive.
    pub fn papers(&mut self) {
        self.world.bring("damaged.toml", DAMAGED);
        self.world.bring("water.toml", WATER);
        self.world.bring("newer.toml", REVISION);
        self.press("order");
        self.see("order");
        self.press("look-for-papers");
        self.see("papers-many");
        self.press("paper:1");
        self.see("paper-damaged");
        self.kitchen.take(&Intent::Back);
        self.press("paper:2");
        self.see("paper-notice");
        self.kitchen.take(&Intent::Back);
        self.press("paper:0");
        self.see("paper-same");
        self.kitchen.take(&Intent::Back);
        self.press("paper:3");
        self.see("paper-revision");
        self.press("take-paper");
        self.see("today-revision");
        self.take("recall.toml", RECALL, 4);
        self.see("today-recall");
        self.press("ahead");
        self.see("ahead-recall");
        // The demonstration stops the iodide; this home follows the other order.
        self.take(
            "stop.toml",
            &STOP.replace("quillmere-iodide", "quillmere-doxy"),
            5,
        );
        self.see("today-stopped");
    }
}

impl Tour<'_> {
    fn take(&mut self, name: &str, text: &str, index: usize) {
        self.world.bring(name, text);
        self.press("order");
        self.press("look-for-papers");
        self.press(&format!("paper:{index}"));
        self.press("take-paper");
    }
}
