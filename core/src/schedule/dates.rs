//! The dates of a course: its last day, and when more medicine must be there.

use jiff::civil::Date;

/// The last day of so many calendar days, the start date being day 1.
///
/// None for no days at all, or beyond the calendar.
pub fn last_day(start: Date, days: u32) -> Option<Date> {
    let more = days.checked_sub(1)?;
    start
        .checked_add(jiff::Span::new().try_days(more).ok()?)
        .ok()
}

/// The last day that a supply of so many days serves: more is collected on it or before, because the next morning's dose has none.
///
/// None when the supply reaches the end of the course, when there is none, or beyond the calendar.
pub fn refill_date(start: Date, supply_days: u32, course_days: u32) -> Option<Date> {
    if supply_days >= course_days {
        return None;
    }
    last_day(start, supply_days)
}

/// The same from what is really in the house: the day of the last round that the tablets (or packs, or millilitres) still serve.
///
/// `needs` are the rounds in order with what each one uses up. If not even the first can be served, its own day.
/// None when there is enough for all.
pub fn refill_by(needs: &[(Date, u64)], in_the_house: u64) -> Option<Date> {
    let mut left = in_the_house;
    let mut served = needs.first()?.0;
    for (date, need) in needs {
        left = match left.checked_sub(*need) {
            Some(left) => left,
            None => return Some(served),
        };
        served = *date;
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    #[test]
    fn day_one_is_the_start() {
        assert_eq!(last_day(date(2031, 4, 3), 1), Some(date(2031, 4, 3)));
        // 28 days of April after the 2nd, 31 of May, 1 of June.
        assert_eq!(last_day(date(2031, 4, 3), 60), Some(date(2031, 6, 1)));
        assert_eq!(last_day(date(2031, 4, 3), 0), None);
        assert_eq!(last_day(date(9999, 12, 31), 2), None);
        assert_eq!(last_day(date(2031, 4, 3), u32::MAX), None);
    }

    #[test]
    fn refill_is_on_the_last_served_day() {
        let start = date(2031, 4, 3);
        assert_eq!(refill_date(start, 10, 60), Some(date(2031, 4, 12)));
        assert_eq!(refill_date(start, 60, 60), None);
        assert_eq!(refill_date(start, 0, 60), None);
    }

    #[test]
    fn refill_counts_what_each_round_uses() {
        let (first, second) = (date(2031, 4, 3), date(2031, 4, 4));
        // Tablets go in the mornings; the evenings live from the same bowls.
        let needs = [(first, 2), (first, 0), (second, 2), (second, 0)];
        assert_eq!(refill_by(&needs, 4), None);
        assert_eq!(refill_by(&needs, 3), Some(first));
        assert_eq!(refill_by(&needs, 0), Some(first));
        assert_eq!(refill_by(&[(first, 1), (second, 1)], 1), Some(first));
        assert_eq!(refill_by(&[], 0), None);
    }
}
