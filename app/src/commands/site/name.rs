//! `site name`: what the site is called on its receipts, and the mark by which homes know this desk.

use std::path::PathBuf;

use hearthdose_core::site::SiteName;
use serde::Serialize;

use super::refused;
use crate::answer::{Answer, Exit, Reason, Stop};
use crate::arguments::site::Name;
use crate::input;
use crate::site::record::{SiteRecord, hex};

#[derive(Serialize)]
struct Document {
    /// `named` or `shown`.
    outcome: &'static str,
    name: String,
    /// Of the key that signs receipts under this order; homes compare it.
    mark: String,
    /// The public half of that key, Ed25519.
    key: String,
}

pub fn run(asked: &Name, data: Option<PathBuf>) -> Result<Answer, Stop> {
    let order = input::order(&asked.order)?;
    let mut record = SiteRecord::open(data)?;
    let outcome = match &asked.words {
        Some(_) => "named",
        None => "shown",
    };
    let name = kept(asked.words.as_deref(), &mut record)?.ok_or_else(|| {
        Stop::refused(vec![unnamed(
            "the site has no name yet: say it after the command",
        )])
    })?;
    let key = record.secret()?.key(&order.id).public();
    let document = Document {
        outcome,
        name: name.as_str().to_owned(),
        mark: key.mark(),
        key: hex(&key.0),
    };
    let text = format!(
        "{}: mark of this desk {}\nhomes compare it with the one they are shown\n",
        document.name, document.mark
    );
    Answer::new(Exit::Done, &document, text)
}

/// The name as it is said now, which is kept; else the one that was kept.
pub fn kept(said: Option<&str>, record: &mut SiteRecord) -> Result<Option<SiteName>, Stop> {
    let Some(said) = said else {
        return record.name();
    };
    let name = SiteName::read(said).map_err(|why| refused(why.code(), why.to_string()))?;
    record.set_name(&name)?;
    Ok(Some(name))
}

/// Nobody is served before the site has a name.
pub fn unnamed(text: &str) -> Reason {
    Reason::new("site-unnamed", text)
}
