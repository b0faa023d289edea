//! The record as a fold: the same whatever arrives first, wrong entries put right, nobody's dose lost or silently doubled.
#![expect(
    clippy::unwrap_used,
    reason = "what builds a case fails the test, wherever it stands"
)]

#[path = "record/corrections.rs"]
mod corrections;
#[path = "record/erased.rs"]
mod erased;
mod facts;
#[path = "record/merge.rs"]
mod merge;
#[path = "record/orders.rs"]
mod orders;
#[path = "record/people.rs"]
mod people_facts;
#[path = "record/settling.rs"]
mod settling;
#[path = "record/tablets.rs"]
mod tablets;
#[path = "record/twice.rs"]
mod twice;

use std::collections::BTreeSet;

use hearthdose_core::dose::DoseForm;
use hearthdose_core::prep::{
    BowlId, OrderRef, Outcome, PersonId, PlannedBowl, PlannedTake, RoundKey, RoundPlan, Source,
    StepEvent, Tool,
};
use hearthdose_core::record::{Event, Fact, PersonWords, RoundName};
use hearthdose_core::units::Volume;
use jiff::civil::date;
use jiff::{SignedDuration, Timestamp};

use facts::{MORNING, fact, id, person};

const ROUND: RoundKey = RoundKey {
    day: date(2031, 4, 3),
    index: 0,
};

const MINUTE: i64 = 60_000;

/// The round as the order of these tests has it.
fn named(key: RoundKey) -> RoundName {
    RoundName {
        order: "quillmere-doxy".to_owned(),
        key,
    }
}

fn words(number: u64, name: &str) -> Event {
    Event::PersonSet(PersonWords {
        person: person(number),
        name: name.to_owned(),
        born: None,
        told_age: None,
        adult: true,
        sex: None,
        swallows_tablets: false,
        born_early: None,
        food_allergies: BTreeSet::new(),
        starts: None,
        screened: true,
    })
}

fn bowl(number: u64) -> BowlId {
    id(3, number)
}

/// A round for Ana (1) and Ben (2): a teaspoon and a half each, out of one fresh bowl.
fn plan(round: RoundKey, out_of: u64) -> RoundPlan {
    let take = |number: u64, name: &str| PlannedTake {
        person: person(number),
        name: name.to_owned(),
        form: DoseForm::Mixture,
        bowl: Some(bowl(out_of)),
        amount: Volume::microlitres(7_500),
        tablets: None,
        foods: Vec::new(),
    };
    RoundPlan {
        key: round,
        order: OrderRef {
            id: "quillmere-doxy".to_owned(),
            revision: 1,
        },
        at: Timestamp::from_millisecond(MORNING).unwrap(),
        bowls: vec![PlannedBowl {
            id: bowl(out_of),
            number: 1,
            source: Source::New,
            tablets: 1,
            water: Volume::microlitres(20_000),
            second_fluid: None,
            holds: Volume::microlitres(20_000),
            soak: SignedDuration::from_mins(5),
            keep: SignedDuration::from_hours(24),
            refrigerated: false,
            water_at: None,
            tool: None,
            later: Vec::new(),
        }],
        takes: vec![take(1, "Ana"), take(2, "Ben")],
        asks_reactions: false,
    }
}

fn step(event: StepEvent) -> Event {
    Event::Step {
        round: ROUND,
        event,
    }
}

/// From the bottle to a stirred bowl, with the minute of each step.
fn mixing(out_of: u64) -> Vec<(i64, Event)> {
    vec![
        (
            0,
            Event::RoundBegun {
                plan: Box::new(plan(ROUND, out_of)),
            },
        ),
        (1, step(StepEvent::Label { matches: true })),
        (2, step(StepEvent::ToolChosen { tool: Tool::Spoon })),
        (3, step(StepEvent::WaterIn)),
        (9, step(StepEvent::Crush)),
        (10, step(StepEvent::Crushed)),
        (11, step(StepEvent::Smooth { smooth: true })),
        (12, step(StepEvent::Stirred)),
    ]
}

/// One person's dose, from minute `at`.
fn giving(at: i64, who: PersonId, outcome: Outcome) -> Vec<(i64, Event)> {
    vec![
        (at, step(StepEvent::Measured { person: who })),
        (at + 1, step(StepEvent::Given { person: who })),
        (
            at + 2,
            step(StepEvent::Outcome {
                person: who,
                outcome,
            }),
        ),
    ]
}

/// The events as facts of one device, so many milliseconds after the full minutes.
fn noted(on: u64, behind: i64, events: Vec<(i64, Event)>) -> Vec<Fact> {
    (1..)
        .zip(events)
        .map(|(sequence, (minute, event))| fact(on, sequence, minute * MINUTE + behind, event))
        .collect()
}

/// A round that one device records from beginning to end.
fn whole_round(on: u64, behind: i64, ana: Outcome, ben: Outcome) -> Vec<Fact> {
    let mut events = mixing(on);
    events.extend(giving(13, person(1), ana));
    events.extend(giving(16, person(2), ben));
    events.push((19, step(StepEvent::ThrownAway { bowl: bowl(on) })));
    noted(on, behind, events)
}

/// Two people, entered on the first device long before.
fn people() -> Vec<Fact> {
    vec![
        fact(9, 1, -100, words(1, "Ana")),
        fact(9, 2, -99, words(2, "Ben")),
    ]
}

fn both(first: &[Fact], second: &[Fact]) -> Vec<Fact> {
    [first, second].concat()
}
