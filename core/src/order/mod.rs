//! The order: what the authority issued, read from its file, checked, compared and named by its fingerprint.

pub mod check;
pub mod fingerprint;
pub mod joint;
pub mod model;
pub mod parse;
pub mod problem;

pub use check::{CheckedOrder, check, check_bytes, check_with};
pub use fingerprint::Fingerprint;
pub use model::*;
pub use parse::parse;
pub use problem::{Problem, Severity};
