//! Merging is set union, and the fold does not depend on arrival.

use hearthdose_core::household::{Answer, Manner};
use hearthdose_core::prep::{OrderRef, Outcome, RoundKey, StepEvent, Wrong};
use hearthdose_core::record::{Change, Event, Fact, fold};
use hearthdose_core::store::Store;
use jiff::civil::date;
use proptest::prelude::*;
use proptest::sample::{Index, select};

use crate::facts::{fact, fact_id, person};
use crate::{ROUND, both, bowl, giving, mixing, named, noted, plan, step, words};

const DEVICES: u64 = 3;

fn outcome() -> impl Strategy<Value = Outcome> {
    select(vec![
        Outcome::All,
        Outcome::Some,
        Outcome::CameBackUp,
        Outcome::WouldNotTake,
    ])
}

/// Anything that may be noted about three people in two rounds.
fn plain() -> impl Strategy<Value = Event> {
    let who = (1..=3_u64).prop_map(person);
    let round = (0..2_u32).prop_map(|index| RoundKey { index, ..ROUND });
    let answer = select(vec![Answer::Yes, Answer::No, Answer::Unsure]);
    let steps = prop_oneof![
        Just(StepEvent::Label { matches: true }),
        Just(StepEvent::WaterIn),
        Just(StepEvent::Stirred),
        who.clone().prop_map(|person| StepEvent::Reactions {
            people: [person].into()
        }),
        who.clone()
            .prop_map(|person| StepEvent::Measured { person }),
        who.clone().prop_map(|person| StepEvent::Given { person }),
        (who.clone(), outcome())
            .prop_map(|(person, outcome)| StepEvent::Outcome { person, outcome }),
        (1..5_u64).prop_map(|number| StepEvent::Covered { bowl: bowl(number) }),
        (1..5_u64).prop_map(|number| StepEvent::ThrownAway { bowl: bowl(number) }),
        (1..5_u64).prop_map(|number| StepEvent::WentWrong {
            what: Wrong::BowlLost {
                bowl: bowl(number),
                instead: bowl(number + 10)
            }
        }),
    ];
    prop_oneof![
        (1..=3_u64, select(vec!["Ana", "Ben"])).prop_map(|(number, name)| words(number, name)),
        (who.clone(), 0..9_u32).prop_map(|(person, tablets)| Event::PersonLeft { person, tablets }),
        (who.clone(), 0..9_u32).prop_map(|(person, number)| Event::Joined {
            person,
            order: "o".to_owned(),
            last_dose: jiff::Timestamp::from_second(i64::from(number)).ok(),
            course_started: Some(date(2031, 4, 1)),
            doses: number,
            tablets: number,
        }),
        (who.clone(), select(vec!["a", "b"]), any::<bool>()).prop_map(|(person, order, leaves)| {
            Event::Follows {
                person,
                order: order.to_owned(),
                instead_of: leaves.then(|| "b".to_owned()),
            }
        }),
        (who.clone(), select(vec!["a", "b"])).prop_map(|(person, order)| Event::FollowsNoMore {
            person,
            order: order.to_owned(),
        }),
        who.clone().prop_map(|person| Event::MedicineStopped {
            person,
            by: "n".to_owned(),
            reason: String::new()
        }),
        (who.clone(), 20..60_u32).prop_map(|(person, pounds)| Event::Weighed {
            person,
            weight: format!("{pounds} lb"),
            on: date(2031, 4, 2),
            manner: Manner::Site,
        }),
        (who.clone(), answer).prop_map(|(person, answer)| Event::Answered {
            person,
            order: "o".to_owned(),
            key: "kidney".to_owned(),
            answer
        }),
        (who.clone(), select(vec!["kidney", "reaction", "stopped"])).prop_map(|(person, key)| {
            Event::HoldLifted {
                person,
                key: key.to_owned(),
                by: "n".to_owned(),
                reason: String::new(),
            }
        }),
        (select(vec!["a", "b"]), 1..4_u32).prop_map(|(id, revision)| Event::OrderTaken {
            order: OrderRef {
                id: id.to_owned(),
                revision
            },
            fingerprint: String::new()
        }),
        (round.clone(), 1..5_u64).prop_map(|(key, out_of)| Event::RoundBegun {
            plan: Box::new(plan(key, out_of))
        }),
        (round.clone(), steps).prop_map(|(round, event)| Event::Step { round, event }),
        round.prop_map(|round| Event::RoundMissed {
            round,
            reason: String::new()
        }),
        (0..50_u32).prop_map(|tablets| Event::PacksReceived {
            product: "t".to_owned(),
            lot: None,
            tablets
        }),
        Just(Event::Erased { person: person(3) }),
        Just(Event::ClockMoved { seconds: 60 }),
    ]
}

/// Also corrections, of facts that are there and of such as are not.
fn event() -> impl Strategy<Value = Event> {
    let target = (1..=DEVICES, 1..14_u64).prop_map(|(on, sequence)| fact_id(on, sequence));
    let change = prop_oneof![
        Just(Change::Withdraw { reason: None }),
        plain().prop_map(|event| Change::Replace {
            event: Box::new(event),
            reason: None,
        }),
    ];
    prop_oneof![
        3 => plain(),
        1 => (target, change).prop_map(|(target, change)| Event::Correction { target, change }),
    ]
}

