//! The text in a code: mark, base45, last letter.
//!
//! ```text
//! HD1 … Z
//! │ │ │ └ always Z, so that no code ends in a space that a scanner might drop
//! │ │ └ base45 of the bytes
//! │ └ format version
//! └ Hearthdose
//! ```
//!
//! All of it is in QR's alphanumeric set. At the ends only CR, LF and Tab are trimmed: a space is a digit of base45.

use super::base45;

/// What every text of this format version begins with.
pub const MARK: &str = "HD1";
const NAME: &str = "HD";
const LAST: char = 'Z';
/// Room in the largest QR code at level L, alphanumeric (ISO/IEC 18004).
const LONGEST: usize = 4296;

/// What a text is, before its bytes are looked at.
pub(super) enum Unwrapped {
    Bytes(Vec<u8>),
    Newer,
    Damaged,
    Foreign,
}

pub(super) fn wrap(bytes: &[u8]) -> Option<String> {
    let text = format!("{MARK}{}{LAST}", base45::encode(bytes));
    (text.len() <= LONGEST).then_some(text)
}

pub(super) fn unwrap(text: &str) -> Unwrapped {
    let text = text.trim_matches(['\r', '\n', '\t']);
    let Some(behind) = text.strip_prefix(NAME) else {
        return Unwrapped::Foreign;
    };
    let mut letters = behind.chars();
    match letters.next() {
        Some('1') => {}
        Some('2'..='9') => return Unwrapped::Newer,
        _ => return Unwrapped::Foreign,
    }
    let bytes = letters
        .as_str()
        .strip_suffix(LAST)
        .filter(|_| text.len() <= LONGEST)
        .and_then(base45::decode);
    bytes.map_or(Unwrapped::Damaged, Unwrapped::Bytes)
}
