//! The readings of a matter in words: who says it, when, and what.

use hearthdose_core::exchange::{PersonCode, is_private};
use hearthdose_core::household::Answer;
use hearthdose_core::record::{Change, DeviceId, Event, Fact, FactId, SiteEvent, readings};
use hearthdose_core::site::{HandedOut, Matter, Seen};
use jiff::Timestamp;
use jiff::tz::TimeZone;

use super::settle::Settling;
use super::shift;
use crate::vm::Kitchen;

/// One reading, and what choosing it means.
pub(super) struct Side {
    pub(super) title: String,
    pub(super) detail: String,
    pub(super) drawing: &'static str,
    pub(super) to: To,
}

/// What holds once a side was chosen.
pub(super) enum To {
    /// The fact says this; or it is taken away.
    Says(FactId, Option<Event>),
    /// This one of the codes.
    Code(usize),
}

impl Kitchen {
    pub(super) fn sides(&self, settling: &Settling) -> Vec<Side> {
        match &settling.matter {
            Matter::Twice { first, second } => self.sides_of_two(settling, *first, *second),
            Matter::Codes => self.sides_of_codes(&settling.home.seen),
            Matter::Corrections(said) => self.sides_of_corrections(settling, said.target),
        }
    }

    /// Both hand-outs were right, or one of them is taken back.
    fn sides_of_two(&self, settling: &Settling, first: FactId, second: FactId) -> Vec<Side> {
        let outs = &settling.home.handed_out;
        let wrong = [
            (first, "settle-first-wrong"),
            (second, "settle-second-wrong"),
        ];
        let mut sides: Vec<Side> = wrong
            .into_iter()
            .filter_map(|(fact, title)| {
                let out = outs.iter().find(|out| out.fact == fact)?;
                Some(Side {
                    title: self.words.say(title),
                    detail: self.out_words(out),
                    drawing: "boxes-lots",
                    to: To::Says(fact, None),
                })
            })
            .collect();
        let second = settling.facts.iter().find(|fact| fact.id == second);
        sides.extend(second.map(|fact| Side {
            title: self.words.say("settle-both"),
            detail: self.words.say("settle-both-detail"),
            drawing: "household",
            to: To::Says(fact.id, Some(fact.event.clone())),
        }));
        sides
    }

    /// "April 3, 10:02 a.m., this tablet: 2 packs of 20 tablets. Lot QD9000".
    fn out_words(&self, out: &HandedOut) -> String {
        let mut words = format!(
            "{} {}",
            self.who_words(out.at, out.device),
            self.handed_out_words(out)
        );
        if let Some(reason) = &out.lead {
            words.push(' ');
            words.push_str(&self.said_words(reason));
        }
        words
    }

    fn said_words(&self, reason: &str) -> String {
        self.words
            .say_with("settle-said", &[("reason", reason.into())])
    }

    pub(super) fn who_words(&self, at: Timestamp, device: DeviceId) -> String {
        let zone = self.zone_here();
        let values = [
            ("day", self.words.date(zone.to_datetime(at).date()).into()),
            ("time", self.words.clock(at, &zone).into()),
            ("tablet", self.tablet_words(device).into()),
        ];
        self.words.say_with("settle-who", &values)
    }

    fn tablet_words(&self, device: DeviceId) -> String {
        let site = self.site.as_ref();
        if site.is_some_and(|site| site.device == device) {
            return self.words.say("settle-here");
        }
        let mark = site.and_then(|site| shift::mark_of(site, device));
        match mark {
            Some(mark) => self
                .words
                .say_with("settle-tablet", &[("mark", mark.into())]),
            None => self.words.say("settle-elsewhere"),
        }
    }

    /// Codes are told apart by when they were made, and by what only some of them say of a person.
    fn sides_of_codes(&self, seen: &[Seen]) -> Vec<Side> {
        let said = |seen: &Seen| -> Vec<String> {
            let people = seen.code.people.iter();
            people.map(|person| self.coded_words(person)).collect()
        };
        let all: Vec<Vec<String>> = seen.iter().map(said).collect();
        let is_shared = |line: &String| all.iter().all(|lines| lines.contains(line));
        let codes = seen.iter().zip(&all).enumerate();
        codes
            .map(|(index, (seen, lines))| {
                let mut details = vec![self.made_words(seen)];
                details.extend(lines.iter().filter(|line| !is_shared(line)).cloned());
                if details.len() == 1 {
                    details.push(self.words.say("settle-same"));
                }
                Side {
                    title: self.code_words(seen),
                    detail: details.join(" "),
                    drawing: "show-code",
                    to: To::Code(index),
                }
            })
            .collect()
    }