/// What three devices noted, with equal clock readings now and then, and true rounds among the noise.
fn record() -> impl Strategy<Value = Vec<Fact>> {
    let noise = prop::collection::vec((event(), 0..4_i64), 0..12);
    let round = (any::<bool>(), 0..16_usize, outcome(), 0..200_000_i64);
    prop::collection::vec((noise, round), 3).prop_map(|devices| {
        let mut facts = Vec::new();
        for (on, (noise, (has_round, steps, outcome, behind))) in (1..=DEVICES).zip(devices) {
            let (mut millis, mut sequence) = (0, 0);
            for (event, gap) in noise {
                sequence += 1;
                millis += gap;
                facts.push(fact(on, sequence, millis, event));
            }
            if has_round {
                let mut events = mixing(on);
                events.extend(giving(13, person(1), outcome));
                events.extend(giving(16, person(2), Outcome::All));
                events.push((19, step(StepEvent::ThrownAway { bowl: bowl(on) })));
                let round = noted(on, behind + 100, events.into_iter().take(steps).collect());
                facts.extend(round.into_iter().map(|fact| Fact {
                    id: fact_id(on, fact.stamp.sequence + sequence),
                    stamp: hearthdose_core::record::Stamp {
                        sequence: fact.stamp.sequence + sequence,
                        ..fact.stamp
                    },
                    ..fact
                }));
            }
        }
        facts
    })
}

fn config() -> ProptestConfig {
    ProptestConfig {
        cases: 400,
        failure_persistence: None,
        ..ProptestConfig::default()
    }
}

proptest! {
    #![proptest_config(config())]

    #[test]
    // promise: P15
    fn the_fold_does_not_depend_on_arrival_or_on_doubles(
        (facts, shuffled) in record().prop_flat_map(|facts| (Just(facts.clone()), Just(facts).prop_shuffle())),
        again in prop::collection::vec(any::<Index>(), 0..6),
    ) {
        let state = fold(&facts);
        prop_assert_eq!(&fold(&shuffled), &state);
        let mut doubled = shuffled;
        if !doubled.is_empty() {
            for index in again {
                doubled.push(index.get(&facts).clone());
            }
        }
        prop_assert_eq!(&fold(&doubled), &state);
    }

    /// Two contents under one id cannot come from us; every device must still see the same.
    #[test]
    fn not_even_when_an_id_stands_for_two_facts(
        facts in record().prop_filter("empty", |facts| facts.len() > 1),
        (one, other) in any::<(Index, Index)>(),
    ) {
        let mut forged = one.get(&facts).clone();
        forged.event = other.get(&facts).event.clone();
        let mut before = vec![forged.clone()];
        before.extend(facts.clone());
        let mut after = facts;
        after.push(forged);
        prop_assert_eq!(fold(&before), fold(&after));
    }

    #[test]
    fn union_is_associative_commutative_and_idempotent(
        facts in record(),
        places in prop::collection::vec(1..8_u8, 60),
    ) {
        // Each fact is with one, two or all three of them.
        let part = |bit: u8| -> Vec<Fact> {
            facts.iter().zip(places.iter().cycle()).filter(|(_, place)| *place & bit != 0).map(|(fact, _)| fact.clone()).collect()
        };
        let (a, b, c) = (part(1), part(2), part(4));
        prop_assert_eq!(fold(&both(&a, &b)), fold(&both(&b, &a)));
        prop_assert_eq!(fold(&both(&both(&a, &b), &c)), fold(&both(&a, &both(&b, &c))));
        prop_assert_eq!(fold(&both(&a, &a)), fold(&a));
        prop_assert_eq!(fold(&both(&both(&a, &b), &c)), fold(&facts));
    }

    /// The same through two records on disk: what each hands the other is added once.
    #[test]
    fn two_stores_that_exchange_facts_hold_the_same(
        facts in record(),
        places in prop::collection::vec(1..4_u8, 60),
    ) {
        let mut stores = [1, 2].map(|bit: u8| {
            let own: Vec<Fact> =
                facts.iter().zip(places.iter().cycle()).filter(|(_, place)| *place & bit != 0).map(|(fact, _)| fact.clone()).collect();
            let mut store = Store::in_memory().unwrap();
            store.append(&own).unwrap();
            store
        });
        let [first, second] = &mut stores;
        let (from_first, from_second) = (first.facts().unwrap(), second.facts().unwrap());
        first.append(&from_second).unwrap();
        second.append(&from_first).unwrap();
        prop_assert_eq!(first.append(&from_second).unwrap().added, 0);
        prop_assert_eq!(first.facts().unwrap(), second.facts().unwrap());
        let mut expected = facts;
        expected.sort_by_key(|fact| fact.stamp);
        prop_assert_eq!(&first.facts().unwrap(), &expected);
        prop_assert_eq!(fold(&second.facts().unwrap()), fold(&expected));
    }

    /// D9, C8, at random: two devices that have not met give the round each in its own way.
    #[test]
    fn a_dose_swallowed_on_two_devices_is_always_told(
        first in (outcome(), outcome()),
        second in (outcome(), outcome()),
        behind in -3_600_000..3_600_000_i64,
        noise in prop::collection::vec(Just(Event::ClockMoved { seconds: 1 }), 0..3),
    ) {
        let one = crate::whole_round(1, 0, first.0, first.1);
        let two = crate::whole_round(2, behind, second.0, second.1);
        let noise: Vec<Fact> = (1..).zip(noise).map(|(n, event)| fact(3, n, i64::try_from(n).unwrap() * 400_000, event)).collect();
        let state = fold(&both(&both(&two, &noise), &one));
        let swallowed = |outcome: Outcome| outcome != Outcome::WouldNotTake;
        for (number, a, b) in [(1, first.0, second.0), (2, first.1, second.1)] {
            let told = state.doubled.contains(&(person(number), named(ROUND)));
            prop_assert_eq!(told, swallowed(a) && swallowed(b));
        }
        prop_assert_eq!(state.doses.len(), 4);
        prop_assert_eq!(state.misfits, vec![]);
    }
}
