//! Which code is compiled for tests only.
//!
//! That is every file under a folder named `tests`, every item behind `#[cfg(test)]`
//! and every file that such an item (`#[cfg(test)] mod name;`) brings in.

use std::collections::BTreeSet;
use std::ops::Range;

use super::rust_text::RustText;
use super::tree::Tree;

/// Lines of one file that only tests compile, counted from 1.
#[derive(Debug, Default)]
pub struct TestLines {
    whole: bool,
    parts: Vec<Range<usize>>,
}

impl TestLines {
    pub fn of(path: &str, text: &RustText, files: &TestFiles) -> Self {
        let items = items(text);
        Self {
            whole: files.contains(path) || items.iter().any(|item| item.inner),
            parts: items.into_iter().map(|item| item.lines).collect(),
        }
    }

    pub fn contain(&self, line: usize) -> bool {
        self.whole || self.parts.iter().any(|part| part.contains(&line))
    }
}

/// Files that only tests compile.
#[derive(Debug, Default)]
pub struct TestFiles(BTreeSet<String>);

impl TestFiles {
    pub fn of(tree: &Tree) -> Self {
        let mut roots = BTreeSet::new();
        for (path, source) in tree.ending(".rs") {
            let text = RustText::new(source);
            for item in items(&text) {
                if let Some(module) = item.module {
                    roots.insert(stem_of_child(path, &module));
                }
                roots.extend(item.file.map(|file| beside(path, &file)));
            }
        }
        Self(roots)
    }

    pub fn contains(&self, path: &str) -> bool {
        if path.split('/').rev().skip(1).any(|part| part == "tests") {
            return true;
        }
        let Some(stem) = path.strip_suffix(".rs") else {
            return false;
        };
        self.0.iter().any(|root| {
            stem.strip_prefix(root.as_str())
                .is_some_and(|rest| rest.is_empty() || rest.starts_with('/'))
        })
    }
}

/// Path without ending of the module `name` declared in the file at `path`.
fn stem_of_child(path: &str, name: &str) -> String {
    let (folder, file) = path.rsplit_once('/').unwrap_or(("", path));
    match file {
        "mod.rs" | "lib.rs" | "main.rs" => format!("{folder}/{name}"),
        _ => format!("{folder}/{}/{name}", file.trim_end_matches(".rs")),
    }
}

/// Path without ending of the file that a `#[path]` in the file at `path` names.
fn beside(path: &str, file: &str) -> String {
    let folder = path.rsplit_once('/').map_or("", |(folder, _)| folder);
    let mut parts: Vec<&str> = folder.split('/').collect();
    for part in file.trim_end_matches(".rs").split('/') {
        match part {
            "." => {}
            ".." => {
                parts.pop();
            }
            _ => parts.push(part),
        }
    }
    parts.join("/")
}

#[derive(Debug)]
struct Item {
    lines: Range<usize>,
    /// The attribute stands for the whole file.
    inner: bool,
    /// Name of a module in another file.
    module: Option<String>,
    /// The file that `#[path]` names for it.
    file: Option<String>,
}

fn items(text: &RustText) -> Vec<Item> {
    let mut items = Vec::new();
    for word in text.words() {
        if !word.is("cfg") || !text.precedes(word.at, "[") || !text.follows(word.at + 3, "(") {
            continue;
        }
        let end = closing(text, word.at + 3);
        if !asks_for_test(&text.code[word.at + 4..end]) {
            continue;
        }
        let inner = text.precedes(word.at, "#![");
        let end = if inner {
            end
        } else {
            end_of_item(text, closing(text, word.at - 1) + 1)
        };
        let lines = word.line..word.line + count_lines(&text.code[word.at..end]) + 1;
        let (module, file) = outer_module(text, word.at, end);
        items.push(Item {
            lines,
            inner,
            module,
            file,
        });
    }
    items
}

fn count_lines(code: &[char]) -> usize {
    code.iter().filter(|&&letter| letter == '\n').count()
}

