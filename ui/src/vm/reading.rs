//! Words to read: cautions and numbers, the order, the record, the people, why this much.

use hearthdose_core::dose;
use hearthdose_core::order::{CautionKind, CheckedOrder, ContactKind};
use hearthdose_core::prep::PersonId;
use hearthdose_core::screening::Reason;
use hearthdose_core::time::Now;

use super::make::{heading, paragraph, picture};
use super::view::{Block, Link, Note, ReadingView};
use super::{Kitchen, Open, Reading};
use crate::text::Measure;

impl Kitchen {
    pub(super) fn reading_view(&self, reading: Reading, now: &Now) -> ReadingView {
        match (reading, &self.open) {
            (Reading::Paper(index), _) => self.paper_reading(index),
            (Reading::Code, _) => self.code_reading(),
            (Reading::Homes, _) => self.homes_reading(),
            (Reading::Settings, _) => self.settings_reading(),
            (Reading::About, _) | (_, None) => self.about_reading(),
            (Reading::Help, Some(open)) => {
                let mut view = self.help_reading(&open.order);
                view.ways
                    .insert(0, Link::to("order", self.words.say("shelf-order")));
                view.ways.push(Link::to("about", self.words.say("about")));
                view.ways.extend(self.practice_ways(open));
                view
            }
            (Reading::Order, Some(open)) => self.order_reading(open),
            (Reading::Record, Some(open)) => self.record_reading(open),
            (Reading::People, Some(open)) => self.people_reading(open, now),
            (Reading::Person(id), Some(open)) => self.person_reading(open, id, now),
            (Reading::Ahead, Some(open)) => self.ahead_reading(open, now),
            (Reading::Why(person), Some(open)) => self.why_reading(open, person, now),
        }
    }

    /// Cautions, numbers, and how one likes to read.
    pub(super) fn help_reading(&self, order: &CheckedOrder) -> ReadingView {
        let words = &self.words;
        let mut view = ReadingView::titled(words.say("help-title"));
        for caution in order
            .cautions
            .iter()
            .filter(|c| c.kind == CautionKind::Emergency)
        {
            let phone = order
                .contacts
                .iter()
                .find(|contact| contact.kind == ContactKind::Emergency)
                .map_or("", |contact| contact.phone.as_str());
            let title = words.say_with("call-emergency", &[("phone", phone.into())]);
            view.blocks.push(Block::Note(Note::new(
                title,
                words.of_order(&caution.text).to_owned(),
                Some("allergy-stop"),
            )));
        }
        view.blocks.push(heading(words.say("help-numbers")));
        for contact in &order.contacts {
            let kind = words.say(match contact.kind {
                ContactKind::Emergency => "contact-emergency",
                ContactKind::Poison => "contact-poison",
                ContactKind::Questions => "contact-questions",
                ContactKind::Refill => "contact-refill",
            });
            let hours = words.of_order(&contact.hours);
            let name = words.named(order, &contact.name, &contact.words);
            let name = if hours.is_empty() {
                name.to_owned()
            } else {
                format!("{name}, {hours}")
            };
            view.blocks.push(Block::Item {
                mark: String::new(),
                words: format!("{kind}: {}", contact.phone),
                detail: name,
            });
        }
        view.blocks.push(heading(words.say("help-careful")));
        let others = order
            .cautions
            .iter()
            .filter(|c| c.kind != CautionKind::Emergency);
        for (index, caution) in others.enumerate() {
            let mark = (index + 1).to_string();
            view.blocks.push(Block::Item {
                mark,
                words: words.of_order(&caution.text).to_owned(),
                detail: String::new(),
            });
        }
        for apart in &order.medicine.apart {
            let length = words.minutes(apart.gap);
            let values = [
                ("what", words.named(order, &apart.what, &apart.words).into()),
                ("length", length.into()),
            ];
            view.blocks
                .push(paragraph(words.say_with("apart", &values)));
        }
        view.blocks
            .push(paragraph(words.say("not-your-clinician-long")));
        view.ways = vec![
            self.other_language(),
            Link::to("settings", words.say("settings")),
        ];
        view
    }

