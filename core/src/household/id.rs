//! The random name of a household, the same on every device and in every code.

use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// Eight random bytes; as text 16 hexadecimal digits.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct HouseholdId(pub [u8; 8]);

impl HouseholdId {
    /// From 16 hexadecimal digits in lower case; nothing for anything else.
    pub fn parse(text: &str) -> Option<HouseholdId> {
        let lower = |byte: u8| byte.is_ascii_digit() || (b'a'..=b'f').contains(&byte);
        if text.len() != 16 || !text.bytes().all(lower) {
            return None;
        }
        let number = u64::from_str_radix(text, 16).ok()?;
        Some(HouseholdId(number.to_be_bytes()))
    }
}

impl std::fmt::Display for HouseholdId {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        self.0.iter().try_for_each(|byte| write!(f, "{byte:02x}"))
    }
}

impl std::fmt::Debug for HouseholdId {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        std::fmt::Display::fmt(self, f)
    }
}

impl Serialize for HouseholdId {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for HouseholdId {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        HouseholdId::parse(&text).ok_or_else(|| serde::de::Error::custom("no household id"))
    }
}
