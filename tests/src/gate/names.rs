//! Crates point one way too: core names no screen, view models name no widget, the app is named by nobody.

use super::Problem;
use super::rust_text::{RustText, Word};
use super::tree::Tree;

/// Folder, and the crates that Rust code in it must not name; a trailing `*` stands for any ending.
const FORBIDDEN: &[(&str, &[&str])] = &[
    (
        "core/",
        &[
            "hearthdose",
            "hearthdose_ui",
            "hearthdose_android",
            "slint*",
            "i_slint*",
            "fluent*",
        ],
    ),
    (
        "ui/",
        &["hearthdose", "hearthdose_android", "hearthdose_tests"],
    ),
    ("ui/src/vm", &["slint*", "i_slint*"]),
    ("ui/src/text", &["slint*", "i_slint*"]),
    ("ui/src/drawing", &["slint*", "i_slint*"]),
    ("app/", &["hearthdose_android", "hearthdose_tests"]),
    ("android/", &["hearthdose", "hearthdose_tests"]),
];

pub fn check(tree: &Tree) -> Vec<Problem> {
    let mut problems = Vec::new();
    for (path, source) in tree.ending(".rs") {
        let text = RustText::new(source);
        for (folder, crates) in FORBIDDEN {
            if !lies_in(path, folder) {
                continue;
            }
            for word in text.words() {
                if let Some(name) = crates.iter().find(|name| fits(word, name)) {
                    // A bare `hearthdose` is a crate only at the head of a path.
                    if *name == "hearthdose" && !text.follows(word.at + word.text.len(), "::") {
                        continue;
                    }
                    let text = format!("{folder} must not name {}", word.name());
                    problems.push(Problem::new(path, word.line, text));
                }
            }
        }
    }
    problems
}

/// `ui/src/vm` holds `ui/src/vm.rs` and all below `ui/src/vm/`.
fn lies_in(path: &str, folder: &str) -> bool {
    path.strip_prefix(folder)
        .is_some_and(|rest| folder.ends_with('/') || rest.starts_with('/') || rest == ".rs")
}

fn fits(word: Word<'_>, name: &str) -> bool {
    match name.strip_suffix('*') {
        Some(start) => word.name().starts_with(start),
        None => word.is(name),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn count(path: &str, source: &str) -> usize {
        check(&Tree::of(&[(path, source)])).len()
    }

    #[test]
    fn crates_further_on_are_caught() {
        assert_eq!(count("core/src/dose/mod.rs", "use hearthdose_ui::vm;"), 1);
        assert_eq!(count("core/src/lib.rs", "fn f(x: slint::Image) {}"), 1);
        assert_eq!(count("ui/src/vm/soak.rs", "use slint::Model;"), 1);
        assert_eq!(count("ui/src/drawing.rs", "use i_slint_core::x;"), 1);
        assert_eq!(count("ui/src/text/mod.rs", "\nslint::invoke();"), 1);
        assert_eq!(count("ui/src/lib.rs", "use hearthdose::main;"), 1);
    }

    #[test]
    fn what_may_be_named_passes() {
        assert_eq!(count("ui/src/bind/soak.rs", "use slint::Model;"), 0);
        assert_eq!(
            count("ui/src/vm/soak.rs", "use hearthdose_core::dose; // slint"),
            0
        );
        assert_eq!(count("ui/src/vmx.rs", "use slint::Model;"), 0);
        assert_eq!(
            count(
                "ui/src/vm/mod.rs",
                "#[cfg(feature = \"slint\")] let hearthdose = 1;"
            ),
            0
        );
        assert_eq!(count("app/src/main.rs", "use hearthdose_ui::vm;"), 0);
    }
}
