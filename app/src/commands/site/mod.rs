//! `site`: what a dispensing site does, each thing with its own file.

mod demo;
mod enter;
mod forget;
mod key;
mod list;
mod lots;
mod name;
mod pin;
mod receive;
mod scanned;
mod serve;
mod shown;
mod totals;
mod which;
mod wishes;

use std::path::PathBuf;

use crate::answer::{Answer, Reason, Stop};
use crate::arguments::site::Site;

pub fn run(asked: &Site, data: Option<PathBuf>) -> Result<Answer, Stop> {
    match asked {
        Site::Receive(asked) => receive::run(asked, data),
        Site::Serve(asked) => serve::run(asked, data),
        Site::Totals(asked) => totals::run(asked, data),
        Site::Reconcile(asked) => lots::reconcile(asked, data),
        Site::Undo(asked) => lots::undo(asked, data),
        Site::Enter(asked) => enter::run(asked, data),
        Site::List(asked) => list::run(asked),
        Site::Recall(asked) => lots::recall(asked, data),
        Site::Name(asked) => name::run(asked, data),
        Site::Key(asked) => key::run(asked, data),
        Site::Pin(asked) => pin::run(asked, data),
        Site::Forget(asked) => forget::run(asked, data),
        Site::Demo(asked) => demo::run(asked),
    }
}

/// A refusal with one reason.
fn refused(code: &str, text: impl Into<String>) -> Stop {
    Stop::refused(vec![Reason::new(code, text)])
}

/// The reason a lead gave; without one nothing is done.
fn lead_reason(given: Option<&str>, what: &str) -> Result<String, Stop> {
    let given = given.map(str::trim).filter(|why| !why.is_empty());
    given.map(str::to_owned).ok_or_else(|| {
        refused(
            "lead-needed",
            format!("{what} is the lead's to decide: give the reason with --lead"),
        )
    })
}
