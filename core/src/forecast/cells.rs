//! One cell of a population file: what it may say, and what to write where it cannot be read.

use crate::growth::{self, Sex};
use crate::units::{AgeSpan, BodyWeight};

use super::population::MOST_IN_A_HOME;

/// Ages from one up to, and without, another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct AgeBand {
    pub from: AgeSpan,
    pub before: AgeSpan,
}

impl AgeBand {
    /// Whether somebody in it may have reached an age.
    pub(super) fn reaches(&self, age: AgeSpan) -> bool {
        days(self.before) > days(age)
    }
}

/// From one to another, both in it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Band<T> {
    pub(super) from: T,
    pub(super) to: T,
}

/// Where an age band without an end is cut; nothing in a chart changes there.
const OLDEST: AgeSpan = AgeSpan::years(100);
/// From here on a band may be open at the end: no child is in it.
pub(super) const GROWN: AgeSpan = AgeSpan::years(18);

/// The cells of a line; a quoted cell may hold the mark, and two quotes in it are one.
pub(super) fn split(line: &str, mark: char) -> Result<Vec<String>, String> {
    let mut cells = vec![String::new()];
    let mut quoted = false;
    let mut letters = line.trim_end_matches('\r').chars().peekable();
    while let Some(letter) = letters.next() {
        let Some(cell) = cells.last_mut() else {
            break;
        };
        match letter {
            '"' if quoted && letters.peek() == Some(&'"') => {
                cell.push('"');
                letters.next();
            }
            '"' if quoted || cell.trim().is_empty() => quoted = !quoted,
            letter if letter == mark && !quoted => cells.push(String::new()),
            letter => cell.push(letter),
        }
    }
    if quoted {
        return Err("opens a quote and never closes it".to_owned());
    }
    Ok(cells.iter().map(|cell| cell.trim().to_owned()).collect())
}

/// Whose chart; none for both.
pub(super) fn sex(cell: &str) -> Result<Option<Sex>, String> {
    match cell.to_lowercase().as_str() {
        "f" | "female" | "females" | "girls" | "women" => Ok(Some(Sex::Female)),
        "m" | "male" | "males" | "boys" | "men" => Ok(Some(Sex::Male)),
        "" | "-" | "any" | "both" | "all" | "unknown" => Ok(None),
        _ => Err(format!(
            "cannot read the sex “{cell}”: write f or m, or leave it empty for both"
        )),
    }
}

/// How many.
pub(super) fn people(cell: &str) -> Result<u64, String> {
    let problem = || {
        let text = format!("cannot read “{cell}” as a number of people");
        format!("{text}: write it in digits, such as 1200")
    };
    // Digits in threes, as tables of a census have them.
    let groups: Vec<&str> = cell
        .split([',', ' ', '\u{a0}', '\u{202f}', '’', '\''])
        .collect();
    let digits = |group: &&str| group.bytes().all(|byte| byte.is_ascii_digit());
    let (first, others) = groups.split_first().ok_or_else(problem)?;
    let in_threes = others.iter().all(|group| group.len() == 3);
    let short = others.is_empty() || (1..=3).contains(&first.len());
    if first.is_empty() || !groups.iter().all(digits) || !in_threes || !short {
        return Err(problem());
    }
    groups.concat().parse().map_err(|_| problem())
}

/// How many live in each home.
pub(super) fn home(cell: &str) -> Result<Option<u32>, String> {
    if cell.is_empty() || cell == "-" {
        return Ok(None);
    }
    let size = cell.parse().ok();
    let size = size.filter(|size| (1..=MOST_IN_A_HOME).contains(size));
    size.map(Some).ok_or_else(|| {
        format!(
            "cannot take “{cell}” as the size of a home: write 1 to {MOST_IN_A_HOME}, or leave it empty"
        )
    })
}

/// One weight or a band of weights; none where the cell is empty.
pub(super) fn weight(cell: &str, unit: Option<&str>) -> Result<Option<Band<BodyWeight>>, String> {
    if cell.is_empty() || cell == "-" {
        return Ok(None);
    }
    let (from, to) = ends(cell, unit);
    let read = |text: &str| BodyWeight::parse(text).map_err(|error| error.to_string());
    let band = read(&from).and_then(|from| {
        Ok(Band {
            from,
            to: read(&to)?,
        })
    });
    let band = band.map_err(|why| {
        format!("cannot read the weight “{cell}”: {why}; write it as 14 kg, or 10 kg to 12 kg")
    })?;
    if band.from > band.to {
        return Err(format!("has the weight “{cell}” the wrong way round"));
    }
    Ok(Some(band))
}