/// `test` somewhere in the condition, and not denied.
fn asks_for_test(condition: &[char]) -> bool {
    let condition: String = condition.iter().filter(|c| !c.is_whitespace()).collect();
    let mut parts = condition.split(['(', ')', ',']);
    parts.any(|part| part == "test") && !condition.contains("not(test")
}

/// Position of the bracket that closes the one at `open`, or the end of the code.
fn closing(text: &RustText, open: usize) -> usize {
    let mut depth = 0_usize;
    for (at, letter) in text.code.iter().enumerate().skip(open) {
        match letter {
            '(' | '[' | '{' => depth += 1,
            ')' | ']' | '}' => {
                depth = depth.saturating_sub(1);
                if depth == 0 {
                    return at;
                }
            }
            _ => {}
        }
    }
    text.code.len()
}

/// Where the item that begins at `at` ends: at its semicolon or behind its braces.
fn end_of_item(text: &RustText, at: usize) -> usize {
    let mut at = at;
    while let Some(letter) = text.code.get(at) {
        match letter {
            ';' => return at,
            '{' => return closing(text, at),
            '(' | '[' => at = closing(text, at) + 1,
            _ => at += 1,
        }
    }
    text.code.len()
}

fn outer_module(text: &RustText, from: usize, to: usize) -> (Option<String>, Option<String>) {
    if !text.follows(to, ";") {
        return (None, None);
    }
    let inside = |at: usize| (from..to).contains(&at);
    let words = text.words();
    let mut words = words
        .iter()
        .filter(|word| inside(word.at))
        .skip_while(|word| !word.is("mod"));
    let module = words.nth(1).map(|word| word.name());
    let file = text
        .strings
        .iter()
        .find(|string| inside(string.at) && module.is_some())
        .map(|string| string.text.clone());
    (module, file)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lines(source: &str) -> Vec<usize> {
        let text = RustText::new(source);
        let marks = TestLines::of("core/src/x.rs", &text, &TestFiles::default());
        (1..=source.lines().count())
            .filter(|&line| marks.contain(line))
            .collect()
    }

    #[test]
    fn marks_the_item_behind_the_attribute() {
        let source = "fn a() {}\n#[cfg(test)]\n#[allow(x)]\nmod tests {\n  fn b() {}\n}\nfn c() {}";
        assert_eq!(lines(source), [2, 3, 4, 5, 6]);
        assert_eq!(lines("#[cfg(test)]\nuse a::b;\nuse c::d;"), [1, 2]);
        assert_eq!(
            lines("#[cfg(all(test, unix))]\nfn a(x: [u8; 2]) {\n}\nuse c;"),
            [1, 2, 3]
        );
    }

    #[test]
    fn other_conditions_are_not_test_code() {
        assert!(lines("#[cfg(not(test))]\nuse a;\n#[cfg(feature = \"test\")]\nuse b;").is_empty());
        assert!(lines("#[cfg(testing)]\nuse a;").is_empty());
    }

    #[test]
    fn an_inner_attribute_marks_the_file() {
        assert_eq!(lines("#![cfg(test)]\nfn a() {}\nfn b() {}"), [1, 2, 3]);
    }

    #[test]
    fn follows_modules_into_their_files() {
        let tree = Tree::of(&[
            ("core/src/dose/mod.rs", "#[cfg(test)]\nmod tests;"),
            ("core/src/order/check.rs", "#[cfg(test)]\nmod cases;"),
            (
                "core/src/prep/mod.rs",
                "#[cfg(test)]\n#[path = \"../walk.rs\"]\nmod walk;",
            ),
        ]);
        let files = TestFiles::of(&tree);
        assert!(files.contains("core/src/dose/tests.rs"));
        assert!(files.contains("core/src/dose/tests/rows.rs"));
        assert!(files.contains("core/src/order/check/cases.rs"));
        assert!(files.contains("core/src/walk.rs"));
        assert!(files.contains("tests/tests/dose.rs"));
        assert!(files.contains("app/tests/cli.rs"));
        assert!(!files.contains("core/src/dose/tests_of_rows.rs"));
        assert!(!files.contains("core/src/order/cases.rs"));
    }
}
