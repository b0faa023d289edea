//! Every quarter of an hour over 36 hours, each with exactly one written answer.
//!
//! All expectations are worked out by hand from the order's gaps.

use hearthdose_core::schedule::{Advice, Round, Start, Timing, course, early, late, late_among};
use hearthdose_core::units::Lapse;
use jiff::civil::date;
use jiff::{Timestamp, ToSpan};

use super::{eight, instant, iodide, times, twelve, tz};

/// What the table says; `Plus` is so many hours after the minute of asking.
#[derive(Clone, Copy)]
enum Says {
    Wait(&'static str),
    Give(&'static str),
    GivePlus(i64),
    Skip(&'static str),
}
use Says::{Give, GivePlus, Skip, Wait};

/// From and to, both included.
type Line = (&'static str, &'static str, Says);

/// All in UTC, without the date's year: `04-03 08:00`.
fn at(year: &str, text: &str) -> Timestamp {
    let (day, clock) = text.split_once(' ').expect("a day and a time");
    instant(&format!("{year}-{day}T{clock}Z"))
}

/// Asks each quarter of an hour for 36 hours after the last dose, which was given on time.
fn check(order: &Timing, rounds: &[Round], year: &str, last: &str, table: &[Line]) {
    let last = at(year, last);
    let open: Vec<Round> = rounds.iter().copied().filter(|r| r.at > last).collect();
    for quarter in 0..=144 {
        let now = last + Lapse::from_mins(15 * quarter);
        let mut lines = table
            .iter()
            .filter(|(from, to, _)| at(year, from) <= now && now <= at(year, to));
        let (_, _, says) = lines.next().unwrap_or_else(|| panic!("no line for {now}"));
        assert!(lines.next().is_none(), "two lines for {now}");
        let expected = match says {
            Wait(until) => Advice::Wait {
                until: at(year, until),
            },
            Give(then) => Advice::GiveNow {
                then: Some(at(year, then)),
            },
            GivePlus(hours) => Advice::GiveNow {
                then: Some(now + Lapse::from_hours(*hours)),
            },
            Skip(next) => Advice::Skip {
                next: Some(at(year, next)),
            },
        };
        let asked = late_among(order, Some(last), &open, now).expect("an open round");
        assert_eq!(asked.advice, expected, "{now}");
    }
}

fn rounds(order: &Timing, texts: &[&str], zone: &str, start: (i16, i8, i8)) -> Vec<Round> {
    let start = Start::on(date(start.0, start.1, start.2));
    course(order, &times(texts), &tz(zone), start, 6)
}

#[test]
fn every_12_hours() {
    let order = twelve();
    let rounds = rounds(&order, &["08:00", "20:00"], "UTC", (2031, 4, 2));
    check(
        &order,
        &rounds,
        "2031",
        "04-02 20:00",
        &[
            ("04-02 20:00", "04-03 07:45", Wait("04-03 08:00")),
            ("04-03 08:00", "04-03 12:00", Give("04-03 20:00")),
            ("04-03 12:15", "04-03 13:45", GivePlus(8)),
            ("04-03 14:00", "04-03 19:45", Skip("04-03 20:00")),
            ("04-03 20:00", "04-04 00:00", Give("04-04 08:00")),
            ("04-04 00:15", "04-04 01:45", GivePlus(8)),
            ("04-04 02:00", "04-04 07:45", Skip("04-04 08:00")),
            ("04-04 08:00", "04-04 08:00", Give("04-04 20:00")),
        ],
    );
}

#[test]
fn every_8_hours() {
    let order = eight();
    let rounds = rounds(&order, &["06:00", "14:00", "22:00"], "UTC", (2031, 4, 2));
    check(
        &order,
        &rounds,
        "2031",
        "04-02 22:00",
        &[
            ("04-02 22:00", "04-03 05:45", Wait("04-03 06:00")),
            ("04-03 06:00", "04-03 08:00", Give("04-03 14:00")),
            ("04-03 08:15", "04-03 09:45", GivePlus(6)),
            ("04-03 10:00", "04-03 13:45", Skip("04-03 14:00")),
            ("04-03 14:00", "04-03 16:00", Give("04-03 22:00")),
            ("04-03 16:15", "04-03 17:45", GivePlus(6)),
            ("04-03 18:00", "04-03 21:45", Skip("04-03 22:00")),
            ("04-03 22:00", "04-04 00:00", Give("04-04 06:00")),
            ("04-04 00:15", "04-04 01:45", GivePlus(6)),
            ("04-04 02:00", "04-04 05:45", Skip("04-04 06:00")),
            ("04-04 06:00", "04-04 08:00", Give("04-04 14:00")),
            ("04-04 08:15", "04-04 09:45", GivePlus(6)),
            ("04-04 10:00", "04-04 10:00", Skip("04-04 14:00")),
        ],
    );
}

#[test]
fn every_24_hours() {
    let order = iodide();
    let rounds = rounds(&order, &["08:00"], "UTC", (2031, 4, 2));
    check(
        &order,
        &rounds,
        "2031",
        "04-02 08:00",
        &[
            ("04-02 08:00", "04-03 07:45", Wait("04-03 08:00")),
            ("04-03 08:00", "04-03 20:00", GivePlus(24)),
        ],
    );
    // Missed the whole day: from 02:00 on, 6 hours before the next, it is skipped.
    let day_two = rounds[2].at;
    let ask = |text| {
        late(
            &order,
            Some(rounds[0].at),
            rounds[1].at,
            Some(day_two),
            at("2031", text),
        )
    };
    let then = at("2031", "04-05 01:45");
    assert_eq!(ask("04-04 01:45"), Advice::GiveNow { then: Some(then) });
    let skip = Advice::Skip {
        next: Some(day_two),
    };
    assert_eq!(ask("04-04 02:00"), skip);
    assert_eq!(ask("04-04 07:59"), skip);
}

/// New York, 2026-03-07 20:00 −05 missed; the next, 08:00 −04, is 11 hours on.
#[test]
fn every_12_hours_over_the_spring_change() {
    let order = twelve();
    let rounds = rounds(
        &order,
        &["08:00", "20:00"],
        "America/New_York",
        (2026, 3, 6),
    );
    check(
        &order,
        &rounds,
        "2026",
        "03-07 13:00",
        &[
            ("03-07 13:00", "03-08 00:45", Wait("03-08 01:00")),
            ("03-08 01:00", "03-08 04:00", Give("03-08 12:00")),
            ("03-08 04:15", "03-08 05:45", GivePlus(8)),
            ("03-08 06:00", "03-08 11:45", Skip("03-08 12:00")),
            ("03-08 12:00", "03-08 16:00", Give("03-09 00:00")),
            ("03-08 16:15", "03-08 17:45", GivePlus(8)),
            ("03-08 18:00", "03-08 23:45", Skip("03-09 00:00")),
            ("03-09 00:00", "03-09 01:00", Give("03-09 12:00")),
        ],
    );
}

/// New York, 2026-10-31 20:00 −04 missed; the next, 08:00 −05, is 13 hours on.
#[test]
fn every_12_hours_over_the_autumn_change() {
    let order = twelve();
    let rounds = rounds(
        &order,
        &["08:00", "20:00"],
        "America/New_York",
        (2026, 10, 30),
    );
    check(
        &order,
        &rounds,
        "2026",
        "10-31 12:00",
        &[
            ("10-31 12:00", "10-31 23:45", Wait("11-01 00:00")),
            ("11-01 00:00", "11-01 05:00", Give("11-01 13:00")),
            ("11-01 05:15", "11-01 06:45", GivePlus(8)),
            ("11-01 07:00", "11-01 12:45", Skip("11-01 13:00")),
            ("11-01 13:00", "11-01 17:00", Give("11-02 01:00")),
            ("11-01 17:15", "11-01 18:45", GivePlus(8)),
            ("11-01 19:00", "11-02 00:00", Skip("11-02 01:00")),
        ],
    );
}

/// 08:00 −04 comes 23 hours after 08:00 −05, so the answer there is to wait until 09:00.
#[test]
fn every_24_hours_over_the_spring_change() {
    let order = iodide();
    let rounds = rounds(&order, &["08:00"], "America/New_York", (2026, 3, 6));
    check(
        &order,
        &rounds,
        "2026",
        "03-07 13:00",
        &[
            ("03-07 13:00", "03-08 12:45", Wait("03-08 13:00")),
            ("03-08 13:00", "03-09 01:00", GivePlus(24)),
        ],
    );
}

/// 08:00 −05 comes 25 hours after 08:00 −04: 24 hours after the last dose it still waits for the round.
#[test]
fn every_24_hours_over_the_autumn_change() {
    let order = iodide();
    let rounds = rounds(&order, &["08:00"], "America/New_York", (2026, 10, 30));
    check(
        &order,
        &rounds,
        "2026",
        "10-31 12:00",
        &[
            ("10-31 12:00", "11-01 12:45", Wait("11-01 13:00")),
            ("11-01 13:00", "11-02 00:00", GivePlus(24)),
        ],
    );
}

/// No change of clocks there any more: the tables of an ordinary day, at −07, −06 and +00.
#[test]
fn zones_that_stopped_changing_follow_the_ordinary_table() {
    for (zone, morning, noon, until, skip, evening) in [
        (
            "America/Vancouver",
            "11-01 15:00",
            "11-01 19:00",
            "11-01 20:45",
            "11-01 21:00",
            "11-02 03:00",
        ),
        (
            "America/Edmonton",
            "11-01 14:00",
            "11-01 18:00",
            "11-01 19:45",
            "11-01 20:00",
            "11-02 02:00",
        ),
        (
            "Africa/Casablanca",
            "12-05 08:00",
            "12-05 12:00",
            "12-05 13:45",
            "12-05 14:00",
            "12-05 20:00",
        ),
    ] {
        let order = twelve();
        let start = date(2026, 10, 30);
        let all = course(
            &order,
            &times(&["08:00", "20:00"]),
            &tz(zone),
            Start::on(start),
            60,
        );
        let [morning, noon, until, skip, evening] =
            [morning, noon, until, skip, evening].map(|text| at("2026", text));
        let place = all.iter().position(|round| round.at == morning).unwrap();
        let last = all[place - 1].at;
        assert_eq!(
            morning.duration_since(last),
            Lapse::from_hours(12),
            "{zone}"
        );
        let mut now = last;
        while now < evening {
            let advice = late_among(&order, Some(last), &all[place..], now)
                .unwrap()
                .advice;
            let expected = if now < morning {
                Advice::Wait { until: morning }
            } else if now <= noon {
                Advice::GiveNow {
                    then: Some(evening),
                }
            } else if now <= until {
                Advice::GiveNow {
                    then: Some(now + 8.hours()),
                }
            } else {
                assert!(now >= skip);
                Advice::Skip {
                    next: Some(evening),
                }
            };
            assert_eq!(advice, expected, "{zone} {now}");
            now += 15.minutes();
        }
    }
}

/// The example of the trap: 08:00 missed, remembered at 14:00, next at 20:00. Within 6 hours means 6 hours or less.
#[test]
fn remembered_at_14_00_is_skipped_and_a_minute_before_is_not() {
    let [due, next] = ["04-03 08:00", "04-03 20:00"].map(|text| at("2031", text));
    let last = Some(at("2031", "04-02 20:00"));
    let ask = |text| late(&twelve(), last, due, Some(next), at("2031", text));
    assert_eq!(ask("04-03 14:00"), Advice::Skip { next: Some(next) });
    let then = Some(at("2031", "04-03 21:59"));
    assert_eq!(ask("04-03 13:59"), Advice::GiveNow { then });
    assert_eq!(ask("04-03 10:00"), Advice::GiveNow { then: Some(next) });
}

#[test]
fn a_dose_given_late_at_night_makes_the_next_wait() {
    let [due, next] = ["04-03 08:00", "04-03 20:00"].map(|text| at("2031", text));
    let ask = |last, now| {
        let (last, now) = (at("2031", last), at("2031", now));
        late(&twelve(), Some(last), due, Some(next), now)
    };
    let wait = |text| Advice::Wait {
        until: at("2031", text),
    };
    assert_eq!(ask("04-03 02:00", "04-03 08:00"), wait("04-03 10:00"));
    let then = Some(next);
    assert_eq!(ask("04-03 02:00", "04-03 10:00"), Advice::GiveNow { then });
    // A last dose so late that waiting would end within 6 hours of the next round.
    let skip = Advice::Skip { next: Some(next) };
    assert_eq!(ask("04-03 06:00", "04-03 08:00"), skip);
    // And one that even pushes the next: 13:00 + 8 hours.
    let next = Some(at("2031", "04-03 21:00"));
    assert_eq!(ask("04-03 13:00", "04-03 13:05"), Advice::Skip { next });
}

#[test]
fn the_last_round_of_the_course_has_no_next() {
    let due = at("2031", "06-01 20:00");
    let last = Some(at("2031", "06-01 08:00"));
    let ask = |text| late(&twelve(), last, due, None, at("2031", text));
    assert_eq!(ask("06-01 19:00"), Advice::Wait { until: due });
    assert_eq!(ask("06-01 20:00"), Advice::GiveNow { then: None });
    assert_eq!(ask("06-02 01:59"), Advice::GiveNow { then: None });
    assert_eq!(ask("06-02 02:00"), Advice::Skip { next: None });
}

#[test]
fn without_a_last_dose_only_the_next_round_counts() {
    let [due, next] = ["04-03 08:00", "04-03 20:00"].map(|text| at("2031", text));
    let ask = |text| late(&twelve(), None, due, Some(next), at("2031", text));
    assert_eq!(ask("04-03 07:00"), Advice::Wait { until: due });
    assert_eq!(ask("04-03 09:00"), Advice::GiveNow { then: Some(next) });
    assert_eq!(ask("04-03 15:00"), Advice::Skip { next: Some(next) });
}

#[test]
fn several_missed_rounds_are_one_question_about_the_latest() {
    let order = twelve();
    let rounds = rounds(&order, &["08:00", "20:00"], "UTC", (2031, 4, 2));
    let now = at("2031", "04-04 09:00");
    let asked = late_among(&order, None, &rounds, now).unwrap();
    assert_eq!(asked.open, 4);
    let then = Some(at("2031", "04-04 20:00"));
    assert_eq!(asked.advice, Advice::GiveNow { then });
    assert_eq!(late_among(&order, None, &[], now), None);
}

/// Rounds this near are refused for the order, yet on the dot the answer still is to give.
#[test]
fn a_dose_on_time_is_never_skipped() {
    let [due, next] = ["04-03 08:00", "04-03 14:00"].map(|text| at("2031", text));
    let then = Some(at("2031", "04-03 16:00"));
    let advice = late(&twelve(), None, due, Some(next), due);
    assert_eq!(advice, Advice::GiveNow { then });
}

/// The 12-hourly order leaves 4 hours between its interval and its least gap, the daily one none.
#[test]
fn an_early_dose_has_its_window() {
    let [due, next] = ["04-03 20:00", "04-04 08:00"].map(|text| at("2031", text));
    let ask = |last, now| {
        let (last, now) = (at("2031", last), at("2031", now));
        early(&twelve(), Some(last), due, Some(next), now)
    };
    let wait = |text| Advice::Wait {
        until: at("2031", text),
    };
    let give = |text| Advice::GiveNow {
        then: Some(at("2031", text)),
    };
    assert_eq!(ask("04-03 08:00", "04-03 08:15"), wait("04-03 16:00"));
    assert_eq!(ask("04-03 08:00", "04-03 15:45"), wait("04-03 16:00"));
    assert_eq!(ask("04-03 08:00", "04-03 16:00"), give("04-04 08:00"));
    // The morning dose came late: 10:30 + 8 hours.
    assert_eq!(ask("04-03 10:30", "04-03 16:00"), wait("04-03 18:30"));
    // The morning dose came early: the window still counts from the round.
    assert_eq!(ask("04-03 05:00", "04-03 14:00"), wait("04-03 16:00"));
    assert_eq!(ask("04-03 08:00", "04-03 21:00"), give("04-04 08:00"));

    let [due, next] = ["04-03 08:00", "04-04 08:00"].map(|text| at("2031", text));
    let last = at("2031", "04-02 08:00");
    let now = at("2031", "04-03 07:45");
    let advice = early(&iodide(), Some(last), due, Some(next), now);
    assert_eq!(advice, Advice::Wait { until: due });
    // Also when the last dose is long ago.
    assert_eq!(
        early(&iodide(), None, due, Some(next), now),
        Advice::Wait { until: due }
    );
}
