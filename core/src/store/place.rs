//! The files of one record: the database, its log, and what is put beside them.

use std::fs::{self, File};
use std::io;
use std::path::{Path, PathBuf};

/// Made whole under this name before it gets its own.
pub(super) const NEW: &str = ".new";
/// What was salvaged, until the damaged file is out of the way.
pub(super) const SALVAGED: &str = ".salvaged";
/// The log of what is not yet in the main file, and its index.
pub(super) const LOG: &str = "-wal";
pub(super) const LOG_INDEX: &str = "-shm";

/// The path with an ending put behind its whole name.
pub(super) fn beside(path: &Path, ending: &str) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(ending);
    PathBuf::from(name)
}

/// Bytes in a file; none if there is no such file.
pub(super) fn size(path: &Path) -> io::Result<Option<u64>> {
    match fs::metadata(path) {
        Ok(found) => Ok(Some(found.len())),
        Err(cause) if cause.kind() == io::ErrorKind::NotFound => Ok(None),
        Err(cause) => Err(cause),
    }
}

/// The bytes of a file, or nothing if there is none.
pub(super) fn read(path: &Path) -> io::Result<Vec<u8>> {
    match fs::read(path) {
        Err(cause) if cause.kind() == io::ErrorKind::NotFound => Ok(Vec::new()),
        other => other,
    }
}

/// Removes a half-made database of our own with its log.
pub(super) fn remove_own(path: &Path) -> io::Result<()> {
    for ending in ["", LOG, LOG_INDEX] {
        match fs::remove_file(beside(path, ending)) {
            Err(cause) if cause.kind() != io::ErrorKind::NotFound => return Err(cause),
            _ => {}
        }
    }
    Ok(())
}

/// Gives a file its name for good; the names must survive a power cut as the bytes do.
pub(super) fn rename(from: &Path, to: &Path) -> io::Result<()> {
    fs::rename(from, to)?;
    // Not every system can open a folder, and those that cannot keep names themselves.
    if let Some(Ok(folder)) = to
        .parent()
        .map(|folder| {
            if folder.as_os_str().is_empty() {
                Path::new(".")
            } else {
                folder
            }
        })
        .map(File::open)
    {
        folder.sync_all()?;
    }
    Ok(())
}

/// The first free name for a damaged file.
pub(super) fn free_name(path: &Path) -> io::Result<PathBuf> {
    let mut number: u32 = 1;
    loop {
        let name = beside(path, &format!(".damaged-{number}"));
        if size(&name)?.is_none() && size(&beside(&name, LOG))?.is_none() {
            return Ok(name);
        }
        number = number.saturating_add(1);
    }
}

/// The name that was given last to a damaged file.
pub(super) fn last_name(path: &Path) -> io::Result<Option<PathBuf>> {
    let mut last = None;
    let mut number: u32 = 1;
    loop {
        let name = beside(path, &format!(".damaged-{number}"));
        if size(&name)?.is_none() && size(&beside(&name, LOG))?.is_none() {
            return Ok(last);
        }
        last = Some(name);
        number = number.saturating_add(1);
    }
}
