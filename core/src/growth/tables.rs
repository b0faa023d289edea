//! WHO's weight-for-age tables, embedded as the data files beside this one and read once.
//!
//! Invariants: rows run without a hole from the first to the last published age, and every M and S
//! is positive. A file that breaks this is refused whole by [`read`]; the tests read both files.

use std::sync::OnceLock;

use super::lms::Lms;
use super::{Reference, Sex};

const WHO_2006: &str = include_str!("who_2006_by_day.csv");
const WHO_2007: &str = include_str!("who_2007_by_month.csv");

/// 60 months of 30.4375 days are 1826.25 days; from the next whole day on the 2007 table rules.
const LAST_DAY_2006: u32 = 1826;
const FIRST_MONTH_2007: u32 = 60;
/// WHO publishes no weight-for-age beyond 10 years.
const LAST_MONTH_2007: u32 = 120;
/// 120 months of 30.4375 days are 3652.5 days, halves up: the age that a typed "10 y" becomes.
const LAST_DAY_2007: u32 = 3653;

/// One published age: the girls' curve and the boys'.
#[derive(Clone, Copy, Debug)]
struct Row {
    girls: Lms,
    boys: Lms,
}

impl Row {
    fn curve(&self, sex: Sex) -> &Lms {
        match sex {
            Sex::Female => &self.girls,
            Sex::Male => &self.boys,
        }
    }
}

/// The curve for an age in completed days, or nothing where no table reaches.
pub(super) fn curve(sex: Sex, age_days: u32) -> Option<(Reference, Lms)> {
    if age_days <= LAST_DAY_2006 {
        let row = by_day().get(usize::try_from(age_days).ok()?)?;
        return Some((Reference::Who2006, *row.curve(sex)));
    }
    if age_days > LAST_DAY_2007 {
        return None;
    }
    // 30.4375 = 487/16: the whole months and what is left of them come out without rounding.
    let sixteenths = age_days * 16;
    let month = sixteenths / 487;
    let fraction = f64::from(sixteenths % 487) / 487.0;
    let index = usize::try_from(month - FIRST_MONTH_2007).ok()?;
    let row = by_month().get(index)?.curve(sex);
    let curve = if month == LAST_MONTH_2007 {
        // Only day 3653 comes here, the half day by which ten years were rounded up.
        *row
    } else {
        row.towards(by_month().get(index + 1)?.curve(sex), fraction)
    };
    Some((Reference::Who2007, curve))
}

fn by_day() -> &'static [Row] {
    static ROWS: OnceLock<Vec<Row>> = OnceLock::new();
    ROWS.get_or_init(|| {
        read(WHO_2006, 0, LAST_DAY_2006).expect("the embedded day table is tested to be whole")
    })
}

fn by_month() -> &'static [Row] {
    static ROWS: OnceLock<Vec<Row>> = OnceLock::new();
    ROWS.get_or_init(|| {
        read(WHO_2007, FIRST_MONTH_2007, LAST_MONTH_2007)
            .expect("the embedded month table is tested to be whole")
    })
}

/// The rows from `first` to `last`, or nothing if one is missing, doubled, misplaced or malformed.
fn read(file: &str, first: u32, last: u32) -> Option<Vec<Row>> {
    let mut lines = file.lines().filter(|line| !line.starts_with('#'));
    let columns = lines.next()?.split_once(',')?.1;
    if columns != "girl_l,girl_m,girl_s,boy_l,boy_m,boy_s" {
        return None;
    }
    let mut rows = Vec::new();
    for age in first..=last {
        let (index, values) = lines.next()?.split_once(',')?;
        if index.parse() != Ok(age) {
            return None;
        }
        let values = values
            .split(',')
            .map(|value| value.parse().ok())
            .collect::<Option<Vec<f64>>>()?;
        let [girl_l, girl_m, girl_s, boy_l, boy_m, boy_s] = values.try_into().ok()?;
        rows.push(Row {
            girls: published(girl_l, girl_m, girl_s)?,
            boys: published(boy_l, boy_m, boy_s)?,
        });
    }
    lines.next().is_none().then_some(rows)
}

