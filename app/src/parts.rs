//! A file as numbered codes, in pictures.

use std::fs;
use std::path::Path;

use hearthdose_core::exchange::{self, CannotWrite, FRAME_VERSION};
use hearthdose_ui::machine::picture;
use hearthdose_ui::scan;

use crate::answer::{Reason, Stop};

/// Pixels to a module of one part of a file.
const PART_SCALE: usize = 4;

/// Writes a file as numbered codes, a quarter more than are needed; gives their names.
///
/// # Errors
/// A file that is empty or too long for codes, and the disk's.
pub fn write(folder: &Path, name: &str, bytes: &[u8]) -> Result<Vec<String>, Stop> {
    let too_long = || {
        let why = CannotWrite::TooLong;
        let text = format!("the file cannot be written as codes: {why}");
        Stop::refused(vec![Reason::new(why.code(), text)])
    };
    let needed = bytes.len().div_ceil(exchange::SYMBOL);
    let spare = u32::try_from(needed / 4 + 2).unwrap_or(2);
    let frames = exchange::frames(bytes, spare).map_err(|_| too_long())?;
    let mut written = Vec::new();
    for (at, frame) in frames.iter().enumerate() {
        let text = exchange::write_frame(frame).ok_or_else(too_long)?;
        let drawn = scan::drawn(&text, PART_SCALE, FRAME_VERSION).ok_or_else(too_long)?;
        let path = folder.join(format!("{name}-code-{:03}.png", at + 1));
        let cannot =
            |why: String| Stop::unusable(format!("cannot write {}: {why}", path.display()));
        let png = picture::png(&drawn).map_err(cannot)?;
        fs::write(&path, png).map_err(|error| cannot(error.to_string()))?;
        written.push(path.display().to_string());
    }
    Ok(written)
}
