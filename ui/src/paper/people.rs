//! The first page: when, and how much for whom, in words and in drawn spoons.

use hearthdose_core::dose::{Dose, DoseForm};
use hearthdose_core::order::ContactKind;
use hearthdose_core::screening::{Reason, ReasonKind};
use hearthdose_core::units::Lapse;
use jiff::civil::Time;

use super::document::Place;
use super::flow::{AMOUNT, BODY, NAME, SMALL, STRONG, TITLE};
use super::home::{Absent, Sheet, Stretch};
use crate::text::spoons;
use crate::vm::view::Spoon;

const NAME_WIDTH: f32 = 150.0;
const SPOON: (f32, f32) = (24.0, 46.0);

/// What stands in the place of a dose.
struct Held {
    picture: &'static str,
    title: String,
    why: String,
}

impl Sheet<'_> {
    pub(super) fn people(&mut self) {
        let words = self.words;
        let order = self.home.order;
        let title = self.order_title();
        let name = self.name();
        self.flow.paragraph(TITLE, &name);
        self.flow.paragraph(NAME, &title);
        let issuer = words.say_with(
            "paper-instructions",
            &[
                ("issuer", order.issuer.as_str().into()),
                ("revision", order.revision.into()),
            ],
        );
        let mark = words.say_with(
            "order-mark-is",
            &[("mark", order.fingerprint.short().into())],
        );
        self.flow.paragraph(SMALL, &format!("{issuer}. {mark}"));
        self.flow.gap(10.0);
        self.times();
        self.flow.section(&words.say("order-chart"), 80.0);
        for seat in 0..self.home.seats.len() {
            self.person(seat);
        }
        for absent in self.home.absent {
            self.absent(absent);
        }
    }

    /// Somebody whose medicine was stopped: by name, so that nobody takes them for forgotten.
    fn absent(&mut self, absent: &Absent) {
        let words = self.words;
        let phone = self.phone(ContactKind::Questions);
        let held = Held {
            picture: "hold",
            title: words.say_with("row-stop-amount", &[("phone", phone.into())]),
            why: format!("{}. {}.", absent.why, words.say("reaction-yes-detail")),
        };
        let wide = self.flow.width() - NAME_WIDTH;
        self.flow.room(110.0);
        let (x, top) = (self.flow.left(), self.flow.y + 2.0);
        let low = self.flow.put(NAME, x, top, NAME_WIDTH - 10.0, &absent.name);
        let y = self.held(&held, (x + NAME_WIDTH, top), wide);
        self.flow.y = y.max(low) + 4.0;
        self.flow.rule(0.75, 0.6);
        self.flow.y += 2.0;
    }

    /// The picture and the words in the place of a dose; returns where they end.
    fn held(&mut self, held: &Held, at: (f32, f32), wide: f32) -> f32 {
        let (x, top) = at;
        let place = Place {
            x: x + wide - 92.0,
            y: top,
            width: 92.0,
            height: 58.0,
        };
        self.flow.document.picture(held.picture, place);
        let after = self.flow.put(AMOUNT, x, top, wide - 100.0, &held.title);
        let y = self.flow.put(BODY, x, after, wide - 100.0, &held.why);
        y.max(top + 60.0) + 4.0
    }

    /// The times in boxes beside each other, then the first and the last day.
    fn times(&mut self) {
        let words = self.words;
        let times = self.regular_times();
        let across = times.len().clamp(1, 3);
        let gap = 12.0;
        let count = f32::from(u16::try_from(across).unwrap_or(1));
        let width = (self.flow.width() - gap * (count - 1.0)) / count;
        let (lead, length) = (self.lead(), self.length());
        let inside = width - 24.0;
        for row in times.chunks(across) {
            let texts: Vec<(String, String)> = row
                .iter()
                .map(|time| self.time_words(*time, lead, length))
                .collect();
            let height = texts
                .iter()
                .map(|(when, start)| {
                    self.flow.height(NAME, inside, when) + self.flow.height(BODY, inside, start)
                })
                .fold(0.0, f32::max)
                + 16.0;
            self.flow.room(height);
            let top = self.flow.y;
            let mut x = self.flow.left();
            for (when, start) in texts {
                let place = Place {
                    x,
                    y: top,
                    width,
                    height,
                };
                self.flow.document.frame(place, 1.25, None);
                let y = self.flow.put(NAME, x + 12.0, top + 8.0, inside, &when);
                self.flow.put(BODY, x + 12.0, y, inside, &start);
                x += width + gap;
            }
            self.flow.y = top + height + 10.0;
        }
        let first = self.rounds().next().map(|(_, round)| round.at);
        if let Some(at) = first {
            let date = self.clock_and_date(at);
            let values = [("date", date.into())];
            self.flow
                .paragraph(BODY, &words.say_with("paper-first", &values));
        }
        let end = words.date(self.home.course_end);
        self.flow.paragraph(
            BODY,
            &words.say_with("ahead-end-day", &[("date", end.into())]),
        );
        if let Some(refill) = self.home.refill {
            let date = words.date(refill);
            let by = words.say_with("ahead-refill", &[("date", date.into())]);
            let phone = self.phone(ContactKind::Refill);
            let call = words.say_with("reason-call", &[("phone", phone.into())]);
            self.flow.paragraph(STRONG, &format!("{by} {call}"));
        }
    }

    /// "Morning dose, 8:00 a.m.", and when to begin so that it is on time.
    fn time_words(&self, time: Time, lead: Lapse, length: Lapse) -> (String, String) {
        let words = self.words;
        let when = words.say_with(
            "today-title",
            &[
                ("round", words.round_at(time).into()),
                ("time", words.time(time).into()),
            ],
        );
        let start = words.say_with(
            "today-start",
            &[
                ("time", words.time(time.wrapping_sub(lead)).into()),
                ("length", words.minutes(length).into()),
            ],
        );
        (when, start)
    }

    /// One person: a name at the left, what to take at the right, a line below.
    fn person(&mut self, seat: usize) {
        let stretches = self.stretches(seat);
        let held = self.held_at_first(seat, &stretches);
        let wide = self.flow.width() - NAME_WIDTH;
        let mut needed = 12.0;
        for stretch in &stretches {
            needed += self.stretch_height(stretch, wide).max(SPOON.1) + 20.0;
        }
        if let Some(held) = &held {
            needed += 24.0 + self.flow.height(BODY, wide - 100.0, &held.why).max(60.0);
        }
        self.flow.room(needed.min(400.0));
        let top = self.flow.y + 2.0;
        let x = self.flow.left();
        let name = self.seat_name(seat);
        let mut low = self.flow.put(NAME, x, top, NAME_WIDTH - 10.0, &name);
        if let Some(about) = self.about(seat) {
            low = self.flow.put(SMALL, x, low, NAME_WIDTH - 10.0, &about);
        }
        let right = x + NAME_WIDTH;
        let mut y = top;
        if let Some(held) = held {
            y = self.held(&held, (right, y), wide);
        }
        for stretch in &stretches {
            y = self.stretch(stretch, (right, y), wide) + 4.0;
        }
        self.flow.y = y.max(low).max(top + SPOON.1) + 4.0;
        self.flow.rule(0.75, 0.6);
        self.flow.y += 2.0;
    }

    fn stretch_height(&self, stretch: &Stretch, wide: f32) -> f32 {
        let Some(dose) = &stretch.dose else {
            return 40.0;
        };
        self.flow
            .height(AMOUNT, self.text_width(dose, wide), &self.amount(dose))
            + 20.0
    }

    fn text_width(&self, dose: &Dose, wide: f32) -> f32 {
        let drawn = self.drawn(dose).len();
        let count = f32::from(u16::try_from(drawn).unwrap_or(0));
        (wide - count * (SPOON.0 + 5.0) - 8.0).max(120.0)
    }

    fn drawn(&self, dose: &Dose) -> Vec<Spoon> {
        let measure = self.home.measure;
        spoons(dose.form, dose.amount, dose.tablets, measure)
    }

    /// One amount with its spoons; returns where it ends.
    fn stretch(&mut self, stretch: &Stretch, at: (f32, f32), wide: f32) -> f32 {
        let words = self.words;
        let (x, mut y) = at;
        let begun = self
            .home
            .plan
            .rounds
            .get(stretch.from)
            .map(|round| round.at);
        let first = self.rounds().next().map(|(index, _)| index);
        if first != Some(stretch.from)
            && let Some(at) = begun
        {
            let from = words.say_with(
                "paper-from-then",
                &[("date", self.clock_and_date(at).into())],
            );
            y = self.flow.put(STRONG, x, y, wide, &from);
        }
        let Some(dose) = &stretch.dose else {
            let phone = self.phone(ContactKind::Questions);
            let text = words.say_with("row-hold-amount", &[("phone", phone.into())]);
            return self.flow.put(AMOUNT, x, y, wide, &text);
        };
        let drawn = self.drawn(dose);
        let text = self.text_width(dose, wide);
        let key = match dose.form {
            DoseForm::Mixture => "paper-from-bowl",
            DoseForm::Liquid => "row-liquid",
            DoseForm::Tablets => "row-whole",
        };
        let after = self.flow.put(AMOUNT, x, y + 4.0, text, &self.amount(dose));
        let after = self.flow.put(SMALL, x, after, text, &words.say(key));
        let mut left = x + wide;
        for spoon in drawn.iter().rev() {
            left -= SPOON.0;
            let place = Place {
                x: left,
                y,
                width: SPOON.0,
                height: SPOON.1,
            };
            self.flow.document.picture(drawing(*spoon), place);
            left -= 5.0;
        }
        after.max(y + SPOON.1)
    }

    /// Weight as it was typed.
    fn about(&self, seat: usize) -> Option<String> {
        let person = &self.home.seats.get(seat)?.person;
        person.weight().map(ToString::to_string)
    }

    /// Why a seat has no dose when the rounds begin, with whom to call.
    fn held_at_first(&self, seat: usize, stretches: &[Stretch]) -> Option<Held> {
        let words = self.words;
        let held = &self.home.plan.held;
        let (_, from, reasons) = held.iter().find(|(who, _, _)| *who == seat)?;
        if stretches.iter().any(|stretch| stretch.from < *from) {
            return None;
        }
        let phone = self.phone(ContactKind::Questions);
        let stopped = worst(reasons) == Some(ReasonKind::Stop);
        let values = [("phone", phone.into())];
        let title = if stopped {
            words.say_with("row-stop-amount", &values)
        } else {
            words.say_with("row-hold-amount", &values)
        };
        Some(Held {
            picture: if stopped { "allergy-stop" } else { "hold" },
            title,
            why: words.reasons(&self.seat_name(seat), reasons),
        })
    }
}

fn worst(reasons: &[Reason]) -> Option<ReasonKind> {
    reasons.iter().map(|reason| reason.kind).max()
}

fn drawing(spoon: Spoon) -> &'static str {
    match spoon {
        Spoon::Full => "spoon-full",
        Spoon::ThreeQuarters => "spoon-three-quarters",
        Spoon::Half => "spoon-half",
        Spoon::Quarter => "spoon-quarter",
        Spoon::Syringe => "syringe-full",
        Spoon::Tablet => "tablet",
    }
}
