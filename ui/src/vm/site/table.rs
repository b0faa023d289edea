//! The kitchen table of a home in front, for a helper at the door: a household record of its own on this device.
//!
//! What the site knows of the people is taken over once; from then on the table keeps its own record, and Back leads to the home.

use std::collections::BTreeMap;

use hearthdose_core::household::HouseholdId;
use hearthdose_core::order::Form;
use hearthdose_core::prep::PersonId;
use hearthdose_core::record::{Event, HouseholdWords};
use hearthdose_core::time::Now;
use jiff::civil::Time;
use uuid::Uuid;

use super::line::{short, text_field};
use super::list::time_of;
use super::{Found, Site};
use crate::demo;
use crate::vm::Kitchen;
use crate::vm::keep::KeepError;
use crate::vm::make::picture;
use crate::vm::ports::Shelf;
use crate::vm::setup::{FIRST_HOURS, times_from};
use crate::vm::view::{Button, Choice, Entry, Link, Note, StepView};

/// Setting of the site: the number of the household record of each home that was sat down with, as JSON.
const TABLES: &str = "site-tables";
/// Setting of the site: the home whose table the window was at when it was closed.
const AT_TABLE: &str = "site-at-table";

impl Site {
    fn tables(&self) -> BTreeMap<String, u16> {
        let text = self.store.setting(TABLES).ok().flatten();
        text.and_then(|text| serde_json::from_str(&text).ok())
            .unwrap_or_default()
    }

    /// The home whose table was open when the window was closed.
    pub(super) fn was_at_table(&self) -> Option<HouseholdId> {
        let text = self.store.setting(AT_TABLE).ok().flatten();
        text.as_deref().and_then(HouseholdId::parse)
    }

    /// The rounds of a day from the time that is typed on; none that the order refuses.
    fn typed_times(&self) -> Option<Vec<Time>> {
        times_from(self.order.as_ref()?, time_of(self.typed("time"))?)
    }

    /// Everything a table needs to know of the people in front.
    fn taken_over(&self, found: &Found) -> Result<Vec<Event>, KeepError> {
        let Some(order) = &self.order else {
            return Ok(Vec::new());
        };
        let day = found.serving.day;
        let mut events: Vec<Event> = self
            .store
            .notice_texts()?
            .into_iter()
            .map(|text| Event::NoticeTaken { text })
            .collect();
        for shown in &found.serving.people {
            let id = person_id(found.home.id, shown.id);
            let mut person = found.home.person(&shown.coded, order);
            if let Some(nickname) = &shown.nickname {
                person.name.clone_from(nickname);
            }
            events.extend(demo::facts_of(id, &person, day, &order.id, |born| born));
            let lifted = found.home.lifted.iter();
            events.extend(
                lifted
                    .filter(|((of, key), _)| *of == shown.id && person.lifted.contains(key))
                    .map(|((_, key), reason)| Event::HoldLifted {
                        person: id,
                        key: key.clone(),
                        by: String::new(),
                        reason: reason.clone(),
                    }),
            );
            let coded = &shown.coded;
            let started = coded.course_day.and_then(|number| {
                let before = i64::from(number).saturating_sub(1);
                day.checked_sub(jiff::Span::new().days(before)).ok()
            });
            if coded.last_dose.is_some() || started.is_some() {
                events.push(Event::Joined {
                    person: id,
                    order: order.id.clone(),
                    last_dose: coded.last_dose,
                    course_started: started,
                    doses: u32::from(coded.last_dose.is_some()),
                    tablets: coded.left.map_or(0, u32::from),
                });
            }
        }
        let lines = found.home.handed_out.iter().flat_map(|out| &out.lines);
        events.extend(lines.filter_map(|line| {
            let product = order.product(&line.lot.product)?;
            (product.form == Form::Tablet).then(|| Event::PacksReceived {
                product: product.key.clone(),
                lot: Some(line.lot.lot.clone()),
                tablets: line.packs.saturating_mul(line.each),
            })
        }));
        Ok(events)
    }
}

/// The same person has the same name in the record, however often it is made.
fn person_id(home: HouseholdId, person: u16) -> PersonId {
    let name = format!("{home} {person}");
    PersonId(Uuid::new_v5(&Uuid::NAMESPACE_OID, name.as_bytes()))
}

impl Kitchen {
    /// Before the first time: what is taken over.
    pub(super) fn table_view(&self, site: &Site) -> StepView {
        let words = &self.words;
        let mut view = StepView::titled(words.say("table-title"));
        view.small_picture = Some(picture("table-set"));
        if let Some(found) = &site.found {
            view.eyebrow = self.door_words(&found.home);
        }
        view.body = vec![words.say("table-body"), words.say("table-back")];
        view.body.push(words.say("table-times"));
        let order = site.order.as_ref();
        for hour in FIRST_HOURS {
            let first = Time::new(hour, 0, 0, 0).ok();
            let times = order.zip(first);
            let Some(times) = times.and_then(|(order, first)| times_from(order, first)) else {
                continue;
            };
            let (id, title) = (format!("table-hour:{hour}"), self.times_words(&times));
            let choice = Choice::new(&id, title, String::new(), "");
            view.choices
                .push(if hour == 8 { choice.usual() } else { choice });
        }
        let other = words.say("times-other");
        let other = Choice::new("table-other", other, String::new(), "");
        view.choices.push(other);
        view.ways = vec![Link::to("to-home", words.say("desk-back-to-home"))];
        view
    }

