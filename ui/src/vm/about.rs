//! One thing about a person, changed any day: an answer, a reaction, a stop, a nurse's word, leaving.

use hearthdose_core::prep::PersonId;
use hearthdose_core::record::{Event, PersonWords};
use hearthdose_core::screening;
use hearthdose_core::time::Now;
use hearthdose_core::today;

use super::make::{number_field, picture};
use super::people::words_of;
use super::setup::SetUp;
use super::typing::Typing;
use super::view::{Button, Choice, Entry, Field, Link, StepView};
use super::{Kitchen, Open, Place, Reading};

/// One thing about a person that is asked on a screen of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum About {
    /// By place in the order's list of questions.
    Question(usize),
    Swallows,
    /// A baby: born early?
    BornEarly,
    Reaction,
    /// A nurse or doctor stops the medicine.
    Stopped,
    /// A nurse or doctor said that it may go on.
    Lift,
    /// Takes the medicine of one more order, by its place among the home's orders.
    Follow(usize),
    Leaves,
    /// How many tablets go along.
    LeavesWith,
    /// What the answers mean now.
    Outcome,
}

impl Kitchen {
    /// A question about one person, or what their answers come to.
    pub(super) fn about_view(&self, open: &Open, id: PersonId, about: About) -> StepView {
        let words = &self.words;
        let Some(record) = open.state.people.get(&id) else {
            return StepView::titled(words.say("people-title"));
        };
        let name = record.person.name.as_str();
        let named = |key: &str| words.say_with(key, &[("name", name.into())]);
        match about {
            About::Follow(index) => self.follow_view(open, id, index),
            About::Question(index) => match open.order_of(id).questions.get(index) {
                Some(question) => {
                    let order = open.order_of(id);
                    let known = today::seated_in(&open.state, order, record).answers;
                    let given = known.get(&question.key).copied();
                    self.question_view(question, name, given, None)
                }
                None => StepView::titled(String::new()),
            },
            About::Outcome => {
                let order = open.order_of(id);
                let person = today::seated_in(&open.state, order, record);
                self.outcome_of_answers(open, order, &person)
            }
            About::Swallows => {
                let mut view = StepView::titled(named("set-up-swallows"));
                view.body = vec![named("set-up-swallows-body")];
                let choice = |id: &str, key: &str, detail: &str, drawing: &str, chosen| {
                    let mut choice = Choice::new(id, words.say(key), words.say(detail), drawing);
                    choice.chosen = chosen;
                    choice
                };
                let now = record.person.swallows_tablets;
                view.choices = vec![
                    choice(
                        "yes",
                        "set-up-swallows-yes",
                        "set-up-swallows-yes-detail",
                        "whole-tablet",
                        now,
                    ),
                    choice(
                        "no",
                        "set-up-swallows-no",
                        "set-up-swallows-no-detail",
                        "give",
                        !now,
                    ),
                ];
                view
            }
            About::BornEarly => {
                let mut view = StepView::titled(named("set-up-early"));
                view.body = vec![words.say("set-up-early-body")];
                view.choices = self.yes_no_unsure(record.person.born_early);
                view
            }
            About::Reaction => {
                let mut view = StepView::titled(named("reaction-ask"));
                view.picture = Some(picture("allergy-stop"));
                self.reaction_advice(open, &mut view);
                view.choices = vec![
                    Choice::new(
                        "yes",
                        named("reaction-yes"),
                        words.say("reaction-yes-detail"),
                        "",
                    ),
                    Choice::new("no", words.say("reaction-no"), String::new(), ""),
                ];
                view
            }
            About::Stopped => {
                let mut view = StepView::titled(named("stop-title"));
                view.picture = Some(picture("ask-clinician"));
                view.body = vec![
                    words.say_with("stop-body", &[("phone", self.phone(open).as_str().into())]),
                ];
                view.entry = Some(self.who_said_it());
                view.main = Some(self.main_when_named(named("stop-main")));
                view.ways = vec![Link::to("no", words.say("stop-not"))];
                view
            }
            About::Lift => {
                let mut view = StepView::titled(named("lift-title"));
                view.picture = Some(picture("ask-clinician"));
                view.body = vec![
                    words.say_with("lift-body", &[("phone", self.phone(open).as_str().into())]),
                ];
                view.entry = Some(self.who_said_it());
                view.main = Some(self.main_when_named(words.say("lift-main")));
                view.ways = vec![Link::to("no", words.say("lift-not"))];
                view
            }
            About::LeavesWith => {
                let mut view = StepView::titled(named("leaves-tablets"));
                view.picture = Some(picture("bottle-label"));
                view.entry = Some(Entry {
                    fields: vec![number_field(
                        0,
                        words.say("tablets-field"),
                        &self.typing,
                        String::new(),
                    )],
                    pad: Some(self.pad(false)),
                    ..Entry::default()
                });
                view.main = Some(if self.typing.get(0).is_empty() {
                    Button::waiting(named("leaves-yes"))
                } else {
                    Button::ready("next", named("leaves-yes"))
                });
                view.ways = vec![Link::to("uncounted", words.say("tablets-unknown"))];
                view
            }
            About::Leaves => {
                let mut view = StepView::titled(named("leaves-title"));
                view.body = vec![words.say("leaves-body")];
                if let Some(dose) = open.state.last_dose(id) {
                    let time =
                        words.clock_and_day(dose.at, &self.zone(open), self.clock.now().wall);
                    view.body
                        .push(words.say_with("leaves-last", &[("time", time.into())]));
                }
                view.choices = vec![
                    Choice::new(
                        "yes",
                        named("leaves-yes"),
                        words.say("leaves-yes-detail"),
                        "",
                    ),
                    Choice::new("no", words.say("leaves-no"), String::new(), ""),
                ];
                view
            }
        }
    }

