//! The code a home shows, from text or picture: a household's, open or sealed for this site, or a reason why not.

use std::path::Path;

use hearthdose_core::exchange::{HouseholdCode, Message, Scan, Sealed, opened_text};
use hearthdose_ui::machine::device::Device;
use hearthdose_ui::machine::picture;
use hearthdose_ui::scan::{Cascade, Scanner, Symbol};

use super::refused;
use crate::answer::Stop;
use crate::arguments::site::Serve;

/// A household's code and the text it came in; of a sealed one the text inside.
pub struct Scanned {
    pub text: String,
    pub code: HouseholdCode,
}

pub fn read(asked: &Serve, device: &Device) -> Result<Scanned, Stop> {
    let text = match (&asked.code, &asked.image) {
        (Some(text), _) => text.trim_matches(['\r', '\n', '\t']).to_owned(),
        (None, Some(image)) => in_picture(image)?,
        (None, None) => return Err(Stop::unusable("give --code or --image")),
    };
    let (text, scan) = match Scan::read(&text) {
        Scan::Sealed(sealed) => {
            let text = opened(&sealed, device)?;
            let scan = Scan::read(&text);
            (text, scan)
        }
        scan => (text, scan),
    };
    let scanned = match scan {
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

/// What is inside, as it was signed; the record keeps it so, because a key may go.
fn opened(sealed: &Sealed, device: &Device) -> Result<String, Stop> {
    let Some(key) = device.known_site_key()? else {
        let text = "the code is sealed, and this site has no key: make one with site key, or copy the site's own; or ask the household for an open code";
        return Err(refused("site-key-missing", text));
    };
    if key.public().id() != sealed.key_id {
        let text = "the code is sealed for the holder of another key; ask the household for one made by this site's order, or an open one";
        return Err(refused("sealed-for-another", text));
    }
    opened_text(sealed, &key).ok_or_else(|| not_usable(&Scan::Damaged))
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
        Scan::Damaged | Scan::Sealed(_) | Scan::Message(_) => (
            "damaged",
            "the code is one of ours, but not as it was made; scan it again",
        ),
    };
    refused(code, text)
}
