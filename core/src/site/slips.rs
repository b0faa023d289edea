//! What a confirmed hand-out becomes: facts for the record, a slip for the home.

use jiff::Timestamp;

use super::home::{HandedOut, Home};
use super::serve::{Remark, Serving};
use super::stock::Stock;
use crate::exchange::{OrderMark, Slip, SlipLine, SlipUnit};
use crate::order::{CheckedOrder, Form};
use crate::record::{FactId, HandOutLine, SiteEvent};

/// The events of one hand-out, which are saved together; `id` names the first of them.
///
/// Nothing where no bag has anything in it.
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
            bag.pick.takes.iter().map(|(lot, packs)| HandOutLine {
                person: bag.person,
                lot: lot.clone(),
                packs: *packs,
                each: bag.each,
            })
        })
        .collect();
    if lines.is_empty() {
        return None;
    }
    let mut events = vec![SiteEvent::HandedOut {
        home: home.id,
        issue: home.code()?.issue,
        lines: lines.clone(),
        enough_until: serving.enough_until,
        lead,
    }];
    events.extend(lines.into_iter().map(|line| SiteEvent::LotOut {
        lot: line.lot,
        packs: line.packs,
        hand_out: id,
    }));
    Some(events)
}

/// The slip of a hand-out. `site` is the code of the site, never a helper's name.
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
