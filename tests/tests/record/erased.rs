//! A person who was erased is gone, and stays gone whatever is merged later.

use hearthdose_core::household::{Answer, Manner};
use hearthdose_core::prep::{LaterTake, Outcome, RoundKey, StepEvent, TakeStep};
use hearthdose_core::record::{Change, Event, Fact, State, fold};
use hearthdose_core::units::Volume;
use jiff::civil::date;

use crate::facts::{device, fact, fact_id, person};
use crate::{MINUTE, ROUND, both, bowl, giving, mixing, noted, people, whole_round, words};

fn erased(at: i64) -> Fact {
    fact(8, 1, at, Event::Erased { person: person(1) })
}

/// No name, no weight, no answer, no dose.
fn assert_gone(state: &State) {
    let all = format!("{state:?}");
    for trace in ["Ana", "31 lb", "kidney", "hives"] {
        assert!(!all.contains(trace), "{trace}");
    }
    assert!(!state.people.contains_key(&person(1)) && !state.seats.contains(&person(1)));
    assert!(state.doses.iter().all(|dose| dose.person != person(1)));
    assert!(
        state.bowls.values().all(|bowl| bowl
            .bowl
            .later
            .iter()
            .all(|take| take.person != person(1)))
    );
    assert!(
        state
            .doubled
            .iter()
            .all(|(doubled, _)| *doubled != person(1))
    );
    let takes = state.round().into_iter().flat_map(|open| &open.prep.takes);
    assert!(
        takes
            .filter(|taking| taking.take.person == person(1))
            .all(|taking| taking.step == TakeStep::Closed)
    );
}

fn about_ana(on: u64, at: i64) -> Vec<Fact> {
    let ana = person(1);
    let key = "kidney".to_owned();
    let weighed = Event::Weighed {
        person: ana,
        weight: "31 lb".to_owned(),
        on: date(2031, 4, 2),
        manner: Manner::Site,
    };
    let answered = Event::Answered {
        person: ana,
        order: "x".to_owned(),
        key: key.clone(),
        answer: Answer::Yes,
    };
    let lifted = Event::HoldLifted {
        person: ana,
        key,
        by: "nurse".to_owned(),
        reason: "31 lb".to_owned(),
    };
    let reaction = Event::Reaction {
        person: ana,
        lot: None,
        words: "hives".to_owned(),
    };
    let events = [
        words(1, "Ana again"),
        weighed,
        answered,
        lifted,
        reaction,
        Event::Joined {
            person: ana,
            order: "hives".to_owned(),
            last_dose: None,
            course_started: None,
            doses: 0,
            tablets: 0,
        },
        Event::Follows {
            person: ana,
            order: "hives".to_owned(),
            instead_of: None,
        },
        Event::FollowsNoMore {
            person: ana,
            order: "hives".to_owned(),
        },
        Event::MedicineStopped {
            person: ana,
            by: "nurse".to_owned(),
            reason: "hives".to_owned(),
        },
        Event::PersonLeft {
            person: ana,
            tablets: 3,
        },
    ];
    (50..)
        .zip(events)
        .map(|(sequence, event)| fact(on, sequence, at, event))
        .collect()
}

#[test]
fn everything_about_a_person_is_gone_and_the_others_keep_theirs() {
    let round = whole_round(1, 0, Outcome::All, Outcome::Some);
    for at in [
        -1_000_000,
        5 * MINUTE,
        14 * MINUTE,
        16 * MINUTE,
        100 * MINUTE,
    ] {
        let before = both(&people(), &round);
        let facts = both(&both(&before, &about_ana(3, 1)), &[erased(at)]);
        let state = fold(&facts);
        assert_gone(&state);
        let ben: Vec<_> = state
            .doses
            .iter()
            .map(|dose| (dose.person, dose.outcome))
            .collect();
        assert_eq!(ben, [(person(2), Outcome::Some)], "erased at {at}");
        // Whatever comes later from elsewhere.
        let second = whole_round(2, 300, Outcome::All, Outcome::All);
        let later = both(&facts, &both(&second, &about_ana(4, 10_000_000)));
        assert_gone(&fold(&later));
        let mut turned = later.clone();
        turned.reverse();
        assert_eq!(fold(&later), fold(&turned));
    }
}

#[test]
fn the_bowl_still_adds_up_for_the_others() {
    let state = fold(&both(
        &both(&people(), &whole_round(1, 0, Outcome::All, Outcome::All)),
        &[erased(100 * MINUTE)],
    ));
    assert_eq!(state.bowls[&bowl(1)].taken.as_microlitres(), 15_000);
    assert_eq!((state.all_tablets().used, state.misfits.len()), (1, 0));
}

/// Erased in the middle of a round: nobody asks for her dose, and the others' go on.
#[test]
fn a_round_goes_on_without_her() {
    let known = both(
        &both(&people(), &noted(1, 0, mixing(1))),
        &[erased(12 * MINUTE + 1)],
    );
    let state = fold(&known);
    let shown = &state.round().unwrap().prep;
    let steps: Vec<TakeStep> = shown.takes.iter().map(|taking| taking.step).collect();
    assert_eq!(steps, [TakeStep::Closed, TakeStep::ToMeasure]);
    let mut ben = noted(2, 0, giving(20, person(2), Outcome::All));
    ben.iter_mut()
        .for_each(|fact| fact.stamp.device = device(1));
    for (sequence, fact) in (70..).zip(&mut ben) {
        fact.stamp.sequence = sequence;
    }
    let state = fold(&both(&known, &ben));
    assert_eq!((state.doses_of(person(2)), state.misfits), (1, vec![]));
}

#[test]
fn a_bowl_that_is_kept_is_kept_for_the_others_only() {
    let mut round = whole_round(1, 0, Outcome::All, Outcome::All);
    round.pop();
    if let Event::RoundBegun { plan } = &mut round[0].event {
        plan.bowls[0].later = [(1, "Ana"), (2, "Ben")]
            .map(|(number, name)| LaterTake {
                person: person(number),
                name: name.to_owned(),
                round: RoundKey { index: 1, ..ROUND },
                at: plan.at,
                amount: Volume::HALF_TEASPOON,
            })
            .to_vec();
    }
    round.push(fact(
        1,
        60,
        19 * MINUTE,
        crate::step(StepEvent::Covered { bowl: bowl(1) }),
    ));
    let state = fold(&both(&both(&people(), &round), &[erased(20 * MINUTE)]));
    assert_gone(&state);
    assert!(state.bowls[&bowl(1)].covered);
    let for_whom: Vec<&str> = state.bowls[&bowl(1)]
        .bowl
        .later
        .iter()
        .map(|take| take.name.as_str())
        .collect();
    assert_eq!(for_whom, ["Ben"]);
}

#[test]
fn no_correction_brings_her_back() {
    let replace = |event| Change::Replace {
        event: Box::new(event),
        reason: None,
    };
    let facts = [
        erased(0),
        fact(3, 1, 1, words(2, "Ben")),
        // Ben's entry made into hers, her erasure withdrawn.
        fact(
            3,
            2,
            2,
            Event::Correction {
                target: fact_id(3, 1),
                change: replace(words(1, "Ana")),
            },
        ),
        fact(
            3,
            3,
            3,
            Event::Correction {
                target: fact_id(8, 1),
                change: Change::Withdraw { reason: None },
            },
        ),
    ];
    assert_gone(&fold(&both(&people(), &facts)));
}
