//! What the next state must cover to be worth anything: the least states that nothing found so far is as good as.
//!
//! States by what they cover form a lattice: two of them have a least state that covers both.
//! What is matched by states found is closed downwards, and so is what fits into some bowls; the goals are the
//! lower edge of the rest, so a search has to ask only whether a goal fits.
//! Invariants: no goal covers another one, and every state that is not matched covers some goal.

use super::frontier::{Classes, Covered};

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Goal {
    covered: Covered,
    /// Whether it is known to be out of reach of the question at hand.
    asked: bool,
}

/// The lower edge of what is not matched yet.
#[derive(Debug, Clone)]
pub(super) struct Goals {
    /// Those asked about come first.
    goals: Vec<Goal>,
    asked: usize,
    /// Comparisons of states so far.
    pub looks: u64,
}

impl Goals {
    /// Nothing is matched yet.
    pub(super) fn all() -> Self {
        Self {
            goals: vec![Goal {
                covered: Covered::default(),
                asked: false,
            }],
            asked: 0,
            looks: 0,
        }
    }

    pub(super) fn is_empty(&self) -> bool {
        self.goals.is_empty()
    }

    /// Starts a new question: no goal is known to be out of reach.
    pub(super) fn ask_anew(&mut self) {
        for goal in &mut self.goals {
            goal.asked = false;
        }
        self.asked = 0;
    }

    /// A goal not asked about yet; it counts as out of reach unless something that covers it is cut off.
    pub(super) fn ask(&mut self) -> Option<Covered> {
        let goal = self.goals.get_mut(self.asked)?;
        goal.asked = true;
        self.asked += 1;
        self.looks += 1;
        Some(goal.covered)
    }

    /// Takes away everything that `matched` covers.
    pub(super) fn cut(&mut self, classes: &Classes, matched: Covered) {
        let (below, mut kept): (Vec<Goal>, Vec<Goal>) = self
            .goals
            .drain(..)
            .partition(|goal| matched.reaches(goal.covered));
        let totals = matched.totals();
        for (class, total) in totals.iter().enumerate().take(classes.len()) {
            let Some(step) = classes.least_with(class, u32::from(*total) + 1) else {
                continue;
            };
            for goal in &below {
                self.looks += 1 + u64::try_from(kept.len() / 4).unwrap_or(0);
                let covered = goal.covered.join(step);
                if kept.iter().all(|other| !covered.reaches(other.covered)) {
                    kept.retain(|other| !other.covered.reaches(covered));
                    kept.push(Goal {
                        covered,
                        asked: false,
                    });
                }
            }
        }
        self.asked = kept.iter().filter(|goal| goal.asked).count();
        self.goals = kept;
    }
}

/// A highest state at or above `from` for which something holds that holds for all that it covers.
pub(super) fn climb(
    classes: &Classes,
    from: Covered,
    mut holds: impl FnMut(Covered) -> bool,
) -> Covered {
    let mut at = from;
    for class in 0..classes.len() {
        // What failed once fails for all that covers it, so one way up is enough.
        while let Some(step) = classes.least_with(class, u32::from(at.totals()[class]) + 1) {
            let next = at.join(step);
            if !holds(next) {
                break;
            }
            at = next;
        }
    }
    at
}

#[cfg(test)]
mod tests {
    use super::*;

    fn every_state(classes: &Classes) -> Vec<Covered> {
        let mut states = vec![Covered::default()];
        for class in 0..classes.len() {
            let count = classes.counts[class];
            states = states
                .iter()
                .flat_map(|&state| {
                    let total = u32::from(state.totals()[class]);
                    (0..=count).map(move |more| (state, total + more))
                })
                .map(|(state, total)| state.with_total(class, total))
                .collect();
        }
        states
    }

    #[test]
    fn goals_are_the_lower_edge_of_what_is_left() {
        let classes = Classes::new([9, 7, 7, 4, 2, 2, 2].into_iter()).unwrap();
        let states = every_state(&classes);
        assert_eq!(states.len(), 2 * 3 * 2 * 4);
        let mut goals = Goals::all();
        let mut matched: Vec<Covered> = Vec::new();
        for step in 0..12 {
            let cut = states[(step * 17 + 5) % states.len()];
            goals.cut(&classes, cut);
            matched.push(cut);
            let left: Vec<Covered> = states
                .iter()
                .copied()
                .filter(|state| !matched.iter().any(|matched| matched.reaches(*state)))
                .collect();
            let mut edge: Vec<Covered> = left
                .iter()
                .copied()
                .filter(|state| {
                    left.iter()
                        .all(|other| other == state || !state.reaches(*other))
                })
                .collect();
            let mut found: Vec<Covered> = goals.goals.iter().map(|goal| goal.covered).collect();
            edge.sort_unstable();
            found.sort_unstable();
            assert_eq!(found, edge, "after {matched:?}");
        }
    }

    #[test]
    fn a_climb_ends_where_nothing_more_holds() {
        let classes = Classes::new([9, 7, 7, 4, 2, 2, 2].into_iter()).unwrap();
        let states = every_state(&classes);
        for most in 0..33 {
            let holds = |state: Covered| classes.volume(state) <= most;
            let top = climb(&classes, Covered::default(), holds);
            assert!(holds(top));
            let higher = |state: &&Covered| state.reaches(top) && **state != top;
            assert!(states.iter().filter(higher).all(|state| !holds(*state)));
        }
    }
}
