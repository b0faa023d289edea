//! Who may follow which order, and which one serves somebody instead.
//!
//! Two orders of one event never go to one person; an alternative has its own screening first.

use jiff::civil::Date;

use super::weights::seated_in;
use crate::dose;
use crate::order::{CheckedOrder, Order};
use crate::prep::PersonId;
use crate::record::State;
use crate::screening::{Reason, ReasonKind};

/// Whether a person may begin to follow `order`, leaving `instead_of` where that is named; asked before the fact is written.
///
/// # Errors
/// Every reason why not: another order of the same event, then what the order's own screening and chart say.
pub fn may_follow(
    state: &State,
    person: PersonId,
    order: &CheckedOrder,
    instead_of: Option<&str>,
    others: &[&CheckedOrder],
    day: Date,
) -> Result<(), Vec<Reason>> {
    let Some(record) = state.people.get(&person) else {
        return Err(vec![Reason::new(
            ReasonKind::Missing,
            "nobody",
            "this person is not in the record".to_owned(),
        )]);
    };
    let mut reasons = Vec::new();
    let in_the_way = others.iter().find(|other| {
        let stays = instead_of != Some(other.id.as_str());
        stays && is_rival(order, other) && state.follows(person, &other.id)
    });
    if let Some(other) = in_the_way {
        reasons.push(Reason::same_event(
            &record.person.name,
            &other.medicine.name,
        ));
    }
    if let Err(more) = dose::work_out(order, &seated_in(state, order, record), day) {
        reasons.extend(more);
    }
    if reasons.is_empty() {
        Ok(())
    } else {
        Err(reasons)
    }
}

/// The order that serves this person instead, by an answer that stops them for this one; a person confirms it before anybody follows it.
pub fn instead_for(
    state: &State,
    person: PersonId,
    order: &CheckedOrder,
    day: Date,
) -> Option<String> {
    let record = state.people.get(&person)?;
    let reasons = dose::work_out(order, &seated_in(state, order, record), day).err()?;
    let mut stops = reasons
        .into_iter()
        .filter(|reason| reason.kind == ReasonKind::Stop);
    stops.find_map(|reason| reason.instead)
}

/// The order of the same event that this person has followed longer, if there is one.
pub(super) fn same_event<'a>(
    state: &State,
    person: PersonId,
    order: &Order,
    others: &[&'a CheckedOrder],
) -> Option<&'a CheckedOrder> {
    let longer = state.orders_of(person).into_iter();
    let longer: Vec<&str> = longer
        .map(|own| own.id.as_str())
        .take_while(|own| *own != order.id)
        .collect();
    let rival =
        |other: &&&CheckedOrder| is_rival(order, other) && longer.contains(&other.id.as_str());
    others.iter().find(rival).copied()
}

fn is_rival(order: &Order, other: &Order) -> bool {
    let event = order.medicine.event.as_ref();
    order.id != other.id && event.is_some() && event == other.medicine.event.as_ref()
}