/// One completed age, or a band of ages.
pub(super) fn age(
    cell: &str,
    unit: Option<&str>,
    years_assumed: &mut bool,
) -> Result<AgeBand, String> {
    let plain = cell.to_lowercase();
    let problem = |why: &str| {
        format!("cannot read the age “{cell}”{why}: write it as 2 y, 18 mo, 0-4 y or 65+")
    };
    if matches!(plain.as_str(), "adult" | "adults") {
        return Ok(AgeBand {
            from: GROWN,
            before: OLDEST,
        });
    }
    let mut bare_years = false;
    let mut read = |text: &str| {
        let text = if ends_bare(text) {
            bare_years |= unit.is_none();
            format!("{text} {}", unit.unwrap_or("y"))
        } else {
            text.to_owned()
        };
        let age = AgeSpan::parse(&text).map_err(|error| problem(&format!(" ({error})")))?;
        Ok::<_, String>((age, step(&text)))
    };
    let band = if let Some(below) = below(&plain) {
        let (before, _) = read(below)?;
        let from = AgeSpan::days(0);
        AgeBand { from, before }
    } else if let Some(least) = open(&plain) {
        let (from, _) = read(least)?;
        if days(from) < days(GROWN) {
            return Err(problem(" (no end, and children are in it)"));
        }
        AgeBand {
            from,
            before: OLDEST,
        }
    } else {
        let (first, last) = ends(&plain, None);
        let (from, _) = read(&first)?;
        let (last, step) = read(&last)?;
        AgeBand {
            from,
            before: AgeSpan {
                months: last.months + step.months,
                days: last.days + step.days,
            },
        }
    };
    if days(band.from) >= days(band.before) {
        return Err(problem(" (the wrong way round)"));
    }
    *years_assumed |= bare_years;
    Ok(band)
}

/// WHO's 30.4375 days to the month.
pub(super) fn days(age: AgeSpan) -> u32 {
    growth::days_of_months(age.months, age.days)
}

/// `under 5 y`, `< 5 y`
fn below(text: &str) -> Option<&str> {
    let starts = ["under ", "below ", "less than ", "<"];
    let rest = starts.iter().find_map(|start| text.strip_prefix(start))?;
    Some(rest.trim())
}

/// `65+`, `65 y and over`, `over`, `older`, `more`
fn open(text: &str) -> Option<&str> {
    if let Some(rest) = text.strip_suffix('+') {
        return Some(rest.trim());
    }
    let last = ["over", "older", "more", "up", "above"];
    let rest = last.iter().find_map(|word| text.strip_suffix(word))?.trim();
    let rest = [" and", " or"]
        .iter()
        .find_map(|word| rest.strip_suffix(word))?;
    Some(rest.trim())
}

/// Both ends of a band, or the same twice; a unit at the end alone is that of both, and `unit` that of bare numbers.
fn ends(cell: &str, unit: Option<&str>) -> (String, String) {
    let plain = cell.replace(['–', '—'], "-");
    let parts = [" to ", " through ", "-"]
        .iter()
        .find_map(|mark| plain.split_once(mark));
    let (first, last) = parts.unwrap_or((&plain, &plain));
    let with = |text: &str| {
        let text = spaced(text);
        match unit {
            Some(unit) if ends_bare(&text) => format!("{text} {unit}"),
            _ => text,
        }
    };
    let (mut first, last) = (with(first), with(last));
    if ends_bare(&first)
        && let Some((_, unit)) = last.rsplit_once(' ')
    {
        first = format!("{first} {unit}");
    }
    (first, last)
}

/// A space before the first letter, and one between all words: `4y` is `4 y`.
fn spaced(text: &str) -> String {
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    match text.find(char::is_alphabetic) {
        Some(place) if !text.contains(' ') => {
            let (number, unit) = text.split_at(place);
            format!("{number} {unit}").trim().to_owned()
        }
        _ => text,
    }
}

fn ends_bare(text: &str) -> bool {
    text.ends_with(|letter: char| letter.is_ascii_digit())
}

/// The length of what the last unit counts: somebody of `2 y` may be almost 3.
fn step(text: &str) -> AgeSpan {
    let unit = text.trim_start_matches(|letter: char| !letter.is_alphabetic());
    let unit = unit.split_whitespace().next_back().unwrap_or("y");
    AgeSpan::parse(&format!("1 {unit}")).unwrap_or(AgeSpan::years(1))
}
