//! What the code on a medicine package says: a GS1 element string, read without guessing.
//!
//! ```text
//! ]d2 01 09501101530003 17 261200 10 ABC123 <GS> 21 S1
//!  │  │                 │         │              └ serial number, to the end
//!  │  │                 │         └ lot, up to the separator (ASCII 29)
//!  │  │                 └ expiry: December 2026, day 00 is its last day
//!  │  └ product number (GTIN) with check digit
//!  └ symbology identifier of GS1 DataMatrix, optional; `]Q3` for QR
//! ```
//!
//! A value that breaks its own rules is left out and named as a problem; one that only looks odd is kept and named.
//! Reading never panics, whatever the text.
//!
//! ```
//! let package = hearthdose_core::package::read("]d2010950110153000317261200", 2026);
//! assert_eq!(package.expiry.map(|day| day.to_string()), Some("2026-12-31".to_owned()));
//! ```

mod date;
mod element;
mod identifier;
mod problem;

use jiff::civil::Date;

pub use identifier::{Identifier, Meaning, Shape};
pub use problem::{CODES, Problem};

use element::Element;

/// What was read from a package. A field is absent when it was not there, or was not right.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Package {
    /// Fourteen digits as they stand, also with a wrong check digit.
    pub gtin: Option<String>,
    /// Whether the check digit is right; absent without a GTIN.
    pub gtin_valid: Option<bool>,
    pub lot: Option<String>,
    /// The last day on which the package may be used.
    pub expiry: Option<Date>,
    pub serial: Option<String>,
    pub made: Option<Date>,
    pub best_before: Option<Date>,
    pub count: Option<u32>,
    pub additional: Option<String>,
    /// National numbers with their identifiers: (`715`, an NDC).
    pub national: Vec<(String, String)>,
    pub problems: Vec<Problem>,
}

/// Reads an element string; `year` is the year it is read in, for two-digit years.
pub fn read(text: &str, year: i16) -> Package {
    let (elements, problems) = element::split(text);
    let mut package = Package {
        problems,
        ..Package::default()
    };
    for (at, element) in elements.iter().enumerate() {
        let same = |other: &&Element<'_>| other.identifier.digits == element.identifier.digits;
        if elements.iter().take(at).any(|other| same(&other)) {
            continue;
        }
        let all: Vec<&Element<'_>> = elements.iter().filter(same).collect();
        let differs = all.iter().any(|other| other.value != element.value);
        if all.len() > 1 {
            package.problems.push(twice(element, differs));
        }
        if !differs {
            package.take(element, year);
        }
    }
    package.check_together(&elements);
    package.problems.extend(element::swallowed(&elements, year));
    package
}

/// Whether the last of these digits is the check digit of those before it.
///
/// Weights 3, 1, 3, … from the right, the check digit left out (General Specifications 7.9). Takes 8 to 14 digits.
pub fn check_digit_is_right(digits: &str) -> bool {
    if !(8..=14).contains(&digits.len()) || !digits.bytes().all(|byte| byte.is_ascii_digit()) {
        return false;
    }
    let values = digits.bytes().rev().map(|byte| u32::from(byte - b'0'));
    let weighed = values
        .zip([1, 3].into_iter().cycle())
        .map(|(value, weight)| value * weight);
    weighed.sum::<u32>().is_multiple_of(10)
}

fn twice(element: &Element<'_>, differs: bool) -> Problem {
    let title = element.identifier.title;
    if differs {
        Problem::new(
            "identifier-twice-differing",
            format!("the {title} is there more than once and differs; none is used"),
        )
    } else {
        Problem::new(
            "identifier-twice",
            format!("the {title} is there more than once, with the same value"),
        )
    }
}

impl Package {
    fn take(&mut self, element: &Element<'_>, year: i16) {
        let value = || element.value.to_owned();
        match element.identifier.meaning {
            Meaning::Gtin => {
                let valid = check_digit_is_right(element.value);
                if !valid {
                    self.problems.push(Problem::new(
                        "gtin-check-digit",
                        format!(
                            "the check digit of the product number {} is wrong",
                            element.value
                        ),
                    ));
                }
                self.gtin = Some(value());
                self.gtin_valid = Some(valid);
            }
            Meaning::Lot => self.lot = Some(value()),
            Meaning::Serial => self.serial = Some(value()),
            Meaning::AdditionalId => self.additional = Some(value()),
            Meaning::Count => self.count = element.value.parse().ok(),
            Meaning::National => {
                let digits = element.identifier.digits.to_owned();
                self.national.push((digits, value()));
            }
            Meaning::Made => self.made = self.day(element, year),
            Meaning::BestBefore => self.best_before = self.day(element, year),
            Meaning::Expiry => {
                let day = self.day(element, year);
                self.expire(day);
            }
            Meaning::ExpiryTime => {
                let day = self.day(element, year);
                if element.value.get(6..).is_some_and(date::is_time) {
                    self.expire(day);
                } else {
                    self.problems.push(Problem::new(
                        "time-invalid",
                        format!(
                            "“{}” is no time of day behind the expiry date",
                            element.value
                        ),
                    ));
                }
            }
        }
    }

    fn day(&mut self, element: &Element<'_>, year: i16) -> Option<Date> {
        let digits = element.value.get(..6).unwrap_or(element.value);
        let found = date::day(digits, year);
        if found.is_none() {
            self.problems.push(Problem::new(
                "date-invalid",
                format!("the {} “{digits}” is no date", element.identifier.title),
            ));
        }
        found
    }

    fn expire(&mut self, day: Option<Date>) {
        match (self.expiry, day) {
            (Some(before), Some(day)) if before != day => {
                self.problems.push(Problem::new(
                    "expiry-differs",
                    format!("two expiry dates are given, {before} and {day}; neither is used"),
                ));
                self.expiry = None;
            }
            (None, found) => self.expiry = found,
            _ => {}
        }
    }

    fn check_together(&mut self, elements: &[Element<'_>]) {
        let has = |meaning| {
            elements
                .iter()
                .find(|element| element.identifier.meaning == meaning)
        };
        if has(Meaning::Gtin).is_some() {
            return;
        }
        let needing = [
            Meaning::Lot,
            Meaning::Expiry,
            Meaning::ExpiryTime,
            Meaning::Serial,
        ];
        let titles: Vec<&str> = needing
            .into_iter()
            .filter_map(has)
            .map(|element| element.identifier.title)
            .collect();
        if !titles.is_empty() {
            self.problems.push(Problem::new(
                "gtin-missing",
                format!(
                    "there is a {} but no product number that it belongs to",
                    titles.join(" and a ")
                ),
            ));
        }
    }
}
