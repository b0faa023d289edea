//! The record on disk: one SQLite file, written before anything is shown.
//!
//! * One transaction for each thing a person did: all of its facts are in the file, or none.
//! * What was acknowledged survives a kill and a power cut (`synchronous=FULL`), and a failed write leaves the file as it was.
//! * A damaged file is never deleted and never written to: it is set aside beside its old place, and every fact that still matches its digest goes into a fresh one ([`Opening::Salvaged`]).
//! * A file made by a newer version, or by another program, is refused and stays untouched.
//! * There are no rules in here and no clock; devices and instants come in with the facts.
//!
//! A file `<name>.lock` beside the database says who has it open, so that nobody sets aside what another process is using.

mod digest;
mod error;
mod facts;
mod guard;
mod instant;
mod migrations;
mod opening;
mod orders;
mod place;
mod rows;
mod salvage;
mod settings;
#[cfg(feature = "exchange")]
mod site;

use std::path::{Path, PathBuf};
use std::time::Duration;

use rusqlite::Connection;

pub use error::StoreError;
pub use facts::Appended;
pub use migrations::CURRENT;
pub use orders::StoredOrder;
pub use settings::DEVICE;
#[cfg(feature = "exchange")]
pub use site::HomeLine;

use guard::Guard;

/// An open record.
#[derive(Debug)]
pub struct Store {
    // Before the guard: the file is closed first, and only then free for others.
    connection: Connection,
    /// Something was forgotten, and the log may still hold pages that show it.
    log_to_cut: bool,
    _guard: Option<Guard>,
}

/// How a record came to be open.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Opening {
    /// There was none; an empty one was made.
    Fresh,
    Opened {
        version: u32,
        /// The version the file had before, where it was brought up to date.
        upgraded_from: Option<u32>,
    },
    /// The file was damaged. It was moved away unchanged, and what could be read is in a new one.
    ///
    /// Preferences and orders are saved too, but no order is trusted any more, and the device has no id: numbers of lost facts must not be given again.
    Salvaged {
        /// Where the damaged file is now.
        set_aside: PathBuf,
        facts_saved: usize,
        /// Numbers missing among the facts that were saved. Whether there were more after the last one nobody can say.
        facts_missing: u64,
    },
}

/// How a record is opened, where it differs from the usual.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Setup {
    /// How long a write waits for another process before it is [`StoreError::Busy`].
    pub patience: Duration,
    /// The most pages of 4,096 bytes the file may have; the write that needs more is [`StoreError::Full`].
    pub most_pages: Option<u32>,
    /// Every write is refused as [`StoreError::ReadOnly`].
    pub read_only: bool,
}

impl Default for Setup {
    fn default() -> Setup {
        Setup {
            patience: Duration::from_secs(2),
            most_pages: None,
            read_only: false,
        }
    }
}

impl Store {
    /// Opens the record at `path`, makes it if there is none, brings it up to date, salvages it if it is damaged.
    ///
    /// # Errors
    /// See [`StoreError`]; whatever it is, the file is as it was.
    pub fn open(path: &Path) -> Result<(Store, Opening), StoreError> {
        Store::open_with(path, &Setup::default())
    }

    /// [`Store::open`] with other limits.
    ///
    /// # Errors
    /// As [`Store::open`].
    pub fn open_with(path: &Path, setup: &Setup) -> Result<(Store, Opening), StoreError> {
        opening::open(path, setup)
    }

    /// A record that ends with the program.
    ///
    /// # Errors
    /// Only when memory runs out.
    pub fn in_memory() -> Result<Store, StoreError> {
        Ok(Store {
            connection: opening::in_memory()?,
            log_to_cut: false,
            _guard: None,
        })
    }

    /// Moves what was written since the last time from the log into the main file; best while nobody waits.
    ///
    /// After something was forgotten, the log is emptied too.
    ///
    /// # Errors
    /// See [`StoreError`]; nothing is lost.
    pub fn checkpoint(&mut self) -> Result<(), StoreError> {
        let mode = if self.log_to_cut {
            "TRUNCATE"
        } else {
            "PASSIVE"
        };
        let sql = format!("PRAGMA wal_checkpoint({mode})");
        let busy: bool = self.connection.query_row(&sql, [], |row| row.get(0))?;
        // Somebody else was reading or writing: the log is cut the next time.
        self.log_to_cut &= busy;
        Ok(())
    }
}
