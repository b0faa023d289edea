//! A home that was handed over leaves the file with all its words, and stays away.

use std::path::Path;
use std::time::Duration;

use hearthdose_core::household::HouseholdId;
use hearthdose_core::record::{Change, Event, Fact, SiteEvent};
use hearthdose_core::store::{Setup, Store};
use rusqlite::Connection;

use crate::facts::{device, fact, fact_id};
use crate::folder;
use crate::history::{HOMES, code, lot};

const HOME: HouseholdId = HOMES[0];
const NAMED: &str = "Yellow house behind the mill";

fn site(on: u64, sequence: u64, site: SiteEvent) -> Fact {
    let millis = i64::try_from(sequence).unwrap() * 10;
    fact(on, sequence, millis, Event::Site { site })
}

fn seen(sequence: u64) -> Fact {
    let code = code(HOME, 1);
    site(1, sequence, SiteEvent::HomeSeen { home: HOME, code })
}

fn named(sequence: u64, words: &str) -> Fact {
    let words = words.to_owned();
    site(1, sequence, SiteEvent::HomeNamed { home: HOME, words })
}

fn out(sequence: u64) -> Fact {
    let lot = lot("A1");
    let hand_out = fact_id(1, 9);
    let packs = 2;
    site(
        1,
        sequence,
        SiteEvent::LotOut {
            lot,
            packs,
            hand_out,
        },
    )
}

fn erased(on: u64, sequence: u64) -> Fact {
    let receipt = "ab".repeat(32);
    let home = HOME;
    site(on, sequence, SiteEvent::HomeErased { home, receipt })
}

fn replaced(sequence: u64, target: u64, words: &str) -> Fact {
    let words = words.to_owned();
    let event = Event::Site {
        site: SiteEvent::HomeNamed { home: HOME, words },
    };
    let change = Change::Replace {
        event: Box::new(event),
        reason: None,
    };
    let target = fact_id(1, target);
    let millis = i64::try_from(sequence).unwrap() * 10;
    fact(1, sequence, millis, Event::Correction { target, change })
}

/// Whether the words are anywhere in the files of a record.
fn is_in_files(path: &Path, words: &str) -> bool {
    ["", "-wal"].iter().any(|ending| {
        let file = std::path::PathBuf::from(format!("{}{ending}", path.display()));
        let bytes = std::fs::read(file).unwrap_or_default();
        bytes
            .windows(words.len())
            .any(|part| part.eq_ignore_ascii_case(words.as_bytes()))
    })
}

#[test]
fn it_leaves_the_file_and_stays_away() {
    let path = folder("forgets").join("site.sqlite");
    let corrected = "Yellow house, the second door";
    let facts = [seen(1), named(2, NAMED), out(3), replaced(4, 2, corrected)];
    let (mut store, _) = Store::open(&path).unwrap();
    store.append(&facts).unwrap();
    assert!(is_in_files(&path, NAMED) && is_in_files(&path, corrected));
    assert_eq!(store.find_homes("second door", 9).unwrap().len(), 1);
    assert_eq!(store.forget_home(&erased(1, 5)).unwrap(), 3);
    // The file is still open, its log beside it.
    assert!(!is_in_files(&path, NAMED) && !is_in_files(&path, corrected));
    assert!(store.home(HOME).unwrap().unwrap().erased);
    assert_eq!(store.find_homes("second door", 9).unwrap(), []);
    assert_eq!(store.stock().unwrap().lot(&lot("A1")).unwrap().out, 2);
    assert_eq!(store.facts().unwrap(), [out(3), erased(1, 5)]);
    // A merge brings the old facts once more, and a new one.
    let appended = store.append(&facts).unwrap();
    assert_eq!((appended.added, appended.known), (0, 4));
    assert!(store.home(HOME).unwrap().unwrap().erased);
    store.append(&[seen(6)]).unwrap();
    let again = store.home(HOME).unwrap().unwrap();
    assert_eq!((again.erased, again.words), (false, None));
    drop(store);
    assert!(!is_in_files(&path, NAMED) && !is_in_files(&path, corrected));
}

