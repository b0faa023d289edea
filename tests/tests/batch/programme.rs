//! The fewest bowls by integer programming: how often is each filling used, so that every amount of every round is covered.

use std::collections::{BTreeMap, BTreeSet};

use hearthdose_core::mixture::batch::Problem;
use microlp::{ComparisonOp, LinearExpr, OptimizationDirection};

/// Doses of one amount in one round, by how many a bowl takes.
type Filling = BTreeMap<(usize, u32), u32>;

/// The fewest bowls for whole doses and no open bowls.
pub fn fewest(problem: &Problem) -> usize {
    assert!(
        !problem.split && problem.open.is_empty(),
        "not modelled here"
    );
    let mut demand: Filling = BTreeMap::new();
    for (round, doses) in problem.rounds.iter().enumerate() {
        for &amount in doses {
            *demand.entry((round, amount)).or_default() += 1;
        }
    }
    let mut fillings = BTreeSet::new();
    for (made, &last) in problem.last_use.iter().enumerate() {
        let offered: Vec<((usize, u32), u32)> = demand
            .range((made, 0)..=(last, u32::MAX))
            .map(|(&dose, &count)| (dose, count))
            .collect();
        extend(
            &offered,
            problem.capacity,
            &mut Filling::new(),
            &mut fillings,
        );
    }
    let mut model = microlp::Problem::new(OptimizationDirection::Minimize);
    let mut covers: BTreeMap<(usize, u32), LinearExpr> = demand
        .keys()
        .map(|&dose| (dose, LinearExpr::empty()))
        .collect();
    let most = i32::try_from(demand.values().sum::<u32>()).expect("a small course");
    for filling in &fillings {
        let used = model.add_integer_var(1.0, (0, most));
        for (dose, &count) in filling {
            covers
                .get_mut(dose)
                .expect("a dose that is asked for")
                .add(used, f64::from(count));
        }
    }
    for (dose, cover) in covers {
        model.add_constraint(cover, ComparisonOp::Ge, f64::from(demand[&dose]));
    }
    let found = model
        .solve()
        .expect("every dose fits into a bowl")
        .into_solution()
        .expect("no limit was set");
    let bowls = found.objective();
    assert!(
        (bowls - bowls.round()).abs() < 1e-6,
        "{bowls} is no number of bowls"
    );
    (0..)
        .find(|&count| f64::from(count) + 0.5 > bowls)
        .and_then(|count| usize::try_from(count).ok())
        .expect("a count")
}

/// All fillings to which no dose that is offered can be added.
fn extend(
    offered: &[((usize, u32), u32)],
    room: u32,
    filling: &mut Filling,
    found: &mut BTreeSet<Filling>,
) {
    let Some((&(dose, count), rest)) = offered.split_first() else {
        if !filling.is_empty() {
            found.insert(filling.clone());
        }
        return;
    };
    for take in (0..=count.min(room / dose.1)).rev() {
        let left = room - take * dose.1;
        // A dose passed by that would still fit at the end makes the filling needless.
        let smallest = rest
            .iter()
            .map(|(dose, _)| dose.1)
            .min()
            .unwrap_or(u32::MAX);
        if take < count && left >= dose.1 && smallest > left {
            continue;
        }
        if take > 0 {
            filling.insert(dose, take);
        }
        extend(rest, left, filling, found);
        filling.remove(&dose);
    }
}
