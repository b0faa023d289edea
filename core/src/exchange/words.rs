//! What the texts in a message may look like.

/// Short words for a person to read: not empty, no control character, no space at either end.
pub(super) fn are_plain(text: &str, most: usize) -> bool {
    !text.is_empty()
        && text.trim() == text
        && text.chars().count() <= most
        && !text.chars().any(char::is_control)
}

/// No letter that leaves no mark or turns the reading round (Unicode 17.0, Default_Ignorable_Code_Point): two names that look alike are alike.
pub(super) fn are_seen(text: &str) -> bool {
    let is_unseen = |letter: char| {
        matches!(
            letter,
            '\u{ad}'
                | '\u{34f}'
                | '\u{61c}'
                | '\u{115f}'..='\u{1160}'
                | '\u{17b4}'..='\u{17b5}'
                | '\u{180b}'..='\u{180f}'
                | '\u{200b}'..='\u{200f}'
                | '\u{2028}'..='\u{202e}'
                | '\u{2060}'..='\u{206f}'
                | '\u{3164}'
                | '\u{fe00}'..='\u{fe0f}'
                | '\u{feff}'
                | '\u{ffa0}'
                | '\u{fff0}'..='\u{fff8}'
                | '\u{1bca0}'..='\u{1bca3}'
                | '\u{1d173}'..='\u{1d17a}'
                | '\u{e0000}'..='\u{e0fff}'
        )
    };
    !text.chars().any(is_unseen)
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
