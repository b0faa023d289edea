//! Days of the calendar, counted one by one.

use std::cell::RefCell;
use std::cmp::Ordering;
use std::collections::BTreeMap;

/// A date.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Day {
    pub year: i64,
    pub month: i64,
    pub day: i64,
}

/// A length of age.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Length {
    pub months: i64,
    pub days: i64,
}

impl Length {
    /// Reads `3 y 2 mo`, `6 wk`, `20 d`.
    pub fn read(text: &str) -> Option<Length> {
        let mut length = Length { months: 0, days: 0 };
        let words: Vec<&str> = text.split_whitespace().collect();
        for pair in words.chunks(2) {
            let [number, unit] = pair else { return None };
            let number: i64 = number.parse().ok()?;
            match *unit {
                "y" => length.months += 12 * number,
                "mo" => length.months += number,
                "wk" => length.days += 7 * number,
                "d" => length.days += number,
                _ => return None,
            }
        }
        Some(length)
    }
}

impl Day {
    pub fn new(year: i64, month: i64, day: i64) -> Day {
        Day { year, month, day }
    }

    /// The day on which somebody born on this day reaches `length`: months first, a missing day being the last of its month, then days.
    pub fn after(self, length: Length) -> Day {
        let months = self.month - 1 + length.months;
        let (year, month) = (self.year + months.div_euclid(12), months.rem_euclid(12) + 1);
        let day = self.day.min(days_in(year, month));
        let reached = Day { year, month, day };
        if length.days == 0 {
            reached
        } else {
            reached.moved(length.days)
        }
    }

    pub fn moved(self, days: i64) -> Day {
        from_number(self.number() + days)
    }

    /// Days since 1 January of the year 1.
    pub fn number(self) -> i64 {
        let before = self.year - 1;
        let leaps = before.div_euclid(4) - before.div_euclid(100) + before.div_euclid(400);
        let months: i64 = (1..self.month).map(|month| days_in(self.year, month)).sum();
        365 * before + leaps + months + self.day - 1
    }
}

fn from_number(number: i64) -> Day {
    // Never after the year sought: 146,097 days are 400 years.
    let mut day = Day::new(number * 400 / 146_097, 1, 1);
    while Day::new(day.year + 1, 1, 1).number() <= number {
        day.year += 1;
    }
    while day.month < 12 && Day::new(day.year, day.month + 1, 1).number() <= number {
        day.month += 1;
    }
    day.day = 1 + number - day.number();
    day
}

fn days_in(year: i64, month: i64) -> i64 {
    let leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    match month {
        2 if leap => 29,
        2 => 28,
        4 | 6 | 9 | 11 => 30,
        _ => 31,
    }
}

thread_local! {
    static KNOWN: RefCell<BTreeMap<(Length, Length), Ordering>> = const { RefCell::new(BTreeMap::new()) };
}

/// A told length held against a limit: reached only when it is reached whatever the birthday.
///
/// Five years of birthdays are tried, so that each place of the leap day occurs. Birthdays from the
/// 1st to the 28th meet no missing day and all count alike, so the 1st stands for them.
pub fn surely(told: Length, limit: Length) -> Ordering {
    if let Some(known) = KNOWN.with_borrow(|known| known.get(&(told, limit)).copied()) {
        return known;
    }
    let months = (2021..=2025).flat_map(|year| (1..=12).map(move |month| (year, month)));
    let born = months.flat_map(|(year, month)| {
        let days = [1, 29, 30, 31].into_iter();
        days.filter(move |day| *day <= days_in(year, month))
            .map(move |day| Day::new(year, month, day))
    });
    let passed = born.map(|born| born.after(told).number() - born.after(limit).number());
    let least = passed.min().expect("some birthday");
    let found = least.cmp(&0);
    KNOWN.with_borrow_mut(|known| known.insert((told, limit), found));
    found
}
