//! Ringing on a desktop: three soft notes through the system's own player, and a message beside the window.
//!
//! It rings while this program runs, until something is pressed, and it ends by itself.

mod notes;

use std::env;
use std::fs::{self, OpenOptions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::thread;
use std::time::Duration;

use jiff::Timestamp;
use jiff::tz::TimeZone;

use super::clock::SystemClock;
use crate::vm::ports::{Bell, Ring};

/// What can play a sound, the newest sound system first.
const PLAYERS: [&str; 3] = ["pw-play", "paplay", "aplay"];
/// What shows a message beside the window.
const NOTIFIER: &str = "notify-send";
/// How often the notes come: two minutes in all.
const TIMES: u32 = 20;
const PAUSE: Duration = Duration::from_secs(5);
/// How often is looked whether it is time, or whether something was pressed.
const LOOK: Duration = Duration::from_millis(200);

/// A count that goes up when earlier rings no longer matter.
type Count = Arc<AtomicU64>;

/// The player and the messages of this desktop.
pub struct Ringing {
    player: Option<PathBuf>,
    notifier: Option<PathBuf>,
    timers: Count,
    alarms: Count,
    presses: Count,
    /// It may sound.
    sound: Arc<AtomicBool>,
}

impl Ringing {
    /// What is found in the folders of `PATH`.
    pub fn of_session() -> Ringing {
        let path = env::var_os("PATH").unwrap_or_default();
        let folders: Vec<PathBuf> = env::split_paths(&path).collect();
        Ringing::among(&folders)
    }

    /// What is found in these folders.
    pub fn among(folders: &[PathBuf]) -> Ringing {
        Ringing {
            player: PLAYERS.iter().find_map(|name| found(folders, name)),
            notifier: found(folders, NOTIFIER),
            timers: Count::default(),
            alarms: Count::default(),
            presses: Count::default(),
            sound: Arc::new(AtomicBool::new(true)),
        }
    }
}

impl Bell for Ringing {
    fn ring(&mut self, ring: &Ring) -> bool {
        let sounds = self.player.is_some() && self.sound.load(Ordering::SeqCst);
        if !sounds && self.notifier.is_none() {
            return false;
        }
        // A second wish of the same kind takes the place of the first.
        let (wishes, words) = match ring {
            Ring::After { words, .. } => (&self.timers, words),
            Ring::At { words, .. } => (&self.alarms, words),
        };
        let Some(due) = Due::of(ring) else {
            return false;
        };
        let one = OneRing {
            due,
            words: words.clone(),
            player: self.player.clone(),
            notifier: self.notifier.clone(),
            wish: wishes.fetch_add(1, Ordering::SeqCst) + 1,
            wishes: Arc::clone(wishes),
            presses: Arc::clone(&self.presses),
            sound: Arc::clone(&self.sound),
        };
        thread::Builder::new().spawn(move || one.wait()).is_ok()
    }

    fn let_sound(&mut self, yes: bool) {
        self.sound.store(yes, Ordering::SeqCst);
    }

    fn sounds(&self) -> bool {
        self.player.is_some()
    }

    fn writes(&self) -> bool {
        self.notifier.is_some()
    }

    fn hush(&mut self) {
        self.presses.fetch_add(1, Ordering::SeqCst);
    }

    fn shows_itself(&self) -> bool {
        false
    }
}

/// When it is time: a wait by the steady clock, an hour by the wall clock.
enum Due {
    Steady(u64),
    Wall(Timestamp),
}

impl Due {
    fn of(ring: &Ring) -> Option<Due> {
        let now = SystemClock::new().read();
        match ring {
            Ring::After { seconds, .. } => {
                let wait = u64::try_from(*seconds).ok()?.checked_mul(1_000)?;
                Some(Due::Steady(now.steady?.millis.checked_add(wait)?))
            }
            Ring::At { hour, minute, .. } => {
                let zone = TimeZone::system();
                let mut there = zone.to_datetime(now.wall);
                let time = jiff::civil::Time::new(*hour, *minute, 0, 0).ok()?;
                if time <= there.time() {
                    there = there.tomorrow().ok()?;
                }
                let at = zone.to_timestamp(there.date().to_datetime(time)).ok()?;
                Some(Due::Wall(at))
            }
        }
    }

    fn is_now(&self) -> bool {
        let now = SystemClock::new().read();
        match self {
            Due::Steady(millis) => now.steady.is_some_and(|steady| steady.millis >= *millis),
            Due::Wall(at) => now.wall >= *at,
        }
    }
}

/// One ring that was asked for.
struct OneRing {
    due: Due,
    words: String,
    player: Option<PathBuf>,
    notifier: Option<PathBuf>,
    wish: u64,
    wishes: Count,
    presses: Count,
    sound: Arc<AtomicBool>,
}

impl OneRing {
    fn wait(self) {
        while !self.due.is_now() {
            thread::sleep(LOOK);
            if self.wishes.load(Ordering::SeqCst) != self.wish {
                return;
            }
        }
        let pressed = self.presses.load(Ordering::SeqCst);
        if let Some(notifier) = &self.notifier {
            // Whoever passes by may see it: it names nobody.
            let shown = start(notifier, &["--app-name=Hearthdose", &self.words]);
            if let Ok(mut shown) = shown {
                let _ = thread::Builder::new().spawn(move || shown.wait());
            }
        }
        if let Some(player) = &self.player {
            let file = env::temp_dir().join(format!(
                "hearthdose-{}-{}.wav",
                std::process::id(),
                Timestamp::now().as_nanosecond()
            ));
            // Nobody is told that a sound failed at an hour when nobody asked: the screen says that the time is over.
            let _ = keep(&file).and_then(|()| self.play(player, &file, pressed));
            let _ = fs::remove_file(&file);
        }
    }

    fn play(&self, player: &Path, file: &Path, pressed: u64) -> io::Result<()> {
        let quiet =
            || !self.sound.load(Ordering::SeqCst) || self.presses.load(Ordering::SeqCst) != pressed;
        for _ in 0..TIMES {
            if quiet() {
                break;
            }
            let mut child = start(player, &[&file.to_string_lossy()])?;
            let began = std::time::Instant::now();
            let mut playing = true;
            while playing || began.elapsed() < PAUSE {
                if quiet() {
                    let _ = child.kill();
                    let _ = child.wait();
                    return Ok(());
                }
                thread::sleep(LOOK);
                playing = child.try_wait()?.is_none();
            }
        }
        Ok(())
    }
}

fn start(program: &Path, arguments: &[&str]) -> io::Result<Child> {
    Command::new(program)
        .args(arguments)
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
}

/// Writes the notes into a new file; one that is there already is nobody's to overwrite.
fn keep(file: &Path) -> io::Result<()> {
    let mut open = OpenOptions::new().write(true).create_new(true).open(file)?;
    open.write_all(&notes::wav())
}

fn found(folders: &[PathBuf], name: &str) -> Option<PathBuf> {
    let paths = folders.iter().map(|folder| folder.join(name));
    paths.into_iter().find(|path| path.is_file())
}
