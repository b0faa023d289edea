//! Order files, kept byte for byte: a signature is over bytes.

use rusqlite::{Connection, OptionalExtension, Params, TransactionBehavior, params};

use super::rows::{ORDER_COLUMNS, OrderRow};
use super::{Store, StoreError};
use crate::order::Fingerprint;

/// One order file of the record.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StoredOrder {
    pub id: String,
    pub revision: u32,
    pub fingerprint: Fingerprint,
    /// Exactly as they came.
    pub bytes: Vec<u8>,
    /// A person compared its key or fingerprint.
    pub trusted: bool,
}

impl Store {
    /// Keeps the exact bytes of an order; one that is kept already stays as it is, and so does its trust.
    ///
    /// # Errors
    /// See [`StoreError`]; the record is as before.
    pub fn put_order(
        &mut self,
        id: &str,
        revision: u32,
        bytes: &[u8],
    ) -> Result<Fingerprint, StoreError> {
        let transaction = self
            .connection
            .transaction_with_behavior(TransactionBehavior::Immediate)?;
        OrderRow::of(id, revision, bytes, false).insert(&transaction)?;
        transaction.commit()?;
        Ok(Fingerprint::of(bytes))
    }

    /// The bytes of a revision; of two files that both claim to be it, the trusted one, then the one that came first.
    ///
    /// # Errors
    /// [`StoreError::Damaged`] when they are not what was put in.
    pub fn order(&self, id: &str, revision: u32) -> Result<Option<Vec<u8>>, StoreError> {
        let clause = "WHERE id = ?1 AND revision = ?2 ORDER BY trusted DESC, number LIMIT 1";
        let found = rows(&self.connection, clause, params![id, revision])?;
        Ok(found
            .into_iter()
            .next()
            .map(whole)
            .transpose()?
            .map(|order| order.bytes))
    }

    /// Every order file, in the order in which they came.
    ///
    /// # Errors
    /// [`StoreError::Damaged`] when one is not what was put in.
    pub fn orders(&self) -> Result<Vec<StoredOrder>, StoreError> {
        rows(&self.connection, "ORDER BY number", [])?
            .into_iter()
            .map(whole)
            .collect()
    }

    /// Notes whether a person trusts this file; false if there is no such file.
    ///
    /// # Errors
    /// See [`StoreError`]; the record is as before.
    pub fn trust_order(
        &mut self,
        fingerprint: &Fingerprint,
        trusted: bool,
    ) -> Result<bool, StoreError> {
        let transaction = self
            .connection
            .transaction_with_behavior(TransactionBehavior::Immediate)?;
        let sql = format!("SELECT {ORDER_COLUMNS} FROM order_file WHERE fingerprint = ?1");
        let found = transaction
            .query_row(&sql, [fingerprint.as_bytes()], OrderRow::read)
            .optional()?;
        let Some(row) = found.map(|row| row.with_trust(trusted)) else {
            return Ok(false);
        };
        transaction.execute(
            "UPDATE order_file SET trusted = ?2, digest = ?3 WHERE fingerprint = ?1",
            params![row.fingerprint, row.trusted, row.digest],
        )?;
        transaction.commit()?;
        Ok(true)
    }
}

/// Order rows by the rest of a query.
pub(super) fn rows(
    connection: &Connection,
    clause: &str,
    with: impl Params,
) -> Result<Vec<OrderRow>, StoreError> {
    let mut statement =
        connection.prepare(&format!("SELECT {ORDER_COLUMNS} FROM order_file {clause}"))?;
    let rows = statement.query_map(with, OrderRow::read)?;
    Ok(rows.collect::<rusqlite::Result<Vec<OrderRow>>>()?)
}

fn whole(row: OrderRow) -> Result<StoredOrder, StoreError> {
    if !row.is_whole() {
        return Err(StoreError::damaged(
            "an order file does not match its digest",
        ));
    }
    Ok(StoredOrder {
        id: row.id,
        revision: u32::try_from(row.revision).map_err(StoreError::damaged)?,
        fingerprint: Fingerprint::of(&row.bytes),
        bytes: row.bytes,
        trusted: row.trusted,
    })
}
