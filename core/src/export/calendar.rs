//! The rounds as a calendar by RFC 5545, with an alarm before each so that its doses are given on time.
//!
//! Each round is an event of its own, and its instant is written in UTC.
//! A recurring rule with a zone would let the reading program decide what happens on the night when clocks change, by zone data of its own;
//! the plan has decided that already, by the order's least gap, and two rounds of one course need not be alike.
//! Calendars show UTC instants in the time of the place, so nothing is lost.
//!
//! Invariants:
//! - an event's UID depends on the home, the order, the day and the place of the round in its day, on nothing else:
//!   a round that moved by an hour is the same event, and reading a calendar in again changes it instead of doubling it;
//! - SEQUENCE is the minute in which the calendar was made, so a later calendar wins wherever it was made;
//! - lines end with CR LF, are folded at 75 octets between letters, and no text can end its line (RFC 5545, 3.1 and 3.3.11).
//!
//! Nobody's name is in here unless the caller puts it into the words.

use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use uuid::Uuid;

use crate::household::HouseholdId;
use crate::units::Lapse;

/// Most octets of a line without its end (RFC 5545, 3.1).
const LONGEST_LINE: usize = 75;
/// Under which the names of events are made; drawn once.
const EVENTS: Uuid = Uuid::from_u128(0x8d1f_57c2_90ab_4e1e_a0cb_3e61_7b54_29d7);

/// The rounds of one home under one order.
#[derive(Clone, Debug)]
pub struct Calendar<'a> {
    pub home: HouseholdId,
    pub order: &'a str,
    /// When the calendar is made.
    pub made: Timestamp,
    /// As a calendar program lists it.
    pub name: &'a str,
    /// In the order of their instants.
    pub rounds: &'a [Entry],
}

/// One round, with the words that a calendar shows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// When the doses are due.
    pub at: Timestamp,
    /// The day to which the round belongs.
    pub day: Date,
    /// How long before that the alarm rings.
    pub lead: Lapse,
    /// From the first dose to the last.
    pub length: Lapse,
    pub summary: String,
    pub about: String,
    /// Shown by the alarm.
    pub alarm: String,
}

/// The text of an `.ics` file.
pub fn text(calendar: &Calendar<'_>) -> String {
    let mut out = Lines::default();
    out.line("BEGIN", "VCALENDAR");
    out.line("VERSION", "2.0");
    out.line("PRODID", "-//Hearthdose//Hearthdose//EN");
    out.line("CALSCALE", "GREGORIAN");
    out.line("METHOD", "PUBLISH");
    out.words("X-WR-CALNAME", calendar.name);
    let made = utc(calendar.made);
    let sequence = calendar.made.as_second().div_euclid(60).max(0).to_string();
    let mut place = 0_u32;
    let mut day = None;
    for round in calendar.rounds {
        place = match day {
            Some(day) if day == round.day => place.saturating_add(1),
            _ => 1,
        };
        day = Some(round.day);
        let end = round.at.checked_add(round.length).unwrap_or(round.at);
        out.line("BEGIN", "VEVENT");
        out.line("UID", &uid(calendar, round.day, place));
        out.line("DTSTAMP", &made);
        out.line("LAST-MODIFIED", &made);
        out.line("SEQUENCE", &sequence);
        out.line("DTSTART", &utc(round.at));
        out.line("DTEND", &utc(end));
        out.words("SUMMARY", &round.summary);
        out.words("DESCRIPTION", &round.about);
        out.line("CLASS", "PRIVATE");
        out.line("TRANSP", "TRANSPARENT");
        out.line("BEGIN", "VALARM");
        out.line("ACTION", "DISPLAY");
        out.line("TRIGGER", &before(round.lead));
        out.words("DESCRIPTION", &round.alarm);
        out.line("END", "VALARM");
        out.line("END", "VEVENT");
    }
    out.line("END", "VCALENDAR");
    out.text
}

fn uid(calendar: &Calendar<'_>, day: Date, place: u32) -> String {
    let name = format!("{}\n{}\n{day}\n{place}", calendar.home, calendar.order);
    Uuid::new_v5(&EVENTS, name.as_bytes()).to_string()
}

/// `20310403T130000Z`
fn utc(at: Timestamp) -> String {
    at.to_zoned_datetime(TimeZone::UTC)
        .strftime("%Y%m%dT%H%M%SZ")
        .to_string()
}

/// A duration before the start: `-PT11M`.
fn before(lead: Lapse) -> String {
    let seconds = lead.as_secs().max(0);
    // A calendar rings on whole minutes: rather a little too early.
    let minutes = seconds.saturating_add(59) / 60;
    format!("-PT{minutes}M")
}

#[derive(Default)]
struct Lines {
    text: String,
}

impl Lines {
    /// A property whose value cannot hold anything that needs a mark.
    fn line(&mut self, name: &str, value: &str) {
        let mut used = 0;
        for letter in format!("{name}:{value}").chars() {
            if used + letter.len_utf8() > LONGEST_LINE {
                self.text.push_str("\r\n ");
                used = 1;
            }
            self.text.push(letter);
            used += letter.len_utf8();
        }
        self.text.push_str("\r\n");
    }

    /// A property of free text.
    fn words(&mut self, name: &str, words: &str) {
        let mut value = String::with_capacity(words.len());
        for letter in words.chars() {
            match letter {
                '\\' | ';' | ',' => value.extend(['\\', letter]),
                '\n' => value.push_str("\\n"),
                letter if letter.is_control() => {}
                letter => value.push(letter),
            }
        }
        self.line(name, &value);
    }
}

#[cfg(test)]
mod tests {
    use super::Lines;

    #[test]
    fn long_lines_are_folded_between_letters() {
        let mut out = Lines::default();
        out.words("SUMMARY", &"ñ".repeat(100));
        for line in out.text.split_terminator("\r\n") {
            assert!(line.len() <= 75, "{} octets", line.len());
        }
        assert_eq!(
            out.text.replace("\r\n ", ""),
            format!("SUMMARY:{}\r\n", "ñ".repeat(100))
        );
        assert!(out.text.contains("\r\n "));
    }

    /// The marks are those of RFC 5545, 3.3.11.
    #[test]
    fn no_text_ends_its_line() {
        let mut out = Lines::default();
        out.words("SUMMARY", "a;b,c\\d\r\nBEGIN:VEVENT");
        assert_eq!(out.text, "SUMMARY:a\\;b\\,c\\\\d\\nBEGIN:VEVENT\r\n");
    }
}
