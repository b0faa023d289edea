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

/// How many facts left the file, because they are older than the erasure of the home they are about.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Forgot {
    /// Of those that had just arrived.
    pub(super) new: usize,
    pub(super) older: usize,
}

impl Store {
    /// Writes what one action of a person brought about, or what another device sent: all of it or nothing.
    ///
    /// When this returns, the facts are on the disk.
    ///
    /// # Errors
    /// [`StoreError::OtherContent`], [`StoreError::NumberTaken`], or the disk's; the record is as before.
    pub fn append(&mut self, facts: &[Fact]) -> Result<Appended, StoreError> {
        Ok(self.append_and_forget(facts)?.0)
    }

    /// [`Store::append`], with what left the file because of it.
    pub(super) fn append_and_forget(
        &mut self,
        facts: &[Fact],
    ) -> Result<(Appended, Forgot), StoreError> {
        let transaction = self
            .connection
            .transaction_with_behavior(TransactionBehavior::Immediate)?;
        #[cfg(feature = "exchange")]
        super::site::follow(&transaction)?;
        let mut written: Vec<(i64, &Fact)> = Vec::new();
        for fact in facts {
            let row = FactRow::of(fact)?;
            match digest_of(&transaction, &row.id)? {
                Some(digest) if digest == row.digest => {}
                Some(_) => return Err(StoreError::OtherContent(fact.id)),
                None if is_taken(&transaction, &row)? => {
                    return Err(StoreError::NumberTaken {
                        device: fact.stamp.device,
                        sequence: fact.stamp.sequence,
                    });
                }
                None if is_forgotten(&transaction, &row)? => {}
                None => {
                    row.insert(&transaction)?;
                    written.push((transaction.last_insert_rowid(), fact));
                }
            }
        }
        #[cfg(feature = "exchange")]
        let forgot = super::site::project(&transaction, &written)?;
        #[cfg(not(feature = "exchange"))]
        let forgot = Forgot::default();
        let added = written.len().saturating_sub(forgot.new);
        let appended = Appended {
            added,
            known: facts.len().saturating_sub(added),
            arrival: last_arrival(&transaction)?,
        };
        transaction.commit()?;
        self.log_to_cut |= forgot != Forgot::default();
        Ok((appended, forgot))
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
            "SELECT max(sequence) FROM (SELECT sequence FROM fact WHERE device = ?1 UNION ALL SELECT sequence FROM site_forgotten WHERE device = ?1)",
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

/// Whether every fact matches its digest. One at a time: a site has a million of them.
pub(super) fn are_whole(connection: &Connection) -> Result<bool, StoreError> {
    let mut statement = connection.prepare(&format!("SELECT {FACT_COLUMNS} FROM fact"))?;
    let mut rows = statement.query([])?;
    while let Some(row) = rows.next()? {
        if !FactRow::read(row)?.is_whole() {
            return Ok(false);
        }
    }
    Ok(true)
}

fn digest_of(connection: &Connection, id: &str) -> Result<Option<Vec<u8>>, StoreError> {
    let mut statement = connection.prepare_cached("SELECT digest FROM fact WHERE id = ?1")?;
    Ok(statement.query_row([id], |row| row.get(0)).optional()?)
}

/// Whether another fact of the device has this number, or had it before it was forgotten.
pub(super) fn is_taken(connection: &Connection, row: &FactRow) -> Result<bool, StoreError> {
    let mut statement = connection.prepare_cached(
        "SELECT 1 FROM fact WHERE device = ?1 AND sequence = ?2
         UNION ALL SELECT 1 FROM site_forgotten WHERE device = ?1 AND sequence = ?2 AND id <> ?3",
    )?;
    Ok(statement.exists((&row.device, row.sequence, &row.id))?)
}

/// Whether this fact was in once and was forgotten.
fn is_forgotten(connection: &Connection, row: &FactRow) -> Result<bool, StoreError> {
    let mut statement = connection.prepare_cached("SELECT 1 FROM site_forgotten WHERE id = ?1")?;
    Ok(statement.exists([&row.id])?)
}

/// Whether anything was ever forgotten here.
pub(super) fn has_forgotten(connection: &Connection) -> Result<bool, StoreError> {
    let mut statement = connection.prepare("SELECT 1 FROM site_forgotten LIMIT 1")?;
    Ok(statement.exists([])?)
}

fn last_arrival(connection: &Connection) -> Result<u64, StoreError> {
    let last: Option<u64> =
        connection.query_row("SELECT max(number) FROM fact", [], |row| row.get(0))?;
    Ok(last.unwrap_or(0))
}
