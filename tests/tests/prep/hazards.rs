//! Hazards of practice that the round decides, by number.

use std::collections::BTreeSet;

use hearthdose_core::prep::{
    BrewState, Outcome, PlannedBowl, Source, Stage, Stay, StepEvent, ThrowAwayWhy, Tool, Wrong,
};
use hearthdose_core::record::fold;
use hearthdose_tests::table::{
    Clocks, DAY, HOUR, MINUTE, Table, bowl, cold_bowl, covered, half_teaspoons, later, new_bowl,
    person, round, round_for, take, whole_tablet,
};

use super::Record;

fn wrong(what: Wrong) -> StepEvent {
    StepEvent::WentWrong { what }
}

/// A covered bowl of this kind, so old.
fn standing(pattern: PlannedBowl, age: jiff::SignedDuration, tool: Tool) -> (PlannedBowl, Clocks) {
    let mut clocks = Clocks::default();
    let water_at = clocks.now();
    clocks.pass(age);
    let holds = pattern.holds;
    (covered(pattern, water_at, tool, holds), clocks)
}

fn two_people() -> Table {
    let takes = vec![take(1, 1, half_teaspoons(3)), take(2, 1, half_teaspoons(5))];
    Table::set(round(vec![new_bowl(1)], takes))
}

/// D5, C22: a bowl made with the spoon is measured with the spoon, also when this round uses the syringe.
// promise: P10
#[test]
fn water_by_spoon_and_dose_by_syringe_never_meet() {
    let (old, clocks) = standing(new_bowl(1), HOUR * 12, Tool::Spoon);
    let takes = vec![take(1, 1, half_teaspoons(3)), take(2, 2, half_teaspoons(5))];
    let mut table = Table::set_at(round(vec![old, new_bowl(2)], takes), clocks);
    table.until(|stage| *stage == Stage::ChooseTool);
    let tool = Tool::Syringe;
    table.does(StepEvent::ToolChosen { tool });
    for (who, tool) in [(1, Tool::Spoon), (2, Tool::Syringe)] {
        table.until(|stage| matches!(stage, Stage::Measure { person: p, .. } if *p == person(who)));
        let stage = table.stage();
        let Stage::Measure { tool: shown, .. } = stage else {
            panic!("{stage:?}");
        };
        assert_eq!(shown, Some(tool));
        let later = StepEvent::ToolChosen {
            tool: Tool::Syringe,
        };
        let answer = table.prep.after(&later, &table.clocks.now());
        assert_eq!(
            answer,
            Err(Stay::OtherStep),
            "no other tool once there is water"
        );
    }
}

/// D16, C9: twelve people, six bowls with 40 minutes to live, and a round that takes 50 minutes longer than that.
// promise: P9, P12
#[test]
fn twelve_people_and_a_late_round() {
    let mut clocks = Clocks::default();
    let water_at = clocks.now();
    let water = clocks.truth;
    clocks.pass(DAY - MINUTE * 40);
    let bowls = (1..=6).map(|number| {
        let bowl = new_bowl(number);
        covered(bowl, water_at.clone(), Tool::Spoon, half_teaspoons(8))
    });
    let plan = round(bowls.collect(), round_for(12, 4).takes);
    let mut table = Table::set_at(plan.clone(), clocks);
    let mut record = Record::begun(plan.clone(), &table.clocks.now());
    let mut thrown = 0;
    let mut in_time = 0;
    while let Some(event) = {
        // Each step takes two minutes: seven and a half for one person.
        table.clocks.pass(MINUTE * 2 - MINUTE / 4);
        table.goes_on()
    } {
        record.step(&plan, &event, &table.clocks.now());
        if let StepEvent::Measured { person } = event {
            let taking = table.prep.takes.iter().find(|t| t.take.person == person);
            let from = taking.and_then(|t| t.take.bowl).expect("a bowl");
            let is_old = table.prep.brew(from).expect("it").bowl.source == Source::Covered;
            let age = table.clocks.truth.duration_since(water);
            assert!(!is_old || age < DAY, "{person:?} at {age}");
            in_time += u32::from(is_old);
        }
        thrown += u32::from(matches!(event, StepEvent::ThrownAway { .. }));
    }
    // 40 minutes at 8 a person: five doses. The third bowl is half full when its time is up.
    assert_eq!(in_time, 5);
    // Four old bowls, and in the end what is left of the one that was made for a single dose.
    assert_eq!(thrown, 5);
    let state = fold(&record.facts);
    let people: BTreeSet<_> = state.doses.iter().map(|dose| dose.person).collect();
    assert_eq!((state.doses.len(), people.len()), (12, 12));
    // Seven doses of four half teaspoons: one for the third bowl's other half, six for three whole bowls.
    assert_eq!(state.all_tablets().used, 4);
}

