//! A whole practice round by somebody who sees nothing: names and roles over AT-SPI, in two languages.
//!
//! The five minutes of the soak are not sat out: the program is killed in it, its record is put five minutes back,
//! and it is opened again.

use std::path::{Path, PathBuf};
use std::time::Duration;

use hearthdose_core::store::Store;
use serde_json::Value;

use super::bus::Bus;
use super::display::Display;
use super::past;
use super::program::Program;

const SOAK: Duration = Duration::from_secs(5 * 60);

/// A folder for one test, gone with it.
pub struct Folder(PathBuf);

impl Folder {
    pub fn path(&self) -> &Path {
        &self.0
    }

    pub fn fresh(name: &str) -> Folder {
        let path = std::env::temp_dir().join(format!("hearthdose-{name}-{}", std::process::id()));
        let _ = std::fs::remove_dir_all(&path);
        std::fs::create_dir_all(&path).expect("a folder");
        Folder(path)
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

fn listen(bus: &Bus, language: &str, phase: &str) -> Value {
    let done = bus
        .script("assistive.py")
        .args([language, phase])
        .output()
        .expect("the client runs");
    let said = String::from_utf8_lossy(&done.stderr);
    // The bindings complain about signatures of another desktop; what the client says is what counts.
    let faults: Vec<&str> = said
        .lines()
        .filter(|line| !line.is_empty() && !line.contains("dbind-WARNING"))
        .collect();
    assert!(done.status.success(), "{language}, {phase}: {faults:#?}");
    serde_json::from_slice(&done.stdout).expect("one document")
}

fn round(language: &str) {
    let display = Display::start(390, 844);
    let bus = Bus::start(&display);
    let folder = Folder::fresh(&format!("heard-{language}"));
    let program = Program::heard(&display, &folder.0, &bus);
    let first = listen(&bus, language, "first");
    program.kill();
    past::put_back(&folder.0, "practice.sqlite", SOAK);
    let program = Program::heard(&display, &folder.0, &bus);
    let rest = listen(&bus, language, "rest");
    drop(program);
    let count = |report: &Value, what: &str| report[what].as_u64().unwrap_or_default();
    let screens = |report: &Value| report["screens"].as_array().map_or(0, Vec::len);
    println!(
        "{language}: {} screens, {} stops of Tab, {} answers with a description; {}",
        screens(&first) + screens(&rest),
        count(&first, "tabs") + count(&rest, "tabs"),
        count(&first, "answers") + count(&rest, "answers"),
        first["soak"]
    );
    let (store, _) = Store::open(&folder.0.join("practice.sqlite")).expect("the record");
    let state = hearthdose_core::record::fold(&store.facts().expect("facts"));
    assert_eq!(
        state.doses.len(),
        4,
        "each of the four has one dose in the record"
    );
}

#[test]
fn a_practice_round_by_names_and_roles_in_english() {
    round("en");
}

#[test]
fn a_practice_round_by_names_and_roles_in_spanish() {
    round("es");
}
