//! The text of a code: whatever it is, it is one of the outcomes, and nothing but a golden text reads as signed.
#![no_main]

use hearthdose_core::exchange::{Scan, base45, cbor, write_frame};
use hearthdose_fuzz::{GOLDEN, plant};
use libfuzzer_sys::fuzz_target;

fuzz_target!(
    init: plant(GOLDEN.map(|text| ("golden", text.as_bytes().to_vec()))),
    |data: &[u8]| {
        if let Some(value) = cbor::decode(data) {
            assert_eq!(cbor::encode(&value), data);
        }
        read_bytes(data);
        let Ok(text) = std::str::from_utf8(data) else {
            return;
        };
        if let Some(bytes) = base45::decode(text) {
            assert_eq!(base45::encode(&bytes), text);
            read_bytes(&bytes);
        }
        let trimmed = text.trim_matches(['\r', '\n', '\t']);
        match Scan::read(text) {
            // Nobody here has the secret of the golden signer.
            Scan::Message(_) => assert!(GOLDEN.contains(&trimmed)),
            Scan::Part(frame) => assert_eq!(write_frame(&frame).as_deref(), Some(trimmed)),
            Scan::Sealed(_) => assert!(trimmed.starts_with("HD1")),
            _ => {}
        }
    }
);

fn read_bytes(bytes: &[u8]) {
    if let Scan::Message(_) = Scan::read_bytes(bytes) {
        assert!(GOLDEN.contains(&format!("HD1{}Z", base45::encode(bytes)).as_str()));
    }
}
