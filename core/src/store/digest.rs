//! The digest every row carries, so that a row can vouch for itself when the file around it is broken.

use sha2::{Digest, Sha256};

pub(super) const BYTES: usize = 32;

/// SHA-256 over the parts, each behind its length, so that no two lists of parts give the same bytes.
///
/// Frozen: rows of every version carry it.
pub(super) fn of(parts: &[&[u8]]) -> [u8; BYTES] {
    let mut hash = Sha256::new();
    for part in parts {
        // No part comes near 2⁶⁴ bytes.
        hash.update(u64::try_from(part.len()).unwrap_or(u64::MAX).to_be_bytes());
        hash.update(part);
    }
    hash.finalize().into()
}

#[cfg(test)]
mod tests {
    use super::of;

    #[test]
    fn where_a_part_ends_matters() {
        assert_ne!(of(&[b"ab", b"c"]), of(&[b"a", b"bc"]));
        assert_ne!(of(&[b"ab"]), of(&[b"ab", b""]));
    }

    /// By `printf '\0\0\0\0\0\0\0\3abc' | sha256sum`.
    #[test]
    fn the_digest_is_frozen() {
        let hex: String = of(&[b"abc"])
            .iter()
            .map(|byte| format!("{byte:02x}"))
            .collect();
        assert_eq!(
            hex,
            "c3494ca1a2cf8eeb8a11ded316fb55b83c3bbbedb6313cd50415251e5d09e12f"
        );
    }
}
