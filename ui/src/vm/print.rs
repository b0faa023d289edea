//! Papers, the calendar and the code's picture, put where people look for files: one press, and the words where it lies.

use hearthdose_core::exchange::{Message, Scan};
use hearthdose_core::export::calendar::{self, Calendar, Entry};
use hearthdose_core::mixture::Seat;
use hearthdose_core::time::Now;
use hearthdose_core::today;
use std::collections::BTreeMap;

use super::ports::{Handing, Left};
use super::view::Link;
use super::{Kitchen, Open, Telling};
use crate::drawing;
use crate::paper::{self, Absent, BottleLabel, Home, Paper, SlipSheet};
use crate::text::Measure;

/// Names of the files; a new one takes the place of the one before.
const HOME: &str = "hearthdose-home.pdf";
const CALENDAR: &str = "hearthdose.ics";
const RECEIPT: &str = "hearthdose-receipt.pdf";
const LABELS: &str = "hearthdose-bottles.pdf";
const CODE: &str = "hearthdose-code.png";

impl Kitchen {
    /// Presses about papers; false when the id belongs elsewhere.
    pub(super) fn press_print(&mut self, id: &str, now: &Now) -> bool {
        match id {
            "print-home" => {
                let code = self.fresh_code(now);
                let made = self.home_paper(now, code.as_deref());
                self.lay_down(made.as_deref(), HOME, "print-home-body");
            }
            "calendar" => {
                let made = self.calendar_text(now).map(String::into_bytes);
                self.lay_down(made.as_deref(), CALENDAR, "calendar-body");
            }
            _ => return false,
        }
        true
    }

    fn home_paper(&self, now: &Now, code: Option<&str>) -> Option<Vec<u8>> {
        let open = self.open.as_ref()?;
        let today = open.today.as_ref()?.as_ref().ok()?;
        let seats: Vec<Seat> = today.seats.iter().map(|(_, seat)| seat.clone()).collect();
        let household = open.state.household.as_ref()?;
        let absent = self.absent(open);
        let course_end = today.rounds.last()?.0.day;
        let home = Home {
            order: &open.order,
            name: Some(household.name.as_str()),
            zone: &today.zone,
            seats: &seats,
            absent: &absent,
            plan: &today.plan,
            measure: Measure::Spoon,
            water: today::water_rule(&open.state, &open.order),
            code,
            refill: today::refill_date(&open.state, &open.order, today),
            course_end,
            made: now.wall,
        };
        paper::household(&home, &self.words, self.paper_size()).ok()
    }

    /// Who follows this order and is at no place of its plan.
    fn absent(&self, open: &Open) -> Vec<Absent> {
        let state = &open.state;
        let people = state
            .people()
            .filter(|(id, _)| state.follows(*id, &open.order.id));
        people
            .filter(|(id, record)| record.is_stopped() || state.hold_after(*id))
            .map(|(_, record)| Absent {
                name: record.person.name.clone(),
                why: match record.is_stopped() {
                    true => self.stop_words(record),
                    false => self
                        .words
                        .say("reason-other")
                        .trim_end_matches('.')
                        .to_owned(),
                },
            })
            .collect()
    }

    fn calendar_text(&mut self, now: &Now) -> Option<String> {
        let home = self.own_household()?;
        let open = self.open.as_ref()?;
        let today = open.today.as_ref()?.as_ref().ok()?;
        let rounds = today.plan.rounds.iter();
        let rounds: Vec<Entry> = rounds
            .filter(|round| !round.doses.is_empty())
            .map(|round| {
                self.words
                    .calendar_entry(round, round.pace, &today.zone, None)
            })
            .collect();
        Some(calendar::text(&Calendar {
            home,
            order: &open.order.id,
            made: now.wall,
            name: &self.words.say("calendar-name"),
            rounds: &rounds,
        }))
    }

