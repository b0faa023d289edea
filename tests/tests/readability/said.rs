//! What is said: every message with plausible values in it, every order's own words, and their sentences.

use std::collections::BTreeMap;

use hearthdose_ui::text::{Language, Value, Words};

/// Shorter ones are names and buttons: two words need no grade, and many of them would flatter a text.
const LEAST: usize = 5;

/// What is counted of a text.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Count {
    pub sentences: usize,
    pub words: usize,
    pub syllables: usize,
}

impl Count {
    pub fn words_a_sentence(self) -> f64 {
        ratio(self.words, self.sentences)
    }

    pub fn syllables_a_word(self) -> f64 {
        ratio(self.syllables, self.words)
    }

    /// One more text; a text without a full stop, such as a button, is a sentence of its own.
    pub fn take(&mut self, text: &str, syllables: fn(&str) -> usize) {
        for sentence in sentences(text) {
            let words = words_of(&sentence);
            if words.len() < LEAST {
                continue;
            }
            self.sentences += 1;
            self.words += words.len();
            self.syllables += words
                .iter()
                .map(|word| heard(word, syllables))
                .sum::<usize>();
        }
    }
}

fn ratio(above: usize, below: usize) -> f64 {
    let number = |count: usize| u32::try_from(count).map_or(f64::MAX, f64::from);
    number(above) / number(below.max(1))
}

/// A number counts as one syllable, as is usual; parts of "grown-up" are heard one after the other.
fn heard(word: &str, syllables: fn(&str) -> usize) -> usize {
    if word.contains(|sign: char| sign.is_ascii_digit()) {
        return 1;
    }
    let parts = word.split(['-', '/']).filter(|part| !part.is_empty());
    parts.map(syllables).sum::<usize>().max(1)
}

pub fn words_of(sentence: &str) -> Vec<String> {
    let all = sentence.split_whitespace();
    let bare = all.map(|word| {
        word.trim_matches(|sign: char| !sign.is_alphanumeric())
            .to_owned()
    });
    bare.filter(|word| !word.is_empty()).collect()
}

/// Ends at a full stop, a question or an exclamation mark before a space; not after "a.m." and not inside a number.
pub fn sentences(text: &str) -> Vec<String> {
    let text = text.replace("a.m.", "am").replace("p.m.", "pm");
    let text = text.replace("a. m.", "am").replace("p. m.", "pm");
    let mut found = vec![String::new()];
    let mut letters = text.chars().peekable();
    while let Some(letter) = letters.next() {
        let end = ".?!".contains(letter) && letters.peek().is_none_or(|next| next.is_whitespace());
        if let Some(last) = found.last_mut() {
            last.push(letter);
        }
        if end || letter == '\n' {
            found.push(String::new());
        }
    }
    found.retain(|sentence| sentence.contains(char::is_alphanumeric));
    found
}

/// A heading of the words' file, or an order, with what is said there by key.
pub type Groups = BTreeMap<String, Vec<(String, String)>>;

/// All messages as they are said, under the English headings of the file; a message with forms is said once for one and once for several.
pub fn messages(language: Language) -> Groups {
    let words = Words::load(language);
    let mut groups = Groups::new();
    let mut heading = "First".to_owned();
    for line in include_str!("../../../ui/words/en.ftl").lines() {
        if let Some(next) = line.strip_prefix("## ") {
            next.clone_into(&mut heading);
        }
        let key = line.split_once(" =").map(|(key, _)| key);
        let Some(key) = key.filter(|key| key.starts_with(|c: char| c.is_ascii_lowercase())) else {
            continue;
        };
        let mut forms: Vec<String> = [1_u32, 3]
            .iter()
            .map(|count| said(&words, key, *count))
            .collect();
        forms.dedup();
        let group = groups.entry(heading.clone()).or_default();
        group.extend(forms.into_iter().map(|text| (key.to_owned(), text)));
    }
    groups
}

