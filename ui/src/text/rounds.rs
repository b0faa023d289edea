//! Rounds as a calendar shows them.

use hearthdose_core::export::calendar::Entry;
use hearthdose_core::mixture::{Pace, PlannedRound};
use jiff::tz::TimeZone;

use super::Words;

impl Words {
    /// The event of one round; no order is signed yet, so each is for practice. Names only where they are given.
    pub fn calendar_entry(
        &self,
        round: &PlannedRound,
        pace: Pace,
        zone: &TimeZone,
        names: Option<&[String]>,
    ) -> Entry {
        let start = round.at.checked_sub(pace.lead()).unwrap_or(round.at);
        let time = self.clock(round.at, zone);
        let dose = self.round_in_sentence(round.at, zone);
        let mut about = self.say_with(
            "calendar-about",
            &[
                ("start", self.clock(start, zone).into()),
                ("time", time.as_str().into()),
                ("paper", self.say("calendar-paper").into()),
            ],
        );
        if let Some(names) = names {
            let values = [("names", self.list(names).into())];
            about.push(' ');
            about.push_str(&self.say_with("calendar-names", &values));
        }
        Entry {
            at: round.at,
            day: round.day,
            lead: pace.lead(),
            length: pace.give,
            summary: self.say_with("calendar-summary-practice", &[("round", dose.into())]),
            about,
            alarm: self.say_with("calendar-alarm", &[("time", time.into())]),
        }
    }
}
