//! `shift merge`: the facts of other devices, as a set union into the site's record.
//!
//! Each file is taken in as a whole or not at all; one that is not good does not keep others out.
//! A signature says which device it was. Whose device that is, a person says once, with --trust.

use std::path::PathBuf;

use hearthdose_core::exchange::{DeviceKey, Message, Scanned, Shift};
use serde::Serialize;

use super::key;
use super::report::{self, Report};
use super::source::{self, Found};
use crate::answer::{Answer, Exit, Reason, Stop};
use crate::arguments::site::Merge;
use crate::site::record::{SiteRecord, hex};

#[derive(Serialize)]
struct Document {
    outcome: &'static str,
    files: Vec<Entry>,
    /// Facts that were not known before.
    new: usize,
    known: usize,
    #[serde(flatten)]
    report: Report,
    /// Why some files were not taken in.
    reasons: Vec<Reason>,
}

#[derive(Serialize)]
struct Entry {
    file: String,
    outcome: String,
    device: Option<String>,
    /// First bytes of SHA-256 of the signer's key, for people to compare.
    signer: Option<String>,
    new: usize,
    known: usize,
    /// Codes there are and codes it takes, of a file that is not whole.
    #[serde(skip_serializing_if = "Option::is_none")]
    codes: Option<(u32, u32)>,
}

pub fn run(asked: &Merge, data: Option<PathBuf>) -> Result<Answer, Stop> {
    let opening = asked.key.as_deref().map(key::opening).transpose()?;
    let found = source::read(&asked.from, opening.as_ref())?;
    let mut record = SiteRecord::open(data)?;
    let mut files = Vec::new();
    for (path, found) in found {
        let mut entry = Entry {
            file: path.display().to_string(),
            outcome: "part".to_owned(),
            device: None,
            signer: None,
            new: 0,
            known: 0,
            codes: None,
        };
        match found {
            Found::Part => {}
            Found::Missing { have, needed } => {
                entry.outcome = "part-missing".to_owned();
                entry.codes = Some((have, needed));
            }
            Found::Not(code) => entry.outcome = code.to_owned(),
            Found::Message(scanned) => take(asked, &mut record, &scanned, &mut entry)?,
        }
        files.push(entry);
    }
    let reasons: Vec<Reason> = files.iter().filter_map(refusal).collect();
    let sum = |of: fn(&Entry) -> usize| files.iter().map(of).sum();
    let document = Document {
        outcome: if reasons.is_empty() {
            "merged"
        } else {
            "refused"
        },
        new: sum(|file| file.new),
        known: sum(|file| file.known),
        files,
        report: report::report(&record)?,
        reasons,
    };
    let exit = if document.reasons.is_empty() {
        Exit::Done
    } else {
        Exit::Refused
    };
    let text = readable(&document);
    Answer::new(exit, &document, text)
}

/// Takes one file in, if it is a site's shift of a device that is known here.
fn take(
    asked: &Merge,
    record: &mut SiteRecord,
    scanned: &Scanned,
    entry: &mut Entry,
) -> Result<(), Stop> {
    entry.signer = Some(hex(&scanned.signer.id()));
    let Message::Shift(shift) = &scanned.message else {
        entry.outcome = "not-a-shift".to_owned();
        return Ok(());
    };
    entry.device = Some(shift.device.0.to_string());
    if shift.of.is_some() {
        entry.outcome = "of-a-household".to_owned();
        return Ok(());
    }
    match standing(record, scanned.signer, shift)? {
        Standing::Known => {}
        Standing::NotMet if asked.trust => record.know_device(scanned.signer, shift.device)?,
        Standing::NotMet => {
            entry.outcome = "signature-unknown".to_owned();
            return Ok(());
        }
        Standing::OtherDevice => {
            entry.outcome = "device-differs".to_owned();
            return Ok(());
        }
    }
    match record.merge(&shift.facts) {
        Ok(appended) => {
            (entry.new, entry.known) = (appended.added, appended.known);
            let outcome = if appended.added > 0 {
                "merged"
            } else {
                "already-merged"
            };
            entry.outcome = outcome.to_owned();
        }
        Err(error) => entry.outcome = error.code().to_owned(),
    }
    Ok(())
}

enum Standing {
    Known,
    NotMet,
    /// The key was met with another device's number, or the number with another key.
    OtherDevice,
}

fn standing(record: &SiteRecord, signer: DeviceKey, shift: &Shift) -> Result<Standing, Stop> {
    let device = shift.device.0.to_string();
    if signer == record.secret()?.key("").public() {
        let is_own = shift.device == record.device();
        return Ok(if is_own {
            Standing::Known
        } else {
            Standing::OtherDevice
        });
    }
    let known = record.known_devices()?;
    Ok(match known.get(&hex(&signer.0)) {
        Some(before) if *before == device => Standing::Known,
        Some(_) => Standing::OtherDevice,
        None if shift.device == record.device() => Standing::OtherDevice,
        None if known.values().any(|other| *other == device) => Standing::OtherDevice,
        None => Standing::NotMet,
    })
}

fn refusal(entry: &Entry) -> Option<Reason> {
    let why = match entry.outcome.as_str() {
        "merged" | "already-merged" | "part" => return None,
        "part-missing" => {
            let (have, needed) = entry.codes.unwrap_or_default();
            format!("{have} codes of it are here, it takes at least {needed}")
        }
        "signature-unknown" => format!(
            "it is whole, from a device not met before, {}; if it is yours, say --trust",
            entry.signer.as_deref().unwrap_or("unknown")
        ),
        "device-differs" => "it is signed by another key than this device showed before".to_owned(),
        "not-a-shift" => "it is one of ours, but no shift".to_owned(),
        "of-a-household" => "it is the record of a household, not of a site".to_owned(),
        "damaged" => "it is not as it was made".to_owned(),
        "signature-wrong" => "it was changed after it was signed".to_owned(),
        "sealed" => "it is sealed; give the key that opens it with --key".to_owned(),
        "newer-version" => "it was made by a newer version: please update".to_owned(),
        "foreign" => "it is something else".to_owned(),
        "nothing-read" => "there is no code to be read in the picture".to_owned(),
        "unreadable" => "it is no picture".to_owned(),
        "store-other-content" => {
            "an entry in it says something else than the one of the same name here".to_owned()
        }
        "store-number-taken" => "two different entries have one number of one device".to_owned(),
        other => format!("it could not be written into the record ({other})"),
    };
    Some(Reason::new(
        &entry.outcome,
        format!("{}: {why}", entry.file),
    ))
}

fn readable(document: &Document) -> String {
    let mut text = format!(
        "{} new entries, {} were known\n",
        document.new, document.known
    );
    for file in document.files.iter().filter(|file| file.outcome != "part") {
        text.push_str(&format!(
            "  {}: {}, {} new, {} known\n",
            file.file, file.outcome, file.new, file.known
        ));
    }
    for reason in &document.reasons {
        text.push_str(&format!(
            "not taken in: {} ({})\n",
            reason.text, reason.code
        ));
    }
    text + &report::readable(&document.report)
}
