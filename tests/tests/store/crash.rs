//! Kills, power cuts, two processes at once.

use std::fs;
use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Child, ChildStdout, Command, Stdio};

use hearthdose_core::store::{Opening, Store};

use crate::{beside, copy, folder, notice, notices, opened};

/// A process that appends one fact after another and names each number once it is acknowledged.
fn appender(path: &Path, device: u64) -> (Child, BufReader<ChildStdout>) {
    let mut child = Command::new(env!("CARGO_BIN_EXE_appender"))
        .arg(path)
        .args([device.to_string(), "1".to_owned()])
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let lines = BufReader::new(child.stdout.take().unwrap());
    (child, lines)
}

fn numbers(lines: BufReader<ChildStdout>) -> Vec<u64> {
    lines
        .lines()
        .map_while(Result::ok)
        .filter_map(|line| line.parse().ok())
        .collect()
}

#[test]
fn everything_acknowledged_survives_kill_9() {
    let path = folder("kill").join("record.sqlite");
    for turn in 1..=25_u64 {
        let (mut child, mut lines) = appender(&path, turn);
        // Another moment each time, now and then before the first acknowledgement.
        for _ in 0..(turn * 7) % 23 {
            lines.read_line(&mut String::new()).unwrap();
        }
        child.kill().unwrap();
        child.wait().unwrap();
        let read = (turn * 7) % 23;
        let acknowledged = read + u64::try_from(numbers(lines).len()).unwrap();
        let (store, opening) = Store::open(&path).unwrap();
        assert!(
            matches!(opening, Opening::Opened { .. } | Opening::Fresh),
            "{opening:?}"
        );
        let facts = store.facts().unwrap();
        let kept = facts
            .iter()
            .filter(|fact| fact.stamp.device == crate::facts::device(turn))
            .count();
        let kept = u64::try_from(kept).unwrap();
        // One more may have been written and not yet said.
        assert!(
            kept == acknowledged || kept == acknowledged + 1,
            "turn {turn}: {kept} of {acknowledged}"
        );
    }
}

#[test]
fn copies_taken_between_writes_hold_everything_so_far() {
    let folder = folder("power-cut");
    let path = folder.join("record.sqlite");
    let mut store = opened(&path);
    for count in 1..=60 {
        store.append(&[notice(count)]).unwrap();
        if count == 30 {
            store.checkpoint().unwrap();
        }
        if count % 5 == 0 {
            let cut = folder.join(format!("cut-{count}.sqlite"));
            copy(&path, &cut);
            let (store, opening) = Store::open(&cut).unwrap();
            assert!(matches!(opening, Opening::Opened { .. }));
            assert_eq!(store.facts().unwrap(), notices(count));
        }
    }
}

/// The log cut off anywhere in its last transaction: that one may be gone, nothing before it.
#[test]
fn a_log_that_was_cut_in_its_last_transaction_keeps_the_others() {
    let folder = folder("torn");
    let path = folder.join("record.sqlite");
    let mut store = opened(&path);
    store.append(&notices(9)).unwrap();
    let before = fs::metadata(beside(&path, "-wal")).unwrap().len();
    store.append(&[notice(10)]).unwrap();
    let after = fs::metadata(beside(&path, "-wal")).unwrap().len();
    for turn in 0..12 {
        let length = before + (after - before) * turn / 12;
        let cut = folder.join(format!("cut-{turn}.sqlite"));
        copy(&path, &cut);
        fs::File::options()
            .write(true)
            .open(beside(&cut, "-wal"))
            .unwrap()
            .set_len(length)
            .unwrap();
        let (store, opening) = Store::open(&cut).unwrap();
        assert!(matches!(opening, Opening::Opened { .. }), "{opening:?}");
        assert_eq!(
            store.facts().unwrap(),
            notices(9),
            "cut at {length} of {after}"
        );
    }
}

/// A last transaction whose pages reached the disk in part: what of it is whole is kept, the rest is as if never written.
#[test]
fn a_log_that_was_torn_in_its_last_transaction_opens_as_usual() {
    let folder = folder("torn-inside");
    let path = folder.join("record.sqlite");
    let mut store = opened(&path);
    store.append(&notices(9)).unwrap();
    let before = usize::try_from(fs::metadata(beside(&path, "-wal")).unwrap().len()).unwrap();
    store.append(&[notice(10)]).unwrap();
    let whole = fs::read(beside(&path, "-wal")).unwrap();
    for at in (before..whole.len()).step_by(512) {
        let cut = folder.join(format!("cut-{at}.sqlite"));
        copy(&path, &cut);
        let mut torn = whole.clone();
        let end = (at + 300).min(torn.len());
        torn[at..end].fill(0);
        fs::write(beside(&cut, "-wal"), torn).unwrap();
        let (store, opening) = Store::open(&cut).unwrap();
        assert!(matches!(opening, Opening::Opened { .. }), "{opening:?}");
        let facts = store.facts().unwrap();
        assert!(facts == notices(9) || facts == notices(10), "torn at {at}");
        drop(store);
        assert_eq!(opened(&cut).facts().unwrap(), facts);
    }
}

#[test]
fn two_processes_write_side_by_side() {
    let path = folder("two").join("record.sqlite");
    let run = |device: u64| {
        let mut command = Command::new(env!("CARGO_BIN_EXE_appender"));
        command
            .arg(&path)
            .args([device.to_string(), "1".to_owned(), "60".to_owned()])
            .stdout(Stdio::piped());
        command.spawn().unwrap()
    };
    let children = [run(1), run(2), run(3)];
    for child in children {
        let done = child.wait_with_output().unwrap();
        let said = String::from_utf8(done.stdout).unwrap();
        assert!(done.status.success(), "{said}");
        assert_eq!(said.lines().count(), 60, "{said}");
    }
    let (store, opening) = Store::open(&path).unwrap();
    assert!(matches!(opening, Opening::Opened { .. }));
    assert_eq!(store.facts().unwrap().len(), 180);
}
