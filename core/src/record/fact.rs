//! One immutable line of a record.

use std::collections::BTreeSet;

use jiff::Timestamp;
use jiff::civil::{Date, Time};
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use super::site::SiteEvent;
use crate::household::{Answer, Manner};
use crate::prep::{BowlId, OrderRef, PersonId, RoundKey, RoundPlan, StepEvent};
use crate::time::{Now, Steady};

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(transparent)]
pub struct FactId(pub Uuid);

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(transparent)]
pub struct DeviceId(pub Uuid);

/// Hybrid logical clock: never behind anything this device has seen, whatever its wall clock says.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Hlc {
    pub millis: i64,
    pub counter: u32,
}

/// The next reading of a device's hybrid clock and its own running number.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Clock {
    pub last: Hlc,
    pub sequence: u64,
}

impl Clock {
    /// The reading for something that happens at `wall`.
    pub fn next(&mut self, wall: Timestamp) -> (Hlc, u64) {
        let millis = wall.as_millisecond();
        self.last = if millis > self.last.millis {
            Hlc { millis, counter: 0 }
        } else {
            Hlc {
                millis: self.last.millis,
                counter: self.last.counter.saturating_add(1),
            }
        };
        self.sequence = self.sequence.saturating_add(1);
        (self.last, self.sequence)
    }

    /// Takes note of a fact that came from elsewhere, or from the store.
    pub fn saw(&mut self, fact: &Fact, own: DeviceId) {
        self.last = self.last.max(fact.stamp.hlc);
        if fact.stamp.device == own {
            self.sequence = self.sequence.max(fact.stamp.sequence);
        }
    }
}

/// Where a fact stands in the one order of all facts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Stamp {
    pub hlc: Hlc,
    pub device: DeviceId,
    pub sequence: u64,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Fact {
    pub id: FactId,
    pub stamp: Stamp,
    /// The wall clock of the device at that moment.
    pub at: Timestamp,
    pub steady: Option<Steady>,
    /// The zone the device was in.
    pub zone: String,
    /// The order revision this was done under.
    pub order: Option<OrderRef>,
    pub event: Event,
}

impl Fact {
    pub fn now(&self) -> Now {
        Now {
            wall: self.at,
            steady: self.steady.clone(),
        }
    }
}

/// What happened.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "what", rename_all = "kebab-case")]
pub enum Event {
    HouseholdSet(HouseholdWords),
    PersonSet(PersonWords),
    /// Lives elsewhere now; so many tablets went along.
    PersonLeft {
        person: PersonId,
        #[serde(default)]
        tablets: u32,
    },
    /// Came from another household, with what was taken there under an order.
    Joined {
        person: PersonId,
        /// Id of the order the doses there were taken under.
        order: String,
        last_dose: Option<Timestamp>,
        /// Day 1 of this person's course.
        course_started: Option<Date>,
        /// Doses had so far, for orders that limit them.
        doses: u32,
        /// Tablets that came along.
        tablets: u32,
    },
    /// A clinician stopped this person's medicine.
    MedicineStopped {
        person: PersonId,
        by: String,
        reason: String,
    },
    Weighed {
        person: PersonId,
        weight: String,
        on: Date,
        manner: Manner,
    },
    Answered {
        person: PersonId,
        order: String,
        key: String,
        answer: Answer,
    },
    HoldLifted {
        person: PersonId,
        key: String,
        by: String,
        reason: String,
    },
    OrderTaken {
        order: OrderRef,
        fingerprint: String,
    },
    NoticeTaken {
        text: String,
    },
    /// A person confirmed that somebody takes the medicine of this order, in place of another one's where that is named.
    Follows {
        person: PersonId,
        order: String,
        instead_of: Option<String>,
    },
    /// Somebody takes the medicine of this order no more.
    FollowsNoMore {
        person: PersonId,
        order: String,
    },
    RoundBegun {
        plan: Box<RoundPlan>,
    },
    Step {
        round: RoundKey,
        event: StepEvent,
    },
    /// A whole round was not given: asleep, away, forgotten.
    RoundMissed {
        round: RoundKey,
        reason: String,
    },
    PacksReceived {
        product: String,
        lot: Option<String>,
        tablets: u32,
    },
    /// A person compared the mark of the key that signs a site's receipts with the one shown there.
    DeskCompared {
        /// The site's name on the receipt.
        site: String,
        /// The desk's signing key, 64 hexadecimal digits.
        key: String,
        /// Whether the marks were the same.
        same: bool,
    },
    Reaction {
        person: PersonId,
        lot: Option<String>,
        words: String,
    },
    /// The wall clock was moved by so many seconds; told to the person.
    ClockMoved {
        seconds: i64,
    },
    /// At a dispensing site.
    Site {
        site: SiteEvent,
    },
    Correction {
        target: FactId,
        change: Change,
    },
    /// Everything about a person is forgotten, here and after later merges.
    Erased {
        person: PersonId,
    },
}

/// What a correction does to its target.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "change", rename_all = "kebab-case")]
pub enum Change {
    Withdraw {
        /// Why, where somebody who answers for it said so. It belongs to what it corrects, and is forgotten with it.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        reason: Option<String>,
    },
    Replace {
        event: Box<Event>,
        /// As above.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        reason: Option<String>,
    },
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct HouseholdWords {
    pub name: String,
    pub zone: String,
    pub start: Date,
    pub rounds: Vec<Time>,
    pub first_dose_at: Option<Time>,
    /// Every round makes its own bowls and keeps none.
    #[serde(default)]
    pub fresh: bool,
    /// The demo household: nothing in it is about real people.
    pub practice: bool,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PersonWords {
    pub person: PersonId,
    pub name: String,
    pub born: Option<Date>,
    /// An age that was told, as typed: `3 y 2 mo`.
    pub told_age: Option<String>,
    pub adult: bool,
    /// `f`, `m` or not said.
    pub sex: Option<String>,
    pub swallows_tablets: bool,
    pub born_early: Option<Answer>,
    pub food_allergies: BTreeSet<String>,
    pub starts: Option<Date>,
    /// Screening was passed elsewhere and is stated as done.
    pub screened: bool,
}

impl Event {
    /// The person a fact is about, where it is about one.
    pub fn person(&self) -> Option<PersonId> {
        match self {
            Event::PersonSet(words) => Some(words.person),
            Event::PersonLeft { person, .. }
            | Event::Joined { person, .. }
            | Event::MedicineStopped { person, .. }
            | Event::Follows { person, .. }
            | Event::FollowsNoMore { person, .. }
            | Event::Weighed { person, .. }
            | Event::Answered { person, .. }
            | Event::HoldLifted { person, .. }
            | Event::Reaction { person, .. }
            | Event::Erased { person } => Some(*person),
            Event::Step {
                event:
                    StepEvent::Measured { person }
                    | StepEvent::FoodAdded { person, .. }
                    | StepEvent::Given { person }
                    | StepEvent::Outcome { person, .. }
                    | StepEvent::AnswerLater { person },
                ..
            } => Some(*person),
            _ => None,
        }
    }

    /// The bowl a fact is about, where it is about one.
    pub fn bowl(&self) -> Option<BowlId> {
        match self {
            Event::Step {
                event:
                    StepEvent::Covered { bowl }
                    | StepEvent::ThrownAway { bowl }
                    | StepEvent::StayedCold { bowl, .. },
                ..
            } => Some(*bowl),
            _ => None,
        }
    }
}
