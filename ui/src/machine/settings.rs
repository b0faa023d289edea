//! The settings of this device: a small file beside the records.

use std::fs::{self, File};
use std::io::{self, Read, Write};
use std::path::Path;

const NAME: &str = "settings";
/// More bytes than settings ever have.
const MOST: u64 = 4_096;

/// The text as it was kept; none where there is no file, empty where it cannot be read.
pub fn read(folder: &Path) -> Option<String> {
    let file = match File::open(folder.join(NAME)) {
        Ok(file) => file,
        Err(error) if error.kind() == io::ErrorKind::NotFound => return None,
        Err(_) => return Some(String::new()),
    };
    let mut text = String::new();
    let read = file.take(MOST).read_to_string(&mut text);
    Some(read.map(|_| text).unwrap_or_default())
}

/// Keeps the text in place of the one before: whole, or not at all.
///
/// # Errors
/// A folder that cannot be made or written.
pub fn keep(folder: &Path, text: &str) -> io::Result<()> {
    fs::create_dir_all(folder)?;
    let draft = folder.join(format!("{NAME}.{}", std::process::id()));
    let written = (|| {
        let mut file = File::create(&draft)?;
        file.write_all(text.as_bytes())?;
        file.sync_all()?;
        fs::rename(&draft, folder.join(NAME))
    })();
    if written.is_err() {
        let _ = fs::remove_file(&draft);
    }
    written
}
