//! Key files: 64 hexadecimal digits, or a site key as its signed code.

use std::path::Path;

use hearthdose_core::exchange::{Message, OpeningKey, Scan, SealingKey};
use hearthdose_ui::machine::device;

use crate::answer::{Reason, Stop};
use crate::input;

/// The key for which something is sealed.
pub fn sealing(path: &Path) -> Result<SealingKey, Stop> {
    let text = text(path)?;
    if let Some(key) = device::from_hex(&text) {
        return Ok(SealingKey(key));
    }
    match Scan::read(&text) {
        Scan::Message(scanned) => match scanned.message {
            Message::SiteKey(key) => Ok(key.key),
            _ => Err(unfit(path)),
        },
        _ => Err(unfit(path)),
    }
}

/// The secret key that opens what was sealed.
pub fn opening(path: &Path) -> Result<OpeningKey, Stop> {
    let key = device::from_hex(&text(path)?);
    key.and_then(|key| OpeningKey::from_bytes(&key))
        .ok_or_else(|| unfit(path))
}

fn text(path: &Path) -> Result<String, Stop> {
    let bytes = input::bytes(path)?;
    let text = String::from_utf8(bytes).map_err(|_| unfit(path))?;
    Ok(text.trim_end_matches(['\r', '\n', '\t']).to_owned())
}

fn unfit(path: &Path) -> Stop {
    let text = format!("{} does not hold a key", path.display());
    Stop::refused(vec![Reason::new("key-file-unusable", text)])
}
