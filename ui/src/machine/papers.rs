//! Orders and notices in the folders where people put files: looked at, never changed.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use hearthdose_core::exchange::MARK;

use crate::scan::{Cascade, Scanner, Symbol};
use crate::vm::ports::Paper;

/// An order is a few pages of text.
const LARGEST: u64 = 256 * 1024;
/// More than a person can choose from.
const MOST: usize = 40;

/// A photograph; more is no picture of a code.
const LARGEST_PICTURE: u64 = 32 * 1024 * 1024;

/// Files that may be an order or a notice, newest first.
pub fn found(data: &Path) -> Vec<Paper> {
    let mut seen = BTreeSet::new();
    newest(data, &["toml"], LARGEST)
        .into_iter()
        .filter_map(|(path, place)| {
            let bytes = std::fs::read(&path).ok()?;
            let name = path.file_name()?.to_string_lossy().into_owned();
            (looks_like_one(&bytes) && seen.insert(bytes.clone())).then_some(Paper {
                name,
                place,
                bytes,
            })
        })
        .take(MOST)
        .collect()
}

/// A whole day of a busy site.
const LARGEST_SHIFT: u64 = 64 * 1024 * 1024;

/// What other tablets wrote, newest first.
pub fn shifts(data: &Path) -> Vec<Paper> {
    newest(data, &["shift"], LARGEST_SHIFT)
        .into_iter()
        .take(MOST)
        .filter_map(|(path, place)| {
            let name = path.file_name()?.to_string_lossy().into_owned();
            let bytes = std::fs::read(&path).ok()?;
            Some(Paper { name, place, bytes })
        })
        .collect()
}

/// Texts of codes in pictures, those of the newest picture first.
pub fn codes(data: &Path) -> Vec<String> {
    let mut seen = BTreeSet::new();
    newest(data, &["png", "jpg", "jpeg"], LARGEST_PICTURE)
        .into_iter()
        .take(MOST)
        .filter_map(|(path, _)| {
            let frame = super::picture::open(&path).ok()?;
            let found = Cascade::thorough().scan(&frame, Symbol::Qr)?;
            (found.text.starts_with(MARK) && seen.insert(found.text.clone())).then_some(found.text)
        })
        .collect()
}

/// Files with these endings in the folders where people put them, newest first.
fn newest(data: &Path, endings: &[&str], largest: u64) -> Vec<(PathBuf, String)> {
    let mut files: Vec<(std::time::SystemTime, PathBuf, String)> = Vec::new();
    for (folder, name) in folders(data) {
        let Ok(entries) = std::fs::read_dir(&folder) else {
            continue;
        };
        for entry in entries.flatten() {
            let path = entry.path();
            let ending = path.extension().map(|ending| ending.to_ascii_lowercase());
            let known = ending.is_some_and(|ending| endings.iter().any(|known| ending == *known));
            let Ok(about) = std::fs::metadata(&path) else {
                continue;
            };
            if known && about.is_file() && about.len() <= largest {
                let changed = about.modified().unwrap_or(std::time::UNIX_EPOCH);
                files.push((changed, path, name.clone()));
            }
        }
    }
    files.sort_by(|one, other| (other.0, &one.1).cmp(&(one.0, &other.1)));
    files
        .into_iter()
        .map(|(_, path, place)| (path, place))
        .collect()
}

/// Puts a file into Documents, or where there is none into the program's own folder; gives the folder's name.
///
/// Written beside and then moved, so that a file is whole or not there.
pub fn leave(data: &Path, name: &str, bytes: &[u8]) -> Option<String> {
    let documents = std::env::var_os("HOME").map(|home| PathBuf::from(home).join("Documents"));
    let (folder, place) = match documents.filter(|folder| folder.is_dir()) {
        Some(folder) => (folder, "Documents".to_owned()),
        None => (
            data.join("papers"),
            data.join("papers").display().to_string(),
        ),
    };
    std::fs::create_dir_all(&folder).ok()?;
    let beside = folder.join(format!("{name}.part"));
    std::fs::write(&beside, bytes).ok()?;
    std::fs::rename(&beside, folder.join(name)).ok()?;
    Some(place)
}

/// Folders with the names people know them by: the program's own, the usual ones, and disks that were put in.
fn folders(data: &Path) -> Vec<(PathBuf, String)> {
    let mut all = vec![(data.join("orders"), "orders".to_owned())];
    let home = std::env::var_os("HOME").map(PathBuf::from);
    for name in ["Downloads", "Documents", "Desktop"] {
        if let Some(home) = &home {
            all.push((home.join(name), name.to_owned()));
        }
    }
    let user = std::env::var("USER").unwrap_or_default();
    for root in ["/media", "/run/media", "/Volumes"] {
        for parent in [PathBuf::from(root), Path::new(root).join(&user)] {
            let Ok(disks) = std::fs::read_dir(parent) else {
                continue;
            };
            for disk in disks.flatten() {
                let name = disk.file_name().to_string_lossy().into_owned();
                all.push((disk.path(), name));
            }
        }
    }
    all
}

/// A household file or a program's settings are not offered; a damaged order is, so that it can be told what is wrong.
fn looks_like_one(bytes: &[u8]) -> bool {
    let text = String::from_utf8_lossy(bytes);
    let has = |start: &str| {
        text.lines()
            .any(|line| line.trim_start().starts_with(start))
    };
    has("[medicine]") || (has("kind") && has("order") && has("issuer"))
}
