//! Where a round is: the one thing to do next.

use jiff::SignedDuration;

use super::plan::{BowlId, PersonId, Source, Tool};
use super::{Brew, BrewState, Prep, TakeStep, Taking};
use crate::dose::DoseForm;
use crate::time::Now;

#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Stage {
    Reactions,
    /// Did the refrigerator stay cold since this bowl was covered?
    AskCold {
        bowl: BowlId,
    },
    /// Does the bottle say what the order says?
    MatchLabel,
    ChooseTool,
    /// Everything on the table, then water on the tablets.
    SetOut {
        bowls: Vec<BowlId>,
    },
    Soak {
        bowls: Vec<BowlId>,
        left: SignedDuration,
    },
    Crush {
        bowls: Vec<BowlId>,
    },
    Smooth {
        bowls: Vec<BowlId>,
    },
    SecondFluid {
        bowls: Vec<BowlId>,
    },
    Stir {
        bowls: Vec<BowlId>,
    },
    Measure {
        person: PersonId,
        bowl: Option<BowlId>,
        tool: Option<Tool>,
    },
    Food {
        person: PersonId,
    },
    Give {
        person: PersonId,
    },
    WholeTablet {
        person: PersonId,
    },
    AskOutcome {
        person: PersonId,
    },
    Cover {
        bowl: BowlId,
    },
    ThrowAway {
        bowl: BowlId,
        why: ThrowAwayWhy,
    },
    Done,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ThrowAwayWhy {
    TooOld,
    LeftOver,
}

/// Stitches of the hem: gather, soak, crush, smooth, stir, measure, food, give, cover.
pub const STITCHES: usize = 9;

impl Stage {
    /// Which of the nine stitches this is, from 0; nothing before and after them.
    pub fn stitch(&self) -> Option<usize> {
        Some(match self {
            Stage::Reactions | Stage::Done => return None,
            Stage::AskCold { .. }
            | Stage::MatchLabel
            | Stage::ChooseTool
            | Stage::SetOut { .. } => 0,
            Stage::Soak { .. } => 1,
            Stage::Crush { .. } => 2,
            Stage::Smooth { .. } => 3,
            Stage::SecondFluid { .. } | Stage::Stir { .. } => 4,
            Stage::Measure { .. } => 5,
            Stage::Food { .. } => 6,
            Stage::Give { .. } | Stage::WholeTablet { .. } | Stage::AskOutcome { .. } => 7,
            Stage::Cover { .. } | Stage::ThrowAway { .. } => 8,
        })
    }
}

impl Prep {
    /// The one thing to do next at this moment.
    pub fn stage(&self, now: &Now) -> Stage {
        if self.plan.asks_reactions && self.reactions.is_none() {
            return Stage::Reactions;
        }
        if let Some(old) = self.bowls.iter().find(|brew| self.too_old(brew, now)) {
            return Stage::ThrowAway {
                bowl: old.bowl.id,
                why: ThrowAwayWhy::TooOld,
            };
        }
        if let Some(brew) = self.bowls.iter().find(|brew| self.asks_cold(brew)) {
            return Stage::AskCold { bowl: brew.bowl.id };
        }
        // A dose in hand is finished at once: it never waits for another bowl to be made.
        let in_hand = |t: &&Taking| self.is_pending(t) && !t.later && t.step != TakeStep::ToMeasure;
        if let Some(taking) = self.takes.iter().find(in_hand) {
            return self.take_stage(taking);
        }
        if let Some(stage) = self.gather_stage() {
            return stage;
        }
        if let Some(stage) = self.brew_stage(now) {
            return stage;
        }
        if let Some(taking) = self
            .takes
            .iter()
            .find(|taking| self.is_pending(taking) && !taking.later)
        {
            return self.take_stage(taking);
        }
        if let Some(taking) = self.takes.iter().find(|taking| self.is_pending(taking)) {
            return self.take_stage(taking);
        }
        self.close_stage()
    }

    /// Whether this person's dose is still to be dealt with in this round.
    pub(crate) fn is_pending(&self, taking: &Taking) -> bool {
        taking.step != TakeStep::Closed && !self.is_stopped(taking.take.person)
    }

    /// A reaction since the last dose stops this person's medicine.
    pub fn is_stopped(&self, person: PersonId) -> bool {
        self.reactions
            .as_ref()
            .is_some_and(|people| people.contains(&person))
    }

