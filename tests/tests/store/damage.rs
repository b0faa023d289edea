//! Files cut short and written over: set aside, and every fact that the damage did not touch is saved.
//!
//! Whether it touched one is told from the places where its words stand in the sound file, not from what the store says.

use std::collections::BTreeMap;
use std::fs;
use std::ops::Range;
use std::path::{Path, PathBuf};

use hearthdose_core::record::{Event, Fact};
use hearthdose_core::store::{Opening, Store};
use proptest::prelude::*;
use proptest::test_runner::{Config, TestRunner};

use crate::every_event::long_plan;
use crate::facts::fact;
use crate::{beside, copy, folder, notice, notices, opened};

const COUNT: u64 = 60;

/// Facts with one longer than a page among them, an order of several pages, settings.
fn facts() -> Vec<Fact> {
    let mut facts = notices(COUNT);
    facts.push(fact(
        2,
        1,
        99_000,
        Event::RoundBegun {
            plan: Box::new(long_plan()),
        },
    ));
    facts
}

fn order() -> Vec<u8> {
    (0..400)
        .flat_map(|line| format!("row {line} = \"as printed\"\n").into_bytes())
        .collect()
}

/// A sound record in `folder`, closed or, with a log, as a kill would leave it; and how long the log was before its last transaction.
fn sound(folder: &Path, with_log: bool) -> (PathBuf, usize) {
    let path = folder.join("sound.sqlite");
    let work = folder.join("work.sqlite");
    let mut store = opened(&work);
    let mut before_last = 0;
    store
        .set_setting("device", "01960000-0001-7000-8000-000000000001")
        .unwrap();
    store.set_setting("language", "en").unwrap();
    store.put_order("quillmere-doxy", 1, &order()).unwrap();
    if with_log {
        store.append(&facts()[..20]).unwrap();
        store.checkpoint().unwrap();
        for fact in &facts()[20..] {
            before_last = fs::read(beside(&work, "-wal")).unwrap().len();
            store.append(std::slice::from_ref(fact)).unwrap();
        }
    } else {
        store.append(&facts()).unwrap();
        drop(store);
    }
    copy(&work, &path);
    (path, before_last)
}

/// Where the rows of each notice stand in the bytes of a file: generously from before its id to behind its digest.
///
/// The log holds a page once for every write of it, and the unused rest of a page may hold rows that were moved.
fn rows_of(bytes: &[u8]) -> BTreeMap<u64, Vec<Range<usize>>> {
    let mut rows: BTreeMap<u64, Vec<Range<usize>>> = BTreeMap::new();
    let texts: Vec<(u64, String)> = (1..=COUNT)
        .map(|number| (number, text_of(number)))
        .collect();
    for at in (0..bytes.len()).filter(|at| bytes[*at..].starts_with(b"notice ")) {
        let found = texts
            .iter()
            .find(|(_, text)| bytes[at..].starts_with(text.as_bytes()));
        if let Some((number, text)) = found {
            let row = at.saturating_sub(400)..at + text.len() + 60;
            rows.entry(*number).or_default().push(row);
        }
    }
    rows
}

fn text_of(number: u64) -> String {
    match notice(number).event {
        Event::NoticeTaken { text } => text,
        other => panic!("{other:?}"),
    }
}

fn apart(one: &Range<usize>, other: &Range<usize>) -> bool {
    one.end <= other.start || other.end <= one.start
}

/// The bytes of a database and of its log; an empty log is as good as none.
fn contents(path: &Path) -> (Vec<u8>, Vec<u8>) {
    (
        fs::read(path).unwrap_or_default(),
        fs::read(beside(path, "-wal")).unwrap_or_default(),
    )
}

/// Opens a damaged record and checks all that must hold.
///
/// A last transaction that was hit looks like one that a power cut tore, which was never acknowledged: its fact, the last, may be missing.
fn check(path: &Path, untouched: &[Fact], last_was_hit: bool) -> Result<(), TestCaseError> {
    let before = contents(path);
    let (store, opening) = match Store::open(path) {
        Ok(opened) => opened,
        // Four bytes of the header can look like a newer version; then nothing may have been touched.
        Err(refusal) => {
            prop_assert_eq!(refusal.code(), "store-newer");
            prop_assert!(contents(path) == before);
            return Ok(());
        }
    };
    let saved = store.facts().unwrap();
    for fact in untouched {
        prop_assert!(
            saved.contains(fact),
            "lost {:?} by {:?}",
            fact.stamp,
            opening
        );
    }
    let all = facts();
    for fact in &saved {
        prop_assert!(all.contains(fact), "invented {:?}", fact);
    }
    for found in store.orders().unwrap() {
        prop_assert!(found.bytes == order(), "another order");
    }
    match opening {
        Opening::Salvaged {
            set_aside,
            facts_saved,
            ..
        } => {
            prop_assert_eq!(facts_saved, saved.len());
            prop_assert_eq!(store.setting("device").unwrap(), None);
            prop_assert!(
                contents(&set_aside) == before,
                "the damaged file was changed"
            );
        }
        // What the check did not see did no harm.
        Opening::Opened { .. } => {
            let without_last = last_was_hit && saved == all[..all.len() - 1];
            prop_assert!(
                saved == all || without_last,
                "opened with {} facts",
                saved.len()
            );
        }
        Opening::Fresh => prop_assert!(false, "a damaged record is not fresh"),
    }
    drop(store);
    let (store, again) = Store::open(path).unwrap();
    prop_assert!(matches!(again, Opening::Opened { .. }), "{again:?}");
    prop_assert!(
        untouched
            .iter()
            .all(|fact| store.facts().unwrap().contains(fact))
    );
    Ok(())
}

