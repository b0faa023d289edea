//! Forgetting a home after it was handed over: its facts leave the file, and do not come back.
//!
//! The erasure itself stays for ever, and so does the bare name of each fact that went, so that no device gives its number a second time.
//! Deleted bytes are overwritten (`secure_delete`); older pictures of the same pages in the log go when the log is cut.

use std::collections::{BTreeMap, BTreeSet};

use rusqlite::{Connection, OptionalExtension, params};
use uuid::Uuid;

use super::super::{Store, StoreError};
use super::chains::{self, Root};
use crate::household::HouseholdId;
use crate::record::{Change, DeviceId, Event, Fact, FactId, Hlc, SiteEvent, Stamp};

impl Store {
    /// Writes the erasure of a home and takes everything older about it out of the file, in one step; counts of stock stay.
    ///
    /// Gives the number of facts that went. An erasure that comes with a merge does the same.
    ///
    /// # Errors
    /// [`StoreError::Unstorable`] for any other fact, or as [`Store::append`]; the record is as before.
    pub fn forget_home(&mut self, erasure: &Fact) -> Result<usize, StoreError> {
        let is_erasure = matches!(
            &erasure.event,
            Event::Site {
                site: SiteEvent::HomeErased { .. }
            }
        );
        if !is_erasure {
            return Err(StoreError::Unstorable {
                what: "an erasure that names no home",
            });
        }
        let (_, forgot) = self.append_and_forget(std::slice::from_ref(erasure))?;
        self.checkpoint()?;
        Ok(forgot.older)
    }
}

/// Remembers the latest erasure of a home.
pub(super) fn note(
    connection: &Connection,
    home: HouseholdId,
    stamp: Stamp,
) -> Result<(), StoreError> {
    if since(connection, home)?.is_some_and(|since| since >= stamp) {
        return Ok(());
    }
    let sequence = i64::try_from(stamp.sequence).map_err(|_| StoreError::Unstorable {
        what: "a number beyond 9 quintillion",
    })?;
    connection
        .prepare_cached(
            "INSERT OR REPLACE INTO site_erased (home, millis, counter, device, sequence) VALUES (?1, ?2, ?3, ?4, ?5)",
        )?
        .execute(params![
            home.0,
            stamp.hlc.millis,
            stamp.hlc.counter,
            stamp.device.0.to_string(),
            sequence
        ])?;
    Ok(())
}

/// Where the latest erasure of a home stands in the one order of all facts.
pub(super) fn since(
    connection: &Connection,
    home: HouseholdId,
) -> Result<Option<Stamp>, StoreError> {
    let mut statement = connection.prepare_cached(
        "SELECT millis, counter, device, sequence FROM site_erased WHERE home = ?1",
    )?;
    let found = statement
        .query_row([&home.0], |row| {
            let hlc = Hlc {
                millis: row.get(0)?,
                counter: row.get(1)?,
            };
            Ok((hlc, row.get::<_, String>(2)?, row.get::<_, u64>(3)?))
        })
        .optional()?;
    let stamp = found.map(|(hlc, device, sequence)| {
        Ok(Stamp {
            hlc,
            device: DeviceId(Uuid::parse_str(&device).map_err(StoreError::damaged)?),
            sequence,
        })
    });
    stamp.transpose()
}

/// Of the facts of a home those that an erasure covers, with every correction of them.
pub(super) fn older(facts: &BTreeMap<i64, Fact>, since: Stamp) -> BTreeSet<i64> {
    let mut ids: BTreeSet<FactId> = BTreeSet::new();
    let mut gone = BTreeSet::new();
    loop {
        let before = gone.len();
        for (number, fact) in facts {
            let is_covered = match &fact.event {
                Event::Correction { target, .. } => ids.contains(target),
                Event::Site {
                    site: SiteEvent::HomeErased { .. },
                } => false,
                _ => fact.stamp <= since,
            };
            if is_covered && gone.insert(*number) {
                ids.insert(fact.id);
            }
        }
        if gone.len() == before {
            return gone;
        }
    }
}

/// Takes a fact out of the file; its name stays.
pub(super) fn remove(
    connection: &Connection,
    number: i64,
    fact: &Fact,
    home: Option<HouseholdId>,
) -> Result<(), StoreError> {
    connection
        .prepare_cached(
            "INSERT OR IGNORE INTO site_forgotten (id, device, sequence) SELECT id, device, sequence FROM fact WHERE number = ?1",
        )?
        .execute([number])?;
    connection
        .prepare_cached("DELETE FROM fact WHERE number = ?1")?
        .execute([number])?;
    if let Some(home) = home {
        connection
            .prepare_cached("DELETE FROM site_fact WHERE home = ?1 AND fact = ?2")?
            .execute(params![home.0, number])?;
    }
    if let Event::Correction { target, .. } = &fact.event {
        connection
            .prepare_cached("DELETE FROM site_correction WHERE target = ?1 AND fact = ?2")?
            .execute(params![target.0.to_string(), number])?;
    }
    Ok(())
}

/// Forgets corrections without a target that speak of a home that was forgotten after them, or whose target was itself forgotten.
pub(super) fn waiting(
    connection: &Connection,
    new: Vec<i64>,
    all: bool,
) -> Result<BTreeSet<i64>, StoreError> {
    let numbers = if all {
        chains::waiting(connection)?
    } else {
        new
    };
    let mut gone = BTreeSet::new();
    for number in numbers {
        let Some(fact) = chains::numbered(connection, number)? else {
            continue;
        };
        if !is_orphan(connection, &fact)? {
            continue;
        }
        let mut numbers = chains::below(connection, fact.id)?;
        numbers.insert(number);
        for number in numbers {
            if let Some(fact) = chains::numbered(connection, number)? {
                remove(connection, number, &fact, None)?;
                gone.insert(number);
            }
        }
    }
    Ok(gone)
}

fn is_orphan(connection: &Connection, fact: &Fact) -> Result<bool, StoreError> {
    let Event::Correction { target, change } = &fact.event else {
        return Ok(false);
    };
    if let Root::Missing(id) = chains::root(connection, *target)? {
        let mut statement =
            connection.prepare_cached("SELECT 1 FROM site_forgotten WHERE id = ?1")?;
        if statement.exists([id.0.to_string()])? {
            return Ok(true);
        }
    }
    let home = match change {
        Change::Replace { event, .. } => match event.as_ref() {
            Event::Site { site } => site.home(),
            _ => None,
        },
        Change::Withdraw { .. } => None,
    };
    Ok(match home {
        Some(home) => since(connection, home)?.is_some_and(|since| fact.stamp <= since),
        None => false,
    })
}
