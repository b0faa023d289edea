//! The checks of the gate.
//!
//! Each check takes the whole tree and returns every problem it finds, never only the first.
//! Each has tests that plant a fault and see it caught, and see a sound tree pass.

pub mod arrows;
pub mod banned;
pub mod fluent;
pub mod layout;
pub mod manifests;
pub mod names;
pub mod phones;
pub mod promises;
pub mod rust_text;
pub mod screens;
pub mod sizes;
pub mod test_code;
pub mod tree;
pub mod word_forms;
pub mod word_uses;
pub mod words;

use std::fmt;

/// One thing that must be put right.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Problem {
    pub file: String,
    /// Counted from 1; 0 stands for the file as a whole.
    pub line: usize,
    pub text: String,
}

impl Problem {
    pub fn new(file: &str, line: usize, text: impl Into<String>) -> Self {
        Self {
            file: file.to_owned(),
            line,
            text: text.into(),
        }
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{}:{}: {}", self.file, self.line.max(1), self.text)
    }
}

/// A check and the name it reports under.
pub type Check = fn(&tree::Tree) -> Vec<Problem>;

/// Everything the gate looks at, in the order of its report.
pub const CHECKS: &[(&str, Check)] = &[
    ("layout", layout::check),
    ("manifests", manifests::check),
    ("arrows", arrows::check),
    ("names", names::check),
    ("sizes", sizes::check),
    ("promises", promises::check),
    ("words", words::check),
    ("banned", banned::check),
    ("phones", phones::check),
    ("screens", screens::check),
];
