//! The planner's counts against the counts of the other two methods.

use hearthdose_core::mixture::batch::{Problem, fresh, solve};
use hearthdose_tests::people::Dice;

use super::judge::faults;
use super::{courses, exhaust, programme};

/// The plan is one, its floor is none too high, and a proof is one. Says whether the plan is the best there is.
fn is_fewest(problem: &Problem, fewest: usize) -> bool {
    let plan = solve(problem).expect("a problem that can be planned");
    assert_eq!(faults(problem, &plan), Vec::<String>::new(), "{problem:?}");
    assert!(
        plan.lower_bound <= fewest,
        "{problem:?}: {fewest} bowls do, said to need {}",
        plan.lower_bound
    );
    assert!(
        plan.count >= fewest,
        "{problem:?}: {} bowls, impossible below {fewest}",
        plan.count
    );
    assert!(
        !plan.proven || plan.count == fewest,
        "{problem:?}: {} bowls proven, {fewest} do",
        plan.count
    );
    plan.proven
}

#[test]
fn whole_doses_are_always_fewest_on_small_courses() {
    let mut dice = Dice::new(0x0062_6f77_6c73);
    for case in 0..1_500 {
        let mut problem = courses::of_few_doses(&mut dice, 10, 14);
        if case % 3 == 1 {
            courses::keep_irregularly(&mut dice, &mut problem);
        }
        if case % 4 == 3 {
            courses::with_open_bowls(&mut dice, &mut problem);
        }
        assert!(
            is_fewest(&problem, exhaust::fewest(&problem)),
            "not proven: {problem:?}"
        );
    }
}

#[test]
fn split_doses_are_fewest_but_for_bowls_that_stand_open() {
    let mut dice = Dice::new(0x0073_706c_6974);
    let mut open = 0;
    for case in 0..120 {
        let mut problem = courses::of_few_doses(&mut dice, 4, 6);
        problem.split = true;
        if case % 3 == 1 {
            courses::keep_irregularly(&mut dice, &mut problem);
        }
        if case % 4 == 3 {
            courses::with_open_bowls(&mut dice, &mut problem);
        }
        let proven = is_fewest(&problem, exhaust::fewest(&problem));
        assert!(
            proven || !problem.open.is_empty(),
            "not proven: {problem:?}"
        );
        open += usize::from(!proven);
    }
    assert!(open <= 10, "{open} plans around open bowls are not proven");
}

#[test]
fn fresh_plans_are_fewest() {
    let mut dice = Dice::new(0x0066_7265_7368);
    for _ in 0..400 {
        let problem = courses::of_few_doses(&mut dice, 10, 14);
        let alone = |doses: &Vec<u32>| {
            exhaust::fewest(&Problem::with_keep(
                problem.capacity,
                1,
                false,
                vec![doses.clone()],
            ))
        };
        let plan = fresh(&problem).expect("a plan");
        assert!(plan.proven);
        assert_eq!(
            plan.count,
            problem.rounds.iter().map(alone).sum::<usize>(),
            "{problem:?}"
        );
    }
}

#[test]
fn households_need_what_integer_programming_says() {
    let mut dice = Dice::new(0x006d_696c);
    for (capacity, people, rounds, keep, changing, cases) in [
        (8, 3, 6, 2, true, 4),
        (8, 4, 4, 2, false, 4),
        (8, 6, 3, 2, true, 2),
        (16, 4, 4, 2, true, 3),
        (8, 2, 6, 4, true, 3),
    ] {
        for _ in 0..cases {
            let problem = courses::household(&mut dice, capacity, people, rounds, keep, changing);
            let proven = is_fewest(&problem, programme::fewest(&problem));
            assert!(proven || keep > 2, "not proven: {problem:?}");
        }
    }
}
