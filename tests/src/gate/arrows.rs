//! Modules of core point one way: right may use left, never the reverse.
//!
//! Code for tests may look anywhere.
//! `lib.rs` sees every module; a path through one of its re-exports would hide an arrow and is a problem too.

use std::collections::BTreeSet;

use super::Problem;
use super::rust_text::RustText;
use super::test_code::{TestFiles, TestLines};
use super::tree::Tree;

/// Modules of core from the first layer to the last; those of one layer may use each other.
const LAYERS: &[&[&str]] = &[
    &["units", "time"],
    &["growth", "queue"],
    &["order"],
    &["household"],
    &["screening"],
    &["dose"],
    &["mixture", "schedule"],
    &["forecast"],
    &["prep"],
    &["record"],
    &["today"],
    &["export"],
    &["package"],
    &["exchange"],
    &["site"],
    &["store"],
];

/// Modules that stand beside the row: all they may use.
const ONLY: &[(&str, &[&str])] = &[("growth", &["units"]), ("queue", &["units"])];

const SOURCES: &str = "core/src/";

pub fn check(tree: &Tree) -> Vec<Problem> {
    let files = TestFiles::of(tree);
    let mut problems = Vec::new();
    let mut unknown = BTreeSet::new();
    for (path, source) in tree.ending(".rs") {
        let Some(inside) = path.strip_prefix(SOURCES) else {
            continue;
        };
        let parts: Vec<&str> = inside.trim_end_matches(".rs").split('/').collect();
        let module = parts[0];
        if inside == "lib.rs" {
            continue;
        }
        if layer(module).is_none() {
            if unknown.insert(module) {
                problems.push(Problem::new(path, 0, unknown_text(module)));
            }
            continue;
        }
        let depth = parts.iter().filter(|part| **part != "mod").count();
        let text = RustText::new(source);
        let tests = TestLines::of(path, &text, &files);
        for (line, target) in targets(&text, depth) {
            if tests.contain(line) {
                continue;
            }
            problems.extend(judge(module, &target).map(|why| Problem::new(path, line, why)));
        }
    }
    problems
}

fn layer(module: &str) -> Option<usize> {
    LAYERS.iter().position(|layer| layer.contains(&module))
}

fn unknown_text(module: &str) -> String {
    format!("module {module} has no layer yet: give it one in tests/src/gate/arrows.rs")
}

/// Why `module` may not name `target`, if it may not.
fn judge(module: &str, target: &str) -> Option<String> {
    if module == target {
        return None;
    }
    let own = layer(module)?;
    let Some(other) = layer(target) else {
        let text = format!("crate::{target} is no module with a layer: name the module it is in");
        return Some(text);
    };
    if other > own {
        return Some(format!(
            "{module} may not use {target}, which comes after it"
        ));
    }
    let (_, only) = ONLY.iter().find(|(name, _)| *name == module)?;
    let text = format!("{module} may use {} only, not {target}", only.join(", "));
    (!only.contains(&target)).then_some(text)
}

/// What the code names at the root of its crate, with lines: by `crate::`, or by so many `super::` as reach it.
fn targets(text: &RustText, depth: usize) -> Vec<(usize, String)> {
    let mut targets = Vec::new();
    let mut behind_supers = 0;
    for word in text.words() {
        let end = word.at + word.text.len();
        let at_root = if word.is("crate") {
            true
        } else if word.is("super") {
            let goes_on = text.precedes(word.at, "super::");
            behind_supers = if goes_on { behind_supers + 1 } else { 1 };
            behind_supers == depth
        } else {
            false
        };
        let names = text.skip_space(end);
        if at_root && text.follows(names, "::") {
            let names = text.skip_space(names + 2);
            if !text.follows(names, "super") {
                targets.extend(first_names(text, word.line, names));
            }
        }
    }
    targets
}

