//! What can be wrong with an order, as values: a code that never changes, a place in the file, one plain sentence.

use serde::Serialize;

/// Whether a problem keeps an order from being signed and used.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// The order cannot be signed or used.
    Error,
    /// Somebody should look at it; the order can be used.
    Warning,
}

/// One thing found in an order or a notice.
///
/// Serialised as the command line prints it: `code`, `where`, `text`.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Problem {
    /// Stable kebab-case name; the table is in [`super`].
    pub code: &'static str,
    /// Where in the file: `row 3`, `medicine.lightest`, `recipe.vehicle 2`; empty for the file as a whole.
    #[serde(rename = "where")]
    pub place: String,
    /// One plain sentence in English, for the command line and the desk.
    pub text: String,
    #[serde(skip)]
    pub severity: Severity,
}

impl Problem {
    pub fn error(code: &'static str, place: impl Into<String>, text: impl Into<String>) -> Problem {
        Problem {
            code,
            place: place.into(),
            text: text.into(),
            severity: Severity::Error,
        }
    }

    pub fn warning(
        code: &'static str,
        place: impl Into<String>,
        text: impl Into<String>,
    ) -> Problem {
        Problem {
            severity: Severity::Warning,
            ..Problem::error(code, place, text)
        }
    }

    pub fn is_error(&self) -> bool {
        self.severity == Severity::Error
    }
}

impl std::fmt::Display for Problem {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        if self.place.is_empty() {
            write!(f, "{}: {}", self.code, self.text)
        } else {
            write!(f, "{} at {}: {}", self.code, self.place, self.text)
        }
    }
}
