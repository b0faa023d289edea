//! What a device makes of its 32 random bytes: keys and names that look random to everybody else.
//!
//! Each is the beginning of SHA-256 over a label, a zero byte, the random bytes, and what it is for, each part with its length before it.
//! So one device shows another key and another household id under each order, and two codes cannot be told to come from one house.

use sha2::{Digest, Sha256};

use super::sign::DeviceSecret;
use crate::household::HouseholdId;

/// The secret of a device, from which all its keys follow. It is stored on the device and shown nowhere.
pub struct DeviceRandom([u8; 32]);

impl DeviceRandom {
    pub fn new(random: [u8; 32]) -> DeviceRandom {
        DeviceRandom(random)
    }

    /// The signing key for codes under one order; an empty name stands for no order.
    pub fn key(&self, order: &str) -> DeviceSecret {
        DeviceSecret::from_bytes(&self.derived("hearthdose device key", &[order]))
    }

    /// The name in codes of a household under one order.
    pub fn household(&self, order: &str, name: &str) -> HouseholdId {
        let [a, b, c, d, e, f, g, h, ..] = self.derived("hearthdose household", &[order, name]);
        HouseholdId([a, b, c, d, e, f, g, h])
    }

    /// The names in codes of a household's people, each a number of its own.
    pub fn people(&self, household: HouseholdId, names: &[&str]) -> Vec<u16> {
        let house = format!("{household:?}");
        let mut ids = Vec::new();
        for name in names {
            let [high, low, ..] = self.derived("hearthdose person", &[&house, name]);
            let mut id = u16::from_be_bytes([high, low]);
            while ids.contains(&id) {
                id = id.wrapping_add(1);
            }
            ids.push(id);
        }
        ids
    }

    fn derived(&self, label: &str, parts: &[&str]) -> [u8; 32] {
        let mut hash = Sha256::new();
        hash.update(label.as_bytes());
        hash.update([0]);
        hash.update(self.0);
        for part in parts {
            let length = u64::try_from(part.len()).unwrap_or(u64::MAX);
            hash.update(length.to_be_bytes());
            hash.update(part.as_bytes());
        }
        hash.finalize().into()
    }
}
