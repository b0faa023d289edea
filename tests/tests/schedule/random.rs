//! Random zones, dates, times and habits.

use std::sync::LazyLock;

use hearthdose_core::order::FirstDose;
use hearthdose_core::schedule::{Moved, Round, RoundTimes, Start, Timing, course, zone};
use hearthdose_core::units::Lapse;
use jiff::civil::{Date, DateTime, date};
use jiff::tz::{TimeZone, TimeZoneDatabase};
use jiff::{Timestamp, ToSpan};
use proptest::prelude::*;
use proptest::sample::Index;

use super::follow::Follower;

static ZONES: LazyLock<Vec<String>> = LazyLock::new(|| {
    let all = TimeZoneDatabase::bundled();
    let names = all.available().map(|name| name.to_string());
    names.filter(|name| zone(name).is_ok()).collect()
});

/// An order with round times that suit it, in minutes of the day.
fn order_and_times() -> impl Strategy<Value = (Timing, RoundTimes)> {
    (
        1usize..=4,
        0i64..1440,
        1i64..=100,
        0i64..=100,
        any::<bool>(),
    )
        .prop_map(|(a_day, first, least, skip, now)| {
            let interval = 1440 / i64::try_from(a_day).expect("a small count");
            let least_gap = (interval * least / 100).max(1);
            let timing = Timing {
                interval: Lapse::from_mins(interval),
                least_gap: Lapse::from_mins(least_gap),
                // The room that a day shortened by a clock change must leave.
                skip_if_next_within: Lapse::from_mins((interval - 61) * skip / 100),
                first_gap: Lapse::from_mins(least_gap),
                first_dose: if now {
                    FirstDose::Now
                } else {
                    FirstDose::NextRound
                },
            };
            let texts: Vec<String> = (0..a_day)
                .map(|round| {
                    let minute =
                        (first + interval * i64::try_from(round).expect("a small count")) % 1440;
                    format!("{:02}:{:02}", minute / 60, minute % 60)
                })
                .collect();
            let times = RoundTimes::for_order(&texts, &timing).expect("times that suit the order");
            (timing, times)
        })
}

/// Days from 1990 to 2060, as often as not around the clock changes of the zone.
fn place() -> impl Strategy<Value = (TimeZone, Date)> {
    (any::<Index>(), 0i64..25_600, any::<bool>(), 0i64..4).prop_map(
        |(name, day, change, before)| {
            let zone = zone(name.get::<String>(&ZONES)).expect("a zone");
            let day = date(1990, 1, 1) + day.days();
            let from = zone.to_timestamp(day.at(0, 0, 0, 0)).expect("an instant");
            let next = zone.following(from).next().filter(|_| change);
            let day = match next.map(|change| zone.to_datetime(change.timestamp()).date()) {
                Some(changes) if changes < date(2060, 1, 1) => changes - before.days(),
                _ => day,
            };
            (zone, day)
        },
    )
}

/// All instants at which clocks show this time, found by trying the offsets of the days around.
fn occurrences(zone: &TimeZone, shown: DateTime) -> Vec<Timestamp> {
    let as_utc = TimeZone::UTC.to_timestamp(shown).expect("an instant");
    let mut found: Vec<Timestamp> = (-52..=52)
        .map(|half_hours| zone.to_offset(as_utc + (30 * half_hours).minutes()))
        .map(|offset| as_utc - i64::from(offset.seconds()).seconds())
        .filter(|at| zone.to_datetime(*at) == shown)
        .collect();
    found.sort();
    found.dedup();
    found
}

/// By how many seconds the offset differs within these days, the one before and the two after.
fn largest_change(zone: &TimeZone, from: Timestamp, days: u32) -> i32 {
    let hours = -24..=i64::from(days + 2) * 24;
    let offsets = hours.map(|hour| zone.to_offset(from + hour.hours()).seconds());
    let (least, most) = offsets.fold((i32::MAX, i32::MIN), |(least, most), offset| {
        (least.min(offset), most.max(offset))
    });
    most - least
}

/// Holds one round against what clocks show and against the round before it.
fn check_round(timing: &Timing, zone: &TimeZone, before: Option<Timestamp>, round: &Round) {
    assert_eq!(
        round.since_last,
        before.map(|before| before.duration_until(round.at))
    );
    let gap_kept =
        |at: Timestamp| before.is_none_or(|before| before.duration_until(at) >= timing.least_gap);
    assert!(gap_kept(round.at), "{round:?}");
    let shown = occurrences(zone, round.nominal);
    match round.moved {
        None if round.time_of_day.is_none() => assert!(shown.contains(&round.at)),
        None => assert_eq!(shown.first(), Some(&round.at)),
        Some(Moved::SecondOfTwo) => {
            assert_eq!(shown.get(1), Some(&round.at));
            assert!(!gap_kept(shown[0]));
        }
        Some(Moved::ClockSkipped { by }) => {
            assert!(shown.is_empty());
            let clock = zone.to_datetime(round.at);
            assert_eq!(round.nominal.duration_until(clock), by);
        }
        Some(Moved::LeastGap { by }) => {
            assert_eq!(round.since_last, Some(timing.least_gap));
            assert!(by.is_positive());
            assert!(shown.iter().all(|at| !gap_kept(*at)));
            if let Some(first) = shown.first() {
                assert_eq!(first.duration_until(round.at), by);
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(400) })]

    #[test]
    fn rounds_hold_the_wall_clock_and_the_least_gap(
        (timing, times) in order_and_times(),
        (zone, day) in place(),
        days in 1u32..12,
        after in proptest::option::of(0i64..1500),
    ) {
        let midnight = zone.to_timestamp(day.at(0, 0, 0, 0)).unwrap();
        let start = match after {
            Some(minutes) => Start { date: day, first_at: Some(midnight + minutes.minutes()) },
            None => Start::on(day),
        };
        let rounds = course(&timing, &times, &zone, start, days);
        let last = day + i64::from(days - 1).days();
        let mut before = None;
        for (index, round) in rounds.iter().enumerate() {
            prop_assert_eq!(round.index, index);
            prop_assert!(day <= round.nominal.date() && round.nominal.date() <= last);
            prop_assert_eq!(round.time_of_day.is_none(), round.time_of_day.and_then(|i| times.get(i)) != Some(round.nominal.time()));
            check_round(&timing, &zone, before, round);
            before = Some(round.at);
        }
        let most = times.a_day() * usize::try_from(days).unwrap();
        prop_assert!(rounds.len() <= most + 1);
        // Where clocks move by an hour at most, and the gaps leave room for it, no round is ever left out.
        let tight = timing.least_gap > timing.interval - Lapse::from_mins(61);
        if after.is_none() && !tight && largest_change(&zone, midnight, days) <= 3_600 {
            prop_assert_eq!(rounds.len(), most);
        }
    }

    #[test]
    fn whoever_follows_the_answers_keeps_every_gap(
        (timing, times) in order_and_times(),
        (zone, day) in place(),
        looks in proptest::collection::vec((1i64..1200, 0u8..4), 1..40),
    ) {
        let mut follower = Follower::new(timing, &times, &zone, Start::on(day), 8);
        let rounds = follower.open.len();
        let mut now = zone.to_timestamp(day.at(0, 0, 0, 0)).unwrap();
        for (minutes, habit) in looks {
            match (habit, follower.told) {
                // Comes exactly when told.
                (0, Some(told)) if told > now => now = told,
                _ => now += minutes.minutes(),
            }
            if habit == 1 {
                follower.ask_early(now);
            } else {
                follower.ask(now);
            }
        }
        prop_assert!(follower.given.len() <= rounds);
    }
}
