//! Orders and notices through the public face of the rules: the demonstration files, the damaged ones, and what changed between two revisions.
//!
//! Every expected code, place and sentence was written by hand before the file was read.

mod change_words;
mod checking;
mod comparing;
mod damage;
mod notices;
mod reading;
mod supply;

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use hearthdose_core::order::{Order, Problem, check_bytes, compare, parse};
use hearthdose_ui::text::{Language, Reader, Words};

pub fn demo(folder: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../demo-data")
        .join(folder)
}

pub fn read(folder: &str, name: &str) -> Vec<u8> {
    let path = demo(folder).join(format!("{name}.toml"));
    std::fs::read(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// Every file of a folder with its name, in order.
pub fn files(folder: &str) -> Vec<(String, Vec<u8>)> {
    let mut files: Vec<(String, Vec<u8>)> = std::fs::read_dir(demo(folder))
        .expect("the folder is there")
        .map(|entry| entry.expect("an entry").path())
        .map(|path| {
            let name = path
                .file_stem()
                .expect("a name")
                .to_string_lossy()
                .into_owned();
            let bytes = std::fs::read(&path).expect("a readable file");
            (name, bytes)
        })
        .collect();
    files.sort();
    files
}

pub fn order(name: &str) -> Order {
    parse(&read("orders", name)).unwrap_or_else(|problems| panic!("{name}: {problems:?}"))
}

pub fn good_orders() -> Vec<Order> {
    files("orders")
        .iter()
        .map(|(name, _)| order(name))
        .collect()
}

/// What changed, as the order desk reads it in English.
pub fn told(old: &Order, new: &Order) -> Vec<String> {
    let words = Words::load(Language::English);
    let changes = compare(old, new);
    let texts = changes
        .iter()
        .map(|change| words.change(change, Reader::Desk));
    texts.collect()
}

/// `code at place`, as the first line of a damaged file writes it.
pub fn named(problem: &Problem) -> String {
    format!("{} at {}", problem.code, problem.place)
}

pub fn errors(problems: &[Problem]) -> BTreeSet<String> {
    problems
        .iter()
        .filter(|problem| problem.is_error())
        .map(named)
        .collect()
}

pub fn warnings(problems: &[Problem]) -> BTreeSet<String> {
    problems
        .iter()
        .filter(|problem| !problem.is_error())
        .map(named)
        .collect()
}

pub fn set(list: &[&str]) -> BTreeSet<String> {
    list.iter().map(|&entry| entry.to_owned()).collect()
}

pub fn text(name: &str) -> String {
    String::from_utf8(read("orders", name)).expect("text")
}

/// The demonstration order with one passage changed.
pub fn changed(name: &str, from: &str, to: &str) -> Vec<Problem> {
    let before = text(name);
    assert!(before.contains(from), "{name} has no {from}");
    check_bytes(before.replacen(from, to, 1).as_bytes(), &[])
}
