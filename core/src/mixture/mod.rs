//! From doses to bowls: what to make in which round, who takes what from it, and what to have in the house.
//!
//! [`batch`] is the exact planner on bare numbers; [`plan`] puts a household, an order and its rounds into it and reads the answer back.

pub mod batch;
mod course;
mod label;
mod pace;
mod shopping;
mod supply;

pub use course::{
    CourseBowl, CoursePlan, PlanRefusal, PlannedDose, PlannedRound, RoundTime, Seat, Standing,
    Wish, plan,
};
pub use label::{Label, label_of};
pub use pace::Pace;
pub use shopping::{Amount, Need, Thing, shopping, suits};
pub use supply::{Supply, of_seat, supply};
