//! The rules of Hearthdose: from a published order to the last swallowed dose.
//!
//! Nothing in here reads a clock, draws, or sleeps; every instant comes in from outside.
//! Nothing that a person swallows is ever a float: mass is counted in micrograms, volume in microlitres, body weight exactly in the unit typed.
//! A refusal is a value with a code; an error is a broken file or disk.
#![forbid(unsafe_code)]

pub mod dose;
#[cfg(feature = "exchange")]
pub mod exchange;
pub mod export;
pub mod forecast;
pub mod growth;
pub mod household;
pub mod mixture;
pub mod order;
pub mod package;
pub mod prep;
pub mod queue;
pub mod record;
pub mod schedule;
pub mod screening;
#[cfg(feature = "exchange")]
pub mod site;
#[cfg(feature = "store")]
pub mod store;
pub mod time;
pub mod today;
pub mod units;
