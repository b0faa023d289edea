//! Application identifiers, and how long their values are.
//!
//! Source: GS1 Barcode Syntax Dictionary (gs1/gs1-syntax-dictionary, 2026-07-27) for the identifiers named here; the
//! table of predefined lengths is from memory of the GS1 General Specifications, section 7.8.

/// What an element is about, as far as a medicine package needs it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Meaning {
    Gtin,
    Lot,
    Made,
    BestBefore,
    Expiry,
    Serial,
    Count,
    AdditionalId,
    ExpiryTime,
    /// A national number, such as 715 for the NDC.
    National,
}

/// The shape of a value.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shape {
    /// Exactly so many digits, with no separator behind them.
    Digits(usize),
    /// Six digits YYMMDD, with no separator behind them.
    Day,
    /// Ten digits YYMMDDhhmm; a separator follows.
    Minute,
    /// One to so many digits; a separator follows.
    UpToDigits(usize),
    /// One to so many characters of GS1's set of 82; a separator follows.
    UpTo(usize),
}

/// One application identifier that is understood here.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Identifier {
    pub digits: &'static str,
    pub meaning: Meaning,
    pub shape: Shape,
    pub title: &'static str,
}

const fn known(
    digits: &'static str,
    meaning: Meaning,
    shape: Shape,
    title: &'static str,
) -> Identifier {
    Identifier {
        digits,
        meaning,
        shape,
        title,
    }
}

const KNOWN: &[Identifier] = &[
    known("01", Meaning::Gtin, Shape::Digits(14), "product number"),
    known("10", Meaning::Lot, Shape::UpTo(20), "lot"),
    known("11", Meaning::Made, Shape::Day, "production date"),
    known("15", Meaning::BestBefore, Shape::Day, "best-before date"),
    known("17", Meaning::Expiry, Shape::Day, "expiry date"),
    known("21", Meaning::Serial, Shape::UpTo(20), "serial number"),
    known("30", Meaning::Count, Shape::UpToDigits(8), "count"),
    known(
        "240",
        Meaning::AdditionalId,
        Shape::UpTo(30),
        "additional number",
    ),
    known(
        "7003",
        Meaning::ExpiryTime,
        Shape::Minute,
        "expiry date and time",
    ),
    known("710", Meaning::National, Shape::UpTo(20), "national number"),
    known("711", Meaning::National, Shape::UpTo(20), "national number"),
    known("712", Meaning::National, Shape::UpTo(20), "national number"),
    known("713", Meaning::National, Shape::UpTo(20), "national number"),
    known("714", Meaning::National, Shape::UpTo(20), "national number"),
    known("715", Meaning::National, Shape::UpTo(20), "national number"),
    known("716", Meaning::National, Shape::UpTo(20), "national number"),
    known("717", Meaning::National, Shape::UpTo(20), "national number"),
];

/// The identifier `text` begins with, if it is one of those understood here.
pub fn starting(text: &str) -> Option<&'static Identifier> {
    KNOWN
        .iter()
        .find(|identifier| text.starts_with(identifier.digits))
}

/// Characters, identifier included, of an element whose length follows from its first two digits.
///
/// Lets an identifier that is not understood be stepped over without a separator.
pub fn predefined_length(text: &str) -> Option<usize> {
    Some(match text.get(..2)? {
        "00" => 20,
        "01" | "02" | "03" | "41" => 16,
        "04" => 18,
        "11" | "12" | "13" | "14" | "15" | "16" | "17" | "18" | "19" => 8,
        "20" => 4,
        "31" | "32" | "33" | "34" | "35" | "36" => 10,
        _ => return None,
    })
}

/// GS1's set of 82 characters (General Specifications, figure 7.11-1; from memory).
pub fn in_set_82(letter: char) -> bool {
    letter.is_ascii_alphanumeric() || "!\"%&'()*+,-./:;<=>?_".contains(letter)
}
