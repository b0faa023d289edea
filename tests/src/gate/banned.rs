//! What must not stand in any file: paths of one machine, registries, unfinished marks, skipped tests,
//! and floats in the parts of core that decide what somebody swallows.

use super::Problem;
use super::rust_text::{RustText, is_word};
use super::tree::Tree;

/// A piece of text and why it must not be there.
/// Each is written in two halves, so that this file passes its own check.
const TEXTS: &[(&str, &str)] = &[
    (concat!("/wo", "rk/"), "a path of one machine"),
    (concat!("/ro", "ot/"), "a path of one machine"),
    (concat!("/tmp/", "bash"), "a path of one machine"),
    (concat!("crates", ".io"), "the host of a registry"),
    (concat!("pypi", ".org"), "the host of a registry"),
    (concat!("pythonhosted", ".org"), "the host of a registry"),
    (concat!("npmjs", ".org"), "the host of a registry"),
    (concat!("deb.deb", "ian"), "the host of a registry"),
    (concat!("proxy.gol", "ang"), "the host of a registry"),
    (concat!("todo", "!("), "an unfinished mark"),
    (concat!("unimplemented", "!("), "an unfinished mark"),
    (concat!("FIX", "ME"), "an unfinished mark"),
    (concat!("XX", "X"), "an unfinished mark"),
    (concat!("#[ig", "nore"), "a test that does not run"),
];

/// Written by tools, or foreign text under its own licence.
const LEFT_OUT: &[&str] = &["Cargo.lock", "tests/fuzz/Cargo.lock", "LICENSE"];

/// Modules of core that hold no float, in tests neither.
const EXACT: &[&str] = &[
    "dose", "mixture", "units", "schedule", "order", "prep", "record",
];

pub fn check(tree: &Tree) -> Vec<Problem> {
    let mut problems = Vec::new();
    for (path, text) in tree.texts() {
        if LEFT_OUT.contains(&path) {
            continue;
        }
        for (line, row) in (1..).zip(text.lines()) {
            for (banned, why) in TEXTS {
                if holds(row, banned) {
                    problems.push(Problem::new(path, line, format!("\"{banned}\": {why}")));
                }
            }
        }
    }
    for (path, source) in tree.ending(".rs").filter(|(path, _)| is_exact(path)) {
        for (line, what) in floats(&RustText::new(source)) {
            let text = format!("{what}: no floats in what a person swallows");
            problems.push(Problem::new(path, line, text));
        }
    }
    problems
}

/// Marks in capitals count as whole words only: a run of more of the same letter is a pattern for names of files.
fn holds(row: &str, banned: &str) -> bool {
    let whole = banned.chars().all(|letter| letter.is_ascii_uppercase());
    row.match_indices(banned).any(|(at, _)| {
        let before = row.get(..at).and_then(|text| text.chars().next_back());
        let after = row
            .get(at + banned.len()..)
            .and_then(|text| text.chars().next());
        !whole || !before.into_iter().chain(after).any(is_word)
    })
}

fn is_exact(path: &str) -> bool {
    let inside = path.strip_prefix("core/src/");
    let module = inside.and_then(|inside| inside.split(['/', '.']).next());
    module.is_some_and(|module| EXACT.contains(&module))
}

/// Types, suffixes and literals of floats in the code.
fn floats(text: &RustText) -> Vec<(usize, String)> {
    let mut found = Vec::new();
    for word in text.words() {
        let name = word.name();
        let is_number = name.starts_with(|letter: char| letter.is_ascii_digit());
        let suffixed = is_number && (name.ends_with("f32") || name.ends_with("f64"));
        let hexadecimal = name.starts_with("0x");
        if name == "f32" || name == "f64" || (suffixed && !hexadecimal) {
            found.push((word.line, name));
            continue;
        }
        let end = word.at + word.text.len();
        // `1.5` is a float; `pair.0.1` (a dot before) and `0..5` (two dots) are not.
        let digit_behind = text.code.get(end + 1).is_some_and(char::is_ascii_digit);
        if is_number && text.follows(end, ".") && digit_behind && !text.precedes(word.at, ".") {
            found.push((word.line, format!("{name}.…")));
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    fn problems(path: &str, text: &str) -> Vec<Problem> {
        check(&Tree::of(&[(path, text)]))
    }

    #[test]
    fn every_banned_text_is_caught_with_its_line() {
        for (banned, _) in TEXTS {
            let text = format!("fine\nsee {banned}: x");
            for path in ["core/src/dose/mod.rs", "DEVELOPERS.md", ".ci/run"] {
                let found = problems(path, &text);
                assert_eq!(found.len(), 1, "{banned}");
                assert_eq!((found[0].line, found[0].file.as_str()), (2, path));
            }
            assert_eq!(problems("Cargo.lock", &text), []);
        }
    }

    #[test]
    fn floats_are_caught_where_doses_are_made() {
        for source in [
            "let x: f64 = y;",
            "x as f32",
            "let x = 1_f64;",
            "\n let x = 2.5;",
        ] {
            assert_eq!(
                problems("core/src/dose/mod.rs", source).len(),
                1,
                "{source}"
            );
            assert_eq!(problems("core/src/units.rs", source).len(), 1, "{source}");
            assert_eq!(problems("core/src/growth/mod.rs", source), [], "{source}");
        }
    }

    #[test]
    fn patterns_for_names_of_files_pass() {
        let pattern = format!("mktemp /tmp/a.{}", "X".repeat(6));
        assert_eq!(problems(".ci/run", &pattern), []);
    }

    #[test]
    fn exact_code_passes() {
        let source =
            "let x = pair.0.1; for i in 0..5 {} // 1.5 f64\nlet y = \"2.5\"; let z = 0x1f64;";
        assert_eq!(problems("core/src/dose/mod.rs", source), []);
    }
}
