//! The problem in the form in which it is solved.
//!
//! Rounds without doses are gone, each round's doses fall in amount, and the last round a bowl may serve never
//! falls from one making round to the next: a bowl first used in some round is made in the round, up to then, whose
//! bowls keep longest.
//! Doses that can share a bowl with no other dose already have their own.

use super::{Bowl, Plan, Problem, Refusal, Take};

/// Rounds beyond which a course is not planned.
pub(super) const MOST_ROUNDS: usize = 2_000;
/// Doses beyond which a course is not planned.
pub(super) const MOST_DOSES: usize = 20_000;

#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Dose {
    pub amount: u32,
    /// Index in the round's list as given.
    pub index: usize,
}

#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Round {
    /// Index in the problem's list.
    pub index: usize,
    /// Problem's round in which a bowl first used here is made.
    pub made: usize,
    /// Last round (index in the course) which that bowl may serve.
    pub last: usize,
    /// Falling in amount, then by index.
    pub doses: Vec<Dose>,
}

/// A bowl already made, as far as it is of use.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Open {
    /// Index in the problem's list.
    pub index: usize,
    pub left: u32,
    /// Last round (index in the course) it may serve.
    pub last: usize,
}

#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Course {
    pub capacity: u32,
    pub rounds: Vec<Round>,
    pub open: Vec<Open>,
    /// Bowls for doses that cannot share one.
    pub alone: Vec<Bowl>,
}

/// Part of a dose (all of it, unless doses may be split) taken from a bowl.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Part {
    /// Index in the course.
    pub round: usize,
    /// Position in the round's falling list.
    pub position: usize,
    pub amount: u32,
}

/// A new bowl first used in `round`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Fill {
    pub round: usize,
    pub parts: Vec<Part>,
}

/// A plan in terms of the course.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Draft {
    pub bowls: Vec<Fill>,
    /// Parts taken from each open bowl of the course.
    pub open: Vec<Vec<Part>>,
}

impl Course {
    pub(super) fn new(problem: &Problem) -> Result<Self, Refusal> {
        check(problem)?;
        let mut latest = (0, 0);
        let mut rounds: Vec<Round> = Vec::new();
        for (index, (doses, &last)) in problem.rounds.iter().zip(&problem.last_use).enumerate() {
            // A bowl made earlier is preferred only when it keeps longer.
            if index == 0 || last >= latest.0 {
                latest = (last, index);
            }
            let mut doses: Vec<Dose> = doses
                .iter()
                .enumerate()
                .map(|(index, &amount)| Dose { amount, index })
                .collect();
            doses.sort_by_key(|dose| (std::cmp::Reverse(dose.amount), dose.index));
            rounds.push(Round {
                index,
                made: latest.1,
                last: latest.0,
                doses,
            });
        }
        let mut course = Self {
            capacity: problem.capacity,
            rounds,
            open: Vec::new(),
            alone: Vec::new(),
        };
        course.open = problem
            .open
            .iter()
            .enumerate()
            .map(|(index, open)| Open {
                index,
                left: open.left,
                last: open.last_use,
            })
            .collect();
        if !problem.split {
            course.separate();
        }
        course.close_up();
        Ok(course)
    }

    /// First round (index in the course) whose bowls may serve this one.
    pub(super) fn first_maker(&self, round: usize) -> usize {
        self.rounds.partition_point(|maker| maker.last < round)
    }

    pub(super) fn amount(&self, round: usize, position: usize) -> u32 {
        self.rounds
            .get(round)
            .and_then(|round| round.doses.get(position))
            .map_or(0, |dose| dose.amount)
    }

    pub(super) fn whole(&self, round: usize, position: usize) -> Part {
        Part {
            round,
            position,
            amount: self.amount(round, position),
        }
    }

