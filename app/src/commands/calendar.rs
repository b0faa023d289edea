//! `calendar`: the rounds of a home as an `.ics` file.

use std::fs;
use std::path::PathBuf;

use hearthdose_core::export::calendar::{self, Calendar, Entry};
use hearthdose_core::mixture::PlannedRound;
use hearthdose_ui::text::Words;
use serde::Serialize;

use super::course::{self, Course};
use super::{code, print};
use crate::answer::{Answer, Exit, Stop};
use crate::arguments;

#[derive(Serialize)]
struct Document {
    outcome: &'static str,
    file: String,
    signed: bool,
    invented: bool,
    order: String,
    revision: u32,
    language: &'static str,
    events: usize,
}

pub fn run(asked: &arguments::Calendar, data: Option<PathBuf>) -> Result<Answer, Stop> {
    let language = print::language(&asked.language)?;
    let made = print::moment(asked.at.as_deref())?;
    let course = course::work_out(&asked.order, &asked.household, asked.days, false)?;
    let random = print::device(data)?.secret()?;
    let words = Words::load(language);
    let rounds: Vec<Entry> = course
        .plan
        .rounds
        .iter()
        .filter(|round| !round.doses.is_empty())
        .map(|round| entry(&course, round, asked.names, &words))
        .collect();
    let text = calendar::text(&Calendar {
        home: random.household(&course.order.id, &code::name(&course.file)),
        order: &course.order.id,
        made,
        name: &words.say("calendar-name"),
        rounds: &rounds,
    });
    let out = &asked.out;
    fs::write(out, text)
        .map_err(|error| Stop::unusable(format!("cannot write {}: {error}", out.display())))?;
    let document = Document {
        outcome: "written",
        file: out.display().to_string(),
        signed: false,
        invented: course.order.invented,
        order: course.order.id.clone(),
        revision: course.order.revision,
        language: language.code(),
        events: rounds.len(),
    };
    let said = format!(
        "{}: {} rounds, an alarm before each\n",
        document.file, document.events
    );
    let mut answer = Answer::new(Exit::Done, &document, said)?;
    answer.notes = course.remarks();
    Ok(answer)
}

fn entry(course: &Course, round: &PlannedRound, names: bool, words: &Words) -> Entry {
    let pace = course.pace(round);
    let people = round.doses.iter();
    let people: Vec<String> = people
        .map(|planned| course.name(planned.seat).to_owned())
        .collect();
    words.calendar_entry(
        round,
        pace,
        &course.table.zone,
        names.then_some(people.as_slice()),
    )
}