    fn order_reading(&self, open: &Open) -> ReadingView {
        let words = &self.words;
        let order = &open.order;
        let mut view = ReadingView::titled(words.say("order-title"));
        view.lead = self.title_of(order);
        // A second device reads the whole mark from the picture, so that two people need not spell it.
        view.picture = Some(picture(&format!(
            "code:{}",
            order.fingerprint.to_string().to_uppercase()
        )));
        let row = |left: &str, right: String| Block::Row {
            left: words.say(left),
            middle: String::new(),
            right,
        };
        view.blocks.push(row("order-from", order.issuer.clone()));
        view.blocks
            .push(row("order-revision", order.revision.to_string()));
        let issued = self.zone(open).to_datetime(order.issued).date();
        view.blocks.push(row("order-issued", words.date(issued)));
        view.blocks
            .push(row("order-mark", order.fingerprint.short()));
        view.blocks.push(paragraph(words.say(if order.invented {
            "order-invented"
        } else {
            "order-unsigned"
        })));
        view.blocks.push(heading(words.say("order-chart")));
        for line in &order.rows {
            let middle = words.volume(line.amount, Measure::Spoon);
            view.blocks.push(Block::Row {
                left: words.row_limits(line),
                middle: String::new(),
                right: middle,
            });
        }
        view.blocks.push(heading(words.say("order-source")));
        view.blocks.push(paragraph(words.source(order).to_owned()));
        view.ways = vec![Link::to("look-for-papers", words.say("papers-newer"))];
        view
    }

    /// Reasons in kitchen words: the order's own where it has them.
    pub(super) fn reasons_words(&self, open: &Open, name: &str, reasons: &[Reason]) -> String {
        let words = &self.words;
        let phone = self.phone(open);
        let why = words.reasons(name, reasons);
        let call = words.say_with("reason-call", &[("phone", phone.into())]);
        format!("{why} {call}")
    }

    /// The weightiest reason in a few words.
    pub(super) fn reasons_short(&self, reasons: &[Reason]) -> String {
        let worst = reasons.iter().max_by_key(|reason| reason.kind);
        worst.map_or_else(String::new, |reason| self.words.reason_short(reason))
    }

    fn why_reading(&self, open: &Open, person: PersonId, now: &Now) -> ReadingView {
        let words = &self.words;
        let name = self.name_of(open, person);
        let mut view = ReadingView::titled(words.say_with("why-title", &[("name", name.into())]));
        let day = self.zone(open).to_datetime(now.wall).date();
        let record = open.state.people.get(&person);
        if let Some(Ok(dose)) = record.map(|record| {
            let order = open.order_of(person);
            let seated = hearthdose_core::today::seated_in(&open.state, order, record);
            dose::work_out(order, &seated, day)
        }) {
            view.lead = words.dose_words(dose.form, dose.amount, dose.tablets, Measure::Spoon);
            for line in &dose.trace {
                let left = words.say(&format!("trace-{}", line.about));
                view.blocks.push(Block::Item {
                    mark: String::new(),
                    words: left,
                    detail: words.only_in("en", &line.text).to_owned(),
                });
            }
        }
        view
    }

    fn about_reading(&self) -> ReadingView {
        let words = &self.words;
        let mut view = ReadingView::titled(words.say("about"));
        view.blocks = vec![
            paragraph(words.say("about-what")),
            paragraph(words.say("not-your-clinician-long")),
            paragraph(words.say_with(
                "about-zones",
                &[("version", hearthdose_core::schedule::data_version().into())],
            )),
            paragraph(words.say("about-slint")),
            paragraph(words.say("about-font")),
        ];
        view.ways = vec![Link::to("settings", words.say("settings"))];
        view
    }
}
