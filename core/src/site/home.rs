//! One home as a site knows it: the codes it showed, what was asked and weighed here, and what it carried away.

use std::collections::BTreeMap;

use jiff::Timestamp;
use jiff::civil::Date;

use crate::exchange::{HouseholdCode, Message, PersonCode, Scan};
use crate::household::{Answer, HouseholdId, Person, Weighing};
use crate::order::Order;
use crate::record::{DeviceId, Event, Fact, FactId, HandOutLine, SiteEvent, Stamp, effective};
use crate::units::BodyWeight;

/// What the facts about one home add up to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Home {
    pub id: HouseholdId,
    /// How helpers find it: a name, a door.
    pub words: Option<String>,
    /// The codes it showed, the one that counts last.
    pub seen: Vec<Seen>,
    /// Two codes of one number do not say the same, or come from two devices.
    pub conflicting: bool,
    pub answers: BTreeMap<(u16, String), (Answer, Timestamp)>,
    pub weighings: BTreeMap<u16, Weighing>,
    /// Why a lead lifted a hold, by person and key.
    pub lifted: BTreeMap<(u16, String), String>,
    /// The first one first; without those that were undone.
    pub handed_out: Vec<HandedOut>,
    /// It was given over and forgotten here, and nothing was heard of it since.
    pub erased: bool,
}

/// A code as it was read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Seen {
    pub at: Timestamp,
    pub code: HouseholdCode,
    pub signer: crate::exchange::DeviceKey,
}

/// One hand-out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HandedOut {
    pub fact: FactId,
    pub at: Timestamp,
    pub device: DeviceId,
    pub issue: u32,
    pub lines: Vec<HandOutLine>,
    pub enough_until: Option<Date>,
    /// Why a lead let it go out, where it took one.
    pub lead: Option<String>,
}

impl Home {
    /// Folds the facts about this home; others are left out. Nothing where none is about it.
    pub fn fold(id: HouseholdId, facts: &[Fact]) -> Option<Home> {
        let mut home = Home {
            id,
            words: None,
            seen: Vec::new(),
            conflicting: false,
            answers: BTreeMap::new(),
            weighings: BTreeMap::new(),
            lifted: BTreeMap::new(),
            handed_out: Vec::new(),
            erased: false,
        };
        let effective = effective(facts).facts;
        let mine: Vec<(&Fact, &SiteEvent)> = effective
            .iter()
            .filter_map(|fact| match &fact.event {
                Event::Site { site } if site.home() == Some(id) => Some((fact, site)),
                _ => None,
            })
            .collect();
        let erased = erased_at(&mine);
        let kept = mine.iter().filter(|(fact, site)| {
            let is_erasure = matches!(site, SiteEvent::HomeErased { .. });
            !is_erasure && erased.is_none_or(|erased| fact.stamp > erased)
        });
        let mut any = false;
        for (fact, site) in kept {
            any = true;
            home.take(fact, site);
        }
        home.erased = erased.is_some() && !any;
        home.seen
            .sort_by_key(|seen| (seen.code.issue, seen.code.made));
        home.conflicting = home.seen.windows(2).any(|pair| match pair {
            [a, b] => a.signer != b.signer || (a.code.issue == b.code.issue && a.code != b.code),
            _ => false,
        });
        (any || home.erased).then_some(home)
    }

    fn take(&mut self, fact: &Fact, site: &SiteEvent) {
        match site {
            SiteEvent::HomeSeen { code, .. } => self.see(fact, code),
            SiteEvent::HomeNamed { words, .. } => self.words = Some(words.clone()),
            SiteEvent::HomeAnswered {
                person,
                key,
                answer,
                ..
            } => {
                self.answers
                    .insert((*person, key.clone()), (*answer, fact.at));
            }
            SiteEvent::HomeWeighed {
                person,
                weight,
                on,
                manner,
                ..
            } => {
                if let Ok(weight) = BodyWeight::parse(weight) {
                    let weighing = Weighing {
                        weight,
                        on: Some(*on),
                        manner: *manner,
                        hold_lifted: false,
                    };
                    self.weighings.insert(*person, weighing);
                }
            }
            SiteEvent::HomeHoldLifted {
                person,
                key,
                reason,
                ..
            } => {
                self.lifted.insert((*person, key.clone()), reason.clone());
            }
            SiteEvent::HandedOut {
                issue,
                lines,
                enough_until,
                lead,
                ..
            } => self.handed_out.push(HandedOut {
                fact: fact.id,
                at: fact.at,
                device: fact.stamp.device,
                issue: *issue,
                lines: lines.clone(),
                enough_until: *enough_until,
                lead: lead.clone(),
            }),
            _ => {}
        }
    }

    /// A fact may come from another device: what it calls a code is read like any code.
    fn see(&mut self, fact: &Fact, code: &str) {
        let Scan::Message(scanned) = Scan::read(code) else {
            return;
        };
        let Message::Household(code) = scanned.message else {
            return;
        };
        let known = |seen: &Seen| seen.code == code && seen.signer == scanned.signer;
        if code.household == self.id && !self.seen.iter().any(known) {
            self.seen.push(Seen {
                at: fact.at,
                code,
                signer: scanned.signer,
            });
        }
    }

    /// The newest code.
    pub fn code(&self) -> Option<&HouseholdCode> {
        self.seen.last().map(|seen| &seen.code)
    }

    /// A person of the newest code, with what was asked, weighed and lifted here since.
    pub fn person(&self, coded: &PersonCode, order: &Order) -> Person {
        let mut person = coded.person(order);
        if person.name.is_empty() {
            person.name = coded.id.to_string();
        }
        for ((_, key), (answer, _)) in self.answers.iter().filter(|((id, _), _)| *id == coded.id) {
            if key == BORN_EARLY {
                person.born_early = Some(*answer);
            } else {
                person.answers.insert(key.clone(), *answer);
            }
        }
        if let Some(here) = self.weighings.get(&coded.id)
            && person
                .weighing
                .as_ref()
                .is_none_or(|told| told.on <= here.on)
        {
            person.weighing = Some(here.clone());
        }
        let lifted = self.lifted.keys().filter(|(id, _)| *id == coded.id);
        for (_, key) in lifted {
            person.lifted.insert(key.clone());
        }
        if person.lifted.contains(IMPLAUSIBLE)
            && let Some(weighing) = &mut person.weighing
        {
            weighing.hold_lifted = true;
        }
        person
    }
}

/// Key of the question that no order asks.
const BORN_EARLY: &str = "born-early";
/// Code of the hold that a second weighing and a lead lift.
const IMPLAUSIBLE: &str = "implausible-weight";

fn erased_at(mine: &[(&Fact, &SiteEvent)]) -> Option<Stamp> {
    let erasures = mine
        .iter()
        .filter(|(_, site)| matches!(site, SiteEvent::HomeErased { .. }));
    erasures.map(|(fact, _)| fact.stamp).max()
}
