//! What a home may carry away now: everybody's dose worked out anew, holds first, whole packs from the right lots.

use jiff::Timestamp;
use jiff::civil::Date;

use super::home::Home;
use super::pick::{Need, Pick, Wanted, pick};
use super::stock::Stock;
use super::told::{ForLead, Remark, before_the_bags, is_for_longer, of_people, remarks};
use super::wants::{self, Wants};
use crate::dose::{self, Dose};
use crate::exchange::{HouseholdCode, PersonCode, is_private};
use crate::household::HouseholdId;
use crate::order::{CheckedOrder, IfYes, Notice, Order};
use crate::schedule;
use crate::screening::{Reason, ReasonKind};
use crate::today::{AskWeight, InForce, LotStanding, ask_by_age};

/// A helper's desk at one moment.
#[derive(Clone, Copy, Debug)]
pub struct Desk<'a> {
    pub order: &'a CheckedOrder,
    pub notices: &'a [Notice],
    pub stock: &'a Stock,
    pub now: Timestamp,
    /// Ids of other homes with the same people, and when they were last served.
    pub same_people: &'a [(HouseholdId, Timestamp)],
}

/// What the helper sees.
#[derive(Clone, Debug, PartialEq)]
pub struct Serving {
    pub day: Date,
    /// Who must be asked or held first, then everybody with a dose.
    pub people: Vec<Shown>,
    /// What goes out, one bag for each person or one for the home.
    pub bags: Vec<Bag>,
    /// What only the lead may let pass.
    pub for_lead: Vec<ForLead>,
    pub remarks: Vec<Remark>,
    pub enough_until: Option<Date>,
}

/// One person at the desk.
#[derive(Clone, Debug, PartialEq)]
pub struct Shown {
    pub id: u16,
    pub nickname: Option<String>,
    /// Code of the person as it was scanned.
    pub coded: PersonCode,
    pub dose: Result<Dose, Vec<Reason>>,
    /// Keys of questions whose yes asks for words, not for a hold.
    pub cautions: Vec<String>,
    /// Keys of questions to ask in private.
    pub ask_in_private: Vec<String>,
    pub weigh_again: Vec<AskWeight>,
}

/// What is put into one bag.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bag {
    /// None for the home together.
    pub person: Option<u16>,
    /// Whom it is for, by number.
    pub people: Vec<u16>,
    /// Product key in the order.
    pub product: String,
    /// Packs it should hold, those that are short with it.
    pub packs: u32,
    /// Tablets, or millilitres, in one pack as the order has it, 1 where it names none; a lot may have others.
    pub each: u32,
    pub pick: Pick,
}

/// What to do for a home; nothing while none of its codes was read.
pub fn serve(desk: &Desk<'_>, home: &Home) -> Option<Serving> {
    let code = home.code()?;
    let day = day_of(desk.order, desk.now);
    let force = InForce::of_notices(desk.notices, desk.order);
    let mut people: Vec<Shown> = code
        .people
        .iter()
        .map(|coded| shown(desk.order, home, coded, day))
        .collect();
    people.sort_by_key(|shown| (rank(shown), place(code, shown.id)));
    let wants = wants::of(desk.order, home, &force, &people, day);
    let mut remarks = remarks(home, code, desk.now);
    remarks.extend(of_people(desk.order, home, &force, &people, day));
    let mut serving = Serving {
        day,
        people,
        bags: Vec::new(),
        for_lead: before_the_bags(desk, home, code, day, &force),
        remarks,
        enough_until: wants.as_ref().map(|wants| wants.last_day),
    };
    if let Some(wants) = wants {
        fill_bags(desk, home, &force, &wants, &mut serving);
    }
    Some(serving)
}

/// The day at the site, in the zone of the order.
pub(super) fn day_of(order: &Order, now: Timestamp) -> Date {
    let zone = schedule::zone(&order.time_zone).unwrap_or(jiff::tz::TimeZone::UTC);
    zone.to_datetime(now).date()
}

