//! What a merged record shows that one device alone could not: homes served twice, codes and corrections that contradict each other.

use hearthdose_core::record::{Change, Conflict, Event, Fact, effective};
use hearthdose_core::site::{HandedOut, Home, Seen, is_twice};
use serde::Serialize;

use crate::answer::Stop;
use crate::site::record::{SiteRecord, hex};
use crate::site::story;

#[derive(Serialize)]
pub struct Report {
    pub served_twice: Vec<Twice>,
    pub code_conflicts: Vec<Codes>,
    pub correction_conflicts: Vec<Corrections>,
    pub lots_below_zero: Vec<Below>,
}

#[derive(Serialize)]
pub struct Twice {
    pub home: String,
    pub words: Option<String>,
    pub hand_outs: Vec<Out>,
}

#[derive(Serialize)]
pub struct Out {
    pub hand_out: String,
    pub at: String,
    pub device: String,
    /// By this device.
    pub here: bool,
    pub lead: Option<String>,
    pub lines: Vec<Line>,
}

#[derive(Serialize)]
pub struct Line {
    pub product: String,
    pub lot: String,
    pub packs: u32,
}

#[derive(Serialize)]
pub struct Codes {
    pub home: String,
    pub words: Option<String>,
    pub codes: Vec<CodeSeen>,
}

#[derive(Serialize)]
pub struct CodeSeen {
    pub issue: u32,
    pub made: String,
    pub people: usize,
    pub signer: String,
}

#[derive(Serialize)]
pub struct Corrections {
    pub target: String,
    pub corrections: Vec<Said>,
}

#[derive(Serialize)]
pub struct Said {
    pub correction: String,
    pub device: String,
    pub at: String,
    /// Null for one that withdraws.
    pub instead: Option<Event>,
}

#[derive(Serialize)]
pub struct Below {
    pub product: String,
    pub lot: String,
    pub packs: i64,
}

pub fn report(record: &SiteRecord) -> Result<Report, Stop> {
    let facts = record.facts()?;
    let outs = story::hand_outs(&facts);
    let mut served_twice = Vec::new();
    let mut code_conflicts = Vec::new();
    for id in story::homes(&facts) {
        let mine = outs.iter().filter(|(home, _)| *home == id);
        let mine: Vec<&HandedOut> = mine.map(|(_, out)| out).collect();
        let several = story::codes_said(&facts, id) > 1;
        if mine.len() < 2 && !several {
            continue;
        }
        let Some(home) = record.home(id)?.filter(|home| !home.erased) else {
            continue;
        };
        if is_any_twice(&mine) {
            served_twice.push(Twice {
                home: id.to_string(),
                words: home.words.clone(),
                hand_outs: mine.iter().map(|out| told(out, record)).collect(),
            });
        }
        if home.conflicting {
            code_conflicts.push(codes(&home));
        }
    }
    let conflicts = effective(&facts).conflicts;
    let stock = record.stock()?;
    let below = stock.lots().filter(|(_, lot)| lot.packs() < 0);
    Ok(Report {
        served_twice,
        code_conflicts,
        correction_conflicts: conflicts
            .iter()
            .map(|conflict| corrections(conflict, &facts))
            .collect(),
        lots_below_zero: below
            .map(|(name, lot)| Below {
                product: name.product.clone(),
                lot: name.lot.clone(),
                packs: lot.packs(),
            })
            .collect(),
    })
}

/// Whether any two of them are one too many.
fn is_any_twice(outs: &[&HandedOut]) -> bool {
    outs.iter().enumerate().any(|(at, first)| {
        let mut others = outs.iter().skip(at + 1);
        others.any(|other| is_twice(first, other))
    })
}

fn told(out: &HandedOut, record: &SiteRecord) -> Out {
    let lines = out.lines.iter().map(|line| Line {
        product: line.lot.product.clone(),
        lot: line.lot.lot.clone(),
        packs: line.packs,
    });
    Out {
        hand_out: out.fact.0.to_string(),
        at: out.at.to_string(),
        device: out.device.0.to_string(),
        here: out.device == record.device(),
        lead: out.lead.clone(),
        lines: lines.collect(),
    }
}

fn codes(home: &Home) -> Codes {
    let seen = |seen: &Seen| CodeSeen {
        issue: seen.code.issue,
        made: seen.code.made.to_string(),
        people: seen.code.people.len(),
        signer: hex(&seen.signer.id()),
    };
    Codes {
        home: home.id.to_string(),
        words: home.words.clone(),
        codes: home.seen.iter().map(seen).collect(),
    }
}

fn corrections(conflict: &Conflict, facts: &[Fact]) -> Corrections {
    let said = facts
        .iter()
        .filter(|fact| conflict.corrections.contains(&fact.id));
    Corrections {
        target: conflict.target.0.to_string(),
        corrections: said
            .map(|fact| Said {
                correction: fact.id.0.to_string(),
                device: fact.stamp.device.0.to_string(),
                at: fact.at.to_string(),
                instead: match &fact.event {
                    Event::Correction {
                        change: Change::Replace { event, .. },
                        ..
                    } => Some((**event).clone()),
                    _ => None,
                },
            })
            .collect(),
    }
}

/// Both sides under each other.
pub fn readable(report: &Report) -> String {
    let mut lines = Vec::new();
    let name = |words: &Option<String>| {
        let words = words.as_ref().map(|words| format!(" ({words})"));
        words.unwrap_or_default()
    };
    for twice in &report.served_twice {
        lines.push(format!(
            "served twice: home {}{}",
            twice.home,
            name(&twice.words)
        ));
        for out in &twice.hand_outs {
            let who = if out.here { "this device" } else { "device" };
            let packs = out.lines.iter();
            let packs: Vec<String> = packs
                .map(|line| format!("{} packs of {} lot {}", line.packs, line.product, line.lot))
                .collect();
            let lead = out
                .lead
                .as_ref()
                .map(|why| format!("; the lead said: {why}"));
            lines.push(format!(
                "  {} by {who} {}: {}{}",
                out.at,
                out.device,
                packs.join(", "),
                lead.unwrap_or_default()
            ));
        }
    }
    for codes in &report.code_conflicts {
        lines.push(format!(
            "codes that do not agree: home {}{}",
            codes.home,
            name(&codes.words)
        ));
        for code in &codes.codes {
            lines.push(format!(
                "  code {} of {}, made {}, {} people",
                code.issue, code.signer, code.made, code.people
            ));
        }
    }
    for conflict in &report.correction_conflicts {
        lines.push(format!(
            "corrections that do not agree, of {}",
            conflict.target
        ));
        for said in &conflict.corrections {
            let what = if said.instead.is_some() {
                "puts something else in its place"
            } else {
                "withdraws it"
            };
            lines.push(format!("  {} by device {}: {what}", said.at, said.device));
        }
    }
    for below in &report.lots_below_zero {
        lines.push(format!(
            "below zero: {} lot {}: {} packs; count it",
            below.product, below.lot, below.packs
        ));
    }
    lines.iter().map(|line| format!("{line}\n")).collect()
}
