//! The homes on this device: most have one, a helper among neighbours may have several.

use super::make::paragraph;
use super::ports::Shelf;
use super::view::{Block, ReadingView};
use super::{Kitchen, Place};

impl Kitchen {
    pub(super) fn homes_reading(&self) -> ReadingView {
        let words = &self.words;
        let mut view = ReadingView::titled(words.say("homes-title"));
        view.lead = words.say("homes-lead");
        let here = self.open.as_ref().map(|open| open.shelf);
        for (number, name) in &self.homes {
            let this = here == Some(Shelf::Household(*number));
            view.blocks.push(Block::Action {
                id: format!("home:{number}"),
                label: self.home_words(name),
                detail: if this {
                    words.say("homes-here")
                } else {
                    String::new()
                },
            });
        }
        if self.homes.is_empty() {
            view.blocks.push(paragraph(words.say("homes-none")));
        }
        view.blocks.push(Block::Action {
            id: "with-order".to_owned(),
            label: words.say("homes-another"),
            detail: words.say("start-order-detail"),
        });
        view
    }

    /// The name of a home, or that it is not set up yet.
    pub(super) fn home_words(&self, name: &str) -> String {
        if name.is_empty() {
            self.words.say("homes-unfinished")
        } else {
            name.to_owned()
        }
    }

    /// Reads the names of the homes, the one used last first. One that does not open is left for its own turn to say why.
    pub(super) fn read_homes(&mut self) {
        self.homes = self
            .records
            .homes()
            .into_iter()
            .map(|number| {
                let name = match &self.open {
                    Some(open) if open.shelf == Shelf::Household(number) => open
                        .state
                        .household
                        .as_ref()
                        .map(|household| household.name.clone()),
                    _ => self.name_on(number),
                };
                (number, name.unwrap_or_default())
            })
            .collect();
    }

    fn name_on(&self, number: u16) -> Option<String> {
        let (store, _) = self.records.open(Shelf::Household(number)).ok()?;
        store.setting("home-name").ok().flatten()
    }

    /// Goes to a home of this device; false when the id belongs elsewhere.
    pub(super) fn press_homes(&mut self, id: &str) -> bool {
        if id == "homes" {
            self.read_homes();
            self.go(Place::Reading(super::Reading::Homes));
            return true;
        }
        let Some(number) = id.strip_prefix("home:").and_then(|n| n.parse().ok()) else {
            return false;
        };
        self.open = None;
        self.trail.clear();
        self.place = Place::Start;
        self.enter(Shelf::Household(number));
        true
    }
}