#[test]
fn an_erasure_that_comes_with_a_merge_does_the_same() {
    let mut store = Store::in_memory().unwrap();
    store.append(&[seen(1), named(2, NAMED), out(3)]).unwrap();
    let appended = store.append(&[erased(2, 4)]).unwrap();
    assert_eq!((appended.added, appended.known), (1, 0));
    assert_eq!(store.facts().unwrap(), [out(3), erased(2, 4)]);
    // In one merge with what it covers, and before it.
    let mut other = Store::in_memory().unwrap();
    let merged = [erased(2, 4), seen(1), named(2, NAMED), out(3)];
    let appended = other.append(&merged).unwrap();
    assert_eq!((appended.added, appended.known), (2, 2));
    assert_eq!(other.facts().unwrap(), store.facts().unwrap());
}

#[test]
fn numbers_of_what_was_forgotten_are_not_given_again() {
    let mut store = Store::in_memory().unwrap();
    store.append(&[seen(1), named(2, NAMED)]).unwrap();
    store.append(&[erased(2, 4)]).unwrap();
    assert_eq!(store.clock(device(1)).unwrap().sequence, 2);
    let mut other = out(2);
    other.id = fact_id(1, 77);
    let refusal = store.append(&[other]).unwrap_err();
    assert_eq!(refusal.code(), "store-number-taken");
}

#[test]
fn a_correction_of_what_was_forgotten_goes_with_it_whenever_it_comes() {
    let late = "The house by the well";
    let correction = replaced(9, 2, late);
    // Before, after and together with the erasure; it is itself younger than that.
    let orders: [&[&[Fact]]; 3] = [
        &[&[named(2, NAMED), correction.clone()], &[erased(2, 4)]],
        &[
            &[named(2, NAMED)],
            &[erased(2, 4)],
            std::slice::from_ref(&correction),
        ],
        &[
            std::slice::from_ref(&correction),
            &[erased(2, 4)],
            &[named(2, NAMED)],
        ],
    ];
    for parts in orders {
        let mut store = Store::in_memory().unwrap();
        for part in parts {
            store.append(part).unwrap();
        }
        assert_eq!(store.facts().unwrap(), [erased(2, 4)]);
    }
    // Older than the erasure, and its target never came.
    let mut store = Store::in_memory().unwrap();
    store.append(&[replaced(3, 2, late)]).unwrap();
    store.append(&[erased(2, 4)]).unwrap();
    assert_eq!(store.facts().unwrap(), [erased(2, 4)]);
}

#[test]
fn only_an_erasure_forgets() {
    let mut store = Store::in_memory().unwrap();
    store.append(&[seen(1)]).unwrap();
    let refusal = store.forget_home(&named(2, NAMED)).unwrap_err();
    assert_eq!(refusal.code(), "store-unstorable");
    assert_eq!(store.facts().unwrap(), [seen(1)]);
}

#[test]
fn a_log_that_somebody_reads_is_cut_later() {
    let path = folder("read").join("site.sqlite");
    let setup = Setup {
        patience: Duration::from_millis(50),
        ..Setup::default()
    };
    let (mut store, _) = Store::open_with(&path, &setup).unwrap();
    store.append(&[seen(1), named(2, NAMED)]).unwrap();
    let reader = Connection::open(&path).unwrap();
    reader
        .execute_batch("BEGIN; SELECT count(*) FROM fact;")
        .unwrap();
    let count: i64 = reader
        .query_row("SELECT count(*) FROM fact", [], |row| row.get(0))
        .unwrap();
    assert_eq!(count, 2);
    assert_eq!(store.forget_home(&erased(1, 3)).unwrap(), 2);
    assert!(is_in_files(&path, NAMED));
    reader.execute_batch("COMMIT").unwrap();
    store.checkpoint().unwrap();
    assert!(!is_in_files(&path, NAMED));
}
