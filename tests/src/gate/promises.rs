//! Each promise of DEVELOPERS.md is claimed by a test, and each claim is of a promise.
//!
//! A promise is a line that begins with its number: `- **P7** No dose without …`.
//! A test claims it by a comment: `// promise: P7`, or several: `// promise: P7, P9`.

use std::collections::{BTreeMap, BTreeSet};

use super::Problem;
use super::rust_text::RustText;
use super::test_code::{TestFiles, TestLines};
use super::tree::Tree;

const PAGE: &str = "DEVELOPERS.md";
const MARK: &str = "promise:";

pub fn check(tree: &Tree) -> Vec<Problem> {
    let Some(page) = tree.text(PAGE) else {
        return vec![Problem::new(
            PAGE,
            0,
            "is missing, and the promises with it",
        )];
    };
    let mut problems = Vec::new();
    let mut promises = BTreeMap::new();
    for (line, text) in (1..).zip(page.lines()) {
        let Some(number) = promise_of(text) else {
            continue;
        };
        if let Some(first) = promises.insert(number, line) {
            let text = format!("P{number} is also the number of line {first}");
            problems.push(Problem::new(PAGE, line, text));
        }
    }
    if promises.is_empty() {
        problems.push(Problem::new(PAGE, 0, "holds no promise"));
    }
    let mut claimed = BTreeSet::new();
    let files = TestFiles::of(tree);
    for (path, source) in tree.ending(".rs") {
        let text = RustText::new(source);
        let tests = TestLines::of(path, &text, &files);
        for comment in &text.comments {
            let Some(claims) = comment.text.strip_prefix(MARK) else {
                continue;
            };
            let mut found = |why: String| problems.push(Problem::new(path, comment.line, why));
            if !tests.contain(comment.line) || !has_test(&text) {
                found("claims a promise where no test is".to_owned());
                continue;
            }
            for claim in claims.split(',').map(str::trim) {
                let number = claim.strip_prefix('P').and_then(|n| n.parse().ok());
                match number {
                    Some(number) if promises.contains_key(&number) => {
                        claimed.insert(number);
                    }
                    Some(number) => found(format!("claims P{number}, which {PAGE} does not hold")),
                    None => found(format!("\"{claim}\" is no number of a promise")),
                }
            }
        }
    }
    for (number, line) in &promises {
        if !claimed.contains(number) {
            problems.push(Problem::new(
                PAGE,
                *line,
                format!("no test claims P{number}"),
            ));
        }
    }
    problems
}

/// The number at the head of a line, with or without a list mark and stars.
fn promise_of(line: &str) -> Option<u32> {
    let line = line.trim_start();
    let line = line.strip_prefix(['-', '*']).map_or(line, str::trim_start);
    let digits = line.trim_start_matches('*').strip_prefix('P')?;
    let end = digits
        .find(|letter: char| !letter.is_ascii_digit())
        .unwrap_or(digits.len());
    let rest = digits.get(end..).unwrap_or_default();
    let ends_there = !rest.starts_with(|letter: char| letter.is_alphanumeric());
    digits.get(..end)?.parse().ok().filter(|_| ends_there)
}

/// True for `#[test]` and the like of it (`#[rstest]`, a `proptest!` block holds its own `#[test]`).
fn has_test(text: &RustText) -> bool {
    text.words()
        .iter()
        .any(|word| word.is("test") && text.precedes(word.at, "#["))
}

#[cfg(test)]
mod tests {
    use super::*;

    const CLAIM: &str = "// promise: P1, P2\n#[test]\nfn a() {}\n";

    fn problems(page: &str, path: &str, source: &str) -> Vec<Problem> {
        check(&Tree::of(&[(PAGE, page), (path, source)]))
    }

    #[test]
    fn claimed_promises_pass() {
        let page = "# Promises\n\n- **P1** One.\nP2: two.\nPlan of the house, P3 in a text\nP4x\n";
        assert_eq!(problems(page, "tests/tests/a.rs", CLAIM), []);
        let source = format!("#[cfg(test)]\nmod tests {{\n{CLAIM}}}\n");
        assert_eq!(problems(page, "core/src/dose/mod.rs", &source), []);
    }

    #[test]
    fn a_promise_without_a_test_is_caught() {
        let found = problems("P1\nP2\n* **P10** x", "tests/tests/a.rs", CLAIM);
        assert_eq!(found.len(), 1);
        assert_eq!((found[0].line, found[0].file.as_str()), (3, PAGE));
        assert!(found[0].text.contains("P10"));
    }

    #[test]
    fn a_claim_of_nothing_is_caught() {
        let found = problems("- P1 x", "tests/tests/a.rs", CLAIM);
        assert_eq!(found.len(), 1);
        assert_eq!(
            (found[0].line, found[0].file.as_str()),
            (1, "tests/tests/a.rs")
        );
        let source = CLAIM.replace("P2", "seven");
        assert_eq!(problems("- P1 x", "tests/tests/a.rs", &source).len(), 1);
    }

    #[test]
    fn a_claim_outside_tests_does_not_count() {
        assert_eq!(problems("P1\nP2", "core/src/dose/mod.rs", CLAIM).len(), 3);
        let source = "// promise: P1, P2\nfn a() {}";
        assert_eq!(problems("P1\nP2", "tests/src/lib.rs", source).len(), 3);
        let source = "#[test]\nfn a() { \"// promise: P1\"; }";
        assert_eq!(problems("P1", "tests/tests/a.rs", source).len(), 1);
    }

    #[test]
    fn twice_the_same_number_is_caught() {
        assert_eq!(problems("P1\nP2\nP1", "tests/tests/a.rs", CLAIM).len(), 1);
        assert_eq!(problems("none", "tests/tests/a.rs", "").len(), 1);
        assert_eq!(check(&Tree::of(&[("a.rs", "")])).len(), 1);
    }
}
