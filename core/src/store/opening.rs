//! Opening in a fixed order: whose file it is, how to write it, whether it is whole, up to date, done.
//!
//! Nothing is written to a file before it is known to be ours and not newer than we are.

use std::path::Path;

use rusqlite::config::DbConfig;
use rusqlite::{Connection, OpenFlags};

use super::guard::Guard;
use super::migrations::{self, APPLICATION, CURRENT, STEPS};
use super::place::{self, LOG, NEW, beside};
use super::rows::OrderRow;
use super::salvage::{self, Log};
use super::{Opening, Setup, Store, StoreError, facts, orders};

/// Part of the shape of version 1: salvage reads pages of this size.
pub(super) const PAGE: usize = 4096;

/// A version beyond this one was never released: the header is broken.
const NO_SUCH_VERSION: i64 = 10_000;

/// The header of a SQLite file: <https://www.sqlite.org/fileformat2.html#the_database_header>.
const HEADER: usize = 100;

pub(super) fn open(path: &Path, setup: &Setup) -> Result<(Store, Opening), StoreError> {
    let mut guard = Guard::take(path)?;
    let (connection, opening) = if guard.is_alone() {
        alone(path, setup)?
    } else {
        existing(path, setup)?
    };
    guard.share()?;
    #[cfg(feature = "exchange")]
    let connection = super::site::caught_up(connection)?;
    if setup.read_only {
        connection.pragma_update(None, "query_only", true)?;
    }
    let log_to_cut = facts::has_forgotten(&connection)?;
    Ok((
        Store {
            connection,
            log_to_cut,
            _guard: Some(guard),
        },
        opening,
    ))
}

pub(super) fn in_memory() -> Result<Connection, StoreError> {
    let mut connection = Connection::open_in_memory()?;
    connection.pragma_update(None, "foreign_keys", true)?;
    migrations::upgrade(&mut connection, 0, STEPS)?;
    Ok(connection)
}

/// Nobody else has the record open, so it may be made, repaired and moved.
fn alone(path: &Path, setup: &Setup) -> Result<(Connection, Opening), StoreError> {
    if let Some(opening) = salvage::finish(path)? {
        return Ok((existing(path, setup)?.0, opening));
    }
    let log_bytes = place::read(&beside(path, LOG))?;
    match place::size(path)? {
        None if log_bytes.is_empty() => {
            create(path, setup)?;
            return Ok((existing(path, setup)?.0, Opening::Fresh));
        }
        // SQLite takes an empty file for a new one and throws its log away.
        None | Some(0) => return salvaged(path, setup),
        Some(_) => {}
    }
    let log = Log::read(&log_bytes);
    let opened = match whose(path) {
        Ok(()) if log.is_broken() => return salvaged(path, setup),
        Ok(()) => existing(path, setup),
        Err(refusal) => Err(refusal),
    };
    match opened {
        Err(StoreError::Damaged(_)) => salvaged(path, setup),
        Err(refusal) => Err(refusal),
        Ok((mut connection, opening)) => {
            salvage::add_torn(&mut connection, &log)?;
            Ok((connection, opening))
        }
    }
}

fn salvaged(path: &Path, setup: &Setup) -> Result<(Connection, Opening), StoreError> {
    let opening = salvage::salvage(path, setup)?;
    Ok((existing(path, setup)?.0, opening))
}

/// Whether the file is ours and not newer, by its header alone.
fn whose(path: &Path) -> Result<(), StoreError> {
    use std::io::Read;
    let mut header = Vec::new();
    std::fs::File::open(path)?
        .take(100)
        .read_to_end(&mut header)?;
    let number = |at: usize| {
        header
            .get(at..at + 4)
            .and_then(|four| four.try_into().ok())
            .map(i32::from_be_bytes)
    };
    if header.len() < HEADER || !header.starts_with(b"SQLite format 3\0") {
        return Err(StoreError::damaged("no header"));
    }
    if number(68) != Some(APPLICATION) {
        return Err(if salvage::is_ours(path)? {
            StoreError::damaged("the mark of the file")
        } else {
            StoreError::Foreign
        });
    }
    version(number(60).map_or(0, i64::from))?;
    // Write and read version 2: with a log.
    if header.get(18..20) != Some(&[2, 2]) {
        return Err(StoreError::damaged("the file has lost its log"));
    }
    Ok(())
}

