//! Names that no other device gives, and records as files of one folder.

use std::path::{Path, PathBuf};
use std::time::{SystemTime, UNIX_EPOCH};

use hearthdose_core::exchange::{DeviceRandom, OpeningKey};
use hearthdose_core::store::{Opening, Store, StoreError};
use uuid::Uuid;

use super::device::Device;
use crate::vm::ports::{Ids, Paper, Records, Shelf};

/// Names ordered by time, unique across devices.
pub struct RandomIds {
    device: Device,
}

impl RandomIds {
    /// The names of the device whose secret lies in this folder.
    pub fn of(folder: PathBuf) -> RandomIds {
        RandomIds {
            device: Device::at(folder),
        }
    }
}

impl Ids for RandomIds {
    fn fresh(&mut self) -> Uuid {
        Uuid::now_v7()
    }

    fn device_random(&mut self) -> Option<DeviceRandom> {
        self.device.secret().ok()
    }

    fn random(&mut self) -> Option<[u8; 32]> {
        let mut bytes = [0; 32];
        getrandom::fill(&mut bytes).ok().map(|()| bytes)
    }

    fn opening_key(&mut self) -> Option<OpeningKey> {
        self.device.known_site_key().ok().flatten()
    }
}

/// 16 random bytes of the system's; none where it has none.
pub fn salt() -> Option<[u8; 16]> {
    let mut salt = [0; 16];
    getrandom::fill(&mut salt).ok().map(|()| salt)
}

/// The file of a site's own record.
pub const SITE: &str = "site.sqlite";

/// Homes that one device looks for.
const MOST_HOMES: u16 = 500;

/// Records as files of one folder.
pub struct Files {
    pub folder: PathBuf,
}

impl Files {
    fn path(&self, shelf: Shelf) -> PathBuf {
        self.folder.join(match shelf {
            Shelf::Household(1) => "household.sqlite".to_owned(),
            Shelf::Household(number) => format!("household-{number}.sqlite"),
            Shelf::Practice => "practice.sqlite".to_owned(),
            Shelf::Site => SITE.to_owned(),
        })
    }
}

impl Records for Files {
    fn homes(&self) -> Vec<u16> {
        let mut found: Vec<(SystemTime, u16)> = (1..=MOST_HOMES)
            .filter_map(|number| {
                let path = self.path(Shelf::Household(number));
                let mut wal = path.clone().into_os_string();
                wal.push("-wal");
                let changed = |path: &Path| path.metadata().and_then(|m| m.modified()).ok();
                let last = changed(&path)?.max(changed(Path::new(&wal)).unwrap_or(UNIX_EPOCH));
                Some((last, number))
            })
            .collect();
        found.sort_unstable_by(|one, other| other.cmp(one));
        found.into_iter().map(|(_, number)| number).collect()
    }

    fn papers(&self) -> Vec<Paper> {
        super::papers::found(&self.folder)
    }

    fn shifts(&self) -> Vec<Paper> {
        super::papers::shifts(&self.folder)
    }

    fn codes(&self) -> Vec<String> {
        super::papers::codes(&self.folder)
    }

    fn leave(&self, name: &str, bytes: &[u8]) -> Option<String> {
        super::papers::leave(&self.folder, name, bytes)
    }

    fn settings(&self) -> Option<String> {
        super::settings::read(&self.folder)
    }

    fn keep_settings(&self, text: &str) -> bool {
        super::settings::keep(&self.folder, text).is_ok()
    }

    fn exists(&self, shelf: Shelf) -> bool {
        self.path(shelf).exists()
    }

    fn open(&self, shelf: Shelf) -> Result<(Store, Opening), StoreError> {
        // A folder that cannot be made shows as a file that cannot be opened, with the same words.
        let _ = std::fs::create_dir_all(&self.folder);
        Store::open(&self.path(shelf))
    }

    fn wipe(&self, shelf: Shelf) -> Result<(), StoreError> {
        for ending in ["", "-wal", "-shm"] {
            let mut name = self.path(shelf).into_os_string();
            name.push(ending);
            match std::fs::remove_file(PathBuf::from(name)) {
                Err(error) if error.kind() != std::io::ErrorKind::NotFound => {
                    return Err(error.into());
                }
                _ => {}
            }
        }
        Ok(())
    }
}