    fn who_said_it(&self) -> Entry {
        Entry {
            fields: vec![Field {
                id: "who".to_owned(),
                label: self.words.say("who-said-it"),
                value: self.typed.clone(),
                unit: String::new(),
                spoken: self.words.say("who-said-it"),
                active: true,
                text: true,
                problem: String::new(),
            }],
            ..Entry::default()
        }
    }

    fn main_when_named(&self, label: String) -> Button {
        if self.typed.trim().is_empty() {
            Button::waiting(label)
        } else {
            Button::ready("next", label)
        }
    }

    /// Presses of the people screens; false when the id belongs elsewhere.
    pub(super) fn press_people(&mut self, id: &str, now: &Now) -> bool {
        if id == "join" {
            if let Some(open) = self.open.as_mut() {
                open.set_up = Some(SetUp::joining());
            }
            self.keep_set_up();
            self.go(Place::SetUp);
            return true;
        }
        if let Place::About(person, about) = self.place {
            return self.answer_about(person, about, id, now);
        }
        let Some((what, person)) = id.rsplit_once(':') else {
            return false;
        };
        let Some(person) = person.parse().ok().map(PersonId) else {
            return false;
        };
        let about = match what {
            "person" => {
                self.go(Place::Reading(Reading::Person(person)));
                return true;
            }
            "weigh" => {
                let name = self
                    .open
                    .as_ref()
                    .map(|open| self.name_of(open, person))
                    .unwrap_or_default();
                self.begin_weighing(Some(person), &name, false);
                return true;
            }
            "swallows" => About::Swallows,
            "early" => About::BornEarly,
            "reacts" => About::Reaction,
            "leaves" => About::Leaves,
            "stop" => About::Stopped,
            "lift" => About::Lift,
            other => {
                let index = |start| {
                    let rest: Option<&str> = other.strip_prefix(start);
                    rest.and_then(|index| index.parse().ok())
                };
                match (index("answer:"), index("follow:")) {
                    (Some(index), _) => About::Question(index),
                    (_, Some(index)) => About::Follow(index),
                    _ => return false,
                }
            }
        };
        self.typed.clear();
        self.go(Place::About(person, about));
        true
    }

    fn answer_about(&mut self, person: PersonId, about: About, id: &str, now: &Now) -> bool {
        if about == About::LeavesWith && self.typing.press(id) {
            return true;
        }
        if let About::Follow(index) = about {
            return self.answer_follow(person, index, id, now);
        }
        let day = self.day(now);
        let Some(open) = &self.open else { return false };
        let Some(record) = open.state.people.get(&person) else {
            return false;
        };
        let by = self.typed.trim().to_owned();
        let events = match (about, id) {
            (About::Question(index), answer) => {
                let (Some(answer), Some(question)) = (
                    super::setup::answer_of(answer),
                    open.order_of(person).questions.get(index),
                ) else {
                    return false;
                };
                vec![Event::Answered {
                    person,
                    order: open.order_of(person).id.clone(),
                    key: question.key.clone(),
                    answer,
                }]
            }
            (About::Swallows, "yes" | "no") => vec![Event::PersonSet(PersonWords {
                swallows_tablets: id == "yes",
                ..words_of(person, &record.person)
            })],
            (About::BornEarly, answer) => {
                let Some(answer) = super::setup::answer_of(answer) else {
                    return false;
                };
                vec![Event::PersonSet(PersonWords {
                    born_early: Some(answer),
                    ..words_of(person, &record.person)
                })]
            }
            (About::Reaction, "yes") => vec![Event::Reaction {
                person,
                lot: None,
                words: String::new(),
            }],
            (About::Stopped, "next") if !by.is_empty() => vec![Event::MedicineStopped {
                person,
                by,
                reason: String::new(),
            }],
            (About::Lift, "next") if !by.is_empty() => self
                .holds(open, person, day)
                .into_iter()
                .map(|key| Event::HoldLifted {
                    person,
                    key,
                    by: by.clone(),
                    reason: String::new(),
                })
                .collect(),
            (About::Leaves, "yes") => {
                self.typing = Typing::of(&[4]);
                self.place = Place::About(person, About::LeavesWith);
                return true;
            }
            (About::LeavesWith, "next" | "uncounted") => vec![Event::PersonLeft {
                person,
                tablets: self.typing.get(0).parse().unwrap_or(0),
            }],
            (About::Reaction | About::Leaves | About::Stopped | About::Lift, "no")
            | (About::Outcome, "next") => {
                self.back();
                return true;
            }
            _ => return false,
        };
        let asked = matches!(about, About::Question(_));
        if !self.record(now, events) {
            return true;
        }
        self.back();
        if about == About::LeavesWith {
            // The page of somebody who left has nothing to say any more.
            self.back();
        }
        if asked && self.answers_matter(person) {
            self.go(Place::About(person, About::Outcome));
        }
        true
    }

    fn answers_matter(&self, person: PersonId) -> bool {
        let Some(open) = &self.open else { return false };
        open.state.people.get(&person).is_some_and(|record| {
            let order = open.order_of(person);
            let answered = today::seated_in(&open.state, order, record);
            !screening::answers(order, &answered).is_empty()
        })
    }
}
