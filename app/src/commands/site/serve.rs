//! `site serve`: a home at the desk.
//!
//! What was read, asked and weighed is in the record before anything is shown; a hand-out is one append.

use std::fs;
use std::path::{Path, PathBuf};

use hearthdose_core::exchange::{self, Message, Scan};
use hearthdose_core::order::{CheckedOrder, Notice, parse_notice};
use hearthdose_core::record::{Event, FactId, SiteEvent};
use hearthdose_core::schedule;
use hearthdose_core::site::{self, Desk, HandedOut, Home, Serving, SiteName};
use hearthdose_core::time::Now;
use hearthdose_ui::machine::device::Device;
use hearthdose_ui::machine::picture;
use hearthdose_ui::scan::{self, Frame};

use super::shown::{self, Document, Slip};
use super::{lead_reason, name, refused, scanned, wishes};
use crate::answer::{Answer, Exit, Reason, Stop};
use crate::arguments::site::Serve;
use crate::commands::refusal;
use crate::site::guard;
use crate::site::record::{SiteRecord, at_site, fresh, moment};
use crate::{input, paths};

/// Pixels to a module of a slip's code.
const SCALE: usize = 8;

pub fn run(asked: &Serve, data: Option<PathBuf>) -> Result<Answer, Stop> {
    let order = input::order(&asked.order)?;
    let notices = read_notices(&asked.notices)?;
    let now = moment(&asked.at)?;
    let folder = paths::data_folder(data.clone())
        .ok_or_else(|| Stop::unusable("there is no data folder: set HOME or use --data"))?;
    let scanned = scanned::read(asked, &Device::at(folder))?;
    let zone = schedule::zone(&order.time_zone)
        .map_err(|refusal| refused(refusal.code(), refusal.to_string()))?;
    let day = zone.to_datetime(now.wall).date();
    let told = wishes::told(asked, &order, &scanned.code, day)?;
    let mut record = SiteRecord::open(data)?;
    if asked.lead.is_some() {
        guard::as_lead(&mut record, &asked.pin)?;
    }
    record.keep_order(&order, &input::bytes(&asked.order)?)?;
    let name = name::kept(asked.site.as_deref(), &mut record)?;
    let events = take_note(asked, &record, &scanned, told, notices)?;
    if !events.is_empty() {
        record.write(&now, Some(&order), events)?;
    }
    let mut found = look(&record, &order, &scanned, &now)?;
    let lifted = wishes::lifted(asked, &order, &scanned.code, &found.serving)?;
    if !lifted.is_empty() {
        let events = lifted.into_iter().map(at_site).collect();
        record.write(&now, Some(&order), events)?;
        found = look(&record, &order, &scanned, &now)?;
    }
    let mut document = document(&order, &found);
    if scanned.code.issue < document.issue {
        let text = "this code was retired: a newer one of this home was read, and that counts";
        document.remarks.push(Reason::new("code-retired", text));
    }
    if asked.give {
        let signed = Signed {
            order: &order,
            name,
        };
        give(asked, &mut record, &signed, &now, &found, &mut document)?;
    }
    let text = shown::readable(&document, &order);
    Answer::new(Exit::Done, &document, text)
}

fn read_notices(files: &[PathBuf]) -> Result<Vec<(Notice, String)>, Stop> {
    let read = |path: &PathBuf| {
        let bytes = input::bytes(path)?;
        let notice = parse_notice(&bytes).map_err(|problems| {
            let lines = problems
                .iter()
                .map(|problem| format!("{}: {problem}", path.display()));
            Stop::Unusable(lines.collect())
        })?;
        let text = String::from_utf8(bytes)
            .map_err(|_| Stop::unusable(format!("{} is not UTF-8 text", path.display())))?;
        Ok((notice, text))
    };
    files.iter().map(read).collect()
}

/// What is new in what was read and told; a code or notice that is known already is not said twice.
fn take_note(
    asked: &Serve,
    record: &SiteRecord,
    scanned: &scanned::Scanned,
    told: Vec<SiteEvent>,
    notices: Vec<(Notice, String)>,
) -> Result<Vec<(FactId, Event)>, Stop> {
    let id = scanned.code.household;
    let home = record.home(id)?;
    let mut events = Vec::new();
    let known = record.notices()?;
    for (notice, text) in notices {
        if !known
            .iter()
            .any(|known| known.fingerprint == notice.fingerprint)
        {
            events.push((fresh(), Event::NoticeTaken { text }));
        }
    }
    let mut seen = home.iter().flat_map(|home| &home.seen);
    if !seen.any(|seen| seen.code == scanned.code) {
        events.push(at_site(SiteEvent::HomeSeen {
            home: id,
            code: scanned.text.clone(),
        }));
    }
    if let Some(words) = asked.name.as_ref().map(|words| words.trim().to_owned())
        && !words.is_empty()
    {
        events.push(at_site(SiteEvent::HomeNamed { home: id, words }));
    }
    events.extend(told.into_iter().map(at_site));
    Ok(events)
}

/// The home and what it may carry away, from the record as it is now.
struct Found {
    home: Home,
    serving: Serving,
    stock: site::Stock,
}

