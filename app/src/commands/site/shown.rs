//! What a helper sees of a home, as JSON and in words.

use hearthdose_core::order::CheckedOrder;
use hearthdose_core::site::{Bag, ForLead, Remark, Serving, Shown, Why};
use hearthdose_core::today::AskWeight;
use serde::Serialize;

use crate::answer::Reason;
use crate::commands::refusal;
use crate::json::dose::Amount;

#[derive(Serialize)]
pub struct Document {
    pub outcome: &'static str,
    pub home: String,
    pub words: Option<String>,
    pub issue: u32,
    pub day: String,
    /// Whoever must be asked first stands first.
    pub people: Vec<Person>,
    pub bags: Vec<Sack>,
    /// What only the lead lets pass.
    pub for_lead: Vec<Reason>,
    pub remarks: Vec<Reason>,
    pub enough_until: Option<String>,
    /// Id of the hand-out, where there was one.
    pub hand_out: Option<String>,
    pub slip: Option<Slip>,
    pub signed: bool,
    pub invented: bool,
}

#[derive(Serialize)]
pub struct Slip {
    pub text: String,
    pub site: String,
    /// Of the key that signed it; the home compares it.
    pub mark: String,
    pub file: Option<String>,
}

#[derive(Serialize)]
pub struct Person {
    person: u16,
    nickname: Option<String>,
    /// Null where there is none now; the reasons say why.
    dose: Option<Amount>,
    reasons: Vec<Reason>,
    cautions: Vec<String>,
    ask_in_private: Vec<String>,
    weigh_again: Vec<Reason>,
}

#[derive(Serialize)]
pub struct Sack {
    /// Null for the home together.
    person: Option<u16>,
    product: String,
    packs: u32,
    takes: Vec<Taken>,
    short: u32,
    passed_over: Vec<Passed>,
}

#[derive(Serialize)]
pub struct Taken {
    lot: String,
    packs: u32,
    each: u32,
}

#[derive(Serialize)]
struct Passed {
    lot: String,
    why: Reason,
}

pub fn people(serving: &Serving) -> Vec<Person> {
    serving.people.iter().map(person).collect()
}

fn person(shown: &Shown) -> Person {
    let reasons = shown.dose.as_ref().err();
    Person {
        person: shown.id,
        nickname: shown.nickname.clone(),
        dose: shown.dose.as_ref().ok().map(Amount::of),
        reasons: reasons.map_or_else(Vec::new, |found| refusal::reasons(found, None)),
        cautions: shown.cautions.clone(),
        ask_in_private: shown.ask_in_private.clone(),
        weigh_again: shown.weigh_again.iter().map(weigh_again).collect(),
    }
}

fn weigh_again(ask: &AskWeight) -> Reason {
    match ask {
        AskWeight::DayUnknown => {
            Reason::new("weight-day-unknown", "nobody knows when it was taken")
        }
        AskWeight::Old { days, limit } => Reason::new(
            "weight-old",
            format!("the weight is {days} days old, the limit is {limit}"),
        ),
        AskWeight::MayHaveGrown { days } => Reason::new(
            "weight-may-have-grown",
            format!("in {days} days a child may have grown into another line"),
        ),
        AskWeight::NearEdge { days } => Reason::new(
            "weight-near-edge",
            format!("close to another line, and {days} days old"),
        ),
        AskWeight::LostALittle { before } => Reason::new(
            "weight-lost",
            format!("it was {} before: weigh a second time", before.typed()),
        ),
    }
}

pub fn bags(serving: &Serving) -> Vec<Sack> {
    serving.bags.iter().map(sack).collect()
}

fn sack(bag: &Bag) -> Sack {
    let takes = bag.pick.takes.iter().map(|take| Taken {
        lot: take.lot.lot.clone(),
        packs: take.packs,
        each: take.each,
    });
    let passed = bag.pick.passed_over.iter().map(|passed| Passed {
        lot: passed.lot.lot.clone(),
        why: Reason::new(passed.why.code(), why(passed.why)),
    });
    Sack {
        person: bag.person,
        product: bag.product.clone(),
        packs: bag.packs,
        takes: takes.collect(),
        short: bag.pick.short,
        passed_over: passed.collect(),
    }
}

fn why(why: Why) -> String {
    match why {
        Why::Recalled => "the issuer called it back".to_owned(),
        Why::SetAside => "the issuer wants it set aside".to_owned(),
        Why::Expired { on } => format!("its last day was {on}"),
        Why::Empty => "nothing of it is left".to_owned(),
        Why::Unknown => "it was never received here".to_owned(),
    }
}

pub fn for_lead(found: &[ForLead]) -> Vec<Reason> {
    found
        .iter()
        .map(|found| Reason::new(found.code(), lead_words(found)))
        .collect()
}

