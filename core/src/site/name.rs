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
