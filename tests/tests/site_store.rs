//! What a site asks of many homes at once follows from the facts, and a home that was handed over is forgotten for good.
#![expect(
    clippy::unwrap_used,
    reason = "what builds a case fails the test, wherever it stands"
)]

#[path = "site_store/asked.rs"]
mod asked;
mod facts;
#[path = "site_store/followed.rs"]
mod followed;
#[path = "site_store/forgotten.rs"]
mod forgotten;
#[path = "site_store/handed.rs"]
mod handed;
#[path = "site_store/history.rs"]
mod history;
#[path = "site_store/notices.rs"]
mod notices;
#[path = "site_store/pins.rs"]
mod pins;
#[path = "site_store/same.rs"]
mod same;

use std::path::{Path, PathBuf};

/// An empty folder for one test.
fn folder(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR"))
        .join("site-store")
        .join(name);
    if folder.exists() {
        std::fs::remove_dir_all(&folder).unwrap();
    }
    std::fs::create_dir_all(&folder).unwrap();
    folder
}
