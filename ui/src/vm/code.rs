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
const INTERPRETER: &str = "code-interpreter";
const COLLECTS: &str = "code-collects";

/// A code as it was made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Shown {
    text: String,
    asked: Asked,
}

/// What the household says of itself for the site, and leaves as it is until it says otherwise.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
struct Asked {
    /// First names are in the code.
    names: bool,
    interpreter: bool,
    /// Who goes there; not said as long as nobody knows.
    adult_collects: Option<bool>,
}

impl Asked {
    fn of(open: &Open) -> Asked {
        let kept = |key: &str| open.store.setting(key).ok().flatten();
        let is_yes = |key: &str| kept(key).is_some_and(|value| value == "yes");
        Asked {
            names: is_yes(NAMES),
            interpreter: is_yes(INTERPRETER),
            adult_collects: match kept(COLLECTS).as_deref() {
                Some("adult") => Some(true),
                Some("minor") => Some(false),
                _ => None,
            },
        }
    }

    fn kept(self) -> [(&'static str, &'static str); 3] {
        let yes = |said: bool| if said { "yes" } else { "no" };
        [
            (NAMES, yes(self.names)),
            (INTERPRETER, yes(self.interpreter)),
            (COLLECTS, self.collects()),
        ]
    }

    fn collects(self) -> &'static str {
        match self.adult_collects {
            None => "open",
            Some(true) => "adult",
            Some(false) => "minor",
        }
    }

    /// With what a press says; nothing for a press of something else.
    fn after(mut self, id: &str) -> Option<Asked> {
        match id {
            "show-code" => {}
            "code-names" => self.names = !self.names,
            "code-interpreter:no" => self.interpreter = false,
            "code-interpreter:yes" => self.interpreter = true,
            "code-collects:open" => self.adult_collects = None,
            "code-collects:adult" => self.adult_collects = Some(true),
            "code-collects:minor" => self.adult_collects = Some(false),
            _ => return None,
        }
        Some(self)
    }
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
        let asked = shown.asked;
        let option = |id: &str, key: &str, here: bool| Link {
            here,
            ..Link::to(id, words.say(key))
        };
        let interpreter = vec![
            option("code-interpreter:no", "no", !asked.interpreter),
            option("code-interpreter:yes", "yes", asked.interpreter),
        ];
        let collects = ["open", "adult", "minor"].map(|who| {
            let (id, key) = (
                format!("code-collects:{who}"),
                format!("code-collects-{who}"),
            );
            option(&id, &key, asked.collects() == who)
        });
        view.blocks = vec![
            paragraph(words.say("code-what")),
            Block::Choice {
                label: words.say("code-interpreter"),
                options: interpreter,
            },
            Block::Choice {
                label: words.say("code-collects"),
                options: collects.to_vec(),
            },
        ];
        if asked.adult_collects == Some(false) {
            view.blocks.push(paragraph(words.say("code-collects-lead")));
        }
        let (names, change) = match asked.names {
            true => ("code-with-names", "code-leave-names-out"),
            false => ("code-without-names", "code-put-names-in"),
        };
        view.blocks.push(Block::Action {
            id: "code-names".to_owned(),
            label: words.say(names),
            detail: words.say(change),
        });
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
        let Some(asked) = self.asked_for_code().after(id) else {
            return false;
        };
        self.code = self.make_code(asked, now);
        self.go(Place::Reading(Reading::Code));
        true
    }

    fn asked_for_code(&self) -> Asked {
        self.open.as_ref().map(Asked::of).unwrap_or_default()
    }

    /// The text of a new code, which retires the one before.
    pub(super) fn fresh_code(&mut self, now: &Now) -> Option<String> {
        let asked = self.asked_for_code();
        self.make_code(asked, now).map(|shown| shown.text)
    }

    /// The name of the open home in codes; none where this device can keep no secret.
    pub(super) fn own_household(&mut self) -> Option<HouseholdId> {
        let random = self.ids.device_random()?;
        let open = self.open.as_ref()?;
        Some(random.household(&open.order.id, &open.device.0.to_string()))
    }

    fn make_code(&mut self, asked: Asked, now: &Now) -> Option<Shown> {
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
                nickname: asked.names.then_some(person.name.as_str()),
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
            interpreter: asked.interpreter,
            adult_collects: asked.adult_collects,
            sealed: false,
        };
        let message = Message::Household(exchange::household_code(&making, &members));
        let text = exchange::write(&message, &random.key(&order.id)).ok()?;
        let issue = issue.to_string();
        let mut kept = asked.kept().into_iter().chain([(ISSUE, issue.as_str())]);
        let saved = kept.try_for_each(|(key, value)| open.store.set_setting(key, value));
        if let Err(error) = saved {
            self.tell_error(&error.into());
            return None;
        }
        Some(Shown { text, asked })
    }
}

fn course_day(begun: jiff::civil::Date, day: jiff::civil::Date) -> Option<u16> {
    let days = begun.until(day).ok()?.get_days();
    u16::try_from(days).ok()?.checked_add(1)
}
