//! The household's own times of day: `08:00` and `20:00`.
//!
//! Always at least one, sorted, no two alike, whole minutes.

use jiff::civil::Time;

use super::refusal::{Refusal, clock};
use super::timing::Timing;
use crate::units::Lapse;

/// Times of day of the rounds, earliest first.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RoundTimes(Vec<Time>);

impl RoundTimes {
    /// Reads times of day as a household writes them, in any order.
    ///
    /// Exactly `HH:MM` on the 24-hour clock: a bare `8` or `8 pm` could be taken two ways.
    ///
    /// # Errors
    /// The first of: none given, one that is no time of day, one given twice.
    pub fn parse<S: AsRef<str>>(texts: &[S]) -> Result<Self, Refusal> {
        let mut times = Vec::with_capacity(texts.len());
        for text in texts {
            let text = text.as_ref();
            let time = time_of_day(text).ok_or_else(|| Refusal::UnreadableTime {
                text: text.to_owned(),
            })?;
            times.push(time);
        }
        if times.is_empty() {
            return Err(Refusal::NoRounds);
        }
        times.sort_unstable();
        match times.windows(2).find(|pair| pair.first() == pair.last()) {
            Some(pair) => Err(Refusal::RoundTwice {
                time: pair.first().copied().unwrap_or_default(),
            }),
            None => Ok(Self(times)),
        }
    }

    /// Reads the times and holds them against the order.
    ///
    /// # Errors
    /// As [`RoundTimes::parse`]; else every reason of [`RoundTimes::check`].
    pub fn for_order<S: AsRef<str>>(texts: &[S], timing: &Timing) -> Result<Self, Vec<Refusal>> {
        let times = Self::parse(texts).map_err(|refusal| vec![refusal])?;
        let refusals = times.check(timing);
        if refusals.is_empty() {
            Ok(times)
        } else {
            Err(refusals)
        }
    }

    /// Every reason why these times cannot serve this order; none when they can.
    pub fn check(&self, timing: &Timing) -> Vec<Refusal> {
        let mut refusals = Vec::new();
        match rounds_a_day(timing.interval) {
            None => refusals.push(Refusal::IntervalNotDaily {
                interval: timing.interval,
            }),
            Some(wanted) if wanted != self.0.len() => refusals.push(Refusal::RoundsAndInterval {
                interval: timing.interval,
                wanted,
                given: self.0.len(),
            }),
            Some(_) => {}
        }
        for (from, to, gap) in self.spacings() {
            if gap < timing.least_gap {
                refusals.push(Refusal::RoundsTooClose {
                    from,
                    to,
                    gap,
                    least: timing.least_gap,
                });
            }
            if gap <= timing.skip_if_next_within {
                refusals.push(Refusal::NoRoomForLate {
                    from,
                    to,
                    gap,
                    within: timing.skip_if_next_within,
                });
            }
        }
        refusals
    }

    /// How many rounds a day has.
    pub fn a_day(&self) -> usize {
        self.0.len()
    }

    /// The times of day, earliest first.
    pub fn iter(&self) -> impl Iterator<Item = Time> + '_ {
        self.0.iter().copied()
    }

    /// The time of day with this number, counted from 0 for the earliest.
    pub fn get(&self, index: usize) -> Option<Time> {
        self.0.get(index).copied()
    }

    /// Each round, the one after it, and the wall-clock time between; the last pair runs over midnight.
    fn spacings(&self) -> impl Iterator<Item = (Time, Time, Lapse)> + '_ {
        let after = self.iter().skip(1).chain(self.iter().take(1));
        self.iter().zip(after).map(|(from, to)| {
            let gap = from.duration_until(to);
            let gap = if gap > Lapse::ZERO {
                gap
            } else {
                gap.saturating_add(DAY)
            };
            (from, to, gap)
        })
    }
}

impl std::fmt::Display for RoundTimes {
    /// `08:00, 20:00`
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let times: Vec<String> = self.iter().map(clock).collect();
        f.write_str(&times.join(", "))
    }
}

const DAY: Lapse = Lapse::from_hours(24);

/// Rounds that an interval makes in 24 hours, if it is the same times each day.
fn rounds_a_day(interval: Lapse) -> Option<usize> {
    let (day, interval) = (DAY.as_millis(), interval.as_millis());
    if interval <= 0 || day % interval != 0 {
        return None;
    }
    usize::try_from(day / interval).ok()
}

