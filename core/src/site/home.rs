//! One home as a site knows it: the codes it showed, what was asked and weighed here, and what it carried away.

use std::collections::{BTreeMap, BTreeSet};

use jiff::Timestamp;

use super::handed_out::HandedOut;
use crate::exchange::{DeviceKey, HouseholdCode, Message, OrderMark, Scan};
use crate::household::{Answer, HouseholdId, Weighing};
use crate::order::Order;
use crate::record::{Change, Conflict, Event, Fact, FactId, SiteEvent, Stamp, effective, readings};
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
    /// Corrections of its facts that contradict each other.
    pub conflicts: Vec<Conflict>,
    pub answers: BTreeMap<(u16, String), (Answer, Timestamp)>,
    pub weighings: BTreeMap<u16, Weighing>,
    /// Who wrote that weight down, where it was said.
    pub weighed_by: BTreeMap<u16, String>,
    /// Why a lead lifted a hold, by person and key.
    pub lifted: BTreeMap<(u16, String), String>,
    /// The first one first; without those that were undone.
    pub handed_out: Vec<HandedOut>,
    /// It was given over and forgotten here, and nothing was heard of it since.
    pub erased: bool,
    /// What stood when a hold was lifted, as that is what was lifted.
    pub(super) lifted_under: BTreeMap<(u16, String), Under>,
    /// Keys of the questions of other revisions, by which the places of answers are read.
    pub(super) questions: Vec<(OrderMark, Vec<String>)>,
}

/// What was known of one question when a lead lifted its hold.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Under {
    /// Number and time of the code that counted.
    pub(super) code: Option<(u32, Timestamp)>,
    /// What was answered here.
    pub(super) here: Option<(Answer, Timestamp)>,
}

/// A code as it was read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Seen {
    pub at: Timestamp,
    pub code: HouseholdCode,
    pub signer: DeviceKey,
}

impl Seen {
    /// The code of a home that was read at a moment; nothing for another text.
    pub fn of_text(text: &str, at: Timestamp) -> Option<Seen> {
        let (code, signer) = Seen::read(text)?;
        Some(Seen { at, code, signer })
    }

    /// What a text says as the code of a home, and who signed it.
    pub(super) fn read(text: &str) -> Option<(HouseholdCode, DeviceKey)> {
        let Scan::Message(scanned) = Scan::read(text) else {
            return None;
        };
        match scanned.message {
            Message::Household(code) => Some((code, scanned.signer)),
            _ => None,
        }
    }

    pub(super) fn told_at(&self) -> Timestamp {
        self.code.made.min(self.at)
    }
}

