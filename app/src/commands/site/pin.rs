//! `site pin`: the number that guards a role on this device.

use std::path::PathBuf;

use hearthdose_core::site::Role;
use serde::Serialize;

use crate::answer::{Answer, Exit, Stop};
use crate::arguments::site::{Pin, RoleName};
use crate::site::guard;
use crate::site::record::SiteRecord;

#[derive(Serialize)]
struct Document {
    outcome: &'static str,
    role: &'static str,
}

pub fn run(asked: &Pin, data: Option<PathBuf>) -> Result<Answer, Stop> {
    let (role, name) = match asked.role {
        RoleName::Lead => (Role::Lead, "lead"),
        RoleName::Volunteer => (Role::Volunteer, "volunteer"),
    };
    let mut record = SiteRecord::open(data)?;
    guard::set(&mut record, role, &asked.source)?;
    let document = Document {
        outcome: "set",
        role: name,
    };
    let text = format!(
        "the PIN of the {name} is set on this device; keep it where you find it again: only the lead's PIN sets another\n"
    );
    Answer::new(Exit::Done, &document, text)
}