fn version(found: i64) -> Result<u32, StoreError> {
    match u32::try_from(found) {
        Ok(version) if (1..=CURRENT).contains(&version) => Ok(version),
        Ok(version) if version > CURRENT && found < NO_SUCH_VERSION => Err(StoreError::Newer {
            found,
            known: CURRENT,
        }),
        _ => Err(StoreError::damaged("the version in the header")),
    }
}

/// A new record gets its name only when it is whole.
fn create(path: &Path, setup: &Setup) -> Result<(), StoreError> {
    let new = beside(path, NEW);
    place::remove_own(&new)?;
    let made = create_at(&new, setup).and_then(settle);
    if let Err(refusal) = made {
        // The refusal matters more than a leftover, which the next opening removes.
        let _ = place::remove_own(&new);
        return Err(refusal);
    }
    Ok(place::rename(&new, path)?)
}

/// An empty record of the present version.
pub(super) fn create_at(path: &Path, setup: &Setup) -> Result<Connection, StoreError> {
    let mut connection = connect(path, OpenFlags::SQLITE_OPEN_CREATE, setup)?;
    connection.pragma_update(None, "page_size", i64::try_from(PAGE).unwrap_or(0))?;
    pragmas(&connection)?;
    migrations::upgrade(&mut connection, 0, STEPS)?;
    Ok(connection)
}

/// Everything into the main file, and the log away.
pub(super) fn settle(connection: Connection) -> Result<(), StoreError> {
    let busy: bool =
        connection.query_row("PRAGMA wal_checkpoint(TRUNCATE)", [], |row| row.get(0))?;
    if busy {
        return Err(StoreError::Busy("a new record is already in use".into()));
    }
    connection.close().map_err(|(_, cause)| cause.into())
}

fn existing(path: &Path, setup: &Setup) -> Result<(Connection, Opening), StoreError> {
    let mut connection = connect(path, OpenFlags::empty(), setup)?;
    // Until it is known whose the file is, its log stays where it is.
    connection.set_db_config(DbConfig::SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, true)?;
    let before = version(connection.query_row("PRAGMA user_version", [], |row| row.get(0))?)?;
    check_pages(&connection).map_err(as_damage)?;
    connection.set_db_config(DbConfig::SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, false)?;
    pragmas(&connection)?;
    if before < CURRENT {
        migrations::upgrade(&mut connection, before, STEPS)?;
    }
    check_rows(&connection).map_err(as_damage)?;
    Ok((
        connection,
        Opening::Opened {
            version: CURRENT,
            upgraded_from: (before < CURRENT).then_some(before),
        },
    ))
}

fn connect(path: &Path, more: OpenFlags, setup: &Setup) -> Result<Connection, StoreError> {
    let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_NO_MUTEX | more;
    let connection = Connection::open_with_flags(path, flags)?;
    connection.busy_timeout(setup.patience)?;
    if let Some(pages) = setup.most_pages {
        connection.pragma_update_and_check(None, "max_page_count", pages, |_| Ok(()))?;
    }
    Ok(connection)
}

fn pragmas(connection: &Connection) -> Result<(), StoreError> {
    let mode: String =
        connection.pragma_update_and_check(None, "journal_mode", "wal", |row| row.get(0))?;
    if mode != "wal" {
        return Err(StoreError::Failed(
            "this place cannot hold a write-ahead log".into(),
        ));
    }
    connection.pragma_update(None, "synchronous", "full")?;
    connection.pragma_update(None, "foreign_keys", true)?;
    connection.pragma_update(None, "trusted_schema", false)?;
    // What is deleted is overwritten, not only unlinked.
    connection.pragma_update_and_check(None, "secure_delete", "on", |_| Ok(()))?;
    Ok(())
}

fn check_pages(connection: &Connection) -> Result<(), StoreError> {
    let found: String = connection.query_row("PRAGMA integrity_check(1)", [], |row| row.get(0))?;
    if found == "ok" {
        Ok(())
    } else {
        Err(StoreError::damaged(found))
    }
}

/// Pages may be in order and still hold a changed letter.
fn check_rows(connection: &Connection) -> Result<(), StoreError> {
    let orders = orders::rows(connection, "", [])?;
    if facts::are_whole(connection)? && orders.iter().all(OrderRow::is_whole) {
        Ok(())
    } else {
        Err(StoreError::damaged("a row does not match its digest"))
    }
}

/// While checking, a statement that does not fit the file means that the file has changed its shape.
fn as_damage(cause: StoreError) -> StoreError {
    match cause {
        StoreError::Failed(cause) => StoreError::Damaged(cause),
        other => other,
    }
}
