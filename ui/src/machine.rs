//! The real outside of a kitchen on a desktop or a phone: the machine's clock, random names, and files in one folder.

pub mod clock;
pub mod device;
pub mod files;
mod papers;
pub mod picture;
pub mod ringing;
pub mod settings;
#[cfg(unix)]
pub mod speech;
pub mod viewfinder;

use std::path::PathBuf;

use crate::vm::Kitchen;
use clock::SystemClock;
use files::{Files, RandomIds};

/// The kitchen with this machine's clock and names, and its records in this folder.
pub fn kitchen(folder: PathBuf) -> Kitchen {
    Kitchen::open(
        Box::new(SystemClock::new()),
        Box::new(RandomIds::of(folder.clone())),
        Box::new(Files { folder }),
        None,
    )
}
