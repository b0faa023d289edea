//! Instants and days as whole numbers.

use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{Span, Timestamp, Unit};

use super::cbor::{Value, whole};

/// An instant cut to its minute, which is as fine as any message says it.
pub fn minute(at: Timestamp) -> Timestamp {
    let seconds = at.as_second();
    Timestamp::from_second(seconds.saturating_sub(seconds.rem_euclid(60))).unwrap_or(at)
}

/// Minutes since 1970; none before that.
pub(super) fn minutes(at: Timestamp) -> Option<u64> {
    u64::try_from(at.as_second().div_euclid(60)).ok()
}

pub(super) fn from_minutes(minutes: u64) -> Option<Timestamp> {
    let minutes = i64::try_from(minutes).ok()?;
    Timestamp::from_second(minutes.checked_mul(60)?).ok()
}

/// The day of an instant at longitude zero, from which other days are counted.
fn day(at: Timestamp) -> Date {
    TimeZone::UTC.to_datetime(at).date()
}

/// How many days before the day of `at`; later days are below zero.
pub(super) fn days_before(at: Timestamp, then: Date) -> Option<i64> {
    let span = then.until((Unit::Day, day(at))).ok()?;
    Some(i64::from(span.get_days()))
}

pub(super) fn day_before(at: Timestamp, days: i64) -> Option<Date> {
    let span = Span::new().try_days(days).ok()?;
    day(at).checked_sub(span).ok()
}

/// A day as eight digits YYYYMMDD.
pub(super) fn date_value(date: Date) -> Value {
    let part = |number: i64| u64::try_from(number).unwrap_or_default();
    let (year, month, day) = (date.year(), date.month(), date.day());
    let number = i64::from(year) * 10_000 + i64::from(month) * 100 + i64::from(day);
    Value::Whole(part(number))
}

pub(super) fn date(value: &Value) -> Option<Date> {
    let number: u64 = whole(value)?;
    let year = i16::try_from(number / 10_000).ok()?;
    let month = i8::try_from(number / 100 % 100).ok()?;
    let day = i8::try_from(number % 100).ok()?;
    Date::new(year, month, day).ok()
}
