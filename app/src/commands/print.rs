//! `print`: a home's papers as one PDF.
//!
//! The code on them is a new one, as `code write` would make it; the one before is retired by it.

use std::fs;
use std::path::{Path, PathBuf};

use hearthdose_core::exchange::{self, CannotWrite, Message};
use hearthdose_ui::machine::clock::SystemClock;
use hearthdose_ui::machine::device::Device;
use hearthdose_ui::paper::{self, CannotPrint, Home, Paper};
use hearthdose_ui::text::{Language, Measure, Words};
use jiff::Timestamp;
use serde::Serialize;

use super::code;
use super::course::{self, Course};
use crate::answer::{Answer, Exit, Reason, Stop};
use crate::arguments::{CodeWrite, PaperName, Print};
use crate::{input, paths};

/// The file's name where only a folder was named.
const NAME: &str = "hearthdose.pdf";

#[derive(Serialize)]
struct Document {
    outcome: &'static str,
    file: String,
    signed: bool,
    invented: bool,
    order: String,
    revision: u32,
    language: &'static str,
    people: usize,
    bytes: usize,
    /// The text of the code on the papers; null where there is none.
    code: Option<String>,
}

pub fn run(asked: &Print, data: Option<PathBuf>) -> Result<Answer, Stop> {
    let language = language(&asked.language)?;
    let made = moment(asked.at.as_deref())?;
    let course = course::work_out(&asked.order, &asked.household, asked.days, false)?;
    let code = match asked.no_code {
        true => None,
        false => Some(code_text(asked, &course, made, data)?),
    };
    let paper = match asked.paper {
        PaperName::Letter => Paper::Letter,
        PaperName::A4 => Paper::A4,
    };
    let home = home(&course, code.as_deref(), made);
    let pdf = paper::household(&home, &Words::load(language), paper).map_err(cannot_print)?;
    let out = place(&asked.out)?;
    fs::write(&out, &pdf)
        .map_err(|error| Stop::unusable(format!("cannot write {}: {error}", out.display())))?;
    let document = Document {
        outcome: "printed",
        file: out.display().to_string(),
        signed: false,
        invented: course.order.invented,
        order: course.order.id.clone(),
        revision: course.order.revision,
        language: language.code(),
        people: course.file.people.len(),
        bytes: pdf.len(),
        code,
    };
    let words = format!(
        "{}: who takes what, how to make it, the chart, the labels\n",
        document.file
    );
    let mut answer = Answer::new(Exit::Done, &document, words)?;
    answer.notes = course.remarks();
    Ok(answer)
}

pub fn language(code: &str) -> Result<Language, Stop> {
    Language::of_code(code).ok_or_else(|| {
        let known: Vec<&str> = Language::ALL.iter().map(|known| known.code()).collect();
        Stop::unusable(format!("language: “{code}”: write {}", known.join(" or ")))
    })
}

pub fn moment(at: Option<&str>) -> Result<Timestamp, Stop> {
    at.map_or_else(|| Ok(SystemClock::new().read().wall), input::instant)
}

/// What the papers are made from.
fn home<'a>(course: &'a Course, code: Option<&'a str>, made: Timestamp) -> Home<'a> {
    let measure = match course.file.tool.as_deref() {
        Some("syringe") => Measure::Syringe,
        _ => Measure::Spoon,
    };
    Home {
        order: &course.order,
        name: course.file.name.as_deref(),
        zone: &course.table.zone,
        seats: &course.table.seats,
        // A household file knows no stops: everybody in it sits at the table or is held with the reasons.
        absent: &[],
        plan: &course.plan,
        measure,
        water: course.order.water,
        code,
        refill: course.refill_date(),
        course_end: course.table.course_end,
        made,
    }
}

fn code_text(
    asked: &Print,
    course: &Course,
    made: Timestamp,
    data: Option<PathBuf>,
) -> Result<String, Stop> {
    let device = device(data)?;
    let random = device.secret()?;
    let order = &course.order;
    let household = random.household(&order.id, &code::name(&course.file));
    let issue = device.next_issue(household)?;
    let wish = CodeWrite {
        household: Some(asked.household.clone()),
        order: Some(asked.order.clone()),
        out: asked.out.clone(),
        names: false,
        seal: false,
        at: asked.at.clone(),
    };
    let coded = code::coded(&wish, &course.file, Some(order), made, issue, &random)?;
    exchange::write(&Message::Household(coded), &random.key(&order.id)).map_err(code::cannot_write)
}

pub fn device(data: Option<PathBuf>) -> Result<Device, Stop> {
    let folder = paths::data_folder(data)
        .ok_or_else(|| Stop::unusable("there is no data folder: set HOME or use --data"))?;
    Ok(Device::at(folder))
}

fn cannot_print(why: CannotPrint) -> Stop {
    match why {
        CannotPrint::CodeTooLong => code::cannot_write(CannotWrite::TooLong),
        other => Stop::refused(vec![Reason::new(other.code(), other.to_string())]),
    }
}

/// The file to write: a folder gets one of the usual name.
fn place(out: &Path) -> Result<PathBuf, Stop> {
    let is_file = out
        .extension()
        .is_some_and(|ending| ending.eq_ignore_ascii_case("pdf"));
    if is_file && !out.is_dir() {
        return Ok(out.to_owned());
    }
    fs::create_dir_all(out)
        .map_err(|error| Stop::unusable(format!("cannot make {}: {error}", out.display())))?;
    Ok(out.join(NAME))
}
