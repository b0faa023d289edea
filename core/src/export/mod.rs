//! What leaves the program for others to read: the rounds as a calendar.
//!
//! Papers are made where the words are, in `ui::paper`; here is only what needs none of its own.

pub mod calendar;
