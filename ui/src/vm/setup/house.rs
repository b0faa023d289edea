//! The questions about the home: who else, at what hours, and whether the tablets are there.

use hearthdose_core::order::{FirstDose, Order};
use hearthdose_core::record::{Event, HouseholdWords};
use hearthdose_core::schedule::{RoundTimes, Timing};
use hearthdose_core::time::Now;
use jiff::ToSpan;
use jiff::civil::Time;

use super::{Ask, SetUp, Taken, counts_tablets};
use crate::vm::make::{number_field, picture};
use crate::vm::view::{Choice, Entry, Link, Note, StepView, Thing};
use crate::vm::{Kitchen, Open, Telling};

/// Hours of the first round of a day that are offered; the second is the usual one.
pub(in crate::vm) const FIRST_HOURS: [i8; 3] = [7, 8, 9];

impl Kitchen {
    pub(super) fn press_house(&mut self, set_up: &mut SetUp, id: &str, now: &Now) -> Taken {
        if set_up.typing.press(id) {
            return Taken::Yes;
        }
        match (set_up.ask, id) {
            (Ask::More, "another") => {
                set_up.go(Ask::Name);
                set_up.forget_screens();
            }
            (Ask::More, "everybody") => set_up.go(Ask::Times),
            (Ask::Times, "other-time") => set_up.go(Ask::OtherTime),
            (Ask::Times, id) => {
                let hour = id.strip_prefix("hour:").and_then(|hour| hour.parse().ok());
                let Some(first) = hour.and_then(|hour| Time::new(hour, 0, 0, 0).ok()) else {
                    return Taken::No;
                };
                return self.choose_times(set_up, first);
            }
            (Ask::OtherTime, "before-noon" | "after-noon") => {
                set_up.after_noon = id == "after-noon";
            }
            (Ask::OtherTime, "next") => {
                let Some(first) = typed_time(set_up) else {
                    return Taken::No;
                };
                return self.choose_times(set_up, first);
            }
            (Ask::Ready, "start-now" | "start-round") => {
                if !self.write_household(set_up, id == "start-now", now) {
                    return Taken::Yes;
                }
                let tablets = self
                    .open
                    .as_ref()
                    .is_some_and(|open| counts_tablets(&open.order));
                if !tablets {
                    return Taken::Done;
                }
                set_up.go(Ask::Tablets);
                set_up.forget_screens();
            }
            (Ask::Ready, "not-yet") => {
                let phone = self.open.as_ref().map(|open| self.phone_for_more(open));
                let values = [("phone", phone.unwrap_or_default().into())];
                self.telling = Some(Telling {
                    title: self.words.say("ready-none"),
                    body: self.words.say_with("ready-none-detail", &values),
                    drawing: "ask-clinician",
                    main: self.words.say("told-go-on"),
                    ..Telling::default()
                });
            }
            (Ask::Tablets, "next") if set_up.typing.get(0).parse::<u32>().is_ok() => {
                set_up.tablets = set_up.typing.get(0).parse().unwrap_or(0);
                set_up.go(Ask::Lot);
            }
            (Ask::Tablets, "uncounted") => return Taken::Done,
            (Ask::Lot, "next" | "uncounted") => {
                let lot = set_up.lot.trim().to_owned();
                let lot = (id == "next" && !lot.is_empty()).then_some(lot);
                if !self.receive(set_up.tablets, lot, now) {
                    return Taken::Yes;
                }
                return Taken::Done;
            }
            _ => return Taken::No,
        }
        Taken::Yes
    }

    fn choose_times(&self, set_up: &mut SetUp, first: Time) -> Taken {
        let Some(open) = &self.open else {
            return Taken::No;
        };
        let Some(times) = times_from(&open.order, first) else {
            return Taken::No;
        };
        set_up.times = times;
        set_up.go(Ask::Ready);
        Taken::Yes
    }

    fn write_household(&mut self, set_up: &SetUp, at_once: bool, now: &Now) -> bool {
        let day = self.day(now);
        let clock = self.local_minute(now);
        let Some(household) = self
            .open
            .as_ref()
            .and_then(|open| open.state.household.clone())
        else {
            return false;
        };
        let first = self.open.as_ref().and_then(|open| {
            open.state
                .people()
                .next()
                .map(|(_, p)| p.person.name.clone())
        });
        let name = first.map(|name| {
            self.words
                .say_with("home-of", &[("name", name.as_str().into())])
        });
        // The first round of today may be over; then the course begins with the next one all the same.
        let words = HouseholdWords {
            name: name.unwrap_or(household.name),
            start: day,
            rounds: set_up.times.clone(),
            first_dose_at: at_once.then_some(clock),
            ..household
        };
        let name = words.name.clone();
        let written = self.record(now, vec![Event::HouseholdSet(words)]);
        if let Some(open) = self.open.as_mut().filter(|_| written) {
            // Only for the list of homes; the record has the name as well.
            let _ = open.store.set_setting("home-name", &name);
        }
        written
    }

