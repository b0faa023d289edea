//! The shapes of the JSON documents, as others read them.
//!
//! Field names and meanings are a contract: fields may be added, never renamed.
//! Amounts are strings of plain digits with a point, so that no reader rounds them; whole half teaspoons and tablets are numbers.

pub mod batch;
pub mod course;
pub mod dose;
pub mod forecast;

use hearthdose_core::units::{Mass, Volume};

/// `7.5`, without the comma that people get from 1,000 on.
pub fn millilitres(volume: Volume) -> String {
    volume.millilitres().replace(',', "")
}

/// `37.5`, likewise.
pub fn milligrams(mass: Mass) -> String {
    mass.milligrams().replace(',', "")
}
