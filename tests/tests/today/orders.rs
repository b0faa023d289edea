//! Two orders in one kitchen (D15): who follows which, rounds of one evening that stay apart, and never two medicines of one event.

use hearthdose_core::household::{Answer, Manner};
use hearthdose_core::order::CheckedOrder;
use hearthdose_core::prep::{BowlId, OrderRef, Outcome, PersonId, RoundPlan, StepEvent};
use hearthdose_core::record::{Event, Fact, State, fold};
use hearthdose_core::screening::Reason;
use hearthdose_core::time::Now;
use hearthdose_core::today::{
    NoRound, Today, instead_for, look_among, may_follow, round_plan, together,
};
use hearthdose_tests::people::{checked, demo_order, demo_text};
use jiff::SignedDuration;
use jiff::civil::date;
use proptest::prelude::*;

use crate::facts::{self, person};
use crate::{START, at, grown, home, hour, household};

fn doxy() -> CheckedOrder {
    demo_order("quillmere-doxy-1")
}

fn cipro() -> CheckedOrder {
    demo_order("quillmere-ciprofloxacin-1")
}

/// Iodide for two weeks, so that its rounds meet the others'.
fn iodide() -> CheckedOrder {
    let text = demo_text("orders/quillmere-iodide-1")
        .replace("supply-days = 1\n", "supply-days = 14\n")
        .replace("course-days = 1\n", "course-days = 14\n");
    checked(&text)
}

fn order_ref(order: &CheckedOrder) -> OrderRef {
    OrderRef {
        id: order.id.clone(),
        revision: order.revision,
    }
}

fn taken(order: &CheckedOrder) -> Event {
    Event::OrderTaken {
        order: order_ref(order),
        fingerprint: String::new(),
    }
}

fn follows(number: u64, order: &CheckedOrder, instead_of: Option<&CheckedOrder>) -> Event {
    Event::Follows {
        person: person(number),
        order: order.id.clone(),
        instead_of: instead_of.map(|order| order.id.clone()),
    }
}

fn answered(number: u64, order: &CheckedOrder, key: &str, answer: Answer) -> Event {
    Event::Answered {
        person: person(number),
        order: order.id.clone(),
        key: key.to_owned(),
        answer,
    }
}

/// No to every question of an order.
fn screened(number: u64, order: &CheckedOrder) -> Vec<Event> {
    let questions = order.questions.iter();
    questions
        .map(|question| answered(number, order, &question.key, Answer::No))
        .collect()
}

/// Ana and Ben under doxycycline, with what follows.
fn kitchen(more: Vec<Event>) -> State {
    let mut events = vec![
        household(),
        taken(&doxy()),
        taken(&cipro()),
        taken(&iodide()),
    ];
    events.extend([grown(1, "Ana"), grown(2, "Ben")]);
    events.extend(more);
    let events: Vec<(i64, Event)> = events.into_iter().map(|event| (-20, event)).collect();
    home(&events)
}

fn people(today: Result<Today, NoRound>) -> Vec<PersonId> {
    today.map_or_else(
        |_| Vec::new(),
        |today| today.seats.iter().map(|(id, _)| *id).collect(),
    )
}

fn codes(reasons: Result<(), Vec<Reason>>) -> Vec<&'static str> {
    let reasons = reasons.err().unwrap_or_default();
    reasons.iter().map(|reason| reason.code).collect()
}

