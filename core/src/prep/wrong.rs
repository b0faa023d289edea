//! Spilt, dropped, too old, run short: what is made anew, and for whom.

use uuid::Uuid;

use super::event::{Stay, Wrong};
use super::plan::{BowlId, PlannedBowl, Source};
use super::{Brew, BrewState, Prep, TakeStep, Taking};
use crate::dose::DoseForm;
use crate::units::Volume;

impl Prep {
    pub(super) fn go_wrong(&mut self, what: &Wrong) -> Result<(), Stay> {
        if let Wrong::BowlLost { instead, .. } | Wrong::DoseDropped { instead, .. } = what
            && self.brew(*instead).is_some()
        {
            return Err(Stay::BowlKnown);
        }
        match what {
            Wrong::BowlLost { bowl, instead } => {
                let brew = self
                    .bowls
                    .iter_mut()
                    .find(|b| b.bowl.id == *bowl && b.is_open())
                    .ok_or(Stay::NoSuchBowl)?;
                brew.state = BrewState::Thrown;
                self.make_instead(*bowl, *instead);
            }
            Wrong::DoseDropped { person, instead } => self.measure_again(*person, *instead)?,
            Wrong::RanShort { person } => {
                let ready: Vec<BowlId> = self.in_state(BrewState::Ready).collect();
                let taking = self.taking_mut(*person)?;
                let from_ready = taking.take.bowl.is_some_and(|bowl| ready.contains(&bowl));
                let measuring = taking.step == TakeStep::ToMeasure && from_ready;
                if !measuring && taking.step != TakeStep::Measured {
                    return Err(Stay::OtherStep);
                }
                taking.short = true;
            }
        }
        Ok(())
    }

    /// A bowl thrown away while doses of this round were still to come out of it is made anew under a name of its own.
    pub(super) fn replace_lost(&mut self, bowl: BowlId) {
        // The name follows from the lost bowl, so that every device that reads the record gives the same one.
        self.make_instead(bowl, BowlId(Uuid::new_v5(&bowl.0, b"made instead")));
    }

    fn make_instead(&mut self, lost: BowlId, instead: BowlId) {
        let waiting =
            |t: &&mut super::Taking| t.take.bowl == Some(lost) && t.step == TakeStep::ToMeasure;
        let stopped = self.reactions.clone().unwrap_or_default();
        let mut moved = 0;
        for taking in self
            .takes
            .iter_mut()
            .filter(waiting)
            .filter(|t| !stopped.contains(&t.take.person))
        {
            taking.take.bowl = Some(instead);
            moved += 1;
        }
        if moved > 0 {
            self.add_bowl(lost, instead);
        }
    }

    fn measure_again(&mut self, person: super::PersonId, instead: BowlId) -> Result<(), Stay> {
        let label_matched = self.label_matched;
        let taking = self.taking_mut(person)?;
        // A whole tablet is never measured: it may fall as soon as the bottle is open.
        let whole = taking.take.form == DoseForm::Tablets && label_matched;
        if taking.step == TakeStep::ToMeasure && !whole {
            return Err(Stay::OtherStep);
        }
        taking.step = TakeStep::ToMeasure;
        taking.food = None;
        taking.short = false;
        let (amount, from) = (taking.take.amount, taking.take.bowl);
        let Some(from) = from else {
            return Ok(());
        };
        if self.spare(from, person) < amount {
            if let Ok(taking) = self.taking_mut(person) {
                taking.take.bowl = Some(instead);
            }
            self.add_bowl(from, instead);
        }
        Ok(())
    }

    /// What a bowl holds beyond everything still planned for others, now or later.
    fn spare(&self, bowl: BowlId, beside: super::PersonId) -> Volume {
        let Some(brew) = self.brew(bowl).filter(|b| b.is_open()) else {
            return Volume::ZERO;
        };
        let waits = |t: &&Taking| {
            let from_it = t.take.bowl == Some(bowl) && t.step == TakeStep::ToMeasure;
            from_it && self.is_pending(t) && t.take.person != beside
        };
        let now = self.takes.iter().filter(waits);
        let planned: u64 = now.map(|t| t.take.amount.as_microlitres()).sum::<u64>()
            + brew
                .bowl
                .later
                .iter()
                .map(|l| l.amount.as_microlitres())
                .sum::<u64>();
        Volume::microlitres(brew.left().as_microlitres().saturating_sub(planned))
    }

    fn add_bowl(&mut self, like: BowlId, id: BowlId) {
        let Some(pattern) = self
            .plan
            .bowls
            .iter()
            .chain(self.bowls.iter().map(|b| &b.bowl))
            .find(|b| b.id == like)
        else {
            return;
        };
        let number = self
            .bowls
            .iter()
            .map(|b| b.bowl.number)
            .max()
            .unwrap_or(0)
            .saturating_add(1);
        let full = pattern
            .water
            .checked_add(pattern.second_fluid.unwrap_or(Volume::ZERO))
            .unwrap_or(pattern.water);
        let bowl = PlannedBowl {
            id,
            number,
            source: Source::New,
            holds: full,
            water_at: None,
            tool: None,
            later: Vec::new(),
            ..pattern.clone()
        };
        self.bowls.push(Brew::new(bowl));
    }
}
