//! `shift export`: the site's facts as signed files, and as pictures of codes.
//!
//! A file that is to travel in codes is kept as short as codes allow; each begins behind the one before it.

use std::fs;
use std::path::{Path, PathBuf};

use hearthdose_core::exchange::{
    self, CannotWrite, DeviceSecret, LONGEST_FILE, Message, SealingKey, Shift as Content,
};
use hearthdose_core::record::{Fact, FactId};
use hearthdose_core::time::Now;
use serde::Serialize;

use super::key;
use crate::answer::{Answer, Exit, Reason, Stop};
use crate::arguments::site::Export;
use crate::parts;
use crate::site::record::{SiteRecord, hex, moment};

/// Of a file that travels as one: what another device reads at once.
const LONGEST: usize = 4 * 1024 * 1024;

#[derive(Serialize)]
struct Document {
    outcome: &'static str,
    device: String,
    /// The public key under which the other device will know this one.
    key: String,
    facts: usize,
    /// For --since, the next time.
    next: u64,
    files: Vec<Written>,
}

#[derive(Serialize)]
struct Written {
    file: String,
    first: u64,
    facts: usize,
    bytes: usize,
    codes: Vec<String>,
}

/// What every file of one export has in common.
struct Sender<'a> {
    record: &'a SiteRecord,
    secret: DeviceSecret,
    now: Now,
    to: Option<SealingKey>,
    longest: usize,
}

pub fn run(asked: &Export, data: Option<PathBuf>) -> Result<Answer, Stop> {
    let to = asked.to.as_deref().map(key::sealing).transpose()?;
    let now = moment(&asked.at)?;
    let mut record = SiteRecord::open(data)?;
    if to.is_none() {
        refuse_private(&record, asked.since)?;
    }
    let sender = Sender {
        record: &record,
        secret: record.secret()?.key(""),
        now,
        to,
        longest: if asked.codes { LONGEST_FILE } else { LONGEST },
    };
    let next = record.arrivals()?;
    let mut files = Vec::new();
    if asked.since < next {
        fs::create_dir_all(&asked.out).map_err(|error| cannot(&asked.out, &error.to_string()))?;
        for (since, content, bytes) in sender.files(asked.since, next)? {
            files.push(sender.write(asked, since, &content, &bytes)?);
        }
    }
    let document = Document {
        outcome: if files.is_empty() {
            "nothing-new"
        } else {
            "exported"
        },
        device: record.device().0.to_string(),
        key: hex(&sender.secret.public().0),
        facts: files.iter().map(|file| file.facts).sum(),
        next,
        files,
    };
    record.note_handed_over(asked.since.saturating_add(1), next)?;
    let mut text = format!(
        "{} entries of device {}; the next time --since {}\n",
        document.facts, document.device, document.next
    );
    for file in &document.files {
        text.push_str(&format!(
            "  {}: {} entries, {} bytes, {} codes\n",
            file.file,
            file.facts,
            file.bytes,
            file.codes.len()
        ));
    }
    Answer::new(Exit::Done, &document, text)
}

/// Answers that a household gave in private, or sealed, do not go where anybody can read them.
fn refuse_private(record: &SiteRecord, since: u64) -> Result<(), Stop> {
    let facts = record.facts_since(since)?;
    let private = record.private(&facts)?;
    if private.is_empty() {
        return Ok(());
    }
    let text = format!(
        "{} entries tell private answers, as about pregnancy, and anybody could read this file: seal it for the device that takes it in, with --to KEYFILE",
        private.len()
    );
    Err(Stop::refused(vec![Reason::new("private-answers", text)]))
}

type File = (u64, Content, Vec<u8>);

impl Sender<'_> {
    /// Files of the arrivals behind `since` up to `until`, none longer than allowed.
    fn files(&self, since: u64, until: u64) -> Result<Vec<File>, Stop> {
        let facts = self.between(since, until)?;
        let content = Content {
            device: self.record.device(),
            made: exchange::minute(self.now.wall),
            first: since.saturating_add(1),
            facts,
            of: None,
        };
        let bytes = self.signed(&content)?;
        let middle = since.midpoint(until);
        if bytes.len() <= self.longest || middle == since {
            return Ok(vec![(since, content, bytes)]);
        }
        let mut files = self.files(since, middle)?;
        files.extend(self.files(middle, until)?);
        Ok(files)
    }

    fn between(&self, since: u64, until: u64) -> Result<Vec<Fact>, Stop> {
        let later: std::collections::BTreeSet<FactId> = self
            .record
            .facts_since(until)?
            .iter()
            .map(|fact| fact.id)
            .collect();
        let mut facts = self.record.facts_since(since)?;
        facts.retain(|fact| !later.contains(&fact.id));
        Ok(facts)
    }

    fn signed(&self, content: &Content) -> Result<Vec<u8>, Stop> {
        let message = Message::Shift(content.clone());
        let made = match &self.to {
            None => message.sign(&self.secret),
            Some(to) => {
                let mut random = [0; 32];
                getrandom::fill(&mut random)
                    .map_err(|error| Stop::unusable(format!("no random bytes: {error}")))?;
                exchange::sealed_bytes(&message, &self.secret, to, random)
            }
        };
        made.map_err(cannot_make)
    }

    fn write(
        &self,
        asked: &Export,
        since: u64,
        content: &Content,
        bytes: &[u8],
    ) -> Result<Written, Stop> {
        let device = content.device.0.simple().to_string();
        let short = device.get(24..).unwrap_or_default();
        let name = format!("shift-{short}-{}", since.saturating_add(1));
        let path = asked.out.join(format!("{name}.shift"));
        fs::write(&path, bytes).map_err(|error| cannot(&path, &error.to_string()))?;
        let codes = if asked.codes {
            parts::write(&asked.out, &name, bytes)?
        } else {
            Vec::new()
        };
        Ok(Written {
            file: path.display().to_string(),
            first: content.first,
            facts: content.facts.len(),
            bytes: bytes.len(),
            codes,
        })
    }
}

fn cannot_make(why: CannotWrite) -> Stop {
    let text = format!("the shift cannot be written: {why}");
    Stop::refused(vec![Reason::new(why.code(), text)])
}

fn cannot(path: &Path, why: &str) -> Stop {
    Stop::unusable(format!("cannot write {}: {why}", path.display()))
}
