//! The dose: published charts and worked examples, and the laws that every order keeps.

#[path = "dose/charts.rs"]
mod charts;
#[path = "dose/iodide.rs"]
mod iodide;
#[path = "dose/laws.rs"]
mod laws;
#[path = "dose/trace.rs"]
mod trace;
#[path = "dose/worked.rs"]
mod worked;

use hearthdose_core::dose::{self, Dose};
use hearthdose_core::household::Person;
use hearthdose_core::order::CheckedOrder;
use hearthdose_core::units::show;
use hearthdose_tests::people::{DAY, weighing_and_aged};

fn give(order: &CheckedOrder, person: &Person) -> Dose {
    dose::work_out(order, person, DAY).unwrap_or_else(|reasons| panic!("{reasons:#?}"))
}

/// The dose of somebody of this weight and age; either may be empty.
fn of(order: &CheckedOrder, weight: &str, age: &str) -> Dose {
    give(order, &weighing_and_aged(weight, age))
}

fn refusals(order: &CheckedOrder, person: &Person) -> Vec<&'static str> {
    match dose::work_out(order, person, DAY) {
        Ok(dose) => panic!("a dose of {}", dose.text),
        Err(reasons) => reasons.iter().map(|reason| reason.code).collect(),
    }
}

/// `2.65`, or nothing without a weight.
fn per_kilogram(dose: &Dose) -> Option<String> {
    dose.hundredths_mg_per_kg.map(show::hundredths)
}
