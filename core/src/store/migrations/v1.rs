//! Version 1: facts, orders with their exact bytes, settings.
//!
//! Frozen. Numbers are the file's own and never used again; what travels between devices are the ids.
//! `digest` covers the other columns of its row, but never `number` (see `digest.rs`).

pub(super) const SQL: &str = "
CREATE TABLE fact (
    number INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL,
    id TEXT NOT NULL UNIQUE,          -- UUID, lower case with hyphens
    device TEXT NOT NULL,             -- UUID, likewise
    sequence INTEGER NOT NULL,        -- running number of the device, from 1
    millis INTEGER NOT NULL,          -- hybrid logical clock
    counter INTEGER NOT NULL,
    at TEXT NOT NULL,                 -- wall clock of the device, UTC
    body TEXT NOT NULL,               -- JSON: steady, zone, order, event
    digest BLOB NOT NULL,
    UNIQUE (device, sequence)
) STRICT;

CREATE INDEX fact_in_order ON fact (millis, counter, device, sequence);

CREATE TABLE order_file (
    number INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL,
    id TEXT NOT NULL,
    revision INTEGER NOT NULL,
    fingerprint BLOB NOT NULL UNIQUE, -- SHA-256 of bytes
    bytes BLOB NOT NULL,
    trusted INTEGER NOT NULL,         -- 0 or 1
    digest BLOB NOT NULL
) STRICT;

CREATE TABLE setting (
    number INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL, -- higher is later
    key TEXT NOT NULL UNIQUE,
    value TEXT NOT NULL,
    digest BLOB NOT NULL
) STRICT;
";
