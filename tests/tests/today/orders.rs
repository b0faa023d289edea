//! Two orders in one kitchen (D15): who follows which, and never two medicines of one event.

use hearthdose_core::household::Answer;
use hearthdose_core::order::CheckedOrder;
use hearthdose_core::prep::{OrderRef, PersonId};
use hearthdose_core::record::{Event, State, fold};
use hearthdose_core::screening::Reason;
use hearthdose_core::time::Now;
use hearthdose_core::today::{NoRound, Today, instead_for, look_among, may_follow};
use hearthdose_tests::people::{checked, demo_order, demo_text};
use proptest::prelude::*;

use crate::facts::person;
use crate::{START, at, grown, home, hour, household};

pub fn doxy() -> CheckedOrder {
    demo_order("quillmere-doxy-1")
}

pub fn cipro() -> CheckedOrder {
    demo_order("quillmere-ciprofloxacin-1")
}

/// Iodide for two weeks, so that its rounds meet the others'.
pub fn iodide() -> CheckedOrder {
    let text = demo_text("orders/quillmere-iodide-1")
        .replace("supply-days = 1\n", "supply-days = 14\n")
        .replace("course-days = 1\n", "course-days = 14\n");
    checked(&text)
}

pub fn order_ref(order: &CheckedOrder) -> OrderRef {
    OrderRef {
        id: order.id.clone(),
        revision: order.revision,
    }
}

pub fn taken(order: &CheckedOrder) -> Event {
    Event::OrderTaken {
        order: order_ref(order),
        fingerprint: String::new(),
    }
}

pub fn follows(number: u64, order: &CheckedOrder, instead_of: Option<&CheckedOrder>) -> Event {
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
pub fn screened(number: u64, order: &CheckedOrder) -> Vec<Event> {
    let questions = order.questions.iter();
    questions
        .map(|question| answered(number, order, &question.key, Answer::No))
        .collect()
}

/// Ana and Ben under doxycycline, with what follows.
pub fn kitchen(more: Vec<Event>) -> State {
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

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever is said about following, and in whatever order it arrives, nobody sits at two tables of one event.
    // promise: P19
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
