//! The shift file: what one device recorded since a given number, signed, to be merged on another.
//!
//! Body of the message, an array of four in this order: device (16 bytes), made at in minutes since 1970 (whole), number of the first fact (whole), fact lines (array of text).
//! A line is a [`Fact`] as JSON, spelled the one way the program writes it; facts of other devices may be among them, and whoever merges trusts the device that signed.

use jiff::Timestamp;
use uuid::Uuid;

use super::cbor::{self, Fields, Value};
use super::moment;
use crate::record::{DeviceId, Fact};

/// Facts of a shift.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shift {
    pub device: DeviceId,
    /// To the minute.
    pub made: Timestamp,
    /// Number of the first arrival in the sender's record; the next file begins behind this one.
    pub first: u64,
    pub facts: Vec<Fact>,
}

impl Shift {
    pub(super) fn body(&self) -> Option<Value> {
        let lines: Option<Vec<Value>> = self
            .facts
            .iter()
            .map(|fact| serde_json::to_string(fact).ok().map(Value::Text))
            .collect();
        Some(Value::List(vec![
            Value::bytes(self.device.0.as_bytes()),
            Value::Whole(moment::minutes(self.made)?),
            Value::Whole(self.first),
            Value::List(lines?),
        ]))
    }

    pub(super) fn read(body: &Value) -> Option<Shift> {
        let mut fields = Fields::of(body)?;
        let device = DeviceId(Uuid::from_bytes(fields.bytes()?));
        let made = moment::from_minutes(fields.whole()?)?;
        let first = fields.whole()?;
        let lines = fields.list()?;
        fields.end()?;
        let facts: Option<Vec<Fact>> = lines
            .iter()
            .map(|line| serde_json::from_str(cbor::text(line)?).ok())
            .collect();
        Some(Shift {
            device,
            made,
            first,
            facts: facts?,
        })
    }
}
