//! The record on disk: nothing acknowledged is ever lost, nothing broken is ever believed.
#![expect(
    clippy::unwrap_used,
    reason = "what builds a case fails the test, wherever it stands"
)]

#[path = "store/crash.rs"]
mod crash;
#[path = "store/damage.rs"]
mod damage;
#[path = "store/every_event.rs"]
mod every_event;
mod facts;
#[path = "store/faults.rs"]
mod faults;
#[path = "store/opening.rs"]
mod opening;
#[path = "store/round_trip.rs"]
mod round_trip;
#[path = "store/site_events.rs"]
mod site_events;

use std::fs;
use std::path::{Path, PathBuf};

use hearthdose_core::record::{Event, Fact};
use hearthdose_core::store::Store;

use facts::fact;

/// An empty folder for one test.
fn folder(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR"))
        .join("store")
        .join(name);
    if folder.exists() {
        fs::remove_dir_all(&folder).unwrap();
    }
    fs::create_dir_all(&folder).unwrap();
    folder
}

fn beside(path: &Path, ending: &str) -> PathBuf {
    PathBuf::from(format!("{}{ending}", path.display()))
}

/// A notice with a text that no other fact has.
fn notice(sequence: u64) -> Fact {
    let text = format!(
        "notice {sequence}: {}",
        "boil the water and let it cool. ".repeat(6)
    );
    fact(
        1,
        sequence,
        i64::try_from(sequence).unwrap() * 1000,
        Event::NoticeTaken { text },
    )
}

fn notices(count: u64) -> Vec<Fact> {
    (1..=count).map(notice).collect()
}

fn opened(path: &Path) -> Store {
    Store::open(path).unwrap().0
}

/// Database and log under another name, as a power cut would leave them.
fn copy(from: &Path, to: &Path) {
    for ending in ["", "-wal"] {
        if beside(from, ending).exists() {
            fs::copy(beside(from, ending), beside(to, ending)).unwrap();
        }
    }
}
