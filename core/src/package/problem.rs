//! What can be wrong with a package's code.

/// One thing wrong, with a stable code and a plain sentence.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    pub code: &'static str,
    pub text: String,
}

impl Problem {
    pub(super) fn new(code: &'static str, text: impl Into<String>) -> Problem {
        Problem {
            code,
            text: text.into(),
        }
    }
}

/// Every code; a code never changes its meaning.
pub const CODES: &[&str] = &[
    "empty",
    "not-gs1",
    "not-an-element",
    "unknown-identifier",
    "value-cut-short",
    "value-empty",
    "value-too-long",
    "value-not-digits",
    "character-not-allowed",
    "gtin-check-digit",
    "date-invalid",
    "time-invalid",
    "identifier-twice",
    "identifier-twice-differing",
    "expiry-differs",
    "gtin-missing",
    "separator-missing",
    "separator-perhaps-missing",
];
