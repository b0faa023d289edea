//! What a helper adds at the desk: answers, weighings, lifted holds. Each names one person of the code.

use hearthdose_core::exchange::{HouseholdCode, PersonCode};
use hearthdose_core::household::Manner;
use hearthdose_core::order::CheckedOrder;
use hearthdose_core::record::SiteEvent;
use hearthdose_core::screening::ReasonKind;
use hearthdose_core::site::Serving;
use jiff::civil::Date;

use super::{lead_reason, refused};
use crate::answer::Stop;
use crate::arguments::site::Serve;
use crate::input;

/// The question that no order asks.
const BORN_EARLY: &str = "born-early";
/// The hold on a weight that can hardly be right.
const IMPLAUSIBLE: &str = "implausible-weight";

/// Answers and weighings, as facts of the home.
pub fn told(
    asked: &Serve,
    order: &CheckedOrder,
    code: &HouseholdCode,
    day: Date,
) -> Result<Vec<SiteEvent>, Stop> {
    let home = code.household;
    let mut events = Vec::new();
    for text in &asked.answers {
        let wrong = || {
            Stop::unusable(format!(
                "answer: “{text}”: write PERSON:KEY=yes, no or unsure"
            ))
        };
        let (person, rest) = text.split_once(':').ok_or_else(wrong)?;
        let (key, answer) = input::answer(rest)?;
        known_question(order, &key)?;
        events.push(SiteEvent::HomeAnswered {
            home,
            person: person_of(code, person)?.id,
            key,
            answer,
        });
    }
    for text in &asked.weighings {
        let (person, weight) = text
            .rsplit_once('=')
            .ok_or_else(|| Stop::unusable(format!("weigh: “{text}”: write PERSON=WEIGHT")))?;
        let weight = input::weight(weight)?;
        events.push(SiteEvent::HomeWeighed {
            home,
            person: person_of(code, person)?.id,
            weight: weight.typed().to_owned(),
            on: day,
            manner: Manner::Site,
            by: None,
        });
    }
    Ok(events)
}

/// Lifted holds; each must be a hold that stands now, and one that may be lifted.
pub fn lifted(
    asked: &Serve,
    order: &CheckedOrder,
    code: &HouseholdCode,
    serving: &Serving,
) -> Result<Vec<SiteEvent>, Stop> {
    let mut events = Vec::new();
    for text in &asked.lifts {
        let reason = lead_reason(asked.lead.as_deref(), "lifting a hold")?;
        let (person, key) = text
            .split_once(':')
            .ok_or_else(|| Stop::unusable(format!("lift: “{text}”: write PERSON:KEY")))?;
        let key = key.trim();
        let person = person_of(code, person)?.id;
        if key != IMPLAUSIBLE {
            known_question(order, key)?;
        }
        let shown = serving.people.iter().find(|shown| shown.id == person);
        let reasons = shown.and_then(|shown| shown.dose.as_ref().err());
        let stands = reasons.into_iter().flatten().any(|reason| {
            let name = reason.question.as_deref().unwrap_or(reason.code);
            reason.kind == ReasonKind::Hold && name == key
        });
        if !stands {
            let text = format!("“{key}” holds nobody of this number now; there is nothing to lift");
            return Err(refused("not-a-hold", text));
        }
        events.push(SiteEvent::HomeHoldLifted {
            home: code.household,
            person,
            key: key.to_owned(),
            reason,
        });
    }
    Ok(events)
}

fn known_question(order: &CheckedOrder, key: &str) -> Result<(), Stop> {
    let mut questions = order.questions.iter();
    if key == BORN_EARLY || questions.any(|question| question.key == key) {
        return Ok(());
    }
    let text = format!("the order asks no question “{key}”");
    Err(refused("question-unknown", text))
}

/// By number or by nickname; a nickname of two people names nobody.
fn person_of<'a>(code: &'a HouseholdCode, named: &str) -> Result<&'a PersonCode, Stop> {
    let named = named.trim();
    let by_number = |person: &&PersonCode| person.id.to_string() == named;
    let by_name = |person: &&PersonCode| {
        let name = person.nickname.as_deref();
        name.is_some_and(|name| name.eq_ignore_ascii_case(named))
    };
    if let Some(person) = code.people.iter().find(by_number) {
        return Ok(person);
    }
    let mut found = code.people.iter().filter(by_name);
    match (found.next(), found.next()) {
        (Some(person), None) => Ok(person),
        (Some(_), Some(_)) => Err(refused(
            "person-ambiguous",
            format!("two people of this code are called {named}; use the number"),
        )),
        (None, _) => Err(refused(
            "person-unknown",
            format!("nobody in this code is “{named}”"),
        )),
    }
}
