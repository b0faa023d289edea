//! `site list`: an empty paper list, printed before it is needed.

use std::fs;

use hearthdose_ui::paper::{self, Paper};
use hearthdose_ui::text::Words;
use serde::Serialize;

use super::refused;
use crate::answer::{Answer, Exit, Stop};
use crate::arguments::PaperName;
use crate::arguments::site::List;
use crate::commands::print;
use crate::input;

#[derive(Serialize)]
struct Document {
    outcome: &'static str,
    file: String,
    bytes: usize,
}

pub fn run(asked: &List) -> Result<Answer, Stop> {
    let order = input::order(&asked.order)?;
    let words = Words::load(print::language(&asked.language)?);
    let size = match asked.paper {
        PaperName::Letter => Paper::Letter,
        PaperName::A4 => Paper::A4,
    };
    let pdf =
        paper::list(&order, &words, size).map_err(|why| refused(why.code(), why.to_string()))?;
    let file = asked.out.display().to_string();
    fs::write(&asked.out, &pdf)
        .map_err(|error| Stop::unusable(format!("cannot write {file}: {error}")))?;
    let document = Document {
        outcome: "printed",
        bytes: pdf.len(),
        file,
    };
    let text = format!("{}: an empty list, one line for each home\n", document.file);
    Answer::new(Exit::Done, &document, text)
}
