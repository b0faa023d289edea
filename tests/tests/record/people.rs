//! People who come, go, stop and go on: only an explicit fact ends a stop, and what was taken elsewhere counts.

use hearthdose_core::household::Answer;
use hearthdose_core::prep::{Outcome, PersonId, StepEvent, TakeStep};
use hearthdose_core::record::{Change, Event, Fact, State, Stop, fold};
use jiff::Timestamp;
use jiff::civil::date;

use crate::facts::{MORNING, device, fact, fact_id, person};
use crate::{MINUTE, both, giving, mixing, noted, people, step, words};

fn stopped(person: PersonId) -> Event {
    Event::MedicineStopped {
        person,
        by: "Dr. Alder".to_owned(),
        reason: "not needed".to_owned(),
    }
}

fn lifted(person: PersonId, key: &str) -> Event {
    Event::HoldLifted {
        person,
        key: key.to_owned(),
        by: "nurse".to_owned(),
        reason: "seen".to_owned(),
    }
}

fn reaction(person: PersonId) -> Event {
    Event::Reaction {
        person,
        lot: None,
        words: "hives".to_owned(),
    }
}

fn joined(doses: u32, tablets: u32, hour: Option<i64>) -> Event {
    Event::Joined {
        person: person(1),
        order: "quillmere-doxy".to_owned(),
        last_dose: hour.map(|h| Timestamp::from_millisecond(MORNING + h * 60 * MINUTE).unwrap()),
        course_started: Some(date(2031, 4, 1)),
        doses,
        tablets,
    }
}

fn after(events: Vec<Event>) -> State {
    let events = (0..).zip(events).collect();
    fold(&both(&people(), &noted(1, 0, events)))
}

fn ana(state: &State) -> Vec<Stop> {
    state.people[&person(1)].stops.iter().copied().collect()
}

// promise: P20
#[test]
fn only_its_own_lift_ends_a_stop() {
    let who = person(1);
    let both_stops = vec![reaction(who), stopped(who)];
    let with = |more: Vec<Event>| ana(&after([both_stops.clone(), more].concat()));
    assert_eq!(with(vec![]), [Stop::Reaction, Stop::Clinician]);
    assert_eq!(with(vec![lifted(who, "reaction")]), [Stop::Clinician]);
    assert_eq!(with(vec![lifted(who, "stopped")]), [Stop::Reaction]);
    assert_eq!(with(vec![lifted(who, "kidney")]).len(), 2);
    assert_eq!(with(vec![lifted(person(2), "stopped")]).len(), 2);
    // Neither a new entry of the person nor a new answer does.
    let answer = Event::Answered {
        person: who,
        order: "quillmere-doxy".to_owned(),
        key: "reaction".to_owned(),
        answer: Answer::No,
    };
    assert_eq!(
        with(vec![words(1, "Ana"), answer, joined(1, 0, None)]).len(),
        2
    );
    let cleared = vec![lifted(who, "reaction"), lifted(who, "stopped")];
    assert_eq!(with(cleared.clone()), []);
    // A lift does not look ahead.
    assert_eq!(
        with([cleared, vec![reaction(who)]].concat()),
        [Stop::Reaction]
    );
    assert!(!after(both_stops).people[&person(2)].is_stopped());
}

#[test]
fn a_contested_stop_holds() {
    let facts: Vec<Fact> = vec![
        fact(1, 1, 0, stopped(person(1))),
        fact(
            2,
            1,
            1,
            Event::Correction {
                target: fact_id(1, 1),
                change: Change::Withdraw { reason: None },
            },
        ),
        fact(
            3,
            1,
            1,
            Event::Correction {
                target: fact_id(1, 1),
                change: Change::Replace {
                    event: Box::new(stopped(person(2))),
                    reason: None,
                },
            },
        ),
    ];
    let state = fold(&both(&people(), &facts));
    assert_eq!(
        (ana(&state), state.conflicts.len()),
        (vec![Stop::Clinician], 1)
    );
}

