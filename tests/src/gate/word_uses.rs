//! What the code does with the words: each message is used, each that is asked for exists, with all it shows.
//!
//! A string literal of the Rust sources of `ui` and `app` that equals a key uses it.
//! So does one with gaps or an open end, for every key that fits it:
//! `format!("hold-{code}")` and `"hold-"` use all keys that begin with `hold-`.
//! In `ui`, the first literal in a call of one of [`CALLS`] must exist, and so must what `let key = …;` chooses.
//! Where such a call lists its values, everything that the message shows must be among them.

use std::collections::BTreeSet;

use super::Problem;
use super::fluent::{Message, Words};
use super::rust_text::{Piece, RustText, is_word};
use super::test_code::{TestFiles, TestLines};
use super::tree::Tree;
use super::words::{FIRST, list};

const SCREENS: &str = "ui/src/";
const SOURCES: &[&str] = &[SCREENS, "app/src/"];

/// Functions and methods that turn a key into words; the values of the second are its second argument.
const CALLS: &[&str] = &["say", "say_with"];

pub fn check(tree: &Tree, first: &Words, all: &[&Words]) -> Vec<Problem> {
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
        let closures = closures_of_keys(source);
        for string in text.strings.iter().filter(|s| !tests.contain(s.line)) {
            let fitting: Vec<_> = keys.iter().filter(|key| fits(&string.text, key)).collect();
            // Elsewhere a function of that name may say anything.
            let call = call_of(&text, string.at).filter(|_| path.starts_with(SCREENS));
            let asked = call.is_some()
                || names_a_key(&text, string)
                || path.starts_with(SCREENS) && given_to(&text, string.at, &closures);
            if fitting.is_empty() && asked {
                let why = format!("\"{}\" is no key of {FIRST}", string.text);
                problems.push(Problem::new(path, string.line, why));
            }
            if let (Some(open), Some(message)) = (call, first.messages.get(&string.text)) {
                let given = given(&text, open);
                let shown = |name: &str| {
                    let mut said = all
                        .iter()
                        .filter_map(|words| words.messages.get(&string.text));
                    said.any(|message| message.variables.contains(name))
                };
                let idle = idle(&given, shown);
                problems.extend(compare(message, &given).into_iter().chain(idle).map(|why| {
                    Problem::new(path, string.line, format!("\"{}\" {why}", string.text))
                }));
            }
            used.extend(fitting);
        }
    }
    for (key, message) in &first.messages {
        if !used.contains(key.as_str()) {
            problems.push(Problem::new(
                FIRST,
                message.line,
                format!("{key} is not used"),
            ));
        }
    }
    problems
}

/// Position of the bracket of the call that takes what stands at `at` for a key, also inside a `format!` or a borrow.
fn call_of(text: &RustText, at: usize) -> Option<usize> {
    let before: String = text.code.get(..at)?.iter().collect();
    let mut before = before.trim_end().trim_end_matches('&').trim_end();
    if let Some(outer) = before.strip_suffix("format!(") {
        before = outer.trim_end().trim_end_matches('&').trim_end();
    }
    let call = before.strip_suffix('(')?;
    let name = call.rsplit(|letter| !is_word(letter)).next()?;
    let declared = call.trim_end_matches(is_word).trim_end().ends_with("fn");
    (!declared && CALLS.contains(&name)).then(|| call.chars().count())
}

/// Names of closures whose first argument is a key: `let named = |key: &str| …`.
fn closures_of_keys(source: &str) -> BTreeSet<String> {
    let heads = source.split("|key: &str").collect::<Vec<_>>();
    let before = heads.split_last().map_or(&[][..], |(_, before)| before);
    let names = before.iter().filter_map(|head| {
        let head = head.trim_end().strip_suffix('=')?.trim_end();
        head.rsplit(|letter| !is_word(letter)).next()
    });
    names.map(str::to_owned).collect()
}

/// Whether what stands at `at` is the first argument of one of these closures.
fn given_to(text: &RustText, at: usize, closures: &BTreeSet<String>) -> bool {
    let before: String = text.code.iter().take(at).collect();
    let call = before.trim_end().strip_suffix('(');
    let name = call.and_then(|call| call.rsplit(|letter| !is_word(letter)).next());
    name.is_some_and(|name| closures.contains(name))
}

/// True for a literal that a statement `let key = …;` may choose.
fn names_a_key(text: &RustText, string: &Piece) -> bool {
    let before: String = text.code[..string.at].iter().collect();
    let statement = before.rfind("let key = ").and_then(|at| before.get(at..));
    let Some(statement) = statement.filter(|statement| !statement.contains(';')) else {
        return false;
    };
    // Behind an arrow or an opening brace stands a value; before an arrow, what is looked at.
    let statement = statement.trim_end();
    let behind = statement.ends_with("=>") || statement.ends_with('{');
    let quote = text.code.iter().skip(string.at + 1).position(|c| *c == '"');
    let after = text.skip_space(string.at + quote.unwrap_or(0) + 2);
    let looked_at = ["=>", "|", "if "]
        .iter()
        .any(|mark| text.follows(after, mark));
    !string.text.is_empty() && string.text.chars().all(is_key) && behind && !looked_at
}

/// What a call puts into a sentence.
enum Given {
    Names(BTreeSet<String>),
    /// The values come from elsewhere.
    Unknown,
}

