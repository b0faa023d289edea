//! A table with rounds on it, and a world whose true time is known although its clocks lie.

use std::collections::BTreeSet;

use hearthdose_core::dose::DoseForm;
use hearthdose_core::prep::{
    BowlId, LaterTake, OrderRef, Outcome, PersonId, PlannedBowl, PlannedTake, Prep, RoundKey,
    RoundPlan, Source, Stage, StepEvent, Tool,
};
use hearthdose_core::time::{Now, Steady};
use hearthdose_core::units::Volume;
use jiff::civil::date;
use jiff::{SignedDuration, Timestamp};
use uuid::Uuid;

pub const MINUTE: SignedDuration = SignedDuration::from_mins(1);
pub const HOUR: SignedDuration = SignedDuration::from_hours(1);
pub const DAY: SignedDuration = SignedDuration::from_hours(24);

/// Half a teaspoon, the step of the demo orders.
pub const HALF_TEASPOON: u64 = 2_500;

/// The first round of the invented course.
pub const ROUND: RoundKey = RoundKey {
    day: date(2031, 4, 3),
    index: 0,
};

pub fn person(number: u128) -> PersonId {
    PersonId(Uuid::from_u128((1 << 64) + number))
}

pub fn bowl(number: u128) -> BowlId {
    BowlId(Uuid::from_u128((2 << 64) + number))
}

pub fn half_teaspoons(count: u64) -> Volume {
    Volume::microlitres(count * HALF_TEASPOON)
}

/// True time, a wall clock that can be moved, and a machine that can start again.
#[derive(Clone, Debug)]
pub struct Clocks {
    pub truth: Timestamp,
    pub wall_ahead: SignedDuration,
    boot: u32,
    booted: Timestamp,
}

impl Default for Clocks {
    fn default() -> Clocks {
        let truth = "2031-04-03T19:30:00-05:00".parse().expect("an instant");
        Clocks {
            truth,
            wall_ahead: SignedDuration::ZERO,
            boot: 1,
            // The machine has been running for a while.
            booted: truth - HOUR * 7,
        }
    }
}

impl Clocks {
    pub fn now(&self) -> Now {
        let running = self.truth.duration_since(self.booted).as_millis();
        Now {
            wall: self.truth + self.wall_ahead,
            steady: Some(Steady {
                boot: format!("boot {}", self.boot),
                millis: u64::try_from(running).expect("after the start"),
            }),
        }
    }

    pub fn pass(&mut self, length: SignedDuration) {
        self.truth += length;
    }

    pub fn move_wall(&mut self, by: SignedDuration) {
        self.wall_ahead += by;
    }

    /// The machine is off for `off` and starts again with the right time.
    pub fn restart(&mut self, off: SignedDuration) {
        self.truth += off;
        self.boot += 1;
        self.booted = self.truth;
        self.wall_ahead = SignedDuration::ZERO;
    }

    pub fn boots(&self) -> u32 {
        self.boot
    }
}

/// A fresh bowl of the demo recipe: one tablet, 8 half teaspoons of water, 5 minutes, 24 hours.
pub fn new_bowl(number: u32) -> PlannedBowl {
    PlannedBowl {
        id: bowl(u128::from(number)),
        number,
        source: Source::New,
        tablets: 1,
        water: half_teaspoons(8),
        second_fluid: None,
        holds: half_teaspoons(8),
        soak: MINUTE * 5,
        keep: DAY,
        refrigerated: false,
        water_at: None,
        tool: None,
        later: Vec::new(),
    }
}

/// A bowl of the iodide recipe: 8 half teaspoons of water, as much syrup, 7 days in the refrigerator.
pub fn cold_bowl(number: u32) -> PlannedBowl {
    PlannedBowl {
        second_fluid: Some(half_teaspoons(8)),
        holds: half_teaspoons(16),
        soak: MINUTE,
        keep: DAY * 7,
        refrigerated: true,
        ..new_bowl(number)
    }
}

/// The same bowl as it stands covered since `water_at`.
pub fn covered(bowl: PlannedBowl, water_at: Now, tool: Tool, holds: Volume) -> PlannedBowl {
    PlannedBowl {
        source: Source::Covered,
        holds,
        water_at: Some(water_at),
        tool: Some(tool),
        later: Vec::new(),
        ..bowl
    }
}

pub fn take(number: u128, from: u32, amount: Volume) -> PlannedTake {
    PlannedTake {
        person: person(number),
        name: format!("Person {number}"),
        form: DoseForm::Mixture,
        bowl: Some(bowl(u128::from(from))),
        amount,
        tablets: None,
        foods: vec![hearthdose_core::prep::FoodChoice {
            name: "apple juice".to_owned(),
            at_least: half_teaspoons(6),
            sugar: None,
        }],
    }
}

