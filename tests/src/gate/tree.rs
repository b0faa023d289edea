//! The files of the workspace, as git sees them.
//!
//! Holds what is tracked and what is about to be (neither tracked nor ignored), so that a problem shows before its commit.
//! In an unpacked archive, where git has no record, it holds every file but those that building makes.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::process::Command;

/// Paths are relative to the root, with `/` between their parts.
#[derive(Debug, Default)]
pub struct Tree {
    files: BTreeMap<String, File>,
}

#[derive(Debug)]
struct File {
    /// `None` for a file that is no UTF-8 text.
    text: Option<String>,
    tracked: bool,
}

impl Tree {
    /// Reads the work tree at `root`.
    ///
    /// # Errors
    /// Says which git call or which file failed.
    pub fn read(root: &Path) -> Result<Self, String> {
        let (tracked, listed) = if root.join(".git").exists() {
            let all = ["--cached", "--others", "--exclude-standard"];
            (list(root, &["--cached"])?, list(root, &all)?)
        } else {
            let mut listed = Vec::new();
            walk(root, "", &mut listed).map_err(|cause| cause.to_string())?;
            (listed.clone(), listed)
        };
        let tracked: BTreeSet<String> = tracked.into_iter().collect();
        let mut files = BTreeMap::new();
        for path in listed {
            let full = root.join(&path);
            // Deleted but not yet committed, or a link into nowhere: nothing to look at.
            if !full.is_file() {
                continue;
            }
            let bytes = std::fs::read(&full).map_err(|cause| format!("{path}: {cause}"))?;
            let file = File {
                text: String::from_utf8(bytes).ok(),
                tracked: tracked.contains(&path),
            };
            files.insert(path, file);
        }
        Ok(Self { files })
    }

    /// A tree made of the given paths and texts, all tracked.
    #[cfg(test)]
    pub fn of(files: &[(&str, &str)]) -> Self {
        let file = |text: &str| File {
            text: Some(text.to_owned()),
            tracked: true,
        };
        Self {
            files: files
                .iter()
                .map(|(path, text)| ((*path).to_owned(), file(text)))
                .collect(),
        }
    }

    pub fn len(&self) -> usize {
        self.files.len()
    }

    /// The text of one file.
    pub fn text(&self, path: &str) -> Option<&str> {
        self.files.get(path).and_then(|file| file.text.as_deref())
    }

    /// Every text file, in the order of paths.
    pub fn texts(&self) -> impl Iterator<Item = (&str, &str)> {
        self.files
            .iter()
            .filter_map(|(path, file)| Some((path.as_str(), file.text.as_deref()?)))
    }

    /// Every text file with this ending.
    pub fn ending(&self, ending: &str) -> impl Iterator<Item = (&str, &str)> {
        self.texts().filter(move |(path, _)| path.ends_with(ending))
    }

    /// The paths git keeps.
    pub fn tracked(&self) -> impl Iterator<Item = &str> {
        self.files
            .iter()
            .filter(|(_, file)| file.tracked)
            .map(|(path, _)| path.as_str())
    }
}

fn list(root: &Path, which: &[&str]) -> Result<Vec<String>, String> {
    // The tree may belong to another user than the one who checks it.
    let output = Command::new("git")
        .arg("-C")
        .arg(root)
        .args(["-c", "safe.directory=*", "ls-files", "-z"])
        .args(which)
        .output()
        .map_err(|cause| format!("git: {cause}"))?;
    if !output.status.success() {
        return Err(String::from_utf8_lossy(&output.stderr).trim().to_owned());
    }
    let listed = String::from_utf8(output.stdout).map_err(|_| "a path that is no UTF-8")?;
    Ok(listed
        .split('\0')
        .filter(|path| !path.is_empty())
        .map(str::to_owned)
        .collect())
}

fn walk(root: &Path, folder: &str, found: &mut Vec<String>) -> std::io::Result<()> {
    for entry in std::fs::read_dir(root.join(folder))? {
        let entry = entry?;
        let name = entry.file_name();
        let name = name.to_string_lossy();
        if entry.file_type()?.is_file() {
            found.push(format!("{folder}{name}"));
        } else if entry.file_type()?.is_dir() && !matches!(&*name, "target" | ".git") {
            walk(root, &format!("{folder}{name}/"), found)?;
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_a_folder_that_git_does_not_know() {
        let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
        let tree = Tree::read(&root).unwrap();
        assert!(
            tree.text("gate/tree.rs")
                .unwrap()
                .contains("reads_a_folder")
        );
        assert!(tree.tracked().any(|path| path == "bin/check.rs"));
        assert_eq!(tree.len(), tree.texts().count());
    }

    #[test]
    fn a_folder_that_is_not_there_is_an_error() {
        assert!(Tree::read(Path::new("/no/such/folder")).is_err());
    }
}
