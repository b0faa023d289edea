//! One event of every kind, with every kind of thing inside.

use std::collections::BTreeSet;

use hearthdose_core::dose::DoseForm;
use hearthdose_core::household::{Answer, Manner};
use hearthdose_core::prep::{
    BowlId, FoodChoice, LaterTake, OrderRef, Outcome, PlannedBowl, PlannedTake, RoundKey,
    RoundPlan, Source, StepEvent, Tool, Wrong,
};
use hearthdose_core::record::{Change, Event, HouseholdWords, PersonWords};
use hearthdose_core::time::{Now, Steady};
use hearthdose_core::units::Volume;
use jiff::civil::{date, time};
use jiff::{SignedDuration, Timestamp};

use crate::facts::{MORNING, fact_id, id, person};
use crate::site_events;

const ROUND: RoundKey = RoundKey {
    day: date(2031, 4, 3),
    index: 0,
};

fn bowl(number: u64) -> BowlId {
    id(3, number)
}

fn moment() -> Now {
    Now {
        wall: Timestamp::from_millisecond(MORNING).unwrap(),
        steady: Some(Steady {
            boot: "b7".to_owned(),
            millis: u64::MAX,
        }),
    }
}

/// A round of nine people: its plan is longer than a page of the file.
pub fn long_plan() -> RoundPlan {
    let takes = (1..=9).map(|number| PlannedTake {
        person: person(number),
        name: format!("Ñandú \"{number}\""),
        form: [DoseForm::Mixture, DoseForm::Liquid, DoseForm::Tablets]
            [usize::try_from(number % 3).unwrap()],
        bowl: (number % 3 == 0).then(|| bowl(number)),
        amount: Volume::HALF_TEASPOON,
        tablets: (number % 3 == 2).then_some(1),
        foods: vec![
            FoodChoice {
                name: "apple juice".to_owned(),
                at_least: Volume::TEASPOON,
                sugar: Some(Volume::TEASPOON),
            },
            FoodChoice {
                name: "chocolate pudding".to_owned(),
                at_least: Volume::TEASPOON,
                sugar: None,
            },
        ],
    });
    let bowls = (1..=9).map(|number| PlannedBowl {
        id: bowl(number),
        number: u32::try_from(number).unwrap(),
        source: if number % 2 == 0 {
            Source::Covered
        } else {
            Source::New
        },
        tablets: 1,
        water: Volume::microlitres(20_000),
        second_fluid: (number == 4).then_some(Volume::microlitres(20_000)),
        holds: Volume::microlitres(20_000),
        soak: SignedDuration::from_mins(5),
        keep: SignedDuration::from_hours(24),
        refrigerated: number == 4,
        water_at: (number % 2 == 0).then(moment),
        tool: (number % 2 == 0).then_some(Tool::Syringe),
        later: vec![LaterTake {
            person: person(number),
            name: "Ana".to_owned(),
            round: RoundKey {
                day: date(2031, 4, 3),
                index: 1,
            },
            at: Timestamp::from_millisecond(MORNING + 43_200_000).unwrap(),
            amount: Volume::HALF_TEASPOON,
        }],
    });
    RoundPlan {
        key: ROUND,
        order: OrderRef {
            id: "quillmere-doxy".to_owned(),
            revision: 2,
        },
        at: Timestamp::from_millisecond(MORNING).unwrap(),
        bowls: bowls.collect(),
        takes: takes.collect(),
        asks_reactions: true,
    }
}

