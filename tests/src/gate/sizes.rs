//! A file holds one idea, and one idea is short.

use super::Problem;
use super::tree::Tree;

/// Ending of the files and the most lines one of them may have.
const MOST_LINES: &[(&str, usize)] = &[(".rs", 500), (".slint", 300)];

pub fn check(tree: &Tree) -> Vec<Problem> {
    let mut problems = Vec::new();
    for &(ending, most) in MOST_LINES {
        for (path, text) in tree.ending(ending) {
            let lines = text.lines().count();
            if lines > most {
                let text = format!("{lines} lines, at most {most} are allowed: split it");
                problems.push(Problem::new(path, most + 1, text));
            }
        }
    }
    problems
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_files_are_caught_at_their_limit() {
        let (rust, slint) = ("x\n".repeat(500), "x\n".repeat(300));
        let tree = Tree::of(&[("a.rs", &rust), ("b.slint", &slint), ("c.md", &rust)]);
        assert_eq!(check(&tree), []);

        let (rust, slint) = (format!("{rust}x"), format!("{slint}x\n"));
        let problems = check(&Tree::of(&[("a.rs", &rust), ("b.slint", &slint)]));
        assert_eq!(problems.len(), 2);
        assert_eq!((problems[0].file.as_str(), problems[0].line), ("a.rs", 501));
        assert_eq!(problems[1].file, "b.slint");
    }
}
