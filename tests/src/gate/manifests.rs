//! What the manifests promise: who may depend on whom, shared lints, and one program behind a plain `cargo run`.

use toml::{Table, Value};

use super::Problem;
use super::tree::Tree;

/// A package's manifest, and what it must not depend on, whatever the kind of dependency.
const FORBIDDEN: &[(&str, &[&str])] = &[
    (
        "core/Cargo.toml",
        &[
            "hearthdose",
            "hearthdose-ui",
            "hearthdose-android",
            "slint",
            "i-slint-core",
        ],
    ),
    ("ui/Cargo.toml", &["hearthdose", "hearthdose-android"]),
    ("app/Cargo.toml", &["hearthdose-android"]),
    ("android/Cargo.toml", &["hearthdose"]),
];

const MEMBERS: &[&str] = &["app", "ui", "core", "android", "tests"];

/// The package that `cargo run` starts in the workspace root.
const PROGRAM: (&str, &str) = ("app/Cargo.toml", "hearthdose");

pub fn check(tree: &Tree) -> Vec<Problem> {
    let mut problems = Vec::new();
    for member in MEMBERS {
        let path = format!("{member}/Cargo.toml");
        let Some(text) = tree.text(&path) else {
            problems.push(Problem::new(&path, 0, "is missing"));
            continue;
        };
        let manifest = match text.parse::<Table>() {
            Ok(manifest) => manifest,
            Err(cause) => {
                problems.push(Problem::new(&path, 0, cause.message()));
                continue;
            }
        };
        let mut found = |needle: &str, why: String| {
            problems.push(Problem::new(&path, line_of(text, needle), why));
        };
        let forbidden = FORBIDDEN.iter().find(|(name, _)| *name == path);
        for name in dependencies(&manifest) {
            if forbidden.is_some_and(|(_, names)| names.contains(&name.as_str())) {
                found(&name, format!("{member} must not depend on {name}"));
            }
        }
        if look(&manifest, &["lints", "workspace"]) != Some(&Value::Boolean(true)) {
            found(
                "[lints]",
                "does not take the lints of the workspace".to_owned(),
            );
        }
        let default = look(&manifest, &["package", "default-run"]).and_then(Value::as_str);
        if path == PROGRAM.0 && default != Some(PROGRAM.1) {
            let why = format!(
                "needs default-run = \"{}\": with several programs in the workspace `cargo run` cannot choose",
                PROGRAM.1
            );
            found("[package]", why);
        } else if path != PROGRAM.0 && default.is_some() {
            found(
                "default-run",
                "only the app may name the program to run".to_owned(),
            );
        }
    }
    problems
}

/// Packages named in any dependency table, those of targets too.
fn dependencies(manifest: &Table) -> Vec<String> {
    let mut names = Vec::new();
    for (key, value) in manifest {
        let Value::Table(table) = value else {
            continue;
        };
        if key.ends_with("dependencies") {
            for (name, value) in table {
                let renamed = value.get("package").and_then(Value::as_str);
                names.push(renamed.unwrap_or(name).to_owned());
            }
        } else if key == "target" {
            let targets = table.values().filter_map(Value::as_table);
            names.extend(targets.flat_map(dependencies));
        }
    }
    names
}

fn look<'a>(manifest: &'a Table, path: &[&str]) -> Option<&'a Value> {
    let (first, rest) = path.split_first()?;
    let value = manifest.get(*first)?;
    if rest.is_empty() {
        return Some(value);
    }
    look(value.as_table()?, rest)
}

fn line_of(text: &str, needle: &str) -> usize {
    text.lines()
        .position(|line| line.trim_start().starts_with(needle))
        .map_or(0, |line| line + 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    const LINTS: &str = "[lints]\nworkspace = true\n";

    fn problems(changed: &str, text: &str) -> Vec<Problem> {
        let app = format!("[package]\ndefault-run = \"hearthdose\"\n{LINTS}");
        let mut files: Vec<(String, String)> = MEMBERS
            .iter()
            .map(|member| (format!("{member}/Cargo.toml"), LINTS.to_owned()))
            .collect();
        files[0].1 = app;
        for file in &mut files {
            if file.0 == changed {
                file.1 = text.to_owned();
            }
        }
        let files: Vec<_> = files
            .iter()
            .map(|(p, t)| (p.as_str(), t.as_str()))
            .collect();
        check(&Tree::of(&files))
    }

    #[test]
    fn sound_manifests_pass() {
        assert_eq!(problems("", ""), []);
    }

    #[test]
    fn a_dependency_the_wrong_way_is_caught_in_every_table() {
        for table in [
            "dependencies",
            "dev-dependencies",
            "target.'cfg(unix)'.dependencies",
        ] {
            let text = format!("{LINTS}[{table}]\nhearthdose-ui = {{ path = \"../ui\" }}\n");
            let found = problems("core/Cargo.toml", &text);
            assert_eq!(found.len(), 1, "{table}");
            assert_eq!(found[0].line, 4);
        }
        let text = format!("{LINTS}[dependencies]\nother = {{ package = \"slint\" }}\n");
        assert_eq!(problems("core/Cargo.toml", &text).len(), 1);
    }

    #[test]
    fn missing_lints_and_programs_are_caught() {
        assert_eq!(problems("ui/Cargo.toml", "[package]\n").len(), 1);
        assert_eq!(problems("app/Cargo.toml", LINTS).len(), 1);
        assert_eq!(problems("app/Cargo.toml", "not a manifest").len(), 1);
    }
}
