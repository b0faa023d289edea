//! Somebody who comes from another home with a course already begun: last dose, first day, tablets along.

use hearthdose_core::record::Event;
use hearthdose_core::time::Now;
use jiff::civil::{Date, Time};
use jiff::{Timestamp, ToSpan};
use serde::{Deserialize, Serialize};

use super::house::typed_time;
use super::{Ask, SetUp, Taken, counts_tablets};
use crate::vm::make::{number_field, picture};
use crate::vm::view::{Button, Choice, Entry, Link, Note, StepView};
use crate::vm::{Kitchen, Open, Telling};

/// What was taken elsewhere, as far as it is known.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub(in crate::vm) struct Before {
    /// The day of the last dose.
    pub day: Option<Date>,
    pub last_dose: Option<Timestamp>,
    pub started: Option<Date>,
}

impl Kitchen {
    pub(super) fn press_joining(&mut self, set_up: &mut SetUp, id: &str, now: &Now) -> Taken {
        if set_up.typing.press(id) {
            return Taken::Yes;
        }
        let today = self.day(now);
        match (set_up.ask, id) {
            (Ask::Elsewhere, "no") => return Taken::Done,
            (Ask::Elsewhere, "yes") => set_up.go(Ask::LastDay),
            (Ask::LastDay, "last-today" | "last-yesterday") => {
                let back = i64::from(id == "last-yesterday");
                set_up.before.day = today.checked_sub(back.days()).ok();
                set_up.go(Ask::LastTime);
            }
            (Ask::LastDay, "last-earlier") => {
                set_up.before.last_dose = None;
                set_up.go(Ask::CourseStart);
            }
            (Ask::Elsewhere | Ask::LastDay, "unsure") => {
                let phone = self.open.as_ref().map(|open| self.phone(open));
                let values = [("phone", phone.unwrap_or_default().into())];
                self.telling = Some(Telling {
                    title: self.words.say("unsure-detail"),
                    body: self.words.say_with("reason-call", &values),
                    drawing: "ask-clinician",
                    main: self.words.say("told-go-on"),
                    ..Telling::default()
                });
            }
            (Ask::LastTime, "before-noon" | "after-noon") => {
                set_up.after_noon = id == "after-noon";
            }
            (Ask::LastTime, "next") => {
                let Some(at) = self.last_dose_typed(set_up, now) else {
                    return Taken::No;
                };
                set_up.before.last_dose = Some(at);
                set_up.go(Ask::CourseStart);
            }
            (Ask::CourseStart, "next") => {
                let Some(date) = self.typed_date(set_up, today) else {
                    return Taken::No;
                };
                set_up.before.started = Some(date);
                return self.after_course_start(set_up, now);
            }
            (Ask::CourseStart, "unknown") => {
                set_up.before.started = None;
                return self.after_course_start(set_up, now);
            }
            (Ask::Brought, "next") => {
                let Ok(tablets) = set_up.typing.get(0).parse() else {
                    return Taken::No;
                };
                return self.write_joined(set_up, tablets, now);
            }
            (Ask::Brought, "uncounted") => return self.write_joined(set_up, 0, now),
            _ => return Taken::No,
        }
        Taken::Yes
    }

    fn after_course_start(&mut self, set_up: &mut SetUp, now: &Now) -> Taken {
        let tablets = self
            .open
            .as_ref()
            .is_some_and(|open| counts_tablets(&open.order));
        if tablets {
            set_up.go(Ask::Brought);
            return Taken::Yes;
        }
        self.write_joined(set_up, 0, now)
    }

    fn write_joined(&mut self, set_up: &SetUp, tablets: u32, now: &Now) -> Taken {
        let order = self.open.as_ref().map(|open| open.order.id.clone());
        let (Some(person), Some(order)) = (set_up.joined, order) else {
            return Taken::No;
        };
        let event = Event::Joined {
            person,
            order,
            last_dose: set_up.before.last_dose,
            course_started: set_up.before.started,
            doses: 1,
            tablets,
        };
        if self.record(now, vec![event]) {
            Taken::Done
        } else {
            Taken::Yes
        }
    }

