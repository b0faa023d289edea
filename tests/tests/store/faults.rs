//! A full disk, a file that cannot be written, another program in the way.

use std::fs;
use std::path::Path;
use std::process::Command;
use std::time::Duration;

use hearthdose_core::record::Fact;
use hearthdose_core::store::{Opening, Setup, Store};
use rusqlite::{Connection, TransactionBehavior};

use crate::{beside, folder, notice, notices, opened};

#[test]
fn a_full_disk_refuses_the_write_and_keeps_what_was_there() {
    let path = folder("full").join("record.sqlite");
    opened(&path);
    let setup = Setup {
        most_pages: Some(48),
        ..Setup::default()
    };
    let (mut store, _) = Store::open_with(&path, &setup).unwrap();
    let mut acknowledged: Vec<Fact> = Vec::new();
    let refusal = loop {
        let next = u64::try_from(acknowledged.len()).unwrap() + 1;
        let both = [notice(next), notice(next + 1)];
        match store.append(&both) {
            Ok(_) => acknowledged.extend(both),
            Err(refusal) => break refusal,
        }
        assert!(acknowledged.len() < 1000);
    };
    assert_eq!(refusal.code(), "store-full");
    assert!(acknowledged.len() > 10);
    assert_eq!(store.facts().unwrap(), acknowledged);
    assert_eq!(
        store
            .set_setting("language", &"x".repeat(20_000))
            .unwrap_err()
            .code(),
        "store-full"
    );
    assert_eq!(
        store.put_order("x", 1, &[7; 20_000]).unwrap_err().code(),
        "store-full"
    );
    drop(store);
    // With space again it goes on.
    let (mut store, opening) = Store::open(&path).unwrap();
    assert!(matches!(opening, Opening::Opened { .. }));
    assert_eq!(store.facts().unwrap(), acknowledged);
    assert_eq!(store.setting("language").unwrap(), None);
    store.append(&notices(200)).unwrap();
    assert_eq!(store.facts().unwrap(), notices(200));
}

#[test]
fn a_disk_too_full_for_a_new_record_leaves_nothing_behind() {
    let folder = folder("full-new");
    let path = folder.join("record.sqlite");
    let setup = Setup {
        most_pages: Some(2),
        ..Setup::default()
    };
    assert_eq!(
        Store::open_with(&path, &setup).unwrap_err().code(),
        "store-full"
    );
    let left: Vec<_> = fs::read_dir(&folder)
        .unwrap()
        .map(|entry| entry.unwrap().file_name())
        .collect();
    assert_eq!(left, ["record.sqlite.lock"]);
    assert_eq!(Store::open(&path).unwrap().1, Opening::Fresh);
}

#[test]
fn a_disk_too_full_to_salvage_leaves_the_damaged_file_where_it_is() {
    let path = folder("full-salvage").join("record.sqlite");
    opened(&path).append(&notices(50)).unwrap();
    let mut bytes = fs::read(&path).unwrap();
    bytes[..20].fill(0);
    fs::write(&path, &bytes).unwrap();
    let setup = Setup {
        most_pages: Some(10),
        ..Setup::default()
    };
    assert_eq!(
        Store::open_with(&path, &setup).unwrap_err().code(),
        "store-full"
    );
    assert!(fs::read(&path).unwrap() == bytes);
    assert!(!beside(&path, ".damaged-1").exists());
    let (store, opening) = Store::open(&path).unwrap();
    let set_aside = beside(&path, ".damaged-1");
    assert_eq!(
        opening,
        Opening::Salvaged {
            set_aside: set_aside.clone(),
            facts_saved: 50,
            facts_missing: 0
        }
    );
    assert!(fs::read(set_aside).unwrap() == bytes);
    assert_eq!(store.facts().unwrap(), notices(50));
}

/// A real limit of the system, in a process of its own: writing fails in the middle of a file.
#[test]
fn a_disk_that_stops_taking_bytes_loses_nothing_that_was_acknowledged() {
    let path = folder("file-limit").join("record.sqlite");
    opened(&path);
    let script = "trap '' XFSZ; ulimit -f 2000; exec \"$0\" \"$1\" 1 1";
    let run = Command::new("sh")
        .args(["-c", script, env!("CARGO_BIN_EXE_appender")])
        .arg(&path)
        .output()
        .unwrap();
    let said = String::from_utf8(run.stdout).unwrap();
    let acknowledged: u64 = said
        .lines()
        .filter(|line| line.parse::<u64>().is_ok())
        .count()
        .try_into()
        .unwrap();
    assert!(acknowledged > 5, "{said}");
    assert!(said.lines().last().unwrap().starts_with("store-"), "{said}");
    let (store, opening) = Store::open(&path).unwrap();
    assert!(matches!(opening, Opening::Opened { .. }), "{opening:?}");
    assert_eq!(
        u64::try_from(store.facts().unwrap().len()).unwrap(),
        acknowledged
    );
}

#[test]
fn a_record_that_may_only_be_read_refuses_every_write() {
    let path = folder("read-only").join("record.sqlite");
    opened(&path).append(&notices(2)).unwrap();
    let setup = Setup {
        read_only: true,
        ..Setup::default()
    };
    let (mut store, _) = Store::open_with(&path, &setup).unwrap();
    assert_eq!(
        store.append(&[notice(3)]).unwrap_err().code(),
        "store-read-only"
    );
    assert_eq!(
        store.set_setting("dark", "yes").unwrap_err().code(),
        "store-read-only"
    );
    assert_eq!(
        store.put_order("x", 1, b"x").unwrap_err().code(),
        "store-read-only"
    );
    assert_eq!(store.facts().unwrap(), notices(2));
}

/// A folder that not even the administrator can write to.
#[test]
fn a_folder_that_takes_no_files_is_refused() {
    let code = Store::open(Path::new("/proc/self/record.sqlite"))
        .unwrap_err()
        .code();
    assert!(
        ["store-read-only", "store-unreachable"].contains(&code),
        "{code}"
    );
}

#[test]
fn another_program_that_is_writing_makes_it_busy_and_then_free() {
    let path = folder("busy").join("record.sqlite");
    let setup = Setup {
        patience: Duration::from_millis(50),
        ..Setup::default()
    };
    let (mut store, _) = Store::open_with(&path, &setup).unwrap();
    store.append(&[notice(1)]).unwrap();
    let mut other = Connection::open(&path).unwrap();
    let writing = other
        .transaction_with_behavior(TransactionBehavior::Immediate)
        .unwrap();
    assert_eq!(store.append(&[notice(2)]).unwrap_err().code(), "store-busy");
    assert_eq!(store.facts().unwrap(), [notice(1)]);
    writing.rollback().unwrap();
    store.append(&[notice(2)]).unwrap();
    assert_eq!(store.facts().unwrap(), notices(2));
}

#[test]
fn a_record_that_is_open_elsewhere_is_not_set_aside() {
    let path = folder("open-elsewhere").join("record.sqlite");
    let mut store = opened(&path);
    store.append(&notices(30)).unwrap();
    store.checkpoint().unwrap();
    let bytes = fs::read(&path).unwrap();
    let mut broken = bytes.clone();
    broken[8192..12_288].fill(0xee);
    // Written in place, as a failing disk would: the file stays the one that is open.
    fs::write(&path, &broken).unwrap();
    assert_eq!(Store::open(&path).unwrap_err().code(), "store-damaged");
    assert!(fs::read(&path).unwrap() == broken);
    assert!(!beside(&path, ".damaged-1").exists());
    drop(store);
    assert!(matches!(
        Store::open(&path).unwrap().1,
        Opening::Salvaged { .. }
    ));
}
