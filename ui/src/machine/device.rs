//! The secrets of this device, and how many codes it has issued: small files in the data folder.
//!
//! A secret is made once, from the system's random bytes, in a file that only its owner can read; one that others can read is not used.
//! A site that opens sealed codes has a second one: the secret half of the key that its order names. Sites under one order share it by copying that file.

use std::collections::BTreeMap;
use std::fs::{self, OpenOptions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use hearthdose_core::exchange::{DeviceRandom, HouseholdId, OpeningKey};

const KEY: &str = "device.key";
/// The same 64 digits that `shift merge --key` takes.
const SITE: &str = "site.key";
const ISSUES: &str = "issued-codes.json";

/// Why the secret or the list of issued codes cannot be used.
#[derive(Debug, thiserror::Error)]
pub enum DeviceError {
    #[error(
        "{} can be read by others; a device's key must be its own: chmod 600",
        .0.display()
    )]
    KeyExposed(PathBuf),
    #[error("{} does not hold a key; put it away and a new one is made", .0.display())]
    KeyDamaged(PathBuf),
    #[error(
        "{} does not hold a key; copy it again from another device of the site. Put it away only if there is none: then a new one is made, the order must name it, and codes sealed for the old one stay shut",
        .0.display()
    )]
    SiteKeyDamaged(PathBuf),
    #[error("{} is no list of issued codes; put it away and numbers begin anew", .0.display())]
    IssuesDamaged(PathBuf),
    #[error("cannot use the data folder {}: {why}", .folder.display())]
    Unusable { folder: PathBuf, why: String },
}

impl DeviceError {
    /// The reason's code; none where the folder and not its contents is at fault.
    pub fn code(&self) -> Option<&'static str> {
        match self {
            DeviceError::KeyExposed(_) => Some("device-key-exposed"),
            DeviceError::KeyDamaged(_) => Some("device-key-damaged"),
            DeviceError::SiteKeyDamaged(_) => Some("site-key-damaged"),
            DeviceError::IssuesDamaged(_) => Some("issued-codes-damaged"),
            DeviceError::Unusable { .. } => None,
        }
    }
}

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
    pub fn secret(&self) -> Result<DeviceRandom, DeviceError> {
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
    pub fn known_secret(&self) -> Result<Option<DeviceRandom>, DeviceError> {
        Ok(self.key(KEY)?.map(DeviceRandom::new))
    }

    /// The key that opens what was sealed for this site, made now if there is none; true when it is new.
    ///
    /// # Errors
    /// As [`Device::secret`].
    pub fn site_key(&self) -> Result<(OpeningKey, bool), DeviceError> {
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
    pub fn known_site_key(&self) -> Result<Option<OpeningKey>, DeviceError> {
        let key = self.key(SITE)?;
        Ok(key.and_then(|random| OpeningKey::from_bytes(&random)))
    }

    fn key(&self, name: &str) -> Result<Option<[u8; 32]>, DeviceError> {
        let path = self.folder.join(name);
        let text = match fs::read_to_string(&path) {
            Ok(text) => text,
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(None),
            Err(error) if error.kind() == io::ErrorKind::InvalidData => String::new(),
            Err(error) => return Err(self.unusable(&error.to_string())),
        };
        if others_can_read(&path).map_err(|error| self.unusable(&error.to_string()))? {
            return Err(DeviceError::KeyExposed(path));
        }
        match from_hex(text.trim_end()) {
            Some(random) => Ok(Some(random)),
            None if name == SITE => Err(DeviceError::SiteKeyDamaged(path)),
            None => Err(DeviceError::KeyDamaged(path)),
        }
    }

    /// Puts a fresh key where none is, whole or not at all.
    fn make_key(&self, name: &str) -> Result<(), DeviceError> {
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
            let placed = put(&draft, &self.folder.join(name));
            // Already gone where it was moved.
            let _ = fs::remove_file(&draft);
            match placed {
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
    pub fn next_issue(&self, household: HouseholdId) -> Result<u32, DeviceError> {
        let path = self.folder.join(ISSUES);
        let mut issues: BTreeMap<String, u32> = match fs::read(&path) {
            Ok(bytes) => serde_json::from_slice(&bytes)
                .map_err(|_| DeviceError::IssuesDamaged(path.clone()))?,
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

    fn unusable(&self, why: &str) -> DeviceError {
        DeviceError::Unusable {
            folder: self.folder.clone(),
            why: why.to_owned(),
        }
    }
}

/// Puts the draft in place where nothing is; an older file stays.
///
/// A link never replaces a key that another run has made meanwhile. Android forbids links, and there one process alone has the folder.
fn put(draft: &Path, place: &Path) -> io::Result<()> {
    if cfg!(target_os = "android") {
        return if place.exists() {
            Err(io::ErrorKind::AlreadyExists.into())
        } else {
            fs::rename(draft, place)
        };
    }
    fs::hard_link(draft, place)
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
