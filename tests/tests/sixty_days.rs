//! Sixty days at the kitchen table: what happens in homes happens, and the record stays whole.
//!
//! Everything is done through the view models, as the window does it, with a clock that runs through 120 rounds.

use std::time::Instant;

use hearthdose_core::prep::Outcome;
use hearthdose_tests::kitchen::{World, press, pressable, title, usual};
use hearthdose_tests::people::Dice;
use hearthdose_ui::text::Language;
use hearthdose_ui::vm::Kitchen;
use hearthdose_ui::vm::view::{Intent, Screen, View};
use jiff::SignedDuration;

const WATER: &str = include_str!("../../demo-data/notices/quillmere-water.toml");
const REVISION: &str = include_str!("../../demo-data/orders/quillmere-doxy-2.toml");
/// Nobody needs more presses than this for sixty days.
const MOST_PRESSES: usize = 20_000;

struct Home {
    world: World,
    kitchen: Kitchen,
    dice: Dice,
    presses: usize,
    rounds: usize,
    clock_is_off: bool,
    slowest: Vec<std::time::Duration>,
}

impl Home {
    fn begin(seed: u64) -> Home {
        let world = World::new(&format!("sixty-{seed}"));
        let mut kitchen = world.start(Language::English);
        press(&mut kitchen, "practise");
        Home {
            world,
            kitchen,
            dice: Dice::new(seed),
            presses: 0,
            rounds: 0,
            clock_is_off: false,
            slowest: Vec::new(),
        }
    }

    fn one_in(&mut self, sides: i64) -> bool {
        self.dice.below(sides) == 0
    }

    /// Every screen on the way is one that a person can go on from.
    fn view(&self) -> View {
        let view = self.kitchen.view();
        assert!(!title(&view).is_empty(), "a screen without a headline");
        let text = serde_json::to_string(&view).expect("a view is plain");
        assert!(!text.contains("\"["), "a word is missing: {text}");
        view
    }

    fn press(&mut self, id: &str) {
        self.presses += 1;
        assert!(self.presses < MOST_PRESSES, "the course comes to no end");
        let seconds = 5 + self.dice.below(40);
        self.world.pass(SignedDuration::from_secs(seconds));
        let begun = Instant::now();
        press(&mut self.kitchen, id);
        self.slowest.push(begun.elapsed());
    }

    fn restart(&mut self) {
        self.kitchen = self.world.start(Language::English);
    }

    /// Something that happens between two rounds.
    fn between_rounds(&mut self) {
        match self.dice.below(40) {
            0 => {
                self.world.reboot();
                self.restart();
            }
            1 => self.world.pass(SignedDuration::from_hours(13)),
            2 => {
                let hours = if self.clock_is_off { -1 } else { 1 };
                self.clock_is_off = !self.clock_is_off;
                self.world.move_clock(SignedDuration::from_hours(hours));
            }
            3 => self.weigh_the_youngest(),
            4 if self.rounds > 10 => self.take_in("water.toml", WATER),
            5 if self.rounds > 30 => self.take_in("revision.toml", REVISION),
            6 => self.correct_the_last(),
            _ => {}
        }
    }

    fn told(&mut self) {
        while pressable(&self.view()).contains(&"told".to_owned()) {
            self.press("told");
        }
    }

    fn find(&self, start: &str) -> Option<String> {
        pressable(&self.view())
            .into_iter()
            .rfind(|id| id.starts_with(start))
    }

    fn weigh_the_youngest(&mut self) {
        self.told();
        self.press("people");
        let person = self.find("person:").expect("people");
        self.press(&person);
        let Some(weigh) = self.find("weigh:") else {
            return self.press("today");
        };
        self.press(&weigh);
        self.press("alone");
        self.press("unit-lb");
        let pounds = (30 + self.dice.below(12)).to_string();
        for _ in 0..2 {
            for digit in pounds.chars() {
                self.press(&format!("key:{digit}"));
            }
            self.press("next");
        }
        self.press("keep-weight");
        self.told();
        self.press("today");
    }

    fn take_in(&mut self, name: &str, text: &str) {
        self.told();
        self.world.bring(name, text);
        self.press("order");
        self.press("look-for-papers");
        let paper = self.find("paper:").expect("the file");
        self.press(&paper);
        if pressable(&self.view()).contains(&"take-paper".to_owned()) {
            self.press("take-paper");
        }
        self.kitchen.take(&Intent::Back);
        while !matches!(self.view().screen, Screen::Today(_)) {
            self.kitchen.take(&Intent::Back);
        }
    }