/// A fresh folder for one damaged copy.
fn damaged_copy(folder: &Path, sound: &Path) -> PathBuf {
    let place = folder.join("damaged");
    if place.exists() {
        fs::remove_dir_all(&place).unwrap();
    }
    fs::create_dir_all(&place).unwrap();
    let path = place.join("record.sqlite");
    copy(sound, &path);
    path
}

#[test]
// promise: P16
fn a_file_cut_short_at_any_length() {
    let folder = folder("cut-short");
    let (sound, _) = sound(&folder, false);
    let bytes = fs::read(&sound).unwrap();
    let rows = rows_of(&bytes);
    assert_eq!(u64::try_from(rows.len()).unwrap(), COUNT);
    let edges = [
        0,
        1,
        15,
        16,
        99,
        100,
        101,
        4095,
        4096,
        4097,
        bytes.len() - 1,
    ];
    for length in edges
        .into_iter()
        .chain((0..bytes.len()).step_by(bytes.len() / 41))
    {
        let path = damaged_copy(&folder, &sound);
        fs::write(&path, &bytes[..length]).unwrap();
        let untouched: Vec<Fact> = rows
            .iter()
            .filter(|(_, rows)| rows.iter().all(|row| row.end <= length))
            .map(|(number, _)| notice(*number))
            .collect();
        check(&path, &untouched, false).unwrap();
        assert!(beside(&path, ".damaged-1").exists(), "cut at {length}");
    }
}

#[test]
fn random_bytes_written_over_the_file() {
    let folder = folder("written-over");
    let (sound, _) = sound(&folder, false);
    let bytes = fs::read(&sound).unwrap();
    let rows = rows_of(&bytes);
    assert_eq!(u64::try_from(rows.len()).unwrap(), COUNT);
    let hits = prop::collection::vec(
        (0..bytes.len(), prop::collection::vec(any::<u8>(), 1..300)),
        1..6,
    );
    let mut runner = TestRunner::new(Config {
        cases: 60,
        failure_persistence: None,
        max_shrink_iters: 20,
        ..Config::default()
    });
    runner
        .run(&hits, |hits| {
            let path = damaged_copy(&folder, &sound);
            let mut broken = bytes.clone();
            let mut ranges = Vec::new();
            for (at, new) in hits {
                let end = (at + new.len()).min(broken.len());
                broken[at..end].copy_from_slice(&new[..end - at]);
                ranges.push(at..end);
            }
            fs::write(&path, &broken).unwrap();
            let is_untouched = |rows: &[Range<usize>]| {
                rows.iter()
                    .all(|row| ranges.iter().all(|hit| apart(row, hit)))
            };
            let untouched: Vec<Fact> = rows
                .iter()
                .filter(|(_, rows)| is_untouched(rows))
                .map(|(number, _)| notice(*number))
                .collect();
            check(&path, &untouched, false)
        })
        .unwrap();
}

/// One bit is enough to make 31 lb out of 71 lb.
#[test]
fn a_single_changed_letter_is_not_believed() {
    let folder = folder("letter");
    let (sound, _) = sound(&folder, false);
    let mut broken = fs::read(&sound).unwrap();
    // Its row may also stand in the unused rest of a page.
    let word = b"notice 7: boil";
    let places: Vec<usize> = (0..broken.len())
        .filter(|at| broken[*at..].starts_with(word))
        .collect();
    assert!(!places.is_empty());
    for place in places {
        broken[place + 7] ^= 1;
    }
    let path = damaged_copy(&folder, &sound);
    fs::write(&path, &broken).unwrap();
    let (store, opening) = Store::open(&path).unwrap();
    let set_aside = beside(&path, ".damaged-1");
    assert_eq!(
        opening,
        Opening::Salvaged {
            set_aside,
            facts_saved: facts().len() - 1,
            facts_missing: 1
        }
    );
    let expected: Vec<Fact> = facts()
        .into_iter()
        .filter(|fact| *fact != notice(7))
        .collect();
    assert_eq!(store.facts().unwrap(), expected);
    assert_eq!(store.setting("language").unwrap().as_deref(), Some("en"));
    let orders = store.orders().unwrap();
    assert_eq!(
        (orders.len(), orders[0].bytes.clone(), orders[0].trusted),
        (1, order(), false)
    );
}

