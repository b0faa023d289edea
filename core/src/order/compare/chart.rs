//! Rows by the people they serve: "row 76 lb to 88 lb: 4 teaspoons (20 mL), was 3½ teaspoons (17.5 mL)".
//!
//! Where the limits moved, a row is compared with the row that now serves all of its people.

use std::cmp::Ordering;

use super::{Change, Changes, Detail, Entry, Field, Value};
use crate::order::joint;
use crate::order::model::{Limit, Order, Row};

pub(super) fn compare(changes: &mut Changes, old: &Order, new: &Order) {
    for row in &old.rows {
        if let Some(after) = same(row, &new.rows) {
            details(changes, row, after);
            continue;
        }
        let row = row.clone();
        changes.push(
            match new.rows.iter().find(|outer| serves_all(outer, &row)) {
                Some(after) if after.amount != row.amount => Change::RowAmount {
                    old: row.amount,
                    new: after.amount,
                    row,
                },
                Some(after) => Change::RowJoined {
                    row,
                    into: after.clone(),
                },
                None => Change::RowGone { row },
            },
        );
    }
    for row in &new.rows {
        let told =
            same(row, &old.rows).is_some() || old.rows.iter().any(|inner| serves_all(row, inner));
        if told {
            continue;
        }
        let row = row.clone();
        changes.push(
            match old.rows.iter().find(|outer| serves_all(outer, &row)) {
                Some(before) if before.amount == row.amount => Change::RowParted {
                    row,
                    from: before.clone(),
                },
                Some(before) => Change::RowNewAmount {
                    old: before.amount,
                    new: row.amount,
                    row,
                },
                None => Change::RowNew {
                    amount: row.amount,
                    row,
                },
            },
        );
    }
    let rule = |order: &Order| Some(Value::BetweenRows(order.between_rows));
    changes.field(Field::BetweenRows, rule(old), rule(new));
}

/// The row with the same printed limits.
fn same<'a>(row: &Row, rows: &'a [Row]) -> Option<&'a Row> {
    rows.iter()
        .find(|other| other.from == row.from && other.to == row.to)
}

fn details(changes: &mut Changes, old: &Row, new: &Row) {
    if old.amount != new.amount {
        changes.push(Change::RowAmount {
            row: old.clone(),
            old: old.amount,
            new: new.amount,
        });
    }
    let of = Entry::Row(old.clone());
    let mut tell = |detail, say: &dyn Fn(&Row) -> Option<Value>| {
        changes.detail(&of, detail, say(old), say(new));
    };
    tell(Detail::PrintedMass, &|row| {
        row.mg.map(|printed| Value::Mass(printed.mass))
    });
    tell(Detail::OrWeightFrom, &|row| {
        row.or_weight_from.clone().map(Value::Weight)
    });
    tell(Detail::Reason, &|row| {
        row.reason.as_deref().and_then(Value::prose)
    });
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
