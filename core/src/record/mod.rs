//! Everything that happened, as facts that never change, and the household as a fold over them.
//!
//! Facts are put in one order (hybrid logical clock, device, device sequence), so what they add up to does not depend on the order in which they arrive.
//! Ids are names only and are never compared for time.
//! A correction points at what it corrects: with an unknown target it waits; two different corrections of one target are a conflict for a person to settle, and until then the safer reading holds.

mod correct;
mod fact;
mod fold;
mod state;

pub use correct::{Conflict, effective};
pub use fact::{
    Change, Clock, DeviceId, Event, Fact, FactId, Hlc, HouseholdWords, PersonWords, Stamp,
};
pub use fold::fold;
pub use state::{BowlRecord, DoseRecord, OpenRound, PersonRecord, State};
