//! `site totals`: how the day goes.

use std::path::PathBuf;

use hearthdose_core::queue;
use hearthdose_core::units::parse_lapse;
use serde::Serialize;

use crate::answer::{Answer, Exit, Stop};
use crate::arguments::site::Totals;
use crate::input;
use crate::site::record::{SiteRecord, moment};

#[derive(Serialize)]
struct Document {
    at: String,
    /// Each home once, however often it was served.
    homes: u64,
    /// Who got something, each once.
    people: u64,
    hand_outs: u64,
    /// Hand-outs in the hour before.
    per_hour: f64,
    hours: Vec<Hour>,
    lots: Vec<Lot>,
    line: Option<Line>,
}

#[derive(Serialize)]
struct Hour {
    from: String,
    hand_outs: u64,
    homes: u64,
    people: u64,
}

#[derive(Serialize)]
struct Lot {
    product: String,
    lot: String,
    expiry: Option<String>,
    packs: i64,
    received: u64,
    out: u64,
    back: u64,
    /// What counting by hand put right.
    counted: i64,
    runs_out_at: Option<String>,
}

/// An estimate by the pace of the last hour.
#[derive(Serialize)]
struct Line {
    stable: bool,
    load_erlang: f64,
    wait_probability: Option<f64>,
    mean_wait_s: Option<f64>,
    queue_length: Option<f64>,
}

pub fn run(asked: &Totals, data: Option<PathBuf>) -> Result<Answer, Stop> {
    let order = input::order(&asked.order)?;
    let zone = hearthdose_core::schedule::zone(&order.time_zone)
        .map_err(|refusal| super::refused(refusal.code(), refusal.to_string()))?;
    let now = moment(&asked.at)?.wall;
    let record = SiteRecord::open(data)?;
    let stock = record.stock()?;
    let figures = record.totals(now)?;
    let local = |at: jiff::Timestamp| at.display_with_offset(zone.to_offset(at)).to_string();
    let lots = figures.lots.iter().map(|outlook| {
        let lot = stock.lot(&outlook.lot).cloned().unwrap_or_default();
        Lot {
            product: outlook.lot.product.clone(),
            lot: outlook.lot.lot.clone(),
            expiry: lot.expiry.map(|day| day.to_string()),
            packs: outlook.packs,
            received: lot.received,
            out: lot.out,
            back: lot.back,
            counted: lot.counted,
            runs_out_at: outlook.out_at.map(local),
        }
    });
    // Whoever comes a second time stands in the line a second time.
    let per_hour = f64::from(u32::try_from(figures.last_hour.hand_outs).unwrap_or(u32::MAX));
    let document = Document {
        at: local(now),
        homes: figures.all.homes,
        people: figures.all.people,
        hand_outs: figures.all.hand_outs,
        per_hour,
        hours: figures
            .hours
            .iter()
            .map(|(from, count)| Hour {
                from: local(*from),
                hand_outs: count.hand_outs,
                homes: count.homes,
                people: count.people,
            })
            .collect(),
        lots: lots.collect(),
        line: line(asked, per_hour)?,
    };
    let text = readable(&document);
    Answer::new(Exit::Done, &document, text)
}

fn line(asked: &Totals, per_hour: f64) -> Result<Option<Line>, Stop> {
    let (Some(servers), Some(service)) = (asked.servers, &asked.service) else {
        return Ok(None);
    };
    let service =
        parse_lapse(service).map_err(|error| Stop::unusable(format!("--service: {error}")))?;
    let line = Some(servers)
        .filter(|servers| *servers <= 100_000)
        .and_then(|servers| queue::line(servers, service, per_hour))
        .ok_or_else(|| Stop::unusable("give at least one server and a service time"))?;
    let waiting = line.waiting;
    Ok(Some(Line {
        stable: waiting.is_some(),
        load_erlang: line.load,
        wait_probability: waiting.map(|w| w.probability),
        mean_wait_s: waiting.map(|w| w.mean_seconds),
        queue_length: waiting.map(|w| w.length),
    }))
}

fn readable(document: &Document) -> String {
    let mut lines = vec![format!(
        "{} homes with {} people were served in {} hand-outs, {:.0} of them in the last hour",
        document.homes, document.people, document.hand_outs, document.per_hour
    )];
    for hour in &document.hours {
        lines.push(format!(
            "  from {}: {} hand-outs for {} people of {} homes",
            hour.from, hour.hand_outs, hour.people, hour.homes
        ));
    }
    for lot in &document.lots {
        let expiry = lot.expiry.as_deref().unwrap_or("not known");
        let mut line = format!(
            "{} lot {}, use by {expiry}: {} packs",
            lot.product, lot.lot, lot.packs
        );
        if let Some(at) = &lot.runs_out_at {
            line.push_str(&format!(", runs out at {at} at this pace"));
        }
        lines.push(line);
    }
    match &document.line {
        Some(Line {
            mean_wait_s: Some(mean),
            queue_length: Some(length),
            ..
        }) => lines.push(format!(
            "the line: {mean:.0} s to wait on average, with {length:.1} standing in it (an estimate)"
        )),
        Some(_) => lines.push(
            "unstable: more homes come than can be served, and this line never ends; add servers"
                .to_owned(),
        ),
        None => {}
    }
    lines.join("\n") + "\n"
}
