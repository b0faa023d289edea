//! What a confirmed hand-out becomes: facts for the record, a slip for the home.

use std::collections::BTreeMap;

use jiff::Timestamp;

use super::handed_out::HandedOut;
use super::home::Home;
use super::serve::Serving;
use super::stock::Stock;
use super::told::Remark;
use crate::exchange::{OrderMark, Slip, SlipLine, SlipUnit};
use crate::order::{CheckedOrder, Form};
use crate::record::{FactId, HandOutLine, LotName, SiteEvent};

/// The events of one hand-out, which are saved together; `id` names the first of them.
///
/// Nothing where no bag has anything in it, or where it needs a lead and no lead's reason was given.
pub fn hand_out(
    home: &Home,
    serving: &Serving,
    id: FactId,
    lead: Option<String>,
) -> Option<Vec<SiteEvent>> {
    let lines: Vec<HandOutLine> = serving
        .bags
        .iter()
        .flat_map(|bag| {
            bag.pick.takes.iter().map(|take| HandOutLine {
                person: bag.person,
                lot: take.lot.clone(),
                packs: take.packs,
                each: take.each,
            })
        })
        .collect();
    let together = serving.bags.iter().find(|bag| bag.person.is_none());
    let has_reason = lead.as_ref().is_some_and(|why| !why.trim().is_empty());
    if lines.is_empty() || (!serving.for_lead.is_empty() && !has_reason) {
        return None;
    }
    let mut events = vec![SiteEvent::HandedOut {
        home: home.id,
        issue: home.code()?.issue,
        lines: lines.clone(),
        people: together.map_or_else(Vec::new, |bag| bag.people.clone()),
        enough_until: serving.enough_until,
        lead,
        in_count: Vec::new(),
    }];
    events.extend(leaving(&lines, id));
    Some(events)
}

/// What leaves the shelves with a hand-out, one event for a lot.
pub(super) fn leaving(lines: &[HandOutLine], id: FactId) -> impl Iterator<Item = SiteEvent> {
    let out = move |(lot, packs)| SiteEvent::LotOut {
        lot,
        packs,
        hand_out: id,
    };
    by_lot(lines).into_iter().map(out)
}

/// What goes back onto the shelves when a hand-out is undone; its own fact is withdrawn with it.
///
/// One event for a lot, however many bags had some of it, so that two devices that undo the same say the same.
pub fn take_back(out: &HandedOut) -> Vec<SiteEvent> {
    let back = |(lot, packs)| SiteEvent::LotBack {
        lot,
        packs,
        hand_out: out.fact,
    };
    let lots = by_lot(&out.lines).into_iter();
    let taken = lots.filter(|(lot, _)| !out.in_count.contains(lot));
    taken.map(back).collect()
}

/// Packs of all bags, by lot.
fn by_lot(lines: &[HandOutLine]) -> BTreeMap<LotName, u32> {
    let mut lots = BTreeMap::new();
    for line in lines {
        let packs = lots.entry(line.lot.clone()).or_insert(0_u32);
        *packs = packs.saturating_add(line.packs);
    }
    lots
}

/// The slip of a hand-out. `site` is the name of the site, never a helper's name.
///
/// Nothing where the order does not know a product that was handed out, or a count passes what a slip holds.
pub fn slip(
    order: &CheckedOrder,
    stock: &Stock,
    home: &Home,
    out: &HandedOut,
    remarks: &[Remark],
    site: &str,
) -> Option<Slip> {
    let lines: Option<Vec<SlipLine>> = out
        .lines
        .iter()
        .map(|line| {
            let product = order.product(&line.lot.product)?;
            let liquid = product.form == Form::Liquid;
            let count = if liquid {
                line.packs
            } else {
                line.packs.checked_mul(line.each)?
            };
            Some(SlipLine {
                person: line.person,
                product: product.label_says.join(" "),
                lot: Some(line.lot.lot.clone()),
                expiry: stock.lot(&line.lot).and_then(|lot| lot.expiry),
                count,
                unit: if liquid {
                    SlipUnit::Bottles
                } else {
                    SlipUnit::Tablets
                },
                enough_until: out.enough_until,
                extension: extension(remarks, &line.lot.lot),
            })
        })
        .collect();
    Some(Slip {
        household: home.id,
        issue: out.issue,
        site: site.to_owned(),
        at: minute(out.at),
        order: Some(OrderMark::of(order)),
        lines: lines?,
    })
}

fn minute(at: Timestamp) -> Timestamp {
    crate::exchange::minute(at)
}

fn extension(remarks: &[Remark], lot: &str) -> Option<String> {
    remarks.iter().find_map(|remark| match remark {
        Remark::Extended { lot: named, until } if named == lot => {
            Some(format!("may be used until {until}, by the issuer's notice"))
        }
        _ => None,
    })
}
