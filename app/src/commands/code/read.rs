//! `code read`: the code in each picture, and the files that come together from parts.

use std::collections::BTreeMap;
use std::fs::OpenOptions;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::time::Instant;

use hearthdose_core::exchange::{
    self, Collector, FileMark, Frame, Message, Met, Progress, Scan, Scanned,
};
use hearthdose_core::order;
use hearthdose_ui::machine::device::Device;
use hearthdose_ui::machine::picture;
use hearthdose_ui::scan::{Cascade, Scanner, Symbol};
use serde::Serialize;

use crate::answer::{Answer, Exit, Reason, Stop};
use crate::paths;

#[derive(Serialize)]
struct Document {
    codes: Vec<Entry>,
    /// Only where some code was one part of a file.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    files: Vec<Gathered>,
}

#[derive(Serialize)]
struct Entry {
    file: String,
    outcome: &'static str,
    /// What a whole message is: `household`, `slip`, `site-key`, `shift`, `erasure`.
    #[serde(skip_serializing_if = "Option::is_none")]
    kind: Option<&'static str>,
    /// As it stands in the code; null when nothing was read.
    text: Option<String>,
    /// Milliseconds to open and read the picture.
    ms: f64,
}

/// A file of which parts were read.
#[derive(Serialize)]
struct Gathered {
    /// What it turned out to be; `incomplete` while codes are missing.
    outcome: &'static str,
    /// Different parts that were read, and how many are enough at the least.
    have: u32,
    needed: u32,
    bytes: Option<usize>,
    /// Of an order.
    order: Option<String>,
    revision: Option<u32>,
    /// SHA-256 of the whole file, its beginning as two people compare it.
    short: Option<String>,
    /// Where it was kept.
    file: Option<String>,
}

/// Files as their parts come in.
#[derive(Default)]
struct Files(BTreeMap<FileMark, (Collector, Progress)>);

impl Files {
    fn take(&mut self, frame: Frame) {
        let mark = frame.file();
        let nothing = || (Collector::new(), Progress::OtherFile);
        let (collector, progress) = self.0.entry(mark).or_insert_with(nothing);
        *progress = collector.take(frame);
    }

    /// What came together; whole files with their bytes.
    fn gathered(self, met: &dyn Fn(&Scan) -> Met) -> Vec<(Gathered, Option<Vec<u8>>)> {
        let files = self.0.into_iter();
        files
            .map(|(mark, (_, progress))| match progress {
                Progress::Whole(bytes) => (whole(mark, &bytes, met), Some(bytes)),
                Progress::More { have, .. } => (incomplete(mark, have), None),
                Progress::OtherFile => (incomplete(mark, 0), None),
            })
            .collect()
    }
}

fn incomplete(mark: FileMark, have: u32) -> Gathered {
    Gathered {
        outcome: "incomplete",
        have,
        needed: mark.needed(),
        bytes: None,
        order: None,
        revision: None,
        short: None,
        file: None,
    }
}

/// A message of ours, an order, or some file.
fn whole(mark: FileMark, bytes: &[u8], met: &dyn Fn(&Scan) -> Met) -> Gathered {
    let mut found = Gathered {
        outcome: "file",
        bytes: Some(bytes.len()),
        short: Some(order::Fingerprint::of(bytes).short()),
        ..incomplete(mark, mark.needed())
    };
    if let Ok(order) = order::parse(bytes) {
        let is_sound = order::CheckedOrder::from_bytes(bytes).is_ok();
        found.outcome = if is_sound {
            "order"
        } else {
            "order-with-errors"
        };
        found.order = Some(order.id.clone());
        found.revision = Some(order.revision);
        return found;
    }
    let scan = Scan::read_bytes(bytes);
    if matches!(scan, Scan::Message(_) | Scan::Sealed(_) | Scan::Newer) {
        found.outcome = scan.outcome(&met(&scan));
    }
    found
}

