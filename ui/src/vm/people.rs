//! The people of the home: what each has, and what may change any day.

use hearthdose_core::dose;
use hearthdose_core::household::{Answer, KnownAge, Person};
use hearthdose_core::prep::PersonId;
use hearthdose_core::record::{PersonRecord, PersonWords, Stop, VOMITED_TWICE};
use hearthdose_core::screening::{self, ReasonKind};
use hearthdose_core::time::Now;
use hearthdose_core::today::{self, AskWeight};

use jiff::civil::Date;

use super::make::heading;
use super::setup::BABY;
use super::view::{Block, Link, Note, ReadingView};
use super::{Kitchen, Open};
use crate::text::Measure;

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
        view.ways = vec![
            Link::to("show-code", words.say("shelf-code")),
            Link::to("homes", words.say("other-homes")),
        ];
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
            return (self.stop_words(record), true);
        }
        if open.state.hold_after(id) {
            return (words.say("row-hold"), true);
        }
        let order = open.order_of(id);
        let seated = today::seated_in(&open.state, order, record);
        match dose::work_out(order, &seated, self.day(now)) {
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
        let order = open.order_of(id);
        let person = &today::seated_in(&open.state, order, record);
        let mut view = ReadingView::titled(person.name.clone());
        view.lead = self.age_words(person);
        let day = self.day(now);
        let (line, held) = self.person_dose(open, id, record, now);
        if held {
            let worked = dose::work_out(order, person, day);
            let body = match &worked {
                Err(reasons) => self.reasons_words(open, &person.name, reasons),
                Ok(_) => words.say_with(
                    "reason-call",
                    &[("phone", self.phone(open).as_str().into())],
                ),
            };
            let stops = worked.as_ref().is_err_and(|reasons| {
                let worst = reasons.iter().map(|reason| reason.kind).max();
                worst == Some(ReasonKind::Stop)
            });
            // The overturned bowl says "ask a nurse first", and nothing else.
            let drawing = if stops { "allergy-stop" } else { "hold" };
            view.blocks
                .push(Block::Note(Note::new(line, body, Some(drawing))));
        } else {
            view.blocks.extend(self.doses_of(open, id, record, day));
        }
        if let Some(note) = self.weight_note(open, record, now) {
            view.blocks.push(Block::Note(note));
        }
        if person.weight().is_some() || dose::needs_weight(order, person, day) {
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
        if person.age_on(day).is_some_and(|age| !age.reached(BABY)) {
            let answer = person.born_early.map(|answer| self.answer_words(answer));
            view.blocks.push(action(
                &format!("early:{}", id.0),
                words.say_with("set-up-early", &[("name", person.name.as_str().into())]),
                answer.unwrap_or_else(|| words.say("not-answered")),
            ));
        }
        if !order.questions.is_empty() {
            view.blocks.push(heading(words.say("person-answers")));
        }
        for (index, question) in order.questions.iter().enumerate() {
            let answer = match person.answers.get(&question.key) {
                Some(answer) => self.answer_words(*answer),
                None if person.cleared => words.say("answered-elsewhere"),
                None => words.say("not-answered"),
            };
            view.blocks.push(action(
                &format!("answer:{index}:{}", id.0),
                words.of_order_about(&question.ask, &person.name),
                answer,
            ));
        }
        for (index, label) in self.follow_actions(open, id) {
            let detail = words.say("person-follow-detail");
            view.blocks
                .push(action(&format!("follow:{index}:{}", id.0), label, detail));
        }
        view.blocks.push(heading(words.say("person-changes")));
        if !self.holds(open, id, day).is_empty() {
            view.blocks.push(action(
                &format!("lift:{}", id.0),
                words.say("person-lift"),
                words.say("person-lift-detail"),
            ));
        }
        if !record.is_stopped() {
            view.blocks.push(action(
                &format!("reacts:{}", id.0),
                words.say("person-reaction"),
                words.say("reactions-yes-detail"),
            ));
            view.blocks.push(action(
                &format!("stop:{}", id.0),
                words.say("person-stop"),
                words.say("person-stop-detail"),
            ));
        }
        view.blocks.push(action(
            &format!("leaves:{}", id.0),
            words.say("person-leaves"),
            words.say("person-leaves-detail"),
        ));
        view
    }

    /// What this person takes, a line for each order followed.
    fn doses_of(&self, open: &Open, id: PersonId, record: &PersonRecord, day: Date) -> Vec<Block> {
        let words = &self.words;
        let orders = open.orders();
        let followed = orders
            .iter()
            .filter(|order| open.state.follows(id, &order.id));
        followed
            .filter_map(|order| {
                let seated = today::seated_in(&open.state, order, record);
                let dose = dose::work_out(order, &seated, day).ok()?;
                let amount = words.dose_words(dose.form, dose.amount, dose.tablets, Measure::Spoon);
                let label = if orders.len() == 1 {
                    amount
                } else {
                    format!("{}: {amount}", self.medicine_of(order))
                };
                Some(action(
                    &format!("why:{}", id.0),
                    label,
                    words.say("why-this-much"),
                ))
            })
            .collect()
    }

    /// What stopped this person's medicine.
    pub(super) fn stop_words(&self, record: &PersonRecord) -> String {
        self.words.say(if record.stops.contains(&Stop::Reaction) {
            "row-stopped"
        } else {
            "row-stopped-nurse"
        })
    }

    /// Keys of everything that only a clinician can lift for this person.
    pub(super) fn holds(&self, open: &Open, id: PersonId, day: Date) -> Vec<String> {
        let Some(record) = open.state.people.get(&id) else {
            return Vec::new();
        };
        let mut keys: Vec<String> = record
            .stops
            .iter()
            .map(|stop| stop.key().to_owned())
            .collect();
        if open.state.hold_after(id) {
            keys.push(VOMITED_TWICE.to_owned());
        }
        let order = open.order_of(id);
        let person = today::seated_in(&open.state, order, record);
        let reasons = screening::evaluate(order, &person, day)
            .err()
            .unwrap_or_default();
        for reason in reasons.iter().filter(|r| r.kind == ReasonKind::Hold) {
            match (&reason.question, reason.code) {
                (Some(question), _) => keys.push(question.clone()),
                (None, code @ ("born-early" | "implausible-weight")) => keys.push(code.to_owned()),
                // Too young or too light for the chart: no word of a nurse makes a line for them.
                (None, _) => {}
            }
        }
        keys
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