/// D17: what is there is given and said to be short; nothing tops it up.
#[test]
fn the_last_dose_short_is_recorded_and_never_topped_up() {
    let mut table = two_people();
    let plan = table.prep.plan.clone();
    let mut record = Record::begun(plan.clone(), &table.clocks.now());
    let mut measured = 0;
    for _ in 0..100 {
        let is_last = matches!(table.stage(), Stage::Measure { person: p, .. } if p == person(2));
        if is_last && measured == 1 {
            let event = wrong(Wrong::RanShort { person: person(2) });
            table.does(event.clone());
            record.step(&plan, &event, &table.clocks.now());
        }
        let Some(event) = table.goes_on() else { break };
        record.step(&plan, &event, &table.clocks.now());
        measured += u32::from(matches!(event, StepEvent::Measured { .. }));
    }
    assert_eq!(measured, 2);
    let state = fold(&record.facts);
    let short: Vec<bool> = state.doses.iter().map(|dose| dose.short).collect();
    assert_eq!(short, [false, true]);
    assert_eq!(state.all_tablets().used, 1, "no other bowl was made for it");
}

/// D19, C11: the refrigerator's bowl is asked about before its first dose, and once is enough.
#[test]
fn a_bowl_that_stayed_cold_is_used() {
    let (old, clocks) = standing(cold_bowl(1), DAY * 3, Tool::Spoon);
    let takes = vec![take(1, 1, half_teaspoons(2)), take(2, 1, half_teaspoons(4))];
    let mut table = Table::set_at(round(vec![old], takes), clocks);
    assert_eq!(table.stage(), Stage::AskCold { bowl: bowl(1) });
    let cold = true;
    table.does(StepEvent::StayedCold {
        bowl: bowl(1),
        cold,
    });
    assert!(matches!(table.stage(), Stage::Measure { .. }));
    while table.goes_on().is_some() {
        assert!(!matches!(table.stage(), Stage::AskCold { .. }));
    }
    assert_eq!(table.prep.bowls.len(), 1);
}

#[test]
fn a_bowl_that_did_not_stay_cold_is_made_anew_with_its_syrup() {
    let (old, clocks) = standing(cold_bowl(1), DAY, Tool::Spoon);
    let plan = round(vec![old], vec![take(1, 1, half_teaspoons(4))]);
    let mut table = Table::set_at(plan, clocks);
    let cold = false;
    table.does(StepEvent::StayedCold {
        bowl: bowl(1),
        cold,
    });
    assert_eq!(
        table.prep.brew(bowl(1)).expect("it").state,
        BrewState::Thrown
    );
    let mut syrup = false;
    while let Some(event) = table.goes_on() {
        syrup |= event == StepEvent::SecondFluidIn;
    }
    assert!(
        syrup,
        "without the syrup every dose would be twice as strong"
    );
    let anew = table.prep.bowls.last().expect("a new one");
    assert_eq!(anew.bowl.holds, half_teaspoons(16));
    assert_eq!(anew.taken, half_teaspoons(4));
}

#[test]
fn a_bowl_from_the_room_is_not_asked_about() {
    let (old, clocks) = standing(new_bowl(1), HOUR * 12, Tool::Spoon);
    let plan = round(vec![old], vec![take(1, 1, half_teaspoons(4))]);
    let table = Table::set_at(plan, clocks);
    assert!(matches!(table.stage(), Stage::Measure { .. }));
}

