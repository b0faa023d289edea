//! The shift file: what one device recorded since a given number, signed, to be merged on another.
//!
//! Body of the message, an array in this order: device (16 bytes), made at in minutes since 1970 (whole), number of the first fact (whole), fact lines (array of text); and, where the record is that of a household and not of a site, household id (8 bytes).
//! A line is a [`Fact`] as JSON, spelled the one way the program writes it; facts of other devices may be among them, and whoever merges trusts the device that signed.

use jiff::Timestamp;
use uuid::Uuid;

use super::cbor::{self, Fields, Value};
use super::moment;
use crate::household::HouseholdId;
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
    /// The household whose record this is; none for that of a site.
    pub of: Option<HouseholdId>,
}

impl Shift {
    pub(super) fn body(&self) -> Option<Value> {
        let lines: Option<Vec<Value>> = self
            .facts
            .iter()
            .map(|fact| serde_json::to_string(fact).ok().map(Value::Text))
            .collect();
        let mut items = vec![
            Value::bytes(self.device.0.as_bytes()),
            Value::Whole(moment::minutes(self.made)?),
            Value::Whole(self.first),
            Value::List(lines?),
        ];
        items.extend(self.of.map(|id| Value::bytes(&id.0)));
        Some(Value::List(items))
    }

    pub(super) fn read(body: &Value) -> Option<Shift> {
        let mut fields = Fields::of(body)?;
        let device = DeviceId(Uuid::from_bytes(fields.bytes()?));
        let made = moment::from_minutes(fields.whole()?)?;
        let first = fields.whole()?;
        let lines = fields.list()?;
        let of = match fields.next() {
            None => None,
            Some(Value::Bytes(bytes)) => Some(HouseholdId(bytes.as_slice().try_into().ok()?)),
            Some(_) => return None,
        };
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
            of,
        })
    }
}
