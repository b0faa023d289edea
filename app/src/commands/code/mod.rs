//! `code write` and `code read`.
//!
//! With a household its code is written, without one the order's own file, in as many codes as it needs.

mod parts;
mod read;

use std::fs;
use std::path::{Path, PathBuf};

use hearthdose_core::exchange::{self, CannotWrite, Making, Member, Message, SealingKey};
use hearthdose_core::household::HouseholdFile;
use hearthdose_core::order::CheckedOrder;
use hearthdose_core::schedule;
use hearthdose_ui::machine::clock::SystemClock;
use hearthdose_ui::machine::device::Device;
use hearthdose_ui::machine::picture;
use hearthdose_ui::scan;
use jiff::Timestamp;
use serde::Serialize;

use crate::answer::{Answer, Exit, Reason, Stop};
use crate::arguments::{Code, CodeWrite};
use crate::{input, paths};

/// Pixels to a module: sharp on paper and on a telephone's screen.
const SCALE: usize = 8;

pub fn run(asked: &Code, data: Option<PathBuf>) -> Result<Answer, Stop> {
    match asked {
        Code::Write(asked) => match &asked.household {
            Some(household) => write(asked, household, data),
            None => parts::write(asked),
        },
        Code::Read { images, out } => read::run(images, out.as_deref(), data),
    }
}

#[derive(Serialize)]
struct Written {
    outcome: &'static str,
    file: String,
    household: String,
    issue: u32,
    people: usize,
    /// Version of the QR code, 1 to 40.
    version: i16,
    text: String,
}

fn write(asked: &CodeWrite, household: &Path, data: Option<PathBuf>) -> Result<Answer, Stop> {
    let file = input::household(household)?;
    let order = asked.order.as_deref().map(input::order).transpose()?;
    let made = match &asked.at {
        None => SystemClock::new().read().wall,
        Some(text) => input::instant(text)?,
    };
    let folder = paths::data_folder(data)
        .ok_or_else(|| Stop::unusable("there is no data folder: set HOME or use --data"))?;
    let device = Device::at(folder);
    let sealing = match (&order, asked.seal) {
        (Some(order), true) => Some(sealing_key(order)?),
        _ => None,
    };
    let random = device.secret()?;
    let order_id = order.as_ref().map_or("", |order| order.id.as_str());
    let household = random.household(order_id, &name(&file));
    let issue = device.next_issue(household)?;
    let code = coded(asked, &file, order.as_ref(), made, issue, &random)?;
    let people = code.people.len();
    let message = Message::Household(code);
    let key = random.key(order_id);
    let text = match sealing {
        None => exchange::write(&message, &key),
        Some(to) => {
            let mut fresh = [0; 32];
            getrandom::fill(&mut fresh)
                .map_err(|error| Stop::unusable(format!("no random bytes: {error}")))?;
            exchange::write_sealed(&message, &key, &to, fresh)
        }
    };
    let text = text.map_err(cannot_write)?;
    let too_long = || cannot_write(CannotWrite::TooLong);
    let frame = scan::drawn(&text, SCALE, 1).ok_or_else(too_long)?;
    let version = scan::drawn_version(&text).ok_or_else(too_long)?;
    let fail = |why: String| Stop::unusable(format!("cannot write {}: {why}", asked.out.display()));
    let png = picture::png(&frame).map_err(fail)?;
    fs::write(&asked.out, png).map_err(|error| fail(error.to_string()))?;
    let document = Written {
        outcome: "written",
        file: asked.out.display().to_string(),
        household: format!("{household:?}"),
        issue,
        people,
        version,
        text,
    };
    let words = format!(
        "{}: code {issue} of this household, {people} {}, QR version {version}\n",
        document.file,
        if people == 1 { "person" } else { "people" },
    );
    Answer::new(Exit::Done, &document, words)
}

pub fn cannot_write(why: CannotWrite) -> Stop {
    Stop::refused(vec![Reason::new(
        why.code(),
        format!("the code cannot be made: {why}"),
    )])
}

fn sealing_key(order: &CheckedOrder) -> Result<SealingKey, Stop> {
    match &order.medicine.sealing_key {
        Some(key) => Ok(SealingKey(key.public)),
        None => Err(Stop::refused(vec![Reason::new(
            "no-sealing-key",
            "the order names no sealing key",
        )])),
    }
}

/// The household's name, or its people's where it has none: only to find the same random id again.
pub fn name(file: &HouseholdFile) -> String {
    file.name.clone().unwrap_or_else(|| {
        let names: Vec<&str> = file.people.iter().map(|p| p.name.as_str()).collect();
        names.join("\n")
    })
}

/// A household as its code says it.
pub fn coded(
    asked: &CodeWrite,
    file: &HouseholdFile,
    order: Option<&CheckedOrder>,
    made: Timestamp,
    issue: u32,
    random: &exchange::DeviceRandom,
) -> Result<exchange::HouseholdCode, Stop> {
    let zone = schedule::zone(&file.time_zone)
        .map_err(|refusal| Stop::refused(vec![Reason::new(refusal.code(), refusal.to_string())]))?;
    // A household that has not begun yet is shown as on its first day.
    let today = zone.to_datetime(made).date();
    let day = today.max(file.start);
    let household = random.household(order.map_or("", |order| order.id.as_str()), &name(file));
    let names: Vec<&str> = file.people.iter().map(|p| p.name.as_str()).collect();
    let ids = random.people(household, &names);
    let mut members = Vec::new();
    for (id, person) in ids.into_iter().zip(&file.people) {
        if person.age_on(day).is_some_and(|age| age.is_unborn()) {
            return Err(Stop::refused(vec![Reason {
                person: Some(person.name.clone()),
                ..Reason::new("unborn", format!("the birth date is after {day}"))
            }]));
        }
        let begun = person.starts.unwrap_or(file.start);
        let course_day = (begun <= today)
            .then(|| begun.until((jiff::Unit::Day, today)).ok())
            .flatten()
            .and_then(|span| u16::try_from(span.get_days() + 1).ok());
        members.push(Member {
            nickname: asked.names.then_some(person.name.as_str()),
            course_day,
            ..Member::new(id, person)
        });
    }
    let making = Making {
        household,
        issue,
        made,
        day,
        order,
        language: "en",
        interpreter: false,
        adult_collects: None,
        sealed: asked.seal,
    };
    Ok(exchange::household_code(&making, &members))
}