    /// The typed time of the day of the last dose, when that is not in the future.
    fn last_dose_typed(&self, set_up: &SetUp, now: &Now) -> Option<Timestamp> {
        let open = self.open.as_ref()?;
        let time: Time = typed_time(set_up)?;
        let day = set_up.before.day?;
        let at = self
            .zone(open)
            .to_ambiguous_timestamp(day.to_datetime(time))
            .later()
            .ok()?;
        (at <= now.wall).then_some(at)
    }

    pub(super) fn joining_view(&self, open: &Open, set_up: &SetUp, now: &Now) -> StepView {
        let words = &self.words;
        let name = set_up
            .joined
            .map(|person| self.name_of(open, person))
            .unwrap_or_default();
        let named = |key: &str| words.say_with(key, &[("name", name.as_str().into())]);
        let choice = |id: &str, key: &str| Choice::new(id, words.say(key), String::new(), "");
        let mut view = match set_up.ask {
            Ask::Elsewhere => {
                let mut view = StepView::titled(named("joined-elsewhere"));
                view.choices = vec![
                    choice("yes", "joined-elsewhere-yes"),
                    choice("no", "joined-elsewhere-no"),
                    Choice::new(
                        "unsure",
                        words.say("unsure"),
                        words.say("unsure-detail"),
                        "",
                    ),
                ];
                view
            }
            Ask::LastDay => {
                let mut view = StepView::titled(named("joined-last-day"));
                view.choices = vec![
                    choice("last-today", "joined-today"),
                    choice("last-yesterday", "joined-yesterday"),
                    choice("last-earlier", "joined-earlier"),
                    Choice::new(
                        "unsure",
                        words.say("unsure"),
                        words.say("unsure-detail"),
                        "",
                    ),
                ];
                view
            }
            Ask::LastTime => {
                let mut view = StepView::titled(named("joined-last-time"));
                view.picture = Some(picture("next-round"));
                view.entry = Some(self.time_entry(set_up));
                let at = self.last_dose_typed(set_up, now);
                if let (Some(at), Some(entry)) = (at, view.entry.as_mut()) {
                    let time = words.clock_and_day(at, &self.zone(open), now.wall);
                    entry.result = Some(Note::new(time, String::new(), None));
                }
                view.main = Some(self.next_when(at.is_some()));
                view
            }
            Ask::CourseStart => {
                let mut view = StepView::titled(named("joined-start"));
                view.picture = Some(picture("first-table"));
                view.entry = Some(self.date_entry(&set_up.typing));
                let date = self.typed_date(set_up, self.day(now));
                if let Some(entry) = view.entry.as_mut() {
                    entry.result = self.date_note(&set_up.typing, date);
                }
                view.main = Some(self.next_when(date.is_some()));
                view.ways = vec![Link::to("unknown", words.say("tablets-unknown"))];
                view
            }
            _ => {
                let mut view = StepView::titled(named("joined-tablets"));
                view.picture = Some(picture("bottle-label"));
                view.entry = Some(Entry {
                    fields: vec![number_field(
                        0,
                        words.say("tablets-field"),
                        &set_up.typing,
                        String::new(),
                    )],
                    pad: Some(self.pad(false)),
                    ..Entry::default()
                });
                view.main = Some(if set_up.typing.get(0).is_empty() {
                    Button::waiting(words.say("tablets-main"))
                } else {
                    Button::ready("next", words.say("tablets-main"))
                });
                view.ways = vec![Link::to("uncounted", words.say("tablets-unknown"))];
                view
            }
        };
        // The person is in the record already; what follows may be answered or left out.
        view.back = !set_up.trail.is_empty();
        view
    }
}
