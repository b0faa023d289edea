//! What a site is called on the receipts it gives.

use crate::exchange::Slip;

/// A name that fits a receipt.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SiteName(String);

/// Why a site cannot be called so.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NameUnfit {
    #[error("a site needs a name")]
    Missing,
    #[error("a site's name has at most {} letters", Slip::LONGEST_SITE)]
    TooLong,
    #[error("a site's name has letters that can be seen only")]
    Unseen,
}

impl NameUnfit {
    pub fn code(self) -> &'static str {
        match self {
            NameUnfit::Missing => "site-name-missing",
            NameUnfit::TooLong => "site-name-too-long",
            NameUnfit::Unseen => "site-name-unseen",
        }
    }
}

impl SiteName {
    /// White space around it is left out.
    ///
    /// # Errors
    /// See [`NameUnfit`].
    pub fn read(typed: &str) -> Result<SiteName, NameUnfit> {
        let name = typed.trim();
        if name.is_empty() {
            return Err(NameUnfit::Missing);
        }
        if name.chars().count() > Slip::LONGEST_SITE {
            return Err(NameUnfit::TooLong);
        }
        match Slip::is_site_name(name) {
            true => Ok(SiteName(name.to_owned())),
            false => Err(NameUnfit::Unseen),
        }
    }

    pub fn as_str(&self) -> &str {
        &self.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(typed: &str) -> Result<String, NameUnfit> {
        SiteName::read(typed).map(|name| name.as_str().to_owned())
    }

    #[test]
    fn a_name_is_kept_as_typed_without_the_space_around_it() {
        assert_eq!(read("  Old mill\t"), Ok("Old mill".to_owned()));
        // Letters of every language, and signs that can be seen.
        for name in ["Colegio Ñandú", "Halle 3 – Tür B", "Школа № 5"] {
            assert_eq!(read(name), Ok(name.to_owned()));
        }
    }

    #[test]
    fn what_cannot_be_told_from_nothing_is_no_name() {
        for typed in ["", "   ", "\t\n"] {
            assert_eq!(read(typed), Err(NameUnfit::Missing), "{typed:?}");
        }
    }

    #[test]
    fn a_receipt_has_room_for_twenty_four_letters_however_many_bytes_they_take() {
        for letter in ["a", "ñ", "Ш"] {
            assert_eq!(read(&letter.repeat(24)), Ok(letter.repeat(24)));
            assert_eq!(read(&letter.repeat(25)), Err(NameUnfit::TooLong));
        }
        // Space around it takes no room.
        let spaced = format!(" {} ", "a".repeat(24));
        assert_eq!(read(&spaced), Ok("a".repeat(24)));
    }

    #[test]
    fn letters_that_do_not_show_are_refused() {
        // A line within, a space of no width, and a mark that turns the reading round.
        for typed in ["Old\nmill", "Old\u{200b}mill", "Old \u{202e}llim"] {
            assert_eq!(read(typed), Err(NameUnfit::Unseen), "{typed:?}");
        }
    }
}
