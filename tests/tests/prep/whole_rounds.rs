//! Rounds from the first question to the clean table, with nothing going wrong.

use std::collections::BTreeMap;

use hearthdose_core::prep::{Outcome, PersonId, Stage};
use hearthdose_core::record::fold;
use hearthdose_tests::table::{
    Table, cold_bowl, half_teaspoons, round, round_for, take, whole_tablet,
};

use super::Record;

/// Runs a round and gives what its record says, and the stages it went through.
fn run(table: &mut Table) -> (Record, Vec<Stage>) {
    let plan = table.prep.plan.clone();
    let mut record = Record::begun(plan.clone(), &table.clocks.now());
    let mut stages = vec![table.stage()];
    for _ in 0..400 {
        let Some(event) = table.goes_on() else {
            return (record, stages);
        };
        record.step(&plan, &event, &table.clocks.now());
        stages.push(table.stage());
    }
    panic!("it never ends; the stage is {:?}", table.stage());
}

fn person_of(stage: &Stage) -> Option<PersonId> {
    match stage {
        Stage::Measure { person, .. }
        | Stage::Food { person }
        | Stage::Give { person }
        | Stage::WholeTablet { person }
        | Stage::AskOutcome { person } => Some(*person),
        _ => None,
    }
}

// promise: P13
#[test]
fn one_four_and_twelve_people_have_each_dose_once() {
    // Half a teaspoon up to a whole bowl; twelve people with four half teaspoons need six bowls.
    for (people, each, bowls) in [(1, 1, 1), (1, 8, 1), (4, 3, 2), (12, 4, 6), (12, 8, 12)] {
        let mut table = Table::set(round_for(people, each));
        let (record, _) = run(&mut table);
        let state = fold(&record.facts);
        let mut doses: BTreeMap<PersonId, u32> = BTreeMap::new();
        for dose in &state.doses {
            *doses.entry(dose.person).or_default() += 1;
            assert_eq!(dose.outcome, Outcome::All);
            assert_eq!(dose.amount, half_teaspoons(each));
        }
        assert_eq!(doses.len(), usize::try_from(people).expect("a few"));
        assert!(doses.values().all(|count| *count == 1), "{doses:?}");
        assert_eq!(state.all_tablets().used, bowls, "one tablet for each bowl");
        assert_eq!(state.misfits, []);
        let shown = &state.round().expect("the round").prep;
        assert_eq!(shown, &table.prep);
        assert_eq!(shown.stage(&table.clocks.now()), Stage::Done);
        assert!(!shown.bowls.iter().any(|brew| brew.is_open()));
    }
}

#[test]
fn stitches_never_go_back_but_for_the_next_person() {
    let mut mixed = round_for(3, 4);
    mixed.takes.push(whole_tablet(9));
    let iodide = round(vec![cold_bowl(1)], vec![take(1, 1, half_teaspoons(2))]);
    for plan in [
        round_for(1, 2),
        round_for(4, 3),
        round_for(12, 5),
        mixed,
        iodide,
    ] {
        let (_, stages) = run(&mut Table::set(plan));
        for pair in stages.windows(2) {
            let [before, after] = pair else { continue };
            let next_person = person_of(after) != person_of(before) && person_of(after).is_some();
            let (Some(from), Some(to)) = (before.stitch(), after.stitch()) else {
                continue;
            };
            assert!(to >= from || next_person, "{before:?} then {after:?}");
        }
        assert_eq!(stages.last(), Some(&Stage::Done));
    }
}

/// D28: a whole tablet is swallowed; nothing is measured and nothing is stirred in.
#[test]
fn a_whole_tablet_has_a_step_of_its_own() {
    let (record, stages) = run(&mut Table::set(round(Vec::new(), vec![whole_tablet(1)])));
    let person = hearthdose_tests::table::person(1);
    let expected = [
        Stage::MatchLabel,
        Stage::WholeTablet { person },
        Stage::AskOutcome { person },
        Stage::Done,
    ];
    assert_eq!(stages, expected);
    assert_eq!(fold(&record.facts).all_tablets().used, 1);
}
