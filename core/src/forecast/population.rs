//! The population file: a table of commas, semicolons or tabs, one line for a group of people.
//!
//! ```text
//! # A line like this is a remark.
//! sex,age,weight,people,home
//! f,0-4 y,,310,
//! m,6 mo to 11 mo,8 kg to 10 kg,45,4
//! ,65+,,420,2
//! ```
//!
//! The first line that is no remark names the columns, in any order; `age` and `people` must be there.
//! - `sex`: `f` or `m`; empty for both.
//! - `age`: completed years or months, `2 y`, `18 mo`; from one to another with both of them in it, `0-4 y`;
//!   `under 1 y`; open at the end from 18 years on, `65+`. A unit may stand in the header, `age (months)`; without one, years.
//! - `weight`: of each of them, `14 kg`, or from one to another; the unit in the cell or the header; empty where not known.
//! - `people`: how many.
//! - `home`: how many live in each of their homes, 1 to 12; empty where not known. Whoever lives with them has a line of the same size.
//!
//! Lines may say the same again; they are added up. Every line that cannot be read is named, and then nothing is counted.

use std::collections::BTreeMap;

use super::cells::{self, AgeBand, Band};
use crate::growth::Sex;
use crate::units::{AgeSpan, BodyWeight};

/// People that the planner takes with a proof; larger places are several homes.
pub const MOST_IN_A_HOME: u32 = 12;

/// People who are counted together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Group {
    /// None for both.
    pub sex: Option<Sex>,
    pub age: AgeBand,
    /// The lightest and the heaviest.
    pub weight: Option<(BodyWeight, BodyWeight)>,
    pub people: u64,
    /// People in each of their homes.
    pub home: Option<u32>,
}

/// The groups of a file, in its order.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Population {
    pub groups: Vec<Group>,
    /// An age stood without a unit.
    pub years_assumed: bool,
}

impl Population {
    pub fn people(&self) -> u64 {
        let each = self.groups.iter().map(|group| group.people);
        each.fold(0, u64::saturating_add)
    }

    /// What to say of homes of this size, where there are more of them than people who may be grown.
    fn children_alone(&self, size: u32) -> Option<String> {
        let of_size = self.groups.iter().filter(|group| group.home == Some(size));
        let count = |groups: &mut dyn Iterator<Item = &Group>| {
            groups
                .map(|group| group.people)
                .fold(0, u64::saturating_add)
        };
        let homes = count(&mut of_size.clone()).div_ceil(u64::from(size.max(1)));
        let grown = count(&mut of_size.filter(|group| group.age.reaches(cells::GROWN)));
        (grown < homes).then(|| {
            format!(
                "makes {homes} homes of {size} with {grown} grown people: give those who live with the children lines of the same size, or leave the size empty"
            )
        })
    }
}

/// What is wrong with a line, and what to write instead.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LineProblem {
    /// Counted from 1.
    pub line: usize,
    pub text: String,
}

impl std::fmt::Display for LineProblem {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "line {}: {}", self.line, self.text)
    }
}

