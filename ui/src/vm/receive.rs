//! Receiving a code: from a scanner that types, a camera, or pictures that lie on this device.
//!
//! A code may be one part of instructions, or the receipt of a dispensing site. Nothing is taken in before a person has said that it is right.

use hearthdose_core::exchange::{Collector, Message, Progress, Scan, Scanned, Slip, SlipUnit};
use hearthdose_core::record::Event;
use hearthdose_core::time::Now;

use super::make::picture;
use super::ports::Paper;
use super::view::{Button, Entry, Field, Link, Note, StepView, Thing};
use super::{Kitchen, Place, Reading, Telling};

/// Receipts that were taken in already, by the beginning of their digest.
const TAKEN: &str = "receipts";

/// What came in so far.
#[derive(Debug, Default)]
pub(super) struct Receiving {
    collector: Collector,
    /// Parts there, and parts needed.
    parts: Option<(u32, u32)>,
    /// The receipt that waits for a yes, and a name for its exact bytes.
    slip: Option<(Slip, String)>,
    /// What the last code was, where nothing came of it.
    said: Option<&'static str>,
}

impl Receiving {
    /// Whether something waits for a yes.
    pub fn asks(&self) -> bool {
        self.slip.is_some()
    }

    pub fn say(&mut self, said: &'static str) {
        self.said = Some(said);
    }
}

impl Kitchen {
    pub(super) fn receive_view(&self) -> StepView {
        let words = &self.words;
        if let Some((slip, _)) = &self.receiving.slip {
            return self.slip_view(slip);
        }
        let mut view = StepView::titled(words.say("receive-title"));
        view.body = vec![words.say("receive-body")];
        let label = words.say("receive-field");
        view.entry = Some(Entry {
            fields: vec![Field {
                id: "code".to_owned(),
                label: label.clone(),
                value: self.typed.clone(),
                unit: String::new(),
                spoken: label,
                active: true,
                text: true,
                problem: String::new(),
            }],
            result: self.receiving.parts.map(|(have, needed)| {
                let values = [
                    ("have", have.to_string().into()),
                    ("needed", needed.to_string().into()),
                ];
                Note::new(
                    words.say_with("receive-parts", &values),
                    String::new(),
                    None,
                )
            }),
            ..Entry::default()
        });
        view.note = self
            .receiving
            .said
            .map(|said| Note::new(words.say(said), String::new(), None));
        let label = words.say("receive-main");
        view.main = Some(if self.typed.trim().is_empty() {
            Button::waiting(label)
        } else {
            Button::ready("read-code", label)
        });
        view.ways = vec![Link::to("look-for-codes", words.say("receive-look"))];
        self.show_camera(&mut view);
        view
    }

    /// What the site says it handed out, line by line.
    fn slip_view(&self, slip: &Slip) -> StepView {
        let words = &self.words;
        let mut view = StepView::titled(words.say("slip-title"));
        view.small_picture = Some(picture("boxes-lots"));
        view.body = vec![words.say_with("slip-from", &[("site", slip.site.as_str().into())])];
        view.things = slip
            .lines
            .iter()
            .map(|line| {
                let key = match line.unit {
                    SlipUnit::Tablets => "slip-tablets",
                    SlipUnit::Bottles => "slip-bottles",
                };
                let lot = line.lot.clone().unwrap_or_default();
                let values = [
                    ("count", line.count.into()),
                    ("product", line.product.as_str().into()),
                ];
                let mut detail = words.say_with("slip-lot", &[("lot", lot.into())]);
                if let Some(expiry) = line.expiry {
                    let date = self.long_date(expiry);
                    let until = words.say_with("slip-expiry", &[("date", date.into())]);
                    detail = format!("{detail} {until}");
                }
                if let Some(extension) = &line.extension {
                    detail = format!("{detail} {extension}");
                }
                Thing {
                    words: words.say_with(key, &values),
                    detail,
                }
            })
            .collect();
        if let Some(until) = slip.lines.iter().filter_map(|line| line.enough_until).min() {
            let date = self.words.date(until);
            view.after = words.say_with("slip-enough", &[("date", date.into())]);
        }
        view.main = Some(Button::ready("take-slip", words.say("slip-main")));
        view.ways = vec![Link::to("not-this-slip", words.say("slip-not"))];
        view
    }

