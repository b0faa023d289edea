//! Taking an event, or saying why not.

use super::event::{Answered, Stay, StepEvent};
use super::plan::{BowlId, PersonId};
use super::{Brew, BrewState, Prep, Stage, TakeStep, Taking};
use crate::time::Now;
use crate::units::Volume;

impl Prep {
    /// The round after `event` at `now`.
    ///
    /// # Errors
    /// Why the event was not taken; the round is as before.
    pub fn after(&self, event: &StepEvent, now: &Now) -> Answered {
        let mut next = self.clone();
        next.latest = self.latest.max(now.wall);
        if let StepEvent::WentWrong { what } = event {
            next.go_wrong(what)?;
            return Ok(next);
        }
        match (self.stage(now), event) {
            (Stage::Reactions, StepEvent::Reactions { people }) => {
                next.reactions = Some(people.clone());
                next.leave_unneeded();
            }
            (Stage::AskCold { bowl }, StepEvent::StayedCold { bowl: which, cold })
                if bowl == *which =>
            {
                if *cold {
                    next.brew_mut(bowl)?.stayed_cold = true;
                } else {
                    next.set_state(bowl, BrewState::Thrown)?;
                }
            }
            (Stage::MatchLabel, StepEvent::Label { matches: true }) => next.label_matched = true,
            (Stage::MatchLabel, StepEvent::Label { matches: false }) => {
                return Err(Stay::LabelDiffers);
            }
            (Stage::ChooseTool, StepEvent::ToolChosen { tool }) => next.tool = Some(*tool),
            (Stage::SetOut { .. }, StepEvent::WaterIn) => next.pour(now),
            (Stage::Soak { left, .. }, StepEvent::Crush) => {
                if left.is_positive() {
                    return Err(Stay::NotYet { left });
                }
                next.advance(BrewState::Soaking, BrewState::Softened);
            }
            (Stage::Crush { .. }, StepEvent::Crushed) => {
                next.advance(BrewState::Softened, BrewState::Crushed)
            }
            (Stage::Smooth { .. }, StepEvent::Smooth { smooth: true }) => {
                next.advance(BrewState::Crushed, BrewState::Smooth)
            }
            (Stage::Smooth { .. }, StepEvent::Smooth { smooth: false }) => {
                next.advance(BrewState::Crushed, BrewState::Softened)
            }
            (Stage::SecondFluid { .. }, StepEvent::SecondFluidIn) => next.add_second_fluid(),
            (Stage::Stir { .. }, StepEvent::Stirred) => {
                next.advance(BrewState::Smooth, BrewState::Ready)
            }
            (Stage::Measure { person, .. }, StepEvent::Measured { person: who })
                if person == *who =>
            {
                next.measure(person)?
            }
            (Stage::Food { person }, StepEvent::FoodAdded { person: who, food })
                if person == *who =>
            {
                let taking = next.taking_mut(person)?;
                taking.food.clone_from(food);
                taking.step = TakeStep::WithFood;
            }
            (
                Stage::Give { person } | Stage::WholeTablet { person },
                StepEvent::Given { person: who },
            ) if person == *who => {
                next.taking_mut(person)?.step = TakeStep::Given;
            }
            (
                Stage::AskOutcome { person },
                StepEvent::Outcome {
                    person: who,
                    outcome,
                },
            ) if person == *who => {
                let taking = next.taking_mut(person)?;
                taking.outcome = Some(*outcome);
                taking.step = TakeStep::Closed;
                next.close_emptied();
            }
            // A dose that somebody would not even let come near is told from the step before.
            (
                Stage::Give { person } | Stage::WholeTablet { person },
                StepEvent::Outcome {
                    person: who,
                    outcome,
                },
            ) if person == *who => {
                let taking = next.taking_mut(person)?;
                taking.outcome = Some(*outcome);
                taking.step = TakeStep::Closed;
                next.close_emptied();
            }
            (Stage::AskOutcome { person }, StepEvent::AnswerLater { person: who })
                if person == *who =>
            {
                next.taking_mut(person)?.later = true;
            }
            (Stage::Cover { bowl }, StepEvent::Covered { bowl: which }) if bowl == *which => {
                next.set_state(bowl, BrewState::Covered)?;
            }
            (Stage::ThrowAway { bowl, .. }, StepEvent::ThrownAway { bowl: which })
                if bowl == *which =>
            {
                next.set_state(bowl, BrewState::Thrown)?;
            }
            (
                Stage::ThrowAway {
                    bowl,
                    why: super::ThrowAwayWhy::TooOld,
                },
                _,
            ) => return Err(Stay::TooOld { bowl }),
            _ => return Err(Stay::OtherStep),
        }
        Ok(next)
    }

