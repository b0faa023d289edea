//! The facts of one home, and the rows they come to.

use std::collections::{BTreeMap, BTreeSet};

use rusqlite::{Connection, params};

use super::super::rows::{FACT_COLUMNS, FactRow};
use super::super::{StoreError, facts};
use super::{chains, forget};
use crate::household::HouseholdId;
use crate::record::Fact;
use crate::site::{Home, PeopleMark};

/// Brings a home up to date with new facts. Gives the numbers of those that were forgotten.
pub(super) fn update(
    connection: &Connection,
    id: HouseholdId,
    new: &BTreeSet<i64>,
    arrived: &[(i64, &Fact)],
) -> Result<BTreeSet<i64>, StoreError> {
    let before = numbers_of(connection, id)?;
    let mut mine: BTreeMap<i64, Fact> = BTreeMap::new();
    for number in before.union(new) {
        let at_hand = arrived.binary_search_by_key(number, |(at, _)| *at).ok();
        let fact = match at_hand.and_then(|at| arrived.get(at)) {
            Some((_, fact)) => Some((*fact).clone()),
            None => chains::numbered(connection, *number)?,
        };
        mine.extend(fact.map(|fact| (*number, fact)));
    }
    let gone = match forget::since(connection, id)? {
        Some(since) => forget::older(&mine, since),
        None => BTreeSet::new(),
    };
    for number in &gone {
        if let Some(fact) = mine.remove(number) {
            forget::remove(connection, *number, &fact, Some(id))?;
        }
    }
    let mut statement =
        connection.prepare_cached("INSERT INTO site_fact (home, fact) VALUES (?1, ?2)")?;
    for number in mine.keys().filter(|number| !before.contains(number)) {
        statement.execute(params![id.0, number])?;
    }
    let facts: Vec<Fact> = mine.into_values().collect();
    if !before.is_empty() {
        clear(connection, id)?;
    }
    if let Some(home) = Home::fold(id, &facts) {
        write(connection, &home)?;
    }
    Ok(gone)
}

/// A home, folded from its own facts.
pub(super) fn fold(connection: &Connection, id: HouseholdId) -> Result<Option<Home>, StoreError> {
    let rows = facts::rows(
        connection,
        "WHERE number IN (SELECT fact FROM site_fact WHERE home = ?1)",
        [&id.0],
    )?;
    let facts = rows.iter().map(FactRow::fact);
    Ok(Home::fold(id, &facts.collect::<Result<Vec<Fact>, _>>()?))
}

/// The facts of a home with the numbers of their arrival.
pub(super) fn numbered(
    connection: &Connection,
    id: HouseholdId,
) -> Result<Vec<(u64, Fact)>, StoreError> {
    let mut statement = connection.prepare_cached(&format!(
        "SELECT {FACT_COLUMNS}, number FROM fact WHERE number IN (SELECT fact FROM site_fact WHERE home = ?1)"
    ))?;
    let mut rows = statement.query([&id.0])?;
    let mut facts = Vec::new();
    while let Some(row) = rows.next()? {
        facts.push((row.get(8)?, FactRow::read(row)?.fact()?));
    }
    Ok(facts)
}

fn numbers_of(connection: &Connection, id: HouseholdId) -> Result<BTreeSet<i64>, StoreError> {
    let mut statement = connection.prepare_cached("SELECT fact FROM site_fact WHERE home = ?1")?;
    let numbers = statement.query_map([&id.0], |row| row.get(0))?;
    Ok(numbers.collect::<rusqlite::Result<_>>()?)
}

fn clear(connection: &Connection, id: HouseholdId) -> Result<(), StoreError> {
    for table in [
        "site_home",
        "site_older_code",
        "site_hand_out",
        "site_home_lot",
    ] {
        connection
            .prepare_cached(&format!("DELETE FROM {table} WHERE home = ?1"))?
            .execute([&id.0])?;
    }
    Ok(())
}

/// The row of a home, and its hand-outs.
fn write(connection: &Connection, home: &Home) -> Result<(), StoreError> {
    let seen = home.seen.last();
    let mark = seen.and_then(|seen| PeopleMark::of(&seen.code));
    let last = home.handed_out.last();
    let waiting = seen.is_some_and(|seen| last.is_none_or(|out| out.at < seen.at));
    connection
        .prepare_cached(
            "INSERT INTO site_home (home, words, folded, issue, seen, people, shelf, mark, waiting, hand_outs, to_settle) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11)",
        )?
        .execute(params![
            home.id.0,
            home.words,
            home.words.as_ref().map(|words| words.to_lowercase()),
            seen.map(|seen| seen.code.issue),
            seen.map(|seen| seen.at.as_second()),
            count(seen.map_or(0, |seen| seen.code.people.len())),
            mark.as_ref().map(PeopleMark::shelf),
            mark.as_ref().map(json).transpose()?,
            waiting,
            count(home.handed_out.len()),
            count(home.to_settle().len()),
        ])?;
    let older = home.seen.split_last().map_or(&[][..], |(_, older)| older);
    for mark in older.iter().filter_map(|seen| PeopleMark::of(&seen.code)) {
        connection
            .prepare_cached(
                "INSERT OR IGNORE INTO site_older_code (home, shelf, mark) VALUES (?1, ?2, ?3)",
            )?
            .execute(params![home.id.0, mark.shelf(), json(&mark)?])?;
    }
    for (turn, out) in home.handed_out.iter().enumerate() {
        let people = out.people.iter();
        let people: Vec<u8> = people.flat_map(|person| person.to_be_bytes()).collect();
        connection
            .prepare_cached(
                "INSERT INTO site_hand_out (home, turn, at, nanos, people, enough_until, lines) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)",
            )?
            .execute(params![
                home.id.0,
                count(turn),
                out.at.as_second(),
                out.at.subsec_nanosecond(),
                people,
                out.enough_until.map(|day| day.to_string()),
                json(&out.lines)?,
            ])?;
        for line in &out.lines {
            connection
                .prepare_cached(
                    "INSERT OR IGNORE INTO site_home_lot (lot, product, home) VALUES (?1, ?2, ?3)",
                )?
                .execute(params![line.lot.lot, line.lot.product, home.id.0])?;
        }
    }
    Ok(())
}

/// More than fit do not exist in any memory.
fn count(many: usize) -> i64 {
    i64::try_from(many).unwrap_or(i64::MAX)
}

fn json<T: serde::Serialize>(value: &T) -> Result<String, StoreError> {
    serde_json::to_string(value).map_err(|_| StoreError::Unstorable {
        what: "a line of a home that JSON cannot hold",
    })
}
