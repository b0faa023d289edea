//! What this device is set to: its id, its language, its look.

use rusqlite::{OptionalExtension, TransactionBehavior};

use super::rows::{SETTING_COLUMNS, SettingRow};
use super::{Store, StoreError};

/// Key of the device's id.
///
/// It is left behind when a record is salvaged: a device that goes on counting behind lost facts would give their numbers to others.
pub const DEVICE: &str = "device";

/// Key of the arrivals that were handed over; left behind too, because what is saved arrives anew.
pub(super) const HANDED: &str = "site-handed-over";

impl Store {
    /// The value of a setting. One that is broken counts as never set.
    ///
    /// # Errors
    /// See [`StoreError`].
    pub fn setting(&self, key: &str) -> Result<Option<String>, StoreError> {
        let sql = format!("SELECT {SETTING_COLUMNS} FROM setting WHERE key = ?1");
        let found = self
            .connection
            .query_row(&sql, [key], SettingRow::read)
            .optional()?;
        Ok(found.filter(SettingRow::is_whole).map(|row| row.value))
    }

    /// Sets a setting.
    ///
    /// # Errors
    /// See [`StoreError`]; the old value stands.
    pub fn set_setting(&mut self, key: &str, value: &str) -> Result<(), StoreError> {
        let transaction = self
            .connection
            .transaction_with_behavior(TransactionBehavior::Immediate)?;
        SettingRow::of(key, value).put(&transaction)?;
        Ok(transaction.commit()?)
    }
}
