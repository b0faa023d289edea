//! Sums of the movements of each lot.

use std::collections::BTreeMap;

use rusqlite::{Connection, OptionalExtension, Row, params};

use super::super::StoreError;
use crate::record::{FactId, LotName};
use crate::site::{LotStock, Movement, Stock};

/// The lots that facts of one transaction move.
#[derive(Debug, Default)]
pub(super) struct Lots(BTreeMap<LotName, LotStock>);

impl Lots {
    /// Adds what one new fact does.
    pub(super) fn take(
        &mut self,
        connection: &Connection,
        movement: &Movement<'_>,
    ) -> Result<(), StoreError> {
        let lot = movement.lot;
        let mut movement = movement.clone();
        if let Some(hand_out) = movement.once {
            movement.back = come_back(connection, hand_out, &movement)?;
        }
        if !self.0.contains_key(lot) {
            let known = one(connection, lot)?.unwrap_or_default();
            self.0.insert(lot.clone(), known);
        }
        if let Some(stock) = self.0.get_mut(lot) {
            stock.add(&movement);
        }
        Ok(())
    }

    pub(super) fn write(self, connection: &Connection) -> Result<(), StoreError> {
        for (name, lot) in &self.0 {
            connection
                .prepare_cached(
                    "INSERT OR REPLACE INTO site_lot (product, lot, expiry, each, received, out, back, counted, unlike) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)",
                )?
                .execute(params![
                    name.product,
                    name.lot,
                    lot.expiry.map(|day| day.to_string()),
                    lot.each,
                    whole(lot.received)?,
                    whole(lot.out)?,
                    whole(lot.back)?,
                    lot.counted,
                    lot.unlike,
                ])?;
        }
        Ok(())
    }
}

fn whole(packs: u64) -> Result<i64, StoreError> {
    i64::try_from(packs).map_err(|_| StoreError::Unstorable {
        what: "a number of packs beyond 9 quintillion",
    })
}

/// How many more packs came back from a hand-out than was said before.
fn come_back(
    connection: &Connection,
    hand_out: FactId,
    movement: &Movement<'_>,
) -> Result<u64, StoreError> {
    let (id, lot) = (hand_out.0.to_string(), movement.lot);
    let before: Option<u64> = connection
        .prepare_cached(
            "SELECT packs FROM site_back WHERE hand_out = ?1 AND product = ?2 AND lot = ?3",
        )?
        .query_row(params![id, lot.product, lot.lot], |row| row.get(0))
        .optional()?;
    let more = movement.back.saturating_sub(before.unwrap_or(0));
    if before.is_none() || more > 0 {
        connection
            .prepare_cached(
                "INSERT OR REPLACE INTO site_back (hand_out, product, lot, packs) VALUES (?1, ?2, ?3, ?4)",
            )?
            .execute(params![id, lot.product, lot.lot, whole(movement.back)?])?;
    }
    Ok(more)
}

const LOT: &str = "expiry, each, received, out, back, counted, unlike";

/// What stands on the shelves.
pub(super) fn all(connection: &Connection) -> Result<Stock, StoreError> {
    let mut statement =
        connection.prepare_cached(&format!("SELECT product, lot, {LOT} FROM site_lot"))?;
    let lots = statement.query_map([], |row| {
        let name = LotName {
            product: row.get(0)?,
            lot: row.get(1)?,
        };
        Ok((name, lot_of(row, 2)?))
    })?;
    Ok(Stock::from_lots(
        lots.collect::<rusqlite::Result<Vec<_>>>()?,
    ))
}

fn one(connection: &Connection, name: &LotName) -> Result<Option<LotStock>, StoreError> {
    let mut statement = connection.prepare_cached(&format!(
        "SELECT {LOT} FROM site_lot WHERE product = ?1 AND lot = ?2"
    ))?;
    Ok(statement
        .query_row(params![name.product, name.lot], |row| lot_of(row, 0))
        .optional()?)
}

fn lot_of(row: &Row<'_>, from: usize) -> rusqlite::Result<LotStock> {
    let expiry: Option<String> = row.get(from)?;
    Ok(LotStock {
        expiry: super::ask::date(from, expiry)?,
        each: row.get(from + 1)?,
        received: row.get(from + 2)?,
        out: row.get(from + 3)?,
        back: row.get(from + 4)?,
        counted: row.get(from + 5)?,
        unlike: row.get(from + 6)?,
    })
}
