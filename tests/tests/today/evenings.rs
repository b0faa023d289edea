//! Rounds of two orders in one evening: shown together, with one start, and nothing of the one counts for the other.

use hearthdose_core::household::Manner;
use hearthdose_core::order::CheckedOrder;
use hearthdose_core::prep::{BowlId, Outcome, RoundPlan, StepEvent, Tool};
use hearthdose_core::record::{Event, Fact, State, fold};
use hearthdose_core::time::Now;
use hearthdose_core::today::{round_plan, together};
use jiff::SignedDuration;
use jiff::civil::date;

use crate::facts::{self, person};
use crate::orders::{cipro, doxy, follows, iodide, kitchen, order_ref, screened, taken};
use crate::{START, at, grown, hour, household};

/// The household's two times serve an order that asks for one dose a day: the first of them.
#[test]
fn an_evening_shows_both_orders_by_time() {
    let (doxy, iodide, cipro) = (doxy(), iodide(), cipro());
    let mut more = vec![follows(1, &iodide, None)];
    more.extend(screened(1, &iodide));
    let state = kitchen(more);
    let orders = [&iodide, &doxy, &cipro];
    let evening = together(&state, &orders, &Now::wall_only(hour(-2)));
    let seen: Vec<(usize, _)> = evening
        .rounds
        .iter()
        .map(|(index, today)| (*index, today.next_at().unwrap()))
        .collect();
    assert_eq!(seen, [(0, hour(0)), (1, hour(0))]);
    assert_eq!(
        evening
            .without
            .iter()
            .map(|(index, _)| *index)
            .collect::<Vec<_>>(),
        [2]
    );
    assert_eq!(evening.sitting().count(), 2);
    // Whole tablets: three minutes to gather and one to give for iodide, three to gather for doxycycline.
    assert_eq!(
        evening.start,
        Some(hour(0) - SignedDuration::from_mins(3 + 1 + 3))
    );
    let later = together(&state, &orders, &Now::wall_only(hour(7)));
    let next: Vec<_> = later
        .rounds
        .iter()
        .map(|(index, today)| (*index, today.next_at().unwrap()))
        .collect();
    // Seven hours late, a daily dose may still go; the morning's of twelve-hourly doses is skipped.
    assert_eq!(next, [(0, hour(0)), (1, hour(12))]);
    assert_eq!(later.sitting().count(), 1);
    let days: Vec<i64> = (0..3).map(|day| day * 24).collect();
    let iodide_rounds = &evening.rounds[0].1.rounds;
    assert!(
        days.iter()
            .zip(iodide_rounds)
            .all(|(hours, (_, round))| round.at == hour(*hours))
    );
}

/// The round of an order as the table would begin it.
fn begun(state: &State, order: &CheckedOrder, hours: i64, names: u128) -> RoundPlan {
    let today = at(state, order, hours).unwrap();
    let mut next = names;
    let mut name = || {
        next += 1;
        uuid::Uuid::from_u128(next)
    };
    round_plan(&today, state, order, &mut name).unwrap()
}

/// A household where both orders make bowls: nobody swallows tablets, and Ana is ten years old.
fn small_kitchen() -> Vec<Fact> {
    let (doxy, iodide) = (doxy(), iodide());
    let unable = |number, name| match grown(number, name) {
        Event::PersonSet(mut words) => {
            words.swallows_tablets = false;
            Event::PersonSet(words)
        }
        other => other,
    };
    let child = match unable(1, "Ana") {
        Event::PersonSet(mut words) => {
            (words.adult, words.born) = (false, Some(date(2021, 1, 1)));
            Event::PersonSet(words)
        }
        other => other,
    };
    let weighed = Event::Weighed {
        person: person(1),
        weight: "70 lb".to_owned(),
        on: START,
        manner: Manner::Site,
    };
    let mut events = vec![
        household(),
        taken(&doxy),
        taken(&iodide),
        child,
        unable(2, "Ben"),
        weighed,
    ];
    events.push(follows(1, &iodide, None));
    events.extend(screened(1, &iodide));
    (1..)
        .zip(events)
        .map(|(sequence, event)| facts::fact(1, sequence, -100_000, event))
        .collect()
}

/// Every step of a round from its beginning to its end, as facts under its order.
fn whole(plan: &RoundPlan, on: u64, start: i64, cover: bool) -> Vec<Fact> {
    let round = plan.key;
    let mut steps = vec![
        StepEvent::Label { matches: true },
        StepEvent::ToolChosen { tool: Tool::Spoon },
        StepEvent::WaterIn,
        StepEvent::Crush,
        StepEvent::Crushed,
        StepEvent::Smooth { smooth: true },
    ];
    if plan.bowls.iter().any(|bowl| bowl.second_fluid.is_some()) {
        steps.push(StepEvent::SecondFluidIn);
    }
    steps.push(StepEvent::Stirred);
    for take in &plan.takes {
        let person = take.person;
        steps.push(StepEvent::Measured { person });
        if !take.foods.is_empty() {
            steps.push(StepEvent::FoodAdded { person, food: None });
        }
        steps.push(StepEvent::Given { person });
        steps.push(StepEvent::Outcome {
            person,
            outcome: Outcome::All,
        });
    }
    if cover {
        steps.extend(
            plan.bowls
                .iter()
                .map(|bowl| StepEvent::Covered { bowl: bowl.id }),
        );
    }
    let begun = Event::RoundBegun {
        plan: Box::new(plan.clone()),
    };
    let steps = steps.into_iter().map(|event| Event::Step { round, event });
    (1..)
        .zip(std::iter::once(begun).chain(steps))
        .map(|(sequence, event)| {
            let millis = start + i64::try_from(sequence).unwrap() * 400_000;
            let mut fact = facts::fact(on, sequence, millis, event);
            fact.order = Some(plan.order.clone());
            fact
        })
        .collect()
}

