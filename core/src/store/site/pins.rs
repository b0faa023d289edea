//! The PINs of a site's roles, kept as settings of this one record: they are no facts and never travel.
//!
//! * Of each only an Argon2id hash under a salt of its own is kept, with the parameters it was made by.
//! * A try is counted on the disk before it is compared, so that no kill gives another one.
//! * Waits count what the steady clock saw since the last wrong try, whatever the wall clock says.
//! * Whoever can write the file can take a PIN out of it: a PIN says who may, it keeps no secret.

use argon2::{Algorithm, Argon2, Params, Version};
use rusqlite::{Connection, OptionalExtension, TransactionBehavior};
use serde::{Deserialize, Serialize};

use super::super::rows::{SETTING_COLUMNS, SettingRow};
use super::super::{Store, StoreError};
use crate::site::{Pin, PinCheck, PinSet, Role, TRIES, wait_after};
use crate::time::Now;

/// Bytes of a salt, and of a hash.
const SALT: usize = 16;
const HASH: usize = 32;

/// By which a new hash is made: 19 MiB, two passes, one lane.
const MADE_BY: MadeBy = MadeBy {
    memory_kib: 19_456,
    passes: 2,
    lanes: 1,
};

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
struct MadeBy {
    memory_kib: u32,
    passes: u32,
    lanes: u32,
}

/// What is kept of one PIN.
#[derive(Clone, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
struct Kept {
    argon2id: MadeBy,
    salt: [u8; SALT],
    hash: [u8; HASH],
    /// Wrong tries in a row, one that is being compared among them, and when the last one was.
    wrong: u32,
    last: Option<Now>,
}

impl Store {
    /// Whether a PIN guards this role here.
    ///
    /// # Errors
    /// See [`StoreError`].
    pub fn has_pin(&self, role: Role) -> Result<bool, StoreError> {
        Ok(kept(&self.connection, role)?.is_some())
    }

    /// Sets the PIN of a role. The lead's first one anybody may set; every other takes the lead's, as `lead` typed it.
    ///
    /// `salt` is 16 random bytes of the caller's that are used nowhere else.
    ///
    /// # Errors
    /// See [`StoreError`]; the old one stands.
    pub fn set_pin(
        &mut self,
        role: Role,
        new: &Pin,
        lead: &str,
        salt: [u8; SALT],
        now: &Now,
    ) -> Result<PinSet, StoreError> {
        match self.check_pin(Role::Lead, lead, now)? {
            PinCheck::NoneSet if role == Role::Volunteer => return Ok(PinSet::LeadFirst),
            PinCheck::NoneSet | PinCheck::Opened(_) => {}
            other => return Ok(PinSet::LeadNeeded(other)),
        }
        let other = match role {
            Role::Lead => Role::Volunteer,
            Role::Volunteer => Role::Lead,
        };
        if let Some(other) = kept(&self.connection, other)?
            && other.is(new.digits())?
        {
            return Ok(PinSet::SameAsOther);
        }
        let kept = Kept {
            argon2id: MADE_BY,
            salt,
            hash: hash(new.digits(), &salt, MADE_BY)?,
            wrong: 0,
            last: None,
        };
        self.set_setting(key(role), &kept.text()?)?;
        Ok(PinSet::Set)
    }

    /// Whether what was typed opens what this role may. A lead's PIN opens also what a volunteer may.
    ///
    /// A wrong one counts against each PIN that it was compared with.
    ///
    /// # Errors
    /// See [`StoreError`]; nothing is opened then.
    pub fn check_pin(
        &mut self,
        wanted: Role,
        typed: &str,
        now: &Now,
    ) -> Result<PinCheck, StoreError> {
        let first = self.compare(wanted, typed, now)?;
        if wanted == Role::Lead || matches!(first, PinCheck::NoneSet | PinCheck::Opened(_)) {
            return Ok(first);
        }
        Ok(match self.compare(Role::Lead, typed, now)? {
            PinCheck::Opened(role) => PinCheck::Opened(role),
            _ => first,
        })
    }