/// A bowl may be spilt at every stage, twice over; the round still ends with one dose each, all at full strength.
#[test]
fn a_bowl_spilt_at_every_stage() {
    for (fresh, holds, syrup_at_least) in [(new_bowl(1), 8, 0), (cold_bowl(1), 16, 1)] {
        let takes = vec![take(1, 1, half_teaspoons(3)), take(2, 1, half_teaspoons(5))];
        let plan = round(vec![fresh], takes);
        let mut steps = 0;
        loop {
            let mut table = Table::set(plan.clone());
            let mut record = Record::begun(plan.clone(), &table.clocks.now());
            let mut go = |table: &mut Table| {
                let event = table.goes_on()?;
                record.step(&plan, &event, &table.clocks.now());
                Some(event)
            };
            if (0..steps).any(|_| go(&mut table).is_none()) {
                break;
            }
            let mut spilt = Vec::new();
            for instead in [51, 52] {
                if let Some(brew) = table.prep.bowls.iter().find(|brew| brew.is_open()) {
                    let lost = brew.bowl.id;
                    let instead = bowl(instead);
                    spilt.push(wrong(Wrong::BowlLost {
                        bowl: lost,
                        instead,
                    }));
                    table.does(spilt.last().expect("one").clone());
                    let event = spilt.last().expect("one").clone();
                    record.step(&plan, &event, &table.clocks.now());
                    for _ in 0..4 {
                        if let Some(event) = table.goes_on() {
                            record.step(&plan, &event, &table.clocks.now());
                        }
                    }
                }
            }
            let mut syrup = 0;
            while let Some(event) = table.goes_on() {
                syrup += u32::from(event == StepEvent::SecondFluidIn);
                record.step(&plan, &event, &table.clocks.now());
            }
            let state = fold(&record.facts);
            assert_eq!(state.misfits, [], "after {steps} steps");
            assert_eq!(state.doses.len(), 2, "after {steps} steps");
            for brew in &table.prep.bowls {
                assert_eq!(brew.bowl.holds, half_teaspoons(holds));
            }
            let remade = table.prep.bowls.len() > 1;
            assert!(!remade || syrup >= syrup_at_least, "after {steps} steps");
            steps += 1;
        }
        assert!(steps > 14, "{steps}");
    }
}

/// A dose in hand is given before a new bowl is begun.
#[test]
fn a_dose_in_hand_does_not_wait_for_another_bowl() {
    let mut table = two_people();
    table.until(|stage| matches!(stage, Stage::Give { person: p } if *p == person(1)));
    let (lost, instead) = (bowl(1), bowl(51));
    table.does(wrong(Wrong::BowlLost {
        bowl: lost,
        instead,
    }));
    assert_eq!(table.stage(), Stage::Give { person: person(1) });
    table.goes_on();
    table.goes_on();
    assert_eq!(
        table.stage(),
        Stage::SetOut {
            bowls: vec![instead]
        }
    );
}

#[test]
fn a_dropped_dose_comes_from_what_is_spare_or_from_a_new_bowl() {
    // The bowl holds eight: three and five leave nothing, three and four leave one, three and two leave three.
    for (other, new_bowls) in [(5, 1), (4, 1), (2, 0)] {
        let takes = vec![
            take(1, 1, half_teaspoons(3)),
            take(2, 1, half_teaspoons(other)),
        ];
        let mut table = Table::set(round(vec![new_bowl(1)], takes));
        table.until(|stage| matches!(stage, Stage::Give { .. }));
        let (who, instead) = (person(1), bowl(51));
        table.does(wrong(Wrong::DoseDropped {
            person: who,
            instead,
        }));
        table.to_the_end();
        assert_eq!(table.prep.bowls.len(), 1 + new_bowls, "other: {other}");
        assert!(
            table
                .prep
                .takes
                .iter()
                .all(|t| t.outcome == Some(Outcome::All))
        );
        for brew in &table.prep.bowls {
            assert!(brew.taken <= half_teaspoons(8), "other: {other}");
        }
    }
}