fn steps() -> Vec<StepEvent> {
    let (a, b) = (person(1), bowl(1));
    let mut steps = vec![
        StepEvent::Reactions {
            people: BTreeSet::from([person(1), person(2)]),
        },
        StepEvent::Reactions {
            people: BTreeSet::new(),
        },
        StepEvent::StayedCold {
            bowl: b,
            cold: true,
        },
        StepEvent::Label { matches: true },
        StepEvent::ToolChosen { tool: Tool::Spoon },
        StepEvent::ToolChosen {
            tool: Tool::Syringe,
        },
        StepEvent::WaterIn,
        StepEvent::Crush,
        StepEvent::Crushed,
        StepEvent::Smooth { smooth: false },
        StepEvent::SecondFluidIn,
        StepEvent::Stirred,
        StepEvent::Measured { person: a },
        StepEvent::FoodAdded {
            person: a,
            food: Some("apple juice".to_owned()),
        },
        StepEvent::FoodAdded {
            person: a,
            food: None,
        },
        StepEvent::Given { person: a },
        StepEvent::AnswerLater { person: a },
        StepEvent::Covered { bowl: b },
        StepEvent::ThrownAway { bowl: b },
        StepEvent::WentWrong {
            what: Wrong::BowlLost {
                bowl: b,
                instead: bowl(2),
            },
        },
        StepEvent::WentWrong {
            what: Wrong::DoseDropped {
                person: a,
                instead: bowl(2),
            },
        },
        StepEvent::WentWrong {
            what: Wrong::RanShort { person: a },
        },
    ];
    for outcome in [
        Outcome::All,
        Outcome::Some,
        Outcome::CameBackUp,
        Outcome::WouldNotTake,
    ] {
        steps.push(StepEvent::Outcome { person: a, outcome });
    }
    steps
}

/// Every kind of event; [`kind`] does not compile when one is added, and a test counts.
pub fn every_event() -> Vec<Event> {
    let ana = person(1);
    let words = PersonWords {
        person: ana,
        name: "Ana O'Hara \u{1F963} «\0»".to_owned(),
        born: Some(date(2028, 2, 29)),
        told_age: Some("3 y 2 mo".to_owned()),
        adult: false,
        sex: Some("f".to_owned()),
        swallows_tablets: true,
        born_early: Some(Answer::Unsure),
        food_allergies: BTreeSet::from(["milk".to_owned(), "egg".to_owned()]),
        starts: Some(date(2031, 4, 3)),
        screened: true,
    };
    let nobody = PersonWords {
        person: person(2),
        name: String::new(),
        born: None,
        told_age: None,
        adult: true,
        sex: None,
        swallows_tablets: false,
        born_early: None,
        food_allergies: BTreeSet::new(),
        starts: None,
        screened: false,
    };
    let household = HouseholdWords {
        name: "Number 7".to_owned(),
        zone: "America/Chicago".to_owned(),
        start: date(2031, 4, 3),
        rounds: vec![time(8, 0, 0, 0), time(20, 0, 0, 0)],
        first_dose_at: Some(time(15, 0, 0, 0)),
        fresh: true,
        practice: true,
    };
    let mut events = vec![
        Event::HouseholdSet(household.clone()),
        Event::HouseholdSet(HouseholdWords {
            first_dose_at: None,
            fresh: false,
            practice: false,
            ..household
        }),
        Event::PersonSet(words.clone()),
        Event::PersonSet(nobody),
        Event::PersonLeft {
            person: ana,
            tablets: 3,
        },
        Event::Joined {
            person: ana,
            order: "quillmere-doxy".to_owned(),
            last_dose: Some(Timestamp::from_millisecond(MORNING).unwrap()),
            course_started: Some(date(2031, 4, 1)),
            doses: 5,
            tablets: 16,
        },
        Event::Joined {
            person: ana,
            order: "quillmere-doxy".to_owned(),
            last_dose: None,
            course_started: None,
            doses: 0,
            tablets: 0,
        },
        Event::Follows {
            person: ana,
            order: "quillmere-ciprofloxacin".to_owned(),
            instead_of: Some("quillmere-doxy".to_owned()),
        },
        Event::Follows {
            person: ana,
            order: "quillmere-iodide".to_owned(),
            instead_of: None,
        },
        Event::FollowsNoMore {
            person: ana,
            order: "quillmere-iodide".to_owned(),
        },
        Event::MedicineStopped {
            person: ana,
            by: "nurse".to_owned(),
            reason: "tests".to_owned(),
        },
        Event::HoldLifted {
            person: ana,
            key: "kidney".to_owned(),
            by: "nurse".to_owned(),
            reason: "seen".to_owned(),
        },
        Event::OrderTaken {
            order: OrderRef {
                id: "quillmere-doxy".to_owned(),
                revision: u32::MAX,
            },
            fingerprint: "ab".repeat(32),
        },
        Event::DeskCompared {
            site: "Quillmere school".to_owned(),
            key: "0f".repeat(32),
            same: true,
        },
        Event::NoticeTaken {
            text: "line one\nline two\r\n".to_owned(),
        },
        Event::RoundBegun {
            plan: Box::new(long_plan()),
        },
        Event::RoundMissed {
            round: ROUND,
            reason: "asleep".to_owned(),
        },
        Event::PacksReceived {
            product: "tablet-100".to_owned(),
            lot: Some("ABC123".to_owned()),
            tablets: 40,
        },
        Event::PacksReceived {
            product: "tablet-100".to_owned(),
            lot: None,
            tablets: 0,
        },
        Event::Reaction {
            person: ana,
            lot: None,
            words: "hives".to_owned(),
        },
        Event::ClockMoved { seconds: -86_400 },
        Event::Correction {
            target: fact_id(9, 9),
            change: Change::Withdraw { reason: None },
        },
        Event::Correction {
            target: fact_id(9, 9),
            change: Change::Replace {
                event: Box::new(Event::PersonSet(words)),
                reason: None,
            },
        },
        Event::Erased { person: ana },
    ];
    for manner in [
        Manner::Alone,
        Manner::Together,
        Manner::Site,
        Manner::Clinic,
        Manner::Told,
    ] {
        events.push(Event::Weighed {
            person: ana,
            weight: "31 lb 4 oz".to_owned(),
            on: date(2031, 4, 1),
            manner,
        });
    }
    for answer in [Answer::Yes, Answer::No, Answer::Unsure] {
        events.push(Event::Answered {
            person: ana,
            order: "quillmere-doxy".to_owned(),
            key: "pregnant".to_owned(),
            answer,
        });
    }
    events.extend(steps().into_iter().map(|event| Event::Step {
        round: ROUND,
        event,
    }));
    events.extend(site_events::events());
    events
}

