//! Courses whose fewest bowls are known without any program, and the problems that are refused.

use hearthdose_core::mixture::batch::{OpenBowl, Problem, Refusal, fresh, solve};

use super::judge::faults;

fn proven(problem: &Problem) -> usize {
    let plan = solve(problem).expect("a problem that can be planned");
    assert_eq!(faults(problem, &plan), Vec::<String>::new());
    assert!(plan.proven, "{problem:?}");
    plan.count
}

fn every_round(doses: &[u32], rounds: usize, keep: usize) -> Problem {
    Problem::with_keep(8, keep, false, vec![doses.to_vec(); rounds])
}

/// Twenty rounds, bowls of eight half teaspoons that serve two rounds (worked out with a MILP beforehand).
#[test]
fn twenty_rounds_of_six_households() {
    for (doses, bowls) in [
        (&[1][..], 10),
        (&[3, 5], 20),
        (&[3, 3, 3], 30),
        (&[1, 2, 3, 4, 5, 6, 7], 70),
        (&[5, 5, 5, 3], 60),
        (&[7, 6, 5, 3, 3, 2], 70),
    ] {
        assert_eq!(proven(&every_round(doses, 20, 2)), bowls, "{doses:?}");
    }
}

/// Potassium iodide, 16 half teaspoons a bowl, kept for seven daily rounds: a newborn's 2 half teaspoons use seven of eight doses before the bowl is too old.
#[test]
fn a_bowl_ends_when_it_is_empty_or_too_old() {
    let daily =
        |doses: &[u32], rounds| Problem::with_keep(16, 7, false, vec![doses.to_vec(); rounds]);
    assert_eq!(proven(&daily(&[2], 14)), 2);
    assert_eq!(proven(&daily(&[2], 15)), 3);
    assert_eq!(
        proven(&daily(&[4], 14)),
        4,
        "at most four doses a bowl: 7 need 2 bowls"
    );
    assert_eq!(proven(&daily(&[8, 8], 14)), 14);
    assert_eq!(
        proven(&daily(&[4, 8, 16], 14)),
        25,
        "14 whole bowls, and 14 x 12 = 168 half teaspoons in 11"
    );
}

/// A spring-forward week lets one bowl serve eight daily rounds.
#[test]
fn one_more_round_when_the_clock_jumps() {
    let mut problem = Problem::with_keep(16, 7, false, vec![vec![2]; 8]);
    assert_eq!(proven(&problem), 2);
    problem.last_use[0] = 7;
    assert_eq!(proven(&problem), 1);
}

#[test]
fn splitting_saves_bowls_only_where_whole_doses_do_not_fit() {
    let mut problem = every_round(&[5, 5, 5, 3], 20, 2);
    problem.split = true;
    assert_eq!(proven(&problem), 45, "18 x 20 / 8");
    let mut problem = every_round(&[3, 5], 20, 2);
    problem.split = true;
    let plan = solve(&problem).expect("a plan");
    assert_eq!(plan.count, 20);
    assert!(
        plan.bowls
            .iter()
            .all(|bowl| bowl.takes.iter().all(|take| take.amount >= 3)),
        "no dose is split for nothing"
    );
}

#[test]
fn fresh_every_round_keeps_nothing() {
    for (doses, bowls) in [
        (&[1][..], 20),
        (&[3, 5], 20),
        (&[3, 3, 3], 40),
        (&[4, 4, 4, 2, 2], 40),
    ] {
        let mut problem = every_round(doses, 20, 2);
        problem.open.push(OpenBowl {
            left: 8,
            last_use: 3,
        });
        let plan = fresh(&problem).expect("a plan");
        assert_eq!((plan.count, plan.proven), (bowls, true), "{doses:?}");
        assert_eq!(faults(&problem, &plan), Vec::<String>::new());
        assert!(plan.from_open.is_empty());
        assert!(
            plan.bowls
                .iter()
                .all(|bowl| bowl.takes.iter().all(|take| take.round == bowl.round))
        );
    }
}

