//! How long a volunteer works for a family of four without a code: typed in, served, the receipt printed.
//!
//! Estimated by the keystroke-level model: Card SK, Moran TP, Newell A: The keystroke-level model for user performance
//! time with interactive systems. Communications of the ACM 1980;23:396–410. Its operators, for one who is used to the task:
//! K a key or a button, 0.28 s (average non-secretary; a capital letter is two); P pointing, 1.1 s; H hands from the keyboard
//! to the pointer or back, 0.4 s; M making up one's mind, 1.35 s, before each line that is typed and each press that is not
//! the plain end of the one before.
//! Each question of the order is read aloud once, at 183 words a minute: Brysbaert M: How many words do we read per minute?
//! Journal of Memory and Language 2019;109:104047.
//! Left out: the time in which people answer, fetching the packs, and what the program takes to respond.

use hearthdose_tests::kitchen::{press, pressable, step, title};
use hearthdose_ui::vm::Kitchen;
use hearthdose_ui::vm::view::Intent;

use super::{at_site, packs_in, type_into};

const KEY: f64 = 0.28;
const POINT: f64 = 1.1;
const HANDS: f64 = 0.4;
const MIND: f64 = 1.35;
const ALOUD: f64 = 183.0;
/// The goal, in seconds.
const GOAL: f64 = 90.0;

/// A volunteer at the window; the program is really worked, and each thing that is done takes its time.
struct Volunteer {
    kitchen: Kitchen,
    seconds: f64,
    at_keys: bool,
}

fn number(count: usize) -> f64 {
    u32::try_from(count).map_or(f64::MAX, f64::from)
}

/// Keys of some words: a capital letter takes the shift key too.
fn keys(text: &str) -> f64 {
    number(text.chars().count() + text.chars().filter(|c| c.is_uppercase()).count())
}

impl Volunteer {
    fn hands(&mut self, at_keys: bool) {
        if self.at_keys != at_keys {
            self.seconds += HANDS;
            self.at_keys = at_keys;
        }
    }

    /// A line that the keyboard is before already.
    fn line(&mut self, id: &str, text: &str) {
        let view = self.kitchen.view();
        let entry = step(&view).entry.as_ref().expect("a line to type into");
        assert!(entry.fields.iter().any(|field| field.id == id), "{id}");
        self.hands(true);
        self.seconds += MIND + keys(text) * KEY;
        type_into(&mut self.kitchen, id, text);
    }

    fn needs_no_weight(&self) {
        let view = self.kitchen.view();
        let entry = step(&view).entry.as_ref().expect("lines");
        let weight = entry.fields.iter().find(|field| field.id == "weight");
        assert!(weight.is_some_and(|line| line.label.contains("not needed")));
    }

    fn tab(&mut self) {
        self.hands(true);
        self.seconds += KEY;
    }

    /// Enter: the main button.
    fn enter(&mut self, expected: &str) {
        let view = self.kitchen.view();
        let main = step(&view).main.clone().expect("a main button");
        assert_eq!((main.id.as_str(), main.ready), (expected, true));
        self.hands(true);
        self.seconds += KEY;
        self.kitchen.take(&Intent::Accept);
    }

    fn press(&mut self, id: &str) {
        self.seconds += MIND;
        self.press_on(id);
    }

    /// The plain end of the press before.
    fn press_on(&mut self, id: &str) {
        self.hands(false);
        self.seconds += POINT + KEY;
        press(&mut self.kitchen, id);
    }

    fn ask(&mut self) {
        let words = title(&self.kitchen.view()).split_whitespace().count();
        self.seconds += number(words) * 60.0 / ALOUD;
    }
}

/// Two keys, a line of four letters with a capital, a press: 0.56 + 1.35 + 1.4 + 2.73 s, and the hands once.
#[test]
fn the_estimate_worked_out_by_hand() {
    let (_world, mut kitchen) = at_site("minutes-by-hand");
    press(&mut kitchen, "family");
    let mut volunteer = Volunteer {
        kitchen,
        seconds: 0.0,
        at_keys: true,
    };
    volunteer.line("name", "Lena");
    volunteer.tab();
    volunteer.tab();
    volunteer.press("grown-up");
    let by_hand = 0.56 + 1.35 + 1.4 + 2.73 + 0.4;
    assert!((volunteer.seconds - by_hand).abs() < 0.001);
}

#[test]
fn a_family_of_four_takes_a_volunteer_a_minute_and_a_half_at_most() {
    let (_world, mut kitchen) = at_site("minutes");
    packs_in(&mut kitchen, "QD9000", "2032-05-31", "60");
    let mut volunteer = Volunteer {
        kitchen,
        seconds: 0.0,
        at_keys: false,
    };
    volunteer.press("family");
    let people = [
        // The order needs no weight of a grown-up, and the line says so.
        ("Lena", "34", ""),
        ("Joos", "36", ""),
        ("Bram", "6", "47 lb"),
        ("Ilse", "3", "31 lb"),
    ];
    for (at, (name, age, weight)) in people.iter().enumerate() {
        volunteer.line("name", name);
        volunteer.tab();
        volunteer.line("age", age);
        if weight.is_empty() {
            volunteer.needs_no_weight();
        } else {
            volunteer.tab();
            volunteer.line("weight", weight);
        }
        match at {
            3 => volunteer.press("family-all"),
            _ => volunteer.enter("person-in"),
        }
    }
    let typed_in = volunteer.seconds;
    while title(&volunteer.kitchen.view()) != "Lena, Joos, Bram, Ilse" {
        if pressable(&volunteer.kitchen.view()).contains(&"turn:collects".to_owned()) {
            // Grown-ups stand here and nobody wants an interpreter: seen, not asked.
            volunteer.press("asked");
            continue;
        }
        volunteer.ask();
        if pressable(&volunteer.kitchen.view()).contains(&"all-no".to_owned()) {
            volunteer.press("all-no");
        } else {
            // Asked aside: each alone.
            for at in 0..4 {
                match at {
                    0 => volunteer.press("turn:0"),
                    _ => volunteer.press_on(&format!("turn:{at}")),
                }
            }
        }
        volunteer.press_on("asked");
    }
    let asked = volunteer.seconds;
    // Everybody has a dose: nothing was left out to be quicker.
    let held = serde_json::to_string(&volunteer.kitchen.view().screen).expect("plain");
    assert!(held.contains("Everybody may have a dose"), "{held}");
    volunteer.press("give");
    volunteer.press("print-receipt");
    assert_eq!(title(&volunteer.kitchen.view()), "It is ready");
    let seconds = volunteer.seconds;
    println!(
        "typed in {typed_in:.1} s, asked {:.1} s, served and printed {:.1} s: {seconds:.1} s",
        asked - typed_in,
        seconds - asked
    );
    assert!(seconds <= GOAL, "{seconds:.1} s");
}
