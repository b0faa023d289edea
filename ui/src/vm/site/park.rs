//! Families half typed in are kept in the record, page by page, and wait there until they are done or thrown away.

use hearthdose_core::time::Now;
use uuid::Uuid;

use super::family::Family;
use super::{Site, Spot};
use crate::vm::Kitchen;
use crate::vm::keep::KeepError;
use crate::vm::make::picture;
use crate::vm::view::{Button, Choice, Link, StepView};

/// Setting: the families half typed in, as JSON, the one begun first first.
const PARKED: &str = "site-families";

impl Site {
    /// The families that wait half typed in.
    pub(super) fn parked(&self) -> Vec<Family> {
        let text = self.store.setting(PARKED).ok().flatten();
        text.and_then(|text| serde_json::from_str(&text).ok())
            .unwrap_or_default()
    }

    fn put_parked(&mut self, families: &[Family]) -> Result<(), KeepError> {
        let text = serde_json::to_string(families).unwrap_or_default();
        Ok(self.store.set_setting(PARKED, &text)?)
    }

    /// Writes the family on the screen down, as far as it is typed.
    fn park(&mut self) -> Result<(), KeepError> {
        let mut families = self.parked();
        let family = &self.family;
        match families.iter_mut().find(|kept| kept.id == family.id) {
            Some(kept) if *kept == *family => return Ok(()),
            Some(kept) => kept.clone_from(family),
            None => families.push(family.clone()),
        }
        self.put_parked(&families)
    }

    fn forget_parked(&mut self, id: Uuid) -> Result<(), KeepError> {
        let mut families = self.parked();
        families.retain(|kept| kept.id != Some(id));
        self.put_parked(&families)
    }
}

impl Kitchen {
    /// Keeps the family on the screen; told, when that could not be.
    pub(super) fn keep_family(&mut self) {
        let Some(site) = self.site.as_mut() else {
            return;
        };
        if site.family.is_blank() && site.family.id.is_none() {
            return;
        }
        if site.family.id.is_none() {
            site.family.id = Some(self.ids.fresh());
        }
        if let Err(error) = site.park() {
            self.tell_error(&error);
        }
    }

    /// The family on the screen waits no more: it is a home now, or thrown away.
    pub(super) fn end_family(&mut self) {
        let Some(site) = self.site.as_mut() else {
            return;
        };
        let id = std::mem::take(&mut site.family).id;
        let ended = id.map(|id| site.forget_parked(id));
        if let Some(Err(error)) = ended {
            self.tell_error(&error);
        }
    }

    /// Families half typed in, at the head of those that wait.
    pub(super) fn parked_choices(&self, site: &Site) -> Vec<Choice> {
        let words = &self.words;
        let families = site.parked().into_iter();
        let choices = families.filter_map(|family| {
            let id = format!("parked:{}", family.id?);
            let names = match family.names() {
                names if names.is_empty() => words.say("family-unnamed"),
                names => words.list(&names),
            };
            let detail = words.say("family-half");
            Some(Choice::new(&id, names, detail, "order-paper"))
        });
        choices.collect()
    }

    pub(super) fn press_parked(&mut self, id: &str, _now: &Now) -> bool {
        let Some(site) = self.site.as_mut() else {
            return false;
        };
        match id {
            "family-away" if site.spot == Spot::Family => site.go(Spot::FamilyAway),
            "family-gone" if site.spot == Spot::FamilyAway => {
                self.end_family();
                if let Some(site) = self.site.as_mut() {
                    site.next_home();
                }
            }
            _ => {
                let id = id.strip_prefix("parked:").and_then(|id| id.parse().ok());
                let mut families = site.parked().into_iter();
                let Some(family) = id.and_then(|id| families.find(|kept| kept.id == Some(id)))
                else {
                    return false;
                };
                site.go(Spot::Family);
                site.typed = super::intake::fields(&family.here());
                site.family = family;
            }
        }
        true
    }

    pub(super) fn family_away_view(&self, site: &Site) -> StepView {
        let words = &self.words;
        let mut view = StepView::titled(words.say("family-away-title"));
        view.small_picture = Some(picture("throw-away"));
        view.body = vec![
            words.list(&site.family.names()),
            words.say("family-away-body"),
        ];
        view.main = Some(Button::ready("family-gone", words.say("family-away-main")));
        view.ways = vec![Link::to("waiting", words.say("family-away-not"))];
        view
    }
}
