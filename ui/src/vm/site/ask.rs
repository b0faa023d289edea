//! One thing about one person: an answer, a weight, a hold that the lead lifts.

use super::line::text_field;
use super::{Site, Spot};
use crate::vm::Kitchen;
use crate::vm::make::picture;
use crate::vm::view::{Button, Choice, Entry, Link, StepView};
use hearthdose_core::exchange::is_private;
use hearthdose_core::order::ContactKind;

impl Kitchen {
    pub(super) fn desk_ask_view(&self, site: &Site, id: u16, key: &str) -> StepView {
        let words = &self.words;
        let name = site
            .found
            .as_ref()
            .map_or_else(String::new, |found| self.named(found, id));
        let question = site
            .order
            .iter()
            .flat_map(|order| &order.questions)
            .find(|question| question.key == key);
        let given = self.answer_on_record(site, id, key);
        let title = question.map_or_else(String::new, |question| {
            words.of_order_about(&question.ask, &name)
        });
        let mut view = StepView::titled(title);
        if is_private(key) {
            view.body = vec![words.say("desk-ask-aside")];
        }
        view.choices = ["no", "yes", "unsure"]
            .iter()
            .map(|answer| {
                let title = words.say(answer);
                let chosen = title == given;
                let id = format!("answer:{answer}");
                Choice {
                    chosen,
                    ..Choice::new(&id, title, String::new(), "")
                }
            })
            .collect();
        view
    }

    pub(super) fn lift_view(&self, site: &Site, id: u16, key: &str) -> StepView {
        let words = &self.words;
        let found = site.found.as_ref();
        let name = found.map_or_else(String::new, |found| self.named(found, id));
        let mut view =
            StepView::titled(words.say_with("desk-lift-title", &[("name", name.as_str().into())]));
        view.small_picture = Some(picture("ask-clinician"));
        let shown =
            found.and_then(|found| found.serving.people.iter().find(|shown| shown.id == id));
        let reasons = shown
            .and_then(|shown| shown.dose.as_ref().err())
            .into_iter()
            .flatten();
        let here: Vec<_> = reasons
            .filter(|reason| reason.question.as_deref().unwrap_or(reason.code) == key)
            .cloned()
            .collect();
        // What holds stands beside who may lift it, and the number to ask.
        let question = site
            .order
            .iter()
            .flat_map(|order| &order.questions)
            .find(|question| question.key == key);
        if let Some(question) = question {
            let asked = words.of_order_about(&question.ask, &name);
            let answer = self.answer_on_record(site, id, key);
            view.body.push(format!("{asked} {answer}."));
        }
        view.body.push(words.reasons(&name, &here));
        let phone = site.questions_phone();
        if !phone.is_empty() {
            let values = [("phone", phone.into())];
            view.body.push(words.say_with("reason-call", &values));
        }
        view.body.push(words.say("desk-lift-body"));
        view.entry = Some(Entry {
            fields: vec![text_field(
                "reason",
                words.say("lead-field"),
                site.typed("reason"),
                true,
            )],
            ..Entry::default()
        });
        let label = words.say_with("desk-lift-main", &[("name", name.into())]);
        view.main = Some(Button {
            label,
            ..self.when_typed(site, "reason", "lifted", "lead-main")
        });
        view
    }

    /// What is known of one answer, as it is shown to whom it concerns.
    fn answer_on_record(&self, site: &Site, id: u16, key: &str) -> String {
        let found = site.found.as_ref();
        let people = found.into_iter().flat_map(|found| &found.serving.people);
        let shown = people.into_iter().find(|shown| shown.id == id);
        match (shown, &site.order) {
            (Some(shown), Some(order)) => self.answer_at_desk(found, shown, order, key),
            _ => String::new(),
        }
    }

    /// Why the lead lets a hand-out pass.
    pub(super) fn lead_view(&self, site: &Site) -> StepView {
        let words = &self.words;
        let mut view = StepView::titled(words.say("lead-title"));
        view.small_picture = Some(picture("ask-clinician"));
        if let Some(found) = &site.found {
            view.body = found
                .serving
                .for_lead
                .iter()
                .map(|why| self.for_lead_words(why))
                .collect();
        }
        view.body.push(words.say("lead-body"));
        view.entry = Some(Entry {
            fields: vec![text_field(
                "reason",
                words.say("lead-field"),
                site.typed("reason"),
                true,
            )],
            ..Entry::default()
        });
        view.main = Some(self.when_typed(site, "reason", "give", "lead-main"));
        view.ways = vec![Link::to("line", words.say("lead-no"))];
        view
    }

    pub(super) fn when_typed(&self, site: &Site, field: &str, id: &str, key: &str) -> Button {
        let label = self.words.say(key);
        match site.typed(field).is_empty() {
            true => Button::waiting(label),
            false => Button::ready(id, label),
        }
    }
}

impl Site {
    /// The number for questions; every order that may be worked by has one.
    pub(super) fn questions_phone(&self) -> &str {
        let mut contacts = self.order.iter().flat_map(|order| &order.contacts);
        let nurse = contacts.find(|contact| contact.kind == ContactKind::Questions);
        nurse.map_or("", |nurse| nurse.phone.as_str())
    }

    pub(super) fn is_at_lead(&self) -> bool {
        self.spot == Spot::Lead
    }
}
