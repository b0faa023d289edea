//! A kitchen with a clock one can move, counted names and records in a folder of its own.

use std::cell::{Cell, RefCell};
use std::path::{Path, PathBuf};
use std::rc::Rc;

use hearthdose_core::exchange::{DeviceRandom, OpeningKey};
use hearthdose_core::store::{Opening, Setup, Store, StoreError};
use hearthdose_core::time::{Now, Steady};
use hearthdose_ui::text::{Language, Words};
use hearthdose_ui::vm::Kitchen;
use hearthdose_ui::vm::ports::{Clock, Ids, Paper, Records, Shelf};
use hearthdose_ui::vm::view::{Block, Intent, Screen, StepView, View};
use jiff::{SignedDuration, Timestamp};
use uuid::Uuid;

use crate::voices::{self, Voice};

/// True time, and what the wall clock makes of it.
#[derive(Clone, Debug)]
pub struct Time {
    truth: Timestamp,
    wall_ahead: SignedDuration,
    boot: u32,
    booted: Timestamp,
}

/// The outside of a kitchen; it outlives the program, as a kitchen does.
#[derive(Clone)]
pub struct World {
    time: Rc<RefCell<Time>>,
    names: Rc<Cell<u128>>,
    folder: PathBuf,
    setup: Rc<RefCell<Setup>>,
    papers: Rc<RefCell<Vec<Paper>>>,
    /// What the device's secret and its names begin with.
    device: Rc<Cell<u8>>,
    /// The secret half of the site's sealing key, where this device has it.
    pub site_key: Rc<Cell<Option<[u8; 32]>>>,
    /// Texts of codes in pictures that lie where the program looks.
    pub codes: Rc<RefCell<Vec<String>>>,
    /// How words are spoken, where not as the program's own files have them.
    voice: Option<Voice>,
}

impl World {
    /// A folder of its own; 7:30 in the evening of an invented spring day.
    pub fn new(name: &str) -> World {
        let folder =
            std::env::temp_dir().join(format!("hearthdose-flow-{name}-{}", std::process::id()));
        let _ = std::fs::remove_dir_all(&folder);
        std::fs::create_dir_all(&folder).expect("a folder");
        let truth: Timestamp = "2031-04-03T19:30:00-05:00".parse().expect("an instant");
        let time = Time {
            truth,
            wall_ahead: SignedDuration::ZERO,
            boot: 1,
            booted: truth,
        };
        World {
            time: Rc::new(RefCell::new(time)),
            names: Rc::new(Cell::new(0)),
            folder,
            setup: Rc::new(RefCell::new(Setup::default())),
            papers: Rc::new(RefCell::new(Vec::new())),
            device: Rc::new(Cell::new(7)),
            site_key: Rc::default(),
            codes: Rc::default(),
            voice: None,
        }
    }

    /// Starts the program, or starts it again.
    pub fn start(&self, language: Language) -> Kitchen {
        let mut kitchen = Kitchen::open(
            Box::new(self.clone()),
            Box::new(self.clone()),
            Box::new(self.clone()),
            Some(language),
        );
        if let Some(voice) = self.voice {
            kitchen.speak(Words::read(language, &voices::spoken(voice)));
        }
        kitchen
    }

    /// The same world, in which words are spoken by this voice.
    pub fn speaking(mut self, voice: Option<Voice>) -> World {
        self.voice = voice;
        self
    }

    /// An English text as this world speaks it.
    pub fn said(&self, english: &str) -> String {
        self.voice
            .map_or_else(|| english.to_owned(), |voice| voice(english))
    }

    pub fn pass(&self, length: SignedDuration) {
        let mut time = self.time.borrow_mut();
        time.truth = time.truth.checked_add(length).expect("time goes on");
    }

    /// Moves the wall clock only.
    pub fn move_clock(&self, by: SignedDuration) {
        let mut time = self.time.borrow_mut();
        time.wall_ahead += by;
    }

    /// Has another secret and gives other names; to be said before the program starts.
    pub fn become_another_device(&self, mark: u8) {
        self.device.set(mark);
    }

    /// The machine starts again; its steady clock begins anew.
    pub fn reboot(&self) {
        let mut time = self.time.borrow_mut();
        time.boot += 1;
        time.booted = time.truth;
    }

    /// Other limits for records opened from now on.
    pub fn limit(&self, setup: Setup) {
        *self.setup.borrow_mut() = setup;
    }

