//! C15: a stop notice, a shortened course, a renewal of potassium iodide, and what else the issuer says on the way.
//!
//! Notices are the demonstration files; days are counted on the calendar, a household beginning on 3 April with rounds at 8 and 20.

use hearthdose_core::order::{Notice, WaterRule, parse_notice};
use hearthdose_core::prep::{OrderRef, PersonId};
use hearthdose_core::record::{Event, HouseholdWords, State};
use hearthdose_core::schedule::Advice;
use hearthdose_core::time::Now;
use hearthdose_core::today::{InForce, LotStanding, NoRound, Today, look, lots, water_rule};
use hearthdose_core::units::AgeSpan;
use hearthdose_tests::people::{demo_order, demo_text};
use jiff::Timestamp;
use jiff::civil::{Date, date, time};
use proptest::prelude::*;

use crate::{at, grown, home, hour, household, noted, who};

fn notice(name: &str) -> String {
    demo_text(&format!("notices/quillmere-{name}"))
}

fn changed(name: &str, changes: &[(&str, &str)]) -> String {
    let mut text = notice(name);
    for (old, new) in changes {
        assert_eq!(text.matches(old).count(), 1, "{old}");
        text = text.replace(old, new);
    }
    text
}

fn taken(text: &str) -> Event {
    Event::NoticeTaken {
        text: text.to_owned(),
    }
}

fn ana_with(texts: &[String]) -> State {
    let mut events = vec![(-20, household()), (-20, grown(1, "Ana"))];
    events.extend(texts.iter().map(|text| (0, taken(text))));
    home(&events)
}

fn doxy() -> hearthdose_core::order::CheckedOrder {
    demo_order("quillmere-doxy-1")
}

fn last_day(today: &Today) -> Date {
    today.rounds.last().unwrap().0.day
}

/// The demonstration's stop, made one for doxycycline on a day of its course.
fn stop(from: Option<&str>, issued: &str) -> String {
    let from = from.map_or(String::new(), |day| format!("from = \"{day}\""));
    changed(
        "stop",
        &[
            ("quillmere-iodide", "quillmere-doxy"),
            ("from = \"2031-05-12\"", &from),
            ("2031-05-12T12:00:00-05:00", issued),
        ],
    )
}

// promise: P20
#[test]
fn a_stop_ends_the_rounds_and_says_so() {
    let order = doxy();
    let at_once = ana_with(&[stop(None, "2031-04-06T12:00:00-05:00")]);
    let Err(NoRound::Stopped { notice }) = at(&at_once, &order, 80) else {
        panic!("rounds go on")
    };
    assert_eq!(notice.id, "quillmere-notice-8");
    // From a day on: everything before it is still given.
    let later = ana_with(&[stop(Some("2031-04-08"), "2031-04-06T12:00:00-05:00")]);
    let today = at(&later, &order, 80).unwrap();
    assert_eq!((last_day(&today), today.days), (date(2031, 4, 7), 5));
    let on_the_day = at(&later, &order, 5 * 24 - 7);
    assert!(
        matches!(on_the_day, Err(NoRound::Stopped { .. })),
        "one in the morning of the 8th"
    );
}

#[test]
fn a_shortened_course_ends_sooner() {
    let order = doxy();
    let today = at(&ana_with(&[notice("shorten")]), &order, 0).unwrap();
    // Thirty days from 3 April end on 2 May.
    assert_eq!((last_day(&today), today.days), (date(2031, 5, 2), 30));
    let by_date = changed(
        "shorten",
        &[("course-days = 30", "last-day = \"2031-04-21\"")],
    );
    let today = at(&ana_with(&[by_date]), &order, 0).unwrap();
    assert_eq!((last_day(&today), today.days), (date(2031, 4, 21), 19));
    // The morning after, only the last evening's is open, and it is left out.
    let after = at(&ana_with(&[notice("shorten")]), &order, 24 * 30).unwrap();
    assert_eq!(after.advice, Advice::Skip { next: None });
}