/// A curve whose numbers the LMS formula can be used with up to three deviations.
fn published(l: f64, m: f64, s: f64) -> Option<Lms> {
    let usable = m > 0.0 && s > 0.0 && 3.0 * l.abs() * s < 0.9;
    usable.then_some(Lms { l, m, s })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lms(sex: Sex, age_days: u32) -> [f64; 3] {
        let (_, Lms { l, m, s }) = curve(sex, age_days).expect("inside the tables");
        [l, m, s]
    }

    #[test]
    fn both_embedded_files_are_whole() {
        let days = read(WHO_2006, 0, LAST_DAY_2006).expect("day table");
        assert_eq!(days.len(), 1827);
        let months = read(WHO_2007, FIRST_MONTH_2007, LAST_MONTH_2007).expect("month table");
        assert_eq!(months.len(), 61);
    }

    #[test]
    fn a_damaged_file_is_refused_whole() {
        let head = "month,girl_l,girl_m,girl_s,boy_l,boy_m,boy_s\n";
        let good = "60,-0.465,18.0823,0.1424,-0.1922,18.3328,0.12947\n";
        assert!(read(&format!("# source\n{head}{good}"), 60, 60).is_some());
        let damaged = [
            String::new(),
            good.to_owned(),
            head.to_owned(),
            format!("{head}{good}{good}"),
            format!("{head}{}", good.replace("60,", "61,")),
            format!("{head}{}", good.replace("18.0823", "18,0823")),
            format!("{head}{}", good.replace("18.0823", "-18.0823")),
            format!("{head}{}", good.replace("0.1424", "NaN")),
            format!("{head}{}", good.replace(",0.12947", "")),
            format!("{}{good}", head.replace("girl_l", "boy_l")),
        ];
        for file in damaged {
            assert!(read(&file, 60, 60).is_none(), "{file}");
        }
    }

    /// WHO 2006 by day and WHO 2007 by month as published, each also in a second carrier.
    #[test]
    fn published_rows_are_found_at_their_age() {
        assert_eq!(lms(Sex::Male, 0), [0.3487, 3.3464, 0.14602]);
        assert_eq!(lms(Sex::Female, 0), [0.3809, 3.2322, 0.14171]);
        assert_eq!(lms(Sex::Male, 28), [0.2331, 4.3671, 0.13497]);
        assert_eq!(lms(Sex::Female, 365), [-0.2022, 8.9462, 0.12267]);
        assert_eq!(lms(Sex::Male, 1826), [-0.1506, 18.3352, 0.13517]);
        // Days 1948 and 3409 are exactly months 64 and 112.
        assert_eq!(lms(Sex::Male, 1948), [-0.2338, 19.0340, 0.13105]);
        assert_eq!(lms(Sex::Female, 3409), [-0.5883, 29.3663, 0.16941]);
        assert_eq!(lms(Sex::Female, 3653), [-0.5958, 31.8578, 0.17262]);
    }

    #[test]
    fn between_two_months_the_parameters_run_in_a_straight_line() {
        // Day 2557 is a quarter of a day after month 84 (7 years): 84 + 4/487.
        let [_, median, _] = lms(Sex::Male, 2557);
        let [_, next_month, _] = lms(Sex::Male, 2557 + 30);
        assert!(median > 22.8915 && median < 22.8935, "{median}");
        assert!(next_month > 23.08 && next_month < 23.10, "{next_month}");
    }

    #[test]
    fn the_tables_end_at_ten_years() {
        assert!(curve(Sex::Female, LAST_DAY_2007).is_some());
        assert!(curve(Sex::Female, LAST_DAY_2007 + 1).is_none());
        assert!(curve(Sex::Male, u32::MAX).is_none());
    }
}
