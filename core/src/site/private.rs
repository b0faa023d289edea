//! What of a site's facts must not travel where anybody can read it.

use crate::exchange::{HouseholdCode, Message, OrderMark, Scan, is_private};
use crate::order::Order;
use crate::record::{Change, Event, Fact, SiteEvent};

/// Whether a fact tells an answer that only sealed codes carry: given here, or in a sealed code as it was once opened.
///
/// Answers stand in a code by their places; those of an order that is not among `orders` may be about anything, and count as private.
pub fn is_fact_private(fact: &Fact, orders: &[Order]) -> bool {
    is_event_private(&fact.event, orders)
}

fn is_event_private(event: &Event, orders: &[Order]) -> bool {
    match event {
        Event::Site {
            site: SiteEvent::HomeAnswered { key, .. } | SiteEvent::HomeHoldLifted { key, .. },
        } => is_private(key),
        Event::Site {
            site: SiteEvent::HomeSeen { code, .. },
        } => match Scan::read(code) {
            Scan::Message(scanned) => match &scanned.message {
                Message::Household(code) => is_code_private(code, orders),
                _ => false,
            },
            _ => false,
        },
        Event::Correction {
            change: Change::Replace { event, .. },
            ..
        } => is_event_private(event, orders),
        _ => false,
    }
}

fn is_code_private(code: &HouseholdCode, orders: &[Order]) -> bool {
    let known = code.order.as_ref().and_then(|mark| {
        let mut orders = orders.iter();
        orders.find(|order| OrderMark::of(order) == *mark)
    });
    code.people.iter().any(|person| {
        let mut answers = person.answers.iter().enumerate();
        answers.any(|(place, answer)| {
            let question = known.and_then(|order| order.questions.get(place));
            let is_open = question.is_some_and(|question| !is_private(&question.key));
            answer.is_some() && !is_open
        })
    })
}
