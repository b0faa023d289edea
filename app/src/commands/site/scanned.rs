//! The code a home shows, from text or picture: a household's, whole and open, or a reason why not.

use std::path::Path;

use hearthdose_core::exchange::{HouseholdCode, Message, Scan};
use hearthdose_ui::machine::picture;
use hearthdose_ui::scan::{Cascade, Scanner, Symbol};

use super::refused;
use crate::answer::Stop;
use crate::arguments::site::Serve;

/// A household's code and the text it came in.
pub struct Scanned {
    pub text: String,
    pub code: HouseholdCode,
}

pub fn read(asked: &Serve) -> Result<Scanned, Stop> {
    let text = match (&asked.code, &asked.image) {
        (Some(text), _) => text.trim_matches(['\r', '\n', '\t']).to_owned(),
        (None, Some(image)) => in_picture(image)?,
        (None, None) => return Err(Stop::unusable("give --code or --image")),
    };
    let scanned = match Scan::read(&text) {
        Scan::Message(scanned) => scanned,
        other => return Err(not_usable(&other)),
    };
    match scanned.message {
        Message::Household(code) => Ok(Scanned { text, code }),
        _ => Err(refused(
            "not-a-household-code",
            "this is one of ours, but no household's code",
        )),
    }
}

fn in_picture(image: &Path) -> Result<String, Stop> {
    let frame = picture::open(image).map_err(Stop::unusable)?;
    let found = Cascade::thorough().scan(&frame, Symbol::Qr);
    found
        .map(|found| found.text.trim_matches(['\r', '\n', '\t']).to_owned())
        .ok_or_else(|| refused("nothing-read", "there is no code to be read in the picture"))
}

fn not_usable(scan: &Scan) -> Stop {
    let (code, text) = match scan {
        Scan::Sealed(_) => (
            "code-sealed",
            "the code is sealed for the holder of a key; ask the household for an open one",
        ),
        Scan::Part(_) => ("not-a-household-code", "this is one part of a longer file"),
        Scan::Newer => (
            "newer-version",
            "the code was made by a newer version: please update",
        ),
        Scan::SignatureWrong => (
            "signature-wrong",
            "the code was changed after it was made; ask for a new one",
        ),
        Scan::Foreign => ("foreign", "this is a code of something else"),
        Scan::Damaged | Scan::Message(_) => (
            "damaged",
            "the code is one of ours, but not as it was made; scan it again",
        ),
    };
    refused(code, text)
}
