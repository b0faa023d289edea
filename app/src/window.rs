//! The desktop window: the kitchen behind the screens, with the real clock and files.

use std::cell::RefCell;
use std::path::{Path, PathBuf};
use std::rc::Rc;
use std::time::{SystemTime, UNIX_EPOCH};

use hearthdose_core::exchange::DeviceRandom;
use hearthdose_core::store::{Opening, Store, StoreError};
use hearthdose_ui::bind;
use hearthdose_ui::screens::MainWindow;
use hearthdose_ui::vm::Kitchen;
use hearthdose_ui::vm::ports::{Clock, Ids, Paper, Records, Shelf};
use slint::ComponentHandle;
use uuid::Uuid;

use crate::clock::SystemClock;
use crate::device::Device;

/// Shows the window until it is closed.
///
/// # Errors
/// No display, or a window system that refuses.
pub fn run(kitchen: Kitchen) -> Result<(), slint::PlatformError> {
    let window = MainWindow::new()?;
    let kitchen = Rc::new(RefCell::new(kitchen));
    bind::show(&window, &kitchen.borrow().view());
    let weak = window.as_weak();
    bind::connect(&window, move |intent| {
        let view = {
            let mut kitchen = kitchen.borrow_mut();
            kitchen.take(&intent);
            kitchen.view()
        };
        if let Some(window) = weak.upgrade() {
            bind::show(&window, &view);
        }
    });
    window.run()
}

/// Whether there is anything to show a window on.
pub fn has_display() -> bool {
    let set = |name: &str| std::env::var_os(name).is_some_and(|value| !value.is_empty());
    !cfg!(target_os = "linux") || set("DISPLAY") || set("WAYLAND_DISPLAY")
}

/// The kitchen with this machine's clock, names and files.
pub fn kitchen(folder: PathBuf) -> Kitchen {
    Kitchen::open(
        Box::new(SystemClock::new()),
        Box::new(RandomIds {
            device: Device::at(folder.clone()),
        }),
        Box::new(Files { folder }),
        None,
    )
}

impl Clock for SystemClock {
    fn now(&self) -> hearthdose_core::time::Now {
        self.read()
    }

    fn zone(&self) -> String {
        jiff::tz::TimeZone::system()
            .iana_name()
            .unwrap_or("UTC")
            .to_owned()
    }
}

/// Names ordered by time, unique across devices.
pub struct RandomIds {
    device: Device,
}

impl Ids for RandomIds {
    fn fresh(&mut self) -> Uuid {
        Uuid::now_v7()
    }

    fn device_random(&mut self) -> Option<DeviceRandom> {
        self.device.secret().ok()
    }
}

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
            Shelf::Site => crate::site::record::FILE.to_owned(),
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
        crate::papers::found(&self.folder)
    }

    fn codes(&self) -> Vec<String> {
        crate::papers::codes(&self.folder)
    }

    fn leave(&self, name: &str, bytes: &[u8]) -> Option<String> {
        crate::papers::leave(&self.folder, name, bytes)
    }

    fn exists(&self, shelf: Shelf) -> bool {
        self.path(shelf).exists()
    }

    fn open(&self, shelf: Shelf) -> Result<(Store, Opening), StoreError> {
        // A folder that cannot be made shows as a file that cannot be opened, with the same words.
        let _ = std::fs::create_dir_all(&self.folder);
        Store::open(&self.path(shelf))
    }

    fn wipe_practice(&self) -> Result<(), StoreError> {
        let path = self.path(Shelf::Practice);
        for ending in ["", "-wal", "-shm"] {
            let mut name = path.clone().into_os_string();
            name.push(ending);
            // Not there is as good as gone; one that stays shows when it is opened.
            let _ = std::fs::remove_file(PathBuf::from(name));
        }
        Ok(())
    }
}
