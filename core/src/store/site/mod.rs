//! What a site asks of many homes at once, kept beside the facts and written with them.
//!
//! Every table here follows from the facts: [`Store::rebuild_site`] makes them anew and comes to the same, in whatever order and in whatever parts the facts arrived.
//! A home itself is never kept: it is folded from its own facts, a few dozen, each time it is asked for.

mod ask;
mod forget;
mod project;

pub use ask::HomeLine;
pub(super) use forget::is_forgotten;
pub(super) use project::Projection;

use rusqlite::types::Type;
use rusqlite::{Row, TransactionBehavior};

use super::rows::{FACT_COLUMNS, FactRow};
use super::{Store, StoreError};
use crate::household::HouseholdId;

impl Store {
    /// Makes everything anew that follows from the facts of a site.
    ///
    /// # Errors
    /// [`StoreError::Damaged`] when a fact is not what was written, or the disk's; the record is as before.
    pub fn rebuild_site(&mut self) -> Result<(), StoreError> {
        let transaction = self
            .connection
            .transaction_with_behavior(TransactionBehavior::Immediate)?;
        rebuild(&transaction)?;
        Ok(transaction.commit()?)
    }
}

/// Empties the tables and fills them from all facts.
pub(super) fn rebuild(connection: &rusqlite::Connection) -> Result<(), StoreError> {
    for table in [
        "site_fact",
        "site_waiting",
        "site_lot",
        "site_back",
        "site_home",
        "site_hand_out",
        "site_hand_out_lot",
        "site_erased",
    ] {
        connection.execute(&format!("DELETE FROM {table}"), [])?;
    }
    let mut projection = Projection::default();
    let mut statement = connection.prepare(&format!(
        "SELECT {FACT_COLUMNS}, number FROM fact WHERE body LIKE '%\"what\":\"site\"%' OR body LIKE '%\"what\":\"correction\"%' ORDER BY number"
    ))?;
    let mut rows = statement.query([])?;
    while let Some(row) = rows.next()? {
        let fact = FactRow::read(row)?.fact()?;
        projection.take(connection, row.get(8)?, &fact)?;
    }
    projection.finish(connection)
}

fn home_of(row: &Row<'_>, column: usize) -> rusqlite::Result<HouseholdId> {
    let bytes: Vec<u8> = row.get(column)?;
    let wrong = || rusqlite::Error::InvalidColumnType(column, "home".to_owned(), Type::Blob);
    Ok(HouseholdId(bytes.try_into().map_err(|_| wrong())?))
}
