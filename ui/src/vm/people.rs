//! The people of the home: what each has, and what may change any day.

use hearthdose_core::dose;
use hearthdose_core::household::{Answer, KnownAge, Person};
use hearthdose_core::prep::PersonId;
use hearthdose_core::record::{Event, PersonRecord, PersonWords};
use hearthdose_core::time::Now;
use hearthdose_core::today::{self, AskWeight};

use super::make::{heading, picture};
use super::setup::SetUp;
use super::view::{Block, Choice, Link, Note, ReadingView, StepView};
use super::{Kitchen, Open, Place, Reading};
use crate::text::Measure;

/// One thing about a person that is asked on a screen of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum About {
    /// By place in the order's list of questions.
    Question(usize),
    Swallows,
    Reaction,
    Leaves,
    /// What the answers mean now.
    Outcome,
}

impl Kitchen {
    pub(super) fn people_reading(&self, open: &Open, now: &Now) -> ReadingView {
        let words = &self.words;
        let mut view = ReadingView::titled(words.say("people-title"));
        for (id, record) in open.state.people() {
            let (detail, _) = self.person_dose(open, id, record, now);
            view.blocks.push(action(
                &format!("person:{}", id.0),
                record.person.name.clone(),
                detail,
            ));
        }
        view.blocks.push(Block::Action {
            id: "join".to_owned(),
            label: words.say("person-join"),
            detail: words.say("person-join-detail"),
        });
        view.ways = vec![Link::to("homes", words.say("other-homes"))];
        view
    }

    /// The person's dose in words, or that there is none and why; and whether there is none.
    fn person_dose(
        &self,
        open: &Open,
        id: PersonId,
        record: &PersonRecord,
        now: &Now,
    ) -> (String, bool) {
        let words = &self.words;
        if record.is_stopped() {
            return (words.say("row-stopped"), true);
        }
        if open.state.hold_after(id) {
            return (words.say("row-hold"), true);
        }
        let seated = today::seated(&open.order, record);
        match dose::work_out(&open.order, &seated, self.day(now)) {
            Ok(dose) => {
                let amount = words.dose_words(dose.form, dose.amount, dose.tablets, Measure::Spoon);
                (amount, false)
            }
            Err(reasons) => (self.reasons_short(&reasons), true),
        }
    }

    pub(super) fn person_reading(&self, open: &Open, id: PersonId, now: &Now) -> ReadingView {
        let words = &self.words;
        let Some(record) = open.state.people.get(&id) else {
            return ReadingView::titled(words.say("people-title"));
        };
        let person = &record.person;
        let mut view = ReadingView::titled(person.name.clone());
        view.lead = self.age_words(person);
        let day = self.day(now);
        let worked = dose::work_out(&open.order, person, day);
        let (line, held) = self.person_dose(open, id, record, now);
        if held {
            let body = match &worked {
                Err(reasons) => self.reasons_words(open, reasons),
                Ok(_) => words.say_with(
                    "reason-call",
                    &[("phone", self.phone(open).as_str().into())],
                ),
            };
            view.blocks
                .push(Block::Note(Note::new(line, body, Some("hold"))));
        } else {
            view.blocks.push(action(
                &format!("why:{}", id.0),
                line,
                words.say("why-this-much"),
            ));
        }
        if let Some(note) = self.weight_note(open, record, now) {
            view.blocks.push(Block::Note(note));
        }
        if person.weight().is_some() || dose::needs_weight(&open.order, person, day) {
            let weight = self.weight_words(person);
            view.blocks.push(action(
                &format!("weigh:{}", id.0),
                words.say_with("weigh-person", &[("name", person.name.as_str().into())]),
                weight,
            ));
        }
        view.blocks.push(action(
            &format!("swallows:{}", id.0),
            words.say("person-swallows"),
            words.say(if person.swallows_tablets { "yes" } else { "no" }),
        ));
        if !open.order.questions.is_empty() {
            view.blocks.push(heading(words.say("person-answers")));
        }
        for (index, question) in open.order.questions.iter().enumerate() {
            let answer = match person.answers.get(&question.key) {
                Some(answer) => self.answer_words(*answer),
                None if person.cleared => words.say("answered-elsewhere"),
                None => words.say("not-answered"),
            };
            view.blocks.push(action(
                &format!("answer:{index}:{}", id.0),
                words.of_order(&question.ask).0.to_owned(),
                answer,
            ));
        }
        view.blocks.push(heading(words.say("person-changes")));
        if !record.is_stopped() {
            view.blocks.push(action(
                &format!("reacts:{}", id.0),
                words.say("person-reaction"),
                words.say("reactions-yes-detail"),
            ));
        }
        view.blocks.push(action(
            &format!("leaves:{}", id.0),
            words.say("person-leaves"),
            words.say("person-leaves-detail"),
        ));
        view
    }

