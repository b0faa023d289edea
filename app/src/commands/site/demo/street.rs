//! Invented homes: how many people, how old, how heavy. Names are invented too, and mean nobody.
//!
//! Weights of children are near the middle of their age, from memory; they only have to be plausible.

use jiff::Span;
use jiff::civil::{Date, date};

/// A home as a household file.
pub struct HomeFile {
    pub text: String,
    pub people: usize,
}

/// The same throws for the same seed (SplitMix64, public domain, from memory).
pub struct Dice(u64);

impl Dice {
    pub fn new(seed: u64) -> Dice {
        Dice(seed)
    }

    fn throw(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mixed = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// From `least` to `most`.
    fn between(&mut self, least: u64, most: u64) -> u64 {
        least + self.throw() % (most - least + 1)
    }

    fn of<'a>(&mut self, list: &[&'a str]) -> &'a str {
        let last = u64::try_from(list.len()).unwrap_or(1).saturating_sub(1);
        let at = usize::try_from(self.between(0, last)).unwrap_or(0);
        list.get(at).copied().unwrap_or_default()
    }

    pub fn bytes(&mut self) -> [u8; 32] {
        let mut bytes = [0; 32];
        for part in bytes.chunks_mut(8) {
            part.copy_from_slice(&self.throw().to_be_bytes());
        }
        bytes
    }
}

const START: Date = date(2031, 4, 3);
const FIRST: &[&str] = &[
    "Aldo", "Brisa", "Corin", "Dalia", "Emeric", "Fenna", "Gus", "Hedda", "Ilan", "Jorun",
    "Kestrel", "Lio", "Maren", "Nils", "Oriel", "Petra", "Quill", "Runa", "Soren", "Tilda",
    "Ulric", "Vesna", "Wim", "Ysolde", "Zeno",
];
const FAMILY: &[&str] = &[
    "Ashlow",
    "Brindle",
    "Carrow",
    "Dunmere",
    "Elting",
    "Farrowby",
    "Gillet",
    "Harkness-Low",
    "Iverdale",
    "Larkham",
    "Mossop",
    "Netherby",
    "Oakridge",
    "Pellow",
    "Rushmere",
    "Sallow",
    "Thornby",
    "Underhay",
    "Wexlow",
    "Yarrowby",
];
/// Of the demonstration order.
const QUESTIONS: &[&str] = &[
    "allergy-tetracycline",
    "pregnant",
    "breastfeeding",
    "kidney-or-liver",
    "current-medicines",
];
/// Pounds in the middle of each year of age, from 1 to 17.
const POUNDS: [u64; 17] = [
    21, 27, 31, 36, 40, 45, 50, 56, 63, 70, 78, 88, 100, 110, 118, 125, 130,
];

/// One home; its number makes its name unlike every other.
pub fn home(dice: &mut Dice, number: u32) -> HomeFile {
    let adults = dice.between(1, 3);
    let children = dice.between(0, 4);
    let people = adults + children;
    let mut text = format!(
        "# Invented for practice. Nobody in it exists.\nname = \"{} home {number}\"\ntime-zone = \"America/Chicago\"\nstart = \"{START}\"\nrounds = [\"08:00\", \"20:00\"]\n",
        dice.of(FAMILY)
    );
    let mut names: Vec<&str> = Vec::new();
    while u64::try_from(names.len()).is_ok_and(|count| count < people) {
        let name = dice.of(FIRST);
        if !names.contains(&name) {
            names.push(name);
        }
    }
    for (at, name) in (0..).zip(&names) {
        text.push_str(&person(dice, name, at < adults));
    }
    HomeFile {
        text,
        people: names.len(),
    }
}

fn person(dice: &mut Dice, name: &str, adult: bool) -> String {
    let sex = dice.of(&["f", "m"]);
    let (born, weight) = if adult { grown_up(dice) } else { child(dice) };
    let mut text = format!(
        "\n[[person]]\nname = \"{name}\"\nborn = \"{born}\"\nsex = \"{sex}\"\nweight = \"{weight}\"\nweighed = \"2031-04-02\"\n"
    );
    if adult && dice.between(1, 3) > 1 {
        text.push_str("swallows-tablets = true\n");
    }
    // Some are held or stopped, so that there is something to ask.
    let odd = match dice.between(1, 40) {
        1 => Some(("allergy-tetracycline", "yes")),
        2 => Some(("kidney-or-liver", "yes")),
        3 => Some(("current-medicines", "unsure")),
        _ => None,
    };
    match odd {
        None => text.push_str("cleared = true\n"),
        Some((odd, said)) => {
            text.push_str("\n[person.answers]\n");
            for key in QUESTIONS {
                let answer = if *key == odd { said } else { "no" };
                text.push_str(&format!("{key} = \"{answer}\"\n"));
            }
        }
    }
    text
}

fn grown_up(dice: &mut Dice) -> (Date, String) {
    let (years, days) = (dice.between(19, 88), dice.between(0, 364));
    (
        before(years, 0, days),
        format!("{} lb", dice.between(105, 230)),
    )
}

fn child(dice: &mut Dice) -> (Date, String) {
    if dice.between(1, 8) == 1 {
        let months = dice.between(4, 11);
        let born = before(0, months, dice.between(0, 27));
        return (
            born,
            format!("{} lb {} oz", 13 + months / 2, dice.between(0, 15)),
        );
    }
    let years = dice.between(1, 17);
    let at = usize::try_from(years.saturating_sub(1)).unwrap_or(0);
    let middle = POUNDS.get(at).copied().unwrap_or(60);
    let spread = middle / 12;
    let pounds = dice.between(middle - spread, middle + spread);
    (
        before(years, 0, dice.between(0, 364)),
        format!("{pounds} lb"),
    )
}

fn before(years: u64, months: u64, days: u64) -> Date {
    let part = |number: u64| i64::try_from(number).unwrap_or(0);
    let span = Span::new()
        .years(part(years))
        .months(part(months))
        .days(part(days));
    START.checked_sub(span).unwrap_or(START)
}
