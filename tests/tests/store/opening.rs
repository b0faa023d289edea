//! Whose file it is, and which version.

use std::fs;
use std::path::{Path, PathBuf};

use hearthdose_core::record::Event;
use hearthdose_core::site::Matter;
use hearthdose_core::store::{CURRENT, Opening, Store};
use rusqlite::Connection;

use crate::facts::{device, person};
use crate::{folder, notices, opened};

fn refused(path: &Path) -> &'static str {
    Store::open(path).unwrap_err().code()
}

/// Every file of a folder but the lock, with its bytes.
fn files(folder: &Path) -> Vec<(PathBuf, Vec<u8>)> {
    let mut files: Vec<(PathBuf, Vec<u8>)> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_none_or(|ending| ending != "lock"))
        .filter(|path| {
            path.extension()
                .is_none_or(|ending| !ending.to_string_lossy().ends_with("-shm"))
        })
        .map(|path| (path.clone(), fs::read(path).unwrap()))
        .collect();
    files.sort();
    files
}

#[test]
fn first_it_is_fresh_and_then_it_is_there() {
    let path = folder("first").join("record.sqlite");
    let (mut store, opening) = Store::open(&path).unwrap();
    assert_eq!(opening, Opening::Fresh);
    store.append(&notices(3)).unwrap();
    drop(store);
    let (store, opening) = Store::open(&path).unwrap();
    assert_eq!(
        opening,
        Opening::Opened {
            version: CURRENT,
            upgraded_from: None
        }
    );
    assert_eq!(store.facts().unwrap(), notices(3));
}

#[test]
fn tables_are_strict_and_hold_no_null_and_the_log_is_flushed() {
    let path = folder("strict").join("record.sqlite");
    let _store = opened(&path);
    let file = Connection::open(&path).unwrap();
    let count = |sql: &str| file.query_row(sql, [], |row| row.get::<_, i64>(0)).unwrap();
    let own = "type = 'table' AND schema = 'main' AND name NOT LIKE 'sqlite_%'";
    assert_eq!(
        count(&format!(
            "SELECT count(*) FROM pragma_table_list WHERE {own}"
        )),
        3 + 13
    );
    assert_eq!(
        count(&format!(
            "SELECT count(*) FROM pragma_table_list WHERE {own} AND strict = 0"
        )),
        0
    );
    let columns =
        format!("pragma_table_list AS t JOIN pragma_table_info(t.name) AS c WHERE t.{own}")
            .replace("AND schema", "AND t.schema")
            .replace("AND name", "AND t.name");
    assert_eq!(
        count(&format!(
            "SELECT count(*) FROM {columns} AND t.name NOT LIKE 'site_%' AND c.\"notnull\" = 0"
        )),
        0
    );
    let mode: String = file
        .query_row("PRAGMA journal_mode", [], |row| row.get(0))
        .unwrap();
    assert_eq!(mode, "wal");
}

#[test]
fn a_file_of_a_newer_version_is_refused_untouched() {
    for version in [CURRENT + 1, 999] {
        let folder = folder("newer");
        let path = folder.join("record.sqlite");
        opened(&path).append(&notices(2)).unwrap();
        Connection::open(&path)
            .unwrap()
            .pragma_update(None, "user_version", version)
            .unwrap();
        let before = files(&folder);
        assert_eq!(refused(&path), "store-newer");
        assert!(files(&folder) == before);
    }
}

#[test]
fn a_newer_version_that_stands_in_the_log_only_is_refused_too() {
    let folder = folder("newer-log");
    let path = folder.join("record.sqlite");
    opened(&path).append(&notices(2)).unwrap();
    let newer = Connection::open(&path).unwrap();
    newer
        .pragma_update(None, "user_version", CURRENT + 1)
        .unwrap();
    let other = folder.join("copy.sqlite");
    crate::copy(&path, &other);
    drop(newer);
    let before = files(&folder);
    assert_eq!(refused(&other), "store-newer");
    assert!(files(&folder) == before);
}

#[test]
fn the_file_of_another_program_is_refused_untouched() {
    let folder = folder("foreign");
    let path = folder.join("record.sqlite");
    let other = Connection::open(&path).unwrap();
    other
        .execute_batch("CREATE TABLE fact (id TEXT); INSERT INTO fact (id) VALUES ('theirs');")
        .unwrap();
    drop(other);
    let before = files(&folder);
    assert_eq!(refused(&path), "store-foreign");
    assert!(files(&folder) == before);
}

#[test]
fn a_place_that_does_not_exist_is_named_so() {
    let folder = folder("nowhere");
    assert_eq!(
        refused(&folder.join("missing").join("record.sqlite")),
        "store-unreachable"
    );
    assert_eq!(refused(&folder), "store-unreachable");
    let file = folder.join("a-file");
    fs::write(&file, "text").unwrap();
    assert_eq!(refused(&file.join("record.sqlite")), "store-unreachable");
    assert_eq!(fs::read(&file).unwrap(), b"text");
}

