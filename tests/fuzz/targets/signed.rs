//! Signed messages with any body: what is read is written back to the very same bytes, and no changed bit verifies.
#![no_main]

use std::sync::LazyLock;

use hearthdose_core::exchange::{Message, Met, Scan, Standing, write};
use hearthdose_core::order::CheckedOrder;
use hearthdose_fuzz::{GOLDEN, bytes_of, order, payload, payload_of, plant, secret, signed};
use jiff::civil::date;
use libfuzzer_sys::fuzz_target;

static ORDER: LazyLock<CheckedOrder> = LazyLock::new(order);
/// Kind, length of the key and key stand before a body.
const BEFORE_BODY: usize = 36;

fuzz_target!(init: plant(seeds()), |data: &[u8]| {
    let Some((first, rest)) = data.split_first() else {
        return;
    };
    // Kinds 1 to 4 and the next, or a whole payload, whose key then is mostly another's.
    let payload = match first % 6 {
        0 => rest.to_vec(),
        kind => payload(kind, rest),
    };
    let bytes = signed(&payload);
    if let Scan::Message(scanned) = Scan::read_bytes(&bytes) {
        assert_eq!(scanned.signer, secret().public());
        assert_eq!(scanned.message.sign(&secret()).as_deref(), Ok(&bytes[..]));
        if let Ok(text) = write(&scanned.message, &secret()) {
            assert_eq!(Scan::read(&text), Scan::Message(scanned.clone()));
        }
        let mut met = Met::default();
        assert_eq!(met.remember(&scanned), Standing::SignatureUnknown);
        assert_eq!(met.judge(&scanned), Standing::Known);
        if let Message::Household(code) = &scanned.message {
            for person in &code.people {
                let _ = person.dose(&ORDER, date(2031, 4, 3));
            }
        }
    }
    let mut changed = bytes;
    let place = data.iter().fold(0usize, |sum, byte| sum.wrapping_mul(31) + usize::from(*byte));
    let bit = place % (changed.len() * 8);
    changed[bit / 8] ^= 1 << (bit % 8);
    assert!(!matches!(Scan::read_bytes(&changed), Scan::Message(_)));
});

fn seeds() -> Vec<(&'static str, Vec<u8>)> {
    let payloads = GOLDEN[..6]
        .iter()
        .map(|text| payload_of(&bytes_of(text)).to_vec());
    payloads
        .map(|payload| ("golden", [&payload[1..2], &payload[BEFORE_BODY..]].concat()))
        .collect()
}
