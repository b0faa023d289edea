//! A person who joins brings a last dose and a course day; neither is given twice nor forgotten.

use hearthdose_core::record::Event;
use hearthdose_core::schedule::Advice;
use hearthdose_tests::people::demo_order;
use jiff::civil::{Date, date};

use crate::facts::person;
use crate::{at, grown, home, hour, household, who};

fn joined(last: Option<i64>, began: Option<Date>, doses: u32) -> Event {
    Event::Joined {
        person: person(2),
        order: "quillmere-doxy".to_owned(),
        last_dose: last.map(hour),
        course_started: began,
        doses,
        tablets: 0,
    }
}

/// Ana lives here from 3 April on; Ben comes at `hours`.
fn family(hours: i64, ben: Event) -> Vec<(i64, Event)> {
    vec![
        (-20, household()),
        (-20, grown(1, "Ana")),
        (hours, grown(2, "Ben")),
        (hours, ben),
    ]
}

/// An hour before the round he had his dose in the other home: Ana has hers on time, he has his at night.
#[test]
fn a_last_dose_elsewhere_keeps_the_gap() {
    let order = demo_order("quillmere-doxy-1");
    let state = home(&family(0, joined(Some(-1), Some(date(2031, 4, 1)), 4)));
    let today = at(&state, &order, 0).unwrap();
    assert_eq!(today.next_at(), Some(hour(0)));
    assert_eq!(who(&today, 0), [person(1)]);
    assert_eq!(who(&today, 12), [person(1), person(2)]);
    // Twelve hours are enough, and so is the least gap of eight.
    for last in [-12, -8] {
        let state = home(&family(0, joined(Some(last), Some(date(2031, 4, 1)), 4)));
        assert_eq!(
            who(&at(&state, &order, 0).unwrap(), 0),
            [person(1), person(2)]
        );
    }
}

/// Alone in a new home, three hours after the last dose: not "now", but tonight.
#[test]
fn alone_he_waits_for_the_gap_too() {
    let order = demo_order("quillmere-doxy-1");
    let alone = |last: Option<i64>| {
        home(&[
            (2, household()),
            (2, grown(2, "Ben")),
            (2, joined(last, Some(date(2031, 4, 1)), 4)),
        ])
    };
    let today = at(&alone(Some(-1)), &order, 2).unwrap();
    assert_eq!(today.next_at(), Some(hour(12)));
    // A round may come forward by what twelve hours leave beyond the least gap of eight: four.
    assert_eq!(today.advice, Advice::Wait { until: hour(8) });
    // The night's round is the second of the day, whoever the morning's was for.
    assert_eq!(today.next_key().unwrap().index, 1);
    let today = at(&alone(None), &order, 2).unwrap();
    assert_eq!(
        today.next_at(),
        Some(hour(0)),
        "this morning's may still go"
    );
}

/// His course began two days before hers, and ends two days before; days are counted from his own first.
#[test]
fn the_course_goes_on_where_it_was() {
    let order = demo_order("quillmere-doxy-1");
    let last_of = |began: Option<Date>| {
        let state = home(&family(0, joined(Some(-12), began, 4)));
        let today = at(&state, &order, 0).unwrap();
        let rounds = today.rounds.iter().rev();
        let mut his = rounds.filter(|(_, round)| round.who.len() == 2);
        his.next().map(|(key, _)| key.day).unwrap()
    };
    // Sixty days from 3 April end on 1 June.
    assert_eq!(last_of(None), date(2031, 6, 1));
    assert_eq!(last_of(Some(date(2031, 4, 1))), date(2031, 5, 30));
}

/// One dose for a newborn: who had it elsewhere has none here.
#[test]
fn doses_had_elsewhere_count_for_the_most() {
    let order = demo_order("quillmere-iodide-1");
    let baby = |elsewhere: Option<Event>| {
        let Event::PersonSet(mut words) = grown(2, "Ben") else {
            unreachable!("a person")
        };
        words.adult = false;
        words.born = Some(date(2031, 3, 25));
        words.swallows_tablets = false;
        let mut set = household();
        if let Event::HouseholdSet(words) = &mut set {
            words.rounds.truncate(1);
        }
        let mut events = vec![(-20, set), (-20, Event::PersonSet(words))];
        events.extend(elsewhere.map(|event| (-20, event)));
        let today = at(&home(&events), &order, 0).unwrap();
        today.plan.rounds[0].doses.len()
    };
    let had = |order: &str, doses| Event::Joined {
        person: person(2),
        order: order.to_owned(),
        last_dose: None,
        course_started: None,
        doses,
        tablets: 0,
    };
    assert_eq!(baby(None), 1);
    assert_eq!(baby(Some(had("quillmere-iodide", 0))), 1);
    assert_eq!(baby(Some(had("quillmere-iodide", 1))), 0);
    assert_eq!(baby(Some(had("quillmere-doxy", 7))), 1, "another medicine");
}
