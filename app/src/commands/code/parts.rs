//! `code write` without a household: an order's own file as numbered codes, to be read on another device.
//!
//! The bytes travel as they are, with whatever signature stands in them, so that their fingerprint stays.

use std::fs;

use serde::Serialize;

use crate::answer::{Answer, Exit, Stop};
use crate::arguments::CodeWrite;
use crate::{input, parts};

#[derive(Serialize)]
struct Written {
    outcome: &'static str,
    order: String,
    revision: u32,
    fingerprint: String,
    /// For two people to compare by eye or aloud.
    short: String,
    bytes: usize,
    /// Codes of which at least so many are needed.
    needed: usize,
    files: Vec<String>,
}

pub fn write(asked: &CodeWrite) -> Result<Answer, Stop> {
    let Some(path) = &asked.order else {
        return Err(Stop::unusable("give --household or --order"));
    };
    let order = input::order(path)?;
    let bytes = input::bytes(path)?;
    let out = &asked.out;
    fs::create_dir_all(out)
        .map_err(|error| Stop::unusable(format!("cannot write {}: {error}", out.display())))?;
    let is_plain = |letter: char| letter.is_ascii_alphanumeric() || letter == '-';
    let id = order.id.replace(|letter| !is_plain(letter), "-");
    let files = parts::write(out, &format!("order-{id}-{}", order.revision), &bytes)?;
    let document = Written {
        outcome: "written",
        order: order.id.clone(),
        revision: order.revision,
        fingerprint: order.fingerprint.to_string(),
        short: order.fingerprint.short(),
        bytes: bytes.len(),
        needed: bytes.len().div_ceil(hearthdose_core::exchange::SYMBOL),
        files,
    };
    let text = format!(
        "{}: {} revision {} in {} codes, any {} or a few more of which are enough\n  fingerprint, to be compared where they are read: {}\n",
        out.display(),
        document.order,
        document.revision,
        document.files.len(),
        document.needed,
        document.short
    );
    Answer::new(Exit::Done, &document, text)
}
