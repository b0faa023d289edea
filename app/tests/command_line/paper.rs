//! `print` and `calendar`: what is written, what is said, and when nothing is.
//!
//! What stands on the pages is read by other programs in `tests/tests/system_paper.rs`.

use std::fs;

use crate::run::{File, Ran, demo, doxycycline, hearthdose};

const MADE: &str = "2031-04-02T16:00:00-05:00";

struct Folder(std::path::PathBuf);

impl Folder {
    fn new(name: &str) -> Folder {
        let name = format!("papers-{name}-{}", std::process::id());
        let path = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
        fs::create_dir_all(&path).unwrap();
        Folder(path)
    }

    fn at(&self, name: &str) -> String {
        self.0.join(name).to_str().unwrap().to_owned()
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

fn run(command: &str, folder: &Folder, household: &str, out: &str, more: &[&str]) -> Ran {
    let (order, data) = (doxycycline(), folder.at("data"));
    let mut arguments = vec![
        command,
        "--household",
        household,
        "--order",
        &order,
        "--out",
        out,
        "--data",
        &data,
        "--at",
        MADE,
        "--json",
    ];
    arguments.extend(more);
    hearthdose(&arguments)
}

#[test]
fn a_folder_gets_one_pdf_and_the_same_bytes_each_time() {
    let folder = Folder::new("folder");
    let (home, out) = (demo("households/tarn-4.toml"), folder.at("new/folder"));
    let said = run("print", &folder, &home, &out, &["--no-code"]).expect(0);
    let json = said.json();
    assert_eq!(json["outcome"], "printed");
    assert_eq!(json["signed"], false);
    assert_eq!(json["code"], serde_json::Value::Null);
    let file = json["file"].as_str().unwrap();
    assert!(file.ends_with("hearthdose.pdf"), "{file}");
    let first = fs::read(file).unwrap();
    assert!(first.starts_with(b"%PDF-"));
    run("print", &folder, &home, &out, &["--no-code"]).expect(0);
    assert_eq!(fs::read(file).unwrap(), first);
}

#[test]
fn each_print_has_a_code_of_its_own_unless_none_is_wanted() {
    let folder = Folder::new("codes");
    let (home, out) = (demo("households/tarn-4.toml"), folder.at("a.pdf"));
    let code = || {
        let json = run("print", &folder, &home, &out, &[]).expect(0).json();
        json["code"].as_str().unwrap().to_owned()
    };
    let (first, second) = (code(), code());
    assert!(first.starts_with("HD1"));
    assert_ne!(first, second);
}

#[test]
fn what_has_no_plan_has_no_papers() {
    let folder = Folder::new("refused");
    let out = folder.at("a.pdf");
    // Nobody of this home may take it: the only person is allergic.
    let home = File::like(
        "households/alder-1.toml",
        &[(
            "cleared = true",
            "[person.answers]\nallergy-tetracycline = \"yes\"\npregnant = \"no\"\nbreastfeeding = \"no\"\nkidney-or-liver = \"no\"\ncurrent-medicines = \"no\"",
        )],
    );
    for command in ["print", "calendar"] {
        let codes = run(command, &folder, home.path(), &out, &[]).refusals();
        assert_eq!(codes, ["screening-stop"]);
        assert!(!std::path::Path::new(&out).exists());
    }
}

#[test]
fn a_name_that_cannot_be_printed_whole_stops_the_print() {
    let folder = Folder::new("letters");
    let home = File::like("households/alder-1.toml", &[("\"Corin\"", "\"山本\"")]);
    let out = folder.at("a.pdf");
    let codes = run("print", &folder, home.path(), &out, &[]).refusals();
    assert_eq!(codes, ["letter-not-in-typeface"]);
    assert!(!std::path::Path::new(&out).exists());
}

#[test]
fn unknown_languages_are_wrong_usage() {
    let folder = Folder::new("language");
    let (home, out) = (demo("households/alder-1.toml"), folder.at("a.pdf"));
    for command in ["print", "calendar"] {
        let said = run(command, &folder, &home, &out, &["--language", "xx"]).expect(2);
        assert!(said.err.contains("en or es"), "{}", said.err);
    }
}

/// One value of an unfolded calendar, in the order of the events.
fn values(text: &str, name: &str) -> Vec<String> {
    let text = text.replace("\r\n ", "");
    text.split("\r\n")
        .filter_map(|line| line.strip_prefix(name)?.strip_prefix(':'))
        .map(str::to_owned)
        .collect()
}

#[test]
fn a_later_calendar_changes_the_same_events() {
    let folder = Folder::new("calendar");
    let (home, out) = (demo("households/tarn-4.toml"), folder.at("a.ics"));
    let json = run("calendar", &folder, &home, &out, &[]).expect(0).json();
    // Sixty days, two rounds a day.
    assert_eq!(json["events"], 120);
    let before = fs::read_to_string(&out).unwrap();
    let later = File::like(
        "households/tarn-4.toml",
        &[("\"08:00\", \"20:00\"", "\"09:30\", \"21:30\"")],
    );
    let at = ["--at", "2031-04-02T17:00:00-05:00"];
    let again = hearthdose(&[
        "calendar",
        "--household",
        later.path(),
        "--order",
        &doxycycline(),
        "--out",
        &out,
        "--data",
        &folder.at("data"),
        at[0],
        at[1],
    ]);
    again.expect(0);
    let after = fs::read_to_string(&out).unwrap();
    let (old, new) = (values(&before, "UID"), values(&after, "UID"));
    assert_eq!(old, new);
    let mut unique = old.clone();
    unique.sort();
    unique.dedup();
    assert_eq!(unique.len(), 120);
    let sequence = |text: &str| values(text, "SEQUENCE")[0].parse::<u64>().unwrap();
    assert_eq!(sequence(&after), sequence(&before) + 60);
    // 08:00 and 09:30 in Chicago in summer, five hours behind UTC.
    assert_eq!(values(&before, "DTSTART")[0], "20310403T130000Z");
    assert_eq!(values(&after, "DTSTART")[0], "20310403T143000Z");
}

#[test]
fn names_are_in_a_calendar_only_when_asked_for() {
    let folder = Folder::new("names");
    let (home, out) = (demo("households/tarn-4.toml"), folder.at("a.ics"));
    let names = ["Odile", "Sunniva", "Bram", "Pim", "Tarn", "doxy"];
    run("calendar", &folder, &home, &out, &[]).expect(0);
    let without = fs::read_to_string(&out).unwrap();
    assert!(names.iter().all(|name| !without.contains(name)));
    run("calendar", &folder, &home, &out, &["--names"]).expect(0);
    let with = fs::read_to_string(&out).unwrap().replace("\r\n ", "");
    assert!(with.contains("For Odile\\, Sunniva\\, Bram and Pim."));
}

#[test]
fn every_line_of_a_calendar_is_short_enough_and_ends_as_it_must() {
    let folder = Folder::new("lines");
    let (home, out) = (demo("households/ferrow-9.toml"), folder.at("a.ics"));
    let more = ["--names", "--language", "es"];
    run("calendar", &folder, &home, &out, &more).expect(0);
    let text = fs::read_to_string(&out).unwrap();
    assert!(text.ends_with("END:VCALENDAR\r\n"));
    for line in text.split_terminator("\r\n") {
        assert!(line.len() <= 75 && !line.contains(['\r', '\n']), "{line:?}");
    }
}
