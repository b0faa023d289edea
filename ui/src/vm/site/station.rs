//! The weighing station: a home is scanned or looked up, its people step on the scale one after the other.

use hearthdose_core::time::Now;

use super::line::text_field;
use super::{Site, Spot};
use crate::text::Measure;
use crate::vm::Kitchen;
use crate::vm::keep::KeepError;
use crate::vm::make::picture;
use crate::vm::view::{Button, Choice, Entry, Note, StepView};

/// Setting: who stands at this tablet's scale.
const WEIGHER: &str = "site-weigher";

impl Site {
    /// Who stands at the scale; empty where nobody said it.
    pub(super) fn weigher(&self) -> String {
        let kept = self.store.setting(WEIGHER).ok().flatten();
        kept.unwrap_or_default()
    }

    pub(super) fn keep_weigher(&mut self, name: &str) -> Result<(), KeepError> {
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
        let weigher = site.weigher();
        let weigher = text_field("weigher", words.say("station-weigher"), &weigher, false);
        view.entry = Some(Entry {
            fields: vec![field, weigher],
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
        if id != "station" {
            return false;
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