pub fn run(images: &[PathBuf], out: Option<&Path>, data: Option<PathBuf>) -> Result<Answer, Stop> {
    // A key that cannot be used only means that this device does not know itself.
    let secret = paths::data_folder(data)
        .and_then(|folder| Device::at(folder).known_secret().ok())
        .flatten();
    let met = |scan: &Scan| met(scan, secret.as_ref());
    let mut scanner = Cascade::thorough();
    let mut notes = Vec::new();
    let mut codes = Vec::new();
    let mut words = String::new();
    let mut files = Files::default();
    for image in images {
        let begun = Instant::now();
        let mut kind = None;
        let mut said = String::new();
        let (outcome, text) = match picture::open(image) {
            Err(sentence) => {
                notes.push(sentence);
                ("unreadable", None)
            }
            Ok(frame) => match scanner.scan(&frame, Symbol::Qr) {
                None => ("nothing-read", None),
                Some(found) => {
                    let scan = Scan::read(&found.text);
                    let outcome = scan.outcome(&met(&scan));
                    match scan {
                        Scan::Part(frame) => files.take(frame),
                        Scan::Message(scanned) => {
                            kind = Some(scanned.message.name());
                            said = what(&scanned.message);
                        }
                        _ => {}
                    }
                    (outcome, Some(found.text))
                }
            },
        };
        let ms = (begun.elapsed().as_secs_f64() * 10_000.0).round() / 10.0;
        words.push_str(&line(image, outcome, text.as_deref()));
        words.push_str(&said);
        codes.push(Entry {
            file: image.display().to_string(),
            outcome,
            kind,
            text,
            ms,
        });
    }
    let mut gathered = files.gathered(&met);
    if let Some(out) = out {
        keep(&mut gathered, out)?;
    }
    let files: Vec<Gathered> = gathered.into_iter().map(|(file, _)| file).collect();
    for file in &files {
        words.push_str(&of_file(file));
    }
    let exit = if notes.is_empty() {
        Exit::Done
    } else {
        Exit::Unusable
    };
    let mut answer = Answer::new(exit, &Document { codes, files }, words)?;
    answer.notes = notes;
    Ok(answer)
}

/// Keeps the one whole file. Nothing that is there is written over: the codes may be a stranger's.
fn keep(gathered: &mut [(Gathered, Option<Vec<u8>>)], out: &Path) -> Result<(), Stop> {
    let refuse = |code: &str, text: String| Err(Stop::refused(vec![Reason::new(code, text)]));
    let missing = gathered.iter().find(|(_, bytes)| bytes.is_none());
    let missing = missing.map(|(file, _)| (file.have, file.needed));
    let mut whole = gathered.iter_mut().filter(|(_, bytes)| bytes.is_some());
    let (file, bytes) = match (whole.next(), whole.next(), missing) {
        (Some((file, Some(bytes))), None, _) => (file, bytes),
        (Some(_), _, _) => {
            let text = "the codes are of several files; read those of one".to_owned();
            return refuse("several-files", text);
        }
        (None, _, Some((have, needed))) => {
            let text = format!("{have} parts were read, at least {needed} are needed");
            return refuse("file-incomplete", text);
        }
        (None, _, None) => {
            let text = "no code is one part of a file".to_owned();
            return refuse("no-file", text);
        }
    };
    let cannot =
        |error: std::io::Error| Stop::unusable(format!("cannot write {}: {error}", out.display()));
    let mut options = OpenOptions::new();
    let mut to = options
        .write(true)
        .create_new(true)
        .open(out)
        .map_err(cannot)?;
    to.write_all(bytes).map_err(cannot)?;
    to.sync_all().map_err(cannot)?;
    file.file = Some(out.display().to_string());
    Ok(())
}

fn of_file(file: &Gathered) -> String {
    let short = file.short.as_deref().unwrap_or_default();
    let mut text = match (file.outcome, &file.order, file.revision) {
        ("incomplete", _, _) => format!(
            "a file is not whole yet: {} parts were read, at least {} are needed\n",
            file.have, file.needed
        ),
        (outcome, Some(order), Some(revision)) => {
            let verdict = match outcome {
                "order" => "compare this fingerprint with the issuer's",
                _ => "it has errors and cannot be used",
            };
            format!(
                "a whole file: the order {} revision {revision}, fingerprint {short}: {verdict}\n",
                shown(order)
            )
        }
        (outcome, _, _) => format!("a whole file: {outcome}, fingerprint {short}\n"),
    };
    if let Some(path) = &file.file {
        text.push_str(&format!("  kept as {path}\n"));
    }
    text
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
        Message::SiteKey(_) | Message::Shift(_) | Message::Erasure(_) => "",
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

/// What a whole message is, in a line of its own.
fn what(message: &Message) -> String {
    let text = match message {
        Message::Household(_) => "the code of a household".to_owned(),
        Message::Slip(_) => "the receipt of a hand-out".to_owned(),
        Message::SiteKey(_) => "the sealing key of a site".to_owned(),
        Message::Shift(_) => "the record of a shift".to_owned(),
        Message::Erasure(erasure) => {
            let why = match &erasure.reason {
                Some(reason) => format!("; not all of it had been handed over: {}", shown(reason)),
                None => "; all of it had been handed over".to_owned(),
            };
            format!(
                "the receipt of a home that was forgotten: {}, {} entries, at {}{why}",
                erasure.household, erasure.facts, erasure.at
            )
        }
    };
    format!("  it is {text}\n")
}

/// Control characters of a stranger's code do not reach the terminal.
fn shown(text: &str) -> String {
    text.chars()
        .map(|letter| if letter.is_control() { '·' } else { letter })
        .collect()
}