/// The file was left by version 1; what is in it was written down by hand here.
#[test]
fn the_file_of_version_1_opens() {
    let path = folder("fixture").join("record.sqlite");
    fs::copy(
        Path::new(env!("CARGO_MANIFEST_DIR")).join("../demo-data/databases/v1.sqlite"),
        &path,
    )
    .unwrap();
    let (store, opening) = Store::open(&path).unwrap();
    let upgraded_from = (CURRENT > 1).then_some(1);
    assert_eq!(
        opening,
        Opening::Opened {
            version: CURRENT,
            upgraded_from
        }
    );
    let facts = store.facts().unwrap();
    assert_eq!(facts.len(), 12);
    assert!(facts.iter().all(|fact| fact.stamp.device == device(1)));
    assert_eq!(
        facts
            .iter()
            .map(|fact| fact.stamp.sequence)
            .collect::<Vec<_>>(),
        (1..=12).collect::<Vec<_>>()
    );
    let Event::HouseholdSet(words) = &facts[0].event else {
        panic!("{:?}", facts[0])
    };
    assert_eq!(
        (words.name.as_str(), words.zone.as_str()),
        ("Fixture house", "America/Chicago")
    );
    let Event::Weighed {
        person: who,
        weight,
        ..
    } = &facts[2].event
    else {
        panic!("{:?}", facts[2])
    };
    assert_eq!((*who, weight.as_str()), (person(1), "31 lb 4 oz"));
    assert_eq!(facts[2].at.to_string(), "2031-04-03T13:00:02.5Z");
    assert_eq!(store.setting("language").unwrap().as_deref(), Some("es"));
    assert_eq!(
        store.setting("device").unwrap().as_deref(),
        Some("01960000-0001-7000-8000-000000000001")
    );
    let orders = store.orders().unwrap();
    assert_eq!(orders.len(), 1);
    assert_eq!(
        (orders[0].id.as_str(), orders[0].revision, orders[0].trusted),
        ("fixture-order", 1, true)
    );
    assert_eq!(
        orders[0].bytes,
        b"# not a real order\r\nid = \"fixture-order\"\n"
    );
}

/// Left by version 2: two tablets counted one shelf as 20 at the same time, and 16 was the sum; then a home was served twice and one of it undone.
#[test]
fn the_file_of_version_2_opens() {
    let path = folder("fixture-2").join("site.sqlite");
    fs::copy(
        Path::new(env!("CARGO_MANIFEST_DIR")).join("../demo-data/databases/v2.sqlite"),
        &path,
    )
    .unwrap();
    let (store, opening) = Store::open(&path).unwrap();
    let upgraded_from = Some(2);
    let version = CURRENT;
    assert_eq!(
        opening,
        Opening::Opened {
            version,
            upgraded_from
        }
    );
    assert_eq!(store.facts().unwrap().len(), 11);
    let stock = store.stock().unwrap();
    let (_, lot) = stock.lots().next().unwrap();
    // 20 were counted, 4 and 4 went out, 4 came back.
    assert_eq!((lot.received, lot.out, lot.back), (24, 8, 4));
    assert_eq!((lot.packs(), lot.counted), (16, -4));
    let found = store.find_homes("mill lane", 9).unwrap();
    assert_eq!((found.len(), found[0].hand_outs), (1, 1));
    // It does not say whom it was for: the four of the code.
    let home = store.home(found[0].home).unwrap().unwrap();
    assert_eq!(
        home.handed_out[0].people,
        home.code()
            .unwrap()
            .people
            .iter()
            .map(|p| p.id)
            .collect::<Vec<_>>()
    );
    let served = store.served_since(home.handed_out[0].at).unwrap();
    assert_eq!((served.hand_outs, served.homes, served.people), (1, 1, 4));
}

/// Left by version 3: two tablets served one home with two packs each, one of them a second time, which was undone; then their records were brought together.
#[test]
fn the_file_of_version_3_opens_and_says_what_is_to_be_settled() {
    let path = folder("fixture-3").join("site.sqlite");
    fs::copy(
        Path::new(env!("CARGO_MANIFEST_DIR")).join("../demo-data/databases/v3.sqlite"),
        &path,
    )
    .unwrap();
    let (store, opening) = Store::open(&path).unwrap();
    let upgraded_from = Some(3);
    let version = CURRENT;
    assert_eq!(
        opening,
        Opening::Opened {
            version,
            upgraded_from
        }
    );
    assert_eq!(store.facts().unwrap().len(), 13);
    assert_eq!(store.to_settle().unwrap(), 1);
    let homes = store.homes_to_settle(9).unwrap();
    assert_eq!(homes.len(), 1);
    assert_eq!(homes[0].words.as_deref(), Some("12 Mill Lane"));
    let outs: Vec<_> = homes[0].handed_out.iter().map(|out| out.fact).collect();
    let (first, second) = (outs[0], outs[1]);
    assert_eq!(outs.len(), 2);
    assert_eq!(homes[0].to_settle(), [Matter::Twice { first, second }]);
}
