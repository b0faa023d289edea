//! The order: what the authority issued, read from its file, checked, compared and named by its fingerprint.
//!
//! ```text
//! bytes ── parse ──► Order ── CheckedOrder::new ──► CheckedOrder ──► screening, dose, …
//!   └───── check_bytes ──► every Problem, also of a file that cannot be read completely
//! ```
//!
//! [`parse`] keeps to the file, [`check`] to what it means; both list everything they find.
//! Every code is in [`CODES`]; a code never changes its meaning.

pub mod check;
pub mod codes;
pub mod compare;
pub mod fingerprint;
pub mod joint;
pub mod model;
pub mod notice;
pub mod parse;
pub mod problem;
pub mod supply;

pub use check::{CheckedOrder, check, check_bytes, check_with};
pub use codes::CODES;
pub use compare::{Change, compare};
pub use fingerprint::Fingerprint;
pub use model::*;
pub use notice::{Notice, check_notice, check_notice_with, parse_notice};
pub use parse::parse;
pub use problem::{Problem, Severity};
pub use supply::{Gtin, HandOut, Ndc, SealingKey};
