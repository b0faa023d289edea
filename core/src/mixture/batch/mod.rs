//! Which bowls to make in which round, and who takes what from them: the fewest bowls, exactly.
//!
//! A *dose* is one person in one round; a *bowl* holds `capacity` steps, is made in one round and may serve until
//! the last round in which it still keeps.
//! Steps are whole numbers of whatever the order measures in, usually half teaspoons.
//!
//! Invariants of every [`Plan`]: each dose is taken exactly, from one bowl (from at most two when doses may be
//! split), no earlier than the bowl is made and no later than it keeps; no bowl gives more than it holds; and
//! `lower_bound` bowls are needed by any plan whatever.
//! `proven` is said only when no plan with fewer bowls exists.
//!
//! The same problem always gives the same plan: effort is limited by counted steps of search, never by a clock.

mod ahead;
mod bounds;
mod course;
mod frontier;
mod goals;
mod known;
mod leg;
mod misfits;
mod packing;
mod pour;
mod split;
mod standing;
mod step;
mod stretch;
mod tidy;

use bounds::Outlook;
use course::{Course, Draft};

/// Measures that look over a whole course.
const MEASURES: usize = 16;
/// Search steps for bowls that serve two rounds: several times what a dozen people ever took.
const AHEAD: u64 = 40_000_000;
/// Search steps for bowls that serve more rounds.
const STANDING: u64 = 6_000_000;
/// Doses in one round beyond which not every way to serve it can be tried.
const CROWD: usize = 64;

/// A bowl that stands covered from before the first round.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OpenBowl {
    /// Steps left in it, at most one capacity.
    pub left: u32,
    /// Last round it may serve.
    pub last_use: usize,
}

/// What is to be planned.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Problem {
    /// Steps in one bowl.
    pub capacity: u32,
    /// Per making round: the last round its bowls may serve, at least the round itself.
    pub last_use: Vec<usize>,
    /// Whether one dose may come from two bowls.
    pub split: bool,
    /// The doses of each round, in steps.
    pub rounds: Vec<Vec<u32>>,
    /// Bowls already made; they count for nothing and are used first.
    pub open: Vec<OpenBowl>,
}

impl Problem {
    /// Bowls that serve `keep_rounds` rounds, the making round included; zero is refused when solved.
    #[must_use]
    pub fn with_keep(
        capacity: u32,
        keep_rounds: usize,
        split: bool,
        rounds: Vec<Vec<u32>>,
    ) -> Self {
        let last_use = match keep_rounds.checked_sub(1) {
            Some(further) => (0..rounds.len())
                .map(|round| round.saturating_add(further))
                .collect(),
            None => Vec::new(),
        };
        Self {
            capacity,
            last_use,
            split,
            rounds,
            open: Vec::new(),
        }
    }
}

/// One dose, or a part of one, measured out of a bowl.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Take {
    pub round: usize,
    /// Index in the round's list of doses.
    pub dose: usize,
    /// Steps.
    pub amount: u32,
}

/// A bowl to make.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Bowl {
    /// Round in which it is made.
    pub round: usize,
    /// By round, then by dose.
    pub takes: Vec<Take>,
}

/// The bowls of a course.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Plan {
    /// By making round.
    pub bowls: Vec<Bowl>,
    /// What comes from the bowls that were already open: index in the problem's list, and the take.
    pub from_open: Vec<(usize, Take)>,
    /// New bowls.
    pub count: usize,
    /// No plan needs fewer new bowls than this.
    pub lower_bound: usize,
    /// Whether no plan with fewer new bowls exists.
    pub proven: bool,
}

/// Why a problem is not planned.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum Refusal {
    #[error("a bowl holds nothing")]
    CapacityZero,
    #[error("a bowl made in round {round} does not keep for its own round")]
    KeepZero { round: usize },
    #[error("there is a last use for round {round}, but no such round")]
    KeepWithoutRound { round: usize },
    #[error("dose {dose} of round {round} is nothing")]
    DoseZero { round: usize, dose: usize },
    #[error("dose {dose} of round {round} is {amount} steps, and a bowl holds {capacity}")]
    DoseLargerThanBowl {
        round: usize,
        dose: usize,
        amount: u32,
        capacity: u32,
    },
    #[error("open bowl {open} has more left than a bowl holds")]
    OpenBowlTooFull { open: usize },
    #[error("{rounds} rounds are more than can be planned at once")]
    TooManyRounds { rounds: usize },
    #[error("{doses} doses are more than can be planned at once")]
    TooManyDoses { doses: usize },
}

