//! The line: the next home is scanned, looked up, or typed in.

use hearthdose_core::exchange::{HouseholdCode, MARK, Message, Scan, opened_text};
use hearthdose_core::household::HouseholdId;
use hearthdose_core::record::{Event, SiteEvent};
use hearthdose_core::time::Now;

use super::{Site, Spot};
use crate::vm::Kitchen;
use crate::vm::view::{Button, Choice, Entry, Field, Link, Note, StepView};

/// Homes shown in a list.
const MOST: u32 = 40;

impl Kitchen {
    pub(super) fn line_view(&self, site: &Site, now: &Now) -> StepView {
        let words = &self.words;
        let mut view = StepView::titled(words.say("line-title"));
        view.body = vec![words.say("line-body")];
        view.entry = Some(Entry {
            fields: vec![text_field(
                "code",
                words.say("line-field"),
                site.typed("code"),
                true,
            )],
            ..Entry::default()
        });
        view.note = site
            .said
            .map(|said| Note::new(words.say(said), String::new(), None));
        let label = words.say("line-main");
        view.main = Some(match site.typed("code").is_empty() {
            true => Button::waiting(label),
            false => Button::ready("scan", label),
        });
        view.after = self.pace_words(site, now);
        view.ways = vec![
            Link::to("family", words.say("line-family")),
            Link::to("look-for-codes", words.say("receive-look")),
            Link::to("find", words.say("site-find")),
            Link::to("waiting", words.say("site-waiting")),
            Link::to("station", words.say("site-station")),
            Link::to("shelves", words.say("site-shelves")),
            Link::to("day", words.say("site-day")),
            Link::to("orders", words.say("site-orders")),
            Link::to("shift", words.say("site-shift")),
            Link::to("roles", words.say("site-roles")),
            Link::to("leave-site", words.say("site-leave")),
        ];
        view.back = false;
        self.show_camera(&mut view);
        view
    }

    pub(super) fn press_line(&mut self, id: &str, now: &Now) -> bool {
        match id {
            "scan" => {
                let text = self.site.as_ref().map(|site| site.typed("code").to_owned());
                self.scan_home(&text.unwrap_or_default(), now);
            }
            "look-for-codes" => {
                let found = self.records.codes();
                // One picture may be of something else; the first home that is found is shown.
                let before = self.site.as_ref().and_then(Site::home_id);
                if found.is_empty() {
                    self.say_at_site("receive-none");
                }
                for text in found {
                    if self.site.as_ref().and_then(Site::home_id) == before {
                        self.scan_home(&text, now);
                    }
                }
            }
            _ => match id.strip_prefix("home:").and_then(HouseholdId::parse) {
                Some(home) => self.show_home(home, now),
                None => return false,
            },
        }
        true
    }

    fn say_at_site(&mut self, said: &'static str) {
        if let Some(site) = self.site.as_mut() {
            site.typed.clear();
            site.say(said);
        }
    }

    /// What was scanned is in the record before anything of it is shown.
    pub(in crate::vm) fn scan_home(&mut self, text: &str, now: &Now) {
        let opened = self.opened_code(text);
        let text = opened.as_deref().unwrap_or(text);
        match self.household_of(text) {
            Err(said) => self.say_at_site(said),
            Ok(code) => {
                let home = code.household;
                if self.see_home(code, text.trim_matches(['\r', '\n', '\t']), now) {
                    self.show_home(home, now);
                }
            }
        }
    }

    /// What a home sealed for this site, where the key is here.
    fn opened_code(&self, text: &str) -> Option<String> {
        let key = self.site.as_ref()?.key.as_ref()?;
        match Scan::read(text.trim_matches(['\r', '\n', '\t', ' '])) {
            Scan::Sealed(sealed) => opened_text(&sealed, key),
            _ => None,
        }
    }

