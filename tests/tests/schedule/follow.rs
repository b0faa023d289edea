//! Somebody who forgets, remembers at any quarter of an hour, and does what is said.

use hearthdose_core::schedule::{
    Advice, Round, RoundTimes, Start, Timing, course, early, late_among, onward,
};
use jiff::civil::{Date, date};
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan};

use super::{eight, iodide, times, twelve, tz};

/// One household that takes every answer at its word.
pub struct Follower<'a> {
    pub order: Timing,
    pub times: &'a RoundTimes,
    pub zone: &'a TimeZone,
    pub last_day: Date,
    pub open: Vec<Round>,
    pub given: Vec<(Timestamp, Round)>,
    /// A clock time that was told and not yet come to.
    pub told: Option<Timestamp>,
}

impl<'a> Follower<'a> {
    pub fn new(
        order: Timing,
        times: &'a RoundTimes,
        zone: &'a TimeZone,
        start: Start,
        days: u32,
    ) -> Self {
        let open = course(&order, times, zone, start, days);
        Self {
            order,
            times,
            zone,
            last_day: start.date + i64::from(days - 1).days(),
            open,
            given: Vec::new(),
            told: None,
        }
    }

    fn last_dose(&self) -> Option<Timestamp> {
        self.given.last().map(|(at, _)| *at)
    }

    /// Asks about what is due, does it, and returns the answer.
    pub fn ask(&mut self, now: Timestamp) -> Option<Advice> {
        let asked = late_among(&self.order, self.last_dose(), &self.open, now)?;
        if self.told == Some(now) {
            let gives = matches!(asked.advice, Advice::GiveNow { .. });
            assert!(gives, "told to give at {now}, then {:?}", asked.advice);
        }
        self.act(asked.open, asked.advice, now);
        Some(asked.advice)
    }

    /// Asks to give the next round before its time.
    pub fn ask_early(&mut self, now: Timestamp) {
        let Some(due) = self.open.first().filter(|round| round.at > now) else {
            return;
        };
        let next = self.open.get(1).map(|round| round.at);
        let advice = early(&self.order, self.last_dose(), due.at, next, now);
        assert!(!matches!(advice, Advice::Skip { .. }), "{advice:?}");
        if !matches!(advice, Advice::Wait { .. }) {
            self.act(0, advice, now);
        }
    }

    fn act(&mut self, open: usize, advice: Advice, now: Timestamp) {
        let round = self.open[open];
        let next = match advice {
            Advice::Wait { until } => {
                assert!(until > now);
                self.told = Some(until);
                return;
            }
            Advice::GiveNow { then } => {
                self.give(round, now);
                then
            }
            Advice::Skip { next } => next,
        };
        self.told = next;
        let last = self.last_dose();
        self.open = match next {
            Some(next) => {
                assert!(next > now, "{next} is not ahead of {now}");
                onward(
                    &self.order,
                    self.times,
                    self.zone,
                    last,
                    next,
                    self.last_day,
                )
            }
            None => Vec::new(),
        };
    }

    fn give(&mut self, round: Round, now: Timestamp) {
        if let Some((before, earlier)) = self.given.last() {
            let gap = before.duration_until(now);
            assert!(gap >= self.order.least_gap, "{gap:#} before {now}");
            assert!(
                earlier.nominal < round.nominal,
                "{} given twice",
                round.nominal
            );
        }
        self.given.push((now, round));
    }
}

/// Forgets the first round after `start` for `late` quarters of an hour, then looks every quarter.
fn remember(order: Timing, texts: &[&str], zone: &str, start: Date, late: i64) {
    let (times, zone) = (times(texts), tz(zone));
    let mut follower = Follower::new(order, &times, &zone, Start::on(start), 4);
    let rounds = follower.open.len();
    let first = follower.open[0].at;
    follower.ask(first);
    let mut now = first + (15 * late).minutes();
    let mut doses_by_end = 1;
    while follower.ask(now).is_some() {
        now += 15.minutes();
        doses_by_end = follower.given.len();
    }
    // Whoever looks every quarter of an hour misses only rounds that were skipped while away.
    let away = usize::try_from(15 * late * 60).expect("a count")
        / usize::try_from(order.interval.as_secs()).expect("a count");
    assert!(doses_by_end <= rounds);
    assert!(
        doses_by_end + away + 1 >= rounds,
        "{doses_by_end} of {rounds}"
    );
}

#[test]
fn followed_from_every_quarter_of_an_hour_no_gap_is_short_and_no_dose_double() {
    let starts = [
        ("America/New_York", date(2026, 3, 6)),
        ("America/New_York", date(2026, 3, 7)),
        ("America/New_York", date(2026, 10, 30)),
        ("America/New_York", date(2026, 10, 31)),
        ("Europe/London", date(2026, 3, 28)),
        ("Europe/London", date(2026, 10, 24)),
        ("America/Vancouver", date(2026, 3, 7)),
        ("America/Vancouver", date(2026, 10, 31)),
        ("America/Edmonton", date(2026, 10, 31)),
        ("Africa/Casablanca", date(2026, 9, 19)),
        ("Africa/Casablanca", date(2026, 12, 1)),
        // Half an hour of clock change.
        ("Australia/Lord_Howe", date(2026, 4, 4)),
        ("Australia/Lord_Howe", date(2026, 10, 3)),
        ("America/Chicago", date(2031, 4, 3)),
    ];
    for (zone, start) in starts {
        for late in 0..=144 {
            remember(twelve(), &["08:00", "20:00"], zone, start, late);
            remember(twelve(), &["02:30", "14:00"], zone, start, late);
            remember(eight(), &["06:00", "14:00", "22:00"], zone, start, late);
            remember(eight(), &["01:30", "09:30", "17:30"], zone, start, late);
            remember(iodide(), &["08:00"], zone, start, late);
            remember(iodide(), &["01:30"], zone, start, late);
        }
    }
}
