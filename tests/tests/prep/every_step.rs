//! Every stage meets every event; what is taken is written down by hand.

use std::collections::BTreeSet;

use hearthdose_core::prep::{Outcome, Stage, Stay, StepEvent, ThrowAwayWhy, Tool, Wrong};
use hearthdose_tests::table::{
    Clocks, HOUR, MINUTE, Table, bowl, cold_bowl, covered, half_teaspoons, later, new_bowl, person,
    round, take, whole_tablet,
};

fn events() -> Vec<(&'static str, StepEvent)> {
    let (ana, ben) = (person(1), person(2));
    let one = bowl(1);
    let instead = bowl(77);
    let wrong = |what| StepEvent::WentWrong { what };
    let all = Outcome::All;
    vec![
        (
            "reactions",
            StepEvent::Reactions {
                people: BTreeSet::new(),
            },
        ),
        (
            "cold",
            StepEvent::StayedCold {
                bowl: one,
                cold: true,
            },
        ),
        (
            "warm",
            StepEvent::StayedCold {
                bowl: one,
                cold: false,
            },
        ),
        ("label", StepEvent::Label { matches: true }),
        ("other-label", StepEvent::Label { matches: false }),
        (
            "tool",
            StepEvent::ToolChosen {
                tool: Tool::Syringe,
            },
        ),
        ("water", StepEvent::WaterIn),
        ("crush", StepEvent::Crush),
        ("crushed", StepEvent::Crushed),
        ("smooth", StepEvent::Smooth { smooth: true }),
        ("lumps", StepEvent::Smooth { smooth: false }),
        ("syrup", StepEvent::SecondFluidIn),
        ("stirred", StepEvent::Stirred),
        ("measured-1", StepEvent::Measured { person: ana }),
        ("measured-2", StepEvent::Measured { person: ben }),
        (
            "food-1",
            StepEvent::FoodAdded {
                person: ana,
                food: None,
            },
        ),
        (
            "food-2",
            StepEvent::FoodAdded {
                person: ben,
                food: None,
            },
        ),
        ("given-1", StepEvent::Given { person: ana }),
        ("given-2", StepEvent::Given { person: ben }),
        (
            "outcome-1",
            StepEvent::Outcome {
                person: ana,
                outcome: all,
            },
        ),
        (
            "outcome-2",
            StepEvent::Outcome {
                person: ben,
                outcome: all,
            },
        ),
        ("later-1", StepEvent::AnswerLater { person: ana }),
        ("later-2", StepEvent::AnswerLater { person: ben }),
        ("covered", StepEvent::Covered { bowl: one }),
        ("covered-other", StepEvent::Covered { bowl: bowl(5) }),
        ("thrown", StepEvent::ThrownAway { bowl: one }),
        ("thrown-other", StepEvent::ThrownAway { bowl: bowl(5) }),
        ("lost", wrong(Wrong::BowlLost { bowl: one, instead })),
        (
            "lost-known",
            wrong(Wrong::BowlLost {
                bowl: one,
                instead: one,
            }),
        ),
        (
            "dropped",
            wrong(Wrong::DoseDropped {
                person: ana,
                instead,
            }),
        ),
        ("short", wrong(Wrong::RanShort { person: ana })),
    ]
}

/// What each stage takes; everything else is refused.
const TAKEN: [(&str, &[&str]); 21] = [
    ("reactions", &["reactions"]),
    ("ask-cold", &["cold", "warm", "lost", "short"]),
    ("match-label", &["label"]),
    ("choose-tool", &["tool"]),
    ("set-out", &["water"]),
    ("soak", &["lost"]),
    ("soaked", &["crush", "lost"]),
    ("crush", &["crushed", "lost"]),
    ("smooth", &["smooth", "lumps", "lost"]),
    ("second-fluid", &["syrup", "lost"]),
    ("stir", &["stirred", "lost"]),
    ("measure", &["measured-1", "lost", "short"]),
    ("food", &["food-1", "lost", "dropped", "short"]),
    // Somebody may keep the mouth shut before the dose comes near.
    ("give", &["given-1", "outcome-1", "lost", "dropped"]),
    ("ask-outcome", &["outcome-1", "later-1", "lost", "dropped"]),
    ("whole-tablet", &["given-2", "outcome-2", "lost"]),
    ("ask-tablet", &["outcome-2", "later-2", "lost"]),
    ("cover", &["covered", "lost"]),
    ("left-over", &["thrown", "lost"]),
    ("too-old", &["thrown", "lost", "short"]),
    ("done", &[]),
];

