//! Clock times, days and waits in words.

use fluent::FluentValue;
use hearthdose_core::units::Lapse;
use jiff::civil::{Date, Time};
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};

use super::Words;

/// A countdown is told in steps of so many seconds.
const COUNTDOWN_STEP: i64 = 5;

/// A time with its article: Spanish says "la 1:00 p. m.", and "las" before all other hours.
pub(super) fn with_article(values: &[FluentValue<'_>]) -> FluentValue<'static> {
    match values.first() {
        Some(FluentValue::String(time)) if time.starts_with("1:") => format!("la {time}").into(),
        Some(FluentValue::String(time)) => format!("las {time}").into(),
        _ => FluentValue::Error,
    }
}

impl Words {
    /// "7:48 p.m."
    pub fn clock(&self, at: Timestamp, zone: &TimeZone) -> String {
        self.time(zone.to_datetime(at).time())
    }

    pub fn time(&self, time: Time) -> String {
        let hour = time.hour();
        let twelve = if hour % 12 == 0 { 12 } else { hour % 12 };
        let minute = format!("{:02}", time.minute());
        let key = if hour < 12 {
            "time-before-noon"
        } else {
            "time-after-noon"
        };
        let values = [
            ("hour", twelve.to_string().into()),
            ("minute", minute.into()),
            ("hour24", hour.to_string().into()),
        ];
        self.say_with(key, &values)
    }

    /// "7:48 p.m. Friday", and only "7:48 p.m." on the day of `now`.
    pub fn clock_and_day(&self, at: Timestamp, zone: &TimeZone, now: Timestamp) -> String {
        let local = zone.to_datetime(at);
        if local.date() == zone.to_datetime(now).date() {
            return self.time(local.time());
        }
        self.say_with(
            "time-and-day",
            &[
                ("time", self.time(local.time()).into()),
                ("day", self.weekday(local.date()).into()),
            ],
        )
    }

    pub fn weekday(&self, date: Date) -> String {
        self.say(&format!(
            "weekday-{}",
            date.weekday().to_monday_one_offset()
        ))
    }

    /// "Thu", where there is room for no more.
    pub fn short_weekday(&self, date: Date) -> String {
        let day = date.weekday().to_monday_one_offset();
        self.say(&format!("weekday-short-{day}"))
    }

    /// "Thursday, April 3".
    pub fn date(&self, date: Date) -> String {
        let month = self.say(&format!("month-{}", date.month()));
        let values = [
            ("weekday", self.weekday(date).into()),
            ("month", month.into()),
            ("day", date.day().to_string().into()),
        ];
        self.say_with("date-line", &values)
    }

    /// "Thu, April 3", for narrow places.
    pub fn short_date(&self, date: Date) -> String {
        let month = self.say(&format!("month-{}", date.month()));
        let values = [
            ("weekday", self.short_weekday(date).into()),
            ("month", month.into()),
            ("day", date.day().to_string().into()),
        ];
        self.say_with("date-line", &values)
    }

    /// "Thursday, July 19, 2028".
    pub fn long_date(&self, date: Date) -> String {
        let values = [
            ("date", self.date(date).into()),
            ("year", date.year().to_string().into()),
        ];
        self.say_with("date-and-year", &values)
    }

    /// "4 min 40 s left", in steps of five seconds, never less than is really left.
    pub fn countdown(&self, left: SignedDuration) -> String {
        let seconds = left.as_secs() + i64::from(left.subsec_nanos() > 0);
        let steps =
            seconds.max(0).saturating_add(COUNTDOWN_STEP - 1) / COUNTDOWN_STEP * COUNTDOWN_STEP;
        let (minutes, rest) = (steps / 60, steps % 60);
        match (minutes, rest) {
            (0, rest) => self.say_with("left-seconds", &[("seconds", rest.to_string().into())]),
            (minutes, 0) => {
                self.say_with("left-minutes", &[("minutes", minutes.to_string().into())])
            }
            (minutes, rest) => self.say_with(
                "left-both",
                &[
                    ("minutes", minutes.to_string().into()),
                    ("seconds", rest.to_string().into()),
                ],
            ),
        }
    }

    /// "25 minutes", "1 hour 5 minutes", "10 minutes".
    pub fn minutes(&self, length: SignedDuration) -> String {
        let all = u64::try_from((length.as_secs() + 59) / 60).unwrap_or(0);
        let (hours, minutes) = (all / 60, all % 60);
        match (hours, minutes) {
            (0, minutes) => self.say_with("length-minutes", &[("count", minutes.into())]),
            (hours, 0) => self.say_with("length-hours", &[("count", hours.into())]),
            (hours, minutes) => {
                let hours = self.say_with("length-hours", &[("count", hours.into())]);
                let minutes = self.say_with("length-minutes", &[("count", minutes.into())]);
                format!("{hours} {minutes}")
            }
        }
    }

    /// "1 day", "60 days".
    pub fn days(&self, days: u64) -> String {
        self.say_with("length-days", &[("count", days.into())])
    }

    /// A length of time as orders give it, to the second: "24 hours", "1 hour 30 minutes", "7 days".
    pub fn lapse(&self, lapse: Lapse) -> String {
        const DAY: u64 = 86_400;
        let seconds = lapse.as_secs().unsigned_abs();
        // One day alone is told in hours, as doses are.
        let days = if seconds >= 2 * DAY { seconds / DAY } else { 0 };
        let rest = seconds - days * DAY;
        let mut parts = Vec::new();
        if days > 0 {
            parts.push(self.days(days));
        }
        for (count, key) in [
            (rest / 3_600, "length-hours"),
            (rest % 3_600 / 60, "length-minutes"),
            (rest % 60, "length-seconds"),
        ] {
            if count > 0 {
                parts.push(self.say_with(key, &[("count", count.into())]));
            }
        }
        if parts.is_empty() {
            parts.push(self.say("length-none"));
        }
        parts.join(" ")
    }

    /// "morning round", "night round", inside a sentence.
    pub fn round_in_sentence(&self, at: Timestamp, zone: &TimeZone) -> String {
        let name = self.round_name(at, zone);
        let mut letters = name.chars();
        letters.next().map_or(String::new(), |first| {
            first.to_lowercase().chain(letters).collect()
        })
    }

    /// "Morning round", "Night round": by the hour at which it is.
    pub fn round_name(&self, at: Timestamp, zone: &TimeZone) -> String {
        self.round_at(zone.to_datetime(at).time())
    }

    /// The same for a time of day.
    pub fn round_at(&self, time: Time) -> String {
        let key = match time.hour() {
            3..=11 => "round-morning",
            12..=16 => "round-afternoon",
            _ => "round-night",
        };
        self.say(key)
    }
}
