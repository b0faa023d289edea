//! What was given: the record by days, and putting a wrong line right.
//!
//! Nothing is ever erased by a correction: the first entry stays in the record beneath it.

use hearthdose_core::prep::{Outcome, StepEvent};
use hearthdose_core::record::{DoseRecord, Event, Fact, FactId, put_right};
use hearthdose_core::time::Now;

use super::make::{heading, paragraph};
use super::press::outcome_of;
use super::view::{Block, Choice, Link, Note, ReadingView, StepView};
use super::{Kitchen, Open, Place};
use crate::text::Measure;

impl Kitchen {
    pub(super) fn record_reading(&self, open: &Open) -> ReadingView {
        let words = &self.words;
        let zone = self.zone(open);
        let mut view = ReadingView::titled(words.say("record-title"));
        if open.state.doses.is_empty() {
            view.blocks.push(paragraph(words.say("record-empty")));
        } else {
            view.lead = words.say("record-lead");
        }
        for (person, _) in &open.state.doubled {
            let name = self.name_of(open, *person);
            let values = [("name", name.into()), ("phone", self.phone(open).into())];
            view.blocks.push(Block::Note(Note::new(
                words.say_with("doubled-title", &values),
                words.say_with("doubled-body", &values),
                None,
            )));
        }
        for conflict in &open.state.conflicts {
            view.blocks.push(Block::Note(Note::new(
                words.say("conflict-title"),
                words.say("conflict-body"),
                None,
            )));
            view.blocks.push(Block::Action {
                id: format!("settle:{}", conflict.target.0),
                label: words.say("conflict-settle"),
                detail: String::new(),
            });
        }
        let mut day = None;
        for record in open.state.doses.iter().rev() {
            let date = zone.to_datetime(record.at).date();
            if day != Some(date) {
                day = Some(date);
                view.blocks.push(heading(words.date(date)));
            }
            let values = [
                ("name", self.name_of(open, record.person).into()),
                ("time", words.clock(record.at, &zone).into()),
            ];
            let outcome = self.outcome_words(record.outcome, record.short);
            let corrected = if is_corrected(&open.facts, record.fact) {
                words.say("record-corrected")
            } else {
                String::new()
            };
            view.blocks.push(Block::Action {
                id: format!("correct:{}", record.fact.0),
                label: words.say_with("record-line", &values),
                detail: [self.amount_of(record), outcome, corrected]
                    .into_iter()
                    .filter(|part| !part.is_empty())
                    .collect::<Vec<_>>()
                    .join(" · "),
            });
        }
        for record in open.state.people.values().filter(|p| p.is_stopped()) {
            let values = [("name", record.person.name.as_str().into())];
            view.blocks
                .push(paragraph(words.say_with("record-stopped", &values)));
        }
        view
    }

    fn amount_of(&self, record: &DoseRecord) -> String {
        match record.tablets {
            Some(count) => self
                .words
                .say_with("amount-tablets", &[("count", count.into())]),
            None => self.words.volume(record.amount, Measure::Spoon),
        }
    }

    /// "What is right for Bram, 8:12 p.m.?"
    pub(super) fn correct_view(&self, open: &Open, fact: FactId) -> StepView {
        let words = &self.words;
        let zone = self.zone(open);
        let Some(record) = open.state.doses.iter().find(|dose| dose.fact == fact) else {
            return StepView::titled(words.say("record-title"));
        };
        let values = [
            ("name", self.name_of(open, record.person).into()),
            (
                "time",
                words
                    .clock_and_day(record.at, &zone, self.clock.now().wall)
                    .into(),
            ),
        ];
        let mut view = StepView::titled(words.say_with("correct-title", &values));
        view.body = vec![words.say("correct-body")];
        view.choices = self.outcome_choices(record.tablets.is_some());
        for choice in &mut view.choices {
            choice.main = false;
            choice.chosen = outcome_of(&choice.id) == Some(record.outcome);
        }
        view.choices.push(Choice::new(
            "not-given",
            words.say("correct-not-given"),
            words.say("correct-not-given-detail"),
            "table-clean",
        ));
        view.ways = vec![Link::to("correct-nothing", words.say("correct-nothing"))];
        view
    }

    /// Presses of the record; false when the id belongs elsewhere.
    pub(super) fn press_history(&mut self, id: &str, now: &Now) -> bool {
        let fact = |id: &str| id.parse().ok().map(FactId);
        if let Some(fact) = id.strip_prefix("correct:").and_then(fact) {
            self.go(Place::Correct(fact));
            return true;
        }
        if let Some(fact) = id.strip_prefix("settle:").and_then(fact) {
            self.go(Place::Correct(fact));
            return true;
        }
        let Place::Correct(fact) = self.place else {
            return false;
        };
        let outcome = match id {
            "correct-nothing" => {
                self.back();
                return true;
            }
            // Nothing was swallowed: that is all the rules ask.
            "not-given" => Some(Outcome::WouldNotTake),
            other => outcome_of(other),
        };
        let Some(outcome) = outcome else { return false };
        let events = self.correction(fact, outcome);
        if self.record(now, events) {
            self.back();
        }
        true
    }

    /// The correction, or for a contested line one for each of the corrections that contradict each other.
    fn correction(&self, fact: FactId, outcome: Outcome) -> Vec<Event> {
        let Some(open) = &self.open else {
            return Vec::new();
        };
        let Some(record) = open.state.doses.iter().find(|dose| dose.fact == fact) else {
            return Vec::new();
        };
        let event = Event::Step {
            round: record.round,
            event: StepEvent::Outcome {
                person: record.person,
                outcome,
            },
        };
        put_right(&open.facts, fact, Some(&event), None)
    }
}

fn is_corrected(facts: &[Fact], fact: FactId) -> bool {
    facts
        .iter()
        .any(|other| matches!(&other.event, Event::Correction { target, .. } if *target == fact))
}
