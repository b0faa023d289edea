//! A table laid for one test: the demo order with a short soak, the demo household, a folder of its own.

use std::path::{Path, PathBuf};

use hearthdose_core::prep::Stage;
use hearthdose_core::record::{Fact, State, fold};
use hearthdose_core::store::{Opening, Store};
use hearthdose_core::time::{Now, Steady};

const ORDER: &str = include_str!("../../../demo-data/orders/quillmere-doxy-1.toml");
const HOUSEHOLD: &str = include_str!("../../../demo-data/households/tarn-4.toml");

pub struct Table {
    folder: PathBuf,
}

impl Table {
    pub fn lay(name: &str, soak: &str) -> Table {
        let folder = std::env::temp_dir().join(format!("hearthdose-{name}-{}", std::process::id()));
        std::fs::create_dir_all(&folder).expect("a folder");
        let table = Table { folder };
        let order = ORDER.replacen("soak = \"5 min\"", &format!("soak = \"{soak}\""), 1);
        assert_ne!(
            order, ORDER,
            "the demo order has the soak this test shortens"
        );
        std::fs::write(table.order_path(), order).expect("an order");
        // Today, at any hour: the first dose waits for no round.
        let today = jiff::tz::TimeZone::UTC.to_datetime(jiff::Timestamp::now());
        let household = HOUSEHOLD
            .replacen(
                "start = \"2031-04-03\"",
                &format!("start = \"{}\"", today.date()),
                1,
            )
            .replacen("time-zone = \"America/Chicago\"", "time-zone = \"UTC\"", 1)
            .replacen(
                "rounds =",
                &format!("first-dose-at = \"{}\"\nrounds =", today.strftime("%H:%M")),
                1,
            )
            .replace("2031-04-02", &today.date().to_string());
        let household = younger(&household);
        std::fs::write(table.household_path(), household).expect("a household");
        table
    }

    pub fn folder(&self) -> &Path {
        &self.folder
    }

    pub fn order_path(&self) -> String {
        self.folder.join("order.toml").display().to_string()
    }

    pub fn household_path(&self) -> String {
        self.folder.join("household.toml").display().to_string()
    }

    /// How many facts are written down.
    pub fn facts(&self) -> usize {
        self.read().map_or(0, |facts| facts.len())
    }

    pub fn state(&self) -> State {
        fold(&self.read().unwrap_or_default())
    }

    /// The step the record says the round is at.
    pub fn stage(&self) -> Option<Stage> {
        let state = self.state();
        let last = state.last.clone()?;
        let round = state.round()?.clone();
        let now = Now {
            wall: jiff::Timestamp::now(),
            steady: last.steady.map(|s| Steady {
                millis: s.millis,
                ..s
            }),
        };
        Some(round.prep.stage(&now))
    }

    /// Reads a copy, so that the running program is left alone; a copy taken in the middle of a write is taken again.
    fn read(&self) -> Option<Vec<Fact>> {
        let copy = self.folder.join("copy");
        std::fs::create_dir_all(&copy).ok()?;
        let _ = std::fs::remove_file(copy.join("household.sqlite-wal"));
        for name in ["household.sqlite-wal", "household.sqlite"] {
            let _ = std::fs::copy(self.folder.join(name), copy.join(name));
        }
        let path = copy.join("household.sqlite");
        if !path.exists() {
            return None;
        }
        match Store::open(&path) {
            Ok((store, Opening::Opened { .. } | Opening::Fresh)) => store.facts().ok(),
            _ => None,
        }
    }
}

impl Drop for Table {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.folder);
    }
}

/// The demo people are born for a course in 2031; ages are told instead, so that they fit any day.
fn younger(household: &str) -> String {
    household
        .replace("born = \"1989-09-14\"", "age = \"41 y\"")
        .replace("born = \"1954-02-20\"", "age = \"77 y\"")
        .replace("born = \"2024-11-05\"", "age = \"6 y\"")
        .replace("born = \"2028-07-19\"", "age = \"2 y 9 mo\"")
}
