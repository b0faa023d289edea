//! The words on screen: each is used, each that is used exists, and each language has them all.
//!
//! A string literal of the Rust sources of `ui` and `app` that equals a key uses it.
//! So does one with gaps or an open end, for every key that fits it:
//! `format!("hold-{code}")` and `"hold-"` use all keys that begin with `hold-`.
//! The first literal in a call of one of [`CALLS`] is always a key, or a pattern of keys, and must exist.

use std::collections::{BTreeMap, BTreeSet};

use super::Problem;
use super::fluent::Words;
use super::rust_text::{Piece, RustText, is_word};
use super::test_code::{TestFiles, TestLines};
use super::tree::Tree;

const FOLDER: &str = "ui/words/";
const FIRST: &str = "ui/words/en.ftl";
const SOURCES: &[&str] = &["ui/src/", "app/src/"];

/// Functions and methods that turn a key into words.
const CALLS: &[&str] = &["say", "say_with", "word", "words", "phrase", "message"];

pub fn check(tree: &Tree) -> Vec<Problem> {
    let mut languages = BTreeMap::new();
    let mut problems = Vec::new();
    for (path, text) in tree.ending(".ftl") {
        if path.starts_with(FOLDER) {
            let words = Words::read(path, text);
            problems.extend(words.problems.iter().cloned());
            languages.insert(path, words);
        }
    }
    let Some(first) = languages.get(FIRST) else {
        problems.push(Problem::new(FIRST, 0, "is missing, and the words with it"));
        return problems;
    };
    for (path, words) in &languages {
        problems.extend(references(path, words));
        if *path != FIRST {
            problems.extend(compare(path, words, first));
        }
    }
    problems.extend(uses(tree, first));
    problems
}

/// What a message takes in must be there.
fn references(path: &str, words: &Words) -> Vec<Problem> {
    let mut problems = Vec::new();
    for (key, message) in &words.messages {
        for name in &message.references {
            if !words.messages.contains_key(name) {
                let text = format!("{key} takes in {name}, which is not defined");
                problems.push(Problem::new(path, message.line, text));
            }
        }
    }
    problems
}

/// A translation has the same keys, and puts the same things into each.
fn compare(path: &str, words: &Words, first: &Words) -> Vec<Problem> {
    let mut problems = Vec::new();
    for (key, message) in &first.messages {
        match words.messages.get(key) {
            // Terms are a language's own affair.
            None if key.starts_with('-') => {}
            None => {
                let text = format!("{key} is missing ({FIRST}:{})", message.line);
                problems.push(Problem::new(path, 0, text));
            }
            Some(other) if other.variables != message.variables => {
                let (has, should) = (list(&other.variables), list(&message.variables));
                let text = format!("{key} shows {has}, and in English {should}");
                problems.push(Problem::new(path, other.line, text));
            }
            Some(_) => {}
        }
    }
    for (key, message) in &words.messages {
        if !key.starts_with('-') && !first.messages.contains_key(key) {
            let text = format!("{key} is not in {FIRST}");
            problems.push(Problem::new(path, message.line, text));
        }
    }
    problems
}

fn list(names: &BTreeSet<String>) -> String {
    if names.is_empty() {
        return "nothing".to_owned();
    }
    let names: Vec<_> = names.iter().map(|name| format!("${name}")).collect();
    names.join(" ")
}

fn uses(tree: &Tree, first: &Words) -> Vec<Problem> {
    let keys: BTreeSet<&str> = first.messages.keys().map(String::as_str).collect();
    let mut used: BTreeSet<&str> = first
        .messages
        .values()
        .flat_map(|message| message.references.iter().map(String::as_str))
        .collect();
    let mut problems = Vec::new();
    let files = TestFiles::of(tree);
    for (path, source) in tree.ending(".rs") {
        if !SOURCES.iter().any(|folder| path.starts_with(folder)) {
            continue;
        }
        let text = RustText::new(source);
        let tests = TestLines::of(path, &text, &files);
        for string in text.strings.iter().filter(|s| !tests.contain(s.line)) {
            let fitting: Vec<_> = keys.iter().filter(|key| fits(&string.text, key)).collect();
            if fitting.is_empty() && is_asked_for(&text, string) {
                let text = format!("\"{}\" is no key of {FIRST}", string.text);
                problems.push(Problem::new(path, string.line, text));
            }
            used.extend(fitting);
        }
    }
    for (key, message) in &first.messages {
        // An attribute belongs to its message; who uses one uses all.
        let owner = key.split('.').next().unwrap_or(key);
        if !used.contains(key.as_str()) && !used.contains(owner) {
            problems.push(Problem::new(
                FIRST,
                message.line,
                format!("{key} is not used"),
            ));
        }
    }
    problems
}

/// True when the literal is the first argument of a call that wants a key, also inside a `format!` or a borrow.
fn is_asked_for(text: &RustText, string: &Piece) -> bool {
    let before: String = text.code[..string.at].iter().collect();
    let mut before = before.trim_end().trim_end_matches('&').trim_end();
    if let Some(outer) = before.strip_suffix("format!(") {
        before = outer.trim_end().trim_end_matches('&').trim_end();
    }
    let Some(call) = before.strip_suffix('(') else {
        return false;
    };
    let name = call.rsplit(|letter| !is_word(letter)).next();
    let declared = call.trim_end_matches(is_word).trim_end().ends_with("fn");
    !declared && name.is_some_and(|name| CALLS.contains(&name))
}

