//! A whole round of the demo household through the real view models and screens, without a display.
//!
//! It presses what a caregiver would press, moves a clock of its own through the waits, and keeps a picture of every step.

use std::cell::Cell;
use std::path::{Path, PathBuf};
use std::rc::Rc;

use hearthdose_core::exchange::DeviceRandom;
use hearthdose_core::store::{Opening, Store, StoreError};
use hearthdose_core::time::{Now, Steady};
use jiff::{SignedDuration, Timestamp};
use serde::Serialize;
use uuid::Uuid;

use crate::headless::{Headless, HeadlessError};
use crate::text::Language;
use crate::vm::Kitchen;
use crate::vm::ports::{Clock, Ids, Paper, Records, Shelf};
use crate::vm::view::{Intent, Screen, View};

/// What to walk, and how large.
pub struct Walk<'a> {
    pub out: &'a Path,
    pub language: Language,
    /// Percent, 100 to 200.
    pub scale: u16,
    pub dark: bool,
    pub size: (u32, u32),
}

/// Why a walk could not be made.
#[derive(Debug, thiserror::Error)]
pub enum WalkError {
    #[error("the pictures cannot be written: {0}")]
    Folder(#[from] std::io::Error),
    #[error(transparent)]
    Draw(#[from] HeadlessError),
    #[error("the walk came to no end after {0} steps")]
    NoEnd(usize),
    #[error("the walk stopped at “{0}”, where there is nothing to press")]
    Stuck(String),
}

/// One step of a walk, as written to `walk.json`.
#[derive(Debug, Serialize)]
pub struct WalkStep {
    pub picture: String,
    /// The walk's own clock.
    pub at: String,
    pub pressed: Option<String>,
    pub view: View,
}

#[derive(Debug, Serialize)]
struct Report {
    language: &'static str,
    text_scale: u16,
    steps: Vec<WalkStep>,
}

/// More steps than any round of four people has.
const MOST_STEPS: usize = 120;
/// A Thursday evening in spring, invented, a little before the night round.
const BEGINS: &str = "2031-04-03T19:30:00-05:00";
const ZONE: &str = "America/Chicago";

/// Walks one round and gives the pictures written.
///
/// # Errors
/// A folder that cannot be written, a display already taken, or a round that does not end.
pub fn run(walk: &Walk<'_>, tell: &mut dyn FnMut(&Path)) -> Result<Vec<PathBuf>, WalkError> {
    std::fs::create_dir_all(walk.out)?;
    let headless = Headless::new()?;
    let wall = Rc::new(Cell::new(BEGINS.parse().unwrap_or(Timestamp::UNIX_EPOCH)));
    let clock = WalkClock {
        begins: wall.get(),
        wall: Rc::clone(&wall),
    };
    let mut kitchen = Kitchen::open(
        Box::new(clock),
        Box::new(CountedIds(0)),
        Box::new(MemoryRecords),
        Some(walk.language),
    );
    kitchen.set_scale(walk.scale);
    kitchen.set_dark(walk.dark);
    let mut steps = Vec::new();
    let mut files = Vec::new();
    let mut round_done = false;
    for number in 1..=MOST_STEPS {
        let view = kitchen.view();
        let name = format!("{number:02}-{}.png", slug(&view));
        let path = walk.out.join(&name);
        headless
            .render(&view, walk.size.0, walk.size.1)
            .save_png(&path)?;
        tell(&path);
        files.push(path);
        let home = matches!(view.screen, Screen::Today(_));
        let at = wall.get().to_string();
        if home && round_done {
            steps.push(WalkStep {
                picture: name,
                at,
                pressed: None,
                view,
            });
            write_report(walk, steps)?;
            return Ok(files);
        }
        let pressed = match next_press(&view) {
            Next::Press(id) => {
                round_done = round_done || id == "to-today";
                wall.set(later(wall.get(), SignedDuration::from_secs(20)));
                kitchen.take(&Intent::Press { id: id.clone() });
                Some(id)
            }
            Next::Wait => {
                wall.set(later(wall.get(), SignedDuration::from_secs(100)));
                kitchen.take(&Intent::Tick);
                None
            }
            Next::Nothing(title) => return Err(WalkError::Stuck(title)),
        };
        steps.push(WalkStep {
            picture: name,
            at,
            pressed,
            view,
        });
    }
    Err(WalkError::NoEnd(MOST_STEPS))
}

fn write_report(walk: &Walk<'_>, steps: Vec<WalkStep>) -> Result<(), WalkError> {
    let report = Report {
        language: walk.language.code(),
        text_scale: walk.scale,
        steps,
    };
    let text = serde_json::to_string_pretty(&report).map_err(std::io::Error::from)?;
    std::fs::write(walk.out.join("walk.json"), text + "\n")?;
    Ok(())
}

enum Next {
    Press(String),
    Wait,
    Nothing(String),
}

/// The usual answer, or the main button.
fn next_press(view: &View) -> Next {
    let (choices, main, title) = match &view.screen {
        Screen::Start(start) => (&start.choices[..], None, &start.name),
        Screen::Today(today) => (&[][..], Some(&today.main), &today.title),
        Screen::Step(step) => (&step.choices[..], step.main.as_ref(), &step.title),
        Screen::Reading(reading) => (&[][..], reading.main.as_ref(), &reading.title),
    };
    if let Some(choice) = choices.iter().find(|choice| choice.main) {
        return Next::Press(choice.id.clone());
    }
    match main {
        Some(button) if button.ready => Next::Press(button.id.clone()),
        Some(_) => Next::Wait,
        None => Next::Nothing(title.clone()),
    }
}

/// A file name that says what is on the picture.
fn slug(view: &View) -> String {
    let title = match &view.screen {
        Screen::Start(_) => "start",
        Screen::Today(_) => "today",
        Screen::Step(step) => &step.title,
        Screen::Reading(reading) => &reading.title,
    };
    let plain: String = title
        .chars()
        .map(|c| {
            if c.is_ascii_alphanumeric() {
                c.to_ascii_lowercase()
            } else {
                '-'
            }
        })
        .collect();
    let words: Vec<&str> = plain
        .split('-')
        .filter(|word| !word.is_empty())
        .take(5)
        .collect();
    words.join("-")
}

fn later(at: Timestamp, length: SignedDuration) -> Timestamp {
    at.checked_add(length).unwrap_or(at)
}

struct WalkClock {
    begins: Timestamp,
    wall: Rc<Cell<Timestamp>>,
}

impl Clock for WalkClock {
    fn now(&self) -> Now {
        let wall = self.wall.get();
        let millis = u64::try_from(wall.duration_since(self.begins).as_millis()).unwrap_or(0);
        Now {
            wall,
            steady: Some(Steady {
                boot: "walk".to_owned(),
                millis,
            }),
        }
    }

    fn zone(&self) -> String {
        ZONE.to_owned()
    }
}

/// Counted names, so that two walks give the same pictures.
struct CountedIds(u128);

impl Ids for CountedIds {
    fn fresh(&mut self) -> Uuid {
        self.0 += 1;
        Uuid::from_u128(self.0)
    }

    fn device_random(&mut self) -> Option<DeviceRandom> {
        Some(DeviceRandom::new([7; 32]))
    }

    /// A walk seals nothing and sets no PIN.
    fn random(&mut self) -> Option<[u8; 32]> {
        None
    }
}

/// Records that end with the walk.
struct MemoryRecords;

impl Records for MemoryRecords {
    fn homes(&self) -> Vec<u16> {
        Vec::new()
    }

    fn papers(&self) -> Vec<Paper> {
        Vec::new()
    }

    fn codes(&self) -> Vec<String> {
        Vec::new()
    }

    fn shifts(&self) -> Vec<Paper> {
        Vec::new()
    }

    fn leave(&self, _name: &str, _bytes: &[u8]) -> Option<String> {
        None
    }

    fn settings(&self) -> Option<String> {
        None
    }

    fn keep_settings(&self, _text: &str) -> bool {
        false
    }

    fn exists(&self, _: Shelf) -> bool {
        false
    }

    fn open(&self, _: Shelf) -> Result<(Store, Opening), StoreError> {
        Ok((Store::in_memory()?, Opening::Fresh))
    }

    fn wipe(&self, _shelf: Shelf) -> Result<(), StoreError> {
        Ok(())
    }
}
