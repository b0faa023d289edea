//! Whoever left school after grade 6 understands what is on the screens: measured by published formulas, over every message.
//!
//! Each group of messages keeps the grade, each long message comes near it, and each sentence is short.
//! The words of the demonstration's orders are measured with the rest.
//! Formulas count letters and know nothing: names of medicines and diseases are judged by hand, in a short list.

#[path = "readability/actions.rs"]
mod actions;
#[path = "readability/english.rs"]
mod english;
#[path = "readability/refusals.rs"]
mod refusals;
#[path = "readability/said.rs"]
mod said;
#[path = "readability/spanish.rs"]
mod spanish;
#[path = "readability/terms.rs"]
mod terms;

use hearthdose_ui::text::Language;
use said::{Count, Groups};

/// Grade of a group, and of one message of eight words or more.
const GRADE: f64 = 6.0;
const GRADE_OF_ONE: f64 = 8.0;
/// The same on the Spanish scale: "fairly easy", and "normal" for one message.
const EASE: f64 = 65.0;
const EASE_OF_ONE: f64 = 55.0;
/// Shorter messages say too little for a formula.
const MESSAGE: usize = 8;
const MOST_WORDS: usize = 20;

/// Messages that may be harder alone, and why. They count in their groups all the same.
const HARD: [(&str, &str); 8] = [
    ("about-font", "the licence asks for these words"),
    (
        "allergy-tetracycline.ask",
        "names of medicines, as on a bottle",
    ),
    (
        "current-medicines.ask",
        "names of medicines, as on a bottle",
    ),
    (
        "allergy-iodine.ask",
        "names of diseases, as a doctor said them",
    ),
    (
        "muscle-weakness.ask",
        "names of diseases, as a doctor said them",
    ),
    (
        "allergy-quinolone.ask",
        "names of medicines, as on a bottle",
    ),
    (
        "apart",
        "names of what is in medicines, as on their bottles",
    ),
    (
        "change-",
        "lists what differs; amounts and limits are its words",
    ),
];

fn everything(language: Language) -> Groups {
    let mut groups = said::messages(language);
    groups.extend(said::orders(language));
    groups
}

fn syllables(language: Language) -> fn(&str) -> usize {
    match language {
        Language::English => english::syllables,
        Language::Spanish => spanish::syllables,
    }
}

/// The formula's number, and whether it keeps the bounds of a group, or of one message.
fn judged(language: Language, count: Count, one: bool) -> (f64, bool) {
    match language {
        Language::English => {
            let grade = english::grade(count);
            (grade, grade <= if one { GRADE_OF_ONE } else { GRADE })
        }
        Language::Spanish => {
            let ease = spanish::ease(count);
            (ease, ease >= if one { EASE_OF_ONE } else { EASE })
        }
    }
}

fn excused(key: &str) -> bool {
    HARD.iter()
        .any(|(name, _)| key == *name || name.ends_with('-') && key.starts_with(name))
}

#[test]
fn every_group_of_messages_is_read_after_grade_6() {
    let mut hard = Vec::new();
    for language in Language::ALL {
        for (group, texts) in everything(language) {
            let mut count = Count::default();
            for (_, text) in &texts {
                count.take(text, syllables(language));
            }
            let (number, well) = judged(language, count, false);
            println!(
                "{} {number:6.1}  {group}, {} sentences",
                language.code(),
                count.sentences
            );
            if !well && count.sentences > 0 {
                hard.push(format!("{} {group}: {number:.1}", language.code()));
            }
        }
    }
    assert!(hard.is_empty(), "{hard:#?}");
}

#[test]
fn no_message_is_much_harder_than_its_group() {
    let mut hard = Vec::new();
    for language in Language::ALL {
        for (key, text) in everything(language).into_values().flatten() {
            let mut count = Count::default();
            count.take(&text, syllables(language));
            let (number, well) = judged(language, count, true);
            if count.words >= MESSAGE && !well && !excused(&key) {
                hard.push(format!("{} {number:.1} {key}: {text}", language.code()));
            }
        }
    }
    assert!(hard.is_empty(), "{hard:#?}");
}

#[test]
fn no_sentence_has_more_than_twenty_words() {
    let mut long = Vec::new();
    for language in Language::ALL {
        for (key, text) in everything(language).into_values().flatten() {
            for sentence in said::sentences(&text) {
                let words = said::words_of(&sentence).len();
                if words > MOST_WORDS && !excused(&key) {
                    long.push(format!("{} {words} {key}: {sentence}", language.code()));
                }
            }
        }
    }
    assert!(long.is_empty(), "{long:#?}");
}

/// An excuse that nobody needs any more goes.
#[test]
fn every_excuse_is_needed() {
    let mut idle = Vec::new();
    for (name, _) in HARD {
        let mut needed = false;
        for language in Language::ALL {
            for (key, text) in everything(language).into_values().flatten() {
                if key != name && !(name.ends_with('-') && key.starts_with(name)) {
                    continue;
                }
                let mut count = Count::default();
                count.take(&text, syllables(language));
                let long = said::sentences(&text)
                    .iter()
                    .any(|sentence| said::words_of(sentence).len() > MOST_WORDS);
                needed |= long || count.words >= MESSAGE && !judged(language, count, true).1;
            }
        }
        if !needed {
            idle.push(name);
        }
    }
    assert!(idle.is_empty(), "nobody needs the excuses for {idle:?}");
}