    /// Puts a file where the program looks for orders and notices.
    pub fn bring(&self, name: &str, text: &str) {
        self.papers.borrow_mut().push(Paper {
            name: name.to_owned(),
            place: "Downloads".to_owned(),
            bytes: text.as_bytes().to_vec(),
        });
    }

    /// Puts what another program left into the same place.
    pub fn carry(&self, name: &str, bytes: Vec<u8>) {
        let mut papers = self.papers.borrow_mut();
        papers.retain(|paper| paper.name != name);
        papers.push(Paper {
            name: name.to_owned(),
            place: "Stick".to_owned(),
            bytes,
        });
    }

    pub fn folder(&self) -> &Path {
        &self.folder
    }
}

impl Drop for World {
    fn drop(&mut self) {
        // The last of the clones takes the folder with it.
        if Rc::strong_count(&self.time) == 1 {
            let _ = std::fs::remove_dir_all(&self.folder);
        }
    }
}

impl Clock for World {
    fn now(&self) -> Now {
        let time = self.time.borrow();
        let millis = u64::try_from(time.truth.duration_since(time.booted).as_millis())
            .expect("after the start");
        let wall = time
            .truth
            .checked_add(time.wall_ahead)
            .expect("a wall clock");
        Now {
            wall,
            steady: Some(Steady {
                boot: format!("boot {}", time.boot),
                millis,
            }),
        }
    }

    fn zone(&self) -> String {
        "America/Chicago".to_owned()
    }
}

impl Ids for World {
    fn fresh(&mut self) -> Uuid {
        self.names.set(self.names.get() + 1);
        // Another device's names are never the same.
        let device = u128::from(self.device.get()) << 64;
        Uuid::from_u128(device | self.names.get())
    }

    fn device_random(&mut self) -> Option<DeviceRandom> {
        Some(DeviceRandom::new([self.device.get(); 32]))
    }

    fn random(&mut self) -> Option<[u8; 32]> {
        self.names.set(self.names.get() + 1);
        let mut bytes = [self.device.get(); 32];
        bytes[..16].copy_from_slice(&self.names.get().to_be_bytes());
        Some(bytes)
    }

    fn opening_key(&mut self) -> Option<OpeningKey> {
        OpeningKey::from_bytes(&self.site_key.get()?)
    }
}

impl Records for World {
    fn homes(&self) -> Vec<u16> {
        let there = |number: &u16| self.exists(Shelf::Household(*number));
        (1..20).rev().filter(there).collect()
    }

    fn papers(&self) -> Vec<Paper> {
        self.papers.borrow().clone()
    }

    fn codes(&self) -> Vec<String> {
        self.codes.borrow().clone()
    }

    fn shifts(&self) -> Vec<Paper> {
        let papers = self.papers.borrow();
        let shifts = papers.iter().filter(|paper| paper.name.ends_with(".shift"));
        shifts.cloned().collect()
    }

    fn leave(&self, name: &str, bytes: &[u8]) -> Option<String> {
        std::fs::write(self.folder.join(name), bytes).ok()?;
        Some("Documents".to_owned())
    }

    fn settings(&self) -> Option<String> {
        hearthdose_ui::machine::settings::read(&self.folder)
    }

    fn keep_settings(&self, text: &str) -> bool {
        hearthdose_ui::machine::settings::keep(&self.folder, text).is_ok()
    }

    fn exists(&self, shelf: Shelf) -> bool {
        self.path(shelf).exists()
    }

    fn open(&self, shelf: Shelf) -> Result<(Store, Opening), StoreError> {
        Store::open_with(&self.path(shelf), &self.setup.borrow())
    }

    fn wipe(&self, shelf: Shelf) -> Result<(), StoreError> {
        for ending in ["", "-wal", "-shm"] {
            let mut name = self.path(shelf).into_os_string();
            name.push(ending);
            let _ = std::fs::remove_file(name);
        }
        Ok(())
    }
}

impl World {
    pub fn path(&self, shelf: Shelf) -> PathBuf {
        self.folder.join(match shelf {
            Shelf::Household(number) => format!("household-{number}.sqlite"),
            Shelf::Practice => "practice.sqlite".to_owned(),
            Shelf::Site => "site.sqlite".to_owned(),
        })
    }
}

