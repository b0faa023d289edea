//! Receiving a code: from a scanner that types, a camera, or pictures that lie on this device.
//!
//! A code may be one part of instructions, or the receipt of a dispensing site. Nothing is taken in before a person has said that it is right.

use hearthdose_core::exchange::{Collector, Message, Progress, Scan, Scanned};
use hearthdose_core::time::Now;

use super::ports::Paper;
use super::receipt::Receipt;
use super::view::{Button, Entry, Field, Link, Note, StepView};
use super::{Kitchen, Place, Reading};

/// What came in so far.
#[derive(Debug, Default)]
pub(super) struct Receiving {
    collector: Collector,
    /// Parts there, and parts needed.
    parts: Option<(u32, u32)>,
    /// The receipt that waits for a yes.
    pub(super) receipt: Option<Receipt>,
    /// What the last code was, where nothing came of it.
    said: Option<&'static str>,
}

impl Receiving {
    /// Whether something waits for a yes.
    pub fn asks(&self) -> bool {
        self.receipt.is_some()
    }

    pub fn say(&mut self, said: &'static str) {
        self.said = Some(said);
    }
}

impl Kitchen {
    pub(super) fn receive_view(&self) -> StepView {
        let words = &self.words;
        if let Some(receipt) = &self.receiving.receipt {
            return self.receipt_view(receipt);
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
            _ => return self.press_receipt(id, now),
        }
        true
    }

    /// All codes in pictures; the first that leads somewhere is followed.
    fn look_for_codes(&mut self) {
        let found = self.records.codes();
        self.receiving.said = found.is_empty().then_some("receive-none");
        for text in found {
            if self.place != Place::Receive || self.receiving.asks() {
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
        let (signer, digest) = (scanned.signer, scanned.digest);
        let Message::Slip(slip) = scanned.message else {
            return Err("receive-not-for-you");
        };
        let own = self.own_household().ok_or("receive-no-home")?;
        if slip.household != own {
            return Err("receive-other-home");
        }
        let receipt = Receipt::new(slip, signer, &digest);
        if self.is_taken(&receipt) {
            return Err("receive-known");
        }
        self.receiving.receipt = Some(receipt);
        Ok(())
    }
}