#[test]
fn the_log_cut_short_and_written_over() {
    let folder = folder("log");
    let (sound, before_last) = sound(&folder, true);
    let main = fs::read(&sound).unwrap();
    let log = fs::read(beside(&sound, "-wal")).unwrap();
    let (in_main, in_log) = (rows_of(&main), rows_of(&log));
    assert!(in_main.len() >= 20 && in_log.len() >= 40 && log.len() > 100_000);
    let hits = (0..log.len(), prop::collection::vec(any::<u8>(), 1..300));
    let mut runner = TestRunner::new(Config {
        cases: 40,
        failure_persistence: None,
        max_shrink_iters: 20,
        ..Config::default()
    });
    runner
        .run(&hits, |(at, new)| {
            let path = damaged_copy(&folder, &sound);
            let mut broken = log.clone();
            let end = (at + new.len()).min(log.len());
            broken[at..end].copy_from_slice(&new[..end - at]);
            fs::write(beside(&path, "-wal"), &broken).unwrap();
            // One copy that was not hit is enough.
            let is_left = |number: &u64| {
                let copies = in_log.get(number).into_iter().flatten();
                in_main.contains_key(number) || copies.into_iter().any(|row| apart(row, &(at..end)))
            };
            let untouched: Vec<Fact> = (1..=COUNT).filter(is_left).map(notice).collect();
            check(&path, &untouched, end > before_last)
        })
        .unwrap();
}

/// SQLite itself takes an empty file for a new database and throws away its log.
#[test]
fn a_main_file_that_is_empty_or_gone_loses_nothing_of_the_log() {
    for gone in [false, true] {
        let folder = folder(if gone { "main-gone" } else { "main-empty" });
        let path = folder.join("record.sqlite");
        let mut store = opened(&path);
        store.append(&notices(5)).unwrap();
        let broken = folder.join("broken.sqlite");
        fs::copy(beside(&path, "-wal"), beside(&broken, "-wal")).unwrap();
        if !gone {
            fs::write(&broken, b"").unwrap();
        }
        let (store, opening) = Store::open(&broken).unwrap();
        let set_aside = beside(&broken, ".damaged-1");
        assert_eq!(
            opening,
            Opening::Salvaged {
                set_aside: set_aside.clone(),
                facts_saved: 5,
                facts_missing: 0
            }
        );
        assert_eq!(store.facts().unwrap(), notices(5));
        assert!(beside(&set_aside, "-wal").exists());
    }
}

#[test]
fn a_second_damage_gets_the_next_name() {
    let path = folder("second").join("record.sqlite");
    for turn in 1..=3 {
        opened(&path).append(&notices(4)).unwrap();
        fs::write(&path, format!("no database, {turn}")).unwrap();
        let (_, opening) = Store::open(&path).unwrap();
        let set_aside = beside(&path, &format!(".damaged-{turn}"));
        assert_eq!(
            opening,
            Opening::Salvaged {
                set_aside: set_aside.clone(),
                facts_saved: 0,
                facts_missing: 0
            }
        );
        assert_eq!(
            fs::read_to_string(set_aside).unwrap(),
            format!("no database, {turn}")
        );
    }
}

/// A power cut between the moves of a salvage: the next opening goes on and says the same.
#[test]
fn a_salvage_that_was_cut_off_is_finished() {
    for with_main in [true, false] {
        let folder = folder(if with_main {
            "cut-off-early"
        } else {
            "cut-off-late"
        });
        let path = folder.join("record.sqlite");
        opened(&beside(&path, ".salvaged"))
            .append(&notices(4))
            .unwrap();
        if with_main {
            // Not yet moved: what was salvaged so far does not count, the damaged file does.
            opened(&path).append(&notices(6)).unwrap();
            fs::File::options()
                .write(true)
                .open(&path)
                .unwrap()
                .set_len(4096 * 3)
                .unwrap();
        } else {
            fs::write(beside(&path, ".damaged-1"), "moved already").unwrap();
            fs::write(beside(&path, "-wal"), "not yet moved").unwrap();
        }
        let (store, opening) = Store::open(&path).unwrap();
        assert!(
            matches!(&opening, Opening::Salvaged { set_aside, .. } if *set_aside == beside(&path, ".damaged-1")),
            "{opening:?}"
        );
        assert!(!beside(&path, ".salvaged").exists());
        if !with_main {
            assert_eq!(store.facts().unwrap(), notices(4));
            assert_eq!(
                fs::read_to_string(beside(&path, ".damaged-1")).unwrap(),
                "moved already"
            );
            assert_eq!(
                fs::read_to_string(beside(&path, ".damaged-1-wal")).unwrap(),
                "not yet moved"
            );
        }
    }
}