/// A course stopped, then renewed: the days between stay without a dose, and the old end does not come back.
#[test]
fn a_renewal_after_a_stop_adds_its_own_days_only() {
    let order = doxy();
    let renew = changed(
        "renew",
        &[
            ("quillmere-iodide", "quillmere-doxy"),
            ("days = 1", "days = 3"),
            ("2031-05-11T05:00:00-05:00", "2031-04-10T08:00:00-05:00"),
            ("from = \"2031-05-11\"", "from = \"2031-04-12\""),
        ],
    );
    let stopped = stop(Some("2031-04-08"), "2031-04-06T12:00:00-05:00");
    let today = at(&ana_with(&[renew.clone(), stopped.clone()]), &order, 0).unwrap();
    let days: std::collections::BTreeSet<Date> =
        today.rounds.iter().map(|(key, _)| key.day).collect();
    let expected: Vec<Date> = [3, 4, 5, 6, 7, 12, 13, 14]
        .map(|day| date(2031, 4, day))
        .into();
    assert_eq!(days.into_iter().collect::<Vec<Date>>(), expected);
    // The same stop issued after the renewal ends it as well.
    let later = stop(Some("2031-04-08"), "2031-04-11T12:00:00-05:00");
    let today = at(&ana_with(&[later, renew]), &order, 0).unwrap();
    assert_eq!(last_day(&today), date(2031, 4, 7));
}

/// Another order's, another issuer's, an older one than what is in force: nothing changes.
#[test]
fn what_is_not_about_this_order_or_is_older_changes_nothing() {
    let order = doxy();
    let plain = at(&ana_with(&[]), &order, 0).unwrap();
    let other_issuer = changed("shorten", &[("Quillmere Health District", "Somebody Else")]);
    for text in [notice("stop"), notice("renew"), other_issuer] {
        let today = at(&ana_with(&[text]), &order, 0).unwrap();
        assert_eq!(today.rounds.len(), plain.rounds.len());
        assert_eq!((last_day(&today), today.days), (date(2031, 6, 1), 60));
    }
    let newer = notice("shorten");
    let older = changed(
        "shorten",
        &[
            ("quillmere-notice-6", "quillmere-notice-0"),
            ("course-days = 30", "course-days = 5"),
            ("2031-04-20", "2031-04-04"),
        ],
    );
    for texts in [[older.clone(), newer.clone()], [newer, older]] {
        let state = ana_with(&texts);
        let force = InForce::of(&state, &order);
        let ids: Vec<&str> = force.notices.iter().map(|n| n.id.as_str()).collect();
        assert_eq!(ids, ["quillmere-notice-0", "quillmere-notice-6"]);
    }
    // Tap water again, said before the boiling rule was: boiling stands.
    let boil = notice("water");
    let tap = changed(
        "water",
        &[
            ("rule = \"boil\"", "rule = \"tap\""),
            ("quillmere-notice-1", "quillmere-notice-0"),
            ("2031-04-05", "2031-04-04"),
        ],
    );
    let state = ana_with(&[boil, tap]);
    assert_eq!(water_rule(&state, &order), WaterRule::BoilAndCool);
}

#[test]
fn a_notice_that_cannot_be_read_is_told() {
    let state = ana_with(&["kind = \"stop\"".to_owned()]);
    assert_eq!((state.notices.len(), state.misfits.len()), (0, 1));
    let twice = ana_with(&[notice("water"), notice("water")]);
    assert_eq!((twice.notices.len(), twice.misfits.len()), (1, 0));
}

fn iodide_home(texts: &[String], born: Option<Date>) -> State {
    let mut person = grown(1, "Ana");
    if let (Event::PersonSet(words), Some(born)) = (&mut person, born) {
        (words.adult, words.born) = (false, Some(born));
    }
    let begins = Event::HouseholdSet(HouseholdWords {
        name: String::new(),
        zone: "America/Chicago".to_owned(),
        start: date(2031, 5, 10),
        rounds: vec![time(8, 0, 0, 0)],
        first_dose_at: None,
        fresh: false,
        practice: false,
    });
    let mut events = vec![(-20, begins), (-20, person)];
    events.extend(texts.iter().map(|text| (0, taken(text))));
    home(&events)
}

