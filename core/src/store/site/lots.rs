//! Sums of the movements of each lot, and the last count of it.

use std::collections::BTreeMap;

use jiff::Timestamp;
use rusqlite::{Connection, OptionalExtension, Row, params};

use super::super::rows::FactRow;
use super::super::{StoreError, facts};
use crate::record::{Event, Fact, FactId, LotName, SiteEvent, Stamp};
use crate::site::{LotStock, Movement, Stock};

/// The lots that facts of one transaction move.
#[derive(Debug, Default)]
pub(super) struct Lots(BTreeMap<LotName, Moved>);

#[derive(Debug)]
struct Moved {
    stock: LotStock,
    /// The last count, and where it stands.
    count: Option<(Vec<u8>, u32)>,
    /// Something came in that stands before the count, or a count.
    is_late: bool,
    /// The package was read once more, or something else was typed of it: all that was said is put in order again.
    is_read: bool,
}

impl Lots {
    /// Adds what one new fact does.
    pub(super) fn take(
        &mut self,
        connection: &Connection,
        stamp: Stamp,
        movement: &Movement<'_>,
    ) -> Result<(), StoreError> {
        let name = movement.lot;
        let place = place(stamp);
        let mut movement = movement.clone();
        if !self.0.contains_key(name) {
            let known = Moved::of(connection, name)?;
            self.0.insert(name.clone(), known);
        }
        let Some(moved) = self.0.get_mut(name) else {
            return Ok(());
        };
        let last = moved.count.as_ref().map(|(last, _)| last.as_slice());
        let is_before = last.is_some_and(|last| place.as_slice() < last);
        moved.is_read |= movement.is_reading
            || movement
                .words
                .is_some_and(|words| moved.stock.is_news(words));
        if movement.is_reading {
            // It moves no packs.
        } else if let Some(hand_out) = movement.once {
            movement.back = come_back(connection, hand_out, &place, &movement)?;
            moved.is_late |= last.is_some();
        } else if let Some(counted) = movement.counted.take() {
            put(connection, "site_count", name, &place, i64::from(counted))?;
            if !is_before {
                moved.count = Some((place.to_vec(), counted));
                moved.is_late = true;
            }
        } else {
            let packs = whole(movement.received)?.saturating_sub(whole(movement.out)?);
            put(connection, "site_move", name, &place, packs)?;
            moved.is_late |= is_before;
        }
        moved.stock.add(&movement);
        Ok(())
    }

