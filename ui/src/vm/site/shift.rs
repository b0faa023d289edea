//! Records of several tablets become one: a shift file is written for the others, theirs are taken in.
//!
//! Taking in is a union of facts, so it does not matter who does it first or how often.
//! Whose tablet a file is from, a person says once, by comparing its mark; after that it must stay the same.

use std::collections::BTreeMap;

use hearthdose_core::exchange::{
    self, DeviceKey, DeviceSecret, Message, Scan, Scanned, SealingKey, Shift,
};
use hearthdose_core::order::{Order, parse};
use hearthdose_core::record::DeviceId;
use hearthdose_core::site::{Matter, is_fact_private};
use hearthdose_core::time::Now;

use super::codes::Parts;
use super::line::text_field;
use super::{Site, Spot, told};
use crate::vm::keep::KeepError;
use crate::vm::make::{heading, paragraph, picture};
use crate::vm::view::{Button, Choice, Entry, Link, Note, ReadingView, StepView};
use crate::vm::{Kitchen, Telling};

/// Setting: the devices whose shifts are taken in, key by key as JSON; the command line keeps it in the same place.
const KNOWN: &str = "site-known-devices";

/// What a file turns out to be.
enum Standing {
    Known,
    NotMet,
    /// The key was met with another tablet's number, or the number with another key.
    OtherDevice,
}

/// A file for the other tablets.
struct OwnShift {
    name: String,
    bytes: Vec<u8>,
    /// Of whoever signed it.
    key: DeviceKey,
    /// Only who has the site's key can read it.
    locked: bool,
}

/// How a record leaves this tablet: signed, and locked where private answers are in it.
pub(super) struct Leaving {
    secret: DeviceSecret,
    /// The key of the instructions.
    to: Option<SealingKey>,
    orders: Vec<Order>,
}

impl Leaving {
    pub(super) fn of(site: &Site, secret: DeviceSecret) -> Result<Leaving, KeepError> {
        let kept = site.store.orders()?;
        let key = site.order.as_ref();
        let key = key.and_then(|order| order.medicine.sealing_key.as_ref());
        Ok(Leaving {
            secret,
            to: key.map(|key| SealingKey(key.public)),
            orders: kept
                .iter()
                .filter_map(|kept| parse(&kept.bytes).ok())
                .collect(),
        })
    }

    /// The bytes, and whether they are locked; `random` was never used before.
    pub(super) fn write(
        &self,
        shift: Shift,
        random: Option<[u8; 32]>,
    ) -> Result<(Vec<u8>, bool), &'static str> {
        const NOT: &str = "print-not-body";
        let mut facts = shift.facts.iter();
        let locked = facts.any(|fact| is_fact_private(fact, &self.orders));
        let message = Message::Shift(shift);
        let bytes = match locked {
            true => {
                let to = self.to.as_ref().ok_or("shift-no-lock")?;
                exchange::sealed_bytes(&message, &self.secret, to, random.ok_or(NOT)?)
            }
            false => message.sign(&self.secret),
        };
        Ok((bytes.map_err(|_| NOT)?, locked))
    }
}

impl Kitchen {
    pub(super) fn look_for_shifts(&mut self) {
        let shifts = self.records.shifts();
        if let Some(site) = self.site.as_mut() {
            site.papers = shifts;
        }
    }

    pub(super) fn shift_view(&self, site: &Site) -> StepView {
        let words = &self.words;
        let mut view = StepView::titled(words.say("shift-title"));
        view.body = vec![words.say("shift-body")];
        for (index, paper) in site.papers.iter().enumerate() {
            let from = words.say_with("paper-from", &[("place", paper.place.as_str().into())]);
            let (title, detail) = match shift_in(site, &paper.bytes) {
                Ok((scanned, shift)) => {
                    let values = [
                        ("mark", mark(&scanned.signer).into()),
                        ("count", shift.facts.len().into()),
                    ];
                    (words.say_with("shift-of", &values), from)
                }
                Err(said) => (paper.name.clone(), format!("{} {from}", words.say(said))),
            };
            view.choices.push(Choice::new(
                &format!("shift:{index}"),
                title,
                detail,
                "order-paper",
            ));
        }
        let line = text_field("code", words.say("codes-field"), site.typed("code"), true);
        view.entry = Some(Entry {
            fields: vec![line],
            result: site.parts.count.map(|(have, needed)| {
                let values = [
                    ("have", have.to_string().into()),
                    ("needed", needed.to_string().into()),
                ];
                let words = words.say_with("receive-parts", &values);
                Note::new(words, String::new(), None)
            }),
            ..Entry::default()
        });
        view.note = site
            .said
            .map(|said| Note::new(words.say(said), String::new(), None));
        view.main = Some(match site.typed("code").is_empty() {
            true => Button::ready("write-shift", words.say("shift-write")),
            false => Button::ready("read-part", words.say("receive-main")),
        });
        self.show_camera(&mut view);
        if view.seen.is_none() {
            view.picture = None;
            view.body = vec![words.say("shift-body")];
        }
        view.ways = vec![
            Link::to("show-shift", words.say("codes-show")),
            Link::to("look-for-shifts", words.say("papers-again")),
            Link::to("look-for-parts", words.say("receive-look")),
            Link::to("line", words.say("site-next")),
        ];
        view
    }

