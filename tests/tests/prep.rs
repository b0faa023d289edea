//! The round at the kitchen table: every step, every clock, everything that goes wrong.

#[path = "prep/clocks.rs"]
mod clocks;
#[path = "prep/every_step.rs"]
mod every_step;
#[path = "prep/hazards.rs"]
mod hazards;
#[path = "prep/two_in_a_row.rs"]
mod two_in_a_row;
#[path = "prep/whole_rounds.rs"]
mod whole_rounds;

use hearthdose_core::prep::{RoundPlan, StepEvent};
use hearthdose_core::record::{DeviceId, Event, Fact, FactId, Hlc, Stamp};
use hearthdose_core::time::Now;
use uuid::Uuid;

/// A record of one device.
#[derive(Clone, Debug, Default)]
struct Record {
    facts: Vec<Fact>,
}

impl Record {
    fn begun(plan: RoundPlan, now: &Now) -> Record {
        let mut record = Record::default();
        let plan = Box::new(plan);
        record.note(Event::RoundBegun { plan }, now);
        record
    }

    fn note(&mut self, event: Event, now: &Now) {
        let sequence = u64::try_from(self.facts.len()).expect("a few") + 1;
        self.facts.push(Fact {
            id: FactId(Uuid::from_u128((9 << 64) + u128::from(sequence))),
            stamp: Stamp {
                // The running number alone puts the facts in order, whatever the wall clock did.
                hlc: Hlc::default(),
                device: DeviceId(Uuid::from_u128(7)),
                sequence,
            },
            at: now.wall,
            steady: now.steady.clone(),
            zone: "America/Chicago".to_owned(),
            order: None,
            event,
        });
    }

    fn step(&mut self, plan: &RoundPlan, event: &StepEvent, now: &Now) {
        let event = event.clone();
        let round = plan.key;
        self.note(Event::Step { round, event }, now);
    }
}
