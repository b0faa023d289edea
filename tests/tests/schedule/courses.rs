//! Length of a course, starts at odd times, and people who begin on different days.

use hearthdose_core::order::FirstDose;
use hearthdose_core::schedule::{
    Moved, Start, Timing, course, extra_rounds, last_day, onward, refill_date, together,
};
use hearthdose_core::units::Lapse;
use jiff::civil::{Time, date, time};

use super::{all_shown, eight, instant, iodide, shown, times, timing, twelve, tz};

const CHICAGO: &str = "America/Chicago";

fn start_at(hour: i8, minute: i8) -> Start {
    Start::at_clock(date(2031, 4, 3), time(hour, minute, 0, 0), &tz(CHICAGO)).expect("a start")
}

#[test]
fn sixty_days_twice_a_day_are_120_rounds() {
    let chicago = tz(CHICAGO);
    let start = date(2031, 4, 3);
    let rounds = course(
        &twelve(),
        &times(&["08:00", "20:00"]),
        &chicago,
        Start::on(start),
        60,
    );
    assert_eq!(rounds.len(), 120);
    assert_eq!(shown(rounds[0].at, &chicago), "2031-04-03 08:00 -05");
    // Day 60: 28 days of April from the 3rd, 31 of May, 1 of June.
    assert_eq!(shown(rounds[119].at, &chicago), "2031-06-01 20:00 -05");
    assert_eq!(last_day(start, 60), Some(date(2031, 6, 1)));
    assert!(rounds.iter().enumerate().all(|(i, r)| r.index == i));
    assert_eq!(rounds[0].since_last, None);
    assert_eq!(rounds[1].time_of_day, Some(1));
    // A 10-day supply is 20 doses, and more is fetched on day 10.
    let refill = refill_date(start, 10, 60).unwrap();
    assert_eq!(refill, date(2031, 4, 12));
    let served = rounds.iter().filter(|r| r.nominal.date() <= refill);
    assert_eq!(served.count(), 20);
}

#[test]
fn the_course_over_a_clock_change_has_as_many_rounds() {
    for (start, days) in [(date(2026, 3, 1), 60), (date(2026, 10, 1), 60)] {
        for (order, rounds_of_day) in [
            (twelve(), vec!["08:00", "20:00"]),
            (eight(), vec!["06:00", "14:00", "22:00"]),
            (iodide(), vec!["02:30"]),
        ] {
            let rounds = course(
                &order,
                &times(&rounds_of_day),
                &tz("America/New_York"),
                Start::on(start),
                days,
            );
            assert_eq!(rounds.len(), 60 * rounds_of_day.len());
        }
    }
}

#[test]
fn collected_at_15_00_the_first_dose_is_now_and_the_second_next_morning() {
    let chicago = tz(CHICAGO);
    let rounds = course(
        &twelve(),
        &times(&["08:00", "20:00"]),
        &chicago,
        start_at(15, 0),
        60,
    );
    assert_eq!(
        all_shown(&rounds[..4], &chicago),
        [
            "2031-04-03 15:00 -05",
            // 20:00 would be 5 hours on, nearer than 8.
            "2031-04-04 08:00 -05",
            "2031-04-04 20:00 -05",
            "2031-04-05 08:00 -05",
        ]
    );
    assert_eq!(rounds[0].time_of_day, None);
    assert_eq!(rounds[1].since_last, Some(Lapse::from_hours(17)));
    // It ends by date: one dose fewer, the same last day.
    assert_eq!(rounds.len(), 119);
    assert_eq!(shown(rounds[118].at, &chicago), "2031-06-01 20:00 -05");
}

