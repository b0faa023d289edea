//! A package is read once more: what was typed of a lot, side by side, and what it says.

use hearthdose_core::record::{Event, Fact, LotName, SiteEvent};
use hearthdose_core::time::Now;

use super::line::text_field;
use super::words::day_or_month;
use super::{Site, Spot};
use crate::vm::Kitchen;
use crate::vm::make::picture;
use crate::vm::view::{Entry, Link, StepView, Thing};

impl Kitchen {
    pub(super) fn lot_read_view(&self, site: &Site, lot: &LotName) -> StepView {
        let words = &self.words;
        let values = [("lot", lot.lot.as_str().into())];
        let mut view = StepView::titled(words.say_with("lot-read-title", &values));
        view.small_picture = Some(picture("boxes-lots"));
        view.body = vec![words.say("lot-read-body")];
        if site.stock.lot(lot).is_some_and(|lot| lot.unlike) {
            view.body.push(words.say("shelves-unlike"));
        }
        let said = site.store.said_of_lot(lot).unwrap_or_default();
        view.things = said
            .iter()
            .filter_map(|fact| self.said_thing(fact))
            .collect();
        let line =
            |id: &str, key: &str, active| text_field(id, words.say(key), site.typed(id), active);
        view.entry = Some(Entry {
            fields: vec![
                line("expiry", "receive-packs-expiry", true),
                line("reason", "lead-field", false),
            ],
            ..Entry::default()
        });
        view.main = Some(self.when_typed(site, "reason", "lot-was-read", "lot-read-main"));
        view.ways = vec![Link::to("shelves", words.say("site-shelves"))];
        view
    }

    /// "Expires May 31, 2032." and who typed it, when.
    fn said_thing(&self, fact: &Fact) -> Option<Thing> {
        let expiry = match &fact.event {
            Event::Site {
                site: SiteEvent::LotReceived { expiry, .. } | SiteEvent::LotRead { expiry, .. },
            } => *expiry,
            _ => return None,
        };
        let day = self.words.long_date(expiry);
        Some(Thing {
            words: self.words.say_with("desk-expires", &[("day", day.into())]),
            detail: self.who_words(fact.at, fact.stamp.device),
        })
    }

    pub(super) fn press_lot_read(&mut self, id: &str, now: &Now) -> bool {
        if id == "lot-was-read" {
            self.lot_was_read(now);
            return true;
        }
        let named = id.strip_prefix("lot-read:");
        let named = named.and_then(|rest| rest.split_once(':'));
        let (Some((product, lot)), Some(site)) = (named, self.site.as_mut()) else {
            return false;
        };
        site.go(Spot::LotRead(LotName {
            product: product.to_owned(),
            lot: lot.to_owned(),
        }));
        true
    }

    fn lot_was_read(&mut self, now: &Now) {
        let Some(site) = self.site.as_mut() else {
            return;
        };
        let Spot::LotRead(lot) = site.spot.clone() else {
            return;
        };
        let Some(expiry) = day_or_month(site.typed("expiry")) else {
            site.say("lot-read-unread");
            return;
        };
        let event = SiteEvent::LotRead {
            each: site.stock.lot(&lot).map_or(1, |lot| lot.each),
            lot,
            expiry,
            reason: site.typed("reason").to_owned(),
        };
        if self.note_at_site(now, vec![event]) {
            self.back_at_site();
        }
    }
}
