//! `plan --stdin`: the planner on bare numbers.

use hearthdose_core::mixture::batch::{self, Problem};

use crate::answer::{Answer, Exit, Reason, Stop};
use crate::input;
use crate::json::batch::{Asked, Document};
use crate::progress::Progress;

pub fn run() -> Result<Answer, Stop> {
    let bytes = input::standard_input()?;
    let asked: Asked = serde_json::from_slice(&bytes)
        .map_err(|error| Stop::unusable(format!("standard input: {error}")))?;
    let problem = problem(asked).map_err(Stop::refused)?;
    let mut progress = Progress::start("rounds");
    let plan = batch::solve_with(&problem, &mut |done, of| progress.tell(done, of))
        .map_err(|refusal| Stop::refused(vec![Reason::new(refusal.code(), refusal.to_string())]))?;
    let document = Document::from(plan);
    let mut answer = Answer::new(Exit::Done, &document, String::new())?;
    // The bare planner speaks JSON on both sides, asked for or not.
    answer.text = format!("{}\n", answer.json);
    Ok(answer)
}

/// The problem in the planner's own numbers; every number that it cannot have is a reason.
fn problem(asked: Asked) -> Result<Problem, Vec<Reason>> {
    let mut reasons = Vec::new();
    let mut keep = |code: &str, what: &str, number: i64| {
        u32::try_from(number).unwrap_or_else(|_| {
            let why = if number < 0 {
                "below zero"
            } else {
                "too large"
            };
            reasons.push(Reason::new(code, format!("{what} is {number}: {why}")));
            0
        })
    };
    let capacity = keep(
        "capacity-out-of-range",
        "the capacity of a bowl",
        asked.capacity,
    );
    let keep_rounds = keep(
        "keep-out-of-range",
        "the number of rounds a bowl keeps",
        asked.keep_rounds,
    );
    let mut rounds = Vec::with_capacity(asked.rounds.len());
    for (round, doses) in asked.rounds.iter().enumerate() {
        let name = |dose: usize| format!("dose {dose} of round {round}");
        rounds.push(
            doses
                .iter()
                .enumerate()
                .map(|(dose, amount)| keep("dose-out-of-range", &name(dose), *amount))
                .collect(),
        );
    }
    if !reasons.is_empty() {
        return Err(reasons);
    }
    let keep_rounds = usize::try_from(keep_rounds).unwrap_or(usize::MAX);
    if keep_rounds == 0 {
        return Err(vec![Reason::new(
            "keep-zero",
            "a bowl must keep for its own round at least",
        )]);
    }
    Ok(Problem::with_keep(
        capacity,
        keep_rounds,
        asked.split,
        rounds,
    ))
}
