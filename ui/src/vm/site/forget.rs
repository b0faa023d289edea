//! A home is forgotten: the lead says so, the record loses it for good, and a signed receipt stays that names nobody.
//!
//! The receipt is on the disk before anything goes.

use hearthdose_core::exchange::{self, Erasure, Message, Scan};
use hearthdose_core::household::HouseholdId;
use hearthdose_core::record::{Event, SiteEvent};
use hearthdose_core::site::Role;
use hearthdose_core::time::Now;

use super::line::{short, text_field};
use super::shift::hex;
use super::{Site, Spot};
use crate::vm::Kitchen;
use crate::vm::keep::KeepError;
use crate::vm::make::{paragraph, picture};
use crate::vm::view::{Button, Entry, Link, Note, ReadingView, StepView};

/// Setting: the text of the receipt made last; it tells of no person.
const RECEIPT: &str = "site-erasure";

impl Site {
    /// Text of the receipt made last.
    pub(super) fn last_erasure(&self) -> Option<String> {
        let text = self.store.setting(RECEIPT).ok().flatten();
        text.filter(|text| !text.is_empty())
    }

    /// Entries about the home in front that no shift file has.
    fn unheard(&self) -> usize {
        let home = self.home_id();
        let facts = home.and_then(|home| self.store.facts_of_home(home).ok());
        facts.map_or(0, |(_, unheard)| unheard)
    }
}

impl Kitchen {
    pub(super) fn forget_view(&self, site: &Site) -> StepView {
        let words = &self.words;
        let mut view = StepView::titled(words.say("forget-title"));
        view.small_picture = Some(picture("throw-away"));
        if let Some(found) = &site.found {
            let number = short(&found.home.id.to_string());
            let name = found.home.words.clone();
            view.eyebrow = name.unwrap_or_else(|| {
                words.say_with("home-number", &[("number", number.as_str().into())])
            });
        }
        view.body = ["forget-body", "forget-others", "forget-stays"]
            .map(|key| words.say(key))
            .into();
        let table = site
            .found
            .as_ref()
            .and_then(|found| self.table_of(found.home.id));
        if table.is_some() {
            view.body.push(words.say("forget-table"));
        }
        let unheard = site.unheard();
        let label = words.say("forget-main");
        if unheard == 0 {
            view.main = Some(Button::ready("forgotten", label));
        } else {
            view.note = Some(Note::new(
                words.say_with("forget-unheard", &[("count", unheard.into())]),
                words.say("forget-unheard-body"),
                Some("hold"),
            ));
            let value = site.typed("reason");
            let field = text_field("reason", words.say("forget-reason"), value, true);
            view.entry = Some(Entry {
                fields: vec![field],
                ..Entry::default()
            });
            view.main = Some(self.when_typed(site, "reason", "forgotten", "forget-main"));
            view.ways = vec![Link::to("shift", words.say("forget-to-shift"))];
        }
        view.ways.push(Link::to("to-home", words.say("forget-not")));
        view
    }

    pub(super) fn press_forget(&mut self, id: &str, now: &Now) -> bool {
        match id {
            "pin-lead" => self.set_pin_of(Role::Lead),
            "pin-volunteer" => self.set_pin_of(Role::Volunteer),
            "forgotten" => {
                if let Err(error) = self.forget_here(now) {
                    self.tell_error(&error);
                }
            }
            "print-erasure" => {
                if let Some(text) = self.site.as_ref().and_then(Site::last_erasure) {
                    self.print_erasure(&text);
                }
            }
            "forget" | "last-erasure" => {
                if let Some(site) = self.site.as_mut() {
                    site.go(match id {
                        "forget" => Spot::Forget,
                        _ => Spot::Forgotten,
                    });
                }
            }
            _ => return false,
        }
        true
    }

    fn forget_here(&mut self, now: &Now) -> Result<(), KeepError> {
        let Some(site) = self.site.as_ref().filter(|site| site.spot == Spot::Forget) else {
            return Ok(());
        };
        let Some(home) = site.home_id() else {
            return Ok(());
        };
        let (facts, unheard) = site.store.facts_of_home(home)?;
        let reason = (unheard > 0).then(|| site.typed("reason").to_owned());
        if reason.as_deref() == Some("") {
            return Ok(());
        }
        let made = Erasure::of(home, now.wall, &facts, reason);
        let made = made.and_then(|erasure| self.signed_erasure(erasure));
        let Some((text, receipt)) = made else {
            self.tell("forget-failed", "forget-failed-body");
            return Ok(());
        };
        let erased = Event::Site {
            site: SiteEvent::HomeErased { home, receipt },
        };
        if self.lead_may(std::iter::once(&erased)) {
            self.forget_against(&text, home, erased, now)?;
        }
        Ok(())
    }

    /// The text of the receipt, and its digest as hexadecimal digits.
    fn signed_erasure(&mut self, erasure: Erasure) -> Option<(String, String)> {
        let secret = self.ids.device_random()?.key("");
        let text = exchange::write(&Message::Erasure(erasure), &secret).ok()?;
        match Scan::read(&text) {
            Scan::Message(scanned) => Some((text, hex(&scanned.digest))),
            _ => None,
        }
    }

    fn forget_against(
        &mut self,
        text: &str,
        home: HouseholdId,
        erased: Event,
        now: &Now,
    ) -> Result<(), KeepError> {
        let facts = self.noted_at_site(now, vec![(None, erased)])?;
        let Some(site) = self.site.as_mut() else {
            return Ok(());
        };
        let Some(fact) = facts.first() else {
            return Ok(());
        };
        let before = site.last_erasure().unwrap_or_default();
        site.store.set_setting(RECEIPT, text)?;
        let cleared = self.clear_table(home);
        let Some(site) = self.site.as_mut() else {
            return Ok(());
        };
        let forgotten = cleared.and_then(|()| Ok(site.store.forget_home(fact)?));
        if let Err(error) = forgotten {
            // Nothing was forgotten, so nothing says that it was.
            site.store.set_setting(RECEIPT, &before)?;
            return Err(error);
        }
        site.next_home();
        site.list.retain(|line| line.home != home);
        site.go(Spot::Forgotten);
        Ok(())
    }

    pub(super) fn forgotten_reading(&self, site: &Site) -> ReadingView {
        let words = &self.words;
        let mut view = ReadingView::titled(words.say("forgotten-title"));
        if let Some(text) = site.last_erasure() {
            if let Scan::Message(scanned) = Scan::read(&text)
                && let Message::Erasure(erasure) = &scanned.message
            {
                let number = short(&erasure.household.to_string());
                let values = [("number", number.as_str().into())];
                view.lead = words.say_with("home-number", &values);
                let values = [("count", erasure.facts.into())];
                view.blocks
                    .push(paragraph(words.say_with("forgotten-count", &values)));
            }
            view.picture = Some(picture(&format!("code:{text}")));
        }
        view.blocks.push(paragraph(words.say("forgotten-receipt")));
        view.main = Some(Button::ready("line", words.say("site-next")));
        view.ways = vec![Link::to("print-erasure", words.say("forget-print"))];
        view.back = false;
        view
    }
}
