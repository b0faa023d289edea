//! The desktop program: a window, and the same rules on the command line.
//!
//! Commands work out an [`answer::Answer`] or a reason to stop; only [`answer::finish`] prints and chooses the exit code.
#![forbid(unsafe_code)]

mod answer;
mod arguments;
#[cfg(target_os = "linux")]
mod camera;
mod commands;
mod input;
mod json;
mod parts;
mod paths;
mod progress;
mod site;
mod window;

use std::process::ExitCode;

use clap::Parser;

use arguments::CommandLine;

fn main() -> ExitCode {
    let CommandLine {
        json,
        data,
        command,
    } = CommandLine::parse();
    let result = match command {
        Some(command) => commands::run(command, data),
        None => commands::open::window(data),
    };
    answer::finish(result, json)
}
