//! Random kitchens: clocks that jump, programs and machines that start again, events in any order.

use std::collections::BTreeMap;

use hearthdose_core::prep::{
    BowlId, BrewState, Outcome, RoundPlan, Stage, Stay, StepEvent, Tool, Wrong,
};
use hearthdose_core::record::{Event, fold};
use hearthdose_tests::table::{
    Clocks, DAY, HOUR, MINUTE, Table, bowl, covered, half_teaspoons, later, new_bowl, person,
    round, take, usual, whole_tablet,
};
use jiff::{SignedDuration, Timestamp};
use proptest::prelude::*;

use super::Record;

#[derive(Clone, Debug)]
enum Turn {
    Usual,
    Any(StepEvent),
    Pass(SignedDuration),
    /// The wall clock is moved; the program notices at once, as it does at every look.
    Jump(SignedDuration),
    /// The program ends and reads its record again.
    Program,
    /// The machine was off for so long.
    Machine(SignedDuration),
}

fn turn() -> impl Strategy<Value = Turn> {
    let jumps = prop_oneof![
        Just(DAY),
        Just(-DAY),
        (-180_i64..180).prop_map(SignedDuration::from_mins)
    ];
    prop_oneof![
        12 => Just(Turn::Usual),
        4 => any_event().prop_map(Turn::Any),
        3 => (1_i64..40).prop_map(|n| Turn::Pass(MINUTE * i32::try_from(n).expect("small"))),
        2 => (1_i64..240).prop_map(|n| Turn::Pass(SignedDuration::from_secs(n))),
        1 => jumps.prop_map(Turn::Jump),
        1 => Just(Turn::Program),
        1 => (0_i64..50).prop_map(|n| Turn::Machine(SignedDuration::from_mins(n))),
    ]
}

fn any_event() -> impl Strategy<Value = StepEvent> {
    let people = (1_u128..5).prop_map(person);
    let bowls = (1_u128..4).prop_map(bowl);
    let outcomes = prop_oneof![Just(Outcome::All), Just(Outcome::WouldNotTake)];
    let instead = (50_u128..60).prop_map(bowl);
    prop_oneof![
        prop_oneof![Just(Tool::Spoon), Just(Tool::Syringe)]
            .prop_map(|tool| StepEvent::ToolChosen { tool }),
        Just(StepEvent::WaterIn),
        Just(StepEvent::Crush),
        Just(StepEvent::Crushed),
        any::<bool>().prop_map(|smooth| StepEvent::Smooth { smooth }),
        Just(StepEvent::Stirred),
        people
            .clone()
            .prop_map(|person| StepEvent::Measured { person }),
        people
            .clone()
            .prop_map(|person| StepEvent::Given { person }),
        people
            .clone()
            .prop_map(|person| StepEvent::AnswerLater { person }),
        (people.clone(), outcomes)
            .prop_map(|(person, outcome)| StepEvent::Outcome { person, outcome }),
        bowls.clone().prop_map(|bowl| StepEvent::Covered { bowl }),
        bowls
            .clone()
            .prop_map(|bowl| StepEvent::ThrownAway { bowl }),
        (bowls, instead.clone()).prop_map(|(bowl, instead)| StepEvent::WentWrong {
            what: Wrong::BowlLost { bowl, instead }
        }),
        (people.clone(), instead).prop_map(|(person, instead)| StepEvent::WentWrong {
            what: Wrong::DoseDropped { person, instead }
        }),
        people.prop_map(|person| StepEvent::WentWrong {
            what: Wrong::RanShort { person }
        }),
    ]
}

/// What is true of a bowl, whatever the clocks say.
struct Truth {
    water: Timestamp,
    wall_ahead: SignedDuration,
    boots: u32,
    tool: Option<Tool>,
}

