//! Somebody is weighed at the site: twice, in the unit of the scale, on the number pad; alone, or in somebody's arms.

use hearthdose_core::household::Manner;
use hearthdose_core::record::SiteEvent;
use hearthdose_core::time::Now;

use super::{Site, Spot};
use crate::vm::Kitchen;
use crate::vm::view::{Button, Link, Note, StepView};
use crate::vm::weigh::Weigh;

impl Kitchen {
    /// Puts a person of the home in front on the scale.
    pub(super) fn begin_scale(&mut self, person: u16) {
        let Some(site) = self.site.as_ref() else {
            return;
        };
        let name = match &site.found {
            Some(found) => self.named(found, person),
            None => return,
        };
        if let Some(site) = self.site.as_mut() {
            site.scale = Some(Weigh::at_site(&name, site.unit));
            site.go(Spot::Weigh(person));
        }
    }

    pub(super) fn scale_view(&self, site: &Site) -> StepView {
        let words = &self.words;
        let Some(weigh) = &site.scale else {
            return StepView::titled(words.say("line-nothing-known"));
        };
        let mut view = self.read_view(weigh, weigh.turn());
        view.eyebrow = words.say_with("weigh-person", &[("name", weigh.name().into())]);
        view.picture = None;
        if weigh.turn() == 0 {
            let key = match weigh.manner() {
                Manner::Together => "scale-alone",
                _ => "scale-held",
            };
            view.ways = vec![Link::to("scale-other", words.say(key))];
        } else if weigh.found().is_some() {
            view.main = Some(Button::ready("weighed", words.say("desk-weigh-main")));
        }
        view.note = site
            .said
            .map(|said| Note::new(words.say(said), String::new(), Some("hold")));
        view
    }

    /// Presses at the scale; false when the id belongs elsewhere.
    pub(super) fn press_scale(&mut self, id: &str, now: &Now) -> bool {
        let Some(site) = self.site.as_mut() else {
            return false;
        };
        if !matches!(site.spot, Spot::Weigh(_)) {
            return false;
        }
        let Some(weigh) = site.scale.as_mut() else {
            return false;
        };
        if weigh.press_reading(id) {
            site.unit = weigh.unit();
            return true;
        }
        if id == "weighed" {
            self.weighed_here(now);
            return true;
        }
        false
    }

    /// One step back at the scale; false from the first reading.
    pub(super) fn back_at_scale(&mut self) -> bool {
        let site = self.site.as_mut();
        let Some(site) = site.filter(|site| matches!(site.spot, Spot::Weigh(_))) else {
            return false;
        };
        site.scale.as_mut().is_some_and(Weigh::back_to_first)
    }

    fn weighed_here(&mut self, now: &Now) {
        let on = self.site_day(now);
        let Some(site) = self.site.as_mut() else {
            return;
        };
        let (Spot::Weigh(person), Some(home)) = (site.spot.clone(), site.home_id()) else {
            return;
        };
        let Some(weigh) = &site.scale else {
            return;
        };
        let Some(weight) = weigh.found() else {
            return;
        };
        let manner = match weigh.manner() {
            Manner::Together => Manner::Together,
            _ => Manner::Site,
        };
        let by = Some(site.weigher()).filter(|name| !name.is_empty());
        let event = SiteEvent::HomeWeighed {
            home,
            person,
            weight: weight.typed().to_owned(),
            on,
            manner,
            by,
        };
        if self.note_at_site(now, vec![event])
            && let Some(site) = self.site.as_mut()
        {
            site.scale = None;
            self.back_at_site();
        }
    }
}