/// Both orders' first round of the day has one key, and nothing of the one counts for the other.
#[test]
fn rounds_of_one_evening_stay_apart() {
    let (doxy, iodide) = (doxy(), iodide());
    let facts = small_kitchen();
    let state = fold(&facts);
    let doxy_plan = begun(&state, &doxy, 0, 100);
    let iodide_plan = begun(&state, &iodide, 0, 200);
    assert_eq!(doxy_plan.key, iodide_plan.key);
    assert_ne!(doxy_plan.order.id, iodide_plan.order.id);
    // One device leads through both, a step of the one and a step of the other.
    let mut both = whole(&doxy_plan, 5, 0, false);
    let mut second = whole(&iodide_plan, 5, 200_000, true);
    second.iter_mut().for_each(|fact| {
        fact.stamp.sequence += 1_000;
        fact.id = facts::fact_id(5, fact.stamp.sequence);
    });
    both.extend(second);
    let state = fold(&[facts, both].concat());
    assert_eq!((state.misfits.len(), state.doubled.len()), (0, 0));
    let doses =
        |order: &CheckedOrder| [1, 2].map(|number| state.doses_under(person(number), &order.id));
    assert_eq!((doses(&doxy), doses(&iodide)), ([1, 1], [1, 0]));
    assert_eq!(state.open_rounds.len(), 2);
    let open = |order: &CheckedOrder| {
        state
            .round_of(&order.id)
            .unwrap()
            .prep
            .plan
            .order
            .id
            .clone()
    };
    assert_eq!(
        (open(&doxy), open(&iodide)),
        (doxy.id.clone(), iodide.id.clone())
    );
    assert_eq!(
        state.round().unwrap().prep.plan.order.id,
        doxy.id,
        "the first order's"
    );
    // Three and four teaspoons of doxycycline are two bowls of four; four of iodide are half a bowl of eight.
    assert_eq!(
        (
            state.tablets_of(&doxy.id).used,
            state.tablets_of(&iodide.id).used
        ),
        (2, 1)
    );
    let numbers: std::collections::BTreeSet<u32> =
        doxy_plan.bowls.iter().map(|bowl| bowl.number).collect();
    assert_eq!(numbers.len(), 2);
    // A covered bowl of the one order stands on the table of that order only.
    let standing = |order: &CheckedOrder| at(&state, order, 1).unwrap().standing;
    assert_eq!(standing(&doxy), Vec::<BowlId>::new());
    assert_eq!(standing(&iodide), [iodide_plan.bowls[0].id]);
    // The next rounds: doxycycline tonight, iodide tomorrow.
    assert_eq!(at(&state, &doxy, 1).unwrap().next_at(), Some(hour(12)));
    assert_eq!(at(&state, &iodide, 1).unwrap().next_at(), Some(hour(24)));
}

/// The second order's bowls go on counting where the first one's stopped, also before any water met a tablet.
#[test]
fn no_two_bowls_have_one_number() {
    let (doxy, iodide) = (doxy(), iodide());
    let mut facts = small_kitchen();
    let doxy_plan = begun(&fold(&facts), &doxy, 0, 100);
    facts.extend(whole(&doxy_plan, 5, 0, false).into_iter().take(1));
    let iodide_plan = begun(&fold(&facts), &iodide, 0, 200);
    let highest = doxy_plan.bowls.iter().map(|bowl| bowl.number).max();
    let lowest = iodide_plan.bowls.iter().map(|bowl| bowl.number).min();
    assert!(highest < lowest, "{highest:?} and {lowest:?}");
}

/// A missed round of one order is not missed under the other.
#[test]
fn a_round_is_missed_under_its_order_only() {
    let (doxy, iodide) = (doxy(), iodide());
    let mut facts = small_kitchen();
    let key = at(&fold(&facts), &doxy, 0).unwrap().next_key().unwrap();
    let mut missed = facts::fact(
        5,
        1,
        0,
        Event::RoundMissed {
            round: key,
            reason: "asleep".to_owned(),
        },
    );
    missed.order = Some(order_ref(&iodide));
    facts.push(missed);
    let state = fold(&facts);
    assert_eq!(at(&state, &doxy, 0).unwrap().next_at(), Some(hour(0)));
    assert_eq!(at(&state, &iodide, 0).unwrap().next_at(), Some(hour(24)));
}

/// Doses that came back up of two medicines in one evening are not two in a row.
#[test]
fn two_in_a_row_are_two_of_one_medicine() {
    let (doxy, iodide) = (doxy(), iodide());
    let mut facts = small_kitchen();
    let state = fold(&facts);
    for (order, on) in [(&doxy, 5), (&iodide, 6)] {
        let mut round = whole(&begun(&state, order, 0, u128::from(on) * 100), on, 0, false);
        for fact in &mut round {
            if let Event::Step {
                event:
                    StepEvent::Outcome {
                        outcome,
                        person: who,
                    },
                ..
            } = &mut fact.event
                && *who == person(1)
            {
                *outcome = Outcome::CameBackUp;
            }
        }
        facts.extend(round);
    }
    let state = fold(&facts);
    assert_eq!(state.people[&person(1)].came_back_up.len(), 2);
    assert!(!state.hold_after(person(1)));
}
