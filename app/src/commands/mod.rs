//! The commands, one file each.

pub mod advice;
mod batch;
mod calendar;
mod code;
pub mod course;
mod dose;
mod forecast;
mod growth;
pub mod open;
mod order;
mod package;
mod plan;
mod print;
mod queue;
pub mod refusal;
mod shift;
mod site;
pub mod walk;

use std::path::PathBuf;

use crate::answer::{Answer, Stop};
use crate::arguments::Command;

/// Runs one command.
///
/// # Errors
/// Input that cannot be read, and refusals of the rules.
pub fn run(command: Command, data: Option<PathBuf>) -> Result<Answer, Stop> {
    match command {
        Command::Dose(asked) => dose::run(&asked),
        Command::Plan(asked) => plan::run(&asked),
        Command::Print(asked) => print::run(&asked, data),
        Command::Calendar(asked) => calendar::run(&asked, data),
        Command::Order(asked) => order::run(&asked),
        Command::Growth(asked) => growth::run(&asked),
        Command::Forecast(asked) => forecast::run(&asked),
        Command::Queue(asked) => queue::run(&asked),
        Command::Code(asked) => code::run(&asked, data),
        Command::Package(asked) => package::run(&asked),
        Command::Site(asked) => site::run(&asked, data),
        Command::Shift(asked) => shift::run(&asked, data),
        Command::Walk(asked) => walk::run(&asked),
        Command::Open(asked) => open::run(&asked, data),
    }
}