impl Home {
    /// Folds the facts about this home; others are left out. Nothing where none is about it.
    pub fn fold(id: HouseholdId, facts: &[Fact]) -> Option<Home> {
        let mut home = Home {
            id,
            words: None,
            seen: Vec::new(),
            conflicting: false,
            conflicts: Vec::new(),
            answers: BTreeMap::new(),
            weighings: BTreeMap::new(),
            weighed_by: BTreeMap::new(),
            lifted: BTreeMap::new(),
            handed_out: Vec::new(),
            erased: false,
            lifted_under: BTreeMap::new(),
            questions: Vec::new(),
        };
        let erased = erased_at(id, facts);
        // A correction never moves a fact to another home, nor from one to here.
        let is_mine = |fact: &Fact| home_of(&fact.event) == Some(id);
        let own: BTreeSet<FactId> = facts.iter().filter(|f| is_mine(f)).map(|f| f.id).collect();
        let stay: Vec<Fact>;
        let facts = if facts.iter().any(|fact| moves_away(fact, id)) {
            let kept = facts.iter().filter(|fact| !moves_away(fact, id));
            stay = kept.cloned().collect();
            stay.as_slice()
        } else {
            facts
        };
        let effective = effective(facts);
        let mine: Vec<(&Fact, &SiteEvent)> = effective
            .facts
            .iter()
            .filter_map(|fact| match &fact.event {
                Event::Site { site } if is_mine(fact) && own.contains(&fact.id) => {
                    Some((fact, site))
                }
                _ => None,
            })
            .collect();
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
        let stands = |id: &FactId| {
            let fact = facts.iter().find(|fact| fact.id == *id);
            fact.is_some_and(|fact| erased.is_none_or(|erased| fact.stamp > erased))
        };
        let conflicts = effective.conflicts.into_iter();
        home.conflicts = conflicts
            .filter(|said| own.contains(&said.target) && stands(&said.target))
            .collect();
        home.note_confirmed(facts);
        home.seen
            .sort_by_key(|seen| (seen.code.issue, seen.code.made));
        home.name_people();
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
                by,
                ..
            } => {
                if let Ok(weight) = BodyWeight::parse(weight) {
                    let weighing = Weighing {
                        weight,
                        on: Some(*on),
                        manner: *manner,
                        hold_lifted: false,
                    };
                    let before = self.weighings.get(person);
                    if before.is_none_or(|before| before.on <= weighing.on) {
                        self.weighings.insert(*person, weighing);
                        match by {
                            Some(by) => self.weighed_by.insert(*person, by.clone()),
                            None => self.weighed_by.remove(person),
                        };
                        // What was lifted was the hold on another weight.
                        self.lifted.remove(&(*person, IMPLAUSIBLE.to_owned()));
                    }
                }
            }
            SiteEvent::HomeHoldLifted {
                person,
                key,
                reason,
                ..
            } => {
                let of = (*person, key.clone());
                let codes = self.seen.iter();
                let under = Under {
                    code: codes.map(|seen| (seen.code.issue, seen.code.made)).max(),
                    here: self.answers.get(&of).copied(),
                };
                self.lifted_under.insert(of.clone(), under);
                self.lifted.insert(of, reason.clone());
            }
            SiteEvent::HandedOut { .. } => {
                let out = HandedOut::of(fact.id, fact.at, fact.stamp.device, site);
                self.handed_out.extend(out);
            }
            _ => {}
        }
    }

    /// Hand-outs that were looked at once more: a correction puts in their place what was there first.
    fn note_confirmed(&mut self, facts: &[Fact]) {
        let is_correction = |fact: &Fact| matches!(fact.event, Event::Correction { .. });
        if !facts.iter().any(is_correction) {
            return;
        }
        for out in &mut self.handed_out {
            let first = facts.iter().find(|fact| fact.id == out.fact);
            let mut readings = readings(facts, out.fact).into_iter();
            out.confirmed = readings.any(|reading| {
                let change = match &reading.correction.event {
                    Event::Correction { change, .. } => change,
                    _ => return false,
                };
                let is_put_back = matches!(change, Change::Replace { .. });
                is_put_back && reading.says.as_ref() == first.map(|first| &first.event)
            });
        }
    }

    /// Older hand-outs for a home together do not say for whom: for everybody, as far as anybody knows.
    fn name_people(&mut self) {
        for out in self
            .handed_out
            .iter_mut()
            .filter(|out| out.people.is_empty())
        {
            let shown = self.seen.iter().rfind(|seen| seen.code.issue == out.issue);
            let seen = shown.or(self.seen.last());
            let people = seen.into_iter().flat_map(|seen| &seen.code.people);
            out.people = people.map(|person| person.id).collect();
        }
    }

    /// A fact may come from another device: what it calls a code is read like any code.
    fn see(&mut self, fact: &Fact, code: &str) {
        let Some((code, signer)) = Seen::read(code) else {
            return;
        };
        let known = |seen: &Seen| seen.code == code && seen.signer == signer;
        if code.household == self.id && !self.seen.iter().any(known) {
            self.seen.push(Seen {
                at: fact.at,
                code,
                signer,
            });
        }
    }

    /// The newest code.
    pub fn code(&self) -> Option<&HouseholdCode> {
        self.seen.last().map(|seen| &seen.code)
    }

    /// When the newest code was made; not later than it was read, whatever clock made it.
    pub fn told_at(&self) -> Option<Timestamp> {
        self.seen.last().map(Seen::told_at)
    }

    /// Takes note of another revision of an order, so that the answers in its codes can be read.
    ///
    /// Answers stand in a code by their places only; those of an unknown revision are asked anew.
    pub fn learn(&mut self, order: &Order) {
        let mark = OrderMark::of(order);
        if !self.questions.iter().any(|(known, _)| *known == mark) {
            let keys = order.questions.iter().map(|question| question.key.clone());
            self.questions.push((mark, keys.collect()));
        }
    }
}

/// Code of the hold that a second weighing and a lead lift.
pub(super) const IMPLAUSIBLE: &str = "implausible-weight";

fn home_of(event: &Event) -> Option<HouseholdId> {
    match event {
        Event::Site { site } => site.home(),
        _ => None,
    }
}

/// Whether a correction says that its fact is about another home.
fn moves_away(fact: &Fact, from: HouseholdId) -> bool {
    let Event::Correction {
        change: Change::Replace { event, .. },
        ..
    } = &fact.event
    else {
        return false;
    };
    home_of(event).is_some_and(|home| home != from)
}

/// The last time the home was given over. As with a person, an erasure cannot be corrected.
fn erased_at(id: HouseholdId, facts: &[Fact]) -> Option<Stamp> {
    let erasures = facts.iter().filter(|fact| {
        matches!(&fact.event, Event::Site { site: SiteEvent::HomeErased { home, .. } } if *home == id)
    });
    erasures.map(|fact| fact.stamp).max()
}