    fn code_words(&self, seen: &Seen) -> String {
        let values = [
            ("number", seen.code.issue.to_string().into()),
            ("count", seen.code.people.len().into()),
        ];
        self.words.say_with("settle-code", &values)
    }

    fn made_words(&self, seen: &Seen) -> String {
        let (made, zone) = (seen.code.made, self.zone_here());
        let values = [
            ("day", self.words.date(zone.to_datetime(made).date()).into()),
            ("time", self.words.clock(made, &zone).into()),
            ("mark", shift::mark(&seen.signer).into()),
        ];
        self.words.say_with("settle-made", &values)
    }

    fn zone_here(&self) -> TimeZone {
        let site = self.site.as_ref();
        site.map_or(TimeZone::UTC, |site| self.site_zone(site))
    }

    /// "Bram: 3 y 2 mo, 31 lb 4 oz. Tablets left: 6."
    fn coded_words(&self, person: &PersonCode) -> String {
        let number = [("number", person.id.to_string().into())];
        let name = person.nickname.clone();
        let name = name.unwrap_or_else(|| self.words.say_with("desk-person-number", &number));
        let weight = person.weighing.as_ref();
        let weight = weight.map(|weighing| weighing.weight.typed().to_owned());
        let weight = weight.unwrap_or_else(|| self.words.say("no-weight"));
        let line = format!("{name}: {}, {weight}.", self.coded_age_words(person.age));
        match person.left {
            Some(left) => {
                let left = [("count", left.to_string().into())];
                format!("{line} {}", self.words.say_with("settle-left", &left))
            }
            None => line,
        }
    }

    /// What each correction makes of an entry; those that say the same stand together.
    fn sides_of_corrections(&self, settling: &Settling, target: FactId) -> Vec<Side> {
        let Some(first) = settling.facts.iter().find(|fact| fact.id == target) else {
            return Vec::new();
        };
        let mut sides: Vec<Side> = Vec::new();
        for reading in readings(&settling.facts, target) {
            let by = self.correction_words(&reading.correction);
            let same = sides
                .iter_mut()
                .find(|side| matches!(&side.to, To::Says(_, says) if *says == reading.says));
            match same {
                Some(side) => side.detail = format!("{} {by}", side.detail),
                None => sides.push(Side {
                    title: self.says_words(first, reading.says.as_ref()),
                    detail: by,
                    drawing: "order-paper",
                    to: To::Says(target, reading.says),
                }),
            }
        }
        sides
    }

    fn correction_words(&self, correction: &Fact) -> String {
        let who = self.who_words(correction.at, correction.stamp.device);
        let reason = match &correction.event {
            Event::Correction {
                change: Change::Withdraw { reason } | Change::Replace { reason, .. },
                ..
            } => reason.as_deref(),
            _ => None,
        };
        match reason {
            Some(reason) => format!("{who} {}", self.said_words(reason)),
            None => who,
        }
    }

    /// What an entry comes to by one reading.
    fn says_words(&self, first: &Fact, says: Option<&Event>) -> String {
        let words = &self.words;
        let is_out = matches!(
            &first.event,
            Event::Site {
                site: SiteEvent::HandedOut { .. }
            }
        );
        let site = match says {
            None if is_out => return words.say("settle-back"),
            None => return words.say("settle-gone"),
            Some(Event::Site { site }) => site,
            Some(_) => return words.say("settle-other"),
        };
        match site {
            SiteEvent::HandedOut { .. } => words.say("settle-out"),
            SiteEvent::HomeSeen { code, .. } => {
                let seen = Seen::of_text(code, first.at);
                seen.map_or_else(|| words.say("settle-other"), |seen| self.code_words(&seen))
            }
            SiteEvent::HomeNamed { words, .. } => words.clone(),
            SiteEvent::HomeWeighed { weight, .. } => weight.clone(),
            SiteEvent::HomeAnswered { key, .. } if is_private(key) => words.say("desk-asked-aside"),
            SiteEvent::HomeAnswered { answer, .. } => words.say(match answer {
                Answer::Yes => "yes",
                Answer::No => "no",
                Answer::Unsure => "unsure",
            }),
            SiteEvent::HomeHoldLifted { reason, .. } => self.said_words(reason),
            _ => words.say("settle-other"),
        }
    }
}