pub fn whole_tablet(number: u128) -> PlannedTake {
    PlannedTake {
        form: DoseForm::Tablets,
        bowl: None,
        amount: Volume::ZERO,
        tablets: Some(1),
        foods: Vec::new(),
        ..take(number, 0, Volume::ZERO)
    }
}

pub fn later(number: u128, amount: Volume) -> LaterTake {
    LaterTake {
        person: person(number),
        name: format!("Person {number}"),
        round: RoundKey {
            day: date(2031, 4, 4),
            index: 0,
        },
        at: "2031-04-04T08:00:00-05:00".parse().expect("an instant"),
        amount,
    }
}

pub fn round(bowls: Vec<PlannedBowl>, takes: Vec<PlannedTake>) -> RoundPlan {
    RoundPlan {
        key: ROUND,
        order: OrderRef {
            id: "quillmere-doxy".to_owned(),
            revision: 1,
        },
        at: "2031-04-03T20:00:00-05:00".parse().expect("an instant"),
        bowls,
        takes,
        asks_reactions: false,
    }
}

/// A round for so many people, `each` half teaspoons for everybody, bowls of eight filled one after the other.
pub fn round_for(people: u32, each: u64) -> RoundPlan {
    let in_one = u32::try_from(8 / each).expect("a few");
    let bowls = (1..=people.div_ceil(in_one)).map(new_bowl).collect();
    let takes = (0..people)
        .map(|index| {
            take(
                u128::from(index) + 1,
                index / in_one + 1,
                half_teaspoons(each),
            )
        })
        .collect();
    round(bowls, takes)
}

/// What somebody does at this stage when nothing goes wrong; nothing when the round is done.
pub fn usual(stage: &Stage) -> Option<StepEvent> {
    Some(match stage {
        Stage::Reactions => StepEvent::Reactions {
            people: BTreeSet::new(),
        },
        Stage::AskCold { bowl } => StepEvent::StayedCold {
            bowl: *bowl,
            cold: true,
        },
        Stage::MatchLabel => StepEvent::Label { matches: true },
        Stage::ChooseTool => StepEvent::ToolChosen { tool: Tool::Spoon },
        Stage::SetOut { .. } => StepEvent::WaterIn,
        Stage::Soak { .. } => StepEvent::Crush,
        Stage::Crush { .. } => StepEvent::Crushed,
        Stage::Smooth { .. } => StepEvent::Smooth { smooth: true },
        Stage::SecondFluid { .. } => StepEvent::SecondFluidIn,
        Stage::Stir { .. } => StepEvent::Stirred,
        Stage::Measure { person, .. } => StepEvent::Measured { person: *person },
        Stage::Food { person } => StepEvent::FoodAdded {
            person: *person,
            food: Some("apple juice".to_owned()),
        },
        Stage::Give { person } | Stage::WholeTablet { person } => {
            StepEvent::Given { person: *person }
        }
        Stage::AskOutcome { person } => StepEvent::Outcome {
            person: *person,
            outcome: Outcome::All,
        },
        Stage::Cover { bowl } => StepEvent::Covered { bowl: *bowl },
        Stage::ThrowAway { bowl, .. } => StepEvent::ThrownAway { bowl: *bowl },
        Stage::Done => return None,
    })
}

/// A round under way in such a world.
#[derive(Clone, Debug)]
pub struct Table {
    pub clocks: Clocks,
    pub prep: Prep,
}

impl Table {
    pub fn set(plan: RoundPlan) -> Table {
        Table::set_at(plan, Clocks::default())
    }

    pub fn set_at(plan: RoundPlan, clocks: Clocks) -> Table {
        let prep = Prep::begin(plan, clocks.now().wall);
        Table { clocks, prep }
    }

    pub fn stage(&self) -> Stage {
        self.prep.stage(&self.clocks.now())
    }

    /// Does it, and must be allowed to.
    pub fn does(&mut self, event: StepEvent) {
        match self.prep.after(&event, &self.clocks.now()) {
            Ok(next) => self.prep = next,
            Err(stay) => panic!("{event:?} at {:?}: {stay:?}", self.stage()),
        }
    }

    /// One usual step, a quarter of a minute long; a soak is waited for.
    pub fn goes_on(&mut self) -> Option<StepEvent> {
        if let Stage::Soak { left, .. } = self.stage() {
            self.clocks.pass(left);
        }
        self.clocks.pass(MINUTE / 4);
        let event = usual(&self.stage())?;
        self.does(event.clone());
        Some(event)
    }

    /// Usual steps until `wanted`.
    pub fn until(&mut self, wanted: impl Fn(&Stage) -> bool) {
        for _ in 0..400 {
            if wanted(&self.stage()) {
                return;
            }
            if self.goes_on().is_none() {
                break;
            }
        }
        panic!("it never comes; the stage is {:?}", self.stage());
    }

    pub fn to_the_end(&mut self) {
        self.until(|stage| *stage == Stage::Done);
    }
}