    /// Presses about codes that come in; false when the id belongs elsewhere.
    pub(super) fn press_receive(&mut self, id: &str, now: &Now) -> bool {
        match id {
            "receive-code" => {
                self.typed.clear();
                self.receiving = Receiving::default();
                self.go(Place::Receive);
            }
            "read-code" => {
                let text = std::mem::take(&mut self.typed);
                self.read_code(&text);
            }
            "look-for-codes" => self.look_for_codes(),
            "take-slip" => self.take_slip(now),
            "not-this-slip" => self.receiving.slip = None,
            _ => return false,
        }
        true
    }

    /// All codes in pictures; the first that leads somewhere is followed.
    fn look_for_codes(&mut self) {
        let found = self.records.codes();
        self.receiving.said = found.is_empty().then_some("receive-none");
        for text in found {
            if self.place != Place::Receive || self.receiving.slip.is_some() {
                return;
            }
            self.read_code(&text);
        }
    }

    pub(super) fn read_code(&mut self, text: &str) {
        self.receiving.said = None;
        let said = match Scan::read(text) {
            Scan::Part(frame) => match self.receiving.collector.take(frame) {
                Progress::More { have, needed } => {
                    self.receiving.parts = Some((have, needed));
                    return;
                }
                Progress::Whole(bytes) => return self.take_file(bytes),
                Progress::OtherFile => "receive-other-file",
            },
            Scan::Message(scanned) => match self.take_message(*scanned) {
                Ok(()) => return,
                Err(said) => said,
            },
            Scan::Sealed(_) => "receive-sealed",
            Scan::Newer => "receive-newer",
            Scan::Damaged | Scan::SignatureWrong => "receive-damaged",
            Scan::Foreign => "receive-foreign",
        };
        self.receiving.said = Some(said);
    }

    /// A file is whole: instructions or a message, to be compared like any other.
    fn take_file(&mut self, bytes: Vec<u8>) {
        self.receiving = Receiving::default();
        let place = self.words.say("receive-place");
        let paper = Paper {
            name: String::new(),
            place,
            bytes,
        };
        self.papers.retain(|other| other.bytes != paper.bytes);
        self.papers.push(paper);
        self.go(Place::Reading(Reading::Paper(self.papers.len() - 1)));
    }

    fn take_message(&mut self, scanned: Scanned) -> Result<(), &'static str> {
        let Message::Slip(slip) = scanned.message else {
            return Err("receive-not-for-you");
        };
        let own = self.own_household().ok_or("receive-no-home")?;
        if slip.household != own {
            return Err("receive-other-home");
        }
        let name: String = scanned
            .digest
            .iter()
            .take(8)
            .map(|byte| format!("{byte:02x}"))
            .collect();
        if self.taken_slips().split(' ').any(|taken| taken == name) {
            return Err("receive-known");
        }
        self.receiving.slip = Some((slip, name));
        Ok(())
    }

    fn taken_slips(&self) -> String {
        let open = self.open.as_ref();
        let kept = open.and_then(|open| open.store.setting(TAKEN).ok().flatten());
        kept.unwrap_or_default()
    }

    /// What was handed out comes into the house, each lot by itself.
    fn take_slip(&mut self, now: &Now) {
        let Some((slip, name)) = self.receiving.slip.clone() else {
            return;
        };
        let events: Vec<Event> = slip
            .lines
            .iter()
            .filter(|line| line.unit == SlipUnit::Tablets)
            .map(|line| Event::PacksReceived {
                product: self.product_on_label(&line.product),
                lot: line.lot.clone(),
                tablets: line.count,
            })
            .collect();
        if !events.is_empty() && !self.record(now, events) {
            return;
        }
        let taken = format!("{} {name}", self.taken_slips());
        if let Some(open) = self.open.as_mut()
            && let Err(error) = open.store.set_setting(TAKEN, taken.trim())
        {
            self.tell_error(&error.into());
            return;
        }
        self.receiving = Receiving::default();
        self.show_today();
        self.telling = Some(Telling {
            title: self.words.say("slip-taken"),
            body: self.words.say("slip-taken-body"),
            drawing: "bottle-label",
            main: self.words.say("told-go-on"),
            ..Telling::default()
        });
    }

    /// The product of the order with these words on its label; the words themselves where there is none.
    fn product_on_label(&self, label: &str) -> String {
        let open = self.open.as_ref();
        let mut products = open.iter().flat_map(|open| &open.order.products);
        let found = products.find(|product| product.label_says.join(" ") == label);
        found.map_or_else(|| label.to_owned(), |product| product.key.clone())
    }
}
