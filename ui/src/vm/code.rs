//! The household's code for a dispensing site: made when it is asked for, worked out from the record.
//!
//! It carries what the site needs and nothing else; names only when the household wants them in it.

use hearthdose_core::exchange::{self, Making, Member, Message};
use hearthdose_core::household::HouseholdId;
use hearthdose_core::prep::PersonId;
use hearthdose_core::time::Now;
use hearthdose_core::today;

use super::make::{paragraph, picture};
use super::view::{Block, Link, ReadingView};
use super::{Kitchen, Open, Place, Reading};

/// Where the number of the last code is kept: a new code retires the one before.
const ISSUE: &str = "code-issue";
const NAMES: &str = "code-names";

/// A code as it was made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Shown {
    text: String,
    names: bool,
}

impl Kitchen {
    pub(super) fn code_reading(&self) -> ReadingView {
        let words = &self.words;
        let mut view = ReadingView::titled(words.say("code-title"));
        let Some(shown) = &self.code else {
            view.blocks = vec![paragraph(words.say("code-none"))];
            return view;
        };
        view.lead = words.say("code-lead");
        view.picture = Some(picture(&format!("code:{}", shown.text)));
        view.blocks = vec![
            paragraph(words.say("code-what")),
            Block::Action {
                id: "code-names".to_owned(),
                label: words.say(if shown.names {
                    "code-with-names"
                } else {
                    "code-without-names"
                }),
                detail: words.say(if shown.names {
                    "code-leave-names-out"
                } else {
                    "code-put-names-in"
                }),
            },
        ];
        view.ways = vec![
            Link::to("code-picture", words.say("code-picture")),
            Link::to("receive-code", words.say("receive-receipt")),
        ];
        view
    }

    /// Presses about the code; false when the id belongs elsewhere.
    pub(super) fn press_code(&mut self, id: &str, now: &Now) -> bool {
        if id == "code-picture" {
            if let Some(shown) = self.code.clone() {
                self.leave_code(&shown.text);
            }
            return true;
        }
        let names = self.names_in_code();
        let names = match id {
            "show-code" => names,
            "code-names" => !names,
            _ => return false,
        };
        self.code = self.make_code(names, now);
        self.go(Place::Reading(Reading::Code));
        true
    }

    /// Whether the household wants its names in its code.
    fn names_in_code(&self) -> bool {
        let open = self.open.as_ref();
        let kept = open.and_then(|open| open.store.setting(NAMES).ok().flatten());
        kept.is_some_and(|value| value == "yes")
    }

    /// The text of a new code, which retires the one before.
    pub(super) fn fresh_code(&mut self, now: &Now) -> Option<String> {
        let names = self.names_in_code();
        self.make_code(names, now).map(|shown| shown.text)
    }

    /// The name of the open home in codes; none where this device can keep no secret.
    pub(super) fn own_household(&mut self) -> Option<HouseholdId> {
        let random = self.ids.device_random()?;
        let open = self.open.as_ref()?;
        Some(random.household(&open.order.id, &open.device.0.to_string()))
    }

    fn make_code(&mut self, names: bool, now: &Now) -> Option<Shown> {
        let random = self.ids.device_random()?;
        let language = self.words.language().code();
        let day = self.day(now);
        let open = self.open.as_mut()?;
        let setting = |open: &Open, key: &str| open.store.setting(key).ok().flatten();
        let issue = setting(open, ISSUE)
            .and_then(|text| text.parse::<u32>().ok())
            .unwrap_or(0)
            .checked_add(1)?;
        let order = &open.order;
        let household = random.household(&order.id, &open.device.0.to_string());
        let people: Vec<PersonId> = open.state.people().map(|(id, _)| id).collect();
        let marks: Vec<String> = people.iter().map(|id| id.0.to_string()).collect();
        let marks: Vec<&str> = marks.iter().map(String::as_str).collect();
        let ids = random.people(household, &marks);
        let seated: Vec<_> = people
            .iter()
            .filter_map(|id| {
                let record = open.state.people.get(id)?;
                Some(today::seated_in(&open.state, order, record))
            })
            .collect();
        let started = open.state.household.as_ref()?.start;
        let left = open.state.tablets_of(&order.id).left();
        let share = u64::try_from(people.len()).unwrap_or(1).max(1);
        let members: Vec<Member<'_>> = ids
            .into_iter()
            .zip(people.iter().zip(&seated))
            .map(|(short, (id, person))| Member {
                nickname: names.then_some(person.name.as_str()),
                course_day: course_day(person.starts.unwrap_or(started), day),
                last_dose: open
                    .state
                    .last_dose_under(*id, &order.id)
                    .map(|dose| dose.at),
                left: (!open.state.packs.is_empty())
                    .then(|| u16::try_from(left / share).ok())
                    .flatten(),
                ..Member::new(short, person)
            })
            .collect();
        let making = Making {
            household,
            issue,
            made: now.wall,
            day,
            order: Some(order),
            language,
            interpreter: false,
            adult_collects: None,
            sealed: false,
        };
        let message = Message::Household(exchange::household_code(&making, &members));
        let text = exchange::write(&message, &random.key(&order.id)).ok()?;
        let saved = open
            .store
            .set_setting(ISSUE, &issue.to_string())
            .and_then(|()| {
                open.store
                    .set_setting(NAMES, if names { "yes" } else { "no" })
            });
        if let Err(error) = saved {
            self.tell_error(&error.into());
            return None;
        }
        Some(Shown { text, names })
    }
}

fn course_day(begun: jiff::civil::Date, day: jiff::civil::Date) -> Option<u16> {
    let days = begun.until(day).ok()?.get_days();
    u16::try_from(days).ok()?.checked_add(1)
}
