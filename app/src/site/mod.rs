//! A dispensing site on the command line: its record, and what is worked out from it.

pub mod guard;
pub mod record;
pub mod story;
