//! From facts as they arrive to the tables of a site.

use std::collections::{BTreeMap, BTreeSet};

use rusqlite::{Connection, OptionalExtension, params};

use super::super::{StoreError, facts};
use crate::household::HouseholdId;
use crate::record::{Event, Fact, FactId, LotName, SiteEvent};
use crate::site::{Home, LotStock, Movement, PeopleMark};

/// What is new in one transaction.
#[derive(Debug, Default)]
pub(in crate::store) struct Projection {
    lots: BTreeMap<LotName, LotStock>,
    homes: BTreeSet<HouseholdId>,
}

impl Projection {
    /// A home has to be looked at anew.
    pub(super) fn touch(&mut self, home: HouseholdId) {
        self.homes.insert(home);
    }

    /// Takes a fact that has just been written under this number.
    pub(in crate::store) fn take(
        &mut self,
        connection: &Connection,
        number: i64,
        fact: &Fact,
    ) -> Result<(), StoreError> {
        match &fact.event {
            Event::Correction { target, .. } => {
                let target = target.0.to_string();
                match home_of_fact(connection, &target)? {
                    Some(home) => self.belongs(connection, home, number, &fact.id.0.to_string())?,
                    None => {
                        connection
                            .prepare_cached(
                                "INSERT OR IGNORE INTO site_waiting (target, fact) VALUES (?1, ?2)",
                            )?
                            .execute(params![target, number])?;
                    }
                }
            }
            Event::Site { site } => {
                if let Some(movement) = Movement::of(&fact.event) {
                    self.moves(connection, &movement)?;
                }
                if let SiteEvent::HomeErased { home, .. } = site {
                    super::forget::note(connection, *home, fact)?;
                }
                if let Some(home) = site.home() {
                    self.belongs(connection, home, number, &fact.id.0.to_string())?;
                }
            }
            _ => {}
        }
        Ok(())
    }

    /// A fact is about a home, and with it every correction that waited for it.
    fn belongs(
        &mut self,
        connection: &Connection,
        home: HouseholdId,
        number: i64,
        id: &str,
    ) -> Result<(), StoreError> {
        self.homes.insert(home);
        let mut found = vec![(number, id.to_owned())];
        while let Some((number, id)) = found.pop() {
            connection
                .prepare_cached("INSERT OR IGNORE INTO site_fact (home, fact) VALUES (?1, ?2)")?
                .execute(params![home.0, number])?;
            let mut waiting = connection.prepare_cached(
                "SELECT fact.number, fact.id FROM site_waiting JOIN fact ON fact.number = site_waiting.fact WHERE target = ?1",
            )?;
            let more = waiting.query_map([&id], |row| Ok((row.get(0)?, row.get(1)?)))?;
            let more = more.collect::<rusqlite::Result<Vec<(i64, String)>>>()?;
            if !more.is_empty() {
                connection
                    .prepare_cached("DELETE FROM site_waiting WHERE target = ?1")?
                    .execute([&id])?;
            }
            found.extend(more);
        }
        Ok(())
    }

    fn moves(
        &mut self,
        connection: &Connection,
        movement: &Movement<'_>,
    ) -> Result<(), StoreError> {
        let lot = movement.lot;
        let mut movement = movement.clone();
        if let Some(hand_out) = movement.once {
            movement.back = come_back(connection, hand_out, &movement)?;
        }
        if !self.lots.contains_key(lot) {
            let known = super::ask::lot(connection, lot)?.unwrap_or_default();
            self.lots.insert(lot.clone(), known);
        }
        if let Some(stock) = self.lots.get_mut(lot) {
            stock.add(&movement);
        }
        Ok(())
    }

    /// Writes what the facts of this transaction come to.
    pub(in crate::store) fn finish(self, connection: &Connection) -> Result<(), StoreError> {
        for (name, lot) in &self.lots {
            let whole = |number: u64| {
                i64::try_from(number).map_err(|_| StoreError::Unstorable {
                    what: "a number of packs beyond 9 quintillion",
                })
            };
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
        for home in &self.homes {
            write_home(connection, *home)?;
        }
        Ok(())
    }
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
        let packs = i64::try_from(movement.back).unwrap_or(i64::MAX);
        connection
            .prepare_cached(
                "INSERT OR REPLACE INTO site_back (hand_out, product, lot, packs) VALUES (?1, ?2, ?3, ?4)",
            )?
            .execute(params![id, lot.product, lot.lot, packs])?;
    }
    Ok(more)
}

/// The home a fact is about, by the fact's id.
fn home_of_fact(connection: &Connection, id: &str) -> Result<Option<HouseholdId>, StoreError> {
    let mut statement = connection.prepare_cached(
        "SELECT home FROM fact JOIN site_fact ON site_fact.fact = fact.number WHERE id = ?1",
    )?;
    Ok(statement
        .query_row([id], |row| super::home_of(row, 0))
        .optional()?)
}

/// The line of one home and its hand-outs, from its facts.
fn write_home(connection: &Connection, id: HouseholdId) -> Result<(), StoreError> {
    for table in ["site_hand_out", "site_hand_out_lot", "site_home"] {
        connection
            .prepare_cached(&format!("DELETE FROM {table} WHERE home = ?1"))?
            .execute([&id.0])?;
    }
    let Some(home) = super::ask::fold(connection, id)? else {
        return Ok(());
    };
    let code = home.code();
    let people = code.map_or(0, |code| code.people.len());
    let people = i64::try_from(people).unwrap_or(i64::MAX);
    connection
        .prepare_cached(
            "INSERT INTO site_home (home, words, seen, people, shelf, served, hand_outs) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)",
        )?
        .execute(params![
            id.0,
            home.words,
            home.seen.last().map(|seen| seen.at.as_second()),
            people,
            code.and_then(PeopleMark::of).map(|mark| mark.shelf()),
            home.handed_out.last().map(|out| out.at.as_second()),
            i64::try_from(home.handed_out.len()).unwrap_or(i64::MAX),
        ])?;
    write_hand_outs(connection, &home, people)
}

fn write_hand_outs(connection: &Connection, home: &Home, people: i64) -> Result<(), StoreError> {
    for out in &home.handed_out {
        let lines = serde_json::to_string(&out.lines).map_err(|_| StoreError::Unstorable {
            what: "a hand-out that JSON cannot hold",
        })?;
        let id = out.fact.0.to_string();
        connection
            .prepare_cached(
                "INSERT INTO site_hand_out (id, home, at, people, lines) VALUES (?1, ?2, ?3, ?4, ?5)",
            )?
            .execute(params![id, home.id.0, out.at.as_second(), people, lines])?;
        for line in &out.lines {
            connection
                .prepare_cached(
                    "INSERT OR IGNORE INTO site_hand_out_lot (lot, product, home, id) VALUES (?1, ?2, ?3, ?4)",
                )?
                .execute(params![line.lot.lot, line.lot.product, home.id.0, id])?;
        }
    }
    Ok(())
}

/// The facts of one home, in the one order of all facts.
pub(super) fn facts_of(connection: &Connection, id: HouseholdId) -> Result<Vec<Fact>, StoreError> {
    facts::rows(
        connection,
        "WHERE number IN (SELECT fact FROM site_fact WHERE home = ?1) ORDER BY millis, counter, device, sequence",
        [&id.0],
    )?
    .iter()
    .map(super::super::rows::FactRow::fact)
    .collect()
}
