//! What to do when it does not go as planned, what to be careful of, whom to call, and the code to show.

use hearthdose_core::order::{CautionKind, ContactKind};
use hearthdose_core::units::Lapse;
use jiff::civil::Time;

use super::CannotPrint;
use super::flow::{BODY, NAME, SMALL, STRONG};
use super::home::Sheet;

/// Side of a code: a module of the largest one, version 20, is then more than half a millimetre wide.
const CODE: f32 = 176.0;

impl Sheet<'_> {
    pub(super) fn rules(&mut self) {
        let words = self.words;
        let phone = self.phone(ContactKind::Questions);
        let call = || [("phone", phone.as_str().into())];
        self.flow.new_page();
        self.flow.section(&words.say("paper-otherwise"), 120.0);
        self.late();
        let cases = [
            ("paper-some", words.say_with("paper-some-body", &call())),
            (
                "paper-back-up",
                words.say_with("paper-back-up-body", &call()),
            ),
            (
                "paper-would-not",
                words.say_with("paper-would-not-body", &call()),
            ),
            ("paper-spilled", words.say("paper-spilled-body")),
            ("paper-short", words.say("paper-short-body")),
            ("paper-weight", words.say_with("paper-weight-body", &call())),
        ];
        for (title, body) in cases {
            self.case(&words.say(title), &[body]);
        }
        self.cautions();
    }

    fn case(&mut self, title: &str, body: &[String]) {
        let wide = self.flow.width();
        let all: f32 = body
            .iter()
            .map(|text| self.flow.height(BODY, wide, text))
            .sum();
        self.flow.room(all + STRONG.step);
        self.flow.paragraph(STRONG, title);
        for text in body {
            self.flow.paragraph(BODY, text);
        }
        self.flow.gap(7.0);
    }

    /// One answer for every time of day, from the order's gaps alone.
    fn late(&mut self) {
        let words = self.words;
        let medicine = &self.home.order.medicine;
        let (gap, skip) = (medicine.least_gap, medicine.skip_if_next_within);
        let times = self.regular_times();
        let mut body = Vec::new();
        for (at, time) in times.iter().enumerate() {
            let next = times.get((at + 1) % times.len()).unwrap_or(time);
            let values = |clock: Time| {
                [
                    ("dose", words.round_at(*time).into()),
                    ("time", self.unmistakable(clock).into()),
                    ("gap", words.lapse(gap).into()),
                ]
            };
            let usual = next.wrapping_sub(gap);
            let skipped = next.wrapping_sub(skip);
            if self.rounds().count() == 1 {
                body.push(words.say_with("paper-late-until", &values(skipped)));
                let phone = self.phone(ContactKind::Questions);
                let mut last = values(skipped).to_vec();
                last.push(("phone", phone.into()));
                body.push(words.say_with("paper-late-last", &last));
                continue;
            }
            if gap <= skip {
                body.push(words.say_with("paper-late-until", &values(skipped)));
            } else {
                // Where the gap is as long as the interval, no late dose leaves the next one at its time.
                if usual != *time {
                    body.push(words.say_with("paper-late-usual", &values(usual)));
                }
                body.push(words.say_with("paper-late-moved", &values(skipped)));
            }
            body.push(words.say_with("paper-late-skip", &values(skipped)));
        }
        body.push(words.say("paper-late-never"));
        if medicine.margin > Lapse::ZERO && self.home.order.recipe.is_some() {
            body.push(words.say("paper-late-bowl"));
        }
        self.case(&words.say("late-title"), &body);
    }

    /// A clock time without "12 a.m.", which half of all people read as noon.
    fn unmistakable(&self, clock: Time) -> String {
        match (clock.hour(), clock.minute()) {
            (0, 0) => self.words.say("paper-midnight"),
            (12, 0) => self.words.say("paper-noon"),
            _ => self.words.time(clock),
        }
    }

    fn cautions(&mut self) {
        let words = self.words;
        let order = self.home.order;
        let mut all: Vec<_> = order.cautions.iter().collect();
        all.sort_by_key(|caution| caution.kind);
        self.flow.section(&words.say("help-careful"), 60.0);
        for caution in all {
            let text = words.of_order(&caution.text).to_owned();
            if caution.kind == CautionKind::Emergency {
                let phone = self.phone(ContactKind::Emergency);
                let call = words.say_with("call-emergency", &[("phone", phone.into())]);
                self.flow.paragraph(STRONG, &format!("{text} {call}."));
                self.flow.gap(5.0);
            } else {
                self.flow.point(&text);
            }
        }
        for apart in &order.medicine.apart {
            let values = [
                ("length", words.lapse(apart.gap).into()),
                ("what", words.named(order, &apart.what, &apart.words).into()),
            ];
            self.flow.point(&words.say_with("apart", &values));
        }
    }

    /// # Errors
    /// A code that is too long for one picture.
    pub(super) fn numbers(&mut self) -> Result<(), CannotPrint> {
        let words = self.words;
        // The numbers and the code stand on one page, that can hang on a door.
        self.flow.room(if self.home.code.is_some() {
            470.0
        } else {
            250.0
        });
        self.flow.section(&words.say("help-numbers"), 150.0);
        for contact in &self.home.order.contacts {
            let kind = match contact.kind {
                ContactKind::Emergency => "contact-emergency",
                ContactKind::Poison => "contact-poison",
                ContactKind::Questions => "contact-questions",
                ContactKind::Refill => "contact-refill",
            };
            self.flow.room(NAME.step + SMALL.step);
            let (x, wide) = (self.flow.left(), self.flow.width());
            let top = self.flow.y;
            let indent = 190.0;
            self.flow.put(NAME, x, top, indent - 10.0, &words.say(kind));
            let after = self
                .flow
                .put(NAME, x + indent, top, wide - indent, &contact.phone);
            let name = words.named(self.home.order, &contact.name, &contact.words);
            let about = format!("{name}, {}", words.of_order(&contact.hours));
            let about = about.trim_end_matches([',', ' ']);
            self.flow.y = self
                .flow
                .put(SMALL, x + indent, after, wide - indent, about)
                + 4.0;
        }
        self.flow
            .paragraph(BODY, &words.say("paper-not-your-clinician"));
        let Some(code) = self.home.code else {
            return Ok(());
        };
        self.flow.section(&words.say("code-title"), CODE);
        let (x, top) = (self.flow.left(), self.flow.y);
        let says = self.words.say("code-title");
        let document = &mut self.flow.document;
        document
            .figure(says, |document| document.code(code, x, top, CODE))
            .ok_or(CannotPrint::CodeTooLong)?;
        let (right, wide) = (x + CODE + 16.0, self.flow.width() - CODE - 16.0);
        let after = self
            .flow
            .put(STRONG, right, top + 14.0, wide, &words.say("code-lead"));
        self.flow
            .put(BODY, right, after + 4.0, wide, &words.say("code-what"));
        self.flow.y = top + CODE;
        Ok(())
    }
}
