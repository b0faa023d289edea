//! Rows as they stand in the file, and what they were made of.

use chrono::{DateTime, Utc};
use rusqlite::types::{FromSql, Value};
use rusqlite::{Connection, Row, params};
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use super::{StoreError, digest, instant};
use crate::order::Fingerprint;
use crate::prep::OrderRef;
use crate::record::{DeviceId, Event, Fact, FactId, Hlc, Stamp};
use crate::time::Steady;

/// One row of `fact`, without its number.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct FactRow {
    pub(super) id: String,
    pub(super) device: String,
    pub(super) sequence: i64,
    pub(super) millis: i64,
    pub(super) counter: i64,
    pub(super) at: DateTime<Utc>,
    pub(super) body: String,
    pub(super) digest: Vec<u8>,
}

/// What of a fact has no column of its own.
#[derive(Serialize, Deserialize)]
struct Body<O, E, S, Z> {
    steady: S,
    zone: Z,
    order: O,
    event: E,
}

pub(super) const FACT_COLUMNS: &str = "id, device, sequence, millis, counter, at, body, digest";

impl FactRow {
    pub(super) fn of(fact: &Fact) -> Result<FactRow, StoreError> {
        let body = Body {
            steady: &fact.steady,
            zone: &fact.zone,
            order: &fact.order,
            event: &fact.event,
        };
        let mut row = FactRow {
            id: fact.id.0.to_string(),
            device: fact.stamp.device.0.to_string(),
            sequence: i64::try_from(fact.stamp.sequence).map_err(|_| StoreError::Unstorable {
                what: "a number beyond 9 quintillion",
            })?,
            millis: fact.stamp.hlc.millis,
            counter: i64::from(fact.stamp.hlc.counter),
            at: instant::stored(fact.at)?,
            body: serde_json::to_string(&body).map_err(|_| StoreError::Unstorable {
                what: "an event that JSON cannot hold",
            })?,
            digest: Vec::new(),
        };
        row.digest = row.true_digest().to_vec();
        Ok(row)
    }

    fn true_digest(&self) -> [u8; digest::BYTES] {
        let instant = format!(
            "{} {}",
            self.at.timestamp(),
            self.at.timestamp_subsec_nanos()
        );
        digest::of(&[
            self.id.as_bytes(),
            self.device.as_bytes(),
            &self.sequence.to_be_bytes(),
            &self.millis.to_be_bytes(),
            &self.counter.to_be_bytes(),
            instant.as_bytes(),
            self.body.as_bytes(),
        ])
    }

    /// Whether this is what was once written.
    pub(super) fn is_whole(&self) -> bool {
        self.digest == self.true_digest()
    }

    pub(super) fn fact(&self) -> Result<Fact, StoreError> {
        if !self.is_whole() {
            return Err(StoreError::damaged("a fact does not match its digest"));
        }
        // The digest says that it was written so: what cannot be read is newer, not broken.
        let body: Body<Option<OrderRef>, Event, Option<Steady>, String> =
            serde_json::from_str(&self.body)
                .map_err(|cause| StoreError::NewerFact(cause.into()))?;
        Ok(Fact {
            id: FactId(uuid(&self.id)?),
            stamp: Stamp {
                hlc: Hlc {
                    millis: self.millis,
                    counter: u32::try_from(self.counter).map_err(StoreError::damaged)?,
                },
                device: DeviceId(uuid(&self.device)?),
                sequence: u64::try_from(self.sequence).map_err(StoreError::damaged)?,
            },
            at: instant::restored(self.at)?,
            steady: body.steady,
            zone: body.zone,
            order: body.order,
            event: body.event,
        })
    }

    /// From the columns of [`FACT_COLUMNS`].
    pub(super) fn read(row: &Row<'_>) -> rusqlite::Result<FactRow> {
        Ok(FactRow {
            id: row.get(0)?,
            device: row.get(1)?,
            sequence: row.get(2)?,
            millis: row.get(3)?,
            counter: row.get(4)?,
            at: row.get(5)?,
            body: row.get(6)?,
            digest: row.get(7)?,
        })
    }

    /// From the values of a loose record, if it is one of a fact and whole.
    pub(super) fn from_values(values: &[Value]) -> Option<FactRow> {
        match values {
            [
                Value::Null,
                Value::Text(id),
                Value::Text(device),
                Value::Integer(sequence),
                Value::Integer(millis),
                Value::Integer(counter),
                at @ Value::Text(_),
                Value::Text(body),
                Value::Blob(digest),
            ] => {
                let row = FactRow {
                    id: id.clone(),
                    device: device.clone(),
                    sequence: *sequence,
                    millis: *millis,
                    counter: *counter,
                    at: DateTime::column_result(at.into()).ok()?,
                    body: body.clone(),
                    digest: digest.clone(),
                };
                row.is_whole().then_some(row)
            }
            _ => None,
        }
    }

    pub(super) fn insert(&self, connection: &Connection) -> rusqlite::Result<usize> {
        let mut statement = connection.prepare_cached(
            "INSERT INTO fact (id, device, sequence, millis, counter, at, body, digest) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)",
        )?;
        statement.execute(params![
            self.id,
            self.device,
            self.sequence,
            self.millis,
            self.counter,
            self.at,
            self.body,
            self.digest
        ])
    }
}