#[test]
fn the_first_gap_counts_to_the_minute() {
    let chicago = tz(CHICAGO);
    let second = |hour, minute, order: &Timing| {
        let rounds = course(
            order,
            &times(&["08:00", "20:00"]),
            &chicago,
            start_at(hour, minute),
            60,
        );
        shown(rounds[1].at, &chicago)
    };
    assert_eq!(second(12, 0, &twelve()), "2031-04-03 20:00 -05");
    assert_eq!(second(12, 1, &twelve()), "2031-04-04 08:00 -05");
    assert_eq!(second(7, 59, &twelve()), "2031-04-03 20:00 -05");
    // From 00:00 to 08:00 is just enough; from 00:01 it is not.
    assert_eq!(second(0, 0, &twelve()), "2031-04-03 08:00 -05");
    assert_eq!(second(0, 1, &twelve()), "2031-04-03 20:00 -05");
    // The least gap holds also where the first gap is shorter.
    assert_eq!(second(15, 0, &timing(12, 8, 6, 4)), "2031-04-04 08:00 -05");
    assert_eq!(second(15, 0, &timing(12, 4, 3, 5)), "2031-04-03 20:00 -05");
}

#[test]
fn a_start_on_a_round_or_waiting_for_one_is_regular() {
    let chicago = tz(CHICAGO);
    let twice = times(&["08:00", "20:00"]);
    let on_the_dot = course(&twelve(), &twice, &chicago, start_at(20, 0), 60);
    assert_eq!(on_the_dot.len(), 119);
    assert_eq!(on_the_dot[0].time_of_day, Some(1));
    assert_eq!(shown(on_the_dot[1].at, &chicago), "2031-04-04 08:00 -05");

    let waiting = Timing {
        first_dose: FirstDose::NextRound,
        ..twelve()
    };
    let waits = course(&waiting, &twice, &chicago, start_at(15, 0), 60);
    assert_eq!(shown(waits[0].at, &chicago), "2031-04-03 20:00 -05");
    assert_eq!(waits[0].time_of_day, Some(1));
    assert_eq!(waits.len(), 119);
    let late = course(&waiting, &twice, &chicago, start_at(20, 1), 60);
    assert_eq!(shown(late[0].at, &chicago), "2031-04-04 08:00 -05");
    assert_eq!(late.len(), 118);
}

#[test]
fn a_start_after_the_last_round_still_is_day_one() {
    let chicago = tz(CHICAGO);
    let start = Start::at(instant("2031-04-04T04:50Z"), &chicago);
    assert_eq!(start.date, date(2031, 4, 3));
    let rounds = course(&twelve(), &times(&["08:00", "20:00"]), &chicago, start, 2);
    assert_eq!(
        all_shown(&rounds, &chicago),
        [
            "2031-04-03 23:50 -05",
            "2031-04-04 08:00 -05",
            "2031-04-04 20:00 -05",
        ]
    );
}

#[test]
fn no_days_make_no_rounds() {
    let twice = times(&["08:00", "20:00"]);
    let zone = tz(CHICAGO);
    assert_eq!(course(&twelve(), &twice, &zone, start_at(15, 0), 0), []);
    assert_eq!(
        course(&twelve(), &twice, &zone, Start::on(date(2031, 4, 3)), 0),
        []
    );
    // A first dose after the course is none.
    let beyond = Start {
        date: date(2031, 4, 1),
        ..start_at(15, 0)
    };
    assert_eq!(course(&twelve(), &twice, &zone, beyond, 2), []);
}

#[test]
fn people_who_start_on_different_days_share_their_rounds() {
    let chicago = tz(CHICAGO);
    let twice = times(&["08:00", "20:00"]);
    let morning = Start::on(date(2031, 4, 3));
    let courses: Vec<_> = [morning, start_at(15, 0), Start::on(date(2031, 4, 4))]
        .into_iter()
        .map(|start| course(&twelve(), &twice, &chicago, start, 2))
        .collect();
    let house = together(&courses);
    let lines: Vec<(String, Vec<usize>)> = house
        .iter()
        .map(|round| {
            let who = round.who.iter().map(|(person, _)| *person).collect();
            (shown(round.at, &chicago), who)
        })
        .collect();
    let line = |at: &str, who: &[usize]| (format!("2031-04-{at} -05"), who.to_vec());
    assert_eq!(
        lines,
        [
            line("03 08:00", &[0]),
            line("03 15:00", &[1]),
            line("03 20:00", &[0]),
            line("04 08:00", &[0, 1, 2]),
            line("04 20:00", &[0, 1, 2]),
            line("05 08:00", &[2]),
            line("05 20:00", &[2]),
        ]
    );
}