/// True when the literal is this key, or a pattern with gaps or an open end that this key fills.
fn fits(literal: &str, key: &str) -> bool {
    let parts = parts_of(literal);
    let (Some(head), Some(tail)) = (parts.first(), parts.last()) else {
        return false;
    };
    if parts.len() == 1 && !head.ends_with('-') {
        return *head == key;
    }
    // A pattern needs a beginning of its own, or it would use everything.
    let is_start = head.len() > 1 && head.ends_with('-');
    if !is_start || !parts.iter().all(|part| part.chars().all(is_key)) {
        return false;
    }
    let Some(rest) = key.strip_prefix(head) else {
        return false;
    };
    if parts.len() == 1 || tail.is_empty() {
        return !rest.is_empty();
    }
    rest.len() > tail.len() && rest.ends_with(tail)
}

/// What stands before, between and after the gaps of a format string.
fn parts_of(literal: &str) -> Vec<&str> {
    let mut parts = Vec::new();
    let mut rest = literal;
    while let Some((head, tail)) = rest.split_once('{') {
        parts.push(head);
        rest = tail.split_once('}').map_or("", |(_, tail)| tail);
    }
    parts.push(rest);
    parts
}

fn is_key(letter: char) -> bool {
    letter.is_ascii_alphanumeric() || letter == '-' || letter == '_'
}

#[cfg(test)]
mod tests {
    use super::*;

    const EN: &str = "soak-title = Soak\nhold-young = Too young, { $name }\nhold-old = Old\n";
    const USER: &str = "fn f() { say(\"soak-title\"); say(&format!(\"hold-{code}\")); }";

    fn problems(files: &[(&str, &str)]) -> Vec<Problem> {
        check(&Tree::of(files))
    }

    fn one(files: &[(&str, &str)]) -> Problem {
        let mut found = problems(files);
        assert_eq!(found.len(), 1, "{found:?}");
        found.remove(0)
    }

    #[test]
    fn complete_words_pass() {
        let es = EN.replace("Soak", "Remojar");
        let es = ("ui/words/es.ftl", es.as_str());
        assert_eq!(problems(&[(FIRST, EN), es, ("ui/src/vm/a.rs", USER)]), []);
        let open = "const A: &str = \"hold-\"; const B: &str = \"soak-title\";";
        assert_eq!(problems(&[(FIRST, EN), ("ui/src/a.rs", open)]), []);
    }

    #[test]
    fn an_unused_key_is_caught() {
        let en = format!("{EN}extra = More\n");
        let found = one(&[(FIRST, &en), ("ui/src/a.rs", USER)]);
        assert_eq!((found.file.as_str(), found.line), (FIRST, 4));
    }

    #[test]
    fn use_in_tests_or_comments_is_none() {
        let source =
            format!("{USER}\n// \"extra\"\n#[cfg(test)]\nmod t {{ const A: &str = \"extra\"; }}");
        let en = format!("{EN}extra = More\n");
        one(&[(FIRST, &en), ("ui/src/a.rs", &source)]);
    }

    #[test]
    fn a_key_that_does_not_exist_is_caught() {
        for call in [
            "words.say(\"sok\")",
            "say(&format!(\"stop-{code}\"))",
            "self.say(\n\"sok\", x)",
        ] {
            let source = format!("{USER}\nfn g() {{ {call}; }}");
            let found = one(&[(FIRST, EN), ("ui/src/a.rs", &source)]);
            assert!(found.text.contains("is no key"), "{found}");
        }
        let source = format!("{USER}\nfn g() {{ open(\"sok\"); say(x, \"sok\"); }}");
        assert_eq!(problems(&[(FIRST, EN), ("ui/src/a.rs", &source)]), []);
    }

    #[test]
    fn an_incomplete_language_is_caught() {
        let user = ("ui/src/a.rs", USER);
        let es = EN.replace("soak-title = Soak\n", "");
        let found = one(&[(FIRST, EN), ("ui/words/es.ftl", &es), user]);
        assert!(found.text.contains("soak-title is missing"));
        let es = EN.replace("{ $name }", "");
        let found = one(&[(FIRST, EN), ("ui/words/es.ftl", &es), user]);
        assert!(found.text.contains("shows nothing"));
        let es = format!("{EN}otro = x\n");
        let found = one(&[(FIRST, EN), ("ui/words/es.ftl", &es), user]);
        assert_eq!(found.line, 4);
    }

    #[test]
    fn a_broken_reference_is_caught() {
        let en = EN.replace("= Soak", "= { soak-tilte }");
        let found = one(&[(FIRST, &en), ("ui/src/a.rs", USER)]);
        assert!(found.text.contains("soak-tilte"));
    }

    #[test]
    fn patterns_need_a_beginning() {
        assert!(fits("a-{x}-z", "a-b-z"));
        assert!(!fits("a-{x}-z", "a-b"));
        assert!(!fits("{x}", "a-b"));
        assert!(!fits("-", "a-b"));
        assert!(!fits("Row a-{x}", "a-b"));
        assert!(!fits("a{x}", "a-b"));
    }
}
