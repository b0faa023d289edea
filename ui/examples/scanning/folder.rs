//! Pictures from a folder: PGM files (P5, one byte to a pixel).

use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::time::Instant;

use hearthdose_ui::scan::{Cascade, Frame, Symbol};

/// A line for each picture: name, milliseconds, stage, text; with tabs between.
pub fn read(folder: &Path, how: &str, out: &mut impl Write) -> io::Result<()> {
    let entries: Result<Vec<PathBuf>, _> = fs::read_dir(folder)?
        .map(|entry| entry.map(|entry| entry.path()))
        .collect();
    let mut paths = entries?;
    paths.retain(|path| path.extension().is_some_and(|ending| ending == "pgm"));
    paths.sort();
    let (cascade, symbol) = match how {
        "frame" => (Cascade::quick(), Symbol::Qr),
        "picture" => (Cascade::thorough(), Symbol::Qr),
        "package" => (Cascade::thorough(), Symbol::DataMatrix),
        _ => return Err(io::Error::other("frame, picture or package")),
    };
    for path in paths {
        let Some(frame) = frame(&fs::read(&path)?) else {
            return Err(io::Error::other(format!(
                "{} is no such picture",
                path.display()
            )));
        };
        let begun = Instant::now();
        let found = cascade.scan_by_stage(&frame, symbol);
        let milliseconds = begun.elapsed().as_secs_f64() * 1000.0;
        let name = path.file_stem().unwrap_or_default().to_string_lossy();
        match found {
            Some((found, stage)) => {
                writeln!(out, "{name}\t{milliseconds:.2}\t{stage:?}\t{}", found.text)?
            }
            None => writeln!(out, "{name}\t{milliseconds:.2}\t\t")?,
        }
    }
    Ok(())
}

pub fn write(folder: &Path, name: &str, frame: &Frame) -> io::Result<()> {
    let mut bytes = format!("P5\n{} {}\n255\n", frame.width(), frame.height()).into_bytes();
    bytes.extend(frame.pixels());
    fs::write(folder.join(format!("{name}.pgm")), bytes)
}

/// `P5`, width, height and 255, then the pixels.
fn frame(bytes: &[u8]) -> Option<Frame> {
    let mut words = bytes.splitn(5, |byte| byte.is_ascii_whitespace());
    let mut word = || std::str::from_utf8(words.next()?).ok();
    let (magic, width, height, most) = (word()?, word()?, word()?, word()?);
    let (width, height): (usize, usize) = (width.parse().ok()?, height.parse().ok()?);
    let start = bytes.len().checked_sub(width.checked_mul(height)?)?;
    let fits = magic == "P5" && most == "255";
    fits.then(|| Frame::new(width, height, bytes[start..].to_vec()))?
}
