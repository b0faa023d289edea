//! The weighing station: a home is scanned or looked up, its people step on the scale one after the other.

use hearthdose_core::time::Now;

use super::line::text_field;
use super::{Site, Spot};
use crate::text::Measure;
use crate::vm::Kitchen;
use crate::vm::keep::KeepError;
use crate::vm::make::picture;
use crate::vm::view::{Button, Choice, Entry, Link, Note, StepView};

/// Setting: who stands at this tablet's scale.
const WEIGHER: &str = "site-weigher";

impl Site {
    /// Who stands at the scale; empty where nobody said it.
    pub(super) fn weigher(&self) -> String {
        let kept = self.store.setting(WEIGHER).ok().flatten();
        kept.unwrap_or_default()
    }

    fn keep_weigher(&mut self, name: &str) -> Result<(), KeepError> {
        Ok(self.store.set_setting(WEIGHER, name)?)
    }
}

impl Kitchen {
    /// Which home steps on the scale?
    pub(super) fn station_view(&self, site: &Site) -> StepView {
        let words = &self.words;
        let mut view = StepView::titled(words.say("station-title"));
        view.body = vec![words.say("station-body")];
        let typed = site.typed("code");
        let field = text_field("code", words.say("station-field"), typed, true);
        view.entry = Some(Entry {
            fields: vec![field],
            ..Entry::default()
        });
        view.note = site
            .said
            .map(|said| Note::new(words.say(said), String::new(), None));
        let is_unknown = site.list.is_empty() && !typed.is_empty();
        if is_unknown && view.note.is_none() && !super::line::is_code(typed) {
            let (title, body) = (words.say("find-none"), words.say("find-none-body"));
            view.note = Some(Note::new(title, body, None));
        }
        view.choices = self.home_choices(site);
        let label = words.say("line-main");
        view.main = Some(match super::line::is_code(typed) {
            true => Button::ready("scan", label),
            false => Button::waiting(label),
        });
        self.show_camera(&mut view);
        view.picture = view.seen.is_some().then(|| picture("show-code"));
        let way = match site.weigher() {
            name if name.is_empty() => words.say("weigher-title"),
            name => words.say_with("weigher-is", &[("name", name.into())]),
        };
        view.ways.push(Link::to("weigher", way));
        view
    }

    /// A page of its own, so that no scanner types a code into the name.
    pub(super) fn weigher_view(&self, site: &Site) -> StepView {
        let words = &self.words;
        let mut view = StepView::titled(words.say("weigher-title"));
        view.body = vec![words.say("weigher-body")];
        let (typed, before) = (site.typed("weigher"), site.weigher());
        let shown = if typed.is_empty() { &before } else { typed };
        let field = text_field("weigher", words.say("weigher-field"), shown, true);
        view.entry = Some(Entry {
            fields: vec![field],
            ..Entry::default()
        });
        view.main = Some(self.when_typed(site, "weigher", "weigher-named", "weigher-main"));
        if !before.is_empty() {
            view.ways = vec![Link::to("weigher-nobody", words.say("weigher-nobody"))];
        }
        view
    }

    /// Who of this home is weighed, with what each weighs and takes now.
    pub(super) fn station_home_view(&self, site: &Site) -> StepView {
        let words = &self.words;
        let mut view = StepView::titled(words.say("station-who"));
        let Some(found) = &site.found else {
            return view;
        };
        view.eyebrow = self.door_words(&found.home);
        view.choices = found
            .serving
            .people
            .iter()
            .map(|shown| {
                let weight = self.weight_at_desk(found, shown);
                let dose = match &shown.dose {
                    Ok(dose) => {
                        words.dose_words(dose.form, dose.amount, dose.tablets, Measure::Spoon)
                    }
                    Err(_) => words.say("desk-no-dose"),
                };
                let id = format!("weigh:{}", shown.id);
                let here = found.home.weighings.contains_key(&shown.id);
                Choice {
                    chosen: here,
                    ..Choice::new(
                        &id,
                        self.name_at_desk(shown),
                        format!("{weight} · {dose}"),
                        "weigh-child",
                    )
                }
            })
            .collect();
        view.main = Some(Button::ready("station", words.say("station-next")));
        view
    }

    pub(super) fn press_station(&mut self, id: &str, _now: &Now) -> bool {
        let named = match id {
            "weigher" => {
                if let Some(site) = self.site.as_mut() {
                    site.go(Spot::Weigher);
                }
                return true;
            }
            "weigher-named" => self
                .site
                .as_ref()
                .map(|site| site.typed("weigher").to_owned()),
            "weigher-nobody" => Some(String::new()),
            "station" => None,
            _ => return false,
        };
        let kept = named.and_then(|name| Some(self.site.as_mut()?.keep_weigher(&name)));
        if let Some(Err(error)) = kept {
            self.tell_error(&error);
        }
        self.list_waiting();
        if let Some(site) = self.site.as_mut() {
            site.trail.clear();
            site.spot = Spot::Line;
            site.found = None;
            site.go(Spot::Station);
        }
        true
    }
}
