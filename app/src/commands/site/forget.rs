//! `site forget`: a home that was handed over leaves this record for good, against a signed receipt.
//!
//! The receipt is a picture of a code, on the disk before anything is forgotten. It names nobody.

use std::fs::{self, OpenOptions};
use std::io::Write;
use std::path::{Path, PathBuf};

use hearthdose_core::exchange::{self, Erasure, Message, Scan};
use hearthdose_ui::machine::picture;
use hearthdose_ui::scan;
use serde::Serialize;

use super::{refused, which};
use crate::answer::{Answer, Exit, Stop};
use crate::arguments::site::Forget;
use crate::site::guard;
use crate::site::record::{SiteRecord, hex, moment};

/// Pixels to a module.
const SCALE: usize = 8;
/// Letters of a reason that a receipt has place for.
const LONGEST: usize = 160;

#[derive(Serialize)]
struct Document {
    outcome: &'static str,
    home: String,
    /// Entries that went.
    facts: usize,
    /// Of these, entries that no shift file had.
    never_handed_over: usize,
    /// SHA-256 of the signed receipt.
    receipt: String,
    file: String,
    text: String,
}

pub fn run(asked: &Forget, data: Option<PathBuf>) -> Result<Answer, Stop> {
    let now = moment(&asked.at)?;
    let reason = reason(asked.even_unexported.as_deref())?;
    let mut record = SiteRecord::open(data)?;
    guard::as_lead(&mut record, &asked.pin)?;
    let home = which::home(&asked.which, &record)?;
    let (facts, never_handed_over) = record.facts_of_home(home)?;
    if facts.is_empty() {
        return Err(refused(
            "home-unknown",
            "nothing of this home is recorded here",
        ));
    }
    let reason = reason.filter(|_| never_handed_over > 0);
    if never_handed_over > 0 && reason.is_none() {
        let text = format!(
            "{never_handed_over} of its {} entries were never handed over: write them with shift export first, or give the reason with --even-unexported",
            facts.len()
        );
        return Err(refused("not-handed-over", text));
    }
    let unfit = || refused("receipt-unfit", "the receipt cannot be made");
    let erasure = Erasure::of(home, now.wall, &facts, reason).ok_or_else(unfit)?;
    let text = exchange::write(&Message::Erasure(erasure), &record.secret()?.key(""))
        .map_err(|why| refused(why.code(), format!("the receipt cannot be made: {why}")))?;
    let Scan::Message(receipt) = Scan::read(&text) else {
        return Err(unfit());
    };
    let png = scan::drawn(&text, SCALE, 1).ok_or_else(unfit)?;
    let png = picture::png(&png).map_err(Stop::unusable)?;
    save(&png, &asked.out)?;
    let receipt = hex(&receipt.digest);
    let gone = record.forget(&now, home, receipt.clone());
    let gone = gone.inspect_err(|_| {
        // Nothing was forgotten, so nothing says that it was.
        let _ = fs::remove_file(&asked.out);
    })?;
    let document = Document {
        outcome: "forgotten",
        home: home.to_string(),
        facts: gone,
        never_handed_over,
        receipt,
        file: asked.out.display().to_string(),
        text,
    };
    let text = format!(
        "forgotten: {gone} entries about home {home}, here and after later merges\n  the receipt, which names nobody: {}\n",
        document.file
    );
    Answer::new(Exit::Done, &document, text)
}

fn reason(given: Option<&str>) -> Result<Option<String>, Stop> {
    let Some(given) = given.map(str::trim) else {
        return Ok(None);
    };
    if given.is_empty() || given.chars().count() > LONGEST {
        let text =
            format!("give a reason of 1 to {LONGEST} letters, without names: it is on the receipt");
        return Err(refused("reason-unfit", text));
    }
    Ok(Some(given.to_owned()))
}

/// Never over another file.
fn save(png: &[u8], path: &Path) -> Result<(), Stop> {
    let fail = |why: std::io::Error| {
        Stop::unusable(format!(
            "nothing was forgotten, because the receipt {} cannot be written: {why}",
            path.display()
        ))
    };
    let mut options = OpenOptions::new();
    let mut file = options
        .write(true)
        .create_new(true)
        .open(path)
        .map_err(fail)?;
    file.write_all(png).map_err(fail)?;
    file.sync_all().map_err(fail)
}
