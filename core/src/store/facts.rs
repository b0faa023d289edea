//! Facts in and out.

use rusqlite::{Connection, OptionalExtension, Params, TransactionBehavior};

use super::rows::{FACT_COLUMNS, FactRow};
use super::{Store, StoreError};
use crate::record::{Clock, DeviceId, Fact, Hlc};

/// What became of facts that were handed in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Appended {
    pub added: usize,
    /// These were in already, word for word, or are about a home that was forgotten.
    pub known: usize,
    /// Number of the last arrival, for [`Store::facts_since`].
    pub arrival: u64,
}

impl Store {
    /// Writes what one action of a person brought about, or what another device sent: all of it or nothing.
    ///
    /// When this returns, the facts are on the disk.
    ///
    /// # Errors
    /// [`StoreError::OtherContent`], [`StoreError::NumberTaken`], or the disk's; the record is as before.
    pub fn append(&mut self, facts: &[Fact]) -> Result<Appended, StoreError> {
        let transaction = self
            .connection
            .transaction_with_behavior(TransactionBehavior::Immediate)?;
        let (mut added, mut known) = (0, 0);
        #[cfg(feature = "exchange")]
        let mut projection = super::site::Projection::default();
        for fact in facts {
            let row = FactRow::of(fact)?;
            match digest_of(&transaction, &row.id)? {
                Some(digest) if digest == row.digest => known += 1,
                Some(_) => return Err(StoreError::OtherContent(fact.id)),
                None if is_taken(&transaction, &row)? => {
                    return Err(StoreError::NumberTaken {
                        device: fact.stamp.device,
                        sequence: fact.stamp.sequence,
                    });
                }
                #[cfg(feature = "exchange")]
                None if super::site::is_forgotten(&transaction, fact)? => known += 1,
                None => {
                    added += row.insert(&transaction)?;
                    #[cfg(feature = "exchange")]
                    projection.take(&transaction, transaction.last_insert_rowid(), fact)?;
                }
            }
        }
        #[cfg(feature = "exchange")]
        projection.finish(&transaction)?;
        let arrival = last_arrival(&transaction)?;
        transaction.commit()?;
        Ok(Appended {
            added,
            known,
            arrival,
        })
    }

    /// Every fact, in the one order of all facts.
    ///
    /// # Errors
    /// [`StoreError::Damaged`] when one of them is not what was written.
    pub fn facts(&self) -> Result<Vec<Fact>, StoreError> {
        self.facts_since(0)
    }

    /// The facts that arrived after the given arrival, in the one order of all facts.
    ///
    /// # Errors
    /// As [`Store::facts`].
    pub fn facts_since(&self, arrival: u64) -> Result<Vec<Fact>, StoreError> {
        let arrival = i64::try_from(arrival).unwrap_or(i64::MAX);
        let clause = "WHERE number > ?1 ORDER BY millis, counter, device, sequence";
        rows(&self.connection, clause, [arrival])?
            .iter()
            .map(FactRow::fact)
            .collect()
    }

    /// Number of the last arrival; 0 before the first.
    ///
    /// # Errors
    /// See [`StoreError`].
    pub fn arrivals(&self) -> Result<u64, StoreError> {
        last_arrival(&self.connection)
    }

    /// The clock of a device, never behind anything in the record.
    ///
    /// # Errors
    /// See [`StoreError`].
    pub fn clock(&self, own: DeviceId) -> Result<Clock, StoreError> {
        let last = self
            .connection
            .query_row(
                "SELECT millis, counter FROM fact ORDER BY millis DESC, counter DESC LIMIT 1",
                [],
                |row| {
                    Ok(Hlc {
                        millis: row.get(0)?,
                        counter: row.get(1)?,
                    })
                },
            )
            .optional()?;
        let sequence: Option<u64> = self.connection.query_row(
            "SELECT max(sequence) FROM fact WHERE device = ?1",
            [own.0.to_string()],
            |row| row.get(0),
        )?;
        Ok(Clock {
            last: last.unwrap_or_default(),
            sequence: sequence.unwrap_or(0),
        })
    }
}

/// Fact rows by the rest of a query.
pub(super) fn rows(
    connection: &Connection,
    clause: &str,
    with: impl Params,
) -> Result<Vec<FactRow>, StoreError> {
    let mut statement = connection.prepare(&format!("SELECT {FACT_COLUMNS} FROM fact {clause}"))?;
    let rows = statement.query_map(with, FactRow::read)?;
    Ok(rows.collect::<rusqlite::Result<Vec<FactRow>>>()?)
}

fn digest_of(connection: &Connection, id: &str) -> Result<Option<Vec<u8>>, StoreError> {
    let mut statement = connection.prepare_cached("SELECT digest FROM fact WHERE id = ?1")?;
    Ok(statement.query_row([id], |row| row.get(0)).optional()?)
}

/// Whether another fact of the device has this number.
pub(super) fn is_taken(connection: &Connection, row: &FactRow) -> Result<bool, StoreError> {
    let mut statement =
        connection.prepare_cached("SELECT 1 FROM fact WHERE device = ?1 AND sequence = ?2")?;
    Ok(statement.exists((&row.device, row.sequence))?)
}

fn last_arrival(connection: &Connection) -> Result<u64, StoreError> {
    let last: Option<u64> =
        connection.query_row("SELECT max(number) FROM fact", [], |row| row.get(0))?;
    Ok(last.unwrap_or(0))
}
