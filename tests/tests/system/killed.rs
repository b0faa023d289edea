//! The window killed without warning at many moments: of setting up a household, of weighing, of a practice round.
//!
//! What the screen says is read over AT-SPI before the kill and after the next start, and must be the same;
//! only the time left in the soak may be shorter, by just as long as it took.

use std::io::{BufRead, BufReader, Write};
use std::path::Path;
use std::process::{Child, ChildStdin, ChildStdout, Stdio};
use std::time::{Duration, Instant};

use serde_json::Value;

use super::assistive::Folder;
use super::bus::Bus;
use super::display::Display;
use super::past;
use super::program::Program;

const ORDER: &str = include_str!("../../../demo-data/orders/quillmere-doxy-1.toml");
const SOAK: Duration = Duration::from_secs(5 * 60);
/// The time left is told in steps of five seconds, and reading it takes a moment.
const STEP: f64 = 8.0;

/// A client that is told what to do.
struct Reader {
    client: Child,
    asks: ChildStdin,
    answers: BufReader<ChildStdout>,
}

type Said = Vec<(String, String)>;

impl Reader {
    fn start(bus: &Bus) -> Reader {
        let mut client = bus
            .script("reader.py")
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("the client runs");
        Reader {
            asks: client.stdin.take().expect("its input"),
            answers: BufReader::new(client.stdout.take().expect("its output")),
            client,
        }
    }

    fn ask(&mut self, command: &str) -> Value {
        writeln!(self.asks, "{command}").expect("the client listens");
        let mut line = String::new();
        self.answers.read_line(&mut line).expect("it answers");
        let answer: Value = serde_json::from_str(&line)
            .unwrap_or_else(|_| panic!("“{command}” got no answer: {line}"));
        assert!(answer.get("fault").is_none(), "“{command}”: {answer}");
        answer["ok"].clone()
    }

    fn read(&mut self) -> Said {
        let said = self.ask("read");
        let pair = |at: &Value| {
            let part = |n: usize| at[n].as_str().unwrap_or_default().to_owned();
            (part(0), part(1))
        };
        said.as_array()
            .map(|all| all.iter().map(pair).collect())
            .unwrap_or_default()
    }
}

impl Drop for Reader {
    fn drop(&mut self) {
        let _ = self.client.kill();
        let _ = self.client.wait();
    }
}

/// The program, killed and opened again and again on one folder.
struct Victim<'a> {
    display: &'a Display,
    bus: &'a Bus,
    folder: &'a Path,
    reader: Reader,
    program: Option<Program>,
    kills: Vec<String>,
}

