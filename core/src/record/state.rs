//! What the facts of one household add up to.

use std::collections::{BTreeMap, BTreeSet};

use jiff::Timestamp;
use jiff::civil::Date;

use super::correct::Conflict;
use super::fact::{FactId, HouseholdWords};
use crate::household::{Answer, Manner, Person, Weighing};
use crate::order::Notice;
use crate::prep::{BowlId, OrderRef, Outcome, PersonId, PlannedBowl, Prep, RoundKey};
use crate::time::Now;
use crate::units::{BodyWeight, Volume};

/// One round of one order. Two orders may both have a first round on one day.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct RoundName {
    /// Id of the order, whatever its revision.
    pub order: String,
    pub key: RoundKey,
}

/// Tablets of one order.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Tablets {
    /// From packs, or brought along by people who joined.
    pub received: u64,
    /// For bowls, swallowed whole, or lost.
    pub used: u64,
    /// Went along with people who left.
    pub taken_along: u64,
}

impl Tablets {
    /// What should still be in the house.
    pub fn left(self) -> u64 {
        let gone = self.used.saturating_add(self.taken_along);
        self.received.saturating_sub(gone)
    }
}

#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct State {
    pub household: Option<HouseholdWords>,
    pub people: BTreeMap<PersonId, PersonRecord>,
    /// In the order in which people were entered.
    pub seats: Vec<PersonId>,
    /// Orders this household has taken, the first taken first, each with its newest revision.
    pub orders: Vec<OrderRef>,
    /// Bowls that were made, by id.
    pub bowls: BTreeMap<BowlId, BowlRecord>,
    pub doses: Vec<DoseRecord>,
    /// By order the round under way, or finished but not followed by another; without those whose dose another device noted.
    pub open_rounds: BTreeMap<String, OpenRound>,
    /// Rounds that were begun or missed.
    pub rounds_begun: BTreeSet<RoundName>,
    pub rounds_missed: BTreeSet<RoundName>,
    /// Tablets by the order they belong to.
    pub tablets: BTreeMap<String, Tablets>,
    /// Highest number given to a bowl, whatever order it belongs to.
    pub last_bowl: u32,
    /// The same dose recorded on two devices: "may have had it twice".
    pub doubled: Vec<(PersonId, RoundName)>,
    /// Notices taken in, each once.
    pub notices: Vec<Notice>,
    /// In the order in which they were received.
    pub packs: Vec<PackRecord>,
    /// Desks whose mark was compared, by their signing key as hexadecimal digits; what was said last.
    pub desks: BTreeMap<String, DeskRecord>,
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
    pub came_back_up: BTreeSet<RoundName>,
    /// The weighing before one at home that was lighter by less than a scale's error, until a second one is lighter too.
    pub before_small_loss: Option<Weighing>,
    /// Answers by the id of the order that asks; those of the first order stand in `person` as well.
    pub answers: BTreeMap<String, BTreeMap<String, Answer>>,
    /// Keys of lifted holds by the id of the order they were lifted under.
    pub lifted: BTreeMap<String, BTreeSet<String>>,
    /// What was said about following an order, by its id and in the order in which it was said.
    pub follows: Vec<(String, bool)>,
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
    /// The person with the answers and lifted holds of one order.
    ///
    /// A screening stated as passed was one for the order that everybody follows; `first` says whether this is it.
    pub fn under(&self, order: &str, first: bool) -> Person {
        let mut person = self.person.clone();
        person.cleared &= first;
        if !self.answers.is_empty() {
            person.answers = self.answers.get(order).cloned().unwrap_or_default();
        }
        if !self.lifted.is_empty() {
            let own = self.lifted.get(order).into_iter();
            let lifted = own.chain(self.lifted.get("")).flatten();
            person.lifted = lifted.cloned().collect();
        }
        person
    }

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
            answers: BTreeMap::new(),
            lifted: BTreeMap::new(),
            follows: Vec::new(),
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
    /// Id of its order; a bowl is never shared between orders.
    pub order: String,
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

/// What was said of one desk of a dispensing site.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DeskRecord {
    /// The site's name on the receipt that was compared.
    pub site: String,
    /// Whether its mark was the one shown at the site.
    pub same: bool,
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

impl DoseRecord {
    /// Whether it is a dose of this order, whatever the revision.
    pub fn is_under(&self, order: &str) -> bool {
        self.order.as_ref().is_some_and(|own| own.id == order)
    }
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OpenRound {
    pub prep: Prep,
    pub began: Now,
}

/// The hold on somebody whose last two doses came back up, as `HoldLifted` names it.
pub const VOMITED_TWICE: &str = "vomited-twice";

impl State {
    /// The order that everybody follows unless something else was said: the one taken first.
    pub fn first_order(&self) -> Option<&OrderRef> {
        self.orders.first()
    }