    /// A file of a tablet that was not met before: compared by two people, then taken in.
    pub(super) fn shift_reading(&self, site: &Site, index: usize) -> ReadingView {
        let words = &self.words;
        let mut view = ReadingView::titled(words.say("shift-new-title"));
        view.picture = Some(picture("order-paper"));
        if let Some(Ok((scanned, _))) = site
            .papers
            .get(index)
            .map(|paper| shift_in(site, &paper.bytes))
        {
            let values = [("mark", mark(&scanned.signer).into())];
            view.blocks
                .push(heading(words.say_with("shift-mark", &values)));
        }
        view.blocks.push(paragraph(words.say("shift-compare")));
        view.main = Some(Button::ready("trust-shift", words.say("shift-trust")));
        view.ways = vec![Link::to("shift", words.say("take-order-not"))];
        view
    }

    pub(super) fn press_shift(&mut self, id: &str, now: &Now) -> bool {
        match id {
            "shift" | "look-for-shifts" => {
                self.look_for_shifts();
                if let Some(site) = self.site.as_mut() {
                    site.parts = Parts::default();
                    site.go(Spot::Shift);
                }
            }
            "write-shift" => self.write_shift(now),
            "trust-shift" => {
                let index = match self.site.as_ref().map(|site| &site.spot) {
                    Some(Spot::ShiftOf(index)) => *index,
                    _ => return false,
                };
                self.take_shift(index, true);
            }
            _ => {
                let Some(index) = id.strip_prefix("shift:").and_then(|at| at.parse().ok()) else {
                    return false;
                };
                self.take_shift(index, false);
            }
        }
        true
    }

    fn write_shift(&mut self, now: &Now) {
        // What arrives while it is written is not in it.
        let last = self
            .site
            .as_ref()
            .and_then(|site| site.store.arrivals().ok());
        let own = match self.own_shift(now) {
            Ok(own) => own,
            Err(why) => {
                self.tell("print-not", why);
                return;
            }
        };
        let Some(left) = self.leave(&own.name, &own.bytes) else {
            self.tell("print-not", "print-not-body");
            return;
        };
        let handed = self
            .site
            .as_mut()
            .map(|site| site.store.note_handed_over(1, last.unwrap_or(0)));
        if let Some(Err(error)) = handed {
            self.tell_error(&error.into());
            return;
        }
        let values = [
            ("name", left.name.into()),
            ("place", left.place.into()),
            ("mark", mark(&own.key).into()),
        ];
        let there = match own.locked {
            true => "shift-there-locked",
            false => "shift-there",
        };
        let body = self.words.say_with(there, &values);
        self.telling = Some(Telling {
            file: left.file,
            ..told(&self.words, "print-there", body)
        });
    }