#[test]
fn onward_keeps_the_time_that_was_told() {
    let chicago = tz(CHICAGO);
    let twice = times(&["08:00", "20:00"]);
    // Given at 13:45 instead of 08:00, "then at 21:45".
    let given = instant("2031-04-03T18:45Z");
    let said = instant("2031-04-04T02:45Z");
    let rest = onward(
        &twelve(),
        &twice,
        &chicago,
        Some(given),
        said,
        date(2031, 4, 4),
    );
    assert_eq!(
        all_shown(&rest, &chicago),
        [
            "2031-04-03 21:45 -05",
            "2031-04-04 08:00 -05",
            "2031-04-04 20:00 -05",
        ]
    );
    let by = Lapse::from_mins(105);
    assert_eq!(rest[0].moved, Some(Moved::LeastGap { by }));
    assert_eq!(rest[0].nominal.time(), Time::constant(20, 0, 0, 0));
    assert_eq!(rest[0].since_last, Some(Lapse::from_hours(8)));
    assert_eq!(rest[1].moved, None);

    // A told time that is a regular one changes nothing.
    let evening = instant("2031-04-04T01:00Z");
    let rest = onward(&twelve(), &twice, &chicago, None, evening, date(2031, 4, 3));
    assert_eq!(rest.len(), 1);
    assert_eq!((rest[0].time_of_day, rest[0].moved), (Some(1), None));
}

#[test]
fn a_told_time_past_midnight_belongs_to_the_evening_before() {
    let chicago = tz(CHICAGO);
    let twice = times(&["08:00", "20:00"]);
    let said = instant("2031-04-04T06:30Z");
    // Also on the last day of the course.
    for last in [date(2031, 4, 3), date(2031, 4, 4)] {
        let rest = onward(&twelve(), &twice, &chicago, None, said, last);
        assert_eq!(shown(rest[0].at, &chicago), "2031-04-04 01:30 -05");
        assert_eq!(rest[0].nominal, date(2031, 4, 3).at(20, 0, 0, 0));
        assert_eq!(rest[0].time_of_day, Some(1));
    }
    let rest = onward(&twelve(), &twice, &chicago, None, said, date(2031, 4, 4));
    // 08:00 would be 6 hours and a half on.
    assert_eq!(shown(rest[1].at, &chicago), "2031-04-04 09:30 -05");
    assert_eq!(shown(rest[2].at, &chicago), "2031-04-04 20:00 -05");
    assert_eq!(rest.len(), 3);
}

#[test]
fn a_daily_dose_given_late_stays_late() {
    let chicago = tz(CHICAGO);
    let said = instant("2031-04-04T19:00Z");
    let rest = onward(
        &iodide(),
        &times(&["08:00"]),
        &chicago,
        Some(instant("2031-04-03T19:00Z")),
        said,
        date(2031, 4, 6),
    );
    assert_eq!(
        all_shown(&rest, &chicago),
        [
            "2031-04-04 14:00 -05",
            "2031-04-05 14:00 -05",
            "2031-04-06 14:00 -05",
        ]
    );
}

#[test]
fn missed_doses_can_lengthen_the_course() {
    let chicago = tz(CHICAGO);
    let twice = times(&["08:00", "20:00"]);
    let rounds = course(&twelve(), &twice, &chicago, Start::on(date(2031, 4, 3)), 60);
    let more = extra_rounds(&twelve(), &twice, &chicago, &rounds[119], 3);
    assert_eq!(
        all_shown(&more, &chicago),
        [
            "2031-06-02 08:00 -05",
            "2031-06-02 20:00 -05",
            "2031-06-03 08:00 -05",
        ]
    );
    assert_eq!(more[0].since_last, Some(Lapse::from_hours(12)));
    assert!(extra_rounds(&twelve(), &twice, &chicago, &rounds[119], 0).is_empty());
}