    /// Why somebody should be weighed again; the dose goes on by the last weight until then.
    fn weight_note(&self, open: &Open, record: &PersonRecord, now: &Now) -> Option<Note> {
        let words = &self.words;
        let reasons = today::ask_weight(&open.order, record, self.day(now));
        let reason = match reasons.first()? {
            AskWeight::DayUnknown => words.say("weight-no-day"),
            AskWeight::Old { days, .. } => {
                words.say_with("weight-old", &[("days", (*days).into())])
            }
            AskWeight::MayHaveGrown { .. } => words.say("weight-grown"),
            AskWeight::NearEdge { .. } => words.say("weight-edge"),
            AskWeight::LostALittle { before } => {
                words.say_with("weight-lost", &[("weight", before.typed().into())])
            }
        };
        let values = [("name", record.person.name.as_str().into())];
        Some(Note::new(
            words.say_with("weight-again", &values),
            format!("{reason} {}", words.say("weight-until-then")),
            None,
        ))
    }

    /// Those who should be weighed again, in one line for today.
    pub(super) fn weigh_again_note(&self, open: &Open, now: &Now) -> Option<Note> {
        let day = self.day(now);
        let names: Vec<String> = open
            .state
            .people()
            .filter(|(_, record)| !today::ask_weight(&open.order, record, day).is_empty())
            .map(|(_, record)| record.person.name.clone())
            .collect();
        if names.is_empty() {
            return None;
        }
        let values = [("name", self.words.list(&names).into())];
        Some(Note::new(
            self.words.say_with("weight-again", &values),
            self.words.say("weight-until-then"),
            None,
        ))
    }

