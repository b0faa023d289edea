//! What the facts of one household add up to.

use std::collections::{BTreeMap, BTreeSet};

use jiff::Timestamp;
use jiff::civil::Date;

use super::correct::Conflict;
use super::fact::{FactId, HouseholdWords};
use crate::household::{Manner, Person, Weighing};
use crate::order::Notice;
use crate::prep::{BowlId, OrderRef, Outcome, PersonId, PlannedBowl, Prep, RoundKey};
use crate::time::Now;
use crate::units::{BodyWeight, Volume};

#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct State {
    pub household: Option<HouseholdWords>,
    pub people: BTreeMap<PersonId, PersonRecord>,
    /// In the order in which people were entered.
    pub seats: Vec<PersonId>,
    pub order: Option<OrderRef>,
    /// Bowls that were made, by id.
    pub bowls: BTreeMap<BowlId, BowlRecord>,
    pub doses: Vec<DoseRecord>,
    /// The round under way, or finished but not followed by another; without those whose dose another device noted.
    pub round: Option<OpenRound>,
    /// Rounds that were begun or missed.
    pub rounds_begun: BTreeSet<RoundKey>,
    pub rounds_missed: BTreeSet<RoundKey>,
    /// Tablets used for bowls, swallowed whole, or lost.
    pub tablets_used: u64,
    /// Tablets from packs, or brought along by people who joined.
    pub tablets_received: u64,
    /// Tablets that went along with people who left.
    pub tablets_taken_along: u64,
    /// Highest number given to a bowl.
    pub last_bowl: u32,
    /// The same dose recorded on two devices: "may have had it twice".
    pub doubled: Vec<(PersonId, RoundKey)>,
    /// Notices taken in, each once.
    pub notices: Vec<Notice>,
    /// In the order in which they were received.
    pub packs: Vec<PackRecord>,
    pub conflicts: Vec<Conflict>,
    pub waiting: Vec<FactId>,
    /// Events that did not fit the round they belong to; kept, counted and told.
    pub misfits: Vec<FactId>,
    /// The latest wall time and the last moment of any fact.
    pub latest: Option<Timestamp>,
    pub last: Option<Now>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PersonRecord {
    pub person: Person,
    pub left: bool,
    /// What stopped this person's medicine; only a lift of each by its key ends it.
    pub stops: BTreeSet<Stop>,
    /// What was taken in another household, by the id of its order.
    pub elsewhere: BTreeMap<String, Elsewhere>,
    /// Rounds in a row whose dose came back up, since a hold for them was last lifted.
    pub came_back_up: BTreeSet<RoundKey>,
    /// The weighing before one at home that was lighter by less than a scale's error, until a second one is lighter too.
    pub before_small_loss: Option<Weighing>,
}

/// Why somebody takes no medicine until it is lifted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stop {
    Reaction,
    Clinician,
}

impl Stop {
    /// The key by which `HoldLifted` names it.
    pub fn key(self) -> &'static str {
        match self {
            Stop::Reaction => "reaction",
            Stop::Clinician => "stopped",
        }
    }
}

/// What somebody brought along from another household.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Elsewhere {
    pub last_dose: Option<Timestamp>,
    pub course_started: Option<Date>,
    pub doses: u32,
    /// When this person came.
    pub joined: Timestamp,
}

impl PersonRecord {
    pub fn is_stopped(&self) -> bool {
        !self.stops.is_empty()
    }

    /// Somebody of whom nothing is known but who it is.
    pub fn of(person: Person) -> PersonRecord {
        PersonRecord {
            person,
            left: false,
            stops: BTreeSet::new(),
            elsewhere: BTreeMap::new(),
            came_back_up: BTreeSet::new(),
            before_small_loss: None,
        }
    }

    /// Takes a new weighing; whether a small loss counts already is for those to say who know the rows.
    pub fn weigh(&mut self, new: Weighing) {
        let lighter = |old: &Weighing| old.weight.as_picograms() > new.weight.as_picograms();
        let confirmed = self
            .before_small_loss
            .take()
            .is_some_and(|old| lighter(&old));
        let at_home = matches!(new.manner, Manner::Alone | Manner::Together | Manner::Told);
        let old = self.person.weighing.replace(new.clone());
        let small = |old: &Weighing| {
            let error = BodyWeight::scale_error().as_picograms();
            lighter(old) && old.weight.distance(&new.weight) < error
        };
        self.before_small_loss = old.filter(|old| at_home && !confirmed && small(old));
    }
}

/// A bowl that was made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BowlRecord {
    pub bowl: PlannedBowl,
    pub made_in: RoundKey,
    pub taken: Volume,
    /// Still standing covered.
    pub covered: bool,
}

/// A pack, or several of one lot, as received.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PackRecord {
    pub product: String,
    pub lot: Option<String>,
    pub tablets: u32,
    pub at: Timestamp,
    /// Id of the order they were received for.
    pub order: Option<String>,
}

/// What became of one dose.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DoseRecord {
    pub person: PersonId,
    pub round: RoundKey,
    pub at: Timestamp,
    pub outcome: Outcome,
    pub short: bool,
    pub amount: Volume,
    pub tablets: Option<u32>,
    pub order: Option<OrderRef>,
    pub fact: FactId,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OpenRound {
    pub prep: Prep,
    pub began: Now,
}

/// The hold on somebody whose last two doses came back up, as `HoldLifted` names it.
pub const VOMITED_TWICE: &str = "vomited-twice";

impl State {
    /// Whether this person has no dose until somebody lifts the hold: two in a row came back up.
    pub fn hold_after(&self, person: PersonId) -> bool {
        let record = self.people.get(&person);
        record.is_some_and(|record| record.came_back_up.len() >= 2)
    }

    /// The last dose that was at least partly swallowed by this person.
    pub fn last_dose(&self, person: PersonId) -> Option<&DoseRecord> {
        self.doses
            .iter()
            .filter(|d| d.person == person && d.outcome != Outcome::WouldNotTake)
            .max_by_key(|d| d.at)
    }

    /// Doses this person has had in this household.
    pub fn doses_of(&self, person: PersonId) -> usize {
        self.doses
            .iter()
            .filter(|d| d.person == person && d.outcome != Outcome::WouldNotTake)
            .count()
    }

    /// What this person took of an order in another household.
    pub fn elsewhere(&self, person: PersonId, order: &str) -> Option<&Elsewhere> {
        self.people.get(&person)?.elsewhere.get(order)
    }

    /// Tablets that should still be in the house, by what was received, used and taken along.
    pub fn tablets_left(&self) -> u64 {
        let gone = self.tablets_used.saturating_add(self.tablets_taken_along);
        self.tablets_received.saturating_sub(gone)
    }

    /// Bowls that stand covered, oldest first.
    pub fn covered(&self) -> Vec<&BowlRecord> {
        let mut bowls: Vec<&BowlRecord> = self.bowls.values().filter(|b| b.covered).collect();
        bowls.sort_by_key(|b| b.bowl.number);
        bowls
    }

    pub fn people(&self) -> impl Iterator<Item = (PersonId, &PersonRecord)> {
        self.seats
            .iter()
            .filter_map(|id| self.people.get(id).map(|p| (*id, p)))
            .filter(|(_, p)| !p.left)
    }
}
