//! D9 and C8 of the hazard list: the same dose recorded on two devices is told, whichever is merged into which.

use hearthdose_core::prep::{Outcome, RoundKey, StepEvent, TakeStep};
use hearthdose_core::record::{Event, Fact, FactId, State, fold, fold_for};

use crate::facts::{device, fact, person};
use crate::{ROUND, both, bowl, giving, mixing, named, noted, people, plan, step, whole_round};

/// The fold of two devices' facts, the same for either order of merging.
fn merged(first: &[Fact], second: &[Fact]) -> State {
    let known = people();
    let one_way = fold(&both(&known, &both(first, second)));
    let other_way = fold(&both(&both(second, first), &known));
    assert_eq!(one_way, other_way);
    one_way
}

fn outcomes(state: &State) -> Vec<(u64, Outcome)> {
    let number =
        |dose: &hearthdose_core::record::DoseRecord| if dose.person == person(1) { 1 } else { 2 };
    let mut outcomes: Vec<_> = state
        .doses
        .iter()
        .map(|dose| (number(dose), dose.outcome))
        .collect();
    outcomes.sort_unstable();
    outcomes
}

#[test]
fn one_device_alone_records_a_round_without_a_warning() {
    let state = merged(&whole_round(1, 0, Outcome::All, Outcome::Some), &[]);
    assert_eq!(outcomes(&state), [(1, Outcome::All), (2, Outcome::Some)]);
    assert_eq!(
        (
            state.doubled.len(),
            state.misfits.len(),
            state.all_tablets().used
        ),
        (0, 0, 1)
    );
}

/// The clocks of the two differ by anything: one after the other, side by side, either first.
#[test]
fn two_devices_that_both_gave_the_round_show_may_have_had_it_twice() {
    for behind in [
        -2_000_000, -90_000, -30_000, -1, 1, 500, 59_999, 61_000, 600_000, 7_200_000,
    ] {
        let first = whole_round(1, 0, Outcome::All, Outcome::All);
        let second = whole_round(2, behind, Outcome::Some, Outcome::All);
        let state = merged(&first, &second);
        let expected = [
            (1, Outcome::All),
            (1, Outcome::Some),
            (2, Outcome::All),
            (2, Outcome::All),
        ];
        assert_eq!(outcomes(&state), expected, "{behind}");
        let mut doubled = state.doubled.clone();
        doubled.sort_unstable();
        assert_eq!(
            doubled,
            [(person(1), named(ROUND)), (person(2), named(ROUND))],
            "{behind}"
        );
        assert_eq!(state.misfits, [], "{behind}");
        assert_eq!(state.all_tablets().used, 2);
        assert_eq!(state.bowls.len(), 2);
        assert!(
            state
                .bowls
                .values()
                .all(|bowl| bowl.taken.as_microlitres() == 15_000)
        );
    }
}

#[test]
fn a_dose_that_was_not_swallowed_on_one_device_was_not_had_twice() {
    let first = whole_round(1, 0, Outcome::WouldNotTake, Outcome::All);
    let second = whole_round(2, 700, Outcome::All, Outcome::WouldNotTake);
    let state = merged(&first, &second);
    assert_eq!(state.doubled, []);
    assert_eq!(state.doses.len(), 4);
    assert_eq!(
        (state.doses_of(person(1)), state.doses_of(person(2))),
        (1, 1)
    );
}

#[test]
fn a_dose_that_came_back_up_may_still_be_one_of_two() {
    let first = whole_round(1, 0, Outcome::CameBackUp, Outcome::All);
    let mut events = mixing(2);
    events.extend(giving(13, person(1), Outcome::All));
    let state = merged(&first, &noted(2, 200, events));
    assert_eq!(state.doubled, [(person(1), named(ROUND))]);
}

/// Both devices know that the round was begun, and part then.
#[test]
fn two_devices_that_went_on_with_one_round_show_it_too() {
    let begun = noted(1, 0, mixing(1));
    let go_on = |on: u64, behind: i64| {
        let events = giving(13, person(1), Outcome::All);
        let mut facts = noted(on, behind, events);
        for (sequence, fact) in (101..).zip(&mut facts) {
            fact.stamp.sequence = sequence;
            fact.id = crate::facts::fact_id(on, sequence);
        }
        facts
    };
    for behind in [-70_000, -100, 100, 70_000, 200_000] {
        let state = merged(
            &both(&begun, &go_on(1, 0)),
            &both(&begun, &go_on(2, behind)),
        );
        assert_eq!(state.doubled, [(person(1), named(ROUND))], "{behind}");
        assert_eq!(state.doses.len(), 2);
    }
}

