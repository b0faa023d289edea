//! The desktop program: a window, and the same rules on the command line.
//!
//! Commands work out an [`answer::Answer`] or a reason to stop; only [`answer::finish`] prints and chooses the exit code.
#![forbid(unsafe_code)]

mod answer;
mod arguments;
mod clock;
mod commands;
mod input;
mod json;
mod paths;
mod progress;
mod window;

use std::path::PathBuf;
use std::process::ExitCode;

use clap::Parser;
use serde::Serialize;

use answer::{Answer, Exit, Stop};
use arguments::{CommandLine, Walk};

/// Where the pictures go when there is no display for the window.
const WITHOUT_DISPLAY: &str = "hearthdose-walk";

fn main() -> ExitCode {
    let CommandLine {
        json,
        data,
        command,
    } = CommandLine::parse();
    let result = match command {
        Some(command) => commands::run(command),
        None => open_window(data),
    };
    answer::finish(result, json)
}

fn open_window(data: Option<PathBuf>) -> Result<Answer, Stop> {
    if !window::has_display() {
        answer::say(&format!(
            "there is no display for a window; drawing a whole round into {WITHOUT_DISPLAY} instead"
        ));
        return commands::walk::run(&Walk::to(WITHOUT_DISPLAY));
    }
    let folder = paths::data_folder(data).ok_or_else(|| {
        Stop::unusable("no folder for orders and records is known: give one with --data")
    })?;
    window::run(window::kitchen(folder))
        .map_err(|error| Stop::unusable(format!("no window opened: {error}")))?;
    Answer::new(Exit::Done, &Closed { outcome: "closed" }, String::new())
}

/// All there is to say in JSON about a window that was closed.
#[derive(Serialize)]
struct Closed {
    outcome: &'static str,
}
