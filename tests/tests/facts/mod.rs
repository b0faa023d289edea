//! Facts to test with: ids from small numbers, instants from one morning.

use hearthdose_core::prep::{OrderRef, PersonId};
use hearthdose_core::record::{DeviceId, Event, Fact, FactId, Hlc, Stamp};
use jiff::Timestamp;
use serde::de::DeserializeOwned;

/// 2031-04-03 08:00 in Chicago.
pub const MORNING: i64 = 1_932_987_600_000;

/// An id of any kind; the same two numbers give the same one.
pub fn id<T: DeserializeOwned>(kind: u16, number: u64) -> T {
    let text = format!("01960000-{kind:04x}-7000-8000-{number:012x}");
    serde_json::from_value(text.into()).unwrap()
}

pub fn device(number: u64) -> DeviceId {
    id(1, number)
}

#[allow(dead_code, reason = "not every test that uses facts has people")]
pub fn person(number: u64) -> PersonId {
    id(2, number)
}

/// What device `on` noted as its `sequence`th fact, `millis` after eight in the morning.
pub fn fact(on: u64, sequence: u64, millis: i64, event: Event) -> Fact {
    Fact {
        id: fact_id(on, sequence),
        stamp: Stamp {
            hlc: Hlc {
                millis: MORNING + millis,
                counter: 0,
            },
            device: device(on),
            sequence,
        },
        at: Timestamp::from_millisecond(MORNING + millis).unwrap(),
        steady: None,
        zone: "America/Chicago".to_owned(),
        order: Some(OrderRef {
            id: "quillmere-doxy".to_owned(),
            revision: 1,
        }),
        event,
    }
}

pub fn fact_id(on: u64, sequence: u64) -> FactId {
    id(0x100 + u16::try_from(on).unwrap(), sequence)
}
