//! What a person did in a round, what it led to, and why it may not be taken.

use std::collections::BTreeSet;

use jiff::SignedDuration;
use serde::{Deserialize, Serialize};

use super::plan::{BowlId, PersonId, Tool};

/// One thing done in a round; each is a fact of the record.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "step", rename_all = "kebab-case")]
pub enum StepEvent {
    /// Rash, swelling or trouble breathing since the last dose: these people stop.
    Reactions {
        people: BTreeSet<PersonId>,
    },
    /// "Did it stay cold?", asked about a bowl that stood in the refrigerator.
    StayedCold {
        bowl: BowlId,
        cold: bool,
    },
    /// The bottle's label was compared with the order.
    Label {
        matches: bool,
    },
    ToolChosen {
        tool: Tool,
    },
    /// Water met the tablets of every bowl still to make.
    WaterIn,
    /// The soak is over and crushing begins.
    Crush,
    Crushed,
    /// "No pieces left?"
    Smooth {
        smooth: bool,
    },
    SecondFluidIn,
    Stirred,
    Measured {
        person: PersonId,
    },
    FoodAdded {
        person: PersonId,
        food: Option<String>,
    },
    Given {
        person: PersonId,
    },
    Outcome {
        person: PersonId,
        outcome: Outcome,
    },
    /// "I will answer later."
    AnswerLater {
        person: PersonId,
    },
    Covered {
        bowl: BowlId,
    },
    ThrownAway {
        bowl: BowlId,
    },
    WentWrong {
        what: Wrong,
    },
}

/// What became of a dose.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Outcome {
    All,
    Some,
    CameBackUp,
    WouldNotTake,
}

/// Something went wrong; `instead` names the bowl to be made in its place, when one is needed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "wrong", rename_all = "kebab-case")]
pub enum Wrong {
    /// Spilt, burnt, knocked over, mixed up: the bowl is gone.
    BowlLost { bowl: BowlId, instead: BowlId },
    /// A measured dose, or whole tablets, were lost before they were swallowed.
    DoseDropped { person: PersonId, instead: BowlId },
    /// The last dose of a bowl comes up short: give what is there.
    RanShort { person: PersonId },
}

/// Why an event was not taken. Nothing has changed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Stay {
    /// The soak is not over; so much is left at most.
    NotYet {
        left: SignedDuration,
    },
    /// It does not belong to the present step.
    OtherStep,
    /// The bottle does not match the order: stop and call.
    LabelDiffers,
    /// A bowl is too old and must be thrown away first.
    TooOld {
        bowl: BowlId,
    },
    NoSuchBowl,
    NoSuchPerson,
    /// The name for a new bowl is taken already.
    BowlKnown,
}

/// What applying an event gives.
pub type Answered = Result<super::Prep, Stay>;
