//! Reading the order file: TOML in, an exact [`Order`] out, or every problem at once.
//!
//! Nothing is guessed: a quantity without unit, a misspelled field or a missing one is an error with its place.
//! Whatever the bytes are, reading ends with a value and never with a panic.

mod chart;
mod medicine;
mod mixture;
mod people;
pub(crate) mod section;
mod spelling;
mod supply;

use jiff::Timestamp;
use toml::{Table, Value};

use super::fingerprint::Fingerprint;
use super::model::{Order, WaterRule, Words};
use super::problem::Problem;
use section::Section;

/// The format this version reads and writes.
pub const FORMAT: i64 = 1;

/// An order as far as it could be read, for the checks only.
///
/// Where a part could not be read a stand-in takes its place and the matching flag is false, so that the checks leave that part alone.
pub(crate) struct Draft {
    pub order: Order,
    pub parts: Parts,
}

/// Which parts of the file could be read completely.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Parts {
    pub times: bool,
    pub products: bool,
    pub recipe: bool,
    pub chart: bool,
}

impl Parts {
    pub(crate) const ALL: Parts = Parts {
        times: true,
        products: true,
        recipe: true,
        chart: true,
    };
}

/// Reads one order from the exact bytes of its file.
///
/// # Errors
/// Every problem of reading, warnings included, when at least one of them is an error.
/// The warnings of a readable order stay in [`Order::remarks`] and come back from [`super::check`].
pub fn parse(bytes: &[u8]) -> Result<Order, Vec<Problem>> {
    let (draft, problems) = draft(bytes);
    match draft {
        Some(draft) if !problems.iter().any(Problem::is_error) => Ok(draft.order),
        _ => Err(problems),
    }
}

/// As much of the order as can be read, and everything wrong with the reading.
pub(crate) fn draft(bytes: &[u8]) -> (Option<Draft>, Vec<Problem>) {
    let table = match table(bytes) {
        Ok(table) => table,
        Err(problem) => return (None, vec![problem]),
    };
    let mut top = Section::new(&table, "");
    if let Some(problem) = newer_format(&mut top) {
        return (None, vec![problem]);
    }
    let draft = order(&mut top, bytes);
    let problems = top.finish();
    let draft = draft.map(|mut draft| {
        draft.order.remarks.clone_from(&problems);
        draft
    });
    (draft, problems)
}

/// The file as a TOML table; the one problem says where reading stopped.
pub(super) fn table(bytes: &[u8]) -> Result<Table, Problem> {
    let unreadable = |valid: usize, why: &str| {
        let line = bytes
            .iter()
            .take(valid)
            .filter(|byte| **byte == b'\n')
            .count()
            + 1;
        let text = format!(
            "The file cannot be read: {why} (line {line}). It may be damaged or cut short."
        );
        Problem::error("unreadable-file", format!("line {line}"), text)
    };
    let text = std::str::from_utf8(bytes)
        .map_err(|error| unreadable(error.valid_up_to(), "it is not UTF-8 text"))?;
    // A byte order mark is no part of TOML, but editors add it unasked.
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let table: Table = text.parse().map_err(|error: toml::de::Error| {
        let at = error.span().map_or(0, |span| span.start);
        unreadable(at, error.message())
    })?;
    if table.is_empty() {
        return Err(unreadable(0, "it is empty"));
    }
    Ok(table)
}

/// A file of a later format is not read any further: its fields may mean something else.
pub(super) fn newer_format(top: &mut Section<'_>) -> Option<Problem> {
    top.require("format");
    match top.optional("format") {
        Some(Value::Integer(FORMAT)) | None => None,
        Some(Value::Integer(later)) if *later > FORMAT => Some(Problem::error(
            "newer-format",
            "format",
            format!(
                "This file has format {later} and was made for a newer version of the program; please update."
            ),
        )),
        Some(_) => Some(Problem::error(
            "wrong-type",
            "format",
            "“format” must be the whole number 1.",
        )),
    }
}

fn order(top: &mut Section<'_>, bytes: &[u8]) -> Option<Draft> {
    let id = top.text("id").unwrap_or_default();
    let revision = top.whole("revision").unwrap_or(1);
    let title = top.text("title").unwrap_or_default();
    let issuer = top.text("issuer").unwrap_or_default();
    let issued = top.instant("issued").unwrap_or(Timestamp::UNIX_EPOCH);
    let time_zone = top.text("time-zone").unwrap_or_default();
    let invented = top.optional_flag("invented").unwrap_or(false);
    let source = top.optional_text("source").unwrap_or_default();
    let title_words = top.words("title-words");
    let medicine = medicine::medicine(top);
    let (products, products_read) = mixture::products(top);
    let (recipe, recipe_read) = mixture::recipe(top, &products);
    let chart = chart::chart(top);
    let questions = people::questions(top);
    let cautions = people::cautions(top);
    let contacts = people::contacts(top);
    let water = water(top);
    let mut languages = top.texts("languages");
    if languages.is_empty() {
        let ask = questions.iter().map(|q| &q.ask);
        languages = spoken(ask.chain(cautions.iter().map(|c| &c.text)));
    }
    let medicine = medicine?;
    let parts = Parts {
        times: medicine.timed,
        products: products_read,
        recipe: recipe_read,
        chart: chart.whole,
    };
    let order = Order {
        id,
        revision,
        title,
        title_words,
        issuer,
        issued,
        time_zone,
        invented,
        source,
        languages,
        medicine: medicine.medicine,
        products,
        recipe,
        rows: chart.rows,
        between_rows: chart.between,
        questions,
        cautions,
        contacts,
        water,
        fingerprint: Fingerprint::of(bytes),
        remarks: Vec::new(),
    };
    Some(Draft { order, parts })
}

fn water(top: &mut Section<'_>) -> WaterRule {
    let Some(mut table) = top.optional_table("water") else {
        return WaterRule::Tap;
    };
    let rule = table.choice("rule", WATER_RULES);
    top.absorb(table);
    rule.unwrap_or(WaterRule::Tap)
}

/// The water rules by the names that orders and notices write.
pub(super) const WATER_RULES: &[(&str, WaterRule)] = &[
    ("tap", WaterRule::Tap),
    ("boil", WaterRule::BoilAndCool),
    ("bottled", WaterRule::BottledOnly),
];

/// The languages of an order that declares none: those in which everything is said, else all that occur.
fn spoken<'a>(words: impl Iterator<Item = &'a Words>) -> Vec<String> {
    let all: Vec<&Words> = words.collect();
    let mut languages: Vec<String> = all.iter().flat_map(|words| words.keys().cloned()).collect();
    languages.sort();
    languages.dedup();
    let complete: Vec<String> = languages
        .iter()
        .filter(|language| all.iter().all(|words| words.contains_key(*language)))
        .cloned()
        .collect();
    if complete.is_empty() {
        languages
    } else {
        complete
    }
}
