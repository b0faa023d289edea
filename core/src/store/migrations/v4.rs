//! Version 4: a correction says why, a weighing who wrote it down, a package is read once more, and a home how much of it is to be settled.
//!
//! Frozen. The first three are new fields and a new kind of event; the column follows from the facts and is made anew from them.

pub(super) const SQL: &str = "
ALTER TABLE site_home ADD COLUMN to_settle INTEGER NOT NULL DEFAULT 0;

CREATE INDEX site_home_to_settle ON site_home (home) WHERE to_settle > 0;
";
