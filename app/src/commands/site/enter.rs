//! `site enter`: a line of a paper list comes into the record with its real time.

use std::path::PathBuf;

use hearthdose_core::order::CheckedOrder;
use hearthdose_core::record::{Event, LotName, SiteEvent};
use hearthdose_core::site::{Desk, Written, from_paper};
use hearthdose_core::time::Now;
use serde::Serialize;

use super::{lead_reason, refused, which};
use crate::answer::{Answer, Exit, Stop};
use crate::arguments::site::Enter;
use crate::input;
use crate::site::guard;
use crate::site::record::{SiteRecord, fresh, moment};

#[derive(Serialize)]
struct Document {
    outcome: &'static str,
    hand_out: String,
    home: String,
    given_at: String,
    lots: Vec<Line>,
    enough_until: Option<String>,
}

#[derive(Serialize)]
struct Line {
    product: String,
    lot: String,
    packs: u32,
    /// A count after the hand-out lacks these packs already, so they were not taken off again.
    in_count: bool,
}

pub fn run(asked: &Enter, data: Option<PathBuf>) -> Result<Answer, Stop> {
    let order = input::order(&asked.order)?;
    let now = moment(&asked.at)?;
    let written = Written {
        at: input::instant(&asked.given_at)?,
        packs: packs(asked, &order)?,
        reason: lead_reason(asked.lead.as_deref(), "what a paper list says")?,
    };
    let mut record = SiteRecord::open(data)?;
    guard::as_lead(&mut record, &asked.pin)?;
    let id = which::home(&asked.which, &record)?;
    let home = record.home(id)?.filter(|home| !home.erased);
    let home = home.ok_or_else(|| {
        refused(
            "home-unknown",
            "nothing of this home is recorded here: read its code with site serve first",
        )
    })?;
    let (notices, stock) = (record.notices()?, record.stock()?);
    let same_people = record.same_people(&home)?;
    let desk = Desk {
        order: &order,
        notices: &notices,
        stock: &stock,
        now: now.wall,
        same_people: &same_people,
    };
    let mut counts = Vec::new();
    for (lot, _) in &written.packs {
        counts.push((lot.clone(), record.last_count(lot)?));
    }
    let counted = |lot: &LotName| counts.iter().find(|(name, _)| name == lot)?.1;
    let fact = fresh();
    let events = from_paper(&desk, &home, &written, counted, fact)
        .map_err(|why| refused(why.code(), why.to_string()))?;
    let document = document(&events, &written, fact.0.to_string(), id.to_string());
    let mut ids = Some(fact);
    let events = events.into_iter().map(|site| {
        let id = ids.take().unwrap_or_else(fresh);
        (id, Event::Site { site })
    });
    let then = Now::wall_only(written.at);
    record.write(&then, Some(&order), events.collect())?;
    let mut text = format!("written down: given out at {}\n", document.given_at);
    for line in &document.lots {
        let counted = match line.in_count {
            true => "; a later count lacks them already",
            false => "",
        };
        text.push_str(&format!(
            "  {} packs of {} lot {}{counted}\n",
            line.packs, line.product, line.lot
        ));
    }
    Answer::new(Exit::Done, &document, text)
}

fn document(events: &[SiteEvent], written: &Written, hand_out: String, home: String) -> Document {
    let mut document = Document {
        outcome: "written-down",
        hand_out,
        home,
        given_at: written.at.to_string(),
        lots: Vec::new(),
        enough_until: None,
    };
    if let Some(SiteEvent::HandedOut {
        lines,
        in_count,
        enough_until,
        ..
    }) = events.first()
    {
        document.enough_until = enough_until.map(|day| day.to_string());
        let lots = lines.iter().map(|line| Line {
            product: line.lot.product.clone(),
            lot: line.lot.lot.clone(),
            packs: line.packs,
            in_count: in_count.contains(&line.lot),
        });
        document.lots = lots.collect();
    }
    document
}

fn packs(asked: &Enter, order: &CheckedOrder) -> Result<Vec<(LotName, u32)>, Stop> {
    let product = match &asked.product {
        Some(key) => key.clone(),
        None => order
            .main_product()
            .map(|product| product.key.clone())
            .ok_or_else(|| {
                Stop::unusable("the order has no product of its own: name one with --product")
            })?,
    };
    let each = asked.packs.iter().map(|text| {
        let read = text.rsplit_once('=').and_then(|(lot, packs)| {
            let lot = LotName {
                product: product.clone(),
                lot: lot.trim().to_owned(),
            };
            Some((lot, packs.trim().parse().ok()?))
        });
        read.ok_or_else(|| Stop::unusable(format!("packs: “{text}”: write LOT=N")))
    });
    each.collect()
}
