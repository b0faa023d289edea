//! `site` and `shift`: a dispensing site from received packs to merged shifts.
//!
//! What the Tarn household needs, by the printed order: 10 days of two rounds are 20 rounds.
//! Sunniva, Bram and Pim take 8 + 4 + 3 half teaspoons a round, 300 in all: at least 38 bowls of 8, at most 40.
//! With Odile's 20 whole tablets and 4 to spare that is 62 to 64 tablets: 4 packs of 20.

mod desk;
mod enter;
mod forget;
mod hands;
mod pins;
mod sealed;
mod shifts;

use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU32, Ordering};

use serde_json::Value;

use crate::run::{Ran, demo, doxycycline, hearthdose};

pub const MORNING: &str = "2031-04-03T10:00:00-05:00";

/// A folder with the data folders of several devices, gone when the test is over.
pub struct Street(PathBuf);

impl Street {
    pub fn new() -> Street {
        static COUNT: AtomicU32 = AtomicU32::new(0);
        let name = format!(
            "site-{}-{}",
            std::process::id(),
            COUNT.fetch_add(1, Ordering::Relaxed)
        );
        let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
        std::fs::create_dir_all(&path).unwrap();
        Street(path)
    }

    pub fn at(&self, name: &str) -> String {
        self.0.join(name).to_str().unwrap().to_owned()
    }

    /// One run on a device.
    pub fn on(&self, device: &str, arguments: &[&str]) -> Ran {
        let data = self.at(device);
        hearthdose(&[arguments, &["--data", &data, "--json"]].concat())
    }

    /// The text of a demonstration household's code, each from a device of its own.
    pub fn code(&self, household: &str) -> String {
        let order = doxycycline();
        let file = demo(&format!("households/{household}.toml"));
        let out = self.at(&format!("{household}.png"));
        let written = self.on(
            household,
            &[
                "code",
                "write",
                "--household",
                &file,
                "--order",
                &order,
                "--out",
                &out,
                "--names",
                "--at",
                MORNING,
            ],
        );
        written.expect(0).json()["text"]
            .as_str()
            .unwrap()
            .to_owned()
    }

    /// Packs come in at a site that has a name.
    pub fn receive(&self, device: &str, lot: &str, expires: &str, packs: &str) -> Value {
        let order = doxycycline();
        let named = ["site", "name", "Old mill", "--order", &order];
        self.on(device, &named).expect(0);
        self.on(
            device,
            &[
                "site",
                "receive",
                "--order",
                &order,
                "--lot",
                lot,
                "--expires",
                expires,
                "--packs",
                packs,
                "--at",
                MORNING,
            ],
        )
        .expect(0)
        .json()
    }

    pub fn serve(&self, device: &str, code: &str, more: &[&str]) -> Ran {
        let order = doxycycline();
        let wish = [
            "site", "serve", "--order", &order, "--code", code, "--at", MORNING,
        ];
        self.on(device, &[&wish, more].concat())
    }

    pub fn totals(&self, device: &str, more: &[&str]) -> Value {
        let order = doxycycline();
        let wish = ["site", "totals", "--order", &order, "--at", MORNING];
        self.on(device, &[&wish, more].concat()).expect(0).json()
    }
}

impl Drop for Street {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.0);
    }
}
