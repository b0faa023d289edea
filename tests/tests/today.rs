//! What comes next at a table, from facts alone: people who came from elsewhere, notices, two orders in one kitchen.
#![expect(
    clippy::unwrap_used,
    reason = "what builds a case fails the test, wherever it stands"
)]

#[path = "today/evenings.rs"]
mod evenings;
mod facts;
#[path = "today/joined.rs"]
mod joined;
#[path = "today/notices.rs"]
mod notices;
#[path = "today/orders.rs"]
mod orders;
#[path = "today/refill.rs"]
mod refill;

use std::collections::BTreeSet;

use hearthdose_core::order::CheckedOrder;
use hearthdose_core::prep::PersonId;
use hearthdose_core::record::{Event, Fact, HouseholdWords, PersonWords, State, fold};
use hearthdose_core::time::Now;
use hearthdose_core::today::{NoRound, Today, look};
use jiff::Timestamp;
use jiff::civil::{Date, date, time};

use facts::{MORNING, person};

const START: Date = date(2031, 4, 3);

/// So many hours after eight in the morning of 3 April in Chicago.
fn hour(hours: i64) -> Timestamp {
    Timestamp::from_millisecond(MORNING + hours * 3_600_000).unwrap()
}

/// A household that begins on 3 April, rounds at 8 and 20.
fn household() -> Event {
    Event::HouseholdSet(HouseholdWords {
        name: "Number 7".to_owned(),
        zone: "America/Chicago".to_owned(),
        start: START,
        rounds: vec![time(8, 0, 0, 0), time(20, 0, 0, 0)],
        first_dose_at: None,
        fresh: false,
        practice: false,
    })
}

/// A grown-up whose screening was passed elsewhere.
fn grown(number: u64, name: &str) -> Event {
    Event::PersonSet(PersonWords {
        person: person(number),
        name: name.to_owned(),
        born: None,
        told_age: None,
        adult: true,
        sex: None,
        swallows_tablets: true,
        born_early: None,
        food_allergies: BTreeSet::new(),
        starts: None,
        screened: true,
    })
}

/// Events with the hour of each, noted by one device.
fn noted(events: &[(i64, Event)]) -> Vec<Fact> {
    (1..)
        .zip(events)
        .map(|(sequence, (hours, event))| {
            facts::fact(1, sequence, hours * 3_600_000, event.clone())
        })
        .collect()
}

fn home(events: &[(i64, Event)]) -> State {
    fold(&noted(events))
}

fn at(state: &State, order: &CheckedOrder, hours: i64) -> Result<Today, NoRound> {
    look(state, order, &Now::wall_only(hour(hours)))
}

/// Who has a dose in a round of a day, by its hour: nothing when there is no such round.
fn who(today: &Today, hours: i64) -> Vec<PersonId> {
    let round = today
        .rounds
        .iter()
        .find(|(_, round)| round.at == hour(hours));
    let seats = round
        .map(|(_, round)| round.who.clone())
        .unwrap_or_default();
    seats.iter().map(|seat| today.seats[*seat].0).collect()
}
