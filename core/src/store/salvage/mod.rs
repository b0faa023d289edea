//! What can be saved from a damaged record.
//!
//! Salvage does not ask SQLite, which stops at the first broken page: it looks for records at every place of every page of the file and of its log,
//! and believes those that match their digest. Facts never change, so one that was ever written is still true.
//!
//! The damaged file is only read. In turn: all that was found goes into a new file under a name of its own; the damaged file is moved to a free name,
//! its log with it; the new file gets the name. A failure before the move leaves everything as it was, and after a power cut [`finish`] goes on.

mod log;
mod record;
mod search;

use std::path::{Path, PathBuf};

use rusqlite::{Connection, TransactionBehavior};

pub(super) use log::Log;

use super::migrations::TRACE;
use super::opening::{create_at, settle};
use super::place::{self, LOG, LOG_INDEX, SALVAGED, beside};
use super::settings::HANDED;
use super::{DEVICE, Opening, Setup, StoreError, facts};
use search::Found;

/// Sets the damaged record aside and puts in its place what could be saved.
pub(super) fn salvage(path: &Path, setup: &Setup) -> Result<Opening, StoreError> {
    let found = look(path)?;
    let fresh = beside(path, SALVAGED);
    place::remove_own(&fresh)?;
    let filled = create_at(&fresh, setup).and_then(|mut connection| {
        let counts = fill(&mut connection, &found, true)?;
        settle(connection)?;
        Ok(counts)
    });
    let (facts_saved, facts_missing) = match filled {
        Ok(counts) => counts,
        Err(refusal) => {
            // The refusal matters more than a leftover, which the next salvage removes.
            let _ = place::remove_own(&fresh);
            return Err(refusal);
        }
    };
    let set_aside = place::free_name(path)?;
    move_away(path, &set_aside)?;
    place::rename(&fresh, path)?;
    Ok(Opening::Salvaged {
        set_aside,
        facts_saved,
        facts_missing,
    })
}

/// Goes on where a salvage was cut off after the damaged file had been moved.
pub(super) fn finish(path: &Path) -> Result<Option<Opening>, StoreError> {
    let fresh = beside(path, SALVAGED);
    if place::size(path)?.is_some() || place::size(&fresh)?.is_none() {
        return Ok(None);
    }
    let set_aside = match place::last_name(path)? {
        Some(name) if place::size(&beside(&name, LOG))?.is_none() => name,
        _ => place::free_name(path)?,
    };
    // A log that stayed behind must not be taken for the log of the new file.
    move_away(path, &set_aside)?;
    let found = look(&fresh)?;
    place::rename(&fresh, path)?;
    Ok(Some(Opening::Salvaged {
        set_aside,
        facts_saved: found.facts.len(),
        facts_missing: found.missing_numbers(),
    }))
}

fn move_away(path: &Path, to: &Path) -> Result<(), StoreError> {
    for ending in ["", LOG, LOG_INDEX] {
        let from = beside(path, ending);
        if place::size(&from)?.is_some() {
            place::rename(&from, &beside(to, ending))?;
        }
    }
    Ok(())
}

/// Whether a file without our mark was ours.
pub(super) fn is_ours(path: &Path) -> Result<bool, StoreError> {
    let bytes = place::read(path)?;
    Ok(bytes.windows(TRACE.len()).any(|part| part == TRACE) || !look(path)?.is_empty())
}

fn look(path: &Path) -> Result<Found, StoreError> {
    let main = place::read(path)?;
    let log_path: PathBuf = beside(path, LOG);
    let log_bytes = place::read(&log_path)?;
    let log = Log::read(&log_bytes);
    Ok(Found::search(&main, &log.committed()))
}

/// Adds what the last, torn transaction of the log holds.
///
/// Nobody can tell a write that a power cut tore from one that was whole and then damaged. Facts that are in it were meant; those that are whole are kept.
pub(super) fn add_torn(connection: &mut Connection, log: &Log<'_>) -> Result<(), StoreError> {
    let torn = log.torn();
    if torn.is_empty() {
        return Ok(());
    }
    fill(connection, &Found::search(&[], &torn), false).map(|_| ())
}

/// Writes what was found and is not there yet. Returns the number of facts written, and of numbers missing among those found.
fn fill(
    connection: &mut Connection,
    found: &Found,
    with_settings: bool,
) -> Result<(usize, u64), StoreError> {
    let transaction = connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
    let mut saved = 0;
    for row in found.in_order() {
        // Of two facts with one number the first is kept; the second can only be a write that failed.
        if !facts::is_taken(&transaction, row)? {
            saved += row.insert(&transaction)?;
        }
    }
    for row in found.orders.values() {
        row.clone().with_trust(false).insert(&transaction)?;
    }
    if with_settings {
        for (_, row) in found
            .settings
            .values()
            .filter(|(_, row)| ![DEVICE, HANDED].contains(&row.key.as_str()))
        {
            row.put(&transaction)?;
        }
    }
    transaction.commit()?;
    Ok((saved, found.missing_numbers()))
}
