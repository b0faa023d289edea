//! Corrections and what they correct, upwards and downwards.

use std::collections::BTreeSet;

use rusqlite::Connection;

use super::super::rows::FactRow;
use super::super::{StoreError, facts};
use crate::record::{Event, Fact, FactId};

/// Where a chain of corrections begins.
pub(super) enum Root {
    Fact(Box<Fact>),
    /// Nothing of this id has arrived.
    Missing(FactId),
    /// Corrections of one another, and of nothing else.
    Ring,
}

/// Remembers what a correction corrects.
pub(super) fn note(connection: &Connection, target: FactId, number: i64) -> Result<(), StoreError> {
    connection
        .prepare_cached("INSERT OR IGNORE INTO site_correction (target, fact) VALUES (?1, ?2)")?
        .execute((target.0.to_string(), number))?;
    Ok(())
}

/// Whether there is any correction at all.
pub(super) fn any(connection: &Connection) -> Result<bool, StoreError> {
    let mut statement = connection.prepare_cached("SELECT 1 FROM site_correction LIMIT 1")?;
    Ok(statement.exists([])?)
}

/// The beginning of the chain of a correction of `target`.
pub(super) fn root(connection: &Connection, target: FactId) -> Result<Root, StoreError> {
    let (mut at, mut seen) = (target, BTreeSet::new());
    while seen.insert(at) {
        let Some(fact) = fact(connection, at)? else {
            return Ok(Root::Missing(at));
        };
        match fact.event {
            Event::Correction { target, .. } => at = target,
            _ => return Ok(Root::Fact(Box::new(fact))),
        }
    }
    Ok(Root::Ring)
}

/// Numbers of the corrections of a fact, and of theirs.
pub(super) fn below(connection: &Connection, id: FactId) -> Result<BTreeSet<i64>, StoreError> {
    let mut numbers = BTreeSet::new();
    let mut open = vec![id.0.to_string()];
    let mut statement = connection.prepare_cached(
        "SELECT number, id FROM site_correction JOIN fact ON number = fact WHERE target = ?1",
    )?;
    while let Some(id) = open.pop() {
        let found = statement.query_map([&id], |row| Ok((row.get(0)?, row.get(1)?)))?;
        for correction in found {
            let (number, id) = correction?;
            if numbers.insert(number) {
                open.push(id);
            }
        }
    }
    Ok(numbers)
}

/// Numbers of the corrections whose target has not arrived.
pub(super) fn waiting(connection: &Connection) -> Result<Vec<i64>, StoreError> {
    let mut statement = connection.prepare_cached(
        "SELECT fact FROM site_correction WHERE target NOT IN (SELECT id FROM fact) ORDER BY fact",
    )?;
    let numbers = statement.query_map([], |row| row.get(0))?;
    Ok(numbers.collect::<rusqlite::Result<_>>()?)
}

fn fact(connection: &Connection, id: FactId) -> Result<Option<Fact>, StoreError> {
    let found = facts::rows(connection, "WHERE id = ?1", [id.0.to_string()])?;
    found.first().map(FactRow::fact).transpose()
}

/// The fact of a number.
pub(super) fn numbered(connection: &Connection, number: i64) -> Result<Option<Fact>, StoreError> {
    let found = facts::rows(connection, "WHERE number = ?1", [number])?;
    found.first().map(FactRow::fact).transpose()
}