#[test]
fn what_stands_open_is_used() {
    let mut problem = every_round(&[4, 4], 3, 2);
    assert_eq!(proven(&problem), 3);
    problem.open = vec![OpenBowl {
        left: 4,
        last_use: 0,
    }];
    assert_eq!(proven(&problem), 3, "4 half teaspoons of 24 leave 20");
    problem.open = vec![OpenBowl {
        left: 8,
        last_use: 1,
    }];
    assert_eq!(proven(&problem), 2);
    problem.open = vec![OpenBowl {
        left: 3,
        last_use: 2,
    }];
    assert_eq!(proven(&problem), 3, "too little for a dose");
}

#[test]
fn equal_plans_keep_little_and_use_the_oldest_first() {
    let plan = solve(&every_round(&[4, 4], 4, 2)).expect("a plan");
    assert!(
        plan.bowls
            .iter()
            .all(|bowl| bowl.takes.iter().all(|take| take.round == bowl.round)),
        "{plan:?}"
    );
    let plan = solve(&every_round(&[4, 4, 4], 2, 2)).expect("a plan");
    let kept: Vec<_> = plan
        .bowls
        .iter()
        .filter(|bowl| bowl.takes.iter().any(|take| take.round > bowl.round))
        .collect();
    assert_eq!(
        (plan.count, kept.len()),
        (3, 1),
        "one bowl stands covered: {plan:?}"
    );
    // Bowls that serve many rounds: no dose waits for a younger bowl while an older one has the same amount left.
    let plan = solve(&Problem::with_keep(8, 4, false, vec![vec![2, 2]; 8])).expect("a plan");
    assert_eq!(plan.count, 4);
    for older in &plan.bowls {
        for younger in plan
            .bowls
            .iter()
            .filter(|younger| younger.round > older.round)
        {
            let last = older.takes.iter().map(|take| take.round).max();
            let first = younger.takes.iter().map(|take| take.round).min();
            assert!(last <= first, "{plan:?}");
        }
    }
}

#[test]
fn nothing_to_plan() {
    for rounds in [Vec::new(), vec![Vec::new(); 3]] {
        let plan = solve(&Problem::with_keep(8, 2, false, rounds)).expect("an empty plan");
        assert_eq!((plan.count, plan.lower_bound, plan.proven), (0, 0, true));
    }
}

#[test]
fn the_same_problem_gives_the_same_plan() {
    let problem = every_round(&[7, 6, 5, 3, 3, 2], 30, 3);
    assert_eq!(solve(&problem), solve(&problem));
}

#[test]
fn refusals_have_codes_and_a_place() {
    let code = |problem: &Problem| {
        let refusal = solve(problem).expect_err("a refusal");
        assert_eq!(fresh(problem), Err(refusal));
        refusal.code()
    };
    let one = |capacity, keep, dose| {
        Problem::with_keep(capacity, keep, false, vec![vec![1], vec![1, dose]])
    };
    assert_eq!(code(&one(0, 2, 1)), "capacity-zero");
    assert_eq!(code(&one(8, 0, 1)), "keep-zero");
    assert_eq!(code(&one(8, 2, 0)), "dose-zero");
    assert_eq!(code(&one(8, 2, 9)), "dose-larger-than-bowl");
    let mut problem = one(8, 2, 9);
    problem.split = true;
    assert_eq!(
        code(&problem),
        "dose-larger-than-bowl",
        "a dose is at most one bowl, split or not"
    );
    let mut problem = one(8, 2, 1);
    problem.last_use = vec![1, 0];
    assert_eq!(code(&problem), "keep-zero");
    problem.last_use = vec![1, 1, 2];
    assert_eq!(code(&problem), "keep-without-round");
    let mut problem = one(8, 2, 1);
    problem.open = vec![OpenBowl {
        left: 9,
        last_use: 1,
    }];
    assert_eq!(code(&problem), "open-bowl-too-full");
    assert_eq!(
        code(&Problem::with_keep(8, 2, false, vec![vec![1]; 2_001])),
        "too-many-rounds"
    );
    assert_eq!(
        code(&Problem::with_keep(8, 2, false, vec![vec![1; 201]; 100])),
        "too-many-doses"
    );
    let refusal = solve(&one(8, 2, 9)).expect_err("too large");
    assert_eq!(
        refusal,
        Refusal::DoseLargerThanBowl {
            round: 1,
            dose: 1,
            amount: 9,
            capacity: 8
        }
    );
    assert_eq!(
        refusal.to_string(),
        "dose 1 of round 1 is 9 steps, and a bowl holds 8"
    );
}
