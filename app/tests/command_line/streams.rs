//! What goes where: one document on standard output, messages on standard error, silence when nobody reads.

use std::io::Read;
use std::process::{Command, Stdio};

use crate::run::{PROGRAM, demo, doxycycline, hearthdose};

#[test]
fn the_flag_may_stand_anywhere() {
    let order = doxycycline();
    let last = hearthdose(&[
        "dose",
        "--order",
        &order,
        "--clear",
        "--weight",
        "31 lb 4 oz",
        "--json",
    ])
    .expect(0)
    .out;
    let first = hearthdose(&[
        "--json",
        "dose",
        "--order",
        &order,
        "--clear",
        "--weight",
        "31 lb 4 oz",
    ])
    .expect(0)
    .out;
    assert_eq!(first, last);
    assert_eq!(first.matches('\n').count(), 1, "one line, one document");
}

#[test]
fn wrong_usage_prints_nothing_to_standard_output() {
    for arguments in [
        &["brew"][..],
        &["dose"],
        &["order"],
        &["dose", "--weight"],
        &["plan", "--stdin", "--order", "x"],
        &["--jsn"],
        &["walk"],
    ] {
        let ran = hearthdose(arguments).expect(2);
        assert!(ran.out.is_empty() && !ran.err.is_empty(), "{arguments:?}");
    }
}

#[test]
fn help_is_no_error() {
    for arguments in [
        &["--help"][..],
        &["dose", "--help"],
        &["plan", "--help"],
        &["order", "--help"],
        &["help", "walk"],
    ] {
        assert!(!hearthdose(arguments).expect(0).out.is_empty());
    }
    assert!(
        hearthdose(&["--version"])
            .expect(0)
            .out
            .starts_with("hearthdose ")
    );
}

#[test]
fn a_reader_that_goes_away_is_no_error() {
    let (order, household) = (doxycycline(), demo("households/ferrow-9.toml"));
    let mut child = Command::new(PROGRAM)
        .args([
            "plan",
            "--order",
            &order,
            "--household",
            &household,
            "--json",
        ])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    // Far more than a pipe holds would follow.
    let mut out = child.stdout.take().unwrap();
    let mut first = [0; 16];
    out.read_exact(&mut first).unwrap();
    drop(out);
    let output = child.wait_with_output().unwrap();
    assert_eq!(
        (
            output.status.code(),
            String::from_utf8_lossy(&output.stderr).as_ref()
        ),
        (Some(0), "")
    );
}

#[test]
#[cfg(target_os = "linux")]
fn a_full_disk_is_said() {
    let full = std::fs::OpenOptions::new()
        .write(true)
        .open("/dev/full")
        .unwrap();
    let ran = Command::new(PROGRAM)
        .args([
            "growth", "--sex", "f", "--age", "2 y", "--weight", "11.5 kg",
        ])
        .stdout(full)
        .output()
        .unwrap();
    assert_eq!(ran.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&ran.stderr).contains("cannot write"));
    // Nowhere to complain either.
    let full = || {
        std::fs::OpenOptions::new()
            .write(true)
            .open("/dev/full")
            .unwrap()
    };
    let status = Command::new(PROGRAM)
        .args(["dose", "--order", "x"])
        .stdout(full())
        .stderr(full())
        .status()
        .unwrap();
    assert_eq!(status.code(), Some(2));
}

#[test]
#[cfg(target_os = "linux")]
fn an_endless_file_is_not_read_to_its_end() {
    let ran = hearthdose(&["order", "check", "/dev/zero"]).expect(2);
    assert!(ran.err.contains("larger than"), "{}", ran.err);
}
