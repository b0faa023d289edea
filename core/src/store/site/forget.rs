//! Forgetting a home after it was handed over: its facts leave the file, and do not come back with a merge.

use rusqlite::{Connection, OptionalExtension, TransactionBehavior, params};

use super::super::rows::FactRow;
use super::super::{Store, StoreError};
use super::project::Projection;
use crate::household::HouseholdId;
use crate::record::{Event, Fact, Hlc, SiteEvent};

/// Where an erasure stands in the one order of all facts.
type Since = (i64, i64, String, i64);

impl Store {
    /// Writes the erasure and takes every older fact about that home out of the file; counts of stock stay.
    ///
    /// `erasure` must be a [`SiteEvent::HomeErased`]; of any other fact nothing is forgotten.
    ///
    /// # Errors
    /// As [`Store::append`]; the record is as before.
    pub fn forget_home(&mut self, erasure: &Fact) -> Result<usize, StoreError> {
        let Event::Site {
            site: SiteEvent::HomeErased { home, .. },
        } = &erasure.event
        else {
            return Ok(0);
        };
        self.append(std::slice::from_ref(erasure))?;
        // What is deleted is overwritten, not only unlinked.
        self.connection.pragma_update(None, "secure_delete", "ON")?;
        let transaction = self
            .connection
            .transaction_with_behavior(TransactionBehavior::Immediate)?;
        let row = FactRow::of(erasure)?;
        let gone = transaction.execute(
            "DELETE FROM fact WHERE number IN (SELECT fact FROM site_fact WHERE home = ?1) AND id <> ?2 AND (millis, counter, device, sequence) < (?3, ?4, ?5, ?6)",
            params![
                home.0,
                row.id,
                row.millis,
                row.counter,
                row.device,
                row.sequence
            ],
        )?;
        transaction.execute(
            "DELETE FROM site_fact WHERE home = ?1 AND fact NOT IN (SELECT number FROM fact)",
            [&home.0],
        )?;
        let mut projection = Projection::default();
        projection.touch(*home);
        projection.finish(&transaction)?;
        transaction.commit()?;
        self.connection
            .query_row("PRAGMA wal_checkpoint(TRUNCATE)", [], |_| Ok(()))?;
        Ok(gone)
    }
}

/// Remembers the latest erasure of a home.
pub(super) fn note(
    connection: &Connection,
    home: HouseholdId,
    fact: &Fact,
) -> Result<(), StoreError> {
    let row = FactRow::of(fact)?;
    connection
        .prepare_cached(
            "INSERT INTO site_erased (home, millis, counter, device, sequence) VALUES (?1, ?2, ?3, ?4, ?5)
             ON CONFLICT (home) DO UPDATE SET millis = excluded.millis, counter = excluded.counter, device = excluded.device, sequence = excluded.sequence
             WHERE (excluded.millis, excluded.counter, excluded.device, excluded.sequence) > (millis, counter, device, sequence)",
        )?
        .execute(params![
            home.0,
            row.millis,
            row.counter,
            row.device,
            row.sequence
        ])?;
    Ok(())
}

/// Whether a fact is about a home that was forgotten after it.
pub(in crate::store) fn is_forgotten(
    connection: &Connection,
    fact: &Fact,
) -> Result<bool, StoreError> {
    let Event::Site { site } = &fact.event else {
        return Ok(false);
    };
    let (Some(home), false) = (site.home(), matches!(site, SiteEvent::HomeErased { .. })) else {
        return Ok(false);
    };
    let since: Option<Since> = connection
        .prepare_cached(
            "SELECT millis, counter, device, sequence FROM site_erased WHERE home = ?1",
        )?
        .query_row([&home.0], |row| {
            Ok((row.get(0)?, row.get(1)?, row.get(2)?, row.get(3)?))
        })
        .optional()?;
    let Hlc { millis, counter } = fact.stamp.hlc;
    let device = fact.stamp.device.0.to_string();
    let sequence = i64::try_from(fact.stamp.sequence).unwrap_or(i64::MAX);
    Ok(since.is_some_and(|since| (millis, i64::from(counter), device, sequence) < since))
}
