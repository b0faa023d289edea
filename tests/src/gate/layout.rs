//! What a person sees who lists the repository: these entries and no other.

use std::collections::BTreeSet;

use super::Problem;
use super::tree::Tree;

/// Everything else at the top is hidden (its name begins with a dot).
const VISIBLE: &[&str] = &[
    "Cargo.toml",
    "Cargo.lock",
    "LICENSE",
    "README.md",
    "DEVELOPERS.md",
    "app",
    "ui",
    "core",
    "android",
    "tests",
    "demo-data",
];

pub fn check(tree: &Tree) -> Vec<Problem> {
    let found: BTreeSet<&str> = tree
        .tracked()
        .filter_map(|path| path.split('/').next())
        .filter(|entry| !entry.starts_with('.'))
        .collect();
    let known: BTreeSet<&str> = VISIBLE.iter().copied().collect();
    let strange = found
        .difference(&known)
        .map(|entry| Problem::new(entry, 0, "is not one of the entries of the top level"));
    let missing = known
        .difference(&found)
        .map(|entry| Problem::new(entry, 0, "is missing at the top level"));
    strange.chain(missing).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tree(change: impl Fn(&mut Vec<&str>)) -> Tree {
        let mut paths = vec![
            "Cargo.toml",
            "Cargo.lock",
            "LICENSE",
            "README.md",
            "DEVELOPERS.md",
            "app/a",
            "ui/a",
            "core/a",
            "android/a",
            "tests/a",
            "demo-data/a",
            ".ci/run",
        ];
        change(&mut paths);
        let files: Vec<_> = paths.into_iter().map(|path| (path, "")).collect();
        Tree::of(&files)
    }

    #[test]
    fn the_known_entries_pass() {
        assert_eq!(check(&tree(|_| {})), []);
    }

    #[test]
    fn a_stray_entry_is_caught() {
        let problems = check(&tree(|paths| paths.push("notes.txt")));
        assert_eq!(problems.len(), 1);
        assert_eq!(problems[0].file, "notes.txt");
    }

    #[test]
    fn a_missing_entry_is_caught() {
        let problems = check(&tree(|paths| paths.retain(|path| *path != "LICENSE")));
        assert_eq!(problems.len(), 1);
        assert!(problems[0].text.contains("missing"));
    }
}
