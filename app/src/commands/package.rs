//! `package read`: the code on a medicine package, typed, scanned or in a picture.

use std::ffi::OsStr;
use std::path::Path;

use hearthdose_core::package::{self, Package as Read};
use hearthdose_ui::machine::clock::SystemClock;
use hearthdose_ui::machine::picture;
use hearthdose_ui::scan::{Cascade, Scanner, Symbol};
use jiff::tz::TimeZone;
use serde::Serialize;

use crate::answer::{Answer, Exit, Stop};
use crate::arguments::Package;

#[derive(Serialize)]
struct Document<'a> {
    gtin: Option<&'a str>,
    gtin_valid: Option<bool>,
    lot: Option<&'a str>,
    expiry: Option<String>,
    serial: Option<&'a str>,
    problems: Vec<Problem<'a>>,
}

#[derive(Serialize)]
struct Problem<'a> {
    code: &'a str,
    text: &'a str,
}

pub fn run(asked: &Package) -> Result<Answer, Stop> {
    let Package::Read { what } = asked;
    let (text, before) = match text_of(what)? {
        Some(found) => found,
        None => {
            let none = "there is no DataMatrix or QR code to be read in the picture";
            return answer(&Read::default(), Some(("nothing-read", none)));
        }
    };
    let year = TimeZone::UTC
        .to_datetime(SystemClock::new().read().wall)
        .year();
    answer(&package::read(&text, year), before)
}

type Remark = Option<(&'static str, &'static str)>;

/// The element string that was typed or is in the picture, and what is odd about where it comes from.
fn text_of(what: &OsStr) -> Result<Option<(String, Remark)>, Stop> {
    let path = Path::new(what);
    if !picture::is_named(path) && !path.is_file() {
        let text = what
            .to_str()
            .ok_or_else(|| Stop::unusable("the element string is not UTF-8 text"))?;
        return Ok(Some((text.to_owned(), None)));
    }
    let frame = picture::open(path).map_err(Stop::unusable)?;
    let mut scanner = Cascade::thorough();
    let found = scanner
        .scan(&frame, Symbol::DataMatrix)
        .or_else(|| scanner.scan(&frame, Symbol::Qr));
    Ok(found.map(|found| {
        let remark = (!found.gs1).then_some((
            "not-gs1",
            "the code does not say that it follows GS1's rules",
        ));
        (found.text, remark)
    }))
}

fn answer(package: &Read, before: Remark) -> Result<Answer, Stop> {
    let remark = before.map(|(code, text)| Problem { code, text });
    let problems = package.problems.iter().map(|problem| Problem {
        code: problem.code,
        text: &problem.text,
    });
    let document = Document {
        gtin: package.gtin.as_deref(),
        gtin_valid: package.gtin_valid,
        lot: package.lot.as_deref(),
        expiry: package.expiry.map(|day| day.to_string()),
        serial: package.serial.as_deref(),
        problems: remark.into_iter().chain(problems).collect(),
    };
    let exit = if document.problems.is_empty() {
        Exit::Done
    } else {
        Exit::ProblemsFound
    };
    let text = readable(&document);
    Answer::new(exit, &document, text)
}

fn readable(document: &Document<'_>) -> String {
    let mut lines = Vec::new();
    let mut line = |title: &str, value: Option<&str>| {
        lines.push(format!("{title:<16}{}", value.unwrap_or("not there")));
    };
    line("product number", document.gtin);
    line("lot", document.lot);
    line("use by", document.expiry.as_deref());
    line("serial number", document.serial);
    for problem in &document.problems {
        lines.push(format!("{} ({})", problem.text, problem.code));
    }
    lines.join("\n") + "\n"
}
