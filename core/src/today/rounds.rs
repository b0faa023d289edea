//! The household's rounds by its own clock, and which of them is next.

use std::collections::BTreeMap;

use jiff::civil::{Date, Time};
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};

use super::NoRound;
use super::notices::{Begins, InForce, Stretch};
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
    force: &InForce<'_>,
    zone: &TimeZone,
    people: &[PersonId],
) -> Result<Vec<(RoundKey, RoundTime)>, NoRound> {
    let timing = Timing::from(&order.medicine);
    let refuse = |refusal: &schedule::Refusal| NoRound::Times {
        code: refusal.code(),
        text: refusal.to_string(),
    };
    let texts: Vec<String> = times_of(&household.rounds, &timing)
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
    let rounds_of = |own: Start| -> Vec<Round> {
        let of_stretch = |stretch: &Stretch| {
            let start = match stretch.begins {
                Begins::Own => own,
                Begins::On(day) => Start::on(day),
                Begins::At(at) => Start::on(zone.to_datetime(at).date()),
            };
            let all = schedule::course(&timing, &times, zone, start, stretch.days);
            let left = |round: &Round| force.leaves(stretch, round.nominal.date(), round.at);
            all.into_iter().filter(left).collect::<Vec<Round>>()
        };
        force.stretches.iter().flat_map(of_stretch).collect()
    };
    let mut merged = Merged::default();
    // The order's own rounds for this household come first in the names, whoever has a dose in them.
    for round in schedule::course(&timing, &times, zone, start, order.medicine.course_days) {
        merged.add(&round, None);
    }
    merged.number();
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
        for round in rounds_of(own_start) {
            let had_elsewhere =
                elsewhere.is_some_and(|elsewhere| was_elsewhere(elsewhere, &timing, round.at));
            merged.add(&round, (!had_elsewhere).then_some(seat));
        }
    }
    merged.number();
    let all = merged.rounds.into_values();
    let rounds = all.filter_map(|(index, round)| {
        let day = round.day;
        let key = RoundKey { day, index: index? };
        (!round.who.is_empty()).then_some((key, round))
    });
    Ok(rounds.collect())
}

/// The household's round times that an order needs: all, or every second or third where it asks for fewer doses a day.
fn times_of(rounds: &[Time], timing: &Timing) -> impl Iterator<Item = Time> {
    let a_day = SignedDuration::from_hours(24).as_secs();
    let wanted = a_day.checked_div(timing.interval.as_secs()).unwrap_or(0);
    let wanted = usize::try_from(wanted).unwrap_or(0).max(1);
    let fits = rounds.len() > wanted && rounds.len().is_multiple_of(wanted);
    let step = if fits { rounds.len() / wanted } else { 1 };
    rounds.iter().copied().step_by(step)
}

/// Rounds by their instant, each with its place in its day once it has one.
#[derive(Default)]
struct Merged {
    rounds: BTreeMap<Timestamp, (Option<u32>, RoundTime)>,
}

impl Merged {
    fn add(&mut self, round: &Round, seat: Option<usize>) {
        let (at, day) = (round.at, round.nominal.date());
        let who = Vec::new();
        let entry = self.rounds.entry(at);
        let (_, time) = entry.or_insert_with(|| (None, RoundTime { at, day, who }));
        // A renewal may begin before the course has ended.
        if let Some(seat) = seat.filter(|seat| !time.who.contains(seat)) {
            time.who.push(seat);
        }
    }

    /// A round is named by its day and its place in that day; what is added later moves no names.
    fn number(&mut self) {
        let mut next: BTreeMap<Date, u32> = BTreeMap::new();
        for (index, round) in self.rounds.values() {
            if let Some(index) = index {
                let after = next.entry(round.day).or_default();
                *after = index.saturating_add(1).max(*after);
            }
        }
        for (index, round) in self
            .rounds
            .values_mut()
            .filter(|(index, _)| index.is_none())
        {
            let after = next.entry(round.day).or_default();
            *index = Some(*after);
            *after = after.saturating_add(1);
        }
    }
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
    let here = people
        .iter()
        .filter_map(|id| state.last_dose_under(*id, &order.id));
    let seats = next.into_iter().flat_map(|(_, round)| &round.who);
    let elsewhere = seats
        .filter_map(|seat| state.elsewhere(*people.get(*seat)?, &order.id))
        .filter_map(|elsewhere| elsewhere.last_dose);
    here.map(|dose| dose.at).chain(elsewhere).max()
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