#[test]
fn everybody_follows_the_first_order_until_somebody_says_else() {
    let (doxy, cipro, iodide) = (doxy(), cipro(), iodide());
    let plain = kitchen(vec![]);
    assert_eq!(people(at(&plain, &doxy, -1)), [person(1), person(2)]);
    assert_eq!(at(&plain, &cipro, -1).unwrap_err(), NoRound::Nobody);
    let state = kitchen(vec![
        follows(2, &cipro, Some(&doxy)),
        follows(1, &iodide, None),
    ]);
    assert_eq!(people(at(&state, &doxy, -1)), [person(1)]);
    assert_eq!(people(at(&state, &cipro, -1)), [person(2)]);
    assert_eq!(people(at(&state, &iodide, -1)), [person(1)]);
    let ids: Vec<&str> = state
        .orders_of(person(1))
        .iter()
        .map(|o| o.id.as_str())
        .collect();
    assert_eq!(ids, ["quillmere-doxy", "quillmere-iodide"]);
    let no_more = Event::FollowsNoMore {
        person: person(1),
        order: "quillmere-iodide".to_owned(),
    };
    let state = kitchen(vec![follows(1, &iodide, None), no_more]);
    assert_eq!(at(&state, &iodide, -1).unwrap_err(), NoRound::Nobody);
}

/// Doxycycline and ciprofloxacin are for one event: whoever follows both gets the one followed longer.
#[test]
fn two_orders_of_one_event_never_go_to_one_person() {
    let (doxy, cipro, iodide) = (doxy(), cipro(), iodide());
    let all = [&doxy, &cipro, &iodide];
    let both = kitchen(
        [
            vec![follows(2, &cipro, None), follows(2, &iodide, None)],
            screened(2, &cipro),
        ]
        .concat(),
    );
    let among = |order: &CheckedOrder| look_among(&both, order, &all, &Now::wall_only(hour(-1)));
    assert_eq!(people(among(&doxy)), [person(1), person(2)]);
    assert_eq!(people(among(&cipro)), []);
    // Another event's medicine goes beside it.
    assert_eq!(people(among(&iodide)), [person(2)]);
    let with_ana = kitchen(
        [
            vec![follows(2, &cipro, None), follows(1, &cipro, Some(&doxy))],
            screened(1, &cipro),
        ]
        .concat(),
    );
    let cipro_table = look_among(&with_ana, &cipro, &all, &Now::wall_only(hour(-1))).unwrap();
    assert_eq!(cipro_table.refused, [person(2)]);
    assert_eq!(people(Ok(cipro_table)), [person(1)]);
    // Asked before it is written, the answer is the same.
    let state = kitchen(screened(2, &cipro));
    let may = |order: &CheckedOrder, instead: Option<&str>| {
        may_follow(&state, person(2), order, instead, &all, START)
    };
    assert_eq!(codes(may(&cipro, None)), ["same-event"]);
    assert_eq!(
        codes(may(&cipro, Some("quillmere-doxy"))),
        Vec::<&str>::new()
    );
}

/// Allergic to the first: the order's own alternative, after its own screening, once a person confirmed it.
#[test]
fn an_alternative_is_followed_after_its_own_screening_only() {
    let (doxy, cipro) = (doxy(), cipro());
    let all = [&doxy, &cipro];
    let allergic = answered(2, &doxy, "allergy-tetracycline", Answer::Yes);
    let state = kitchen(vec![allergic.clone()]);
    assert_eq!(
        instead_for(&state, person(2), &doxy, START).as_deref(),
        Some("quillmere-ciprofloxacin")
    );
    assert_eq!(instead_for(&state, person(1), &doxy, START), None);
    // Nobody has confirmed anything: no dose of either.
    let doses = |state: &State, order: &CheckedOrder| -> usize {
        look_among(state, order, &all, &Now::wall_only(hour(-1))).map_or(0, |today| {
            today.plan.rounds[0]
                .doses
                .iter()
                .filter(|dose| today.seats[dose.seat].0 == person(2))
                .count()
        })
    };
    assert_eq!((doses(&state, &doxy), doses(&state, &cipro)), (0, 0));
    let may = |state: &State| {
        may_follow(
            state,
            person(2),
            &cipro,
            Some("quillmere-doxy"),
            &all,
            START,
        )
    };
    // "Screened elsewhere" was said of the first order.
    assert_eq!(codes(may(&state)), ["screening-not-done"]);
    let unasked = kitchen(vec![allergic.clone(), follows(2, &cipro, Some(&doxy))]);
    assert_eq!((doses(&unasked, &doxy), doses(&unasked, &cipro)), (0, 0));
    let mut asked = vec![allergic];
    asked.extend(screened(2, &cipro));
    assert_eq!(codes(may(&kitchen(asked.clone()))), Vec::<&str>::new());
    asked.push(follows(2, &cipro, Some(&doxy)));
    let state = kitchen(asked);
    assert_eq!((doses(&state, &doxy), doses(&state, &cipro)), (0, 1));
    let nobody = may_follow(&state, person(9), &cipro, None, &all, START);
    assert_eq!(codes(nobody), ["nobody"]);
}