    /// This tablet's record as a file. Private answers go into it only locked, with the key of the instructions.
    fn own_shift(&mut self, now: &Now) -> Result<OwnShift, &'static str> {
        const NOT: &str = "print-not-body";
        let secret = self.ids.device_random().ok_or(NOT)?.key("");
        let random = self.ids.random();
        let site = self.site.as_ref().ok_or(NOT)?;
        let leaving = Leaving::of(site, secret).map_err(|_| NOT)?;
        let shift = Shift {
            device: site.device,
            made: exchange::minute(now.wall),
            first: 1,
            facts: site.store.facts().map_err(|_| NOT)?,
            of: None,
        };
        let (bytes, locked) = leaving.write(shift, random)?;
        let device = site.device.0.simple().to_string();
        Ok(OwnShift {
            name: format!("shift-{}.shift", device.get(24..).unwrap_or_default()),
            bytes,
            key: leaving.secret.public(),
            locked,
        })
    }

    pub(super) fn take_shift(&mut self, index: usize, trust: bool) {
        let found = self.site.as_ref().and_then(|site| {
            let paper = site.papers.get(index)?;
            Some(shift_in(site, &paper.bytes))
        });
        let Some(found) = found else {
            return;
        };
        let (scanned, shift) = match found {
            Ok(both) => both,
            Err(said) => {
                if let Some(site) = self.site.as_mut() {
                    site.said = Some(said);
                }
                return;
            }
        };
        match self.standing(scanned.signer, &shift) {
            Some(Standing::Known) => {}
            Some(Standing::NotMet) if trust => {}
            Some(Standing::NotMet) => {
                if let Some(site) = self.site.as_mut() {
                    site.go(Spot::ShiftOf(index));
                }
                return;
            }
            Some(Standing::OtherDevice) | None => {
                if let Some(site) = self.site.as_mut() {
                    site.said = Some("shift-other-device");
                }
                return;
            }
        }
        match self.merge(scanned.signer, &shift) {
            Ok((new, known)) => self.tell_merged(new, known),
            Err(error) => self.tell_error(&error),
        }
    }

    fn standing(&mut self, signer: DeviceKey, shift: &Shift) -> Option<Standing> {
        let own = self.ids.device_random()?.key("").public();
        let site = self.site.as_ref()?;
        let device = shift.device.0.to_string();
        if signer == own {
            let is_own = shift.device == site.device;
            return Some(if is_own {
                Standing::Known
            } else {
                Standing::OtherDevice
            });
        }
        let known = known_devices(site);
        Some(match known.get(&hex(&signer.0)) {
            Some(before) if *before == device => Standing::Known,
            Some(_) => Standing::OtherDevice,
            None if shift.device == site.device => Standing::OtherDevice,
            None if known.values().any(|other| *other == device) => Standing::OtherDevice,
            None => Standing::NotMet,
        })
    }

    fn merge(&mut self, signer: DeviceKey, shift: &Shift) -> Result<(usize, usize), KeepError> {
        let Some(site) = self.site.as_mut() else {
            return Ok((0, 0));
        };
        let own = shift.device == site.device;
        let appended = site.store.append(&shift.facts)?;
        if !own {
            let mut known = known_devices(site);
            known.insert(hex(&signer.0), shift.device.0.to_string());
            let text = serde_json::to_string(&known).unwrap_or_default();
            site.store.set_setting(KNOWN, &text)?;
        }
        site.stock = site.store.stock()?;
        site.learn_notices()?;
        Ok((appended.added, appended.known))
    }

    /// How much was new, and what it leaves to be settled, which is the next page then.
    fn tell_merged(&mut self, new: usize, known: usize) {
        let looked = self.site.as_mut().map(Site::look_for_matters);
        if let Some(Err(error)) = looked {
            return self.tell_error(&error);
        }
        let values = [("new", new.into()), ("known", known.into())];
        let mut body = self.words.say_with("shift-merged-body", &values);
        let matters = self.site.iter().flat_map(|site| &site.matters);
        let twice = matters.filter(|(_, matter)| matches!(matter, Matter::Twice { .. }));
        let mut twice: Vec<String> = twice.map(|(home, _)| self.door_words(home)).collect();
        twice.dedup();
        if !twice.is_empty() {
            let values = [("homes", twice.join("; ").into())];
            body.push(' ');
            body.push_str(&self.words.say_with("shift-twice", &values));
        }
        let below = self.site.iter().flat_map(|site| site.stock.lots());
        let below: Vec<&str> = below
            .filter(|(_, lot)| lot.packs() < 0)
            .map(|(name, _)| name.lot.as_str())
            .collect();
        if !below.is_empty() {
            let values = [("lots", below.join(", ").into())];
            body.push(' ');
            body.push_str(&self.words.say_with("shift-below", &values));
        }
        if let Some(site) = self.site.as_mut() {
            site.trail.clear();
            site.spot = Spot::Line;
            site.go(Spot::Shift);
            if site.to_settle() > 0 {
                site.go(Spot::Settle);
            }
        }
        self.telling = Some(told(&self.words, "shift-merged", body));
    }
}

/// A whole shift of a site; or why not.
fn shift_in(site: &Site, bytes: &[u8]) -> Result<(Scanned, Shift), &'static str> {
    let read = Scan::read_bytes(bytes);
    let read = match &site.key {
        Some(key) => read.open(key),
        None => read,
    };
    match read {
        Scan::Message(scanned) => match &scanned.message {
            Message::Shift(shift) if shift.of.is_none() => {
                let shift = shift.clone();
                Ok((*scanned, shift))
            }
            _ => Err("shift-not-one"),
        },
        Scan::Sealed(_) => Err("shift-sealed"),
        Scan::Newer => Err("receive-newer"),
        Scan::Part(_) | Scan::Damaged | Scan::SignatureWrong => Err("receive-damaged"),
        Scan::Foreign => Err("shift-not-one"),
    }
}

fn known_devices(site: &Site) -> BTreeMap<String, String> {
    let text = site.store.setting(KNOWN).ok().flatten();
    text.and_then(|text| serde_json::from_str(&text).ok())
        .unwrap_or_default()
}

/// The mark of the key with which a tablet signs, where its record was taken in here.
pub(super) fn mark_of(site: &Site, device: DeviceId) -> Option<String> {
    let device = device.0.to_string();
    let known = known_devices(site);
    let (key, _) = known.iter().find(|(_, of)| **of == device)?;
    let (pairs, _) = key.as_bytes().as_chunks::<2>();
    let bytes: Option<Vec<u8>> = pairs
        .iter()
        .map(|pair| u8::from_str_radix(std::str::from_utf8(pair).ok()?, 16).ok())
        .collect();
    Some(mark(&DeviceKey(bytes?.try_into().ok()?)))
}

/// Short enough to be read out to one another.
pub(super) fn mark(key: &DeviceKey) -> String {
    hex(&key.id())
}

pub(super) fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}
