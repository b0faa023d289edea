//! From an exact body weight to the float of this module: one way only.

use uom::si::mass::kilogram;

use super::Mass;
use crate::units::BodyWeight;

/// A body weight as growth charts use it; close to a gram, which no rule about medicine depends on.
#[allow(clippy::as_conversions, clippy::cast_precision_loss)]
pub fn body_weight(weight: &BodyWeight) -> Mass {
    Mass::new::<kilogram>(weight.as_picograms() as f64 / 1e15)
}
