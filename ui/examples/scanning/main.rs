//! What each stage of the decoder buys, on pictures of an invented camera.
//!
//! `cargo run --example scanning -- [PICTURES IN EACH CLASS]`: prints a table with a row for each class, and how many pictures each stage was the first to read.
//! The camera is seeded, so two runs see the same pictures.
//! With the name of a folder instead of a number, its PGM pictures are read as a camera's frames, and a line is printed for each; `chosen` behind it has them read as chosen pictures, `packages` as chosen pictures of medicine packages.

mod camera;
mod folder;

use std::collections::BTreeMap;
use std::io::{self, Write};
use std::path::Path;
use std::time::Instant;

use hearthdose_ui::scan::{Cascade, Stage, Symbol};

use camera::{Camera, Shot};

/// A text as long as a household of four has, out of the same letters.
fn text(number: u64) -> String {
    let letters: Vec<char> = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ$%*+-./:"
        .chars()
        .collect();
    let mut dice = camera::Dice::new(number);
    let middle: String = (0..440)
        .map(|_| letters[dice.below(letters.len())])
        .collect();
    format!("HD1{middle}Z")
}

fn main() -> io::Result<()> {
    let word = std::env::args().nth(1);
    let mut out = io::stdout().lock();
    if let Some(folder) = word.as_ref().map(Path::new).filter(|path| path.is_dir()) {
        let as_what = std::env::args().nth(2).unwrap_or_default();
        let symbol = match as_what.as_str() {
            "packages" => Symbol::DataMatrix,
            _ => Symbol::Qr,
        };
        return folder::scan(folder, !as_what.is_empty(), symbol, &mut out);
    }
    let count = word.and_then(|word| word.parse().ok()).unwrap_or(20);
    write!(out, "{:<14}", "class")?;
    for stage in Stage::ALL {
        write!(out, "{:>10}", format!("{stage:?}").to_lowercase())?;
    }
    writeln!(
        out,
        "{:>8}{:>8}{:>10}{:>10}",
        "unread", "wrong", "median ms", "most ms"
    )?;
    let cascade = Cascade::thorough();
    for shot in Shot::ALL {
        let mut by_stage: BTreeMap<Stage, usize> = BTreeMap::new();
        let (mut unread, mut wrong, mut times) = (0, 0, Vec::new());
        for number in 0..count {
            let text = text(number);
            let mut camera = Camera::new(number * 100 + shot as u64);
            let frame = camera.take(&text, shot);
            let begun = Instant::now();
            let found = cascade.scan_by_stage(&frame, Symbol::Qr);
            times.push(begun.elapsed().as_millis());
            match found {
                None => unread += 1,
                Some((found, stage)) if found.text == text => {
                    *by_stage.entry(stage).or_default() += 1
                }
                Some(_) => wrong += 1,
            }
        }
        times.sort_unstable();
        write!(out, "{:<14}", format!("{shot:?}").to_lowercase())?;
        for stage in Stage::ALL {
            write!(out, "{:>10}", by_stage.get(&stage).copied().unwrap_or(0))?;
        }
        let (median, most) = (times.get(times.len() / 2), times.last());
        writeln!(
            out,
            "{unread:>8}{wrong:>8}{:>10}{:>10}",
            median.copied().unwrap_or(0),
            most.copied().unwrap_or(0)
        )?;
    }
    Ok(())
}