    /// The first dose of the day as it is typed; the others follow from the order.
    pub(super) fn table_time_view(&self, site: &Site) -> StepView {
        let words = &self.words;
        let mut view = StepView::titled(words.say("times-first"));
        let times = site.typed_times();
        let field = text_field("time", words.say("table-time"), site.typed("time"), true);
        let said = |times: &Vec<Time>| Note::new(self.times_words(times), String::new(), None);
        view.entry = Some(Entry {
            fields: vec![field],
            result: times.as_ref().map(said),
            ..Entry::default()
        });
        let label = words.say("table-main");
        view.main = Some(match times {
            Some(_) => Button::ready("sit-down", label),
            None => Button::waiting(label),
        });
        view.ways = vec![Link::to("to-home", words.say("desk-back-to-home"))];
        view
    }

    pub(super) fn press_table(&mut self, id: &str, now: &Now) -> bool {
        let home = self.site.as_ref().and_then(Site::home_id);
        match (id, home) {
            ("at-table", Some(home)) => {
                let number = self.table_of(home);
                match number {
                    Some(number) => self.open_table(home, number),
                    None => {
                        if let Some(site) = self.site.as_mut() {
                            site.go(super::Spot::Table);
                        }
                    }
                }
            }
            ("table-other", Some(_)) => {
                if let Some(site) = self.site.as_mut() {
                    site.go(super::Spot::TableTime);
                }
            }
            (_, Some(home)) => {
                let site = self.site.as_ref();
                let times = match id.strip_prefix("table-hour:") {
                    Some(hour) => site.and_then(|site| {
                        let first = Time::new(hour.parse().ok()?, 0, 0, 0).ok()?;
                        times_from(site.order.as_ref()?, first)
                    }),
                    None if id == "sit-down" => site.and_then(Site::typed_times),
                    None => return false,
                };
                if let Some(times) = times
                    && let Err(error) = self.sit_down(home, times, now)
                {
                    self.tell_error(&error);
                }
            }
            _ => return false,
        }
        true
    }

    /// The number of the record of a home's table, where it has one.
    pub(super) fn table_of(&self, home: HouseholdId) -> Option<u16> {
        let tables = self.site.as_ref()?.tables();
        let number = tables.get(&home.to_string()).copied()?;
        self.records
            .exists(Shelf::Household(number))
            .then_some(number)
    }

    /// The table of a home that is forgotten is cleared, with its record.
    pub(super) fn clear_table(&mut self, home: HouseholdId) -> Result<(), KeepError> {
        let Some(number) = self.table_of(home) else {
            return Ok(());
        };
        self.records.wipe(Shelf::Household(number))?;
        let Some(site) = self.site.as_mut() else {
            return Ok(());
        };
        let mut tables = site.tables();
        tables.remove(&home.to_string());
        let text = serde_json::to_string(&tables).unwrap_or_default();
        Ok(site.store.set_setting(TABLES, &text)?)
    }

    fn sit_down(
        &mut self,
        home: HouseholdId,
        rounds: Vec<Time>,
        now: &Now,
    ) -> Result<(), KeepError> {
        let number = self.records.homes().into_iter().max().unwrap_or(0) + 1;
        let Some(site) = self.site.as_mut() else {
            return Ok(());
        };
        let (Some(order), Some(found)) = (&site.order, &site.found) else {
            return Ok(());
        };
        let Some(file) = site.store.order(&order.id, order.revision)? else {
            return Err(KeepError::NoOrder);
        };
        let zone = jiff::tz::TimeZone::get(&order.time_zone).unwrap_or(jiff::tz::TimeZone::UTC);
        let local = zone.to_datetime(now.wall);
        let household = HouseholdWords {
            name: found
                .home
                .words
                .clone()
                .unwrap_or_else(|| short(&home.to_string())),
            zone: order.time_zone.clone(),
            start: local.date(),
            rounds,
            first_dose_at: Time::new(local.hour(), local.minute(), 0, 0).ok(),
            fresh: false,
            practice: false,
        };
        let people = site.taken_over(found)?;
        let mut tables = site.tables();
        tables.insert(home.to_string(), number);
        let text = serde_json::to_string(&tables).unwrap_or_default();
        self.begin_household(Shelf::Household(number), &file, household, people)?;
        if let Some(site) = self.site.as_mut() {
            site.store.set_setting(TABLES, &text)?;
        }
        self.open_table(home, number);
        Ok(())
    }

    /// From the site to the table; its record is opened where it was left.
    fn open_table(&mut self, home: HouseholdId, number: u16) {
        self.note_table(Some(home));
        self.site = None;
        self.open = None;
        self.trail.clear();
        self.place = crate::vm::Place::Start;
        self.enter(Shelf::Household(number));
        self.at_table_of = Some(home);
    }

    fn note_table(&mut self, home: Option<HouseholdId>) {
        let text = home.map_or_else(String::new, |home| home.to_string());
        let noted = self
            .site
            .as_mut()
            .map(|site| site.store.set_setting(AT_TABLE, &text));
        if let Some(Err(error)) = noted {
            self.tell_error(&error.into());
        }
    }

    /// Back to the table where the window was closed there.
    pub(super) fn resume_table(&mut self) {
        let home = self.site.as_ref().and_then(Site::was_at_table);
        if let Some(home) = home
            && let Some(number) = self.table_of(home)
            && self.site.as_ref().is_some_and(|site| !site.is_shut())
        {
            self.open_table(home, number);
        }
    }

    /// The way from the table back to the site, where it is a site's.
    pub(in crate::vm) fn site_way(&self) -> Option<Link> {
        self.at_table_of?;
        Some(Link::to("to-site", self.words.say("table-to-site")))
    }

    /// From the table back to the site, with the same home in front.
    pub(in crate::vm) fn back_to_site(&mut self, now: &Now) {
        let Some(home) = self.at_table_of.take() else {
            return;
        };
        self.open = None;
        self.trail.clear();
        self.place = crate::vm::Place::Start;
        self.work_at_site(now);
        self.note_table(None);
        self.show_home(home, now);
    }
}