    fn correct_the_last(&mut self) {
        self.told();
        self.press("record");
        if let Some(line) = self.find("correct:") {
            self.press(&line);
            let all = pressable(&self.view()).contains(&"outcome-all".to_owned());
            assert!(all, "a line of the record can be put right");
            self.press("outcome-all");
        }
        while !matches!(self.view().screen, Screen::Today(_)) {
            self.kitchen.take(&Intent::Back);
        }
    }

    /// One round, with what goes wrong in rounds. False when there is none any more.
    fn round(&mut self) -> bool {
        for _ in 0..200 {
            self.told();
            match &self.view().screen {
                Screen::Today(today) if today.main.ready => break,
                Screen::Today(_) => {
                    self.world.pass(SignedDuration::from_mins(15));
                    self.kitchen.take(&Intent::Tick);
                }
                _ => return false,
            }
        }
        self.rounds += 1;
        loop {
            let view = self.view();
            if self.one_in(60) {
                self.restart();
                continue;
            }
            if title(&view) == "The course is over" {
                return false;
            }
            let ids = pressable(&view);
            if ids.contains(&"wrong".to_owned()) && self.one_in(80) {
                self.press("wrong");
                let what = ["bowl-lost:", "dose-dropped", "ran-short"]
                    .into_iter()
                    .find_map(|start| self.find(start));
                match what {
                    Some(what) => self.press(&what),
                    None => self.kitchen.take(&Intent::Back),
                }
                continue;
            }
            let outcomes: Vec<String> = ids
                .iter()
                .filter(|id| id.starts_with("outcome-") && *id != "outcome-all")
                .cloned()
                .collect();
            if !outcomes.is_empty() && self.one_in(25) {
                let many = i64::try_from(outcomes.len()).expect("a few");
                let at = usize::try_from(self.dice.below(many)).expect("an index");
                let id = outcomes[at].clone();
                self.press(&id);
                continue;
            }
            match usual(&view) {
                Some(id) => {
                    self.press(&id);
                    if id == "to-today" {
                        return true;
                    }
                }
                None => {
                    self.world.pass(SignedDuration::from_secs(40));
                    self.kitchen.take(&Intent::Tick);
                    self.presses += 1;
                    assert!(self.presses < MOST_PRESSES, "stuck at “{}”", title(&view));
                }
            }
        }
    }
}

#[test]
fn sixty_days_of_use_end_with_a_whole_record() {
    for seed in [1] {
        let mut home = Home::begin(seed);
        assert!(home.round(), "the first round");
        let begun = Instant::now();
        home.restart();
        let first_day = begun.elapsed();
        while home.rounds < 130 {
            home.between_rounds();
            if !home.round() {
                break;
            }
        }
        let begun = Instant::now();
        home.restart();
        let last_day = begun.elapsed();
        let state = home.kitchen.state().expect("a record").clone();
        let mean = |part: &[std::time::Duration]| {
            part.iter().sum::<std::time::Duration>() / u32::try_from(part.len()).expect("a few")
        };
        println!(
            "a press took {:?} in the first 200, {:?} in the last 200",
            mean(&home.slowest[..200]),
            mean(&home.slowest[home.slowest.len() - 200..])
        );
        println!(
            "seed {seed}: {} rounds, {} presses, {} doses, opened in {first_day:?} on day one and {last_day:?} at the end",
            home.rounds,
            home.presses,
            state.doses.len()
        );
        assert_eq!(state.misfits, [], "every fact has its place");
        assert_eq!(state.waiting, []);
        assert_eq!(state.conflicts, []);
        assert_eq!(state.doubled, [], "nobody had a dose twice");
        let days = state
            .rounds_begun
            .union(&state.rounds_missed)
            .map(|round| round.key.day)
            .collect::<std::collections::BTreeSet<_>>();
        assert!(days.len() >= 59, "only {} days have rounds", days.len());
        let swallowed = state
            .doses
            .iter()
            .filter(|dose| dose.outcome != Outcome::WouldNotTake)
            .count();
        assert!(swallowed > 300, "only {swallowed} doses in sixty days");
        assert!(state.covered().is_empty() || home.rounds < 120);
        assert!(
            last_day.as_millis() < first_day.as_millis() * 3 + 250,
            "opened in {last_day:?} after sixty days, {first_day:?} on day one"
        );
    }
}
