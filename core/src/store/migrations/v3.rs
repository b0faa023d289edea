//! Version 3: a count stands at its place in the order of facts, a hand-out says whom it is for, a withdrawal why.
//!
//! Frozen. The last two are new fields of events; what changes here follows from the facts and is made anew from them.

pub(super) const SQL: &str = "
-- Packs that came in or went out, each at its place in the one order of all facts:
-- milliseconds, counter, device and number, so that the bytes sort as the facts do.
CREATE TABLE site_move (
    product TEXT NOT NULL,
    lot TEXT NOT NULL,
    place BLOB NOT NULL,
    packs INTEGER NOT NULL,           -- below zero for what went out
    PRIMARY KEY (product, lot, place)
) STRICT, WITHOUT ROWID;

CREATE TABLE site_count (
    product TEXT NOT NULL,
    lot TEXT NOT NULL,
    place BLOB NOT NULL,
    counted INTEGER NOT NULL,
    PRIMARY KEY (product, lot, place)
) STRICT, WITHOUT ROWID;

-- Packs of a lot that came back from a hand-out, each time that was said; the most of them counts.
DROP TABLE site_back;
CREATE TABLE site_back (
    product TEXT NOT NULL,
    lot TEXT NOT NULL,
    hand_out TEXT NOT NULL,
    place BLOB NOT NULL,
    packs INTEGER NOT NULL,
    PRIMARY KEY (product, lot, hand_out, place)
) STRICT, WITHOUT ROWID;

-- Codes of a home besides its newest, by what homes of the same people are compared.
CREATE TABLE site_older_code (
    home BLOB NOT NULL,
    shelf TEXT NOT NULL,
    mark TEXT NOT NULL,               -- JSON
    PRIMARY KEY (home, mark)
) STRICT, WITHOUT ROWID;

CREATE INDEX site_older_code_by_shelf ON site_older_code (shelf);

-- Hand-outs that count.
DROP TABLE site_hand_out;
CREATE TABLE site_hand_out (
    home BLOB NOT NULL,
    turn INTEGER NOT NULL,            -- from 0, in the one order of all facts
    at INTEGER NOT NULL,              -- seconds since 1970
    nanos INTEGER NOT NULL,
    people BLOB NOT NULL,             -- whom it was for, two bytes for each
    enough_until TEXT,
    lines TEXT NOT NULL,              -- JSON
    PRIMARY KEY (home, turn)
) STRICT, WITHOUT ROWID;

CREATE INDEX site_hand_out_by_time ON site_hand_out (at, nanos, people);
";
