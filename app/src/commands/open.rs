//! The window: as it was left, or with an order and a household from files.

use std::path::PathBuf;

use hearthdose_core::household::HouseholdFile;
use hearthdose_core::prep::PersonId;
use hearthdose_core::record::HouseholdWords;
use hearthdose_ui::machine::files::Files;
use hearthdose_ui::vm::ports::{Records, Shelf};
use hearthdose_ui::{demo, machine};
use jiff::civil::Time;
use serde::Serialize;
use uuid::Uuid;

use crate::answer::{self, Answer, Exit, Stop};
use crate::arguments::{Open, Walk};
use crate::{input, paths, window};

/// Where the pictures go when there is no display for the window.
const WITHOUT_DISPLAY: &str = "hearthdose-walk";

/// Opens the window where it was left; without a display draws a whole round instead.
pub fn window(data: Option<PathBuf>) -> Result<Answer, Stop> {
    if !window::has_display() {
        answer::say(&format!(
            "there is no display for a window; drawing a whole round into {WITHOUT_DISPLAY} instead"
        ));
        return super::walk::run(&Walk::to(WITHOUT_DISPLAY));
    }
    show(machine::kitchen(folder(data)?))
}

/// Begins a record with the two files and opens the window on it.
pub fn run(asked: &Open, data: Option<PathBuf>) -> Result<Answer, Stop> {
    let order = input::order(&asked.order)?;
    let household = asked
        .household
        .as_deref()
        .map(input::household)
        .transpose()?;
    if !window::has_display() {
        return Err(Stop::unusable(
            "there is no display for a window; “walk” draws a round without one",
        ));
    }
    let folder = folder(data)?;
    let files = Files {
        folder: folder.clone(),
    };
    if files.exists(Shelf::Household(1)) {
        let sentence = format!(
            "{} already holds a household; open it without files, or name another folder with --data",
            folder.display()
        );
        return Err(Stop::unusable(sentence));
    }
    let file = input::bytes(&asked.order)?;
    let mut kitchen = machine::kitchen(folder);
    let Some(household) = household else {
        kitchen
            .begin_home(&file)
            .map_err(|error| Stop::unusable(error.to_string()))?;
        return show(kitchen);
    };
    let words = household_words(&household)?;
    let people = household.people.iter().flat_map(|person| {
        demo::facts_of(
            PersonId(Uuid::now_v7()),
            person,
            household.start,
            &order.id,
            |date| date,
        )
    });
    kitchen
        .begin_household(Shelf::Household(1), &file, words, people.collect())
        .map_err(|error| Stop::unusable(error.to_string()))?;
    show(kitchen)
}

fn show(kitchen: hearthdose_ui::vm::Kitchen) -> Result<Answer, Stop> {
    window::run(kitchen).map_err(|error| Stop::unusable(format!("no window opened: {error}")))?;
    Answer::new(Exit::Done, &Closed { outcome: "closed" }, String::new())
}

fn folder(data: Option<PathBuf>) -> Result<PathBuf, Stop> {
    paths::data_folder(data).ok_or_else(|| {
        Stop::unusable("no folder for orders and records is known: give one with --data")
    })
}

fn household_words(file: &HouseholdFile) -> Result<HouseholdWords, Stop> {
    let time = |text: &String| {
        text.parse::<Time>()
            .map_err(|_| Stop::unusable(format!("“{text}” is not a time of day; write 08:00")))
    };
    let rounds: Result<Vec<Time>, Stop> = file.rounds.iter().map(time).collect();
    Ok(HouseholdWords {
        name: file.name.clone().unwrap_or_default(),
        zone: file.time_zone.clone(),
        start: file.start,
        rounds: rounds?,
        first_dose_at: file.first_dose_at,
        fresh: file.bowls.as_deref() == Some("fresh every round"),
        practice: false,
    })
}

/// All there is to say in JSON about a window that was closed.
#[derive(Serialize)]
struct Closed {
    outcome: &'static str,
}
