//! Orders and people that tests ask for by name.

use std::path::Path;

use hearthdose_core::household::{KnownAge, Manner, Person, Weighing};
use hearthdose_core::order::CheckedOrder;
use hearthdose_core::units::{AgeSpan, BodyWeight};
use jiff::civil::Date;

/// The day of the dose in tests that do not care about it: the demo order is one day old.
pub const DAY: Date = Date::constant(2031, 4, 3);

/// The text of a file of demo-data, such as `orders/quillmere-doxy-1`.
pub fn demo_text(name: &str) -> String {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../demo-data");
    let path = root.join(name).with_extension("toml");
    std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

pub fn demo_order(name: &str) -> CheckedOrder {
    checked(&demo_text(&format!("orders/{name}")))
}

/// An order that must pass its own check.
pub fn checked(text: &str) -> CheckedOrder {
    CheckedOrder::from_bytes(text.as_bytes()).unwrap_or_else(|problems| panic!("{problems:#?}"))
}

/// Somebody who was screened elsewhere, with nothing else known.
pub fn someone() -> Person {
    let mut person = Person::named("Ada");
    person.cleared = true;
    person
}

/// A weight or an age may be empty: not known.
pub fn weighing_and_aged(weight: &str, age: &str) -> Person {
    let mut person = someone();
    person.weighing = (!weight.is_empty()).then(|| weighing(weight));
    person.age = (!age.is_empty()).then(|| told(age));
    person
}

pub fn weighing(text: &str) -> Weighing {
    Weighing {
        weight: BodyWeight::parse(text).expect("a weight"),
        on: None,
        manner: Manner::Alone,
        hold_lifted: false,
    }
}

/// `adult`, a date of birth or a length of age.
pub fn told(text: &str) -> KnownAge {
    if text == "adult" {
        KnownAge::Adult
    } else if let Ok(born) = text.parse() {
        KnownAge::Born(born)
    } else {
        KnownAge::Told(AgeSpan::parse(text).expect("an age"))
    }
}
