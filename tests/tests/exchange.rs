//! What travels between devices: published vectors, one spelling for each message, room in the codes, and what is never in them.
#![expect(
    clippy::unwrap_used,
    reason = "what builds a case fails the test, wherever it stands"
)]

#[path = "exchange/budget.rs"]
mod budget;
#[path = "exchange/changed.rs"]
mod changed;
#[path = "exchange/frames.rs"]
mod frames;
#[path = "exchange/golden.rs"]
mod golden;
#[path = "exchange/independent.rs"]
mod independent;
#[path = "exchange/never.rs"]
mod never;
#[path = "exchange/outcomes.rs"]
mod outcomes;
#[path = "exchange/recomputed.rs"]
mod recomputed;
#[path = "exchange/round_trip.rs"]
mod round_trip;
#[path = "exchange/samples.rs"]
mod samples;
#[path = "exchange/vectors.rs"]
mod vectors;
