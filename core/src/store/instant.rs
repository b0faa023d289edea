//! The one place where instants change between the rules (jiff) and the file (chrono).

use chrono::{DateTime, Utc};
use jiff::Timestamp;

use super::StoreError;

const NANOS: i128 = 1_000_000_000;

/// An instant as it is stored. Exact to the nanosecond.
///
/// # Errors
/// Before the year 0 or after 9999, which text dates do not spell alike everywhere.
pub(super) fn stored(instant: Timestamp) -> Result<DateTime<Utc>, StoreError> {
    let nanos = instant.as_nanosecond();
    let out_of_range = StoreError::Unstorable {
        what: "an instant outside of the years 0 to 9999",
    };
    let parts = (
        i64::try_from(nanos.div_euclid(NANOS)),
        u32::try_from(nanos.rem_euclid(NANOS)),
    );
    match parts {
        (Ok(seconds), Ok(rest)) if seconds >= YEAR_0 => {
            DateTime::from_timestamp(seconds, rest).ok_or(out_of_range)
        }
        _ => Err(out_of_range),
    }
}

/// The first second of the year 0.
const YEAR_0: i64 = -62_167_219_200;

/// A stored instant as the rules use it.
///
/// # Errors
/// An instant that was never stored by us.
pub(super) fn restored(instant: DateTime<Utc>) -> Result<Timestamp, StoreError> {
    let nanos = i32::try_from(instant.timestamp_subsec_nanos()).map_err(StoreError::damaged)?;
    Timestamp::new(instant.timestamp(), nanos).map_err(StoreError::damaged)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn instants_come_back_exactly() {
        for text in [
            "2031-04-03T08:00:00Z",
            "2031-04-03T08:00:00.123456789Z",
            "1969-12-31T23:59:59.999999999Z",
            "1970-01-01T00:00:00Z",
            "0000-01-01T00:00:00Z",
            "9999-12-30T22:00:00.999999999Z",
        ] {
            let instant: Timestamp = text.parse().unwrap();
            let there = stored(instant).unwrap();
            assert_eq!(restored(there).unwrap(), instant, "{text}");
            assert_eq!(
                there.format("%Y-%m-%d").to_string(),
                text.split('T').next().unwrap()
            );
        }
    }

    #[test]
    fn instants_nobody_lives_in_are_refused() {
        assert_eq!(
            stored(Timestamp::MIN).unwrap_err().code(),
            "store-unstorable"
        );
        let before: Timestamp = "-000001-12-31T23:59:59Z".parse().unwrap();
        assert_eq!(stored(before).unwrap_err().code(), "store-unstorable");
    }
}