fn may(day: i8, clock: i8) -> Timestamp {
    let zone = jiff::tz::TimeZone::get("America/Chicago").unwrap();
    zone.to_timestamp(date(2031, 5, day).at(clock, 0, 0, 0))
        .unwrap()
}

/// One dose; the renewal adds one on 11 May for everybody but a newborn, and the stop of the 12th ends it.
#[test]
fn potassium_iodide_is_renewed_for_a_day() {
    let order = demo_order("quillmere-iodide-1");
    let doses = |texts: &[String], born: Option<Date>| -> Vec<(Date, usize)> {
        let today = look(
            &iodide_home(texts, born),
            &order,
            &Now::wall_only(may(10, 7)),
        )
        .unwrap();
        let rounds = today.plan.rounds.iter();
        rounds.map(|round| (round.day, round.doses.len())).collect()
    };
    let (tenth, eleventh) = (date(2031, 5, 10), date(2031, 5, 11));
    assert_eq!(doses(&[], None), [(tenth, 1)]);
    let renewed = [notice("renew")];
    assert_eq!(doses(&renewed, None), [(tenth, 1), (eleventh, 1)]);
    let newborn = Some(date(2031, 5, 1));
    let screened_newborn = doses(&renewed, newborn);
    assert_eq!(screened_newborn, [(tenth, 1), (eleventh, 0)]);
    let both = [notice("renew"), notice("stop")];
    let state = iodide_home(&both, None);
    let later = look(&state, &order, &Now::wall_only(may(12, 7)));
    assert!(matches!(later, Err(NoRound::Stopped { .. })));
}

/// An order that gives everyone one dose gives one more for each day renewed.
#[test]
fn a_renewal_raises_the_limit_for_everyone_only() {
    let mut text = demo_text("orders/quillmere-iodide-1");
    let limit = "most-doses = { \"up to 1 mo\" = 1, ";
    assert_eq!(text.matches(limit).count(), 1);
    text = text.replace(limit, "most-doses = { everyone = 1, \"up to 1 mo\" = 1, ");
    let order = hearthdose_tests::people::checked(&text);
    let ben = hearthdose_core::household::Person::named("Ben");
    let most = |renewed| {
        hearthdose_core::dose::most_doses_renewed(&order, &ben, date(2031, 5, 11), renewed)
    };
    assert_eq!((most(0), most(2)), (Some(1), Some(3)));
}

#[test]
fn lots_in_the_house_are_known_with_what_was_said_of_them() {
    let order = doxy();
    let packs = |lot: Option<&str>, tablets| Event::PacksReceived {
        product: "tablet-100".to_owned(),
        lot: lot.map(str::to_owned),
        tablets,
    };
    let state = |names: &[&str]| {
        let mut events = vec![
            (-20, household()),
            (-19, packs(Some("QD3107"), 20)),
            (-18, packs(Some("qd3112"), 20)),
            (-17, packs(None, 20)),
            (-16, packs(Some("QD3107"), 40)),
            (-15, packs(Some("QD3199"), 10)),
        ];
        events.extend(names.iter().map(|name| (0, taken(&notice(name)))));
        home(&events)
    };
    let told = |names: &[&str]| -> Vec<(String, u64, LotStanding)> {
        let found = lots(&state(names), &order).into_iter();
        found
            .map(|lot| (lot.lot, lot.tablets, lot.standing))
            .collect()
    };
    let until = date(2031, 12, 31);
    let lot = |name: &str, tablets, standing| (name.to_owned(), tablets, standing);
    assert_eq!(
        told(&["extend-lot", "quarantine-lot"]),
        [
            lot("QD3107", 60, LotStanding::Extended { until }),
            lot("qd3112", 20, LotStanding::SetAside),
            lot("QD3199", 10, LotStanding::AsPrinted),
        ]
    );
    for names in [
        ["quarantine-lot", "recall-lot"],
        ["recall-lot", "quarantine-lot"],
    ] {
        assert_eq!(told(&names)[1].2, LotStanding::BringBack);
    }
    let elsewhere = lots(&state(&["recall-lot"]), &demo_order("quillmere-iodide-1"));
    assert_eq!(elsewhere, [], "received for another order");
}

