//! Everything that happened, as facts that never change, and the household as a fold over them.
//!
//! Facts are put in one order (hybrid logical clock, device, device sequence), so what they add up to does not depend on the order in which they arrive.
//! Ids are names only and are never compared for time.
//! A correction points at what it corrects: with an unknown target it waits; two different corrections of one target are a conflict for a person to settle, and until then the safer reading holds.
//! What was done belongs to the order named in the fact, so rounds, bowls, doses and tablets of two orders in one kitchen stay apart.
//! Two devices may record one round each for itself; what both say was swallowed is told as "may have had it twice".

mod correct;
mod erase;
mod fact;
mod fold;
mod rounds;
mod safer;
mod settle;
mod site;
mod state;

pub use correct::{Conflict, effective};
pub use fact::{
    Change, Clock, DeviceId, Event, Fact, FactId, Hlc, HouseholdWords, PersonWords, Stamp,
};
pub use fold::{fold, fold_for};
pub use settle::{Reading, put_right, readings};
pub use site::{HandOutLine, LotName, SiteEvent};
pub use state::{
    BowlRecord, DeskRecord, DoseRecord, Elsewhere, OpenRound, PackRecord, PersonRecord, RoundName,
    State, Stop, Tablets, VOMITED_TWICE,
};
