//! One round at the kitchen table, as a state machine without a clock of its own.
//!
//! ```text
//! reactions → (stayed cold?) → gather → soak → crush → smooth? → (second fluid) → stir
//!           → for each person: measure → food or drink → give → outcome
//!           → for each bowl: cover, or throw away → done
//! ```
//!
//! A round is its plan and what has happened; the [`Stage`] follows from the two and the moment.
//! An event is either taken, and gives the next round state, or not, and says why ([`Stay`]).
//! A timer is a moment in the record, never a running thing: whoever asks again after a restart gets the same answer.
//! A bowl that is too old puts itself in the way of everything else until it is thrown away.

mod apply;
mod event;
mod plan;
mod stage;
mod wrong;

use std::collections::BTreeSet;

use jiff::{SignedDuration, Timestamp};

pub use event::{Answered, Outcome, Stay, StepEvent, Wrong};
pub use plan::{
    BowlId, FoodChoice, LaterTake, OrderRef, PersonId, PlannedBowl, PlannedTake, RoundKey,
    RoundPlan, Source, Tool,
};
pub use stage::{STITCHES, Stage, ThrowAwayWhy};

use crate::time::{AtMost, Now};
use crate::units::Volume;

/// A round under way, or finished.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Prep {
    pub plan: RoundPlan,
    pub reactions: Option<BTreeSet<PersonId>>,
    pub label_matched: bool,
    /// The tool for the bowls made in this round.
    pub tool: Option<Tool>,
    pub bowls: Vec<Brew>,
    pub takes: Vec<Taking>,
    /// The latest wall time any event of this round, or before it, was recorded at.
    pub latest: Timestamp,
}

/// A bowl in this round.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Brew {
    pub bowl: PlannedBowl,
    pub state: BrewState,
    /// What was measured out of it in this round.
    pub taken: Volume,
    /// The second fluid is in it, or it needs none.
    pub fluid_in: bool,
    /// It stood in the refrigerator, and somebody said that it stayed cold.
    pub stayed_cold: bool,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub enum BrewState {
    ToMake,
    /// Water met the tablet; `water` is the start of the bowl's life.
    Soaking,
    Softened,
    Crushed,
    Smooth,
    Ready,
    Covered,
    Empty,
    Thrown,
}

/// How far one person's dose has come.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Taking {
    pub take: PlannedTake,
    pub step: TakeStep,
    /// The bowl gave less than planned at the end.
    pub short: bool,
    pub food: Option<String>,
    pub outcome: Option<Outcome>,
    /// "I will answer later."
    pub later: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum TakeStep {
    ToMeasure,
    Measured,
    WithFood,
    Given,
    Closed,
}

impl Prep {
    /// Sets out a planned round.
    pub fn begin(plan: RoundPlan, latest: Timestamp) -> Prep {
        let bowls = plan
            .bowls
            .iter()
            .map(|bowl| Brew::new(bowl.clone()))
            .collect();
        let takes = plan
            .takes
            .iter()
            .map(|take| Taking::new(take.clone()))
            .collect();
        Prep {
            plan,
            reactions: None,
            label_matched: false,
            tool: None,
            bowls,
            takes,
            latest,
        }
    }

    pub fn brew(&self, bowl: BowlId) -> Option<&Brew> {
        self.bowls.iter().find(|brew| brew.bowl.id == bowl)
    }

    /// How long a bowl still keeps: zero or less is too old.
    pub fn keeps_for(&self, brew: &Brew, now: &Now) -> Option<SignedDuration> {
        let water = brew.bowl.water_at.as_ref()?;
        Some(match now.at_most_since(water, self.latest) {
            AtMost::Known(age) => brew.bowl.keep - age,
            AtMost::Unknown => SignedDuration::ZERO,
        })
    }

    pub(crate) fn too_old(&self, brew: &Brew, now: &Now) -> bool {
        brew.is_open()
            && self
                .keeps_for(brew, now)
                .is_some_and(|left| left <= SignedDuration::ZERO)
    }

    pub fn is_done(&self, now: &Now) -> bool {
        self.stage(now) == Stage::Done
    }
}

impl Brew {
    pub(crate) fn new(bowl: PlannedBowl) -> Brew {
        let state = match bowl.source {
            Source::New => BrewState::ToMake,
            Source::Covered => BrewState::Ready,
        };
        let fluid_in = bowl.second_fluid.is_none() || bowl.source == Source::Covered;
        Brew {
            bowl,
            state,
            taken: Volume::ZERO,
            fluid_in,
            stayed_cold: false,
        }
    }

    /// Made and not yet covered, emptied or thrown away.
    pub fn is_open(&self) -> bool {
        !matches!(
            self.state,
            BrewState::ToMake | BrewState::Covered | BrewState::Empty | BrewState::Thrown
        )
    }

    /// What is still in it by the plan.
    pub fn left(&self) -> Volume {
        Volume::microlitres(
            self.bowl
                .holds
                .as_microlitres()
                .saturating_sub(self.taken.as_microlitres()),
        )
    }
}

impl Taking {
    pub(crate) fn new(take: PlannedTake) -> Taking {
        Taking {
            take,
            step: TakeStep::ToMeasure,
            short: false,
            food: None,
            outcome: None,
            later: false,
        }
    }
}
