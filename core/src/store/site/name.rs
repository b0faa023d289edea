//! The site's name, as a setting of its record: no fact tells of it, and each tablet is told once.

use super::super::{Store, StoreError};
use crate::site::SiteName;

const NAME: &str = "site-name";

impl Store {
    /// What the site is called; none before it was named.
    ///
    /// # Errors
    /// See [`StoreError`].
    pub fn site_name(&self) -> Result<Option<SiteName>, StoreError> {
        let kept = self.setting(NAME)?;
        Ok(kept.and_then(|name| SiteName::read(&name).ok()))
    }

    /// Names the site, in place of an earlier name.
    ///
    /// # Errors
    /// See [`StoreError`]; the old name stands.
    pub fn set_site_name(&mut self, name: &SiteName) -> Result<(), StoreError> {
        self.set_setting(NAME, name.as_str())
    }
}