/// Stopped or gone in the middle of a round: nobody measures for her, and Ben's dose goes on.
#[test]
fn a_round_goes_on_without_whom_a_clinician_stopped() {
    let left = Event::PersonLeft {
        person: person(1),
        tablets: 0,
    };
    for event in [stopped(person(1)), left] {
        let mut events = mixing(1);
        events.push((13, event));
        events.extend(giving(14, person(2), Outcome::All));
        let state = fold(&both(&people(), &noted(1, 0, events)));
        assert_eq!(state.misfits, []);
        assert_eq!(
            (state.doses_of(person(1)), state.doses_of(person(2))),
            (0, 1)
        );
        let shown = &state.round().unwrap().prep;
        assert!(
            shown
                .takes
                .iter()
                .all(|taking| taking.step == TakeStep::Closed)
        );
    }
}

#[test]
fn who_joins_brings_the_past_and_tablets_along() {
    let state = after(vec![
        Event::PersonLeft {
            person: person(1),
            tablets: 4,
        },
        joined(5, 16, Some(-12)),
    ]);
    let record = &state.people[&person(1)];
    let elsewhere = &record.elsewhere["quillmere-doxy"];
    assert!(!record.left);
    assert_eq!(elsewhere.doses, 5);
    assert_eq!(elsewhere.course_started, Some(date(2031, 4, 1)));
    assert_eq!(
        (
            state.all_tablets().received,
            state.all_tablets().taken_along
        ),
        (16, 4)
    );
    assert_eq!(state.all_tablets().left(), 12);
    // A last dose is a dose.
    let state = after(vec![joined(0, 0, Some(-1))]);
    assert_eq!(
        state.elsewhere(person(1), "quillmere-doxy").unwrap().doses,
        1
    );
    assert_eq!(state.elsewhere(person(1), "another"), None);
}

/// Two say different things of what was had elsewhere: the later dose and the more doses hold.
#[test]
fn a_contested_last_dose_is_the_later_one() {
    let correct = |on: u64, event: Event| {
        let change = Change::Replace {
            event: Box::new(event),
            reason: None,
        };
        let target = fact_id(1, 1);
        fact(on, 1, 1, Event::Correction { target, change })
    };
    let facts = [
        fact(1, 1, 0, joined(3, 10, Some(-20))),
        correct(2, joined(2, 12, Some(-2))),
        correct(3, joined(4, 8, None)),
    ];
    let state = fold(&both(&people(), &facts));
    let elsewhere = state.elsewhere(person(1), "quillmere-doxy").unwrap();
    let last = Timestamp::from_millisecond(MORNING - 120 * MINUTE).unwrap();
    assert_eq!(elsewhere.last_dose, Some(last));
    assert_eq!((elsewhere.doses, state.all_tablets().received), (4, 8));
}

/// A lift is for the answer that was given: another answer holds again.
#[test]
fn a_changed_answer_takes_the_lift_away() {
    let answer = |answer| Event::Answered {
        person: person(1),
        order: "quillmere-doxy".to_owned(),
        key: "kidney".to_owned(),
        answer,
    };
    let is_lifted = |events| {
        after(events).people[&person(1)]
            .person
            .lifted
            .contains("kidney")
    };
    let lift = lifted(person(1), "kidney");
    let unsure = answer(Answer::Unsure);
    assert!(is_lifted(vec![unsure.clone(), lift.clone()]));
    assert!(is_lifted(vec![
        unsure.clone(),
        lift.clone(),
        unsure.clone()
    ]));
    assert!(!is_lifted(vec![unsure, lift, answer(Answer::Yes)]));
}

/// The reactions question of a round stops as the fact does, and is lifted as it is.
#[test]
fn a_reaction_told_in_a_round_is_lifted_by_its_key() {
    let told = step(StepEvent::Reactions {
        people: [person(1)].into(),
    });
    let mut events = vec![(0, told)];
    let state = fold(&both(&people(), &noted(1, 0, events.clone())));
    assert_eq!(ana(&state), [Stop::Reaction]);
    events.push((1, lifted(person(1), "reaction")));
    let mut facts = noted(1, 0, events);
    facts[1].stamp.device = device(2);
    assert_eq!(ana(&fold(&both(&people(), &facts))), []);
}
