//! What is handed out: the numbers on accepted packages, how much a household gets, and the key that its code is sealed to.

/// The number of a trade item, padded with zeros to 14 digits; its check digit is right.
///
/// Source: GS1 General Specifications, check digit of data structures.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Gtin(String);

impl Gtin {
    /// Reads 8, 12, 13 or 14 digits; nothing for another length or a wrong check digit.
    pub fn parse(text: &str) -> Option<Gtin> {
        let digits: Option<Vec<u32>> = text.chars().map(|c| c.to_digit(10)).collect();
        let digits = digits.filter(|digits| matches!(digits.len(), 8 | 12 | 13 | 14))?;
        // The check digit counts once, the one before it three times, and so on to the left.
        let weighted = digits.iter().rev().enumerate();
        let sum: u32 = weighted
            .map(|(place, digit)| if place % 2 == 0 { *digit } else { digit * 3 })
            .sum();
        let known = sum.is_multiple_of(10) && digits.iter().any(|digit| *digit > 0);
        known.then(|| Gtin(format!("{text:0>14}")))
    }

    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl std::fmt::Display for Gtin {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.0)
    }
}

/// A National Drug Code with its hyphens: labeller, product, package.
///
/// Source: 21 CFR 207.33: ten digits as 4-4-2, 5-3-2 or 5-4-1; payers write eleven as 5-4-2.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Ndc(String);

impl Ndc {
    pub fn parse(text: &str) -> Option<Ndc> {
        let parts: Vec<&str> = text.split('-').collect();
        let all_digits = text.chars().all(|c| c == '-' || c.is_ascii_digit());
        let lengths: Vec<usize> = parts.iter().map(|part| part.len()).collect();
        let fits = matches!(
            lengths.as_slice(),
            [4, 4, 2] | [5, 3, 2] | [5, 4, 1] | [5, 4, 2]
        );
        (all_digits && fits).then(|| Ndc(text.to_owned()))
    }

    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl std::fmt::Display for Ndc {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.0)
    }
}

/// How much a household is handed; always whole packs where the order names their size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HandOut {
    /// Packs of its own for each person, one dose from one tablet or whole tablets.
    PerPerson,
    /// What the plan of the household needs, and so many tablets for what is spilt.
    PlanAndSpare { spare: u32 },
}

impl HandOut {
    /// Tablets kept for what is spilt.
    pub fn spare(self) -> u32 {
        match self {
            HandOut::PerPerson => 0,
            HandOut::PlanAndSpare { spare } => spare,
        }
    }
}

/// The public key that household codes are sealed to, and the name by which a site finds its other half.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SealingKey {
    pub id: String,
    /// X25519 (RFC 7748), as its 32 bytes.
    pub public: [u8; 32],
}

/// Public keys that give one shared secret with every other key, so that anybody can unseal: zero, one, the two of order eight, p − 1, p, p + 1.
///
/// Source: the points of small order on Curve25519, computed from RFC 7748's formulas.
const WEAK: [&str; 7] = [
    "0000000000000000000000000000000000000000000000000000000000000000",
    "0100000000000000000000000000000000000000000000000000000000000000",
    "e0eb7a7c3b41b8ae1656e3faf19fc46ada098deb9c32b1fd866205165f49b800",
    "5f9c95bca3508c24b1d0b1559c83ef5b04445cc4581c8e86d8224eddd09f1157",
    "ecffffffffffffffffffffffffffffffffffffffffffffffffffffffffffff7f",
    "edffffffffffffffffffffffffffffffffffffffffffffffffffffffffffff7f",
    "eeffffffffffffffffffffffffffffffffffffffffffffffffffffffffffff7f",
];

impl SealingKey {
    /// From 64 hexadecimal digits; nothing for another length, other letters or a weak key.
    pub fn parse(id: &str, hex: &str) -> Option<SealingKey> {
        let digits: Option<Vec<u8>> = hex
            .chars()
            .map(|c| c.to_digit(16).and_then(|digit| u8::try_from(digit).ok()))
            .collect();
        let bytes: Vec<u8> = digits?
            .chunks(2)
            .filter_map(|pair| match pair {
                [high, low] => Some(high << 4 | low),
                _ => None,
            })
            .collect();
        let public: [u8; 32] = bytes.try_into().ok().filter(|_| hex.len() == 64)?;
        let key = SealingKey {
            id: id.to_owned(),
            public,
        };
        (!key.is_weak()).then_some(key)
    }

    /// The key as 64 hexadecimal digits.
    pub fn hex(&self) -> String {
        self.public
            .iter()
            .map(|byte| format!("{byte:02x}"))
            .collect()
    }

    /// The topmost bit is no part of the point.
    fn is_weak(&self) -> bool {
        let mut point = self.clone();
        if let Some(last) = point.public.last_mut() {
            *last &= 0x7f;
        }
        WEAK.contains(&point.hex().as_str())
    }
}
