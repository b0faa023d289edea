//! `code write` and `code read`.

use std::fs;
use std::path::{Path, PathBuf};
use std::time::Instant;

use hearthdose_core::exchange::{
    self, CannotWrite, Making, Member, Message, Met, Scan, Scanned, SealingKey,
};
use hearthdose_core::household::HouseholdFile;
use hearthdose_core::order::CheckedOrder;
use hearthdose_core::schedule;
use hearthdose_ui::machine::clock::SystemClock;
use hearthdose_ui::machine::device::Device;
use hearthdose_ui::machine::picture;
use hearthdose_ui::scan::{self, Cascade, Scanner, Symbol};
use jiff::Timestamp;
use serde::Serialize;

use crate::answer::{Answer, Exit, Reason, Stop};
use crate::arguments::{Code, CodeWrite};
use crate::{input, paths};

/// Pixels to a module: sharp on paper and on a telephone's screen.
const SCALE: usize = 8;

pub fn run(asked: &Code, data: Option<PathBuf>) -> Result<Answer, Stop> {
    match asked {
        Code::Write(asked) => write(asked, data),
        Code::Read { images } => read(images, data),
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

fn write(asked: &CodeWrite, data: Option<PathBuf>) -> Result<Answer, Stop> {
    let file = input::household(&asked.household)?;
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

#[derive(Serialize)]
struct Document {
    codes: Vec<Entry>,
}

#[derive(Serialize)]
struct Entry {
    file: String,
    outcome: &'static str,
    /// As it stands in the code; null when nothing was read.
    text: Option<String>,
    /// Milliseconds to open and read the picture.
    ms: f64,
}

fn read(images: &[PathBuf], data: Option<PathBuf>) -> Result<Answer, Stop> {
    // A key that cannot be used only means that this device does not know itself.
    let secret = paths::data_folder(data)
        .and_then(|folder| Device::at(folder).known_secret().ok())
        .flatten();
    let mut scanner = Cascade::thorough();
    let mut notes = Vec::new();
    let mut codes = Vec::new();
    let mut words = String::new();
    for image in images {
        let begun = Instant::now();
        let (outcome, text) = match picture::open(image) {
            Err(sentence) => {
                notes.push(sentence);
                ("unreadable", None)
            }
            Ok(frame) => match scanner.scan(&frame, Symbol::Qr) {
                None => ("nothing-read", None),
                Some(found) => {
                    let scan = Scan::read(&found.text);
                    (scan.outcome(&met(&scan, secret.as_ref())), Some(found.text))
                }
            },
        };
        let ms = (begun.elapsed().as_secs_f64() * 10_000.0).round() / 10.0;
        words.push_str(&line(image, outcome, text.as_deref()));
        codes.push(Entry {
            file: image.display().to_string(),
            outcome,
            text,
            ms,
        });
    }
    let exit = if notes.is_empty() {
        Exit::Done
    } else {
        Exit::Unusable
    };
    let mut answer = Answer::new(exit, &Document { codes }, words)?;
    answer.notes = notes;
    Ok(answer)
}

/// This device knows itself, under the key that it shows for the order of the code.
fn met(scan: &Scan, secret: Option<&exchange::DeviceRandom>) -> Met {
    let mut met = Met::default();
    if let (Scan::Message(scanned), Some(secret)) = (scan, secret) {
        met.meet(secret.key(order_of(scanned)).public());
    }
    met
}

fn order_of(scanned: &Scanned) -> &str {
    match &scanned.message {
        Message::Household(code) => code.order.as_ref().map_or("", |order| order.id.as_str()),
        Message::Slip(slip) => slip.order.as_ref().map_or("", |order| order.id.as_str()),
        Message::SiteKey(_) | Message::Shift(_) => "",
    }
}

fn line(image: &Path, outcome: &str, text: Option<&str>) -> String {
    let meaning = match outcome {
        "nothing-read" => "no code was found",
        "unreadable" => "this is no picture",
        "foreign" => "a code of something else",
        "newer-version" => "made by a newer version: please update",
        "damaged" => "one of ours, but not as it was made",
        "signature-wrong" => "the signature is wrong: it was changed after it was made",
        "signature-unknown" => "whole, from a device not met before",
        "new" => "whole, from a device met before",
        "sealed" => "sealed for another reader",
        "part" => "one part of a longer file",
        _ => "read",
    };
    match text {
        None => format!("{}: {outcome}: {meaning}\n", image.display()),
        Some(text) => format!(
            "{}: {outcome}: {meaning}\n  {}\n",
            image.display(),
            shown(text)
        ),
    }
}

/// Control characters of a stranger's code do not reach the terminal.
fn shown(text: &str) -> String {
    text.chars()
        .map(|letter| if letter.is_control() { '·' } else { letter })
        .collect()
}