#[test]
fn collection_rules_are_known() {
    let state = ana_with(&[notice("collection")]);
    let order = doxy();
    let rules = InForce::of(&state, &order).collection().unwrap();
    assert_eq!(rules.youngest_collector, Some(AgeSpan::years(16)));
    assert_eq!(rules.most_people, Some(12));
    assert_eq!(
        (rules.from, rules.until),
        (Some(date(2031, 4, 9)), Some(date(2031, 4, 13)))
    );
    assert!(InForce::of(&ana_with(&[]), &order).collection().is_none());
    assert_eq!(water_rule(&state, &order), WaterRule::Tap);
}

/// A round that was given keeps its name whatever a notice adds before it on the same day.
#[test]
fn notices_move_no_names() {
    let order = demo_order("quillmere-iodide-1");
    let mut begins = household();
    if let Event::HouseholdSet(words) = &mut begins {
        words.rounds.truncate(1);
        words.first_dose_at = Some(time(15, 0, 0, 0));
    }
    let renew = changed(
        "renew",
        &[("from = \"2031-05-11\"", "from = \"2031-04-03\"")],
    );
    let state = |renewed: bool| {
        let mut events = vec![(-20, begins.clone()), (-20, grown(1, "Ana"))];
        events.extend(renewed.then(|| (-10, taken(&renew))));
        home(&events)
    };
    for renewed in [false, true] {
        let today = at(&state(renewed), &order, -5).unwrap();
        let afternoon = today
            .rounds
            .iter()
            .find(|(_, round)| round.at == hour(7))
            .unwrap();
        assert_eq!((afternoon.0.day, afternoon.0.index), (date(2031, 4, 3), 0));
    }
}

fn seen(state: &State) -> Vec<(Timestamp, Vec<PersonId>)> {
    let order = doxy();
    match at(state, &order, 0) {
        Ok(today) => {
            assert!(matches!(
                today.advice,
                Advice::GiveNow { .. } | Advice::Wait { .. }
            ));
            (-24..80 * 24)
                .step_by(12)
                .map(|hours| (hour(hours), who(&today, hours)))
                .collect()
        }
        Err(_) => Vec::new(),
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    /// C15 and P15: whatever arrives when, the notices say the same.
    // promise: P15
    #[test]
    fn notices_say_the_same_in_every_order(picks in prop::collection::vec(0..6_usize, 0..4), turned in any::<bool>()) {
        let all = [
            notice("shorten"),
            stop(Some("2031-04-30"), "2031-04-21T12:00:00-05:00"),
            stop(Some("2031-05-30"), "2031-04-19T12:00:00-05:00"),
            notice("water"),
            notice("recall-lot"),
            changed("renew", &[("quillmere-iodide", "quillmere-doxy"), ("from = \"2031-05-11\"", "from = \"2031-06-11\"")]),
        ];
        let texts: Vec<String> = picks.iter().map(|pick| all[*pick].clone()).collect();
        let mut other = texts.clone();
        if turned { other.reverse() } else { other.rotate_left(usize::from(!texts.is_empty())) }
        prop_assert_eq!(seen(&ana_with(&texts)), seen(&ana_with(&other)));
    }
}

/// What is said reaches the household whole: every demonstration notice is kept as it was read.
#[test]
fn every_demonstration_notice_is_kept() {
    let names = [
        "collection",
        "extend-lot",
        "quarantine-lot",
        "recall-lot",
        "renew",
        "shorten",
        "stop",
        "water",
    ];
    let texts = names.map(notice);
    let state = ana_with(&texts);
    let kept: Vec<Notice> = texts
        .iter()
        .map(|text| parse_notice(text.as_bytes()).unwrap())
        .collect();
    assert_eq!(state.notices, kept);
    let order = OrderRef {
        id: "quillmere-doxy".to_owned(),
        revision: 1,
    };
    assert_eq!(noted(&[(0, taken(&texts[0]))])[0].order, Some(order));
}
