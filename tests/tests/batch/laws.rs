//! What holds for every plan, however large the course.

use hearthdose_core::mixture::batch::{OpenBowl, Problem, solve, solve_with};
use proptest::prelude::*;

use super::judge::faults;

/// Bowls of any size, up to ten people, up to sixteen rounds, any keeping, whole or split, with bowls that stand open.
fn problem() -> impl Strategy<Value = Problem> {
    let keeping = prop_oneof![
        (1usize..=8).prop_map(|keep| vec![keep; 16]),
        prop::collection::vec(1usize..=8, 16),
    ];
    (
        prop_oneof![Just(8u32), 1u32..=60, Just(1_000_000_000)],
        keeping,
        any::<bool>(),
    )
        .prop_flat_map(|(capacity, keeping, split)| {
            let round = prop::collection::vec(1..=capacity, 0..=10);
            let open = prop::collection::vec((0..=capacity, 0usize..=8), 0..=3);
            (prop::collection::vec(round, 0..=16), open).prop_map(move |(rounds, open)| Problem {
                capacity,
                last_use: keeping
                    .iter()
                    .take(rounds.len())
                    .enumerate()
                    .map(|(round, keep)| round + keep - 1)
                    .collect(),
                split,
                rounds,
                open: open
                    .into_iter()
                    .map(|(left, last_use)| OpenBowl { left, last_use })
                    .collect(),
            })
        })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(30))]

    #[test]
    fn every_plan_is_one(problem in problem()) {
        let plan = solve(&problem).expect("a problem that can be planned");
        prop_assert_eq!(faults(&problem, &plan), Vec::<String>::new());
        let volume: u64 = problem.rounds.iter().flatten().map(|&dose| u64::from(dose)).sum();
        let open: u64 = problem.open.iter().map(|open| u64::from(open.left)).sum();
        let bowls = u64::try_from(plan.count).expect("a count");
        prop_assert!(bowls * u64::from(problem.capacity) + open >= volume);
    }

    /// Bowls that keep for two rounds at most, and up to twelve people: always the fewest.
    #[test]
    fn two_rounds_and_a_dozen_people_are_always_proven(
        capacity in prop_oneof![Just(8u32), Just(16), 1u32..=60, Just(1_000_000)],
        seeds in prop::collection::vec(prop::collection::vec(any::<u32>(), 0..=12), 0..=20),
        keep in 1usize..=2,
    ) {
        let rounds = seeds.iter().map(|round| round.iter().map(|seed| seed % capacity + 1).collect()).collect();
        let problem = Problem::with_keep(capacity, keep, false, rounds);
        let plan = solve(&problem).expect("a plan");
        prop_assert_eq!(faults(&problem, &plan), Vec::<String>::new());
        prop_assert!(plan.proven);
    }

    /// Keeping longer never costs a bowl, where both plans are proven.
    #[test]
    fn keeping_longer_never_costs(problem in problem()) {
        let longer = Problem { last_use: problem.last_use.iter().map(|last| last + 1).collect(), ..problem.clone() };
        let (short, long) = (solve(&problem).expect("a plan"), solve(&longer).expect("a plan"));
        prop_assert!(long.lower_bound <= short.count);
    }
}

#[test]
fn a_dozen_people_for_sixty_days_are_proven_and_told_about() {
    let doses = [1, 2, 2, 3, 3, 4, 5, 5, 6, 7, 8, 8];
    let rounds = (0..120)
        .map(|round| doses.iter().map(|dose| (dose + round % 3).min(8)).collect())
        .collect();
    let problem = Problem::with_keep(8, 2, false, rounds);
    let mut told = Vec::new();
    let plan = solve_with(&problem, &mut |done, of| told.push((done, of))).expect("a plan");
    assert_eq!(faults(&problem, &plan), Vec::<String>::new());
    assert!(plan.proven);
    assert!(told.is_sorted() && told.iter().all(|&(done, of)| done <= of));
    assert_eq!(told.last(), Some(&(120, 120)));
}
