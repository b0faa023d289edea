//! What may not stand on a label, found by reading letter by letter.

/// Every rule that `text` breaks.
pub fn faults(text: &str) -> Vec<String> {
    let mut found = Vec::new();
    let letters: Vec<char> = without_dates(text).chars().collect();
    let at = |index: usize| letters.get(index).copied().unwrap_or(' ');
    let mut index = 0;
    while index < letters.len() {
        let naked = at(index) == '.' && at(index + 1).is_ascii_digit();
        if !at(index).is_ascii_digit() && !naked {
            index += 1;
            continue;
        }
        let start = index;
        while at(index).is_ascii_digit() || matches!(at(index), '.' | ',') {
            index += 1;
        }
        // The full stop or comma of a sentence is no part of the number.
        while matches!(at(index - 1), '.' | ',') {
            index -= 1;
        }
        let number: String = letters[start..index].iter().collect();
        found.extend(number_faults(&number));
        if at(index).is_alphabetic() {
            found.push(format!("no space between {number} and its unit"));
        }
        if at(index) == '/' && at(index + 1).is_ascii_digit() {
            found.push(format!("{number}/… is no fraction sign"));
        }
    }
    found.extend(word_faults(text));
    found
}

fn number_faults(number: &str) -> Vec<String> {
    let mut found = Vec::new();
    let (whole, decimals) = number.split_once('.').unwrap_or((number, ""));
    if whole.is_empty() {
        found.push(format!("{number} has no leading zero"));
    }
    if number.contains('.') && decimals.ends_with('0') {
        found.push(format!("{number} has a trailing zero"));
    }
    if decimals.contains(['.', ',']) {
        found.push(format!("{number} has two points"));
    }
    let groups: Vec<&str> = whole.split(',').collect();
    let first = groups[0].len();
    if first > 3 || groups[1..].iter().any(|group| group.len() != 3) {
        found.push(format!("{number} has no comma where one belongs"));
    }
    if whole.len() > 1 && whole.starts_with('0') {
        found.push(format!("{number} begins with a zero too many"));
    }
    found
}

fn word_faults(text: &str) -> Vec<String> {
    const BANNED: [&str; 18] = [
        "cc",
        "CC",
        "qd",
        "QD",
        "U",
        "IU",
        "ug",
        "µg",
        "μg",
        "tsp",
        "tbsp",
        "tablespoon",
        "tablespoons",
        "ml",
        "ML",
        "MG",
        "mgs",
        "mls",
    ];
    let words = text.split(|letter: char| !letter.is_alphanumeric());
    let mut found: Vec<String> = words
        .filter(|word| BANNED.contains(word))
        .map(|word| format!("“{word}” is read wrongly"))
        .collect();
    for unit in ["mg.", "mL.", "kg.", "lb."] {
        let stopped = text.match_indices(unit).any(|(at, _)| {
            let before = text[..at].chars().next_back();
            let after = text[at + unit.len()..].chars().next();
            !before.is_some_and(char::is_alphanumeric) && after.is_none_or(char::is_whitespace)
        });
        if stopped {
            found.push(format!("a full stop after {unit}"));
        }
    }
    let counted = text.match_indices(" teaspoon").any(|(at, _)| {
        let before = text[..at].chars().next_back();
        before.is_some_and(|letter| letter.is_ascii_digit() || "½¼¾".contains(letter))
    });
    if counted && !text.contains("mL") {
        found.push("teaspoons without millilitres".to_owned());
    }
    found
}

/// Dates, instants and telephone numbers, digits joined by hyphens, are no quantities.
fn without_dates(text: &str) -> String {
    let words = text.split(' ').map(|word| {
        let bare = word.trim_matches(|letter: char| !letter.is_ascii_digit());
        let mut letters = bare.chars();
        let joined = bare.contains('-') && letters.all(|c| c.is_ascii_digit() || "-:T".contains(c));
        if joined { "date" } else { word }
    });
    words.collect::<Vec<_>>().join(" ")
}

#[test]
fn these_rules_find_what_they_should() {
    for wrong in [
        "1.0 mg",
        "2.50 mL",
        ".5 mL",
        "give .5 mL",
        "5mL",
        "100mg",
        "1000 mg",
        "12,50 mg",
        "0,500 mg",
        "1,0000 mL",
        "05 mL",
        "1/2 tablet",
        "5 mL.",
        "100 mg. Then",
        "5 cc",
        "250 µg",
        "1 tsp (5 mL)",
        "1 tbsp (15 mL)",
        "1½ teaspoons",
        "5 ml",
        "10 U",
        "1.2.3 mg",
    ] {
        assert!(!faults(wrong).is_empty(), "{wrong}");
    }
    for right in [
        "½ teaspoon (2.5 mL)",
        "0.5 mL",
        "1,000 mg",
        "1,234,567.5 mL",
        "10 mL of the liquid with 250 mg per 5 mL",
        "2.2 mg/kg",
        "born 2029-02-03, dose on 2031-04-03",
        "Ask a nurse first, on 555-0142.",
        "100 %, or 20.",
        "0 mL",
    ] {
        assert_eq!(faults(right), Vec::<String>::new(), "{right}");
    }
}