/// The number of kinds below.
pub const KINDS: usize = 21 + 18 + site_events::KINDS;

/// A name for each kind of event, and of step within a round.
pub fn kind(event: &Event) -> &'static str {
    match event {
        Event::HouseholdSet(_) => "household-set",
        Event::PersonSet(_) => "person-set",
        Event::PersonLeft { .. } => "person-left",
        Event::Joined { .. } => "joined",
        Event::MedicineStopped { .. } => "medicine-stopped",
        Event::Follows { .. } => "follows",
        Event::FollowsNoMore { .. } => "follows-no-more",
        Event::Weighed { .. } => "weighed",
        Event::Answered { .. } => "answered",
        Event::HoldLifted { .. } => "hold-lifted",
        Event::OrderTaken { .. } => "order-taken",
        Event::NoticeTaken { .. } => "notice-taken",
        Event::DeskCompared { .. } => "desk-compared",
        Event::RoundBegun { .. } => "round-begun",
        Event::RoundMissed { .. } => "round-missed",
        Event::PacksReceived { .. } => "packs-received",
        Event::Reaction { .. } => "reaction",
        Event::ClockMoved { .. } => "clock-moved",
        Event::Correction {
            change: Change::Withdraw { .. },
            ..
        } => "withdraw",
        Event::Correction {
            change: Change::Replace { .. },
            ..
        } => "replace",
        Event::Erased { .. } => "erased",
        Event::Site { site } => site_events::kind(site),
        Event::Step { event, .. } => match event {
            StepEvent::Reactions { .. } => "step reactions",
            StepEvent::StayedCold { .. } => "step stayed cold",
            StepEvent::Label { .. } => "step label",
            StepEvent::ToolChosen { .. } => "step tool",
            StepEvent::WaterIn => "step water",
            StepEvent::Crush => "step crush",
            StepEvent::Crushed => "step crushed",
            StepEvent::Smooth { .. } => "step smooth",
            StepEvent::SecondFluidIn => "step second fluid",
            StepEvent::Stirred => "step stirred",
            StepEvent::Measured { .. } => "step measured",
            StepEvent::FoodAdded { .. } => "step food",
            StepEvent::Given { .. } => "step given",
            StepEvent::Outcome { .. } => "step outcome",
            StepEvent::AnswerLater { .. } => "step later",
            StepEvent::Covered { .. } => "step covered",
            StepEvent::ThrownAway { .. } => "step thrown",
            StepEvent::WentWrong { .. } => "step wrong",
        },
    }
}
