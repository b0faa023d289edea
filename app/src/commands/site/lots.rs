//! `site reconcile`, `site undo` and `site recall`: what is put right by hand, and who holds a lot.

use std::collections::BTreeMap;
use std::path::PathBuf;

use hearthdose_core::household::HouseholdId;
use hearthdose_core::record::{Event, Fact, FactId, LotName, SiteEvent, put_right};
use hearthdose_core::site::take_back;
use serde::Serialize;

use super::{lead_reason, refused};
use crate::answer::{Answer, Exit, Stop};
use crate::arguments::site::{Recall, Reconcile, Undo};
use crate::site::record::{SiteRecord, at_site, fresh, moment};
use crate::site::{guard, story};

#[derive(Serialize)]
struct Counted {
    outcome: &'static str,
    product: String,
    lot: String,
    /// Packs by the sum, before.
    sum: i64,
    counted: u32,
    difference: i64,
}

pub fn reconcile(asked: &Reconcile, data: Option<PathBuf>) -> Result<Answer, Stop> {
    let reason = lead_reason(asked.lead.as_deref(), "a count put right by hand")?;
    let now = moment(&asked.at)?;
    let mut record = SiteRecord::open(data)?;
    guard::as_lead(&mut record, &asked.pin)?;
    let lot = LotName {
        product: asked.product.clone(),
        lot: asked.lot.clone(),
    };
    let stock = record.stock()?;
    let sum = stock.lot(&lot).map(|lot| lot.packs()).ok_or_else(|| {
        let text = format!("nothing of {} lot {} was ever here", lot.product, lot.lot);
        refused("lot-unknown", text)
    })?;
    let difference = i64::from(asked.counted).saturating_sub(sum);
    let event = SiteEvent::LotCounted {
        lot,
        counted: asked.counted,
        difference,
        reason,
    };
    record.write(&now, None, vec![at_site(event)])?;
    let document = Counted {
        outcome: "counted",
        product: asked.product.clone(),
        lot: asked.lot.clone(),
        sum,
        counted: asked.counted,
        difference,
    };
    let text = format!(
        "{} lot {}: {} packs were counted, the sum said {sum}; the difference is {difference:+}\n",
        document.product, document.lot, document.counted
    );
    Answer::new(Exit::Done, &document, text)
}

#[derive(Serialize)]
struct Undone {
    outcome: &'static str,
    hand_out: String,
    home: String,
    back: Vec<Back>,
}

#[derive(Serialize)]
struct Back {
    product: String,
    lot: String,
    packs: u32,
}

pub fn undo(asked: &Undo, data: Option<PathBuf>) -> Result<Answer, Stop> {
    let reason = lead_reason(asked.lead.as_deref(), "undoing a hand-out")?;
    let now = moment(&asked.at)?;
    let id = asked
        .hand_out
        .trim()
        .parse()
        .map(FactId)
        .map_err(|_| Stop::unusable(format!("“{}” is no id of a hand-out", asked.hand_out)))?;
    let mut record = SiteRecord::open(data)?;
    guard::as_lead(&mut record, &asked.pin)?;
    let facts = record.facts()?;
    let home = home_of(&facts, id)?;
    let out = record
        .home(home)?
        .and_then(|home| home.handed_out.into_iter().find(|out| out.fact == id))
        .ok_or_else(|| refused("already-undone", "this hand-out was undone before"))?;
    let back = take_back(&out);
    let gone = put_right(&facts, id, None, Some(&reason));
    let mut events: Vec<_> = gone.into_iter().map(|event| (fresh(), event)).collect();
    let mut document = Undone {
        outcome: "undone",
        hand_out: id.0.to_string(),
        home: home.to_string(),
        back: Vec::new(),
    };
    for event in back {
        if let SiteEvent::LotBack { lot, packs, .. } = &event {
            document.back.push(Back {
                product: lot.product.clone(),
                lot: lot.lot.clone(),
                packs: *packs,
            });
        }
        events.push(at_site(event));
    }
    record.write(&now, None, events)?;
    let mut text = format!("undone, for this reason: {reason}\n");
    for back in &document.back {
        text.push_str(&format!(
            "  {} packs of {} lot {} go back onto the shelf\n",
            back.packs, back.product, back.lot
        ));
    }
    Answer::new(Exit::Done, &document, text)
}

fn home_of(facts: &[Fact], id: FactId) -> Result<HouseholdId, Stop> {
    let found = facts.iter().find(|fact| fact.id == id);
    match found.map(|fact| &fact.event) {
        Some(Event::Site {
            site: SiteEvent::HandedOut { home, .. },
        }) => Ok(*home),
        Some(_) => Err(refused("not-a-hand-out", "this id names something else")),
        None => Err(refused(
            "hand-out-unknown",
            "no hand-out of this id is in the record",
        )),
    }
}

#[derive(Serialize)]
struct Holders {
    lot: String,
    homes: Vec<Holder>,
}

#[derive(Default, Serialize)]
struct Holder {
    home: String,
    /// How helpers find it, where somebody said.
    words: Option<String>,
    /// Packs handed out here.
    packs: u32,
    /// Its newest code says that the lot is there.
    told: bool,
}

pub fn recall(asked: &Recall, data: Option<PathBuf>) -> Result<Answer, Stop> {
    let record = SiteRecord::open(data)?;
    let facts = record.facts()?;
    let same = |lot: &str| lot.trim().eq_ignore_ascii_case(asked.lot.trim());
    let mut homes: BTreeMap<HouseholdId, Holder> = BTreeMap::new();
    for (home, out) in story::hand_outs(&facts) {
        for line in out.lines.iter().filter(|line| same(&line.lot.lot)) {
            let holder = homes.entry(home).or_default();
            holder.packs = holder.packs.saturating_add(line.packs);
        }
    }
    for (home, codes) in story::codes(&facts) {
        let mut people = codes.last().into_iter().flat_map(|code| &code.people);
        let told = people.any(|person| {
            let lot = person
                .supply
                .as_ref()
                .and_then(|supply| supply.lot.as_ref());
            lot.is_some_and(|lot| same(lot))
        });
        if told {
            homes.entry(home).or_default().told = true;
        }
    }
    let mut document = Holders {
        lot: asked.lot.clone(),
        homes: Vec::new(),
    };
    for (id, holder) in homes {
        let Some(home) = record.home(id)?.filter(|home| !home.erased) else {
            continue;
        };
        document.homes.push(Holder {
            home: id.to_string(),
            words: home.words,
            ..holder
        });
    }
    let mut text = format!("{} homes hold lot {}\n", document.homes.len(), document.lot);
    for holder in &document.homes {
        let words = holder.words.as_deref().unwrap_or("not named");
        let how = match (holder.packs, holder.told) {
            (0, _) => "by its code".to_owned(),
            (packs, _) => format!("{packs} packs handed out"),
        };
        text.push_str(&format!("  {}  {words}: {how}\n", holder.home));
    }
    Answer::new(Exit::Done, &document, text)
}