struct Kitchen {
    table: Table,
    plan: RoundPlan,
    record: Record,
    truth: BTreeMap<BowlId, Truth>,
    /// The latest reading of the wall clock in the round's record.
    latest: Timestamp,
    /// How often an old bowl was refused and a dose measured, so that the cases are known to reach both.
    refused: u32,
    measured: u32,
}

impl Kitchen {
    /// Bowls here keep for an hour, so that they often grow too old; one stands covered already.
    fn new(age: SignedDuration) -> Kitchen {
        let mut clocks = Clocks::default();
        let mut truth = BTreeMap::new();
        let water = Truth {
            water: clocks.truth,
            wall_ahead: clocks.wall_ahead,
            boots: clocks.boots(),
            tool: Some(Tool::Syringe),
        };
        truth.insert(bowl(1), water);
        let water_at = clocks.now();
        clocks.pass(age);
        let keeps = |number| hearthdose_core::prep::PlannedBowl {
            keep: HOUR,
            ..new_bowl(number)
        };
        let standing = covered(keeps(1), water_at, Tool::Syringe, half_teaspoons(5));
        let mut fresh = keeps(2);
        fresh.later = vec![later(1, half_teaspoons(2))];
        let takes = vec![
            take(1, 1, half_teaspoons(2)),
            take(2, 1, half_teaspoons(3)),
            take(3, 2, half_teaspoons(5)),
            whole_tablet(4),
        ];
        let plan = round(vec![standing, fresh], takes);
        let table = Table::set_at(plan.clone(), clocks);
        let record = Record::begun(plan.clone(), &table.clocks.now());
        let latest = table.clocks.now().wall;
        Kitchen {
            latest,
            table,
            plan,
            record,
            truth,
            refused: 0,
            measured: 0,
        }
    }

    fn take(&mut self, turn: &Turn) -> Result<(), TestCaseError> {
        match turn {
            Turn::Usual => match usual(&self.table.stage()) {
                Some(event) => self.does(&event),
                None => Ok(()),
            },
            Turn::Any(event) => self.does(event),
            Turn::Pass(length) => {
                self.table.clocks.pass(*length);
                Ok(())
            }
            Turn::Jump(by) => {
                self.table.clocks.move_wall(*by);
                let seconds = by.as_secs();
                let now = self.table.clocks.now();
                self.record.note(Event::ClockMoved { seconds }, &now);
                Ok(())
            }
            Turn::Program => self.starts_again(),
            Turn::Machine(off) => {
                self.table.clocks.restart(*off);
                self.starts_again()
            }
        }
    }

    fn starts_again(&mut self) -> Result<(), TestCaseError> {
        let state = fold(&self.record.facts);
        prop_assert_eq!(&state.misfits, &[]);
        let open = state.round().expect("the round");
        prop_assert_eq!(&open.prep, &self.table.prep);
        self.table.prep = open.prep.clone();
        Ok(())
    }