    /// Gives a bowl of its own to each dose that leaves too little for any other within reach.
    fn separate(&mut self) {
        let (capacity, open) = (self.capacity, &self.open);
        let lone = |round: usize, position: usize| {
            let amount = self.amount(round, position);
            let reach =
                self.first_maker(round)..=self.rounds[round].last.min(self.rounds.len() - 1);
            let shares = self.rounds[reach.clone()]
                .iter()
                .zip(reach)
                .any(|(other, at)| {
                    let mut doses = other.doses.iter().enumerate();
                    doses.any(|(place, dose)| {
                        (at, place) != (round, position) && dose.amount <= capacity - amount
                    })
                });
            !shares
                && !open
                    .iter()
                    .any(|open| open.left >= amount && open.last >= round)
        };
        let lone: Vec<Vec<bool>> = (0..self.rounds.len())
            .map(|round| {
                (0..self.rounds[round].doses.len())
                    .map(|position| lone(round, position))
                    .collect()
            })
            .collect();
        for (round, lone) in self.rounds.iter_mut().zip(lone) {
            let (alone, doses) = std::mem::take(&mut round.doses)
                .into_iter()
                .zip(lone)
                .partition::<Vec<(Dose, bool)>, _>(|(_, lone)| *lone);
            round.doses = doses.into_iter().map(|(dose, _)| dose).collect();
            self.alone.extend(alone.into_iter().map(|(dose, _)| Bowl {
                round: round.index,
                takes: vec![Take {
                    round: round.index,
                    dose: dose.index,
                    amount: dose.amount,
                }],
            }));
        }
    }

    /// Leaves out the rounds without doses and counts the others anew.
    fn close_up(&mut self) {
        let kept: Vec<usize> = self
            .rounds
            .iter()
            .filter(|round| !round.doses.is_empty())
            .map(|r| r.index)
            .collect();
        let reach = |last: usize| kept.partition_point(|&index| index <= last).checked_sub(1);
        self.rounds.retain(|round| !round.doses.is_empty());
        for round in &mut self.rounds {
            round.last = reach(round.last).unwrap_or(0);
        }
        self.open
            .retain(|open| open.left > 0 && reach(open.last).is_some());
        for open in &mut self.open {
            open.last = reach(open.last).unwrap_or(0);
        }
    }

    /// The draft in terms of the problem, each list in a fixed order.
    pub(super) fn plan(&self, draft: Draft, lower_bound: usize, proven: bool) -> Plan {
        let take = |part: &Part| {
            let round = &self.rounds[part.round];
            Take {
                round: round.index,
                dose: round.doses[part.position].index,
                amount: part.amount,
            }
        };
        let sorted = |parts: &[Part]| {
            let mut takes: Vec<Take> = parts.iter().map(take).collect();
            takes.sort_by_key(|take| (take.round, take.dose));
            takes
        };
        let mut bowls = self.alone.clone();
        bowls.extend(draft.bowls.iter().map(|fill| Bowl {
            round: self.rounds[fill.round].made,
            takes: sorted(&fill.parts),
        }));
        bowls.sort_by_key(|bowl| {
            (
                bowl.round,
                bowl.takes.first().map(|take| (take.round, take.dose)),
            )
        });
        let mut from_open: Vec<(usize, Take)> = self
            .open
            .iter()
            .zip(&draft.open)
            .flat_map(|(open, parts)| sorted(parts).into_iter().map(|take| (open.index, take)))
            .collect();
        from_open.sort_by_key(|(open, take)| (*open, take.round, take.dose));
        let alone = self.alone.len();
        Plan {
            count: bowls.len(),
            lower_bound: lower_bound + alone,
            proven,
            bowls,
            from_open,
        }
    }
}

fn check(problem: &Problem) -> Result<(), Refusal> {
    let Problem {
        capacity,
        last_use,
        rounds,
        open,
        ..
    } = problem;
    let capacity = *capacity;
    if capacity == 0 {
        return Err(Refusal::CapacityZero);
    }
    if rounds.len() > MOST_ROUNDS {
        return Err(Refusal::TooManyRounds {
            rounds: rounds.len(),
        });
    }
    let doses: usize = rounds.iter().map(Vec::len).sum();
    if doses > MOST_DOSES || open.len() > MOST_DOSES {
        return Err(Refusal::TooManyDoses {
            doses: doses.max(open.len()),
        });
    }
    if last_use.len() > rounds.len() {
        return Err(Refusal::KeepWithoutRound {
            round: rounds.len(),
        });
    }
    for (round, doses) in rounds.iter().enumerate() {
        if last_use.get(round).is_none_or(|&last| last < round) {
            return Err(Refusal::KeepZero { round });
        }
        for (dose, &amount) in doses.iter().enumerate() {
            if amount == 0 {
                return Err(Refusal::DoseZero { round, dose });
            }
            if amount > capacity {
                return Err(Refusal::DoseLargerThanBowl {
                    round,
                    dose,
                    amount,
                    capacity,
                });
            }
        }
    }
    match open.iter().position(|open| open.left > capacity) {
        Some(open) => Err(Refusal::OpenBowlTooFull { open }),
        None => Ok(()),
    }
}