    /// A bowl from the refrigerator is asked about before its first dose of the round.
    fn asks_cold(&self, brew: &Brew) -> bool {
        let from_it = |t: &Taking| {
            let waits = t.step == TakeStep::ToMeasure && self.is_pending(t);
            waits && t.take.bowl == Some(brew.bowl.id)
        };
        let stood_cold = brew.bowl.refrigerated && brew.bowl.source == Source::Covered;
        stood_cold && brew.is_open() && !brew.stayed_cold && self.takes.iter().any(from_it)
    }

    fn gather_stage(&self) -> Option<Stage> {
        let to_make: Vec<BowlId> = self.in_state(BrewState::ToMake).collect();
        let tablets = self
            .takes
            .iter()
            .any(|t| self.is_pending(t) && t.take.form == DoseForm::Tablets);
        let liquid = self
            .takes
            .iter()
            .any(|t| self.is_pending(t) && t.take.form == DoseForm::Liquid);
        if (!to_make.is_empty() || tablets || liquid) && !self.label_matched {
            return Some(Stage::MatchLabel);
        }
        if to_make.is_empty() {
            return None;
        }
        if self.tool.is_none() {
            return Some(Stage::ChooseTool);
        }
        Some(Stage::SetOut { bowls: to_make })
    }

    fn brew_stage(&self, now: &Now) -> Option<Stage> {
        let soaking: Vec<BowlId> = self.in_state(BrewState::Soaking).collect();
        if !soaking.is_empty() {
            return Some(Stage::Soak {
                bowls: soaking,
                left: self.soak_left(now),
            });
        }
        type Made = fn(Vec<BowlId>) -> Stage;
        let stages: [(BrewState, Made); 3] = [
            (BrewState::Softened, |bowls| Stage::Crush { bowls }),
            (BrewState::Crushed, |bowls| Stage::Smooth { bowls }),
            (BrewState::Smooth, |bowls| Stage::Stir { bowls }),
        ];
        stages.into_iter().find_map(|(state, stage)| {
            let bowls: Vec<BowlId> = self.in_state(state.clone()).collect();
            let fluid = state == BrewState::Smooth
                && self
                    .bowls
                    .iter()
                    .any(|b| b.state == BrewState::Smooth && !b.fluid_in);
            match (bowls.is_empty(), fluid) {
                (true, _) => None,
                (false, true) => Some(Stage::SecondFluid { bowls }),
                (false, false) => Some(stage(bowls)),
            }
        })
    }

    fn take_stage(&self, taking: &Taking) -> Stage {
        let person = taking.take.person;
        match (taking.step, taking.take.form) {
            (TakeStep::ToMeasure, DoseForm::Tablets) => Stage::WholeTablet { person },
            (TakeStep::ToMeasure, _) => {
                let tool = taking
                    .take
                    .bowl
                    .and_then(|bowl| self.brew(bowl))
                    .and_then(|brew| brew.bowl.tool);
                Stage::Measure {
                    person,
                    bowl: taking.take.bowl,
                    tool: tool.or(self.tool),
                }
            }
            (TakeStep::Measured, _) if !taking.take.foods.is_empty() => Stage::Food { person },
            (TakeStep::Measured | TakeStep::WithFood, _) => Stage::Give { person },
            (TakeStep::Given | TakeStep::Closed, _) => Stage::AskOutcome { person },
        }
    }

    fn close_stage(&self) -> Stage {
        let open = self.bowls.iter().find(|brew| brew.is_open());
        match open {
            None => Stage::Done,
            Some(brew) if !brew.bowl.later.is_empty() => Stage::Cover { bowl: brew.bowl.id },
            Some(brew) => Stage::ThrowAway {
                bowl: brew.bowl.id,
                why: ThrowAwayWhy::LeftOver,
            },
        }
    }

    pub(super) fn in_state(&self, state: BrewState) -> impl Iterator<Item = BowlId> {
        self.bowls
            .iter()
            .filter(move |brew| brew.state == state)
            .map(|brew| brew.bowl.id)
    }

    /// The longest wait any soaking bowl still needs.
    pub(crate) fn soak_left(&self, now: &Now) -> SignedDuration {
        let left = |brew: &Brew| {
            let passed = brew
                .bowl
                .water_at
                .as_ref()
                .map_or(SignedDuration::ZERO, |water| now.at_least_since(water));
            (brew.bowl.soak - passed).max(SignedDuration::ZERO)
        };
        self.bowls
            .iter()
            .filter(|b| b.state == BrewState::Soaking)
            .map(left)
            .max()
            .unwrap_or(SignedDuration::ZERO)
    }

    /// Whether a bowl of this round was made in it.
    pub fn made_here(&self, bowl: BowlId) -> bool {
        self.brew(bowl)
            .is_some_and(|brew| brew.bowl.source == Source::New && brew.state != BrewState::ToMake)
    }
}