    pub(super) fn house_view(&self, open: &Open, set_up: &SetUp) -> StepView {
        let words = &self.words;
        match set_up.ask {
            Ask::More => {
                let mut view = StepView::titled(words.say("more-title"));
                view.things = open
                    .state
                    .people()
                    .map(|(_, record)| Thing {
                        words: record.person.name.clone(),
                        detail: self.person_line(open, &record.person),
                    })
                    .collect();
                view.choices = vec![
                    Choice::new(
                        "another",
                        words.say("more-another"),
                        words.say("more-another-detail"),
                        "household",
                    ),
                    Choice::new(
                        "everybody",
                        words.say("more-everybody"),
                        words.say("more-everybody-detail"),
                        "table-set",
                    )
                    .usual(),
                ];
                view.back = false;
                view
            }
            Ask::Times => {
                let mut view = StepView::titled(words.say("times-title"));
                view.body = vec![words.say("times-body")];
                for hour in FIRST_HOURS {
                    let Some(times) = Time::new(hour, 0, 0, 0)
                        .ok()
                        .and_then(|first| times_from(&open.order, first))
                    else {
                        continue;
                    };
                    let title = self.times_words(&times);
                    let choice = Choice::new(&format!("hour:{hour}"), title, String::new(), "");
                    view.choices
                        .push(if hour == 8 { choice.usual() } else { choice });
                }
                view.choices.push(Choice::new(
                    "other-time",
                    words.say("times-other"),
                    String::new(),
                    "",
                ));
                view
            }
            Ask::OtherTime => {
                let mut view = StepView::titled(words.say("times-first"));
                view.picture = Some(picture("next-round"));
                let times = typed_time(set_up).and_then(|first| times_from(&open.order, first));
                view.entry = Some(Entry {
                    result: times
                        .as_ref()
                        .map(|times| Note::new(self.times_words(times), String::new(), None)),
                    ..self.time_entry(set_up)
                });
                view.main = Some(self.next_when(times.is_some()));
                view
            }
            Ask::Ready => {
                let mut view = StepView::titled(words.say("ready-title"));
                let says = open.order.main_product();
                let says = says.map_or(String::new(), |product| product.label_says.join(", "));
                view.body = vec![words.say_with("ready-body", &[("words", says.into())])];
                if open.order.medicine.first_dose == FirstDose::Now {
                    view.choices.push(
                        Choice::new(
                            "start-now",
                            words.say("ready-now"),
                            words.say("ready-now-detail"),
                            "table-set",
                        )
                        .usual(),
                    );
                }
                let next = Choice::new(
                    "start-round",
                    words.say_with(
                        "ready-round",
                        &[("time", self.next_of(open, &set_up.times).into())],
                    ),
                    self.times_words(&set_up.times),
                    "next-round",
                );
                view.choices.push(if view.choices.is_empty() {
                    next.usual()
                } else {
                    next
                });
                let values = [("phone", self.phone_for_more(open).into())];
                view.choices.push(Choice::new(
                    "not-yet",
                    words.say("ready-none"),
                    words.say_with("ready-none-detail", &values),
                    "bottle-label",
                ));
                view
            }
            Ask::Lot => self.lot_view(&set_up.lot),
            _ => {
                let mut view = self.tablets_view(&set_up.typing);
                view.back = false;
                view
            }
        }
    }

    /// An hour and minutes, before or after noon.
    pub(super) fn time_entry(&self, set_up: &SetUp) -> Entry {
        let words = &self.words;
        let field =
            |index, key: &str| number_field(index, words.say(key), &set_up.typing, String::new());
        let half = |id: &str, key: &str, here| Link {
            here,
            ..Link::to(id, words.say(key))
        };
        Entry {
            units: vec![
                half("before-noon", "half-before-noon", !set_up.after_noon),
                half("after-noon", "half-after-noon", set_up.after_noon),
            ],
            fields: vec![field(0, "time-hour"), field(1, "time-minutes")],
            pad: Some(self.pad(false)),
            result: None,
        }
    }

    /// The next of these times of day.
    fn next_of(&self, open: &Open, times: &[Time]) -> String {
        let now = self.zone(open).to_datetime(self.clock.now().wall).time();
        let next = times.iter().find(|time| **time > now).or(times.first());
        next.map_or_else(String::new, |time| self.words.time(*time))
    }

    /// "8:00 a.m. and 8:00 p.m."
    pub(in crate::vm) fn times_words(&self, times: &[Time]) -> String {
        let all: Vec<String> = times.iter().map(|time| self.words.time(*time)).collect();
        self.words.list(&all)
    }
}

/// The rounds of a day by the order's interval, from the first on; none when the order refuses them.
pub(in crate::vm) fn times_from(order: &Order, first: Time) -> Option<Vec<Time>> {
    let interval = order.medicine.interval.as_secs();
    let rounds = (24 * 3600 / interval.max(3600)).max(1);
    let mut times: Vec<Time> = (0..rounds)
        .map(|index| first.wrapping_add((index * interval).seconds()))
        .collect();
    times.sort();
    let texts: Vec<String> = times
        .iter()
        .map(|time| time.strftime("%H:%M").to_string())
        .collect();
    RoundTimes::for_order(&texts, &Timing::from(&order.medicine)).ok()?;
    Some(times)
}

/// An hour from 1 to 12 and minutes; no minutes are a full hour.
pub(super) fn typed_time(set_up: &SetUp) -> Option<Time> {
    let hour: i8 = set_up.typing.get(0).parse().ok()?;
    let minutes: i8 = match set_up.typing.get(1) {
        "" => 0,
        text => text.parse().ok()?,
    };
    if !(1..=12).contains(&hour) {
        return None;
    }
    let hour = hour % 12 + if set_up.after_noon { 12 } else { 0 };
    Time::new(hour, minutes, 0, 0).ok()
}
