//! Facts that came into the file past the tables of a site are followed at the next opening.

use std::path::{Path, PathBuf};

use hearthdose_core::record::{Event, Fact, SiteEvent};
use hearthdose_core::store::{CURRENT, Opening, Store};
use hearthdose_tests::people::Dice;
use rusqlite::Connection;

use crate::asked::{ask, expect};
use crate::folder;
use crate::history::{Codes, history};

/// A long day, in a file.
fn kept(name: &str) -> (PathBuf, Vec<Fact>) {
    let codes = Codes::new();
    let facts: Vec<Fact> = (0..)
        .map(|seed| history(&mut Dice::new(seed), &codes))
        .find(|facts| facts.len() > 35)
        .unwrap();
    let path = folder(name).join("site.sqlite");
    Store::open(&path).unwrap().0.append(&facts).unwrap();
    (path, facts)
}

fn change(path: &Path, sql: &str) {
    Connection::open(path).unwrap().execute_batch(sql).unwrap();
}

#[test]
fn a_file_of_the_version_before_with_a_site_in_it() {
    let (path, facts) = kept("before");
    let file = Connection::open(&path).unwrap();
    let mut statement = file
        .prepare("SELECT name FROM sqlite_schema WHERE type = 'table' AND name LIKE 'site_%'")
        .unwrap();
    let tables: Vec<String> = statement
        .query_map([], |row| row.get(0))
        .unwrap()
        .map(Result::unwrap)
        .collect();
    drop(statement);
    drop(file);
    for table in tables {
        change(&path, &format!("DROP TABLE {table}"));
    }
    change(&path, "PRAGMA user_version = 1");
    let (store, opening) = Store::open(&path).unwrap();
    let upgraded_from = Some(1);
    let version = CURRENT;
    assert_eq!(
        opening,
        Opening::Opened {
            version,
            upgraded_from
        }
    );
    assert_eq!(ask(&store), expect(&facts));
}

#[test]
fn tables_that_stand_still_are_brought_up_to_the_last_fact() {
    for (name, sql) in [
        ("none", "UPDATE site_progress SET reading = 0"),
        (
            "another-reading",
            "UPDATE site_progress SET reading = 999; UPDATE site_lot SET received = 77; DELETE FROM site_home;",
        ),
    ] {
        let (path, facts) = kept(name);
        change(&path, sql);
        let (store, _) = Store::open(&path).unwrap();
        assert_eq!(ask(&store), expect(&facts), "{name}");
    }
}

#[test]
fn what_a_salvage_brings_back_of_a_forgotten_home_goes_again() {
    let (path, facts) = kept("salvaged");
    let before = Store::open(&path).unwrap().0.facts().unwrap();
    assert!(before.len() < facts.len(), "something was forgotten");
    // A file with everything in it that was ever written.
    let is_erasure = |fact: &Fact| {
        matches!(
            &fact.event,
            Event::Site {
                site: SiteEvent::HomeErased { .. }
            }
        )
    };
    let all: Vec<Fact> = facts.iter().filter(|f| !is_erasure(f)).cloned().collect();
    let other = folder("salvaged-whole").join("site.sqlite");
    Store::open(&other).unwrap().0.append(&all).unwrap();
    let copy = Connection::open(&other).unwrap();
    copy.execute("ATTACH ?1 AS rest", [path.to_str().unwrap()])
        .unwrap();
    let columns = "id, device, sequence, millis, counter, at, body, digest";
    copy.execute_batch(&format!(
        "INSERT INTO fact ({columns}) SELECT {columns} FROM rest.fact WHERE id NOT IN (SELECT id FROM fact)"
    ))
    .unwrap();
    let count: usize = copy
        .query_row("SELECT count(*) FROM fact", [], |row| row.get(0))
        .unwrap();
    assert_eq!(count, facts.len());
    drop(copy);
    let (mut store, _) = Store::open(&other).unwrap();
    assert_eq!(store.facts().unwrap(), before);
    assert_eq!(store.append(&facts).unwrap().added, 0);
    assert_eq!(ask(&store), expect(&facts));
    // The header of the file is broken: what is found in its pages is the same.
    drop(store);
    let mut bytes = std::fs::read(&path).unwrap();
    bytes[..100].fill(0);
    std::fs::write(&path, bytes).unwrap();
    let (store, opening) = Store::open(&path).unwrap();
    assert!(matches!(opening, Opening::Salvaged { .. }), "{opening:?}");
    assert_eq!(store.facts().unwrap(), before);
    assert_eq!(ask(&store), expect(&facts));
}
