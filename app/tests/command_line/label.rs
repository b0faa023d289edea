//! The label rules, over everything the program prints.
//!
//! No trailing zero after a point, always a zero before it, a space before the unit, a comma from 1,000 on, and no unit that is easily misread.
//! Source: ISMP list of error-prone abbreviations, symbols and dose designations.

const UNITS: &[&str] = &[
    "mg",
    "mcg",
    "g",
    "kg",
    "mL",
    "L",
    "tsp",
    "teaspoon",
    "teaspoons",
    "lb",
    "oz",
    "h",
    "hours",
    "minutes",
    "tablet",
    "tablets",
];
/// Never in print: read as zeros, as another unit, or as "four times a day".
const BANNED: &[&str] = &[
    "µg", "μg", "cc", "ml", "ML", "U", "IU", "QD", "QOD", "BID", "TID",
];

/// Every number written against the rules.
pub fn faults(text: &str) -> Vec<String> {
    let part_of_word = |c: char| c.is_alphanumeric() || ".,-/%_µμ".contains(c);
    let mut faults = Vec::new();
    // What somebody typed is quoted as it was typed.
    let unquoted: String = text
        .split('“')
        .map(|part| part.split_once('”').map_or(part, |(_, rest)| rest))
        .collect::<Vec<_>>()
        .join("“");
    // A unit follows its number after one space; anything else between them begins something new.
    for phrase in unquoted.split(|c: char| c != ' ' && !part_of_word(c)) {
        let words: Vec<&str> = phrase
            .split(' ')
            .map(|word| word.trim_end_matches(['.', ',']))
            .collect();
        for (index, word) in words.iter().enumerate() {
            let digits = word.trim_end_matches(char::is_alphabetic);
            let joined = word.strip_prefix(digits).unwrap_or_default();
            if is_number(digits)
                && digits.ends_with(|c: char| c.is_ascii_digit())
                && (UNITS.contains(&joined) || BANNED.contains(&joined))
            {
                faults.push(format!("{word}: no space before the unit"));
            }
            let unit = words.get(index + 1).copied().unwrap_or_default();
            if is_number(word) && BANNED.contains(&unit) {
                faults.push(format!("{word} {unit}: a unit that is easily misread"));
            }
            if is_number(word) && UNITS.contains(&unit) {
                faults.extend(badly_written(word).map(|why| format!("{word} {unit}: {why}")));
            }
        }
    }
    faults
}

fn is_number(word: &str) -> bool {
    word.chars().any(|c| c.is_ascii_digit())
        && word
            .chars()
            .all(|c| c.is_ascii_digit() || c == '.' || c == ',')
}

fn badly_written(number: &str) -> Option<&'static str> {
    let (whole, decimals) = number.split_once('.').unwrap_or((number, ""));
    if whole.is_empty() {
        return Some("no zero before the point");
    }
    if number.contains('.') && (decimals.is_empty() || decimals.ends_with('0')) {
        return Some("a zero at the end after the point");
    }
    (whole.len() > 3 && !whole.contains(',')).then_some("no comma in thousands")
}

#[test]
fn the_rules_catch_what_they_are_for() {
    for text in [
        "5.0 mg",
        "take .5 mg",
        "10mg",
        "(7.50 mL)",
        "1200 mL",
        "5 ml",
        "2 cc",
        "\"text\":\"1.0 teaspoon\"",
        "31lb",
        "9 µg.",
    ] {
        assert_eq!(faults(text).len(), 1, "{text}");
    }
    for text in [
        "1½ teaspoons (7.5 mL)",
        "0.5 mg",
        "1,200 mL",
        "10 mg.",
        "\"ml\":\"7.5\"",
        "2031-04-03T08:00:00-05:00",
        "2.65 mg/kg",
        "12 h",
        "contact 1.hours",
        "“1001kg” is too large",
        "{\"half_tsp\":3,\"ml\":\"7.5\"}",
    ] {
        assert_eq!(faults(text), Vec::<String>::new(), "{text}");
    }
}
