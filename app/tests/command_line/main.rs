//! The program from outside: what goes in, what comes out, and the exit code.
//!
//! Expectations are worked out by hand or by arithmetic in the tests, from the order's printed lines; nothing of the program is called.
//! Everything that any run prints goes through the label rules of [`label`].
#![allow(clippy::unwrap_used, reason = "a test ends where something is missing")]

mod batch;
mod code;
mod course;
mod course_times;
mod dose;
mod dose_refused;
mod forecast;
mod growth;
mod hostile;
mod households;
mod label;
mod order;
mod package;
mod paper;
mod queue;
mod run;
mod site;
mod streams;
mod walk;