    /// The open round of the first order; of any order while none was taken.
    pub fn round(&self) -> Option<&OpenRound> {
        match self.first_order() {
            Some(first) => self.round_of(&first.id),
            None => self.open_rounds.values().next_back(),
        }
    }

    /// The open round of an order.
    pub fn round_of(&self, order: &str) -> Option<&OpenRound> {
        self.open_rounds.get(order)
    }

    /// Whether somebody takes the medicine of this order: as was said last of it, else if it is the first order, or none was taken.
    pub fn follows(&self, person: PersonId, order: &str) -> bool {
        let record = self.people.get(&person);
        let said = record.into_iter().flat_map(|record| &record.follows);
        match said.rev().find(|(of, _)| of == order) {
            Some((_, follows)) => *follows,
            None => self.first_order().is_none_or(|first| first.id == order),
        }
    }

    /// The orders somebody follows, of those taken: first the one followed longest.
    pub fn orders_of(&self, person: PersonId) -> Vec<&OrderRef> {
        let record = self.people.get(&person);
        let since = |order: &OrderRef| {
            let said = record
                .into_iter()
                .flat_map(|record| record.follows.iter().enumerate());
            // The beginning of the last run of "follows".
            let mut since = 0;
            let mut before = self.first_order().is_some_and(|first| first.id == order.id);
            for (index, (_, follows)) in said.filter(|(_, (of, _))| *of == order.id) {
                if *follows && !before {
                    since = index.saturating_add(1);
                }
                before = *follows;
            }
            since
        };
        let mut orders: Vec<&OrderRef> = self
            .orders
            .iter()
            .filter(|order| self.follows(person, &order.id))
            .collect();
        orders.sort_by_key(|order| since(order));
        orders
    }

    /// Whether this person has no dose until somebody lifts the hold: two in a row of one order came back up.
    pub fn hold_after(&self, person: PersonId) -> bool {
        let rounds = self.people.get(&person).map(|record| &record.came_back_up);
        let mut rounds = rounds.into_iter().flatten();
        let mut before: Option<&RoundName> = None;
        // Sorted by order first, so two of one order are neighbours.
        rounds.any(|round| {
            let twice = before.is_some_and(|before| before.order == round.order);
            before = Some(round);
            twice
        })
    }

    /// The last dose of any order that was at least partly swallowed by this person.
    pub fn last_dose(&self, person: PersonId) -> Option<&DoseRecord> {
        self.swallowed(person).max_by_key(|d| d.at)
    }

    /// The last dose of one order.
    pub fn last_dose_under(&self, person: PersonId, order: &str) -> Option<&DoseRecord> {
        let doses = self.swallowed(person).filter(|dose| dose.is_under(order));
        doses.max_by_key(|dose| dose.at)
    }

    /// Doses this person has had in this household, of all orders.
    pub fn doses_of(&self, person: PersonId) -> usize {
        self.swallowed(person).count()
    }

    /// Doses of one order, for orders that limit them.
    pub fn doses_under(&self, person: PersonId, order: &str) -> usize {
        let doses = self.swallowed(person);
        doses.filter(|dose| dose.is_under(order)).count()
    }

    fn swallowed(&self, person: PersonId) -> impl Iterator<Item = &DoseRecord> {
        self.doses
            .iter()
            .filter(move |d| d.person == person && d.outcome != Outcome::WouldNotTake)
    }

    /// What this person took of an order in another household.
    pub fn elsewhere(&self, person: PersonId, order: &str) -> Option<&Elsewhere> {
        self.people.get(&person)?.elsewhere.get(order)
    }

    /// Tablets of an order.
    pub fn tablets_of(&self, order: &str) -> Tablets {
        self.tablets.get(order).copied().unwrap_or_default()
    }

    /// Tablets of all orders together.
    pub fn all_tablets(&self) -> Tablets {
        let add = |sum: Tablets, one: &Tablets| Tablets {
            received: sum.received.saturating_add(one.received),
            used: sum.used.saturating_add(one.used),
            taken_along: sum.taken_along.saturating_add(one.taken_along),
        };
        self.tablets.values().fold(Tablets::default(), add)
    }

    /// Bowls that stand covered, of all orders, oldest first.
    pub fn covered(&self) -> Vec<&BowlRecord> {
        let mut bowls: Vec<&BowlRecord> = self.bowls.values().filter(|b| b.covered).collect();
        bowls.sort_by_key(|b| b.bowl.number);
        bowls
    }

    /// Bowls of one order that stand covered, oldest first.
    pub fn covered_under(&self, order: &str) -> Vec<&BowlRecord> {
        let mut bowls = self.covered();
        bowls.retain(|bowl| bowl.order == order);
        bowls
    }

    pub fn people(&self) -> impl Iterator<Item = (PersonId, &PersonRecord)> {
        self.seats
            .iter()
            .filter_map(|id| self.people.get(id).map(|p| (*id, p)))
            .filter(|(_, p)| !p.left)
    }
}
