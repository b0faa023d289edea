//! English: the grade of Flesch and Kincaid, and how many syllables a word has.
//!
//! Kincaid JP, Fishburne RP, Rogers RL, Chissom BS: Derivation of new readability formulas for Navy enlisted personnel.
//! Naval Technical Training Command, research branch report 8-75, 1975.

use super::said::Count;

/// School grade at which a text is understood: 0.39 words a sentence + 11.8 syllables a word − 15.59.
pub fn grade(count: Count) -> f64 {
    0.39 * count.words_a_sentence() + 11.8 * count.syllables_a_word() - 15.59
}

/// Words whose letters tell too little.
const BY_HAND: [(&str, usize); 16] = [
    ("area", 3),
    ("being", 2),
    ("breathing", 2),
    ("diarrhea", 4),
    ("doxycycline", 4),
    ("idea", 3),
    ("iodide", 3),
    ("nausea", 3),
    ("period", 3),
    ("potassium", 4),
    ("previous", 3),
    ("quiet", 2),
    ("seizures", 2),
    ("tetracycline", 4),
    ("usual", 3),
    ("usually", 4),
];

/// Endings before which an e is silent, as in "safely" and "careful".
const AFTER_SILENT: [&str; 5] = ["ely", "eful", "eless", "ement", "ething"];

/// Groups of vowels, less the silent e; rather one too many than one too few.
pub fn syllables(word: &str) -> usize {
    let word: String = word.to_lowercase().replace(['’', '\''], "");
    if let Some((_, count)) = BY_HAND.iter().find(|(known, _)| *known == word) {
        return *count;
    }
    let letters: Vec<char> = word.chars().collect();
    let vowel = |at: usize| letters.get(at).is_some_and(|c| "aeiouy".contains(*c));
    let groups = (0..letters.len()).filter(|at| vowel(*at) && (*at == 0 || !vowel(at - 1)));
    let mut count = groups.count();
    let silent = |stem: &str| {
        let mut before = stem.chars().rev();
        let last = before.next().unwrap_or(' ');
        let ahead = before.next().unwrap_or(' ');
        // "table" sounds its ending, "tape" does not.
        let sounded = last == 'l' && !"aeiouy".contains(ahead);
        !sounded && !"aeiouy ".contains(last)
    };
    if let Some(stem) = word.strip_suffix('e') {
        count -= usize::from(silent(stem) && count > 1);
    } else if let Some(stem) = word.strip_suffix("es") {
        let hissing = ["s", "x", "z", "ch", "sh", "c", "g"];
        let sounded = hissing.iter().any(|end| stem.ends_with(end));
        count -= usize::from(silent(stem) && !sounded && count > 1);
    } else if let Some(stem) = word.strip_suffix("ed") {
        let sounded = stem.ends_with(['t', 'd']);
        count -= usize::from(silent(stem) && !sounded && count > 1);
    }
    count -= usize::from(AFTER_SILENT.iter().any(|end| word.ends_with(end)) && count > 1);
    if let Some(stem) = word.strip_suffix("ing") {
        count += usize::from(stem.ends_with(['a', 'e', 'i', 'o', 'u', 'y']));
    }
    count.max(1)
}

#[test]
fn syllables_of_words_counted_by_hand() {
    for (word, count) in [
        ("bowl", 1),
        ("the", 1),
        ("tape", 1),
        ("takes", 1),
        ("mixed", 1),
        ("crushed", 1),
        ("smooth", 1),
        ("tablet", 2),
        ("table", 2),
        ("needed", 2),
        ("covered", 2),
        ("doses", 2),
        ("places", 2),
        ("teaspoon", 2),
        ("swallow", 2),
        ("going", 2),
        ("trying", 2),
        ("careful", 2),
        ("safely", 2),
        ("something", 2),
        ("people", 2),
        ("liquid", 2),
        ("nurse’s", 2),
        ("medicine", 3),
        ("instructions", 3),
        ("carrying", 3),
        ("emergency", 4),
        ("refrigerator", 5),
        ("doxycycline", 4),
        ("potassium", 4),
        ("a", 1),
        ("eye", 1),
        ("someone", 2),
        ("home", 1),
    ] {
        assert_eq!(syllables(word), count, "{word}");
    }
}

/// "The cat sat on the mat." has six words of one syllable: 0.39 · 6 + 11.8 · 1 − 15.59 = −1.45.
#[test]
fn a_grade_worked_out_by_hand() {
    let count = Count {
        sentences: 1,
        words: 6,
        syllables: 6,
    };
    assert!((grade(count) - -1.45).abs() < 0.001);
}