    fn compare(&mut self, role: Role, typed: &str, now: &Now) -> Result<PinCheck, StoreError> {
        let transaction = self
            .connection
            .transaction_with_behavior(TransactionBehavior::Immediate)?;
        let Some(mut pin) = kept(&transaction, role)? else {
            return Ok(PinCheck::NoneSet);
        };
        let seconds = pin.wait(now);
        if seconds > 0 {
            // A wall clock alone that went back would never reach the end: the whole wait begins anew.
            if pin.is_ahead_of(now) {
                pin.last = Some(now.clone());
                SettingRow::of(key(role), &pin.text()?).put(&transaction)?;
                transaction.commit()?;
            }
            return Ok(PinCheck::Wait { seconds });
        }
        pin.wrong = pin.wrong.saturating_add(1);
        pin.last = Some(now.clone());
        SettingRow::of(key(role), &pin.text()?).put(&transaction)?;
        transaction.commit()?;
        if !pin.is(typed.trim())? {
            return Ok(PinCheck::Wrong {
                left: TRIES.saturating_sub(pin.wrong),
                wait: wait_after(pin.wrong),
            });
        }
        (pin.wrong, pin.last) = (0, None);
        self.set_setting(key(role), &pin.text()?)?;
        Ok(PinCheck::Opened(role))
    }
}

impl Kept {
    /// Seconds that are still to be waited.
    fn wait(&self, now: &Now) -> u64 {
        let Some(last) = &self.last else { return 0 };
        let passed = match (&now.steady, &last.steady) {
            (Some(now), Some(last)) if now.boot == last.boot => {
                now.millis.saturating_sub(last.millis) / 1_000
            }
            // It was tried before this start of the machine, so all of its running time has passed since.
            (Some(now), Some(_)) => now.millis / 1_000,
            _ => {
                let passed = now.wall.duration_since(last.wall).as_secs();
                u64::try_from(passed).unwrap_or(0)
            }
        };
        wait_after(self.wrong).saturating_sub(passed)
    }

    fn text(&self) -> Result<String, StoreError> {
        serde_json::to_string(self).map_err(|_| StoreError::Unstorable {
            what: "a PIN that JSON cannot hold",
        })
    }

    fn is_ahead_of(&self, now: &Now) -> bool {
        let by_wall = |last: &Now| now.steady.is_none() || last.steady.is_none();
        let last = self.last.as_ref().filter(|last| by_wall(last));
        last.is_some_and(|last| now.wall < last.wall)
    }

    fn is(&self, typed: &str) -> Result<bool, StoreError> {
        let hash = hash(typed, &self.salt, self.argon2id)?;
        // All of it, so that the time tells nothing.
        let pairs = hash.iter().zip(&self.hash);
        Ok(pairs.fold(0, |unlike, (a, b)| unlike | (a ^ b)) == 0)
    }
}

fn hash(digits: &str, salt: &[u8; SALT], by: MadeBy) -> Result<[u8; HASH], StoreError> {
    let unfit = || StoreError::Unstorable {
        what: "a PIN that cannot be hashed",
    };
    let params = Params::new(by.memory_kib, by.passes, by.lanes, Some(HASH));
    let argon2 = Argon2::new(
        Algorithm::Argon2id,
        Version::V0x13,
        params.map_err(|_| unfit())?,
    );
    let mut hash = [0; HASH];
    argon2
        .hash_password_into(digits.as_bytes(), salt, &mut hash)
        .map_err(|_| unfit())?;
    Ok(hash)
}

fn key(role: Role) -> &'static str {
    match role {
        Role::Volunteer => "site-pin-volunteer",
        Role::Lead => "site-pin-lead",
    }
}

/// As any setting: one that is broken counts as never set.
fn kept(connection: &Connection, role: Role) -> Result<Option<Kept>, StoreError> {
    let sql = format!("SELECT {SETTING_COLUMNS} FROM setting WHERE key = ?1");
    let found = connection
        .query_row(&sql, [key(role)], SettingRow::read)
        .optional()?;
    let whole = found.filter(SettingRow::is_whole);
    Ok(whole.and_then(|row| serde_json::from_str(&row.value).ok()))
}
