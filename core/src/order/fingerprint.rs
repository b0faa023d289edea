//! The fingerprint of a file: SHA-256 (FIPS 180-4) of its exact bytes.
//!
//! One changed byte, a line end too, gives another fingerprint; two people compare the short form by eye or aloud.

use std::fmt;

use sha2::{Digest, Sha256};

/// SHA-256 of the exact bytes of an order or a notice.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Fingerprint([u8; 32]);

/// Bytes of the short form: 80 bits, the least that design allows to be shown.
const SHORT_BYTES: usize = 10;

impl Fingerprint {
    pub fn of(bytes: &[u8]) -> Fingerprint {
        Fingerprint(Sha256::digest(bytes).into())
    }

    /// A fingerprint that was stored or sent as its 32 bytes.
    pub const fn from_bytes(bytes: [u8; 32]) -> Fingerprint {
        Fingerprint(bytes)
    }

    pub const fn as_bytes(&self) -> &[u8; 32] {
        &self.0
    }

    /// The first 80 bits as five groups of four hex digits: `3f2a 90c1 …`.
    pub fn short(&self) -> String {
        let mut out = String::new();
        for (index, byte) in self.0.iter().take(SHORT_BYTES).enumerate() {
            if index > 0 && index % 2 == 0 {
                out.push(' ');
            }
            out.push_str(&format!("{byte:02x}"));
        }
        out
    }
}

impl fmt::Display for Fingerprint {
    /// All 64 hex digits.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|byte| write!(f, "{byte:02x}"))
    }
}

impl fmt::Debug for Fingerprint {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Fingerprint({self})")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source of the value: FIPS 180-2 appendix B.1, SHA-256 of "abc".
    #[test]
    fn sha_256_of_abc() {
        let print = Fingerprint::of(b"abc");
        assert_eq!(
            print.to_string(),
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
        );
        assert_eq!(print.short(), "ba78 16bf 8f01 cfea 4141");
    }

    #[test]
    fn one_line_end_is_another_file() {
        assert_ne!(
            Fingerprint::of(b"format = 1\n"),
            Fingerprint::of(b"format = 1\r\n")
        );
    }
}
