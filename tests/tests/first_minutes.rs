//! The first minutes: a language by its own name, and Back that loses nothing.

#[path = "first_minutes/back.rs"]
mod back;
#[path = "first_minutes/languages.rs"]
mod languages;