fn uuid(text: &str) -> Result<Uuid, StoreError> {
    Uuid::parse_str(text).map_err(StoreError::damaged)
}

/// One row of `order_file`, without its number.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct OrderRow {
    pub(super) id: String,
    pub(super) revision: i64,
    pub(super) fingerprint: Vec<u8>,
    pub(super) bytes: Vec<u8>,
    pub(super) trusted: bool,
    pub(super) digest: Vec<u8>,
}

pub(super) const ORDER_COLUMNS: &str = "id, revision, fingerprint, bytes, trusted, digest";

impl OrderRow {
    pub(super) fn of(id: &str, revision: u32, bytes: &[u8], trusted: bool) -> OrderRow {
        let mut row = OrderRow {
            id: id.to_owned(),
            revision: i64::from(revision),
            fingerprint: Fingerprint::of(bytes).as_bytes().to_vec(),
            bytes: bytes.to_vec(),
            trusted,
            digest: Vec::new(),
        };
        row.digest = row.true_digest().to_vec();
        row
    }

    /// The fingerprint stands for the bytes.
    fn true_digest(&self) -> [u8; digest::BYTES] {
        digest::of(&[
            self.id.as_bytes(),
            &self.revision.to_be_bytes(),
            &self.fingerprint,
            &[u8::from(self.trusted)],
        ])
    }

    pub(super) fn is_whole(&self) -> bool {
        self.digest == self.true_digest()
            && Fingerprint::of(&self.bytes).as_bytes().as_slice() == self.fingerprint
    }

    /// The same file, with or without trust.
    pub(super) fn with_trust(mut self, trusted: bool) -> OrderRow {
        self.trusted = trusted;
        self.digest = self.true_digest().to_vec();
        self
    }

    /// From the columns of [`ORDER_COLUMNS`].
    pub(super) fn read(row: &Row<'_>) -> rusqlite::Result<OrderRow> {
        Ok(OrderRow {
            id: row.get(0)?,
            revision: row.get(1)?,
            fingerprint: row.get(2)?,
            bytes: row.get(3)?,
            trusted: row.get(4)?,
            digest: row.get(5)?,
        })
    }

    pub(super) fn from_values(values: &[Value]) -> Option<OrderRow> {
        match values {
            [
                Value::Null,
                Value::Text(id),
                Value::Integer(revision),
                Value::Blob(fingerprint),
                Value::Blob(bytes),
                Value::Integer(trusted),
                Value::Blob(digest),
            ] => {
                let row = OrderRow {
                    id: id.clone(),
                    revision: *revision,
                    fingerprint: fingerprint.clone(),
                    bytes: bytes.clone(),
                    trusted: *trusted != 0,
                    digest: digest.clone(),
                };
                row.is_whole().then_some(row)
            }
            _ => None,
        }
    }

    /// Puts it in unless the same bytes are there already.
    pub(super) fn insert(&self, connection: &Connection) -> rusqlite::Result<usize> {
        connection.execute(
            "INSERT INTO order_file (id, revision, fingerprint, bytes, trusted, digest) VALUES (?1, ?2, ?3, ?4, ?5, ?6)
             ON CONFLICT (fingerprint) DO NOTHING",
            params![self.id, self.revision, self.fingerprint, self.bytes, self.trusted, self.digest],
        )
    }
}

/// One row of `setting`, without its number.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct SettingRow {
    pub(super) key: String,
    pub(super) value: String,
    pub(super) digest: Vec<u8>,
}

pub(super) const SETTING_COLUMNS: &str = "key, value, digest";

impl SettingRow {
    pub(super) fn of(key: &str, value: &str) -> SettingRow {
        let digest = digest::of(&[key.as_bytes(), value.as_bytes()]).to_vec();
        SettingRow {
            key: key.to_owned(),
            value: value.to_owned(),
            digest,
        }
    }

    pub(super) fn is_whole(&self) -> bool {
        *self == SettingRow::of(&self.key, &self.value)
    }

    /// From the columns of [`SETTING_COLUMNS`].
    pub(super) fn read(row: &Row<'_>) -> rusqlite::Result<SettingRow> {
        Ok(SettingRow {
            key: row.get(0)?,
            value: row.get(1)?,
            digest: row.get(2)?,
        })
    }

    pub(super) fn from_values(values: &[Value]) -> Option<SettingRow> {
        match values {
            [
                Value::Null,
                Value::Text(key),
                Value::Text(value),
                Value::Blob(digest),
            ] => {
                let row = SettingRow {
                    key: key.clone(),
                    value: value.clone(),
                    digest: digest.clone(),
                };
                row.is_whole().then_some(row)
            }
            _ => None,
        }
    }

    /// Replaces the value of the key under a new, higher number.
    pub(super) fn put(&self, connection: &Connection) -> rusqlite::Result<usize> {
        connection.execute("DELETE FROM setting WHERE key = ?1", [&self.key])?;
        connection.execute(
            "INSERT INTO setting (key, value, digest) VALUES (?1, ?2, ?3)",
            params![self.key, self.value, self.digest],
        )
    }
}
