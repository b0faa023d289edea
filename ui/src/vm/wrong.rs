//! "Something went wrong", on every step: what was it, and what now.

use hearthdose_core::prep::{BowlId, Brew, Prep, Stage, StepEvent, TakeStep, Wrong};
use hearthdose_core::time::Now;

use super::view::{Choice, StepView};
use super::{Kitchen, Open};

impl Kitchen {
    pub(super) fn wrong_view(&self, open: &Open, now: &Now) -> StepView {
        let words = &self.words;
        let mut view = StepView::titled(words.say("wrong-title"));
        view.body = vec![words.say("wrong-body")];
        let Some(round) = open.round() else {
            return view;
        };
        for brew in round.prep.bowls.iter().filter(|brew| brew.is_open()) {
            let values = [("number", brew.bowl.number.to_string().into())];
            let id = format!("bowl-lost:{}", brew.bowl.id.0);
            view.choices.push(Choice::new(
                &id,
                words.say_with("wrong-bowl", &values),
                words.say("wrong-bowl-detail"),
                "spilled-bowl",
            ));
        }
        if let Stage::WholeTablet { person } = round.prep.stage(now) {
            let values = [("name", self.name_of(open, person).into())];
            view.choices.push(Choice::new(
                "dose-dropped",
                words.say_with("wrong-tablet", &values),
                words.say("wrong-tablet-detail"),
                "dropped-dose",
            ));
        }
        if let Some((name, step)) = self.dose_in_hand(&round.prep, now) {
            let values = [("name", name.into())];
            if step != TakeStep::ToMeasure {
                let detail = words.say_with("wrong-dose-detail", &values);
                view.choices.push(Choice::new(
                    "dose-dropped",
                    words.say_with("wrong-dose", &values),
                    detail,
                    "dropped-dose",
                ));
            }
            if step <= TakeStep::Measured {
                let detail = words.say("wrong-short-detail");
                view.choices.push(Choice::new(
                    "ran-short",
                    words.say_with("wrong-short", &values),
                    detail,
                    "ran-short",
                ));
            }
        }
        view
    }

    /// Whose dose is being dealt with, and how far it is.
    fn dose_in_hand(&self, prep: &Prep, now: &Now) -> Option<(String, TakeStep)> {
        let person = match prep.stage(now) {
            Stage::Measure { person, .. }
            | Stage::Food { person }
            | Stage::Give { person }
            | Stage::AskOutcome { person } => person,
            _ => return None,
        };
        let taking =
            super::round::taking(prep, person).filter(|taking| taking.take.bowl.is_some())?;
        Some((taking.take.name.clone(), taking.step))
    }

    /// The event for an answer of that screen.
    pub(super) fn wrong_event(&mut self, id: &str, now: &Now) -> Option<StepEvent> {
        let instead = BowlId(self.ids.fresh());
        let prep = &self.open.as_ref()?.round()?.prep;
        let person = match prep.stage(now) {
            Stage::Measure { person, .. }
            | Stage::Food { person }
            | Stage::Give { person }
            | Stage::WholeTablet { person }
            | Stage::AskOutcome { person } => Some(person),
            _ => None,
        };
        let what = match (id.split_once(':'), id, person) {
            (Some(("bowl-lost", bowl)), _, _) => {
                let bowl = BowlId(bowl.parse().ok()?);
                let known = prep.bowls.iter().any(|brew: &Brew| brew.bowl.id == bowl);
                known.then_some(Wrong::BowlLost { bowl, instead })?
            }
            (_, "dose-dropped", Some(person)) => Wrong::DoseDropped { person, instead },
            (_, "ran-short", Some(person)) => Wrong::RanShort { person },
            _ => return None,
        };
        Some(StepEvent::WentWrong { what })
    }
}
