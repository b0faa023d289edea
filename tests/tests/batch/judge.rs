//! Whether a plan is one: every dose served exactly, in time, out of bowls that hold it.

use std::collections::BTreeMap;

use hearthdose_core::mixture::batch::{Plan, Problem, Take};

/// Everything that is wrong with a plan; empty when nothing is.
pub fn faults(problem: &Problem, plan: &Plan) -> Vec<String> {
    let mut faults = Vec::new();
    let mut served: BTreeMap<(usize, usize), Vec<u32>> = BTreeMap::new();
    let mut note =
        |faults: &mut Vec<String>, bowl: &str, take: &Take, from: usize, until: usize| {
            if take.amount == 0 {
                faults.push(format!("{bowl} gives nothing to {take:?}"));
            }
            if take.round < from || take.round > until {
                faults.push(format!(
                    "{bowl} serves {take:?}, but keeps from {from} to {until}"
                ));
            }
            served
                .entry((take.round, take.dose))
                .or_default()
                .push(take.amount);
        };
    for (index, bowl) in plan.bowls.iter().enumerate() {
        let name = format!("bowl {index}");
        match problem.last_use.get(bowl.round) {
            Some(&last) => {
                for take in &bowl.takes {
                    note(&mut faults, &name, take, bowl.round, last);
                }
            }
            None => faults.push(format!("{name} is made in no round of the course")),
        }
        let total: u64 = bowl.takes.iter().map(|take| u64::from(take.amount)).sum();
        if total > u64::from(problem.capacity) {
            faults.push(format!(
                "{name} gives {total}, and holds {}",
                problem.capacity
            ));
        }
        if bowl.takes.is_empty() {
            faults.push(format!("{name} serves nobody"));
        }
    }
    let mut given = vec![0u64; problem.open.len()];
    for (open, take) in &plan.from_open {
        match problem.open.get(*open) {
            Some(bowl) => {
                note(
                    &mut faults,
                    &format!("open bowl {open}"),
                    take,
                    0,
                    bowl.last_use,
                );
                given[*open] += u64::from(take.amount);
            }
            None => faults.push(format!(
                "{take:?} comes from an open bowl that is not there"
            )),
        }
    }
    for (index, (bowl, given)) in problem.open.iter().zip(&given).enumerate() {
        if *given > u64::from(bowl.left) {
            faults.push(format!(
                "open bowl {index} gives {given}, and has {}",
                bowl.left
            ));
        }
    }
    for (round, doses) in problem.rounds.iter().enumerate() {
        for (dose, &amount) in doses.iter().enumerate() {
            let parts = served.remove(&(round, dose)).unwrap_or_default();
            let most = if problem.split { 2 } else { 1 };
            if parts.len() > most {
                faults.push(format!(
                    "dose {dose} of round {round} comes in {} parts",
                    parts.len()
                ));
            }
            let total: u64 = parts.iter().map(|&part| u64::from(part)).sum();
            if total != u64::from(amount) {
                faults.push(format!(
                    "dose {dose} of round {round} is {amount}, and {total} is given"
                ));
            }
        }
    }
    faults.extend(
        served
            .keys()
            .map(|dose| format!("{dose:?} is no dose of the course")),
    );
    if plan.count != plan.bowls.len() {
        faults.push(format!(
            "{} bowls are counted as {}",
            plan.bowls.len(),
            plan.count
        ));
    }
    if plan.lower_bound > plan.count || plan.proven != (plan.lower_bound == plan.count) {
        faults.push(format!(
            "{} bowls, at least {}, proven: {}",
            plan.count, plan.lower_bound, plan.proven
        ));
    }
    faults
}

#[test]
fn the_judge_sees_each_fault() {
    let take = |round, dose, amount| Take {
        round,
        dose,
        amount,
    };
    let bowl = |round, takes: &[Take]| hearthdose_core::mixture::batch::Bowl {
        round,
        takes: takes.to_vec(),
    };
    let problem = Problem::with_keep(8, 2, false, vec![vec![3], vec![5], vec![4]]);
    let right = Plan {
        bowls: vec![
            bowl(0, &[take(0, 0, 3), take(1, 0, 5)]),
            bowl(2, &[take(2, 0, 4)]),
        ],
        from_open: Vec::new(),
        count: 2,
        lower_bound: 2,
        proven: true,
    };
    assert_eq!(faults(&problem, &right), Vec::<String>::new());
    let wrong = |change: &dyn Fn(&mut Plan)| {
        let mut plan = right.clone();
        change(&mut plan);
        faults(&problem, &plan).len()
    };
    assert_eq!(
        wrong(&|plan| plan.count = 3),
        2,
        "count, and then the bound is not met"
    );
    assert_eq!(wrong(&|plan| plan.lower_bound = 1), 1);
    assert_eq!(wrong(&|plan| plan.proven = false), 1);
    assert_eq!(
        wrong(&|plan| plan.bowls[0].round = 1),
        1,
        "before it is made"
    );
    assert_eq!(
        wrong(&|plan| plan.bowls[1].round = 0),
        1,
        "longer than it keeps"
    );
    assert_eq!(
        wrong(&|plan| plan.bowls[1].round = 3),
        2,
        "no such round, so the dose is missing"
    );
    assert_eq!(
        wrong(&|plan| plan.bowls[0].takes[1].amount = 6),
        2,
        "too much out of the bowl, wrong dose"
    );
    assert_eq!(wrong(&|plan| plan.bowls[1].takes[0].amount = 3), 1);
    assert_eq!(
        wrong(&|plan| plan.bowls[1].takes[0].dose = 1),
        2,
        "a stranger, and one left out"
    );
    assert_eq!(
        wrong(&|plan| plan.bowls[1].takes = vec![take(2, 0, 2), take(2, 0, 2)]),
        1,
        "in two parts"
    );
    assert_eq!(wrong(&|plan| plan.from_open.push((0, take(2, 0, 4)))), 1);
}