    pub(super) fn write(self, connection: &Connection) -> Result<(), StoreError> {
        for (name, moved) in self.0 {
            let mut lot = moved.stock;
            if let Some((place, counted)) = moved.count.filter(|_| moved.is_late) {
                lot.set_count(counted, since(connection, &name, &place)?);
            }
            if moved.is_read {
                let said = Stock::fold(&said_of(connection, &name)?);
                if let Some(said) = said.lot(&name) {
                    (lot.expiry, lot.each, lot.unlike) = (said.expiry, said.each, said.unlike);
                }
            }
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

impl Moved {
    fn of(connection: &Connection, name: &LotName) -> Result<Moved, StoreError> {
        let mut statement = connection.prepare_cached(
            "SELECT place, counted FROM site_count WHERE product = ?1 AND lot = ?2 ORDER BY place DESC LIMIT 1",
        )?;
        let count = statement
            .query_row(params![name.product, name.lot], |row| {
                Ok((row.get(0)?, row.get(1)?))
            })
            .optional()?;
        Ok(Moved {
            stock: one(connection, name)?.unwrap_or_default(),
            count,
            is_late: false,
            is_read: false,
        })
    }
}

/// A stamp as bytes that sort as stamps do.
fn place(stamp: Stamp) -> [u8; 36] {
    let mut place = [0; 36];
    let (hlc, device) = (stamp.hlc, stamp.device.0);
    // The sign turned, so that what is below zero comes first.
    let millis = hlc.millis.cast_unsigned() ^ (1 << 63);
    let parts = millis.to_be_bytes().into_iter();
    let parts = parts.chain(hlc.counter.to_be_bytes());
    let parts = parts.chain(device.into_bytes());
    let parts = parts.chain(stamp.sequence.to_be_bytes());
    for (to, from) in place.iter_mut().zip(parts) {
        *to = from;
    }
    place
}

fn put(
    connection: &Connection,
    table: &str,
    name: &LotName,
    place: &[u8],
    packs: i64,
) -> Result<(), StoreError> {
    connection
        .prepare_cached(&format!("INSERT INTO {table} VALUES (?1, ?2, ?3, ?4)"))?
        .execute(params![name.product, name.lot, place, packs])?;
    Ok(())
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
    place: &[u8],
    movement: &Movement<'_>,
) -> Result<u64, StoreError> {
    let (id, lot) = (hand_out.0.to_string(), movement.lot);
    let before: Option<u64> = connection
        .prepare_cached(
            "SELECT max(packs) FROM site_back WHERE product = ?1 AND lot = ?2 AND hand_out = ?3",
        )?
        .query_row(params![lot.product, lot.lot, id], |row| row.get(0))?;
    connection
        .prepare_cached("INSERT INTO site_back (product, lot, hand_out, place, packs) VALUES (?1, ?2, ?3, ?4, ?5)")?
        .execute(params![
            lot.product,
            lot.lot,
            id,
            place,
            whole(movement.back)?
        ])?;
    Ok(movement.back.saturating_sub(before.unwrap_or(0)))
}

/// Packs that were moved behind a place.
fn since(connection: &Connection, name: &LotName, place: &[u8]) -> Result<i64, StoreError> {
    let mut moved = connection.prepare_cached(
        "SELECT coalesce(sum(packs), 0) FROM site_move WHERE product = ?1 AND lot = ?2 AND place > ?3",
    )?;
    let moved: i64 = moved.query_row(params![name.product, name.lot, place], |row| row.get(0))?;
    let mut back = connection.prepare_cached(
        "SELECT coalesce(sum(more), 0) FROM (
           SELECT max(packs) - coalesce(max(packs) FILTER (WHERE place < ?3), 0) AS more
           FROM site_back WHERE product = ?1 AND lot = ?2 GROUP BY hand_out)",
    )?;
    let back: i64 = back.query_row(params![name.product, name.lot, place], |row| row.get(0))?;
    Ok(moved.saturating_add(back))
}

/// Every fact that says something of the packages of a lot, in the one order.
///
/// There is no index for it: it is asked only where two things were said.
pub(super) fn said_of(connection: &Connection, name: &LotName) -> Result<Vec<Fact>, StoreError> {
    let clause = "WHERE instr(body, '\"lot-received\"') > 0 OR instr(body, '\"lot-read\"') > 0 ORDER BY millis, counter, device, sequence";
    let rows = facts::rows(connection, clause, [])?;
    let facts: Vec<Fact> = rows.iter().map(FactRow::fact).collect::<Result<_, _>>()?;
    let is_said = |fact: &Fact| match &fact.event {
        Event::Site {
            site: SiteEvent::LotReceived { lot, .. } | SiteEvent::LotRead { lot, .. },
        } => lot == name,
        _ => false,
    };
    Ok(facts.into_iter().filter(is_said).collect())
}

/// When a lot was counted last, by the clock of the facts.
pub(super) fn last_count(
    connection: &Connection,
    name: &LotName,
) -> Result<Option<Timestamp>, StoreError> {
    let mut statement = connection
        .prepare_cached("SELECT max(place) FROM site_count WHERE product = ?1 AND lot = ?2")?;
    let place: Option<Vec<u8>> =
        statement.query_row(params![name.product, name.lot], |row| row.get(0))?;
    let millis = place.as_deref().and_then(<[u8]>::first_chunk::<8>);
    let millis = millis.map(|bytes| (u64::from_be_bytes(*bytes) ^ (1 << 63)).cast_signed());
    Ok(millis.and_then(|millis| Timestamp::from_millisecond(millis).ok()))
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
