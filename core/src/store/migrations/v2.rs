//! Version 2: events of a dispensing site, and what a site asks of many homes at once.
//!
//! Frozen. All but `site_forgotten` follows from the facts and can be made anew from them; so no row has a digest.
//! `site_forgotten` names facts that are gone, and says nothing about them.

pub(super) const SQL: &str = "
-- How far these tables have followed the facts.
CREATE TABLE site_progress (
    one INTEGER PRIMARY KEY NOT NULL CHECK (one = 1),
    reading INTEGER NOT NULL,         -- which reading of the facts filled them; 0 for none yet
    fact INTEGER NOT NULL             -- the last number that is in
) STRICT;

INSERT INTO site_progress (one, reading, fact) VALUES (1, 0, 0);

-- Which facts are about a home, corrections of them included.
CREATE TABLE site_fact (
    home BLOB NOT NULL,               -- 8 bytes
    fact INTEGER NOT NULL,            -- number of the fact
    PRIMARY KEY (home, fact)
) STRICT, WITHOUT ROWID;

-- Corrections by what they correct, whether it has arrived or not.
CREATE TABLE site_correction (
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

-- One line for each home. Instants are seconds since 1970.
CREATE TABLE site_home (
    home BLOB PRIMARY KEY NOT NULL,
    words TEXT,
    folded TEXT,                      -- the words in lower case
    issue INTEGER,                    -- of the newest code
    seen INTEGER,                     -- when it was read
    people INTEGER NOT NULL,          -- in it
    shelf TEXT,                       -- under which homes of the same people stand
    mark TEXT,                        -- JSON: by what they are compared
    waiting INTEGER NOT NULL,         -- 1 when the newest code was read after the last hand-out
    hand_outs INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE INDEX site_home_by_words ON site_home (folded) WHERE folded IS NOT NULL;
CREATE INDEX site_home_by_shelf ON site_home (shelf) WHERE shelf IS NOT NULL;
CREATE INDEX site_home_waiting ON site_home (seen) WHERE waiting = 1;

-- Hand-outs that count.
CREATE TABLE site_hand_out (
    home BLOB NOT NULL,
    turn INTEGER NOT NULL,            -- from 0, in the one order of all facts
    at INTEGER NOT NULL,              -- seconds since 1970
    nanos INTEGER NOT NULL,
    people INTEGER NOT NULL,
    enough_until TEXT,
    lines TEXT NOT NULL,              -- JSON
    PRIMARY KEY (home, turn)
) STRICT, WITHOUT ROWID;

CREATE INDEX site_hand_out_by_time ON site_hand_out (at, nanos, people);

-- Which homes have something of a lot.
CREATE TABLE site_home_lot (
    lot TEXT NOT NULL,
    product TEXT NOT NULL,
    home BLOB NOT NULL,
    PRIMARY KEY (lot, product, home)
) STRICT, WITHOUT ROWID;

CREATE INDEX site_home_lot_by_home ON site_home_lot (home);

-- Homes that were forgotten, and since when: what is older is not stored again.
CREATE TABLE site_erased (
    home BLOB PRIMARY KEY NOT NULL,
    millis INTEGER NOT NULL,
    counter INTEGER NOT NULL,
    device TEXT NOT NULL,
    sequence INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

-- Names of the facts that were forgotten, so that their numbers are not given again.
CREATE TABLE site_forgotten (
    id TEXT PRIMARY KEY NOT NULL,
    device TEXT NOT NULL,
    sequence INTEGER NOT NULL,
    UNIQUE (device, sequence)
) STRICT, WITHOUT ROWID;
";
