//! The receipt of a home that was forgotten at a site after its record was handed over.
//!
//! Body of the message, an array of five in this order:
//!
//! | # | item | CBOR |
//! |---|---|---|
//! | 0 | household id | bytes, 8 |
//! | 1 | forgotten at, minutes since 1970 | whole |
//! | 2 | number of facts that went | whole |
//! | 3 | SHA-256 of their lines, each as in a shift and with a line feed behind it, in the one order of facts | bytes, 32 |
//! | 4 | why they went although not all of them had been handed over; null where all had | text or null |
//!
//! Nothing in it says who lived there: whoever holds the shift can work the hash out anew, and nobody else.

use jiff::Timestamp;
use sha2::{Digest, Sha256};

use super::cbor::{self, Fields, Value};
use super::{moment, words};
use crate::household::HouseholdId;
use crate::record::Fact;

/// What a site says of a home that it forgot.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Erasure {
    pub household: HouseholdId,
    /// To the minute.
    pub at: Timestamp,
    pub facts: u32,
    pub hash: [u8; 32],
    /// Given by a lead, where not everything had been handed over: 1 to 160 letters.
    pub reason: Option<String>,
}

impl Erasure {
    /// For these facts of a home, in the one order of facts.
    ///
    /// Nothing where a fact cannot be spelled, or there are more than four thousand million.
    pub fn of(
        household: HouseholdId,
        at: Timestamp,
        facts: &[Fact],
        reason: Option<String>,
    ) -> Option<Erasure> {
        let mut hash = Sha256::new();
        for fact in facts {
            hash.update(serde_json::to_string(fact).ok()?);
            hash.update("\n");
        }
        Some(Erasure {
            household,
            at: moment::minute(at),
            facts: u32::try_from(facts.len()).ok()?,
            hash: hash.finalize().into(),
            reason,
        })
    }

    pub(super) fn body(&self) -> Option<Value> {
        Some(Value::List(vec![
            Value::bytes(&self.household.0),
            Value::Whole(moment::minutes(self.at)?),
            Value::Whole(u64::from(self.facts)),
            Value::bytes(&self.hash),
            Value::or_null(self.reason.as_deref(), Value::text),
        ]))
    }

    pub(super) fn read(body: &Value) -> Option<Erasure> {
        let mut fields = Fields::of(body)?;
        let household = HouseholdId(fields.bytes()?);
        let at = moment::from_minutes(fields.whole()?)?;
        let facts = fields.whole()?;
        let hash = fields.bytes()?;
        let reason = fields.or_null(cbor::text)?;
        fields.end()?;
        let sound = reason.is_none_or(|reason| words::are_plain(reason, 160));
        sound.then(|| Erasure {
            household,
            at,
            facts,
            hash,
            reason: reason.map(str::to_owned),
        })
    }
}