fn lead_words(found: &ForLead) -> String {
    match found {
        ForLead::ServedBefore {
            at,
            until: Some(until),
        } => format!("this home was served at {at}, and that is enough until {until}"),
        ForLead::ServedBefore { at, until: None } => format!("this home was served at {at}"),
        ForLead::SamePeople { home, at } => {
            format!("people with the same weights and ages were served at {at} as home {home}")
        }
        ForLead::CodeConflicting => {
            "two codes of this home do not say the same, or come from two devices".to_owned()
        }
        ForLead::OtherOrder => {
            "the code is of another order, or of a revision that is not known here".to_owned()
        }
        ForLead::OrderStopped { notice } => format!("the issuer stopped the order ({notice})"),
        ForLead::Short { product, packs } => {
            format!("{packs} packs of {product} are missing on the shelves")
        }
        ForLead::ExpiresInCourse { product } => {
            format!("what there is of {product} expires before the last day it is for")
        }
        ForLead::Collector => "nobody grown up came to collect".to_owned(),
        ForLead::TooManyPeople { most } => {
            format!("by the issuer's notice one person collects for {most} at most")
        }
        ForLead::NotToday => "the issuer's notice names other days".to_owned(),
    }
}

pub fn remarks(found: &[Remark]) -> Vec<Reason> {
    found.iter().map(remark).collect()
}

fn remark(found: &Remark) -> Reason {
    match found {
        Remark::OldCode { hours } => Reason::new(
            "code-old",
            format!("the code is {hours} hours old: ask whether anything changed"),
        ),
        Remark::AskAgain => Reason::new(
            "ask-again",
            "the answers are from before the last hand-out: ask again",
        ),
        Remark::Interpreter { language } => Reason::new(
            "interpreter",
            format!("an interpreter is wanted: {language}"),
        ),
        Remark::Extended { lot, until } => Reason::new(
            "lot-extended",
            format!("lot {lot} may be used until {until}, by the issuer's notice"),
        ),
        Remark::AtHome { lot } => Reason::new(
            "lot-at-home",
            format!("lot {lot} is at home and must not be used"),
        ),
        Remark::CourseOver { person } => {
            Reason::new("course-over", format!("the course of {person} is over"))
        }
    }
}

pub fn readable(document: &Document, order: &CheckedOrder) -> String {
    let mut lines = vec![format!(
        "home {}{}, code {}",
        document.home,
        document
            .words
            .as_ref()
            .map(|words| format!(" ({words})"))
            .unwrap_or_default(),
        document.issue
    )];
    for person in &document.people {
        let name = person.nickname.clone();
        let name = name.unwrap_or_else(|| person.person.to_string());
        match &person.dose {
            Some(dose) => lines.push(format!("  {name}: {}", dose.text)),
            None => lines.push(format!("  {name}: no dose now")),
        }
        let told = person.reasons.iter().chain(&person.weigh_again);
        lines.extend(told.map(|reason| format!("    {} ({})", reason.text, reason.code)));
        for key in &person.ask_in_private {
            lines.push(format!("    ask in private: {key}"));
        }
        for key in &person.cautions {
            let question = order.questions.iter().find(|question| question.key == *key);
            let then = question.and_then(|question| question.then_for(&name).remove("en"));
            lines.push(format!("    {key}: {}", then.unwrap_or("yes".to_owned())));
        }
    }
    for sack in &document.bags {
        let whom = sack
            .person
            .map_or("the home".to_owned(), |id| id.to_string());
        lines.push(format!(
            "bag for {whom}: {} packs of {}",
            sack.packs, sack.product
        ));
        for take in &sack.takes {
            lines.push(format!(
                "  {} packs of {} from lot {}",
                take.packs, take.each, take.lot
            ));
        }
        for passed in &sack.passed_over {
            lines.push(format!(
                "  not from lot {}: {}",
                passed.lot, passed.why.text
            ));
        }
    }
    for reason in &document.for_lead {
        lines.push(format!("for the lead: {} ({})", reason.text, reason.code));
    }
    for remark in &document.remarks {
        lines.push(format!("remark: {} ({})", remark.text, remark.code));
    }
    if let Some(until) = &document.enough_until {
        lines.push(format!("enough until {until}"));
    }
    if let Some(id) = &document.hand_out {
        lines.push(format!("handed out: {id}"));
    }
    if let Some(slip) = &document.slip {
        match &slip.file {
            Some(file) => lines.push(format!("slip: {file}\n{}", slip.text)),
            None => lines.push(format!("slip:\n{}", slip.text)),
        }
        lines.push(format!("{}: mark of this desk {}", slip.site, slip.mark));
    }
    lines.join("\n") + "\n"
}