/// The name at `at`, or the first name of each entry of the braces there.
fn first_names(text: &RustText, line: usize, at: usize) -> Vec<(usize, String)> {
    let (mut names, mut line, mut depth, mut fresh) = (Vec::new(), line, 0, true);
    let mut name = String::new();
    for &letter in text.code.get(at..).unwrap_or_default() {
        let part_of_name = super::rust_text::is_word(letter) || letter == '*';
        if fresh && part_of_name {
            name.push(letter);
            continue;
        }
        if !name.is_empty() {
            names.push((line, std::mem::take(&mut name)));
            fresh = false;
        }
        match letter {
            '{' => depth += 1,
            '}' => depth -= 1,
            ',' if depth == 1 => fresh = true,
            '\n' => line += 1,
            _ => {}
        }
        if depth == 0 {
            break;
        }
    }
    names
}

#[cfg(test)]
mod tests {
    use super::*;

    fn problems(path: &str, source: &str) -> Vec<(usize, String)> {
        let found = check(&Tree::of(&[(path, source)]));
        found.into_iter().map(|p| (p.line, p.text)).collect()
    }

    #[test]
    fn arrows_to_the_left_pass() {
        let source = "use crate::units::Mass;\nuse crate::{order, screening::Cleared};\nuse super::trace::Trace;";
        assert_eq!(problems("core/src/dose/calculate.rs", source), []);
        assert_eq!(
            problems("core/src/mixture/plan.rs", "use crate::schedule;"),
            []
        );
        assert_eq!(
            problems("core/src/lib.rs", "use crate::store; pub mod dose;"),
            []
        );
        assert_eq!(problems("ui/src/vm/x.rs", "use crate::bind;"), []);
    }

    #[test]
    fn an_arrow_to_the_right_is_caught_with_its_line() {
        let found = problems("core/src/units/mass.rs", "\nuse crate::dose::Dose;");
        assert_eq!(found.len(), 1);
        assert_eq!(found[0].0, 2);
        assert!(found[0].1.contains("units may not use dose"));
    }

    #[test]
    fn every_spelling_is_caught() {
        let one = |path, source| {
            let found = problems(path, source);
            assert_eq!(found.len(), 1, "{source}: {found:?}");
            found[0].0
        };
        let dose = "core/src/dose/trace.rs";
        assert_eq!(one(dose, "fn f() -> crate::prep::State { }"), 1);
        assert_eq!(
            one(dose, "use crate::{\n  units::{Mass, prep},\n  prep,\n};"),
            3
        );
        assert_eq!(one(dose, "use super::super::prep::State;"), 1);
        assert_eq!(one("core/src/dose.rs", "use super::prep;"), 1);
        assert_eq!(
            one("core/src/dose/mod.rs", "pub use super::{prep, units};"),
            1
        );
        assert_eq!(
            one(dose, "macro_rules! m { () => { $crate::prep::f() } }"),
            1
        );
        assert_eq!(one(dose, "use crate :: prep;"), 1);
    }

    #[test]
    fn comments_strings_and_tests_are_no_arrows() {
        let source = "// crate::prep\nlet x = \"crate::prep\";\n#[cfg(test)]\nmod tests { use crate::prep; }";
        assert_eq!(problems("core/src/dose/mod.rs", source), []);
        let tree = Tree::of(&[
            ("core/src/dose/mod.rs", "#[cfg(test)]\nmod tests;"),
            ("core/src/dose/tests.rs", "use crate::store;"),
        ]);
        assert_eq!(check(&tree), []);
    }

    #[test]
    fn growth_stands_beside() {
        assert_eq!(
            problems("core/src/growth/mod.rs", "use crate::units::Age;"),
            []
        );
        assert_eq!(
            problems("core/src/growth/mod.rs", "use crate::time::Day;").len(),
            1
        );
        assert_eq!(
            problems("core/src/screening/x.rs", "use crate::growth::z;"),
            []
        );
    }

    #[test]
    fn what_has_no_layer_is_caught() {
        assert_eq!(problems("core/src/extra/mod.rs", "").len(), 1);
        assert_eq!(
            problems("core/src/dose/mod.rs", "use crate::Mass;").len(),
            1
        );
        assert_eq!(problems("core/src/dose/mod.rs", "use crate::*;").len(), 1);
    }
}