    fn does(&mut self, event: &StepEvent) -> Result<(), TestCaseError> {
        let now = self.table.clocks.now();
        let stage = self.table.stage();
        let before = self.table.prep.clone();
        let next = match before.after(event, &now) {
            Ok(next) => next,
            Err(stay) => {
                prop_assert_eq!(&before, &self.table.prep, "a refusal changes nothing");
                prop_assert_eq!(stage, self.table.stage());
                self.refused += u32::from(matches!(stay, Stay::TooOld { .. }));
                return Ok(());
            }
        };
        self.record.step(&self.plan, event, &now);
        let clocks = &self.table.clocks;
        match event {
            StepEvent::WaterIn => {
                let poured = next.bowls.iter().filter(|b| b.state == BrewState::Soaking);
                for brew in poured.filter(|b| {
                    before.brew(b.bowl.id).map(|b| &b.state) == Some(&BrewState::ToMake)
                }) {
                    let truth = Truth {
                        water: clocks.truth,
                        wall_ahead: clocks.wall_ahead,
                        boots: clocks.boots(),
                        tool: before.tool,
                    };
                    self.truth.insert(brew.bowl.id, truth);
                }
            }
            StepEvent::Crush => {
                for brew in before
                    .bowls
                    .iter()
                    .filter(|b| b.state == BrewState::Soaking)
                {
                    let soaked = clocks.truth.duration_since(self.truth[&brew.bowl.id].water);
                    prop_assert!(soaked >= brew.bowl.soak, "crushed after {soaked}");
                }
            }
            StepEvent::Measured { .. } => {
                let Stage::Measure { bowl, tool, .. } = stage else {
                    return Err(TestCaseError::fail("measured at another stage"));
                };
                let truth = &self.truth[&bowl.expect("a bowl")];
                let age = clocks.truth.duration_since(truth.water);
                // The gap which `time` names: the wall clock went back over a restart of the machine,
                // and stands after the last entry again.
                let went_back =
                    clocks.boots() != truth.boots && clocks.wall_ahead < truth.wall_ahead;
                let gap = went_back && now.wall >= self.latest;
                prop_assert!(age < HOUR || gap, "measured from a bowl of {age}");
                prop_assert_eq!(tool, truth.tool, "one tool for each bowl");
                self.measured += 1;
            }
            _ => {}
        }
        for brew in &next.bowls {
            prop_assert!(brew.taken <= brew.bowl.holds, "more than it holds");
            let old = before.brew(brew.bowl.id);
            // Nothing is ever poured into a bowl that is already there.
            prop_assert!(old.is_none_or(|old| old.bowl.holds == brew.bowl.holds));
        }
        self.latest = self.latest.max(now.wall);
        self.table.prep = next;
        Ok(())
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1_500, failure_persistence: None, ..ProptestConfig::default() })]

    // promise: P8, P9, P10, P13
    #[test]
    fn no_wait_is_shortened_no_bowl_lives_longer_and_the_record_says_the_same(
        age in 0_i64..70,
        turns in prop::collection::vec(turn(), 20..120),
    ) {
        let mut kitchen = Kitchen::new(SignedDuration::from_mins(age));
        for turn in &turns {
            kitchen.take(turn)?;
        }
        kitchen.starts_again()?;
    }
}

/// The random kitchens are worth something only when they reach doses and old bowls.
#[test]
fn random_kitchens_reach_doses_and_old_bowls() {
    let mut kitchen = Kitchen::new(SignedDuration::from_mins(50));
    let mut go = |turns: &[Turn]| {
        for turn in turns {
            kitchen.take(turn).expect("a sound turn");
        }
        (kitchen.measured, kitchen.refused)
    };
    let usual = vec![Turn::Usual; 4];
    let soak = [Turn::Pass(MINUTE * 5)];
    go(&usual);
    go(&soak);
    let (measured, refused) = go(&vec![Turn::Usual; 4]);
    assert_eq!((measured, refused), (0, 0));
    let (measured, _) = go(&[Turn::Usual]);
    assert_eq!(measured, 1);
    go(&[Turn::Pass(MINUTE * 5)]);
    let event = StepEvent::FoodAdded {
        person: person(1),
        food: None,
    };
    let (_, refused) = go(&[Turn::Any(event)]);
    assert_eq!(refused, 1);
}

/// A device that has been running for hours reads a round which another one began a minute ago.
#[test]
fn a_soak_on_another_device_is_not_shortened() {
    let mut table = Table::set(round(
        vec![new_bowl(1)],
        vec![take(1, 1, half_teaspoons(3))],
    ));
    table.until(|stage| matches!(stage, Stage::Soak { .. }));
    table.clocks.pass(MINUTE);
    let mut other = table.clocks.now();
    other.steady = Some(hearthdose_core::time::Steady {
        boot: "another machine".to_owned(),
        millis: 3 * 60 * 60 * 1_000,
    });
    let answer = table.prep.after(&StepEvent::Crush, &other);
    assert_eq!(answer, Err(Stay::NotYet { left: MINUTE * 4 }));
}
