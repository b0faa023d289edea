//! SQLite store.