impl<'a> Victim<'a> {
    fn open(display: &'a Display, bus: &'a Bus, folder: &'a Path) -> Victim<'a> {
        let mut victim = Victim {
            display,
            bus,
            folder,
            reader: Reader::start(bus),
            program: None,
            kills: Vec::new(),
        };
        victim.reopen();
        victim
    }

    fn reopen(&mut self) {
        let program = Program::heard(self.display, self.folder, self.bus);
        self.reader.ask(&format!("app {}", program.number()));
        self.program = Some(program);
    }

    fn kill(&mut self) {
        self.program.take().expect("it runs").kill();
    }

    fn press(&mut self, names: &[&str]) {
        for name in names {
            self.reader.ask(&format!("press {name}"));
            self.reader.read();
        }
    }

    /// Presses the one whose name has these words.
    fn press_like(&mut self, start: &str) {
        let said = self.reader.read();
        let found = said
            .iter()
            .find(|(role, name)| role == "push button" && name.contains(start));
        let (_, name) = found.unwrap_or_else(|| panic!("no “{start}” on {said:?}"));
        let name = name.clone();
        self.press(&[&name]);
    }

    fn keys(&mut self, keys: &str) {
        for key in keys.chars() {
            let name = if key == '.' {
                "Point".to_owned()
            } else {
                key.to_string()
            };
            self.press(&[&name]);
        }
    }

    /// Killed here, it comes back to the same screen.
    fn killed_at(&mut self, moment: &str) {
        let before = self.reader.read();
        self.kill();
        self.reopen();
        let after = self.reader.read();
        assert_eq!(before, after, "killed at {moment}");
        self.kills.push(moment.to_owned());
    }

    /// Killed a moment after a press: the press is in the record or it is not, and nothing between.
    fn killed_while(&mut self, name: &str, wait: Duration, next: &str) {
        let before = self.reader.read();
        self.reader.ask(&format!("press {name}"));
        std::thread::sleep(wait);
        self.kill();
        self.reopen();
        let after = self.reader.read();
        let there = says(&after, next);
        assert!(
            after == before || there,
            "killed {wait:?} after “{name}” it shows neither screen: {after:?}"
        );
        let which = if there { "after" } else { "before" };
        self.kills
            .push(format!("{wait:?} after “{name}”, back {which} it"));
        self.reader.ask(&format!("go {next}"));
    }

    fn killed_in_the_soak(&mut self, water: Instant) {
        let before = self.reader.read();
        self.kill();
        self.reopen();
        let after = self.reader.read();
        let waited = water.elapsed().as_secs_f64();
        let left = time_left(&after);
        let right = SOAK.as_secs_f64() - waited;
        assert!(
            (left - right).abs() < STEP,
            "{left} s are left where {right:.0} s should be"
        );
        let rest = |said: &Said| -> Said {
            let told = |pair: &&(String, String)| !pair.1.ends_with(" left");
            said.iter().filter(told).cloned().collect()
        };
        assert_eq!(rest(&before), rest(&after), "killed in the soak");
        self.kills
            .push(format!("the soak, {left} s left of {right:.1}"));
    }
}

fn says(said: &Said, words: &str) -> bool {
    said.iter().any(|(_, name)| name == words)
}

/// “4 min 55 s left” in seconds.
fn time_left(said: &Said) -> f64 {
    let line = said
        .iter()
        .find_map(|(_, name)| name.strip_suffix(" left"))
        .unwrap_or_else(|| panic!("no time left: {said:?}"));
    let words: Vec<&str> = line.split_whitespace().collect();
    let seconds = words.chunks(2).map(|pair| match *pair {
        [number, unit] => {
            let number: f64 = number.parse().expect("a number");
            if unit == "min" { number * 60.0 } else { number }
        }
        _ => panic!("no time: {line}"),
    });
    seconds.sum()
}

/// Everything from an order in a file to the second weight of a child.
fn set_up(victim: &mut Victim) {
    victim.press(&["Start with instructions"]);
    victim.press_like("Doxycycline after the Quillmere release");
    victim.press_like("Yes, the mark is the same");
    victim.killed_at("the first name, empty");
    victim.reader.ask("type Odile");
    victim.press(&["Next"]);
    victim.press_like("years or older");
    victim.killed_at("does Odile swallow tablets whole?");
    victim.press(&["Yes, whole", "No"]);
    victim.killed_at("the first question of the order");
    victim.press(&["No", "No", "No", "No", "No", "Add another person"]);
    victim.reader.ask("type Pim");
    victim.press(&["Next", "Younger than that"]);
    // Two years and some months old, whatever day it is.
    let today = jiff::tz::TimeZone::UTC.to_datetime(jiff::Timestamp::now());
    let born = today.year() - 3;
    victim.keys(&format!("1219{born}"));
    victim.killed_at("Pim's birthday, typed");
    victim.press(&["Next", "No, or not well", "No"]);
    victim.press(&["No", "No", "No", "No", "No", "Weigh Pim"]);
    victim.killed_at("how do you weigh Pim?");
    victim.press(&["You carry Pim"]);
    victim.keys("170.4");
    victim.killed_at("the first number of the first weighing");
}

/// P13, P14: killed at twenty moments it comes back to the same screen, and no wait is longer or shorter for it.
// promise: P13
// promise: P14
#[test]
fn killed_at_twenty_moments_it_shows_the_same_screen() {
    let begun = Instant::now();
    let display = Display::start(390, 844);
    let bus = Bus::start(&display);
    let mut kills = Vec::new();
    {
        let folder = Folder::fresh("killed-home");
        std::fs::create_dir_all(folder.path().join("Downloads")).expect("a folder");
        let paper = folder.path().join("Downloads/order.toml");
        std::fs::write(paper, ORDER).expect("an order");
        let mut victim = Victim::open(&display, &bus, folder.path());
        victim.killed_at("the first screen");
        set_up(&mut victim);
        kills.append(&mut victim.kills);
    }
    let folder = Folder::fresh("killed-round");
    let mut victim = Victim::open(&display, &bus, folder.path());
    round(&mut victim);
    kills.append(&mut victim.kills);
    for (number, kill) in kills.iter().enumerate() {
        println!("killed {:2}: {kill}", number + 1);
    }
    println!("{} kills in {:.0?}", kills.len(), begun.elapsed());
    assert!(kills.len() >= 20, "only {} kills", kills.len());
    assert!(begun.elapsed() < Duration::from_secs(180));
}

fn round(victim: &mut Victim) {
    victim.press(&["Practice first"]);
    victim.killed_at("today, before the round");
    victim.press(&["Set the table"]);
    victim.killed_at("the question about the bottle");
    victim.press(&["Yes, the same"]);
    victim.killed_while("A metal teaspoon", Duration::ZERO, "Set the table.");
    victim.killed_at("the table set");
    victim.reader.ask("press Start the soak");
    let water = Instant::now();
    for wait in [0, 3, 6] {
        std::thread::sleep(Duration::from_secs(wait));
        victim.killed_in_the_soak(water);
    }
    // The rest of the soak passes while the program is closed.
    victim.kill();
    past::put_back(victim.folder, "practice.sqlite", SOAK);
    victim.reopen();
    victim.reader.ask("go Crush in each bowl.");
    victim.killed_at("the end of the soak");
    let saves = Duration::from_millis;
    victim.killed_while("It is crushed", saves(2), "Do you see any pieces?");
    victim.killed_at("no pieces left?");
    victim.reader.ask("go Measure for Pim.");
    victim.killed_while("It is in Pim’s bowl", saves(5), "Hide the taste for Pim.");
    victim.killed_at("the food for Pim");
    victim.killed_while("Milk", saves(10), "Give it to Pim now.");
    victim.press(&["I gave it to Pim"]);
    victim.killed_at("the question about Pim's dose");
    victim.killed_while("All of it", saves(20), "Measure for Bram.");
    victim.reader.ask("go Throw away what is left in bowl 2.");
    victim.killed_at("a bowl to throw away");
}