    fn household_of(&self, text: &str) -> Result<HouseholdCode, &'static str> {
        match Scan::read(text.trim_matches(['\r', '\n', '\t', ' '])) {
            Scan::Message(scanned) => match scanned.message {
                Message::Household(code) => Ok(code),
                _ => Err("line-not-a-home"),
            },
            Scan::Part(_) => Err("line-not-a-home"),
            Scan::Sealed(_) => Err("receive-sealed"),
            Scan::Newer => Err("receive-newer"),
            Scan::Damaged | Scan::SignatureWrong => Err("receive-damaged"),
            Scan::Foreign => Err("receive-foreign"),
        }
    }

    /// Writes a code down, unless it is known already; false when that could not be saved.
    pub(super) fn see_home(&mut self, code: HouseholdCode, text: &str, now: &Now) -> bool {
        let Some(site) = &self.site else {
            return false;
        };
        let home = match site.store.home(code.household) {
            Ok(home) => home,
            Err(error) => {
                self.tell_error(&error.into());
                return false;
            }
        };
        let known = home
            .iter()
            .flat_map(|home| &home.seen)
            .any(|seen| seen.code == code);
        if known {
            return true;
        }
        let site = SiteEvent::HomeSeen {
            home: code.household,
            code: text.to_owned(),
        };
        self.write_at_site(now, vec![(None, Event::Site { site })])
    }

    pub(super) fn show_home(&mut self, home: HouseholdId, now: &Now) {
        self.look_at(home, now);
        if let Some(site) = self.site.as_mut() {
            let (before, here) = match site.spot {
                Spot::Station => (Spot::Station, Spot::StationHome),
                _ => (Spot::Line, Spot::Home),
            };
            if site.found.is_some() {
                site.trail.clear();
                site.spot = before;
                site.go(here);
            } else {
                site.said = Some("line-nothing-known");
                site.typed.clear();
            }
        }
    }

    pub(super) fn find_view(&self, site: &Site) -> StepView {
        let words = &self.words;
        let mut view = StepView::titled(words.say("find-title"));
        view.entry = Some(Entry {
            fields: vec![text_field(
                "find",
                words.say("find-field"),
                site.typed("find"),
                true,
            )],
            ..Entry::default()
        });
        if site.list.is_empty() && !site.typed("find").is_empty() {
            view.note = Some(Note::new(
                words.say("find-none"),
                words.say("find-none-body"),
                None,
            ));
        }
        view.choices = self.home_choices(site);
        view
    }

    pub(super) fn find_homes(&mut self) {
        let Some(site) = self.site.as_mut() else {
            return;
        };
        let words = match site.spot {
            Spot::Station => site.typed("code"),
            _ => site.typed("find"),
        };
        match site.store.find_homes(words, MOST) {
            Ok(list) => site.list = list,
            Err(error) => self.tell_error(&error.into()),
        }
    }

    pub(super) fn list_waiting(&mut self) {
        let Some(site) = self.site.as_mut() else {
            return;
        };
        match site.store.homes_waiting(MOST) {
            Ok(list) => site.list = list,
            Err(error) => self.tell_error(&error.into()),
        }
    }

    /// Homes that were scanned or typed in, and did not get anything since.
    pub(super) fn waiting_view(&self, site: &Site) -> StepView {
        let words = &self.words;
        let mut view = StepView::titled(words.say("waiting-title"));
        view.body = vec![words.say("waiting-body")];
        view.choices = self.parked_choices(site);
        view.choices.extend(self.home_choices(site));
        if view.choices.is_empty() {
            view.body = vec![words.say("waiting-none")];
        }
        view.main = Some(Button::ready("line", words.say("site-next")));
        view
    }

    pub(super) fn home_choices(&self, site: &Site) -> Vec<Choice> {
        let words = &self.words;
        let zone = jiff::tz::TimeZone::get(&self.clock.zone()).unwrap_or(jiff::tz::TimeZone::UTC);
        let lines = site.list.iter().map(|line| {
            let number = line.home.to_string();
            let title = line.words.clone().unwrap_or_else(|| {
                words.say_with("home-number", &[("number", short(&number).into())])
            });
            let people = words.say_with("people-count", &[("count", line.people.into())]);
            let told = match (line.served, line.seen) {
                (Some(at), _) => words.say_with(
                    "home-served",
                    &[
                        ("day", words.date(zone.to_datetime(at).date()).into()),
                        ("time", words.clock(at, &zone).into()),
                    ],
                ),
                (None, Some(at)) => {
                    words.say_with("home-seen", &[("time", words.clock(at, &zone).into())])
                }
                (None, None) => String::new(),
            };
            Choice::new(
                &format!("home:{number}"),
                title,
                format!("{people}. {told}"),
                "household",
            )
        });
        lines.collect()
    }
}

/// Whether this is the text of a code, not the name of somebody.
pub(super) fn is_code(text: &str) -> bool {
    text.starts_with(MARK)
}

/// The beginning of a home's number, enough to tell two apart in a list.
pub(super) fn short(number: &str) -> String {
    number.chars().take(6).collect()
}

pub(super) fn text_field(id: &str, label: String, value: &str, active: bool) -> Field {
    Field {
        id: id.to_owned(),
        spoken: label.clone(),
        label,
        value: value.to_owned(),
        unit: String::new(),
        active,
        text: true,
        problem: String::new(),
    }
}