/// Presses one thing by its id, as the window would; the id must be on the screen.
pub fn press(kitchen: &mut Kitchen, id: &str) {
    let view = kitchen.view();
    assert!(
        pressable(&view).contains(&id.to_owned()),
        "“{id}” is not on the screen “{}”",
        title(&view)
    );
    kitchen.take(&Intent::Press { id: id.to_owned() });
}

/// Everything that can be pressed on a screen, by id.
pub fn pressable(view: &View) -> Vec<String> {
    let mut ids: Vec<String> = view
        .shelf
        .iter()
        .chain(view.help.iter())
        .chain(view.banner.iter())
        .map(|link| link.id.clone())
        .collect();
    match &view.screen {
        Screen::Start(start) => {
            ids.extend(start.choices.iter().map(|choice| choice.id.clone()));
            ids.extend(start.ways.iter().map(|link| link.id.clone()));
        }
        Screen::Today(today) => {
            ids.extend(today.main.ready.then(|| today.main.id.clone()));
            ids.extend(today.ways.iter().map(|link| link.id.clone()));
        }
        Screen::Step(step) => {
            ids.extend(step.choices.iter().map(|choice| choice.id.clone()));
            ids.extend(
                step.main
                    .iter()
                    .filter(|main| main.ready)
                    .map(|main| main.id.clone()),
            );
            ids.extend(
                step.ways
                    .iter()
                    .chain(&step.asides)
                    .map(|link| link.id.clone()),
            );
            if let Some(entry) = &step.entry {
                ids.extend(entry.units.iter().map(|unit| unit.id.clone()));
                ids.extend(entry.fields.iter().map(|field| field.id.clone()));
                if entry.pad.is_some() {
                    ids.extend("0123456789".chars().map(|digit| format!("key:{digit}")));
                    ids.push("key:back".to_owned());
                }
                if entry.pad.as_ref().is_some_and(|pad| pad.point.is_some()) {
                    ids.push("key:.".to_owned());
                }
            }
        }
        Screen::Reading(reading) => {
            ids.extend(
                reading
                    .main
                    .iter()
                    .filter(|main| main.ready)
                    .map(|main| main.id.clone()),
            );
            ids.extend(reading.ways.iter().map(|link| link.id.clone()));
            ids.extend(reading.blocks.iter().filter_map(|block| match block {
                Block::Action { id, .. } => Some(id.clone()),
                Block::Person { row, .. } => Some(row.id.clone()),
                _ => None,
            }));
            let options = reading.blocks.iter().filter_map(|block| match block {
                Block::Choice { options, .. } => Some(options),
                _ => None,
            });
            ids.extend(options.flatten().map(|option| option.id.clone()));
        }
    }
    ids
}

pub fn title(view: &View) -> String {
    match &view.screen {
        Screen::Start(start) => start.question.clone(),
        Screen::Today(today) => today.title.clone(),
        Screen::Step(step) => step.title.clone(),
        Screen::Reading(reading) => reading.title.clone(),
    }
}

pub fn step(view: &View) -> &StepView {
    match &view.screen {
        Screen::Step(step) => step,
        other => panic!("not a step: {other:?}"),
    }
}

/// The usual answer of a screen, or its main button when that is ready.
pub fn usual(view: &View) -> Option<String> {
    let (choices, main) = match &view.screen {
        Screen::Start(start) => (&start.choices[..], None),
        Screen::Today(today) => (&[][..], Some(&today.main)),
        Screen::Step(step) => (&step.choices[..], step.main.as_ref()),
        Screen::Reading(reading) => (&[][..], reading.main.as_ref()),
    };
    let choice = choices
        .iter()
        .find(|choice| choice.main)
        .map(|choice| choice.id.clone());
    choice.or_else(|| main.filter(|main| main.ready).map(|main| main.id.clone()))
}

/// Goes on by the usual answers until a screen of this title comes up; waits pass by themselves.
pub fn go_on_to(world: &World, kitchen: &mut Kitchen, wanted: &str) {
    for _ in 0..200 {
        let view = kitchen.view();
        if title(&view).starts_with(wanted) {
            return;
        }
        match usual(&view) {
            Some(id) => {
                world.pass(SignedDuration::from_secs(15));
                press(kitchen, &id);
            }
            None => {
                world.pass(SignedDuration::from_secs(30));
                kitchen.take(&Intent::Tick);
            }
        }
    }
    panic!(
        "“{wanted}” never comes up; the screen is “{}”",
        title(&kitchen.view())
    );
}
