//! Reading the rows of the chart and the rule between them.
//!
//! A row that prints no lower limit begins where the row before it ends: charts that print only upper limits are common, and no other reading leaves each person in one row.

use super::section::Section;
use crate::order::joint::{Joint, joint};
use crate::order::model::{BetweenRows, Limit, Measure, PrintedMass, Row};
use crate::order::problem::Problem;
use crate::units::{AgeSpan, BodyWeight, Mass, QuantityError, Volume};

/// The rows, and whether every one of them could be read; a chart with a row missing is not checked row against row.
pub(super) struct ChartReading {
    pub rows: Vec<Row>,
    pub between: BetweenRows,
    pub whole: bool,
}

/// How one printed limit is read: its field, whether it belongs to its own row, its reader.
type LimitField = (
    &'static str,
    bool,
    fn(&str) -> Result<Measure, QuantityError>,
);

const LOWER: [LimitField; 4] = [
    ("from", true, weight),
    ("over", false, weight),
    ("from-age", true, age),
    ("over-age", false, age),
];
const UPPER: [LimitField; 4] = [
    ("up-to", true, weight),
    ("under", false, weight),
    ("up-to-age", true, age),
    ("under-age", false, age),
];

pub(super) fn chart(top: &mut Section<'_>) -> ChartReading {
    let sections = top.tables("row");
    let count = sections.len();
    if count == 0 {
        top.error(
            "no-rows",
            "row",
            "The chart has no rows; write one [[row]] for each line.",
        );
    }
    let mut rows: Vec<Row> = Vec::with_capacity(count);
    for mut section in sections {
        let read = row(&mut section, rows.last());
        top.absorb(section);
        rows.extend(read);
    }
    let whole = count > 0 && rows.len() == count;
    let between = between_rows(top, &rows, whole);
    ChartReading {
        rows,
        between,
        whole,
    }
}

fn row(at: &mut Section<'_>, before: Option<&Row>) -> Option<Row> {
    let amount = at.quantity("amount", Volume::parse);
    let mg = printed_mass(at);
    let or_weight_from = at.optional_quantity("or-weight-from", BodyWeight::parse);
    let reason = at.optional_text("reason");
    let lower = limit(at, &LOWER);
    let to = limit(at, &UPPER)?;
    let mut from = lower?;
    let end = before.and_then(|row| row.to.clone());
    if let (None, Some(end)) = (&from, end) {
        let text = format!(
            "This row prints no lower limit; it is taken to begin where the row before it ends, at {}.",
            end.at
        );
        let place = at.place().to_owned();
        at.report(Problem::warning("row-start-assumed", place, text));
        from = Some(Limit {
            inclusive: !end.inclusive,
            ..end
        });
    }
    Some(Row {
        from,
        to,
        or_weight_from,
        amount: amount?,
        mg,
        reason,
    })
}

fn weight(text: &str) -> Result<Measure, QuantityError> {
    BodyWeight::parse(text).map(Measure::Weight)
}

fn age(text: &str) -> Result<Measure, QuantityError> {
    AgeSpan::parse(text).map(Measure::Age)
}

/// The limit of one side: nothing when none is printed, no answer at all when what is printed cannot be used.
fn limit(at: &mut Section<'_>, fields: &[LimitField; 4]) -> Option<Option<Limit>> {
    let mut found = Vec::new();
    for (key, inclusive, read) in fields {
        if at.optional(key).is_some() {
            let measure = at.optional_quantity(key, *read);
            found.push((*key, measure.map(|measure| (measure, *inclusive))));
        }
    }
    match found.as_slice() {
        [] => Some(None),
        [(_, Some((measure, inclusive)))] => Some(Some(Limit {
            at: measure.clone(),
            inclusive: *inclusive,
        })),
        [_] => None,
        several => {
            let names: Vec<String> = several.iter().map(|(key, _)| format!("“{key}”")).collect();
            let text = format!(
                "This row has more than one limit on one side: {}.",
                names.join(", ")
            );
            at.error("two-limits", "", text);
            None
        }
    }
}

/// The printed mass with the number of decimals it was printed with.
fn printed_mass(at: &mut Section<'_>) -> Option<PrintedMass> {
    let mass = at.optional_quantity("mg", Mass::parse)?;
    let text = at.optional_text("mg")?;
    let decimals = text.split_once('.').map_or(0, |(_, rest)| {
        rest.chars().take_while(char::is_ascii_digit).count()
    });
    let decimals = u32::try_from(decimals).unwrap_or(0);
    Some(PrintedMass { mass, decimals })
}

fn between_rows(top: &mut Section<'_>, rows: &[Row], whole: bool) -> BetweenRows {
    let choices = [
        ("enough", BetweenRows::Enough),
        ("next row", BetweenRows::NextRow),
    ];
    let named = top.has("between-rows");
    let rule = top.optional_table("between-rows").and_then(|mut table| {
        let rule = table.choice("rule", &choices);
        top.absorb(table);
        rule
    });
    let pairs = rows.iter().zip(rows.iter().skip(1));
    let gaps = pairs
        .filter(|(lower, upper)| matches!(joint(lower, upper), Joint::PrintedGap { .. }))
        .count();
    if !named && whole && gaps > 0 {
        top.error(
            "no-rule-between-rows",
            "between-rows",
            "The chart leaves gaps between its printed limits; [between-rows] must say which row serves them.",
        );
    }
    rule.unwrap_or(BetweenRows::Enough)
}