fn look(
    record: &SiteRecord,
    order: &CheckedOrder,
    scanned: &scanned::Scanned,
    now: &Now,
) -> Result<Found, Stop> {
    let home = record
        .home(scanned.code.household)?
        .ok_or_else(|| Stop::unusable("the home is not in the record"))?;
    let notices = record.notices()?;
    let stock = record.stock()?;
    let same_people = record.same_people(&home)?;
    let desk = Desk {
        order,
        notices: &notices,
        stock: &stock,
        now: now.wall,
        same_people: &same_people,
    };
    let serving = site::serve(&desk, &home)
        .ok_or_else(|| Stop::unusable("none of the home's codes can be read"))?;
    Ok(Found {
        home,
        serving,
        stock,
    })
}

fn document(order: &CheckedOrder, found: &Found) -> Document {
    let (home, serving) = (&found.home, &found.serving);
    Document {
        outcome: "shown",
        home: home.id.to_string(),
        words: home.words.clone(),
        issue: home.code().map_or(0, |code| code.issue),
        day: serving.day.to_string(),
        people: shown::people(serving),
        bags: shown::bags(serving),
        for_lead: shown::for_lead(&serving.for_lead),
        remarks: shown::remarks(&serving.remarks),
        enough_until: serving.enough_until.map(|day| day.to_string()),
        hand_out: None,
        slip: None,
        signed: false,
        invented: order.invented,
    }
}

/// What a slip is made under.
struct Signed<'a> {
    order: &'a CheckedOrder,
    name: Option<SiteName>,
}

fn give(
    asked: &Serve,
    record: &mut SiteRecord,
    signed: &Signed<'_>,
    now: &Now,
    found: &Found,
    document: &mut Document,
) -> Result<(), Stop> {
    let serving = &found.serving;
    if !serving.bags.iter().any(|bag| !bag.pick.takes.is_empty()) {
        return Err(Stop::refused(nothing_to_give(serving)));
    }
    let order = signed.order;
    let name = signed.name.as_ref().ok_or_else(|| {
        Stop::refused(vec![name::unnamed(
            "the site has no name for its receipts yet: give it one with --site, or with site name",
        )])
    })?;
    let lead = match serving.for_lead.is_empty() {
        true => asked.lead.clone(),
        false => Some(
            lead_reason(asked.lead.as_deref(), "this hand-out")
                .map_err(|_| Stop::refused(shown::for_lead(&serving.for_lead)))?,
        ),
    };
    let id = fresh();
    let events = site::hand_out(&found.home, serving, id, lead)
        .ok_or_else(|| Stop::refused(nothing_to_give(serving)))?;
    // The slip first: a hand-out without one would be half of one.
    let out = handed_out(record, now, id, &events)?;
    let (stock, remarks) = (&found.stock, &serving.remarks);
    let slip = site::slip(order, stock, &found.home, &out, remarks, name.as_str())
        .ok_or_else(|| no_slip("a count in it is too large"))?;
    let key = record.secret()?.key(&order.id);
    let text =
        exchange::write(&Message::Slip(slip), &key).map_err(|why| no_slip(&why.to_string()))?;
    if !matches!(Scan::read(&text), Scan::Message(_)) {
        return Err(no_slip("it is not read as it was written"));
    }
    let frame =
        scan::drawn(&text, SCALE, 1).ok_or_else(|| no_slip("it is too long for one code"))?;
    let mut ids = Some(id);
    let events = events
        .into_iter()
        .map(|site| (ids.take().unwrap_or_else(fresh), Event::Site { site }))
        .collect();
    record.write(now, Some(order), events)?;
    document.outcome = "handed-out";
    document.hand_out = Some(id.0.to_string());
    if let Some(path) = &asked.slip {
        save(&frame, path)?;
    }
    document.slip = Some(Slip {
        text,
        site: name.as_str().to_owned(),
        mark: key.public().mark(),
        file: asked.slip.as_ref().map(|path| path.display().to_string()),
    });
    Ok(())
}

/// The hand-out as the record will have it.
fn handed_out(
    record: &SiteRecord,
    now: &Now,
    fact: FactId,
    events: &[SiteEvent],
) -> Result<HandedOut, Stop> {
    let first = events.first();
    first
        .and_then(|event| HandedOut::of(fact, now.wall, record.device(), event))
        .ok_or_else(|| Stop::unusable("a hand-out begins with something else"))
}

/// Why no bag has anything in it: what holds the people, or what the shelves do not have.
fn nothing_to_give(serving: &Serving) -> Vec<Reason> {
    let mut reasons = vec![Reason::new("nothing-to-give", "no bag has anything in it")];
    for person in &serving.people {
        if let Err(found) = &person.dose {
            let name = person.nickname.clone();
            let name = name.unwrap_or_else(|| person.id.to_string());
            reasons.extend(refusal::reasons(found, Some(&name)));
        }
    }
    reasons.extend(shown::for_lead(&serving.for_lead));
    reasons
}

fn no_slip(why: &str) -> Stop {
    let text = format!("nothing was handed out, because its slip cannot be made: {why}");
    refused("slip-unfit", text)
}

/// By now the hand-out is in the record.
fn save(frame: &Frame, path: &Path) -> Result<(), Stop> {
    let fail = |why: String| {
        Stop::unusable(format!(
            "it was handed out and is in the record, but the slip {} cannot be written: {why}",
            path.display()
        ))
    };
    let png = picture::png(frame).map_err(fail)?;
    fs::write(path, png).map_err(|error| fail(error.to_string()))
}