    /// A question about one person, or what their answers come to.
    pub(super) fn about_view(&self, open: &Open, id: PersonId, about: About) -> StepView {
        let words = &self.words;
        let Some(record) = open.state.people.get(&id) else {
            return StepView::titled(words.say("people-title"));
        };
        let name = record.person.name.as_str();
        let named = |key: &str| words.say_with(key, &[("name", name.into())]);
        match about {
            About::Question(index) => match open.order.questions.get(index) {
                Some(question) => {
                    let given = record.person.answers.get(&question.key).copied();
                    self.question_view(question, name, given, None)
                }
                None => StepView::titled(String::new()),
            },
            About::Outcome => self.outcome_of_answers(open, &record.person),
            About::Swallows => {
                let mut view = StepView::titled(named("set-up-swallows"));
                view.body = vec![words.say("set-up-swallows-body")];
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
            About::Reaction => {
                let mut view = StepView::titled(
                    words.say_with("reaction-stop-title", &[("names", name.into())]),
                );
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
            "reacts" => About::Reaction,
            "leaves" => About::Leaves,
            other => match other.strip_prefix("answer:").map(str::parse) {
                Some(Ok(index)) => About::Question(index),
                _ => return false,
            },
        };
        self.go(Place::About(person, about));
        true
    }

    fn answer_about(&mut self, person: PersonId, about: About, id: &str, now: &Now) -> bool {
        let Some(open) = &self.open else { return false };
        let Some(record) = open.state.people.get(&person) else {
            return false;
        };
        let event = match (about, id) {
            (About::Question(index), answer) => {
                let (Some(answer), Some(question)) = (
                    super::setup::answer_of(answer),
                    open.order.questions.get(index),
                ) else {
                    return false;
                };
                Event::Answered {
                    person,
                    order: open.order.id.clone(),
                    key: question.key.clone(),
                    answer,
                }
            }
            (About::Swallows, "yes" | "no") => Event::PersonSet(PersonWords {
                swallows_tablets: id == "yes",
                ..words_of(person, &record.person)
            }),
            (About::Reaction, "yes") => Event::Reaction {
                person,
                lot: None,
                words: String::new(),
            },
            (About::Leaves, "yes") => Event::PersonLeft { person, tablets: 0 },
            (About::Reaction | About::Leaves, "no") | (About::Outcome, "next") => {
                self.back();
                return true;
            }
            _ => return false,
        };
        let asked = matches!(about, About::Question(_));
        if !self.record(now, vec![event]) {
            return true;
        }
        self.back();
        if about == About::Leaves {
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
            !hearthdose_core::screening::answers(&open.order, &record.person).is_empty()
        })
    }

    /// "Adult", "Born July 19, 2028", "3 y 2 mo".
    fn age_words(&self, person: &Person) -> String {
        match person.age {
            Some(KnownAge::Born(born)) => {
                let date = self.long_date(born);
                self.words.say_with("person-born", &[("date", date.into())])
            }
            Some(KnownAge::Told(span)) => span.to_string(),
            Some(KnownAge::Adult) => self.words.say("person-adult"),
            None => self.words.say("person-age-unknown"),
        }
    }

    pub(super) fn answer_words(&self, answer: Answer) -> String {
        self.words.say(match answer {
            Answer::Yes => "yes",
            Answer::No => "no",
            Answer::Unsure => "unsure",
        })
    }

    pub(super) fn weight_words(&self, person: &Person) -> String {
        let Some(weighing) = &person.weighing else {
            return self.words.say("no-weight");
        };
        let weight = weighing.weight.typed().to_owned();
        match weighing.on {
            Some(on) => {
                let values = [
                    ("weight", weight.into()),
                    ("date", self.words.date(on).into()),
                ];
                self.words.say_with("weight-on", &values)
            }
            None => weight,
        }
    }

    /// One line about a person who was entered: the weight, or that there is none yet.
    pub(super) fn person_line(&self, open: &Open, person: &Person) -> String {
        let day = self.day(&self.clock.now());
        match dose::work_out(&open.order, person, day) {
            Ok(dose) => self
                .words
                .dose_words(dose.form, dose.amount, dose.tablets, Measure::Spoon),
            Err(reasons) => self.reasons_short(&reasons),
        }
    }
}

fn action(id: &str, label: String, detail: String) -> Block {
    Block::Action {
        id: id.to_owned(),
        label,
        detail,
    }
}

/// A person as the record writes them, to be written again with one thing changed.
pub(super) fn words_of(id: PersonId, person: &Person) -> PersonWords {
    use hearthdose_core::growth::Sex;
    PersonWords {
        person: id,
        name: person.name.clone(),
        born: match person.age {
            Some(KnownAge::Born(born)) => Some(born),
            _ => None,
        },
        told_age: match person.age {
            Some(KnownAge::Told(span)) => Some(span.to_string()),
            _ => None,
        },
        adult: person.age == Some(KnownAge::Adult),
        sex: person.sex.map(|sex| match sex {
            Sex::Female => "f".to_owned(),
            Sex::Male => "m".to_owned(),
        }),
        swallows_tablets: person.swallows_tablets,
        born_early: person.born_early,
        food_allergies: person.food_allergies.clone(),
        starts: person.starts,
        screened: person.cleared,
    }
}
