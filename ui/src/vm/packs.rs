//! More medicine came into the house: how many tablets, and the lot that stands on the bottle.

use hearthdose_core::record::{Event, HouseholdWords};
use hearthdose_core::time::Now;

use super::make::{number_field, picture};
use super::typing::Typing;
use super::view::{Button, Entry, Field, Link, StepView};
use super::{Kitchen, Place};

/// What is asked of a pack.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Pack {
    Tablets,
    /// So many tablets; which lot?
    Lot(u32),
}

impl Kitchen {
    pub(super) fn packs_view(&self, pack: Pack) -> StepView {
        match pack {
            Pack::Tablets => self.tablets_view(&self.typing),
            Pack::Lot(_) => self.lot_view(&self.typed),
        }
    }

    pub(super) fn tablets_view(&self, typing: &Typing) -> StepView {
        let words = &self.words;
        let mut view = StepView::titled(words.say("tablets-title"));
        view.picture = Some(picture("bottle-label"));
        view.body = vec![words.say("tablets-body")];
        let label = words.say("tablets-field");
        view.entry = Some(Entry {
            fields: vec![number_field(0, label, typing, String::new())],
            pad: Some(self.pad(false)),
            ..Entry::default()
        });
        let ready = typing.get(0).parse().is_ok_and(|n: u32| n > 0);
        view.main = Some(if ready {
            Button::ready("next", words.say("tablets-main"))
        } else {
            Button::waiting(words.say("tablets-main"))
        });
        view.ways = vec![Link::to("uncounted", words.say("tablets-unknown"))];
        view
    }

    pub(super) fn lot_view(&self, typed: &str) -> StepView {
        let words = &self.words;
        let mut view = StepView::titled(words.say("lot-title"));
        view.picture = Some(picture("bottle-label"));
        view.body = vec![words.say("lot-body")];
        view.entry = Some(Entry {
            fields: vec![Field {
                id: "lot".to_owned(),
                label: words.say("lot-field"),
                value: typed.to_owned(),
                unit: String::new(),
                spoken: words.say("lot-field"),
                active: true,
                text: true,
                problem: String::new(),
            }],
            ..Entry::default()
        });
        view.main = Some(self.next_when(!typed.trim().is_empty()));
        view.ways = vec![Link::to("uncounted", words.say("lot-unknown"))];
        view
    }

    /// Presses about packs and bowls of the coming days; false when the id belongs elsewhere.
    pub(super) fn press_packs(&mut self, id: &str, now: &Now) -> bool {
        match (self.place.clone(), id) {
            (_, "packs") => {
                self.typing = Typing::of(&[4]);
                self.typed.clear();
                self.go(Place::Packs(Pack::Tablets));
            }
            (_, "fresh") => self.change_fresh(now),
            (Place::Packs(Pack::Tablets), "uncounted") => self.back(),
            (Place::Packs(Pack::Tablets), "next") => {
                let Ok(tablets) = self.typing.get(0).parse() else {
                    return false;
                };
                self.go(Place::Packs(Pack::Lot(tablets)));
            }
            (Place::Packs(Pack::Tablets), id) => return self.typing.press(id),
            (Place::Packs(Pack::Lot(tablets)), "next" | "uncounted") => {
                let lot = self.typed.trim().to_owned();
                let lot = (id == "next" && !lot.is_empty()).then_some(lot);
                if self.receive(tablets, lot, now) {
                    self.trail.retain(|place| !matches!(place, Place::Packs(_)));
                    self.back();
                }
            }
            _ => return false,
        }
        true
    }

    /// Tablets came into the house; false when that could not be saved.
    pub(super) fn receive(&mut self, tablets: u32, lot: Option<String>, now: &Now) -> bool {
        let product = self
            .open
            .as_ref()
            .and_then(|open| open.order.main_product().map(|p| p.key.clone()));
        let event = Event::PacksReceived {
            product: product.unwrap_or_default(),
            lot,
            tablets,
        };
        self.record(now, vec![event])
    }

    /// Fewest tablets, or new bowls in every round.
    fn change_fresh(&mut self, now: &Now) {
        let household = self
            .open
            .as_ref()
            .and_then(|open| open.state.household.clone());
        if let Some(household) = household {
            let words = HouseholdWords {
                fresh: !household.fresh,
                ..household
            };
            self.record(now, vec![Event::HouseholdSet(words)]);
        }
    }
}