/// What is kept for the morning is not spare in the evening.
#[test]
fn a_dropped_dose_does_not_come_from_what_is_kept() {
    let mut kept = new_bowl(1);
    kept.later = vec![later(2, half_teaspoons(5))];
    let mut table = Table::set(round(vec![kept], vec![take(1, 1, half_teaspoons(3))]));
    table.until(|stage| matches!(stage, Stage::Give { .. }));
    let (who, instead) = (person(1), bowl(51));
    table.does(wrong(Wrong::DoseDropped {
        person: who,
        instead,
    }));
    table.to_the_end();
    assert_eq!(
        table.prep.brew(bowl(1)).expect("it").state,
        BrewState::Covered
    );
    assert_eq!(
        table.prep.brew(bowl(1)).expect("it").left(),
        half_teaspoons(5)
    );
    assert_eq!(table.prep.bowls.len(), 2);
}

#[test]
fn a_reaction_stops_one_person_and_the_others_go_on() {
    let mut plan = round_for(3, 8);
    plan.asks_reactions = true;
    let mut table = Table::set(plan);
    let people = BTreeSet::from([person(2)]);
    table.does(StepEvent::Reactions { people });
    table.to_the_end();
    let given: Vec<bool> = table
        .prep
        .takes
        .iter()
        .map(|t| t.outcome.is_some())
        .collect();
    assert_eq!(given, [true, false, true]);
    assert_eq!(table.prep.bowls.len(), 2, "no bowl was made for nobody");
}

/// An answer put off comes again before the bowl is covered.
#[test]
fn a_put_off_answer_is_asked_before_covering() {
    let mut kept = new_bowl(1);
    kept.later = vec![later(1, half_teaspoons(2))];
    let takes = vec![
        take(1, 1, half_teaspoons(3)),
        take(2, 1, half_teaspoons(3)),
        whole_tablet(3),
    ];
    let mut table = Table::set(round(vec![kept], takes));
    for who in [1, 3] {
        let asked = Stage::AskOutcome {
            person: person(who),
        };
        table.until(|stage| *stage == asked);
        table.does(StepEvent::AnswerLater {
            person: person(who),
        });
    }
    assert_eq!(table.stage(), Stage::AskOutcome { person: person(1) });
    let early = StepEvent::Covered { bowl: bowl(1) };
    let answer = table.prep.after(&early, &table.clocks.now());
    assert_eq!(answer, Err(Stay::OtherStep));
    table.goes_on();
    assert_eq!(table.stage(), Stage::AskOutcome { person: person(3) });
    table.goes_on();
    assert_eq!(table.stage(), Stage::Cover { bowl: bowl(1) });
}

/// D16: a bowl that grows too old is in the way of everything until it is thrown away.
// promise: P12
#[test]
fn a_bowl_too_old_is_in_the_way_until_thrown_away() {
    let (old, clocks) = standing(new_bowl(1), DAY - MINUTE, Tool::Spoon);
    let plan = round(vec![old], vec![take(1, 1, half_teaspoons(4))]);
    let mut table = Table::set_at(plan, clocks);
    assert!(matches!(table.stage(), Stage::Measure { .. }));
    table.clocks.pass(MINUTE);
    let why = ThrowAwayWhy::TooOld;
    assert_eq!(table.stage(), Stage::ThrowAway { bowl: bowl(1), why });
    let measured = StepEvent::Measured { person: person(1) };
    let answer = table.prep.after(&measured, &table.clocks.now());
    assert_eq!(answer, Err(Stay::TooOld { bowl: bowl(1) }));
    table.goes_on();
    table.to_the_end();
    assert_eq!(table.prep.bowls.len(), 2);
    assert!(
        table
            .prep
            .takes
            .iter()
            .all(|t| t.outcome == Some(Outcome::All))
    );
}
