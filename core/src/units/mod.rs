//! Exact quantities: everything a person swallows is counted in whole small units.
//!
//! Mass in micrograms, volume in microlitres, body weight in picograms (so that a thousandth of a pound is exact), ages by the calendar.
//! There is no float in here and no conversion without a name.
//! Text is read by [`quantity`] and written by [`show`]; both follow the label-writing rules: no trailing zero, always a leading zero, a space before the unit.

mod age;
mod lapse;
mod mass;
mod number;
mod percent;
pub mod quantity;
pub mod show;
mod strength;
mod volume;
mod weight;

pub use age::{Age, AgeSpan};
pub use lapse::{Lapse, parse_lapse};
pub use mass::Mass;
pub use number::Number;
pub use percent::Percent;
pub use quantity::{QuantityError, QuantityProblem};
pub use strength::Strength;
pub use volume::Volume;
pub use weight::{BodyWeight, WeightUnit};
