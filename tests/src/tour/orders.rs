//! A home that follows more than one order.

use super::Tour;
use crate::kitchen::pressable;

const IODIDE: &str = include_str!("../../../demo-data/orders/quillmere-iodide-1.toml");
const CIPROFLOXACIN: &str =
    include_str!("../../../demo-data/orders/quillmere-ciprofloxacin-1.toml");

impl Tour<'_> {
    /// Two more orders: one beside the first, one that serves in its place.
    pub fn more_orders(&mut self) {
        self.world.bring("iodide.toml", IODIDE);
        self.world.bring("ciprofloxacin.toml", CIPROFLOXACIN);
        for (index, name) in [(1, "iodide"), (2, "ciprofloxacin")] {
            self.press("order");
            self.press("look-for-papers");
            self.press(&format!("paper:{index}"));
            self.see(&format!("paper-{name}"));
            self.press("take-paper-too");
            self.see("other-order-taken");
            self.press("told");
        }
        let person = self.second_person();
        self.press(&person);
        self.see("person-more-orders");
        self.press(&self.find("follow:1:"));
        self.see("follow-question");
        self.answer_all("no");
        self.see("follow-too");
        self.press("yes");
        self.press(&self.find("follow:2:"));
        self.answer_all("no");
        self.see("follow-same-event");
        self.press("no");
        let allergy = self.find("answer:0:");
        self.press(&allergy);
        self.press("yes");
        self.press("next");
        self.press(&self.find("follow:2:"));
        self.see("follow-instead");
        self.press("yes");
        self.see("person-two-orders");
        self.press("today");
        self.see("today-two-orders");
    }

    fn answer_all(&mut self, answer: &str) {
        while pressable(&self.kitchen.view()).contains(&"unsure".to_owned()) {
            self.press(answer);
        }
    }
}
