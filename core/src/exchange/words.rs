//! What the texts in a message may look like.

/// Short words for a person to read: not empty, nothing invisible, no space at either end.
pub(super) fn are_plain(text: &str, most: usize) -> bool {
    !text.is_empty()
        && text.trim() == text
        && text.chars().count() <= most
        && !text.chars().any(char::is_control)
}

/// A name for machines: lower-case letters, digits and hyphens.
pub(super) fn are_a_key(text: &str, most: usize) -> bool {
    let fits = |byte: u8| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'-';
    !text.is_empty() && text.len() <= most && text.bytes().all(fits)
}

/// A lot as printed on a package (GS1: at most 20 visible characters).
pub(super) fn are_a_lot(text: &str) -> bool {
    !text.is_empty() && text.len() <= 20 && text.bytes().all(|byte| byte.is_ascii_graphic())
}
