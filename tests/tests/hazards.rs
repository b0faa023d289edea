//! The hazards of practice, by number (D1 to D31): how somebody could get a wrong amount, and that it cannot happen.
//!
//! Here are those that screening, dose, chart and food decide. The others: measuring tools, losses,
//! pouring and power cuts (D5, D16 to D19, D27, D31) with the round; two devices (D9) with the
//! record; times (D10 to D12) with the schedule.

#[path = "hazards/ages.rs"]
mod ages;
#[path = "hazards/answers.rs"]
mod answers;
#[path = "hazards/charts.rs"]
mod charts;
#[path = "hazards/food.rs"]
mod food;
#[path = "hazards/weighing.rs"]
mod weighing;
#[path = "hazards/weights.rs"]
mod weights;

use hearthdose_core::dose::{self, Dose};
use hearthdose_core::household::Person;
use hearthdose_core::order::{CheckedOrder, Problem, check_bytes};
use hearthdose_tests::people::{DAY, demo_order, demo_text, weighing_and_aged};

fn doxycycline() -> CheckedOrder {
    demo_order("quillmere-doxy-1")
}

fn ciprofloxacin() -> CheckedOrder {
    demo_order("quillmere-ciprofloxacin-1")
}

fn iodide() -> CheckedOrder {
    demo_order("quillmere-iodide-1")
}

/// Somebody screened elsewhere; weight or age may be empty.
fn somebody(weight: &str, age: &str) -> Person {
    weighing_and_aged(weight, age)
}

fn give(order: &CheckedOrder, person: &Person) -> Dose {
    dose::work_out(order, person, DAY).unwrap_or_else(|reasons| panic!("{reasons:#?}"))
}

#[track_caller]
fn refusals(order: &CheckedOrder, person: &Person) -> Vec<&'static str> {
    match dose::work_out(order, person, DAY) {
        Ok(dose) => panic!("a dose of {}", dose.text),
        Err(reasons) => reasons.iter().map(|reason| reason.code).collect(),
    }
}

/// Code and place of everything wrong with a text, `error` or `warning` before it.
fn problems(text: &str) -> Vec<String> {
    let problems = check_bytes(text.as_bytes(), &[]);
    let told = |problem: &Problem| {
        let kind = if problem.is_error() {
            "error"
        } else {
            "warning"
        };
        format!("{kind} {} at {}", problem.code, problem.place)
    };
    problems.iter().map(told).collect()
}

fn errors_of(text: &str) -> Vec<String> {
    let all = problems(text).into_iter();
    all.filter(|problem| problem.starts_with("error")).collect()
}

fn doxycycline_text() -> String {
    demo_text("orders/quillmere-doxy-1")
}

/// The text with one passage changed; the passage must be there exactly once.
fn changed(text: &str, old: &str, new: &str) -> String {
    assert_eq!(text.matches(old).count(), 1, "{old}");
    text.replace(old, new)
}
