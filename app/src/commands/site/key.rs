//! `site key`: the key for which households seal their codes; made once, and its public half shown.

use std::path::PathBuf;

use hearthdose_ui::machine::device::Device;
use serde::Serialize;

use crate::answer::{Answer, Exit, Stop};
use crate::arguments::site::Key;
use crate::paths;
use crate::site::record::hex;

#[derive(Serialize)]
struct Document {
    /// `made` or `known`.
    outcome: &'static str,
    /// The public half, an X25519 key.
    x25519: String,
    /// For the order file, in its table `medicine`.
    line: String,
}

pub fn run(asked: &Key, data: Option<PathBuf>) -> Result<Answer, Stop> {
    let folder = paths::data_folder(data)
        .ok_or_else(|| Stop::unusable("there is no data folder: set HOME or use --data"))?;
    let is_plain = |letter: char| letter.is_ascii_alphanumeric() || letter == '-';
    if asked.id.is_empty() || !asked.id.chars().all(is_plain) {
        return Err(Stop::unusable("--id has letters, digits and - only"));
    }
    let (key, is_new) = Device::at(folder).site_key()?;
    let x25519 = hex(&key.public().0);
    let line = format!(
        "sealing-key = {{ id = \"{}\", x25519 = \"{x25519}\" }}",
        asked.id
    );
    let text = format!("for the order file, under [medicine]:\n{line}\n");
    let document = Document {
        outcome: if is_new { "made" } else { "known" },
        x25519,
        line,
    };
    Answer::new(Exit::Done, &document, text)
}