/// A table at each of these stages.
fn tables() -> Vec<(&'static str, Table)> {
    let mut fresh = cold_bowl(1);
    fresh.later = vec![later(1, half_teaspoons(4))];
    let takes = vec![take(1, 1, half_teaspoons(4)), whole_tablet(2)];
    let mut plan = round(vec![fresh], takes);
    plan.asks_reactions = true;
    let mut table = Table::set(plan);
    let mut tables = Vec::new();
    let names = [
        "reactions",
        "match-label",
        "choose-tool",
        "set-out",
        "soak",
        "crush",
        "smooth",
        "second-fluid",
        "stir",
        "measure",
        "food",
        "give",
        "ask-outcome",
        "whole-tablet",
        "ask-tablet",
        "cover",
        "done",
    ];
    for name in names {
        tables.push((name, table.clone()));
        if name == "soak" {
            let mut soaked = table.clone();
            soaked.clocks.pass(MINUTE);
            tables.push(("soaked", soaked));
        }
        assert_eq!(table.goes_on().is_none(), name == "done", "{name}");
    }
    let mut left_over = Table::set(round(
        vec![new_bowl(1)],
        vec![take(1, 1, half_teaspoons(3))],
    ));
    left_over.until(|stage| matches!(stage, Stage::ThrowAway { .. }));
    tables.push(("left-over", left_over));
    for (name, pattern, age) in [
        ("ask-cold", cold_bowl(1), HOUR * 24),
        ("too-old", new_bowl(1), HOUR * 24),
    ] {
        let mut clocks = Clocks::default();
        let water_at = clocks.now();
        clocks.pass(age);
        let standing = covered(pattern, water_at, Tool::Spoon, half_teaspoons(4));
        let plan = round(vec![standing], vec![take(1, 1, half_teaspoons(4))]);
        tables.push((name, Table::set_at(plan, clocks)));
    }
    tables
}

fn name_of(stage: &Stage) -> &'static str {
    match stage {
        Stage::Reactions => "reactions",
        Stage::AskCold { .. } => "ask-cold",
        Stage::MatchLabel => "match-label",
        Stage::ChooseTool => "choose-tool",
        Stage::SetOut { .. } => "set-out",
        Stage::Soak { left, .. } if left.is_positive() => "soak",
        Stage::Soak { .. } => "soaked",
        Stage::Crush { .. } => "crush",
        Stage::Smooth { .. } => "smooth",
        Stage::SecondFluid { .. } => "second-fluid",
        Stage::Stir { .. } => "stir",
        Stage::Measure { .. } => "measure",
        Stage::Food { .. } => "food",
        Stage::Give { .. } => "give",
        Stage::WholeTablet { .. } => "whole-tablet",
        Stage::AskOutcome { person: who } if *who == person(1) => "ask-outcome",
        Stage::AskOutcome { .. } => "ask-tablet",
        Stage::Cover { .. } => "cover",
        Stage::ThrowAway { why, .. } => match why {
            ThrowAwayWhy::LeftOver => "left-over",
            ThrowAwayWhy::TooOld => "too-old",
        },
        Stage::Done => "done",
    }
}

// promise: P12
#[test]
fn each_stage_takes_its_own_events_and_no_others() {
    let tables = tables();
    assert_eq!(tables.len(), TAKEN.len(), "a table for each stage");
    for (name, table) in &tables {
        assert_eq!(name_of(&table.stage()), *name);
        let taken = TAKEN.iter().find(|(stage, _)| stage == name);
        let (_, taken) = taken.unwrap_or_else(|| panic!("{name} is not in the list"));
        for (what, event) in events() {
            let answer = table.prep.after(&event, &table.clocks.now());
            let is_taken = answer.is_ok();
            assert_eq!(is_taken, taken.contains(&what), "{what} at {name}");
        }
    }
}

#[test]
fn a_refusal_says_why() {
    for (name, table) in tables() {
        let now = table.clocks.now();
        let refusal = |event: &StepEvent| table.prep.after(event, &now).err();
        match name {
            "soak" => {
                let left = MINUTE;
                assert_eq!(refusal(&StepEvent::Crush), Some(Stay::NotYet { left }));
            }
            "match-label" => {
                let event = StepEvent::Label { matches: false };
                assert_eq!(refusal(&event), Some(Stay::LabelDiffers));
            }
            "too-old" => {
                let event = StepEvent::Measured { person: person(1) };
                let stay = Stay::TooOld { bowl: bowl(1) };
                assert_eq!(refusal(&event), Some(stay));
            }
            _ => {
                let event = StepEvent::Measured { person: person(9) };
                assert_eq!(refusal(&event), Some(Stay::OtherStep), "{name}");
            }
        }
    }
}

/// A bottle that is not the ordered one is no way into the round, however often it is asked.
#[test]
fn another_label_leads_nowhere() {
    let mut table = Table::set(round(
        vec![new_bowl(1)],
        vec![take(1, 1, half_teaspoons(3))],
    ));
    for _ in 0..3 {
        let answer = table
            .prep
            .after(&StepEvent::Label { matches: false }, &table.clocks.now());
        assert_eq!(answer, Err(Stay::LabelDiffers));
        assert_eq!(table.stage(), Stage::MatchLabel);
    }
    table.to_the_end();
}