/// One key in two orders is two questions; a lift is for the order it was given under.
#[test]
fn answers_and_lifts_belong_to_their_order() {
    let (doxy, iodide) = (doxy(), iodide());
    let state = kitchen(vec![
        answered(1, &doxy, "pregnant", Answer::No),
        answered(1, &iodide, "pregnant", Answer::Unsure),
        Event::HoldLifted {
            person: person(1),
            key: "pregnant".to_owned(),
            by: "nurse".to_owned(),
            reason: String::new(),
        },
    ]);
    let record = &state.people[&person(1)];
    let under = |order: &CheckedOrder| record.under(&order.id, false);
    assert_eq!(under(&doxy).answers["pregnant"], Answer::No);
    assert_eq!(under(&iodide).answers["pregnant"], Answer::Unsure);
    // The facts of these tests are written under the first order.
    assert!(under(&doxy).lifted.contains("pregnant"));
    assert!(!under(&iodide).lifted.contains("pregnant"));
    assert_eq!(record.person.answers["pregnant"], Answer::No);
    assert!(record.person.cleared && !under(&iodide).cleared);
}

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
        StepEvent::ToolChosen {
            tool: hearthdose_core::prep::Tool::Spoon,
        },
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

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever is said about following, and in whatever order it arrives, nobody sits at two tables of one event.
    #[test]
    fn nobody_gets_two_medicines_of_one_event(said in prop::collection::vec((1..3_u64, 0..3_usize, 0..4_usize), 0..8), turn in any::<prop::sample::Index>()) {
        let (doxy, cipro, iodide) = (doxy(), cipro(), iodide());
        let all = [&doxy, &cipro, &iodide];
        let mut events = vec![household(), taken(&doxy), taken(&cipro), taken(&iodide), grown(1, "Ana"), grown(2, "Ben")];
        for (number, order, instead) in &said {
            let event = match instead {
                3 => Event::FollowsNoMore { person: person(*number), order: all[*order].id.clone() },
                2 => follows(*number, all[*order], None),
                instead => follows(*number, all[*order], Some(all[*instead]).filter(|before| before.id != all[*order].id)),
            };
            events.push(event);
        }
        let mut facts = crate::noted(&events.into_iter().map(|event| (-20, event)).collect::<Vec<_>>());
        let state = fold(&facts);
        let seats = |state: &State| -> Vec<Vec<PersonId>> {
            all.iter().map(|order| people(look_among(state, order, &all, &Now::wall_only(hour(-1))))).collect()
        };
        let seen = seats(&state);
        prop_assert!(seen[0].iter().all(|id| !seen[1].contains(id)), "{seen:?}");
        // Who follows a medicine of the event is served by one of them.
        for number in [1, 2] {
            let follows_any = [&doxy, &cipro].iter().any(|order| state.follows(person(number), &order.id));
            let served = seen[0].contains(&person(number)) || seen[1].contains(&person(number));
            prop_assert_eq!(follows_any, served);
        }
        let middle = turn.index(facts.len());
        facts.rotate_left(middle);
        prop_assert_eq!(seats(&fold(&facts)), seen);
    }
}
