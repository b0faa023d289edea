//! The words on screen: each language has them all, and puts the same things into each.
//!
//! What the code does with them is looked at in `word_uses`.

use std::collections::{BTreeMap, BTreeSet};

use super::Problem;
use super::fluent::{Message, Words};
use super::tree::Tree;
use super::word_forms;
use super::word_uses;

const FOLDER: &str = "ui/words/";
/// The language that all others follow.
pub const FIRST: &str = "ui/words/en.ftl";

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
        problems.extend(word_forms::check(path, words, first));
        problems.extend(idle_terms(path, words));
        if *path != FIRST {
            problems.extend(compare(path, words, first));
        }
    }
    let others: Vec<&Words> = languages.values().collect();
    problems.extend(word_uses::check(tree, first, &others));
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

/// A term is a language's own; where no message of it takes the term in, it is said nowhere.
fn idle_terms(path: &str, words: &Words) -> Vec<Problem> {
    let taken = |key: &str| {
        words
            .messages
            .values()
            .any(|message| message.references.contains(key))
    };
    let terms = words
        .messages
        .iter()
        .filter(|(key, _)| key.starts_with('-'));
    terms
        .filter(|(key, _)| !taken(key) && path != FIRST)
        .map(|(key, term)| Problem::new(path, term.line, format!("{key} is not used")))
        .collect()
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
            Some(other) if stems(other) != stems(message) => {
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

/// Names of what is put in, without a number at their end:
/// `$hour` and `$hour24` are one thing in two spellings, of which a language takes its own.
fn stems(message: &Message) -> BTreeSet<&str> {
    let digit = |letter: char| letter.is_ascii_digit();
    let names = message.variables.iter();
    names.map(|name| name.trim_end_matches(digit)).collect()
}

/// `$a $b` for a sentence.
pub fn list(names: &BTreeSet<String>) -> String {
    if names.is_empty() {
        return "nothing".to_owned();
    }
    let names: Vec<_> = names.iter().map(|name| format!("${name}")).collect();
    names.join(" ")
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
    fn an_incomplete_language_is_caught() {
        let user = ("ui/src/a.rs", USER);
        let es = EN.replace("soak-title = Soak\n", "");
        let found = one(&[(FIRST, EN), ("ui/words/es.ftl", &es), user]);
        assert!(found.text.contains("soak-title is missing"));
        let es = EN.replace("{ $name }", "");
        let found = one(&[(FIRST, EN), ("ui/words/es.ftl", &es), user]);
        assert!(found.text.contains("shows nothing"));
        let es = EN.replace("$name", "$name2");
        assert_eq!(problems(&[(FIRST, EN), ("ui/words/es.ftl", &es), user]), []);
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
}
