//! A newcomer's path with the practice household: from the first screen to the first dose given.
//!
//! Counted are the presses, and the words on each new screen on the way. Both are printed, and may become fewer.
//!
//! The time is estimated by the keystroke-level model: Card SK, Moran TP, Newell A: The keystroke-level model for user
//! performance time with interactive systems. Communications of the ACM 1980;23:396–410.
//! Each press is made up (M), pointed at (P) and done (K); every word of every new screen is read once before.
//! Reading speed: Brysbaert M: How many words do we read per minute? Journal of Memory and Language 2019;109:104047.
//! Left out: the soak's five minutes, and what the hands do at the table.

use hearthdose_tests::kitchen::{World, press, title, usual};
use hearthdose_ui::text::Language;
use hearthdose_ui::vm::view::{Intent, View};
use jiff::SignedDuration;
use serde_json::Value;

/// What the path takes today, with room for a changed word but not for a further screen.
const MOST_PRESSES: usize = 12;
const MOST_WORDS: [(Language, usize); 2] = [(Language::English, 566), (Language::Spanish, 566)];

/// Seconds to make up one's mind, to point, and to press (an average non-secretary's key).
const MIND: f64 = 1.35;
const POINT: f64 = 1.1;
const KEY: f64 = 0.28;
/// Words a minute that adults read silently, on average.
const READING: f64 = 238.0;
/// The goal, in seconds.
const THREE_MINUTES: f64 = 180.0;

/// Seconds to the first dose by the model.
fn estimate(presses: usize, words: usize) -> f64 {
    let number = |count: usize| u32::try_from(count).map_or(f64::MAX, f64::from);
    number(presses) * (MIND + POINT + KEY) + number(words) * 60.0 / READING
}

/// Ten presses and 238 words: 27.3 seconds and a minute.
#[test]
fn the_estimate_worked_out_by_hand() {
    assert!((estimate(10, 238) - 87.3).abs() < 0.01);
}

/// Words a person reads on a screen; ids, kinds and pictures are not read.
fn words(view: &View) -> usize {
    const UNREAD: [&str; 12] = [
        "id",
        "kind",
        "picture",
        "small_picture",
        "hem",
        "spoon",
        "spoons",
        "household",
        "log",
        "log_title",
        "bars",
        "ticks",
    ];
    fn count(value: &Value) -> usize {
        match value {
            Value::String(text) => text
                .split_whitespace()
                .filter(|word| word.contains(char::is_alphanumeric))
                .count(),
            Value::Array(all) => all.iter().map(count).sum(),
            Value::Object(all) => {
                let read = all
                    .iter()
                    .filter(|(key, _)| !UNREAD.contains(&key.as_str()));
                read.map(|(_, value)| count(value)).sum()
            }
            _ => 0,
        }
    }
    count(&serde_json::to_value(&view.screen).expect("a view is plain"))
}

#[test]
fn the_first_dose_is_not_far_away() {
    for (language, most_words) in MOST_WORDS {
        let code = language.code();
        let world = World::new(&format!("newcomer-{code}"));
        let mut kitchen = world.start(language);
        let (mut presses, mut read, mut last) = (0, 0, String::new());
        while kitchen.state().is_none_or(|state| state.doses.is_empty()) {
            let view = kitchen.view();
            if title(&view) != last {
                last = title(&view);
                read += words(&view);
                println!("{code} {presses:2} presses, {read:3} words: {last}");
            }
            match usual(&view) {
                Some(id) => {
                    presses += 1;
                    press(&mut kitchen, &id);
                }
                None => {
                    world.pass(SignedDuration::from_secs(30));
                    kitchen.take(&Intent::Tick);
                }
            }
            assert!(
                presses < 100,
                "no dose is ever given; the screen is “{last}”"
            );
        }
        let seconds = estimate(presses, read);
        println!("{code}: {presses} presses, {read} words, {seconds:.0} seconds to the first dose");
        assert!(
            seconds < THREE_MINUTES,
            "{seconds:.0} seconds to the first dose in {code}"
        );
        assert!(
            presses <= MOST_PRESSES,
            "{presses} presses, at most {MOST_PRESSES} were needed"
        );
        assert!(
            read <= most_words,
            "{read} words in {code}, at most {most_words} were needed"
        );
    }
}
