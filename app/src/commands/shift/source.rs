//! What is handed in for a merge: files, pictures of codes, folders of both. Frames are put together file by file.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

use hearthdose_core::exchange::{Collector, FileMark, OpeningKey, Progress, Scan, Scanned};
use hearthdose_ui::machine::picture;
use hearthdose_ui::scan::{Cascade, Scanner, Symbol};

use crate::answer::Stop;
use crate::input;

/// What one file turned out to be.
pub enum Found {
    Message(Box<Scanned>),
    /// One code of a file that came together, or that another entry tells of.
    Part,
    /// Some codes of the file are still missing.
    Missing {
        have: u32,
        needed: u32,
    },
    /// Nothing to merge; a code that says why.
    Not(&'static str),
}

/// Reads everything that was named; every outcome belongs to a file.
///
/// # Errors
/// A name under which there is nothing.
pub fn read(from: &[PathBuf], key: Option<&OpeningKey>) -> Result<Vec<(PathBuf, Found)>, Stop> {
    let mut found = Vec::new();
    let mut collectors: BTreeMap<FileMark, Collector> = BTreeMap::new();
    // Where a file that is not whole is told of, and how much of it there is.
    let mut open: BTreeMap<FileMark, (usize, Found)> = BTreeMap::new();
    let mut whole: BTreeSet<FileMark> = BTreeSet::new();
    let mut scanner = Cascade::thorough();
    for path in files(from)? {
        let at = found.len();
        let outcome = match scan(&path, &mut scanner)? {
            Err(code) => Found::Not(code),
            Ok(Scan::Part(frame)) => {
                let mark = frame.file();
                match collectors.entry(mark).or_default().take(frame) {
                    Progress::Whole(bytes) if whole.insert(mark) => {
                        open.remove(&mark);
                        outcome(Scan::read_bytes(&bytes), key)
                    }
                    Progress::More { have, needed } => {
                        open.insert(mark, (at, Found::Missing { have, needed }));
                        Found::Part
                    }
                    Progress::Whole(_) | Progress::OtherFile => Found::Part,
                }
            }
            Ok(scan) => outcome(scan, key),
        };
        found.push((path, outcome));
    }
    for (at, missing) in open.into_values() {
        if let Some((_, outcome)) = found.get_mut(at) {
            *outcome = missing;
        }
    }
    Ok(found)
}

fn outcome(scan: Scan, key: Option<&OpeningKey>) -> Found {
    let scan = match key {
        Some(key) => scan.open(key),
        None => scan,
    };
    match scan {
        Scan::Message(scanned) => Found::Message(scanned),
        Scan::Sealed(_) => Found::Not("sealed"),
        Scan::Part(_) | Scan::Damaged => Found::Not("damaged"),
        Scan::Newer => Found::Not("newer-version"),
        Scan::SignatureWrong => Found::Not("signature-wrong"),
        Scan::Foreign => Found::Not("foreign"),
    }
}

/// Named files, and in folders those that are called like shifts or pictures.
fn files(from: &[PathBuf]) -> Result<Vec<PathBuf>, Stop> {
    let mut files = Vec::new();
    for path in from {
        if !path.is_dir() {
            files.push(path.clone());
            continue;
        }
        let fail = |error: std::io::Error| {
            Stop::unusable(format!("cannot read {}: {error}", path.display()))
        };
        let mut inside = Vec::new();
        for entry in fs::read_dir(path).map_err(fail)? {
            let file = entry.map_err(fail)?.path();
            let is_shift = file.extension().is_some_and(|ending| ending == "shift");
            if file.is_file() && (is_shift || picture::is_named(&file)) {
                inside.push(file);
            }
        }
        inside.sort();
        files.extend(inside);
    }
    Ok(files)
}

/// What stands in a file; an inner error is a picture without a code.
fn scan(path: &Path, scanner: &mut Cascade) -> Result<Result<Scan, &'static str>, Stop> {
    if picture::is_named(path) {
        let Ok(frame) = picture::open(path) else {
            return Ok(Err("unreadable"));
        };
        let found = scanner.scan(&frame, Symbol::Qr);
        return Ok(found
            .map(|found| Scan::read(&found.text))
            .ok_or("nothing-read"));
    }
    let bytes = input::bytes(path)?;
    // The first bytes of a signed message, a sealed one and a frame.
    Ok(Ok(match bytes.first() {
        Some(0xd2 | 0x83 | 0x46) => Scan::read_bytes(&bytes),
        _ => std::str::from_utf8(&bytes).map_or(Scan::Foreign, Scan::read),
    }))
}
