//! D27: two doses in a row that came back up hold the third, until somebody who may do so says otherwise.

use std::collections::BTreeSet;

use hearthdose_core::prep::{Outcome, PersonId, RoundKey, Stage, StepEvent};
use hearthdose_core::record::{Event, HouseholdWords, PersonWords, VOMITED_TWICE, fold};
use hearthdose_core::today;
use hearthdose_tests::people::demo_order;
use hearthdose_tests::table::{Clocks, HOUR, Table, person, round_for, usual};
use jiff::civil::{date, time};

use super::Record;

struct Course {
    clocks: Clocks,
    record: Record,
    index: u32,
}

impl Course {
    fn new() -> Course {
        let clocks = Clocks::default();
        let mut record = Record::default();
        let household = HouseholdWords {
            name: "Number 7".to_owned(),
            zone: "America/Chicago".to_owned(),
            start: date(2031, 4, 3),
            rounds: vec![time(8, 0, 0, 0), time(20, 0, 0, 0)],
            first_dose_at: None,
            fresh: false,
            practice: true,
        };
        record.note(Event::HouseholdSet(household), &clocks.now());
        for number in [1, 2] {
            let words = PersonWords {
                person: person(number),
                name: format!("Person {number}"),
                born: None,
                told_age: None,
                adult: true,
                sex: None,
                swallows_tablets: false,
                born_early: None,
                food_allergies: BTreeSet::new(),
                starts: None,
                screened: true,
            };
            record.note(Event::PersonSet(words), &clocks.now());
        }
        Course {
            clocks,
            record,
            index: 0,
        }
    }

    /// A round in which the first person's dose ends like this, and the second's is swallowed.
    fn round(&mut self, first: Outcome) {
        let mut plan = round_for(2, 4);
        let day = date(2031, 4, 3);
        let index = self.index;
        plan.key = RoundKey { day, index };
        self.index += 1;
        let now = self.clocks.now();
        let round = Box::new(plan.clone());
        self.record.note(Event::RoundBegun { plan: round }, &now);
        let mut table = Table::set_at(plan.clone(), self.clocks.clone());
        while let Some(mut event) = usual(&table.stage()) {
            if let Stage::Soak { left, .. } = table.stage() {
                table.clocks.pass(left);
            }
            if let StepEvent::Outcome {
                person: who,
                outcome,
            } = &mut event
                && *who == person(1)
            {
                *outcome = first;
            }
            table.does(event.clone());
            self.record.step(&plan, &event, &table.clocks.now());
        }
        self.clocks = table.clocks;
        self.clocks.pass(HOUR * 12);
    }

    fn lift(&mut self) {
        let lifted = Event::HoldLifted {
            person: person(1),
            key: VOMITED_TWICE.to_owned(),
            by: "nurse".to_owned(),
            reason: "eats again".to_owned(),
        };
        self.record.note(lifted, &self.clocks.now());
    }

    fn held(&self) -> bool {
        let state = fold(&self.record.facts);
        assert_eq!(state.misfits, []);
        assert!(!state.hold_after(person(2)));
        state.hold_after(person(1))
    }

    fn at_table(&self) -> Vec<PersonId> {
        let state = fold(&self.record.facts);
        let order = demo_order("quillmere-doxy-1");
        let today = today::look(&state, &order, &self.clocks.now()).expect("a next round");
        today.seats.iter().map(|(person, _)| *person).collect()
    }
}

#[test]
fn two_in_a_row_hold_the_third() {
    let mut course = Course::new();
    course.round(Outcome::CameBackUp);
    assert!(!course.held());
    assert_eq!(course.at_table(), [person(1), person(2)]);
    course.round(Outcome::CameBackUp);
    assert!(course.held());
    assert_eq!(course.at_table(), [person(2)]);
    course.lift();
    assert!(!course.held());
    assert_eq!(course.at_table(), [person(1), person(2)]);
    // The lifting counts for what was before it only.
    course.round(Outcome::CameBackUp);
    assert!(!course.held());
    course.round(Outcome::CameBackUp);
    assert!(course.held());
}

#[test]
fn a_dose_that_stays_down_begins_the_count_anew() {
    let mut course = Course::new();
    for outcome in [
        Outcome::CameBackUp,
        Outcome::All,
        Outcome::CameBackUp,
        Outcome::Some,
    ] {
        course.round(outcome);
        assert!(!course.held());
    }
}

#[test]
fn a_dose_that_was_refused_says_nothing_of_the_stomach() {
    let mut course = Course::new();
    course.round(Outcome::CameBackUp);
    course.round(Outcome::WouldNotTake);
    assert!(!course.held());
    course.round(Outcome::CameBackUp);
    assert!(course.held());
}
