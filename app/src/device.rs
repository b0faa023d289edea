//! The secrets of this device, and how many codes it has issued: small files in the data folder.
//!
//! A secret is made once, from the system's random bytes, in a file that only its owner can read; one that others can read is not used.
//! A site that opens sealed codes has a second one: the secret half of the key that its order names. Sites under one order share it by copying that file.

use std::collections::BTreeMap;
use std::fs::{self, OpenOptions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use hearthdose_core::exchange::{DeviceRandom, HouseholdId, OpeningKey};

use crate::answer::{Reason, Stop};

const KEY: &str = "device.key";
/// The same 64 digits that `shift merge --key` takes.
const SITE: &str = "site.key";
const ISSUES: &str = "issued-codes.json";

/// The files of a device.
pub struct Device {
    folder: PathBuf,
}

impl Device {
    pub fn at(folder: PathBuf) -> Device {
        Device { folder }
    }

    /// The secret, made now if there is none.
    ///
    /// # Errors
    /// A key file that others can read or that holds something else; a folder that cannot be written.
    pub fn secret(&self) -> Result<DeviceRandom, Stop> {
        if let Some(secret) = self.known_secret()? {
            return Ok(secret);
        }
        self.make_key(KEY)?;
        self.known_secret()?
            .ok_or_else(|| self.unusable("the key file is gone again"))
    }

    /// The secret, if there is one already.
    ///
    /// # Errors
    /// As [`Device::secret`].
    pub fn known_secret(&self) -> Result<Option<DeviceRandom>, Stop> {
        Ok(self.key(KEY)?.map(DeviceRandom::new))
    }

    /// The key that opens what was sealed for this site, made now if there is none; true when it is new.
    ///
    /// # Errors
    /// As [`Device::secret`].
    pub fn site_key(&self) -> Result<(OpeningKey, bool), Stop> {
        if let Some(key) = self.known_site_key()? {
            return Ok((key, false));
        }
        self.make_key(SITE)?;
        let key = self.known_site_key()?;
        key.map(|key| (key, true))
            .ok_or_else(|| self.unusable("the key file is gone again"))
    }

    /// The key that opens what was sealed for this site, if there is one already.
    ///
    /// # Errors
    /// As [`Device::secret`].
    pub fn known_site_key(&self) -> Result<Option<OpeningKey>, Stop> {
        let key = self.key(SITE)?;
        Ok(key.and_then(|random| OpeningKey::from_bytes(&random)))
    }

    fn key(&self, name: &str) -> Result<Option<[u8; 32]>, Stop> {
        let path = self.folder.join(name);
        let text = match fs::read_to_string(&path) {
            Ok(text) => text,
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(None),
            Err(error) if error.kind() == io::ErrorKind::InvalidData => String::new(),
            Err(error) => return Err(self.unusable(&error.to_string())),
        };
        if others_can_read(&path).map_err(|error| self.unusable(&error.to_string()))? {
            let text = format!(
                "{} can be read by others; a device's key must be its own: chmod 600, or put it away and a new one is made",
                path.display()
            );
            return Err(refused("device-key-exposed", text));
        }
        let random = from_hex(text.trim_end()).ok_or_else(|| {
            let text = format!(
                "{} does not hold a key; put it away and a new one is made",
                path.display()
            );
            refused("device-key-damaged", text)
        })?;
        Ok(Some(random))
    }

    /// Puts a fresh key where none is, whole or not at all.
    fn make_key(&self, name: &str) -> Result<(), Stop> {
        let make = || -> io::Result<()> {
            let mut random = [0; 32];
            getrandom::fill(&mut random).map_err(io::Error::other)?;
            let hex: String = random.iter().map(|byte| format!("{byte:02x}")).collect();
            fs::create_dir_all(&self.folder)?;
            let draft = self.folder.join(format!("{name}.{}", std::process::id()));
            let mut options = OpenOptions::new();
            options.write(true).create_new(true);
            #[cfg(unix)]
            std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
            let mut file = options.open(&draft)?;
            writeln!(file, "{hex}")?;
            file.sync_all()?;
            // A link never replaces a key that another run has made meanwhile.
            let linked = fs::hard_link(&draft, self.folder.join(name));
            fs::remove_file(&draft)?;
            match linked {
                Err(error) if error.kind() != io::ErrorKind::AlreadyExists => Err(error),
                _ => Ok(()),
            }
        };
        make().map_err(|error| self.unusable(&error.to_string()))
    }

    /// The next issue number of a household; it is on the disk when this returns.
    ///
    /// # Errors
    /// A list of issues that cannot be read or written.
    pub fn next_issue(&self, household: HouseholdId) -> Result<u32, Stop> {
        let path = self.folder.join(ISSUES);
        let mut issues: BTreeMap<String, u32> = match fs::read(&path) {
            Ok(bytes) => serde_json::from_slice(&bytes).map_err(|_| {
                let text = format!(
                    "{} is no list of issued codes; put it away and numbers begin anew",
                    path.display()
                );
                refused("issued-codes-damaged", text)
            })?,
            Err(error) if error.kind() == io::ErrorKind::NotFound => BTreeMap::new(),
            Err(error) => return Err(self.unusable(&error.to_string())),
        };
        let entry = issues.entry(format!("{household:?}")).or_insert(0);
        *entry = entry
            .checked_add(1)
            .ok_or_else(|| self.unusable("too many codes were issued"))?;
        let issue = *entry;
        let save = || -> io::Result<()> {
            fs::create_dir_all(&self.folder)?;
            let draft = self.folder.join(format!("{ISSUES}.{}", std::process::id()));
            let mut file = fs::File::create(&draft)?;
            file.write_all(&serde_json::to_vec(&issues).map_err(io::Error::other)?)?;
            file.sync_all()?;
            fs::rename(&draft, &path)
        };
        save().map_err(|error| self.unusable(&error.to_string()))?;
        Ok(issue)
    }

    fn unusable(&self, why: &str) -> Stop {
        Stop::unusable(format!(
            "cannot use the data folder {}: {why}",
            self.folder.display()
        ))
    }
}

fn refused(code: &str, text: String) -> Stop {
    Stop::refused(vec![Reason::new(code, text)])
}

#[cfg(unix)]
fn others_can_read(path: &Path) -> io::Result<bool> {
    use std::os::unix::fs::PermissionsExt;
    Ok(fs::metadata(path)?.permissions().mode() & 0o077 != 0)
}

#[cfg(not(unix))]
fn others_can_read(_path: &Path) -> io::Result<bool> {
    Ok(false)
}

/// 32 bytes from 64 hexadecimal digits.
pub fn from_hex(text: &str) -> Option<[u8; 32]> {
    if text.len() != 64 || !text.bytes().all(|byte| byte.is_ascii_hexdigit()) {
        return None;
    }
    let mut bytes = [0; 32];
    for (at, byte) in bytes.iter_mut().enumerate() {
        *byte = u8::from_str_radix(text.get(2 * at..2 * at + 2)?, 16).ok()?;
    }
    Some(bytes)
}