    /// The receipt of a hand-out, and a label for each bottle.
    pub(super) fn print_receipt(
        &mut self,
        text: &str,
        names: &BTreeMap<u16, String>,
        doses: &BTreeMap<u16, String>,
    ) {
        let made = self.receipt_papers(text, names, doses);
        let (receipt, labels) = made.unzip();
        if let Some(labels) = labels {
            // The receipt tells where both lie.
            self.leave(LABELS, &labels);
        }
        self.lay_down(receipt.as_deref(), RECEIPT, "print-receipt-body");
    }

    fn receipt_papers(
        &self,
        text: &str,
        names: &BTreeMap<u16, String>,
        doses: &BTreeMap<u16, String>,
    ) -> Option<(Vec<u8>, Vec<u8>)> {
        let order = self.site.as_ref()?.order()?;
        let Scan::Message(scanned) = Scan::read(text) else {
            return None;
        };
        let Message::Slip(slip) = scanned.message else {
            return None;
        };
        let zone = jiff::tz::TimeZone::get(&order.time_zone).ok()?;
        let sheet = SlipSheet {
            order,
            slip: &slip,
            code: text,
            zone: &zone,
            names,
        };
        let labels = BottleLabel::of(&sheet, doses);
        let size = self.paper_size();
        let receipt = paper::slip(&sheet, &self.words, size).ok()?;
        Some((
            receipt,
            paper::bottle_labels(order, &labels, &self.words, size).ok()?,
        ))
    }

    /// Letter in the Americas, A4 elsewhere; by the zone the device is in. Common practice, no source.
    pub(super) fn paper_size(&self) -> Paper {
        match self.clock.zone().starts_with("America/") {
            true => Paper::Letter,
            false => Paper::A4,
        }
    }

    /// The picture of the code that is shown.
    pub(super) fn leave_code(&mut self, text: &str) {
        let made = drawing::code_png(text);
        self.lay_down(made.as_deref(), CODE, "code-picture-body");
    }

    /// Puts a file where people look, and says where it lies; a failure is told as one.
    pub(super) fn lay_down(&mut self, bytes: Option<&[u8]>, name: &str, body: &str) {
        let left = bytes.and_then(|bytes| self.leave(name, bytes));
        let Some(left) = left else {
            self.tell("print-not", "print-not-body");
            return;
        };
        let values = [("name", left.name.into()), ("place", left.place.into())];
        self.telling = Some(Telling {
            title: self.words.say("print-there"),
            body: self.words.say_with(body, &values),
            drawing: "order-paper",
            main: self.words.say("told-go-on"),
            file: left.file,
            ..Telling::default()
        });
    }

    /// Puts a file where people look for theirs on this device.
    pub(super) fn leave(&mut self, name: &str, bytes: &[u8]) -> Option<Left> {
        if let Some(outbox) = &mut self.outbox {
            return outbox.leave(name, bytes);
        }
        let place = self.records.leave(name, bytes)?;
        Some(Left {
            name: name.to_owned(),
            place,
            file: false,
        })
    }

    /// What can be done with the file that is told of.
    pub(super) fn hand_on_ways(&self) -> Vec<Link> {
        let way = |(id, words): (&str, &str)| Link::to(id, self.words.say(words));
        [("open-file", "file-open"), ("send-file", "file-send")]
            .map(way)
            .into()
    }

    /// A press while something is told: it was read, unless its file is to go on; false when nothing is told.
    pub(super) fn press_told(&mut self, id: &str) -> bool {
        let Some(telling) = &self.telling else {
            return false;
        };
        let handing = match id {
            "open-file" if telling.file => Handing::Open,
            "send-file" if telling.file => Handing::Send,
            _ => {
                self.telling = None;
                return true;
            }
        };
        let outbox = self.outbox.as_mut();
        if !outbox.is_some_and(|outbox| outbox.hand_on(handing)) {
            self.tell("file-not", "file-not-body");
        }
        true
    }
}
