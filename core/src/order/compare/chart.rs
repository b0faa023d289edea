//! Rows by the people they serve: "row 76 lb to 88 lb: 4 teaspoons (20 mL), was 3½ teaspoons (17.5 mL)".
//!
//! Where the limits moved, a row is compared with the row that now serves all of its people.

use std::cmp::Ordering;

use super::Changes;
use crate::order::joint;
use crate::order::model::{BetweenRows, Limit, Order, Row};
use crate::units::{Volume, show};

pub(super) fn compare(changes: &mut Changes, old: &Order, new: &Order) {
    for row in &old.rows {
        let place = format!("row {row}");
        match (
            same(row, &new.rows),
            new.rows.iter().find(|outer| serves_all(outer, row)),
        ) {
            (Some(after), _) => details(changes, &place, row, after),
            (None, Some(after)) if after.amount != row.amount => {
                amount(changes, &place, row.amount, after.amount)
            }
            (None, Some(after)) => {
                changes.push(
                    "changed",
                    place.clone(),
                    format!("{place} is now part of row {after}, with the same amount"),
                );
            }
            (None, None) => changes.push(
                "removed",
                place.clone(),
                format!("{place} is no longer in the chart"),
            ),
        }
    }
    for row in &new.rows {
        let told =
            same(row, &old.rows).is_some() || old.rows.iter().any(|inner| serves_all(row, inner));
        if told {
            continue;
        }
        let place = format!("row {row}");
        let given = show::spoon_text(row.amount);
        let text = match old.rows.iter().find(|outer| serves_all(outer, row)) {
            Some(before) if before.amount == row.amount => {
                format!("{place} is new, with the same amount as row {before} before")
            }
            Some(before) => format!("{place}: {given}, was {}", show::spoon_text(before.amount)),
            None => format!("{place} is new: {given}"),
        };
        changes.push("added", place, text);
    }
    changes.changed(
        "between-rows.rule",
        "rule between rows",
        rule(old),
        rule(new),
    );
}

/// The row with the same printed limits.
fn same<'a>(row: &Row, rows: &'a [Row]) -> Option<&'a Row> {
    rows.iter()
        .find(|other| other.from == row.from && other.to == row.to)
}

fn amount(changes: &mut Changes, place: &str, old: Volume, new: Volume) {
    let text = format!(
        "{place}: {}, was {}",
        show::spoon_text(new),
        show::spoon_text(old)
    );
    changes.push("changed", place, text);
}

fn details(changes: &mut Changes, place: &str, old: &Row, new: &Row) {
    if old.amount != new.amount {
        amount(changes, place, old.amount, new.amount);
    }
    let printed = |row: &Row| super::said(row.mg.map(|printed| printed.mass));
    changes.changed(
        place,
        &format!("{place}: printed mass"),
        &printed(old),
        &printed(new),
    );
    let heavy = |row: &Row| super::said(row.or_weight_from.as_ref());
    changes.changed(
        place,
        &format!("{place}: also from"),
        &heavy(old),
        &heavy(new),
    );
    let reason = |row: &Row| row.reason.clone().unwrap_or_default();
    changes.changed(
        place,
        &format!("{place}: written reason"),
        &reason(old),
        &reason(new),
    );
}

fn rule(order: &Order) -> &'static str {
    match order.between_rows {
        BetweenRows::Enough => "“enough”",
        BetweenRows::NextRow => "“next row”",
    }
}

/// Whether everybody in `inner` is in `outer`.
fn serves_all(outer: &Row, inner: &Row) -> bool {
    reaches(outer.from.as_ref(), inner.from.as_ref(), Ordering::Less)
        && reaches(outer.to.as_ref(), inner.to.as_ref(), Ordering::Greater)
}

/// Whether the outer limit lies on the `side` of the inner one, or meets it without leaving anybody out.
fn reaches(outer: Option<&Limit>, inner: Option<&Limit>, side: Ordering) -> bool {
    let Some(outer) = outer else {
        return true;
    };
    let Some(inner) = inner else {
        return false;
    };
    match joint::compare(&outer.at, &inner.at) {
        Some(Ordering::Equal) => outer.inclusive || !inner.inclusive,
        Some(order) => order == side,
        None => false,
    }
}
