//! What the records of several tablets leave for a person to settle, home by home.
//!
//! Until somebody does, the safer reading holds: both hand-outs count, a hand-out that only one tablet took back counts, and codes that do not agree go to the lead.

use std::collections::BTreeSet;

use jiff::Span;
use jiff::tz::TimeZone;

use super::handed_out::HandedOut;
use super::home::{Home, Seen};
use super::told::REFILL_OPENS;
use crate::record::{Conflict, Event, Fact, FactId, SiteEvent, put_right};

/// One thing to settle.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Matter {
    /// Corrections of one fact that do not say the same.
    Corrections(Conflict),
    /// Codes of one number that do not say the same, or come from two devices.
    Codes,
    /// Two tablets served the home, neither of which may have known of the other.
    Twice { first: FactId, second: FactId },
}

impl Home {
    /// In the order in which it is asked; empty where all agree.
    pub fn to_settle(&self) -> Vec<Matter> {
        let mut matters: Vec<Matter> = self
            .conflicts
            .iter()
            .cloned()
            .map(Matter::Corrections)
            .collect();
        matters.extend(self.conflicting.then_some(Matter::Codes));
        let contested: BTreeSet<FactId> = self.conflicts.iter().map(|said| said.target).collect();
        for (at, second) in self.handed_out.iter().enumerate() {
            if second.confirmed || contested.contains(&second.fact) {
                continue;
            }
            let mut before = self.handed_out.iter().take(at);
            let first = before.rfind(|first| {
                first.device != second.device
                    && !contested.contains(&first.fact)
                    && is_twice(first, second)
            });
            matters.extend(first.map(|first| Matter::Twice {
                first: first.fact,
                second: second.fact,
            }));
        }
        matters
    }

    /// Corrections by which this code is the one that every other stands for; nothing is taken away, so that two people who choose two codes see that they did.
    pub fn choose_code(&self, chosen: &Seen, facts: &[Fact], reason: &str) -> Vec<Event> {
        let code_of = |fact: &Fact| match &fact.event {
            Event::Site {
                site: SiteEvent::HomeSeen { home, code },
            } if *home == self.id => Some(code.clone()),
            _ => None,
        };
        let is_chosen = |code: &str| {
            Seen::read(code)
                .is_some_and(|(code, signer)| code == chosen.code && signer == chosen.signer)
        };
        let mut codes = facts.iter().filter_map(code_of);
        let Some(text) = codes.find(|code| is_chosen(code)) else {
            return Vec::new();
        };
        let to = Event::Site {
            site: SiteEvent::HomeSeen {
                home: self.id,
                code: text,
            },
        };
        let others = facts
            .iter()
            .filter(|fact| code_of(fact).is_some_and(|code| !is_chosen(&code)));
        others
            .flat_map(|fact| put_right(facts, fact.id, Some(&to), Some(reason)))
            .collect()
    }
}

/// Whether somebody got more of one product while what went out before was still enough.
pub fn is_twice(first: &HandedOut, other: &HandedOut) -> bool {
    let of_one_product = first.lines.iter().any(|line| {
        let mut others = other.lines.iter();
        others.any(|other| other.lot.product == line.lot.product)
    });
    let for_one_person = first
        .people
        .iter()
        .any(|person| other.people.contains(person))
        || first.people.is_empty()
        || other.people.is_empty();
    let (early, late) = if first.at <= other.at {
        (first, other)
    } else {
        (other, first)
    };
    let refill = Span::new().days(REFILL_OPENS);
    let opens = early
        .enough_until
        .and_then(|until| until.checked_sub(refill).ok());
    let day = TimeZone::UTC.to_datetime(late.at).date();
    of_one_product && for_one_person && opens.is_none_or(|opens| day < opens)
}