/// The second device has the first one's facts: it goes on where the first stopped, in the first one's bowl.
#[test]
fn a_round_may_be_handed_from_one_device_to_another() {
    let mut first = mixing(1);
    first.extend(giving(13, person(1), Outcome::All));
    let mut second = giving(16, person(2), Outcome::All);
    second.push((19, step(StepEvent::ThrownAway { bowl: bowl(1) })));
    let state = merged(&noted(1, 0, first), &noted(2, 0, second));
    assert_eq!(outcomes(&state), [(1, Outcome::All), (2, Outcome::All)]);
    assert_eq!(
        (state.doubled.len(), state.misfits.len(), state.bowls.len()),
        (0, 0, 1)
    );
    assert!(!state.bowls[&bowl(1)].covered);
}

/// Ana had hers from device 1; device 2 has its own bowl ready, learns of it, and goes on with Ben.
#[test]
fn who_had_the_dose_elsewhere_is_passed_over_once_it_is_known() {
    let mut first = mixing(1);
    first.extend(giving(13, person(1), Outcome::All));
    let first = noted(1, 0, first);
    let second = noted(2, 500, mixing(2));
    let state = fold_for(&both(&people(), &both(&first, &second)), device(2));
    let shown = &state.round().unwrap().prep;
    assert_eq!(shown.plan.bowls[0].id, bowl(2));
    let steps: Vec<TakeStep> = shown.takes.iter().map(|taking| taking.step).collect();
    assert_eq!(steps, [TakeStep::Closed, TakeStep::ToMeasure]);

    let mut events = mixing(2);
    events.extend(giving(20, person(2), Outcome::All));
    let state = merged(&first, &noted(2, 500, events));
    assert_eq!(outcomes(&state), [(1, Outcome::All), (2, Outcome::All)]);
    assert_eq!((state.doubled, state.misfits), (vec![], vec![]));
    let taken = |number: u64| state.bowls[&bowl(number)].taken.as_microlitres();
    assert_eq!((taken(1), taken(2)), (7_500, 7_500));
}

#[test]
fn each_device_keeps_its_own_round_in_front() {
    let mut first = mixing(1);
    first.extend(giving(13, person(1), Outcome::All));
    let all = both(
        &people(),
        &both(&noted(1, 0, first), &noted(2, 500, mixing(2))),
    );
    let in_front = |state: State| state.round().unwrap().prep.plan.bowls[0].id;
    assert_eq!(in_front(fold_for(&all, device(1))), bowl(1));
    assert_eq!(in_front(fold_for(&all, device(2))), bowl(2));
    // A device without one sees the one that came furthest.
    assert_eq!(in_front(fold_for(&all, device(3))), bowl(1));
    assert_eq!(in_front(fold(&all)), bowl(1));
    let others = |mut state: State| {
        state.open_rounds.clear();
        state
    };
    assert_eq!(others(fold_for(&all, device(2))), others(fold(&all)));
}

/// A step is missing or was corrected away: the dose was swallowed all the same.
#[test]
fn an_outcome_that_fits_nowhere_still_counts_as_a_dose() {
    let facts = both(&people(), &whole_round(1, 0, Outcome::All, Outcome::All));
    let is_measured = |fact: &&Fact| matches!(fact.event, Event::Step { event: StepEvent::Measured { person: who }, .. } if who == person(1));
    let lost: FactId = facts.iter().find(is_measured).unwrap().id;
    let rest: Vec<Fact> = facts.into_iter().filter(|fact| fact.id != lost).collect();
    let state = fold(&rest);
    assert_eq!(
        (state.doses_of(person(1)), state.doses_of(person(2))),
        (1, 1)
    );
    assert_eq!(state.doubled, []);
    assert!(!state.misfits.is_empty());
}

#[test]
fn a_round_begun_twice_on_one_device_is_a_misfit() {
    let again = fact(
        1,
        99,
        4 * crate::MINUTE,
        Event::RoundBegun {
            plan: Box::new(plan(ROUND, 7)),
        },
    );
    let state = fold(&both(
        &both(&people(), &whole_round(1, 0, Outcome::All, Outcome::All)),
        std::slice::from_ref(&again),
    ));
    assert_eq!(state.misfits, [again.id]);
    assert_eq!(state.doses.len(), 2);
}

#[test]
fn a_round_that_was_missed_here_and_given_there_was_given() {
    let missed = fact(
        2,
        1,
        20 * crate::MINUTE,
        Event::RoundMissed {
            round: ROUND,
            reason: "asleep".to_owned(),
        },
    );
    for at in [-1, 20, 2000] {
        let mut missed = missed.clone();
        missed.stamp.hlc.millis += at * crate::MINUTE;
        let state = merged(&whole_round(1, 0, Outcome::All, Outcome::All), &[missed]);
        assert!(state.rounds_missed.is_empty());
        assert_eq!(state.doses.len(), 2);
    }
    let other = RoundKey { index: 1, ..ROUND };
    let missed = fact(
        2,
        1,
        0,
        Event::RoundMissed {
            round: other,
            reason: "away".to_owned(),
        },
    );
    let state = merged(&whole_round(1, 0, Outcome::All, Outcome::All), &[missed]);
    assert!(state.rounds_missed.contains(&named(other)));
}
