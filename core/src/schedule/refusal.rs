//! Why round times or a zone cannot be used.

use jiff::civil::Time;
use thiserror::Error;

use crate::units::Lapse;

/// A reason with a code and a plain sentence (its `Display`).
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum Refusal {
    /// The compiled-in zone data knows no such name.
    #[error("the time zone \"{name}\" is not known; write it like America/Chicago")]
    UnknownZone { name: String },
    /// No round times at all.
    #[error("no round times are given; write them like 08:00 and 20:00")]
    NoRounds,
    /// Not a time of day.
    #[error("\"{text}\" is not a time of day; write it like 08:00")]
    UnreadableTime { text: String },
    /// The same time of day twice.
    #[error("the round at {} is given twice", clock(*.time))]
    RoundTwice { time: Time },
    /// The order's interval does not repeat daily, so no times of day can serve it.
    #[error("a dose every {} cannot be kept by the same times each day", hours(*.interval))]
    IntervalNotDaily { interval: Lapse },
    /// As many rounds a day as the interval asks for, no more, no fewer.
    #[error(
        "a dose every {} makes {wanted} rounds a day, but {given} are given",
        hours(*.interval)
    )]
    RoundsAndInterval {
        interval: Lapse,
        wanted: usize,
        given: usize,
    },
    /// Two rounds, also over midnight, nearer than the order's least gap.
    #[error(
        "from {} to {} is {}; doses must be at least {} apart",
        clock(*.from), clock(*.to), hours(*.gap), hours(*.least)
    )]
    RoundsTooClose {
        from: Time,
        to: Time,
        gap: Lapse,
        least: Lapse,
    },
    /// Two rounds so near that even a dose one minute late would be skipped.
    #[error(
        "from {} to {} is {}, but a late dose is skipped when the next is within {}",
        clock(*.from), clock(*.to), hours(*.gap), hours(*.within)
    )]
    NoRoomForLate {
        from: Time,
        to: Time,
        gap: Lapse,
        within: Lapse,
    },
}

impl Refusal {
    /// The stable name of the reason.
    pub fn code(&self) -> &'static str {
        match self {
            Refusal::UnknownZone { .. } => "unknown-zone",
            Refusal::NoRounds => "no-rounds",
            Refusal::UnreadableTime { .. } => "unreadable-round-time",
            Refusal::RoundTwice { .. } => "round-twice",
            Refusal::IntervalNotDaily { .. } => "interval-not-daily",
            Refusal::RoundsAndInterval { .. } => "rounds-and-interval-disagree",
            Refusal::RoundsTooClose { .. } => "rounds-too-close",
            Refusal::NoRoomForLate { .. } => "rounds-leave-no-room-for-late",
        }
    }
}

/// `08:00`
pub(super) fn clock(time: Time) -> String {
    format!("{:02}:{:02}", time.hour(), time.minute())
}

/// `8 h`, `7 h 30 min`
fn hours(lapse: Lapse) -> String {
    let minutes = lapse.as_mins();
    match (minutes / 60, minutes % 60) {
        (0, minutes) => format!("{minutes} min"),
        (hours, 0) => format!("{hours} h"),
        (hours, minutes) => format!("{hours} h {minutes} min"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sentences_name_times_and_hours() {
        let refusal = Refusal::RoundsTooClose {
            from: Time::constant(20, 0, 0, 0),
            to: Time::constant(3, 30, 0, 0),
            gap: Lapse::from_mins(450),
            least: Lapse::from_hours(8),
        };
        assert_eq!(
            refusal.to_string(),
            "from 20:00 to 03:30 is 7 h 30 min; doses must be at least 8 h apart"
        );
        let twice = Refusal::RoundTwice {
            time: Time::constant(8, 5, 0, 0),
        };
        assert_eq!(twice.to_string(), "the round at 08:05 is given twice");
    }
}
