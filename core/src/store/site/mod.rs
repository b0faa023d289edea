//! What a site asks of many homes at once, kept beside the facts and written with them.
//!
//! * Every table here follows from the facts: [`Store::rebuild_site`] makes them anew and comes to the same, in whatever order and in whatever parts the facts arrived.
//! * A lot is kept as sums; its movements stand beside them by their places, because a count may arrive after what it comes before.
//! * A home is folded from its own facts, a few dozen, each time it is asked for; what lists and sums need of it is one row, written by the same fold.
//! * A correction belongs to the home of the fact at the beginning of its chain, also when it came before that fact.
//! * Facts that came in past these tables (saved from a damaged file, written by a program without them) are followed before anything else is written or asked.
//! * What is older than the erasure of its home is not in the file: not after it, not after a merge, not after a salvage.

mod ask;
mod chains;
mod forget;
mod handed;
mod homes;
mod lots;
mod name;
mod pins;
mod project;

pub use ask::HomeLine;
pub(super) use project::project;

use rusqlite::types::Type;
use rusqlite::{Connection, Row, TransactionBehavior};

use super::rows::{FACT_COLUMNS, FactRow};
use super::{Store, StoreError};
use crate::household::HouseholdId;
use crate::record::Fact;

/// To be raised whenever the same facts are to give other rows: they are then made anew at the next opening.
const READING: i64 = 3;

/// Facts that are followed at a time.
const PART: i64 = 50_000;

/// All but the names of forgotten facts, which cannot be made anew.
const TABLES: [&str; 11] = [
    "site_fact",
    "site_correction",
    "site_lot",
    "site_move",
    "site_count",
    "site_back",
    "site_home",
    "site_older_code",
    "site_hand_out",
    "site_home_lot",
    "site_erased",
];

impl Store {
    /// Makes everything anew that follows from the facts of a site.
    ///
    /// # Errors
    /// [`StoreError::Damaged`] when a fact is not what was written, or the disk's; the record is as before.
    pub fn rebuild_site(&mut self) -> Result<(), StoreError> {
        let transaction = self
            .connection
            .transaction_with_behavior(TransactionBehavior::Immediate)?;
        set_progress(&transaction, 0, 0)?;
        follow(&transaction)?;
        Ok(transaction.commit()?)
    }
}

/// Follows facts that came in past the tables, where there are any.
pub(super) fn caught_up(mut connection: Connection) -> Result<Connection, StoreError> {
    if is_behind(&connection)? {
        let transaction = connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        follow(&transaction)?;
        transaction.commit()?;
    }
    Ok(connection)
}

/// [`caught_up`] within a transaction.
pub(super) fn follow(connection: &Connection) -> Result<(), StoreError> {
    let (reading, mut upto) = progress(connection)?;
    if reading != READING {
        for table in TABLES {
            connection.execute(&format!("DELETE FROM {table}"), [])?;
        }
        upto = 0;
    }
    while reading != READING || last(connection)? > upto {
        let facts = part(connection, upto)?;
        let Some((number, _)) = facts.last() else {
            return set_progress(connection, READING, upto);
        };
        upto = *number;
        let arrived: Vec<(i64, &Fact)> = facts.iter().map(|(at, fact)| (*at, fact)).collect();
        project(connection, &arrived)?;
    }
    Ok(())
}

fn is_behind(connection: &Connection) -> Result<bool, StoreError> {
    let (reading, upto) = progress(connection)?;
    Ok(reading != READING || last(connection)? > upto)
}

fn last(connection: &Connection) -> Result<i64, StoreError> {
    let mut statement = connection.prepare_cached("SELECT max(number) FROM fact")?;
    let last: Option<i64> = statement.query_row([], |row| row.get(0))?;
    Ok(last.unwrap_or(0))
}

fn progress(connection: &Connection) -> Result<(i64, i64), StoreError> {
    let mut statement = connection.prepare_cached("SELECT reading, fact FROM site_progress")?;
    Ok(statement.query_row([], |row| Ok((row.get(0)?, row.get(1)?)))?)
}

fn set_progress(connection: &Connection, reading: i64, upto: i64) -> Result<(), StoreError> {
    connection
        .prepare_cached("UPDATE site_progress SET reading = ?1, fact = ?2")?
        .execute([reading, upto])?;
    Ok(())
}

fn part(connection: &Connection, after: i64) -> Result<Vec<(i64, Fact)>, StoreError> {
    let mut statement = connection.prepare_cached(&format!(
        "SELECT {FACT_COLUMNS}, number FROM fact WHERE number > ?1 ORDER BY number LIMIT ?2"
    ))?;
    let mut rows = statement.query([after, PART])?;
    let mut facts = Vec::new();
    while let Some(row) = rows.next()? {
        facts.push((row.get(8)?, FactRow::read(row)?.fact()?));
    }
    Ok(facts)
}

fn home_of(row: &Row<'_>, column: usize) -> rusqlite::Result<HouseholdId> {
    let bytes: Vec<u8> = row.get(column)?;
    let wrong = || rusqlite::Error::InvalidColumnType(column, "home".to_owned(), Type::Blob);
    Ok(HouseholdId(bytes.try_into().map_err(|_| wrong())?))
}
