//! The steps from one version of the file to the next.
//!
//! A released step is frozen and may use nothing but itself: no live type, no live rule.
//! To change the file: write `v2.rs`, which opens with a comment on what changes and holds its own copy of every shape it reads;
//! put it into [`STEPS`]; leave a file of the version before in `demo-data/databases`, which a test brings up to today;
//! and teach `salvage` the new shape of a row beside the old one.
//! A new kind of event, or a new field of one, is a new version too, so that older programs refuse it whole instead of losing a part:
//! it takes a step whose SQL is empty.
//! The meaning of a column never changes.

mod v1;
mod v2;
mod v3;
mod v4;

use rusqlite::{Connection, TransactionBehavior};

use super::StoreError;

/// One step: what brings a file to this version from the one before.
pub(super) struct Step {
    pub(super) version: u32,
    pub(super) sql: &'static str,
}

pub(super) const STEPS: &[Step] = &[
    Step {
        version: 1,
        sql: v1::SQL,
    },
    Step {
        version: 2,
        sql: v2::SQL,
    },
    Step {
        version: 3,
        sql: v3::SQL,
    },
    Step {
        version: 4,
        sql: v4::SQL,
    },
];

/// The version this program writes.
pub const CURRENT: u32 = 4;

/// "HtDs", the mark of our files in the header.
pub(super) const APPLICATION: i32 = 0x4874_4473;

/// A name in the schema by which a file with a broken header is still known as ours.
pub(super) const TRACE: &[u8] = b"CREATE TABLE order_file (";

/// Takes every step after `from`, all or none.
pub(super) fn upgrade(
    connection: &mut Connection,
    from: u32,
    steps: &[Step],
) -> Result<(), StoreError> {
    let transaction = connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
    for step in steps.iter().filter(|step| step.version > from) {
        transaction.execute_batch(step.sql)?;
        transaction.pragma_update(None, "user_version", step.version)?;
    }
    transaction.pragma_update(None, "application_id", APPLICATION)?;
    Ok(transaction.commit()?)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn version(connection: &Connection) -> u32 {
        connection
            .query_row("PRAGMA user_version", [], |row| row.get(0))
            .unwrap()
    }

    #[test]
    fn the_steps_lead_to_the_present_version() {
        let versions: Vec<u32> = STEPS.iter().map(|step| step.version).collect();
        assert_eq!(versions, (1..=CURRENT).collect::<Vec<_>>());
        assert!(
            v1::SQL
                .as_bytes()
                .windows(TRACE.len())
                .any(|part| part == TRACE)
        );
    }

    #[test]
    fn steps_are_taken_in_turn_and_only_the_missing_ones() {
        let steps = [
            Step {
                version: 1,
                sql: "CREATE TABLE a (x INTEGER NOT NULL) STRICT; INSERT INTO a (x) VALUES (7);",
            },
            Step {
                version: 2,
                sql: "ALTER TABLE a ADD COLUMN y INTEGER NOT NULL DEFAULT 3;",
            },
            Step {
                version: 3,
                sql: "UPDATE a SET y = y + x;",
            },
        ];
        let mut connection = Connection::open_in_memory().unwrap();
        upgrade(&mut connection, 0, &steps[..1]).unwrap();
        assert_eq!(version(&connection), 1);
        upgrade(&mut connection, 1, &steps).unwrap();
        assert_eq!(version(&connection), 3);
        let y: i64 = connection
            .query_row("SELECT y FROM a", [], |row| row.get(0))
            .unwrap();
        assert_eq!(y, 10);
        upgrade(&mut connection, 3, &steps).unwrap();
        let y: i64 = connection
            .query_row("SELECT y FROM a", [], |row| row.get(0))
            .unwrap();
        assert_eq!(y, 10);
    }

    #[test]
    fn a_step_that_fails_takes_the_others_back() {
        let steps = [
            Step {
                version: 1,
                sql: "CREATE TABLE a (x INTEGER NOT NULL) STRICT;",
            },
            Step {
                version: 2,
                sql: "CREATE TABLE b (x INTEGER NOT NULL) STRICT;",
            },
            Step {
                version: 3,
                sql: "INSERT INTO missing (x) VALUES (1);",
            },
        ];
        let mut connection = Connection::open_in_memory().unwrap();
        upgrade(&mut connection, 0, &steps[..1]).unwrap();
        assert!(upgrade(&mut connection, 1, &steps).is_err());
        assert_eq!(version(&connection), 1);
        assert!(connection.prepare("SELECT x FROM b").is_err());
    }
}
