//! Six digits of a date on a package.

use jiff::civil::Date;

/// Reads YYMMDD; day 00 stands for the last day of the month.
///
/// The century is the one that puts the year between 49 years before and 50 years after `year` (General Specifications 7.12).
/// None when the digits are no date.
pub fn day(digits: &str, year: i16) -> Option<Date> {
    if digits.len() != 6 || !digits.bytes().all(|byte| byte.is_ascii_digit()) {
        return None;
    }
    let short: i16 = digits.get(..2)?.parse().ok()?;
    let month: i8 = digits.get(2..4)?.parse().ok()?;
    let day: i8 = digits.get(4..)?.parse().ok()?;
    let full = full_year(short, year)?;
    if day == 0 {
        Some(Date::new(full, month, 1).ok()?.last_of_month())
    } else {
        Date::new(full, month, day).ok()
    }
}

/// Whether the digits hhmm are a time of day.
pub fn is_time(digits: &str) -> bool {
    let part = |range| {
        digits
            .get(range)
            .and_then(|part: &str| part.parse::<u8>().ok())
    };
    matches!((part(0..2), part(2..4)), (Some(hour), Some(minute)) if hour < 24 && minute < 60)
}

fn full_year(short: i16, year: i16) -> Option<i16> {
    let century = year.checked_sub(year.rem_euclid(100))?;
    let same = century.checked_add(short)?;
    let ahead = same.checked_sub(year)?;
    if ahead > 50 {
        same.checked_sub(100)
    } else if ahead < -49 {
        same.checked_add(100)
    } else {
        Some(same)
    }
}
