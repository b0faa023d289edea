//! What a round sets out to do; written down when it begins, so that later edits cannot change it.

use jiff::civil::Date;
use jiff::{SignedDuration, Timestamp};
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use crate::dose::DoseForm;
use crate::time::Now;
use crate::units::Volume;

/// A person, the same on every device.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(transparent)]
pub struct PersonId(pub Uuid);

/// A bowl, the same on every device.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(transparent)]
pub struct BowlId(pub Uuid);

/// Which revision of which order something was done under.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct OrderRef {
    pub id: String,
    pub revision: u32,
}

/// One round of the course: its day and its place in the course, from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct RoundKey {
    pub day: Date,
    pub index: u32,
}

/// What water and doses of one bowl are measured with.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Tool {
    Spoon,
    Syringe,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Source {
    New,
    /// Stands covered since an earlier round.
    Covered,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct RoundPlan {
    pub key: RoundKey,
    pub order: OrderRef,
    /// When the doses are due.
    pub at: Timestamp,
    pub bowls: Vec<PlannedBowl>,
    pub takes: Vec<PlannedTake>,
    /// From the second round on the reactions question comes first.
    pub asks_reactions: bool,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PlannedBowl {
    pub id: BowlId,
    /// The number a household knows it by: "bowl 3".
    pub number: u32,
    pub source: Source,
    pub tablets: u32,
    pub water: Volume,
    pub second_fluid: Option<Volume>,
    /// What is in it at the beginning of this round.
    pub holds: Volume,
    pub soak: SignedDuration,
    pub keep: SignedDuration,
    pub refrigerated: bool,
    /// When water met the tablet: the start of its life.
    pub water_at: Option<Now>,
    pub tool: Option<Tool>,
    /// Doses it is kept for after this round.
    pub later: Vec<LaterTake>,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct LaterTake {
    pub person: PersonId,
    pub name: String,
    pub round: RoundKey,
    pub at: Timestamp,
    pub amount: Volume,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PlannedTake {
    pub person: PersonId,
    pub name: String,
    pub form: DoseForm,
    /// None for whole tablets and ready-made liquid.
    pub bowl: Option<BowlId>,
    pub amount: Volume,
    pub tablets: Option<u32>,
    /// Food or drink that suits this person's age and allergies.
    pub foods: Vec<FoodChoice>,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct FoodChoice {
    pub name: String,
    pub at_least: Volume,
    pub sugar: Option<Volume>,
}
