//! Quantities: exact, read without guessing, shown without passing a limit.

#[path = "units/ages.rs"]
mod ages;
#[path = "units/facts.rs"]
mod facts;
#[path = "units/properties.rs"]
mod properties;
#[path = "units/refusals.rs"]
mod refusals;

use hearthdose_core::units::{AgeSpan, BodyWeight, Mass, Volume};

fn weight(text: &str) -> BodyWeight {
    BodyWeight::parse(text).expect("a weight")
}

fn volume(text: &str) -> Volume {
    Volume::parse(text).expect("a volume")
}

fn mass(text: &str) -> Mass {
    Mass::parse(text).expect("a mass")
}

fn age(text: &str) -> AgeSpan {
    AgeSpan::parse(text).expect("an age")
}