fn shown(order: &CheckedOrder, home: &Home, coded: &PersonCode, day: Date) -> Shown {
    let person = home.person(coded, order);
    let asked_in_private = order
        .questions
        .iter()
        .filter(|question| is_private(&question.key))
        .filter(|question| !person.answers.contains_key(&question.key) && !person.cleared);
    let cautions = order.questions.iter().filter(|question| {
        question.if_yes == IfYes::Caution
            && person.answers.get(&question.key) == Some(&crate::household::Answer::Yes)
    });
    Shown {
        id: coded.id,
        nickname: coded.nickname.clone(),
        coded: coded.clone(),
        cautions: cautions.map(|question| question.key.clone()).collect(),
        ask_in_private: asked_in_private
            .map(|question| question.key.clone())
            .collect(),
        weigh_again: ask_by_age(order, &person, day),
        dose: dose::work_out(order, &person, day),
    }
}

/// Stops and holds in front, then what is missing, then cautions, then the rest.
fn rank(shown: &Shown) -> u8 {
    match &shown.dose {
        Err(reasons) => {
            let worst = reasons.iter().map(|reason| reason.kind).max();
            match worst {
                Some(ReasonKind::Stop) => 0,
                Some(ReasonKind::Hold) => 1,
                _ => 2,
            }
        }
        Ok(_) if !shown.cautions.is_empty() || !shown.weigh_again.is_empty() => 3,
        Ok(_) => 4,
    }
}

fn place(code: &HouseholdCode, id: u16) -> Option<usize> {
    code.people.iter().position(|person| person.id == id)
}

/// Bag after bag from what the ones before left, one lot for all where one has enough.
fn fill_bags(
    desk: &Desk<'_>,
    home: &Home,
    force: &InForce<'_>,
    wants: &Wants,
    serving: &mut Serving,
) {
    let wanted = Wanted {
        product: &wants.product,
        each: wants.each,
        today: serving.day,
        last_day: wants.last_day,
    };
    let bags = for_whom(desk.order, home, wants, serving.day);
    let needs: Vec<_> = bags.iter().map(|(_, need)| *need).collect();
    let picks = pick(desk.stock, &wanted, &needs, |lot| force.lot(lot));
    let product = || wants.product.clone();
    let short = picks
        .iter()
        .fold(0_u32, |sum, pick| sum.saturating_add(pick.short));
    if short > 0 {
        let (product, packs) = (product(), short);
        serving.for_lead.push(ForLead::Short { product, packs });
        // What is there is not enough until then.
        serving.enough_until = None;
    }
    if picks.iter().any(|pick| pick.expires_in_course) {
        let product = product();
        serving.for_lead.push(ForLead::ExpiresInCourse { product });
    }
    for take in picks.iter().flat_map(|pick| &pick.takes) {
        if let LotStanding::Extended { until } = force.lot(&take.lot.lot) {
            let lot = take.lot.lot.clone();
            let remark = Remark::Extended { lot, until };
            if !serving.remarks.contains(&remark) {
                serving.remarks.push(remark);
            }
        }
    }
    for ((person, _), pick) in bags.iter().zip(picks) {
        // Nobody may use it after its own last day.
        if let (Some(until), Some(good)) = (serving.enough_until, pick.good_until) {
            serving.enough_until = Some(until.min(good));
        }
        serving.bags.push(Bag {
            person: *person,
            people: person.map_or_else(|| wants.people.clone(), |person| vec![person]),
            product: product(),
            packs: pick.packs(),
            each: wants.each,
            pick,
        });
    }
}

/// The bags that are due: where some people of a home were served before and others never, those of the others.
fn for_whom(
    order: &CheckedOrder,
    home: &Home,
    wants: &Wants,
    day: Date,
) -> Vec<(Option<u16>, Need)> {
    let is_served = |person: Option<u16>| {
        home.handed_out.iter().any(|out| {
            let mut lines = out.lines.iter();
            is_for_longer(order, out, day)
                && lines.any(|line| line.person == person && line.lot.product == wants.product)
        })
    };
    let (served, due): (Vec<_>, Vec<_>) = wants
        .bags
        .iter()
        .copied()
        .partition(|(person, _)| is_served(*person));
    if due.is_empty() { served } else { due }
}