/// Reads a population file.
///
/// # Errors
/// Every line that cannot be read; of the header alone, where it is wrong.
pub fn read(bytes: &[u8]) -> Result<Population, Vec<LineProblem>> {
    let problem = |line: usize, text: String| LineProblem { line, text };
    let text = std::str::from_utf8(bytes).map_err(|error| {
        let before = bytes.get(..error.valid_up_to()).unwrap_or_default();
        let line = 1 + before.iter().filter(|byte| **byte == b'\n').count();
        let text = "is not UTF-8 text: save the file as CSV in UTF-8";
        vec![problem(line, text.to_owned())]
    })?;
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let mut lines = (1..).zip(text.lines()).filter(|(_, line)| {
        let line = line.trim();
        !line.is_empty() && !line.starts_with('#')
    });
    let Some((number, header)) = lines.next() else {
        let text = "has no header: begin with a line such as sex,age,weight,people,home";
        return Err(vec![problem(1, text.to_owned())]);
    };
    let columns = Columns::read(header).map_err(|texts| {
        let each = texts.into_iter().map(|text| problem(number, text));
        each.collect::<Vec<_>>()
    })?;
    let mut found = Population::default();
    let mut problems = Vec::new();
    let mut sizes = BTreeMap::new();
    for (number, line) in lines {
        match columns.group(line, &mut found.years_assumed) {
            Ok(group) => {
                sizes.extend(
                    group
                        .home
                        .filter(|size| !sizes.contains_key(size))
                        .map(|size| (size, number)),
                );
                found.groups.push(group);
            }
            Err(texts) => problems.extend(texts.into_iter().map(|text| problem(number, text))),
        }
    }
    for (size, line) in sizes {
        problems.extend(found.children_alone(size).map(|text| problem(line, text)));
    }
    if problems.is_empty() {
        Ok(found)
    } else {
        Err(problems)
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Column {
    Sex,
    Age,
    Weight,
    People,
    Home,
}

/// What may stand in the header, the usual name first.
const NAMES: [(Column, &[&str]); 5] = [
    (Column::Sex, &["sex", "gender"]),
    (
        Column::Age,
        &["age", "ages", "age group", "age band", "age range"],
    ),
    (Column::Weight, &["weight", "body weight"]),
    (
        Column::People,
        &["people", "persons", "count", "number", "population"],
    ),
    (
        Column::Home,
        &["home", "household", "home size", "household size"],
    ),
];

/// The columns of a file in their order, each with the unit of its bare numbers.
struct Columns {
    mark: char,
    all: Vec<(Column, Option<String>)>,
}

impl Columns {
    fn read(header: &str) -> Result<Columns, Vec<String>> {
        let count = |mark: &char| header.matches(*mark).count();
        let mark = [',', ';', '\t']
            .into_iter()
            .max_by_key(count)
            .unwrap_or(',');
        let mut problems = Vec::new();
        let mut all: Vec<(Column, Option<String>)> = Vec::new();
        for cell in cells::split(header, mark).map_err(|text| vec![text])? {
            match column(&cell) {
                Some((column, _)) if all.iter().any(|(other, _)| *other == column) => {
                    problems.push(format!("names the column “{cell}” twice: leave one out"));
                }
                Some(found) => all.push(found),
                None => problems.push(format!(
                    "does not know the column “{cell}”: leave it out, or call it sex, age, weight, people or home"
                )),
            }
        }
        for (wanted, name) in [(Column::Age, "age"), (Column::People, "people")] {
            if problems.is_empty() && !all.iter().any(|(column, _)| *column == wanted) {
                problems.push(format!("has no column “{name}”: add it"));
            }
        }
        if problems.is_empty() {
            Ok(Columns { mark, all })
        } else {
            Err(problems)
        }
    }

    fn group(&self, line: &str, years_assumed: &mut bool) -> Result<Group, Vec<String>> {
        let cells = cells::split(line, self.mark).map_err(|text| vec![text])?;
        let over = cells.iter().skip(self.all.len());
        if cells.len() < self.all.len() || over.clone().any(|cell| !cell.is_empty()) {
            let (has, wants) = (cells.len(), self.all.len());
            return Err(vec![format!("has {has} cells, and the header has {wants}")]);
        }
        let mut problems = Vec::new();
        let cell = |wanted: Column| {
            let place = self.all.iter().position(|(column, _)| *column == wanted);
            let unit = place.and_then(|place| self.all.get(place)?.1.as_deref());
            let text = place
                .and_then(|place| cells.get(place))
                .map_or("", String::as_str);
            (text, unit)
        };
        let mut keep = |text: String| problems.push(text);
        let sex = cells::sex(cell(Column::Sex).0).map_err(&mut keep).ok();
        let (text, unit) = cell(Column::Age);
        let age = cells::age(text, unit, years_assumed)
            .map_err(&mut keep)
            .ok();
        let (text, unit) = cell(Column::Weight);
        let weight = cells::weight(text, unit).map_err(&mut keep).ok();
        let people = cells::people(cell(Column::People).0)
            .map_err(&mut keep)
            .ok();
        let home = cells::home(cell(Column::Home).0).map_err(&mut keep).ok();
        match (sex, age, weight, people, home) {
            (Some(sex), Some(age), Some(weight), Some(people), Some(home)) => Ok(Group {
                sex,
                age,
                weight: weight.map(|Band { from, to }| (from, to)),
                people,
                home,
            }),
            _ => Err(problems),
        }
    }
}

/// A column by its name, with the unit in brackets or at the end of it.
fn column(cell: &str) -> Option<(Column, Option<String>)> {
    let plain = cell
        .to_lowercase()
        .replace(['_', '-', '(', ')', '[', ']'], " ");
    let words: Vec<&str> = plain.split_whitespace().collect();
    let named = |words: &[&str]| {
        let name = words.join(" ");
        let known = NAMES
            .iter()
            .find(|(_, names)| names.contains(&name.as_str()));
        known.map(|(column, _)| *column)
    };
    if let Some(column) = named(&words) {
        return Some((column, None));
    }
    let (unit, name) = words.split_last()?;
    let one = format!("1 {unit}");
    let column = named(name.strip_suffix(&["in"]).unwrap_or(name))?;
    let known = match column {
        Column::Age => AgeSpan::parse(&one).is_ok(),
        Column::Weight => BodyWeight::parse(&one).is_ok(),
        _ => false,
    };
    known.then(|| (column, Some((*unit).to_owned())))
}