fn time_of_day(text: &str) -> Option<Time> {
    let (hour, minute) = text.split_once(':')?;
    let two_digits = |part: &str| {
        let fits = part.len() == 2 && part.bytes().all(|byte| byte.is_ascii_digit());
        fits.then(|| part.parse::<i8>().ok()).flatten()
    };
    Time::new(two_digits(hour)?, two_digits(minute)?, 0, 0).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::order::FirstDose;

    fn timing(interval: i64, least_gap: i64, skip: i64) -> Timing {
        Timing {
            interval: Lapse::from_hours(interval),
            least_gap: Lapse::from_hours(least_gap),
            skip_if_next_within: Lapse::from_hours(skip),
            first_gap: Lapse::from_hours(least_gap),
            first_dose: FirstDose::Now,
        }
    }

    fn codes(texts: &[&str], timing: &Timing) -> Vec<&'static str> {
        match RoundTimes::for_order(texts, timing) {
            Ok(_) => Vec::new(),
            Err(refusals) => refusals.iter().map(Refusal::code).collect(),
        }
    }

    #[test]
    fn times_are_sorted_however_they_were_typed() {
        let times = RoundTimes::parse(&["20:00", "08:00"]).unwrap();
        assert_eq!(times.to_string(), "08:00, 20:00");
        assert_eq!(times.a_day(), 2);
        assert_eq!(times.get(1), Some(Time::constant(20, 0, 0, 0)));
        assert_eq!(times.get(2), None);
    }

    #[test]
    fn only_two_digits_colon_two_digits_is_a_time() {
        for text in [
            "",
            "8",
            "8:00",
            "08:0",
            "08:00:00",
            "24:00",
            "08:60",
            "+8:00",
            "8 pm",
            " 08:00",
            "08.00",
            "-1:00",
            "٠٨:٠٠",
        ] {
            let refusal = RoundTimes::parse(&[text]).unwrap_err();
            assert_eq!(refusal.code(), "unreadable-round-time", "{text:?}");
        }
        assert_eq!(
            RoundTimes::parse::<&str>(&[]).unwrap_err().code(),
            "no-rounds"
        );
        assert_eq!(
            RoundTimes::parse(&["08:00", "20:00", "08:00"])
                .unwrap_err()
                .code(),
            "round-twice"
        );
    }

    #[test]
    fn an_interval_wants_its_number_of_rounds() {
        assert_eq!(codes(&["08:00", "20:00"], &timing(12, 8, 6)), [""; 0]);
        assert_eq!(codes(&["00:00"], &timing(24, 24, 6)), [""; 0]);
        assert_eq!(
            codes(&["06:00", "14:00", "22:00"], &timing(8, 6, 4)),
            [""; 0]
        );
        let disagree = ["rounds-and-interval-disagree"];
        assert_eq!(codes(&["08:00"], &timing(12, 8, 6)), disagree);
        assert_eq!(codes(&["08:00", "20:00"], &timing(8, 6, 4)), disagree);
        for interval in [0, 7, 48] {
            assert_eq!(
                codes(&["08:00"], &timing(interval, 6, 4)),
                ["interval-not-daily"]
            );
        }
    }

    #[test]
    fn rounds_keep_the_least_gap_also_over_midnight() {
        assert_eq!(codes(&["07:00", "15:00"], &timing(12, 8, 6)), [""; 0]);
        assert_eq!(
            codes(&["07:00", "14:59"], &timing(12, 8, 6)),
            ["rounds-too-close"]
        );
        let refusals = RoundTimes::for_order(&["03:59", "20:00"], &timing(12, 8, 6)).unwrap_err();
        assert_eq!(
            refusals[0].to_string(),
            "from 20:00 to 03:59 is 7 h 59 min; doses must be at least 8 h apart"
        );
        assert_eq!(codes(&["08:00"], &timing(24, 25, 6)), ["rounds-too-close"]);
    }

    #[test]
    fn a_round_leaves_room_for_a_late_dose() {
        assert_eq!(
            codes(&["08:00", "16:00"], &timing(12, 8, 8)),
            ["rounds-leave-no-room-for-late"]
        );
    }
}
