//! Questions of a site.

use jiff::Timestamp;
use rusqlite::{Connection, OptionalExtension, Row, params};

use super::super::{Store, StoreError};
use super::{home_of, project};
use crate::household::HouseholdId;
use crate::record::{HandOutLine, LotName};
use crate::site::{Home, LotStock, PeopleMark, Stock, Totals};

/// A home in a list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HomeLine {
    pub home: HouseholdId,
    pub words: Option<String>,
    pub people: u32,
    /// When its newest code was read.
    pub seen: Option<Timestamp>,
    /// The last hand-out.
    pub served: Option<Timestamp>,
    pub hand_outs: u32,
}

const LINE: &str = "home, words, people, seen, served, hand_outs";

impl Store {
    /// A home, folded from its own facts; none of which nothing is known.
    ///
    /// # Errors
    /// [`StoreError::Damaged`] when one of its facts is not what was written.
    pub fn home(&self, id: HouseholdId) -> Result<Option<Home>, StoreError> {
        fold(&self.connection, id)
    }

    /// What stands on the shelves.
    ///
    /// # Errors
    /// See [`StoreError`].
    pub fn stock(&self) -> Result<Stock, StoreError> {
        let mut statement = self
            .connection
            .prepare_cached(&format!("SELECT product, lot, {LOT} FROM site_lot"))?;
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

    /// Homes whose name or door has these words in it, in either case.
    ///
    /// # Errors
    /// See [`StoreError`].
    pub fn find_homes(&self, words: &str, most: u32) -> Result<Vec<HomeLine>, StoreError> {
        let mut statement = self.connection.prepare_cached(&format!(
            "SELECT {LINE} FROM site_home WHERE instr(lower(words), lower(?1)) > 0 ORDER BY words, home LIMIT ?2"
        ))?;
        let lines = statement.query_map(params![words.trim(), most], line)?;
        Ok(lines.collect::<rusqlite::Result<Vec<_>>>()?)
    }

    /// Homes whose code was read and who got nothing yet, the last one read first.
    ///
    /// # Errors
    /// See [`StoreError`].
    pub fn homes_waiting(&self, most: u32) -> Result<Vec<HomeLine>, StoreError> {
        let mut statement = self.connection.prepare_cached(&format!(
            "SELECT {LINE} FROM site_home WHERE served IS NULL AND seen IS NOT NULL ORDER BY seen DESC, home LIMIT ?1"
        ))?;
        let lines = statement.query_map([most], line)?;
        Ok(lines.collect::<rusqlite::Result<Vec<_>>>()?)
    }

    /// Other homes with the same people that were served, and when last.
    ///
    /// # Errors
    /// As [`Store::home`].
    pub fn same_people(
        &self,
        mark: &PeopleMark,
        except: HouseholdId,
    ) -> Result<Vec<(HouseholdId, Timestamp)>, StoreError> {
        let mut statement = self.connection.prepare_cached(
            "SELECT home FROM site_home WHERE shelf = ?1 AND home <> ?2 AND served IS NOT NULL ORDER BY home",
        )?;
        let found = statement.query_map(params![mark.shelf(), except.0], |row| home_of(row, 0))?;
        let mut same = Vec::new();
        for id in found.collect::<rusqlite::Result<Vec<_>>>()? {
            let Some(home) = fold(&self.connection, id)? else {
                continue;
            };
            let other = home.code().and_then(PeopleMark::of);
            if let (Some(other), Some(last)) = (other, home.handed_out.last())
                && other.matches(mark)
            {
                same.push((id, last.at));
            }
        }
        Ok(same)
    }

    /// The homes that got something of this lot.
    ///
    /// # Errors
    /// See [`StoreError`].
    pub fn homes_with_lot(&self, lot: &str) -> Result<Vec<HomeLine>, StoreError> {
        let mut statement = self.connection.prepare_cached(&format!(
            "SELECT {LINE} FROM site_home WHERE home IN (SELECT home FROM site_hand_out_lot WHERE lot = ?1) ORDER BY words, home"
        ))?;
        let lines = statement.query_map([lot], line)?;
        Ok(lines.collect::<rusqlite::Result<Vec<_>>>()?)
    }

    /// How the site is doing at a moment.
    ///
    /// # Errors
    /// See [`StoreError`].
    pub fn site_totals(&self, now: Timestamp) -> Result<Totals, StoreError> {
        let mut statement = self
            .connection
            .prepare_cached("SELECT at, people, lines FROM site_hand_out ORDER BY at, id")?;
        let rows = statement.query_map([], |row| {
            Ok((
                row.get::<_, i64>(0)?,
                row.get::<_, u64>(1)?,
                row.get::<_, String>(2)?,
            ))
        })?;
        let mut hand_outs = Vec::new();
        for row in rows {
            let (at, people, lines) = row?;
            let at = instant(at)?;
            // Only the last hour's packs say how fast they leave.
            let lines: Vec<HandOutLine> = if now.duration_since(at).as_secs() < 3_600 {
                serde_json::from_str(&lines).map_err(|cause| StoreError::NewerFact(cause.into()))?
            } else {
                Vec::new()
            };
            let packs = lines.into_iter().map(|line| (line.lot, line.packs));
            hand_outs.push((at, people, packs.collect()));
        }
        Ok(Totals::of(hand_outs, &self.stock()?, now))
    }
}

pub(super) fn fold(connection: &Connection, id: HouseholdId) -> Result<Option<Home>, StoreError> {
    let facts = project::facts_of(connection, id)?;
    Ok(Home::fold(id, &facts))
}

const LOT: &str = "expiry, each, received, out, back, counted, unlike";

/// The sums of one lot.
pub(super) fn lot(connection: &Connection, name: &LotName) -> Result<Option<LotStock>, StoreError> {
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
        expiry: expiry.and_then(|day| day.parse().ok()),
        each: row.get(from + 1)?,
        received: row.get(from + 2)?,
        out: row.get(from + 3)?,
        back: row.get(from + 4)?,
        counted: row.get(from + 5)?,
        unlike: row.get(from + 6)?,
    })
}

fn line(row: &Row<'_>) -> rusqlite::Result<HomeLine> {
    let moment = |at: Option<i64>| at.and_then(|at| Timestamp::from_second(at).ok());
    Ok(HomeLine {
        home: home_of(row, 0)?,
        words: row.get(1)?,
        people: row.get(2)?,
        seen: moment(row.get(3)?),
        served: moment(row.get(4)?),
        hand_outs: row.get(5)?,
    })
}

fn instant(at: i64) -> Result<Timestamp, StoreError> {
    Timestamp::from_second(at).map_err(StoreError::damaged)
}
