//! What each stage of the decoder buys, on pictures of an invented camera.
//!
//! `cargo run --release --example scanning -- made 20 1`: a row for each class of 20 pictures, from seed 1: how many pictures each stage was the first to read.
//! `… -- held 20 1`: how soon a code is read that a hand holds before a camera.
//! `… -- draw DIR 20 1`: the pictures of both as PGM files with `texts.tsv`, so that another decoder can be given the same.
//! `… -- read DIR frame`: a line for each PGM picture in a folder, read as a camera's frame; `picture` as a chosen picture, `package` as a medicine package's DataMatrix.
//! The camera is seeded, so two runs see the same pictures.

mod camera;
mod folder;
mod held;

use std::collections::BTreeMap;
use std::io::{self, Write};
use std::path::Path;
use std::time::Instant;

use hearthdose_ui::scan::{Cascade, Frame, Stage, Symbol};

use camera::{Camera, Shot};

fn main() -> io::Result<()> {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    let number = |word: &str| word.parse::<u64>().map_err(io::Error::other);
    let out = &mut io::stdout().lock();
    match words[..] {
        ["read", folder, how] => folder::read(Path::new(folder), how, out),
        ["draw", folder, count, seed] => draw(Path::new(folder), number(count)?, number(seed)?),
        ["held", count, seed] => held(number(count)?, number(seed)?, out),
        ["made", count, seed] => made(number(count)?, number(seed)?, out),
        [] => made(20, 1, out),
        _ => Err(io::Error::other(
            "say: made N SEED, held N SEED, draw DIR N SEED, or read DIR frame|picture|package",
        )),
    }
}

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

fn picture(shot: Shot, seed: u64, number: u64) -> (String, Frame) {
    let text = text(seed * 10_000 + number);
    let mut camera = Camera::new(seed * 1_000_000 + number * 100 + shot as u64);
    let frame = camera.take(&text, shot);
    (text, frame)
}

fn made(count: u64, seed: u64, out: &mut impl Write) -> io::Result<()> {
    write!(out, "{:<10}", "class")?;
    for stage in Stage::ALL {
        write!(out, "{:>10}", format!("{stage:?}").to_lowercase())?;
    }
    writeln!(
        out,
        "{:>8}{:>8}{:>8}{:>8}{:>8}",
        "unread", "wrong", "ms 50%", "ms 95%", "most"
    )?;
    let cascade = Cascade::thorough();
    for shot in Shot::ALL {
        let mut by_stage: BTreeMap<Stage, usize> = BTreeMap::new();
        let (mut unread, mut wrong, mut times) = (0, 0, Vec::new());
        for number in 0..count {
            let (text, frame) = picture(shot, seed, number);
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
        write!(out, "{:<10}", shot.name())?;
        for stage in Stage::ALL {
            write!(out, "{:>10}", by_stage.get(&stage).copied().unwrap_or(0))?;
        }
        write!(out, "{unread:>8}{wrong:>8}")?;
        for place in [times.len() / 2, times.len() * 95 / 100, times.len() - 1] {
            write!(out, "{:>8}", times[place])?;
        }
        writeln!(out)?;
    }
    Ok(())
}

fn held(count: u64, seed: u64, out: &mut impl Write) -> io::Result<()> {
    let mut read: Vec<f64> = (0..count)
        .filter_map(|number| {
            let text = text(seed * 10_000 + number);
            held::read(&text, seed * 1_000 + number, &mut Cascade::quick())
        })
        .collect();
    read.sort_by(f64::total_cmp);
    let in_time = read.iter().filter(|seconds| **seconds <= 1.0).count();
    write!(out, "read in the first second: {in_time} of {count}")?;
    if let Some(middle) = read.get(read.len() / 2) {
        write!(out, ", half of those within {middle:.2} s")?;
    }
    writeln!(out)
}

fn draw(folder: &Path, count: u64, seed: u64) -> io::Result<()> {
    std::fs::create_dir_all(folder)?;
    let mut texts = std::fs::File::create(folder.join("texts.tsv"))?;
    for number in 0..count {
        for shot in Shot::ALL {
            let (text, frame) = picture(shot, seed, number);
            let name = format!("{}-{number:03}", shot.name());
            folder::write(folder, &name, &frame)?;
            let text = if shot == Shot::Empty { "" } else { &text };
            writeln!(texts, "{name}\t{text}")?;
        }
        let text = text(seed * 10_000 + number);
        for (frame, at) in held::second(&text, seed * 1_000 + number).zip(0..) {
            let name = format!("held-{number:03}-{at:02}");
            folder::write(folder, &name, &frame)?;
            writeln!(texts, "{name}\t{text}")?;
        }
    }
    Ok(())
}