fn said(words: &Words, key: &str, count: u32) -> String {
    let spanish = words.language() == Language::Spanish;
    let pick = |english: &str, other: &str| Value::from(if spanish { other } else { english });
    let counts = [
        "count", "packs", "people", "homes", "hours", "days", "without",
    ];
    let mut values: Vec<(&str, Value)> = counts.iter().map(|name| (*name, count.into())).collect();
    let amount = pick("1½ teaspoons (7.5 mL)", "1½ cucharaditas (7.5 mL)");
    let time = pick("7:48 p.m.", "7:48 p. m.");
    let date = pick("Thursday, April 3", "jueves 3 de abril");
    let medicine = pick("doxycycline", "doxiciclina");
    for name in ["amount", "old", "new"] {
        values.push((name, amount.clone()));
    }
    for name in ["time", "start"] {
        values.push((name, time.clone()));
    }
    for name in ["date", "until"] {
        values.push((name, date.clone()));
    }
    for name in ["medicine", "product"] {
        values.push((name, medicine.clone()));
    }
    for name in ["name", "first", "second", "last", "whom"] {
        values.push((name, "Pim".into()));
    }
    for name in [
        "number", "at", "of", "step", "revision", "size", "seconds", "hour", "minute", "minutes",
        "hour24", "page", "day", "known", "have", "needed", "most", "each", "years", "spare",
        "doses",
    ] {
        values.push((name, "3".into()));
    }
    values.push(("names", pick("Pim and Ana", "Pim y Ana")));
    values.push(("numbers", pick("1 and 2", "1 y 2")));
    for (name, english, other) in [
        ("ml", "7.5", "7.5"),
        ("kg", "14.2", "14.2"),
        ("weight", "31 lb 4 oz", "31 lb 4 oz"),
        ("phone", "555-0142", "555-0142"),
        ("lot", "QD3112", "QD3112"),
        ("lots", "QD3112", "QD3112"),
        ("tablet", "this tablet", "esta tableta"),
        (
            "reason",
            "Ana Reyes: the bag tore",
            "Ana Reyes: la bolsa se rompió",
        ),
        (
            "mark",
            "7f3a 90c1 22d0 61be 04f7",
            "7f3a 90c1 22d0 61be 04f7",
        ),
        ("most", "24", "24"),
        ("version", "2026f", "2026f"),
        ("strength", "100 mg", "100 mg"),
        ("mass", "25 mg", "25 mg"),
        ("volume", "5 mL", "5 mL"),
        ("sugar", "4 teaspoons", "4 cucharaditas"),
        ("what", "milk", "leche"),
        (
            "words",
            "doxycycline, 100 mg, tablet",
            "doxycycline, 100 mg, tablet",
        ),
        ("food", "apple juice", "jugo de manzana"),
        ("how", "at least 3 teaspoons", "al menos 3 cucharaditas"),
        ("home", "Ana’s home", "Hogar de Ana"),
        ("language", "English", "español"),
        ("length", "5 minutes", "5 minutos"),
        ("gap", "8 hours", "8 horas"),
        ("dose", "Night dose", "Dosis de la noche"),
        ("round", "night dose", "dosis de la noche"),
        ("weekday", "Thursday", "jueves"),
        ("month", "April", "abril"),
        ("year", "2031", "2031"),
        ("place", "Downloads", "Descargas"),
        (
            "issuer",
            "Quillmere Health District",
            "Quillmere Health District",
        ),
        ("site", "Quillmere school hall", "Quillmere school hall"),
        ("detail", "", ""),
        ("when", "Thursday", "jueves"),
        ("why", "it is set aside.", "está apartado."),
        ("title", "Doxycycline", "Doxiciclina"),
        ("from", "26 lb", "26 lb"),
        ("to", "38 lb", "38 lb"),
        ("limits", "26 lb to 38 lb", "26 lb a 38 lb"),
        ("row", "26 lb to 38 lb", "26 lb a 38 lb"),
        ("other", "13 lb to 25 lb", "13 lb a 25 lb"),
        ("entry", "milk", "leche"),
        ("label", "at least", "al menos"),
        ("text", "Is Pim well?", "¿Está bien Pim?"),
        ("kind", "questions", "preguntas"),
        ("percent", "125", "125"),
        ("under", "5 %", "5 %"),
        ("over", "10 %", "10 %"),
        ("young", "14 days", "14 días"),
        ("older", "60 days", "60 días"),
        ("group", "everyone", "todos"),
        ("question", "Is Pim well?", "¿Está bien Pim?"),
        ("paper", "", ""),
    ] {
        values.push((name, pick(english, other)));
    }
    let text = words.say_with(key, &values);
    assert!(!text.contains("{$"), "no value for “{key}”: {text}");
    text
}

const ORDERS: [&str; 4] = [
    include_str!("../../../demo-data/orders/quillmere-doxy-1.toml"),
    include_str!("../../../demo-data/orders/quillmere-doxy-2.toml"),
    include_str!("../../../demo-data/orders/quillmere-iodide-1.toml"),
    include_str!("../../../demo-data/orders/quillmere-ciprofloxacin-1.toml"),
];

const NOTICES: [&str; 8] = [
    include_str!("../../../demo-data/notices/quillmere-collection.toml"),
    include_str!("../../../demo-data/notices/quillmere-extend-lot.toml"),
    include_str!("../../../demo-data/notices/quillmere-quarantine-lot.toml"),
    include_str!("../../../demo-data/notices/quillmere-recall-lot.toml"),
    include_str!("../../../demo-data/notices/quillmere-renew.toml"),
    include_str!("../../../demo-data/notices/quillmere-shorten.toml"),
    include_str!("../../../demo-data/notices/quillmere-stop.toml"),
    include_str!("../../../demo-data/notices/quillmere-water.toml"),
];

/// What the demonstration's orders and notices ask and say themselves.
pub fn orders(language: Language) -> Groups {
    let mut groups = Groups::new();
    let code = language.code();
    for text in ORDERS {
        let order = hearthdose_core::order::parse(text.as_bytes()).expect("readable");
        let name = format!("{} {}", order.id, order.revision);
        let mut all = Vec::new();
        for question in &order.questions {
            all.push((format!("{}.ask", question.key), question.ask.get(code)));
            all.push((format!("{}.then", question.key), question.then.get(code)));
        }
        for caution in &order.cautions {
            all.push((caution.key.clone(), caution.text.get(code)));
        }
        for contact in &order.contacts {
            all.push((contact.phone.clone(), contact.hours.get(code)));
        }
        let said = all
            .into_iter()
            .filter_map(|(key, text)| Some((key, text?.replace("{name}", "Pim"))));
        groups.insert(name, said.collect());
    }
    for text in NOTICES {
        let notice = hearthdose_core::order::parse_notice(text.as_bytes()).expect("readable");
        let text = notice.text.get(code).expect("in both languages").clone();
        groups
            .entry("notices".to_owned())
            .or_default()
            .push((notice.id.clone(), text));
    }
    groups
}
