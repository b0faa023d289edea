//! Ages, by the calendar.
//!
//! Someone reaches an age on the date, not after a number of days; someone born on 29 February reaches a year on 28 February.
//! Where only a length was told ("20 days") and the limit is in months, the person counts as having reached it only when every calendar would agree: one month is then 31 days.
//! That errs towards the younger side, which is the smaller dose and the earlier hold.

use std::cmp::Ordering;

use jiff::civil::Date;
use jiff::{Span, Unit};

use super::quantity::{self, QuantityError, QuantityProblem};

/// A length of age in whole months and days.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct AgeSpan {
    pub months: u32,
    pub days: u32,
}

/// What is known about somebody's age on the day of the dose.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Age {
    Born {
        born: Date,
        on: Date,
    },
    Told(AgeSpan),
    /// Said to be an adult, no date known: counts as 18 years and a day.
    Adult,
}

const OLDEST_MONTHS: u64 = 150 * 12;
/// Most days that so many months in a row can have, for 0 to 12 months.
const MOST_DAYS: [u32; 13] = [0, 31, 62, 92, 123, 153, 184, 215, 245, 276, 306, 337, 366];
/// Fewest days that so many months in a row can have, for 0 to 12 months.
const FEWEST_DAYS: [u32; 13] = [0, 28, 59, 89, 120, 150, 181, 212, 242, 273, 303, 334, 365];

impl AgeSpan {
    pub const fn years(years: u32) -> AgeSpan {
        AgeSpan {
            months: years * 12,
            days: 0,
        }
    }

    pub const fn days(days: u32) -> AgeSpan {
        AgeSpan { months: 0, days }
    }

    /// Reads `3 y 2 mo`, `1 mo`, `20 d`, `6 wk`.
    ///
    /// # Errors
    /// See [`QuantityError`]; more than 150 years; parts of a unit.
    pub fn parse(text: &str) -> Result<AgeSpan, QuantityError> {
        const KNOWN: &str = "y, mo, wk or d";
        let problem = |kind| QuantityError::new(kind, text);
        let (mut months, mut days) = (0u64, 0u64);
        let mut last = 0;
        for part in quantity::parts(text)? {
            let value = part
                .number
                .as_whole()
                .ok_or_else(|| problem(QuantityProblem::NotExact))?;
            let (place, target, factor) = match part.unit.as_str() {
                "y" | "year" | "years" | "año" | "años" => (1, &mut months, 12),
                "mo" | "month" | "months" | "mes" | "meses" => (2, &mut months, 1),
                "wk" | "week" | "weeks" | "semana" | "semanas" => (3, &mut days, 7),
                "d" | "day" | "days" | "día" | "días" => (4, &mut days, 1),
                "" => return Err(problem(QuantityProblem::MissingUnit { known: KNOWN })),
                _ => {
                    return Err(problem(QuantityProblem::UnknownUnit {
                        unit: part.unit,
                        known: KNOWN,
                    }));
                }
            };
            if place <= last {
                return Err(problem(QuantityProblem::OddMixture {
                    rule: quantity::EACH_ONCE,
                }));
            }
            last = place;
            *target = value
                .checked_mul(factor)
                .and_then(|v| v.checked_add(*target))
                .ok_or_else(|| problem(QuantityProblem::TooLarge))?;
        }
        if months > OLDEST_MONTHS || days > OLDEST_MONTHS * 31 {
            return Err(problem(QuantityProblem::TooLarge));
        }
        match (u32::try_from(months), u32::try_from(days)) {
            (Ok(months), Ok(days)) => Ok(AgeSpan { months, days }),
            _ => Err(problem(QuantityProblem::TooLarge)),
        }
    }

    /// The date on which somebody born on `born` reaches this age.
    pub fn reached_on(self, born: Date) -> Option<Date> {
        let span = Span::new()
            .try_months(i64::from(self.months))
            .ok()?
            .try_days(i64::from(self.days))
            .ok()?;
        born.checked_add(span).ok()
    }

    /// Compares two told lengths; see the module's rule for days against months.
    fn compare(self, limit: AgeSpan) -> Ordering {
        if self.months >= limit.months {
            let days = at(&FEWEST_DAYS, self.months - limit.months) + self.days;
            days.cmp(&limit.days)
        } else {
            let missing = at(&MOST_DAYS, limit.months - self.months) + limit.days;
            self.days.cmp(&missing)
        }
    }
}

fn at(table: &[u32; 13], months: u32) -> u32 {
    let (years, rest) = (months / 12, usize::try_from(months % 12).unwrap_or(0));
    let per_year = table.last().copied().unwrap_or(0);
    years * per_year + table.get(rest).copied().unwrap_or(0)
}

impl Age {
    /// Compares the age with `limit`: `Equal` on the very day on which the limit is reached.
    pub fn compare(self, limit: AgeSpan) -> Ordering {
        match self {
            Age::Told(span) => span.compare(limit),
            Age::Adult => AgeSpan {
                months: 18 * 12,
                days: 1,
            }
            .compare(limit),
            Age::Born { born, on } => match limit.reached_on(born) {
                Some(day) => on.cmp(&day),
                None => Ordering::Less,
            },
        }
    }

    pub fn reached(self, limit: AgeSpan) -> bool {
        self.compare(limit) != Ordering::Less
    }

    /// Whole days of age, where a birth date or a length in days is known.
    pub fn days(self) -> Option<u32> {
        match self {
            Age::Born { born, on } => {
                let span = born.until((Unit::Day, on)).ok()?;
                u32::try_from(span.get_days()).ok()
            }
            Age::Told(AgeSpan { months: 0, days }) => Some(days),
            Age::Told(_) | Age::Adult => None,
        }
    }

    /// Born after the day of the dose: a slip of the pen.
    pub fn is_unborn(self) -> bool {
        matches!(self, Age::Born { born, on } if born > on)
    }
}

impl std::fmt::Display for AgeSpan {
    /// As orders write it: `3 y 2 mo`, `20 d`.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let (years, months) = (self.months / 12, self.months % 12);
        let words: Vec<String> = [(years, "y"), (months, "mo"), (self.days, "d")]
            .iter()
            .filter(|(value, _)| *value > 0)
            .map(|(value, unit)| format!("{value} {unit}"))
            .collect();
        if words.is_empty() {
            f.write_str("0 d")
        } else {
            f.write_str(&words.join(" "))
        }
    }
}
