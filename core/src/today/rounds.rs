//! The household's rounds by its own clock, and which of them is next.

use std::collections::BTreeMap;

use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;

use super::NoRound;
use crate::mixture::RoundTime;
use crate::order::CheckedOrder;
use crate::prep::{PersonId, RoundKey};
use crate::record::{Elsewhere, HouseholdWords, State};
use crate::schedule::{self, Advice, Round, RoundTimes, Start, Timing};

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
    let days = order.medicine.course_days;
    let mut add = |round: &Round, seat: Option<usize>| {
        let day = round.nominal.date();
        let new = || {
            let at = round.at;
            let who = Vec::new();
            (RoundKey { day, index: 0 }, RoundTime { at, day, who })
        };
        let entry = merged.entry(round.at).or_insert_with(new);
        entry.1.who.extend(seat);
    };
    // The household's own rounds count for the names, whoever has a dose in them.
    for round in schedule::course(&timing, &times, zone, start, days) {
        add(&round, None);
    }
    for (seat, id) in people.iter().enumerate() {
        let elsewhere = state.elsewhere(*id, &order.id);
        let later = |own: &Date| *own > household.start;
        let own = match elsewhere.and_then(|elsewhere| elsewhere.course_started) {
            Some(began) => Some(began),
            None => state
                .people
                .get(id)
                .and_then(|p| p.person.starts)
                .filter(later),
        };
        let own_start = own.map_or(start, Start::on);
        let course = schedule::course(&timing, &times, zone, own_start, days);
        for round in &course {
            let had_elsewhere =
                elsewhere.is_some_and(|elsewhere| was_elsewhere(elsewhere, &timing, round.at));
            add(round, (!had_elsewhere).then_some(seat));
        }
    }
    let mut rounds: Vec<(RoundKey, RoundTime)> = merged.into_values().collect();
    number_within_days(&mut rounds);
    rounds.retain(|(_, round)| !round.who.is_empty());
    Ok(rounds)
}

/// A round that was over before somebody came, or that is too near to the last dose in the other household.
fn was_elsewhere(elsewhere: &Elsewhere, timing: &Timing, at: Timestamp) -> bool {
    let over = at.duration_until(elsewhere.joined) >= timing.interval;
    let too_near = |last: Timestamp| last.duration_until(at) < timing.least_gap;
    over || elsewhere.last_dose.is_some_and(too_near)
}

/// The last dose that anybody had here, or that one of the people of the next round had elsewhere.
pub(super) fn last_dose(
    state: &State,
    order: &CheckedOrder,
    people: &[PersonId],
    next: Option<&(RoundKey, RoundTime)>,
) -> Option<Timestamp> {
    let here = people.iter().filter_map(|id| state.last_dose(*id));
    let seats = next.into_iter().flat_map(|(_, round)| &round.who);
    let elsewhere = seats
        .filter_map(|seat| state.elsewhere(*people.get(*seat)?, &order.id))
        .filter_map(|elsewhere| elsewhere.last_dose);
    here.map(|dose| dose.at).chain(elsewhere).max()
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