    /// A bowl that was to be made only for people who now stop is not made.
    fn leave_unneeded(&mut self) {
        let needed = self.pending_bowls();
        let needless =
            |brew: &Brew| brew.state == BrewState::ToMake && !needed.contains(&brew.bowl.id);
        self.bowls.retain(|brew| !needless(brew));
    }

    fn pending_bowls(&self) -> Vec<BowlId> {
        let pending = self.takes.iter().filter(|t| self.is_pending(t));
        pending.filter_map(|t| t.take.bowl).collect()
    }

    fn brew_mut(&mut self, bowl: BowlId) -> Result<&mut Brew, Stay> {
        let brew = self.bowls.iter_mut().find(|b| b.bowl.id == bowl);
        brew.ok_or(Stay::NoSuchBowl)
    }

    fn pour(&mut self, now: &Now) {
        let tool = self.tool;
        for brew in self
            .bowls
            .iter_mut()
            .filter(|b| b.state == BrewState::ToMake)
        {
            brew.bowl.water_at = Some(now.clone());
            brew.bowl.tool = tool;
            brew.state = BrewState::Soaking;
        }
    }

    fn advance(&mut self, from: BrewState, to: BrewState) {
        for brew in self.bowls.iter_mut().filter(|b| b.state == from) {
            brew.state = to.clone();
        }
    }

    fn add_second_fluid(&mut self) {
        for brew in self
            .bowls
            .iter_mut()
            .filter(|b| b.state == BrewState::Smooth)
        {
            brew.fluid_in = true;
        }
    }

    fn measure(&mut self, person: PersonId) -> Result<(), Stay> {
        let taking = self.taking_mut(person)?;
        taking.step = TakeStep::Measured;
        let (bowl, amount) = (taking.take.bowl, taking.take.amount);
        if let Some(brew) = self.bowls.iter_mut().find(|b| Some(b.bowl.id) == bowl) {
            brew.taken = Volume::microlitres(
                brew.taken
                    .as_microlitres()
                    .saturating_add(amount.as_microlitres()),
            );
        }
        Ok(())
    }

    /// A bowl whose every drop was meant for this round is empty once the last of it was measured.
    fn close_emptied(&mut self) {
        let pending = self.pending_bowls();
        for brew in self.bowls.iter_mut().filter(|b| b.is_open()) {
            if brew.left() == Volume::ZERO && !pending.contains(&brew.bowl.id) {
                brew.state = BrewState::Empty;
            }
        }
    }

    pub(super) fn set_state(&mut self, bowl: BowlId, state: BrewState) -> Result<(), Stay> {
        let brew = self.brew_mut(bowl)?;
        let thrown = state == BrewState::Thrown;
        brew.state = state;
        if thrown {
            self.replace_lost(bowl);
        }
        Ok(())
    }

    pub(super) fn taking_mut(&mut self, person: PersonId) -> Result<&mut Taking, Stay> {
        let stopped = self.is_stopped(person);
        let taking = self
            .takes
            .iter_mut()
            .find(|t| t.take.person == person && t.step != TakeStep::Closed);
        taking.filter(|_| !stopped).ok_or(Stay::NoSuchPerson)
    }
}
