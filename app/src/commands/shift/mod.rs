//! `shift`: what one device of a site recorded, for another.

mod export;
mod key;
mod merge;
mod report;
mod source;

use std::path::PathBuf;

use crate::answer::{Answer, Stop};
use crate::arguments::site::Shift;

pub fn run(asked: &Shift, data: Option<PathBuf>) -> Result<Answer, Stop> {
    match asked {
        Shift::Export(asked) => export::run(asked, data),
        Shift::Merge(asked) => merge::run(asked, data),
    }
}
