//! Days that are typed as three numbers: a birth date, of which the day may be left out, and others.
//!
//! Without the day the last of the month counts: nobody is taken for older than they are. The screen says so.
//! Where each day may matter, in the first months and where the chart goes by age, the day is asked for.

use hearthdose_core::order::{CheckedOrder, Measure};
use hearthdose_core::units::Age;
use jiff::civil::Date;

use super::SetUp;
use super::person::BABY;
use crate::vm::Kitchen;
use crate::vm::typing::Typing;
use crate::vm::view::Note;

/// What the three numbers say.
pub(super) enum Typed {
    /// Not all numbers are there yet.
    Nothing,
    /// No day of the calendar, or one that is to come.
    Unread,
    Day(Date),
    /// The last day of a month.
    Month(Date),
    /// Only a month, where the day matters.
    DayNeeded,
}

impl Typed {
    pub fn date(&self) -> Option<Date> {
        match self {
            Typed::Day(date) | Typed::Month(date) => Some(*date),
            Typed::Nothing | Typed::Unread | Typed::DayNeeded => None,
        }
    }
}

impl Kitchen {
    /// A date from three numbers in the order in which this language writes them.
    pub(in crate::vm) fn date_of(&self, typing: &Typing) -> Option<Date> {
        let [month, day, year] = self.in_order(typing);
        if year.len() != 4 {
            return None;
        }
        Date::new(year.parse().ok()?, month.parse().ok()?, day.parse().ok()?).ok()
    }

    /// Month, day and year as they were typed.
    fn in_order<'a>(&self, typing: &'a Typing) -> [&'a str; 3] {
        let (first, second, year) = (typing.get(0), typing.get(1), typing.get(2));
        if self.day_first() {
            [second, first, year]
        } else {
            [first, second, year]
        }
    }

    pub(in crate::vm) fn day_first(&self) -> bool {
        self.words.say("date-day-first") == "yes"
    }

    /// What was typed for a birth date.
    pub(super) fn typed_birth(&self, set_up: &SetUp, today: Date) -> Typed {
        let typing = &set_up.typing;
        let [month, day, year] = self.in_order(typing);
        if year.len() != 4 || month.is_empty() {
            return Typed::Nothing;
        }
        if !day.is_empty() {
            let date = self.date_of(typing).filter(|date| *date <= today);
            return date.map_or(Typed::Unread, Typed::Day);
        }
        let first = year
            .parse()
            .ok()
            .zip(month.parse().ok())
            .and_then(|(year, month)| Date::new(year, month, 1).ok());
        match first {
            Some(first) if first <= today => self.month_of(first.last_of_month(), today),
            _ => Typed::Unread,
        }
    }

    fn month_of(&self, last: Date, today: Date) -> Typed {
        let age = Age::Born {
            born: last,
            on: today,
        };
        if self.day_counts() || !age.reached(BABY) {
            Typed::DayNeeded
        } else {
            Typed::Month(last)
        }
    }

    /// Whether the day of birth matters at every age.
    pub(super) fn day_counts(&self) -> bool {
        let open = self.open.as_ref();
        open.is_none_or(|open| goes_by_age(&open.order))
    }

    /// What is said below a typed birth date.
    pub(super) fn birth_note(&self, typed: &Typed) -> Option<Note> {
        let words = &self.words;
        match typed {
            Typed::Nothing => None,
            Typed::Unread => Some(self.date_unread()),
            Typed::Day(date) => Some(Note::new(self.long_date(*date), String::new(), None)),
            Typed::Month(date) => Some(Note::new(
                self.long_date(*date),
                words.say("birth-month-only"),
                None,
            )),
            Typed::DayNeeded => Some(Note::new(
                words.say("birth-day-needed"),
                words.say("birth-day-needed-body"),
                None,
            )),
        }
    }

    /// The day that was typed in words, or how to type it when what stands there is none.
    pub(in crate::vm) fn date_note(&self, typing: &Typing, date: Option<Date>) -> Option<Note> {
        let whole =
            typing.get(2).len() == 4 && !typing.get(0).is_empty() && !typing.get(1).is_empty();
        match date {
            Some(date) => Some(Note::new(self.long_date(date), String::new(), None)),
            None => whole.then(|| self.date_unread()),
        }
    }

    fn date_unread(&self) -> Note {
        let words = &self.words;
        Note::new(
            words.say("date-unread"),
            words.say("date-unread-body"),
            None,
        )
    }
}

/// Whether a day of age may move somebody to another row.
fn goes_by_age(order: &CheckedOrder) -> bool {
    let mut limits = order.rows.iter().flat_map(|row| [&row.from, &row.to]);
    limits.any(|limit| matches!(limit, Some(limit) if matches!(limit.at, Measure::Age(_))))
}
