//! The household's rounds by its own clock, and which of them is next.

use std::collections::BTreeMap;

use jiff::Timestamp;
use jiff::tz::TimeZone;

use super::NoRound;
use crate::mixture::RoundTime;
use crate::order::CheckedOrder;
use crate::prep::{PersonId, RoundKey};
use crate::record::{HouseholdWords, State};
use crate::schedule::{self, Advice, RoundTimes, Start, Timing};

/// Every round of the course with who has a dose in it, by seat.
pub(super) fn of_household(
    state: &State,
    household: &HouseholdWords,
    order: &CheckedOrder,
    zone: &TimeZone,
    people: &[PersonId],
) -> Result<Vec<(RoundKey, RoundTime)>, NoRound> {
    let timing = Timing::from(&order.medicine);
    let refuse = |refusal: &schedule::Refusal| NoRound::Times {
        code: refusal.code(),
        text: refusal.to_string(),
    };
    let texts: Vec<String> = household
        .rounds
        .iter()
        .map(|time| time.strftime("%H:%M").to_string())
        .collect();
    let times = RoundTimes::for_order(&texts, &timing).map_err(|all| match all.first() {
        Some(first) => refuse(first),
        None => NoRound::Times {
            code: "round-times",
            text: "the round times do not fit the order".to_owned(),
        },
    })?;
    let start = match household.first_dose_at {
        Some(time) => Start::at_clock(household.start, time, zone)
            .unwrap_or_else(|| Start::on(household.start)),
        None => Start::on(household.start),
    };
    let mut merged: BTreeMap<Timestamp, (RoundKey, RoundTime)> = BTreeMap::new();
    for (seat, id) in people.iter().enumerate() {
        let own = state
            .people
            .get(id)
            .and_then(|p| p.person.starts)
            .filter(|own| *own > household.start);
        let own_start = own.map_or(start, Start::on);
        for round in schedule::course(&timing, &times, zone, own_start, order.medicine.course_days)
        {
            let key = RoundKey {
                day: round.nominal.date(),
                index: 0,
            };
            let entry = merged.entry(round.at).or_insert_with(|| {
                (
                    key,
                    RoundTime {
                        at: round.at,
                        day: round.nominal.date(),
                        who: Vec::new(),
                    },
                )
            });
            entry.1.who.push(seat);
        }
    }
    let mut rounds: Vec<(RoundKey, RoundTime)> = merged.into_values().collect();
    number_within_days(&mut rounds);
    Ok(rounds)
}

/// A round is named by its day and its place in that day, so that a person who joins later moves no names.
fn number_within_days(rounds: &mut [(RoundKey, RoundTime)]) {
    let mut last = None;
    let mut index = 0;
    for (key, _) in rounds {
        index = if last == Some(key.day) { index + 1 } else { 0 };
        last = Some(key.day);
        key.index = index;
    }
}

/// How many open rounds stay missed, and what to do about the one after them.
pub(super) fn next_of(
    timing: &Timing,
    last_dose: Option<Timestamp>,
    open: &[(RoundKey, RoundTime)],
    now: Timestamp,
) -> Option<(usize, Advice)> {
    let at = |index: usize| open.get(index).map(|(_, round)| round.at);
    let mut skip = 0;
    loop {
        let due = at(skip)?;
        let next = at(skip + 1);
        if now < due {
            // The first dose of a course may go at once; any other waits for its time, or for the gap.
            let advice = match last_dose {
                None => Advice::GiveNow { then: next },
                Some(_) => schedule::early(timing, last_dose, due, next, now),
            };
            return Some((skip, advice));
        }
        match schedule::late(timing, last_dose, due, next, now) {
            Advice::Skip { .. } if next.is_some() => skip += 1,
            advice => return Some((skip, advice)),
        }
    }
}