impl Refusal {
    /// The stable name of the refusal.
    #[must_use]
    pub fn code(&self) -> &'static str {
        match self {
            Self::CapacityZero => "capacity-zero",
            Self::KeepZero { .. } => "keep-zero",
            Self::KeepWithoutRound { .. } => "keep-without-round",
            Self::DoseZero { .. } => "dose-zero",
            Self::DoseLargerThanBowl { .. } => "dose-larger-than-bowl",
            Self::OpenBowlTooFull { .. } => "open-bowl-too-full",
            Self::TooManyRounds { .. } => "too-many-rounds",
            Self::TooManyDoses { .. } => "too-many-doses",
        }
    }
}

/// The plan with the fewest new bowls.
///
/// # Errors
/// A [`Refusal`] when the problem is not one that can be planned.
pub fn solve(problem: &Problem) -> Result<Plan, Refusal> {
    solve_with(problem, &mut |_, _| {})
}

/// [`solve`], telling now and then how many of how many rounds are done.
///
/// # Errors
/// As for [`solve`].
pub fn solve_with(problem: &Problem, tell: &mut dyn FnMut(usize, usize)) -> Result<Plan, Refusal> {
    let course = Course::new(problem)?;
    if !problem.split {
        return Ok(solve_whole(&course, tell));
    }
    let least = split::least(&course);
    // Splitting a dose is for scarcity only: where it saves nothing, every dose stays whole.
    let whole = solve_whole(
        &Course::new(&Problem {
            split: false,
            ..problem.clone()
        })?,
        tell,
    );
    if whole.count == least {
        return Ok(Plan {
            lower_bound: least,
            proven: true,
            ..whole
        });
    }
    let plan = course.plan(split::draft(&course), least, false);
    let best = if plan.count < whole.count {
        plan
    } else {
        whole
    };
    Ok(Plan {
        lower_bound: least,
        proven: best.count == least,
        ..best
    })
}

/// The plan with the fewest bowls when every round has only its own: nothing is kept, and what stands open is left.
///
/// # Errors
/// As for [`solve`].
pub fn fresh(problem: &Problem) -> Result<Plan, Refusal> {
    Course::new(problem)?;
    let last_use = (0..problem.rounds.len()).collect();
    solve(&Problem {
        last_use,
        open: Vec::new(),
        ..problem.clone()
    })
}

/// The plan in which every dose comes from one bowl.
fn solve_whole(course: &Course, tell: &mut dyn FnMut(usize, usize)) -> Plan {
    let outlook = Outlook::new(course, MEASURES);
    let least = outlook.least();
    let mut roughly = None;
    let two_rounds = ahead::suits(course);
    if two_rounds {
        let found = ahead::search(course, AHEAD, tell);
        let draft = found.way.and_then(|mut way| {
            tidy::lighten(course, &mut way);
            pour::draft(course, &way)
        });
        match draft {
            Some(draft) if found.complete => return finish(course, draft, least, true),
            draft => roughly = draft,
        }
    }
    let mut draft = stretch::draft(course, &outlook);
    if let Some(rough) = roughly.filter(|rough| rough.bowls.len() <= draft.bowls.len()) {
        draft = rough;
    }
    let crowded = course.rounds.iter().any(|round| round.doses.len() > CROWD);
    if two_rounds || crowded || draft.bowls.len() <= least {
        return finish(course, draft, least, false);
    }
    match standing::search(course, &outlook, draft.bowls.len(), STANDING, tell) {
        standing::Found::Fewest(fewest) => finish(course, fewest, least, true),
        standing::Found::Nothing => finish(course, draft, least, true),
        standing::Found::Unknown => finish(course, draft, least, false),
    }
}

fn finish(course: &Course, draft: Draft, least: usize, complete: bool) -> Plan {
    let draft = tidy::oldest_first(course, draft);
    let count = draft.bowls.len();
    let proven = complete || count == least;
    course.plan(draft, if proven { count } else { least }, proven)
}
