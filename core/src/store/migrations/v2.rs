//! Version 2: events of a dispensing site, and what a site asks of many homes at once.
//!
//! Frozen. Everything in these tables follows from the facts and can be made anew from them; so no row has a digest.

pub(super) const SQL: &str = "
-- Which facts are about a home, corrections of them included.
CREATE TABLE site_fact (
    home BLOB NOT NULL,               -- 8 bytes
    fact INTEGER NOT NULL,            -- number of the fact
    PRIMARY KEY (home, fact)
) STRICT, WITHOUT ROWID;

CREATE INDEX site_fact_by_number ON site_fact (fact);

-- Corrections whose target has not arrived.
CREATE TABLE site_waiting (
    target TEXT NOT NULL,             -- id of a fact
    fact INTEGER NOT NULL,
    PRIMARY KEY (target, fact)
) STRICT, WITHOUT ROWID;

-- Sums of movements, in packs.
CREATE TABLE site_lot (
    product TEXT NOT NULL,
    lot TEXT NOT NULL,
    expiry TEXT,
    each INTEGER NOT NULL,
    received INTEGER NOT NULL,
    out INTEGER NOT NULL,
    back INTEGER NOT NULL,
    counted INTEGER NOT NULL,
    unlike INTEGER NOT NULL,          -- 0 or 1
    PRIMARY KEY (product, lot)
) STRICT, WITHOUT ROWID;

-- The most packs of a lot that came back from a hand-out, however often that was said.
CREATE TABLE site_back (
    hand_out TEXT NOT NULL,
    product TEXT NOT NULL,
    lot TEXT NOT NULL,
    packs INTEGER NOT NULL,
    PRIMARY KEY (hand_out, product, lot)
) STRICT, WITHOUT ROWID;

-- One line for each home.
CREATE TABLE site_home (
    home BLOB PRIMARY KEY NOT NULL,
    words TEXT,
    seen INTEGER,                     -- when its newest code was read, in seconds since 1970
    people INTEGER NOT NULL,
    shelf TEXT,                       -- under which homes of the same people stand
    served INTEGER,                   -- the last hand-out
    hand_outs INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE INDEX site_home_by_shelf ON site_home (shelf) WHERE shelf IS NOT NULL;
CREATE INDEX site_home_unserved ON site_home (seen) WHERE served IS NULL AND seen IS NOT NULL;

-- Hand-outs that count, and what went out with them.
CREATE TABLE site_hand_out (
    id TEXT PRIMARY KEY NOT NULL,     -- of the fact
    home BLOB NOT NULL,
    at INTEGER NOT NULL,              -- seconds since 1970
    people INTEGER NOT NULL,
    lines TEXT NOT NULL               -- JSON
) STRICT, WITHOUT ROWID;

CREATE INDEX site_hand_out_by_home ON site_hand_out (home);
CREATE INDEX site_hand_out_by_time ON site_hand_out (at);

CREATE TABLE site_hand_out_lot (
    lot TEXT NOT NULL,
    product TEXT NOT NULL,
    home BLOB NOT NULL,
    id TEXT NOT NULL,
    PRIMARY KEY (lot, product, home, id)
) STRICT, WITHOUT ROWID;

CREATE INDEX site_hand_out_lot_by_home ON site_hand_out_lot (home);

-- Homes that were forgotten, and since when: what is older is not stored again.
CREATE TABLE site_erased (
    home BLOB PRIMARY KEY NOT NULL,
    millis INTEGER NOT NULL,
    counter INTEGER NOT NULL,
    device TEXT NOT NULL,
    sequence INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
";