/// Reads `&[("a", …), ("b", …)]` in the call whose bracket opens at `open`.
fn given(text: &RustText, open: usize) -> Given {
    let mut names = BTreeSet::new();
    let (mut nesting, mut commas, mut listed) = (String::new(), 0, false);
    let mut last = ' ';
    for (at, letter) in text.code.iter().enumerate().skip(open) {
        match letter {
            '(' | '[' | '{' => nesting.push(*letter),
            ')' | ']' | '}' => {
                nesting.pop();
                if nesting.is_empty() {
                    break;
                }
            }
            ',' if nesting == "(" => commas += 1,
            _ => {}
        }
        listed |= nesting == "([";
        let string = text.strings.iter().find(|string| string.at == at);
        if let Some(name) = string.filter(|_| nesting == "([(" && last == '(') {
            names.insert(name.text.clone());
        }
        if !letter.is_whitespace() {
            last = *letter;
        }
    }
    match (listed, commas) {
        (true, _) | (false, 0) => Given::Names(names),
        _ => Given::Unknown,
    }
}

fn compare(message: &Message, given: &Given) -> Option<String> {
    let Given::Names(names) = given else {
        return None;
    };
    let missing: BTreeSet<String> = message.variables.difference(names).cloned().collect();
    (!missing.is_empty()).then(|| format!("shows {}, which the call does not give", list(&missing)))
}

/// What is given and shown in no language.
fn idle(given: &Given, shown: impl Fn(&str) -> bool) -> Option<String> {
    let Given::Names(names) = given else {
        return None;
    };
    let idle: BTreeSet<String> = names.iter().filter(|name| !shown(name)).cloned().collect();
    (!idle.is_empty()).then(|| format!("is given {}, which it shows in no language", list(&idle)))
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
    use super::super::words::check;
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
        let source = format!("{USER}\nfn g() {{ say(\"Some sentence\"); }}");
        assert_eq!(problems(&[(FIRST, EN), ("app/src/a.rs", &source)]), []);
    }

    #[test]
    fn a_chosen_key_that_does_not_exist_is_caught() {
        for choice in [
            "if a { \"sok\" } else { \"hold-old\" };",
            "match a {\n 1 => \"hold-old\",\n _ => \"sok\" };",
        ] {
            let source = format!("{USER}\nfn g() {{ let key = {choice} }}");
            let found = one(&[(FIRST, EN), ("ui/src/a.rs", &source)]);
            assert!(found.text.contains("sok"), "{found}");
            let source = source.replace("let key", "let id");
            assert_eq!(problems(&[(FIRST, EN), ("ui/src/a.rs", &source)]), []);
        }
        let looked_at = "let key = match a { \"sok\" => \"hold-old\" }; open(\"sok\");";
        let source = format!("{USER}\nfn g() {{ {looked_at} }}");
        assert_eq!(problems(&[(FIRST, EN), ("ui/src/a.rs", &source)]), []);
    }

    #[test]
    fn a_value_that_is_not_given_is_caught() {
        for call in [
            "say(\"hold-young\")",
            "say_with(\"hold-young\", &[])",
            "say_with(\"hold-young\", &[(\"nam\", x.into())])",
            "say_with(\"hold-young\", &[(\"nam\", say_with(\"hold-old\", &[(\"name\", 1)]))])",
        ] {
            let source = format!("{USER}\nfn g() {{ {call}; }}");
            let found = problems(&[(FIRST, EN), ("ui/src/a.rs", &source)]);
            let first = found.first().expect("a problem");
            assert!(first.text.contains("$name"), "{first}");
        }
        for call in [
            "say_with(\"hold-young\", &[(\"name\", x.into())])",
            "say_with(\n\"hold-young\",\n&[\n(\n\"name\",\nx,\n),\n],\n)",
            "say_with(\"hold-young\", &values)",
        ] {
            let source = format!("{USER}\nfn g() {{ {call}; }}");
            assert_eq!(problems(&[(FIRST, EN), ("ui/src/a.rs", &source)]), []);
        }
    }

    #[test]
    fn a_value_that_is_never_shown_is_caught() {
        let call = "say_with(\"hold-young\", &[(\"name\", x), (\"more\", y)])";
        let source = format!("{USER}\nfn g() {{ {call}; }}");
        let found = one(&[(FIRST, EN), ("ui/src/a.rs", &source)]);
        assert!(found.text.contains("$more"), "{found}");
        // Another language may need it.
        let es = EN.replace("$name }", "$name } { $name24 }");
        let source = source.replace("more", "name24");
        let files = [
            (FIRST, EN),
            ("ui/words/es.ftl", &*es),
            ("ui/src/a.rs", &*source),
        ];
        assert_eq!(problems(&files), []);
    }

    #[test]
    fn an_attribute_of_a_used_message_is_not_used_by_that() {
        let en = EN.replace("= Soak", "= Soak\n    .short = Soft");
        let found = one(&[(FIRST, &en), ("ui/src/a.rs", USER)]);
        assert!(
            found.text.contains("soak-title.short is not used"),
            "{found}"
        );
    }

    /// A closure that is given a key is asked as `say` is.
    #[test]
    fn a_key_for_a_closure_that_does_not_exist_is_caught() {
        let source = format!(
            "{USER}\nfn g() {{ let named = |key: &str| say(key); named(\"sok\"); named(\"soak-title\"); }}"
        );
        let found = one(&[(FIRST, EN), ("ui/src/a.rs", &source)]);
        assert!(found.text.contains("\"sok\" is no key"), "{found}");
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
