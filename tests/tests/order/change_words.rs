//! Every kind of change has a sentence in every language of the screens.
//!
//! Two real orders are edited until everything that can change has changed.

use std::collections::BTreeSet;

use hearthdose_core::order::compare::{Change, Field};
use hearthdose_core::order::{compare, parse};
use hearthdose_tests::kitchen::{World, press};
use hearthdose_tests::tour::Tour;
use hearthdose_ui::text::{Language, Reader, Words};
use hearthdose_ui::vm::view::{Block, Screen, View};

use crate::text;

const DOXYCYCLINE: &[(&str, &str)] = &[
    (
        r#"title = "Doxycycline after"#,
        r#"title = "Doxycycline following"#,
    ),
    (r#"Health District""#, r#"Health Region""#),
    (r#""America/Chicago""#, r#""America/Denver""#),
    (r#"invented = true"#, r#"invented = false"#),
    (r#"source = "Recipe"#, r#"source = "Steps"#),
    (r#"["en", "es"]"#, r#"["en"]"#),
    (r#"name = "doxycycline""#, r#"name = "doxycycline hyclate""#),
    (r#""tetracyclines""#, r#""tetracycline class""#),
    (r#"interval = "12 h""#, r#"interval = "24 h""#),
    (r#"supply-days = 10"#, r#"supply-days = 1"#),
    (r#"course-days = 60"#, r#"course-days = 30"#),
    (r#"per-kg = "2.2 mg""#, r#"per-kg = "2.25 mg""#),
    (r#"max-dose = "100 mg""#, r#"max-dose = "105 mg""#),
    (r#"under = "5 %""#, r#"under = "4.5 %""#),
    (r#"lightest = "7 lb""#, r#"lightest = "8 lb""#),
    (r#"youngest = "1 mo""#, r#"youngest = "2 mo""#),
    (r#"adult-from = "18 y""#, r#"adult-from = "21 y""#),
    (r#"least-gap = "8 h""#, r#"least-gap = "9 h""#),
    (r#"within = "6 h""#, r#"within = "7 h""#),
    (r#"first-dose = "now""#, r#"first-dose = "next round""#),
    (r#"first-gap = "8 h""#, r#"first-gap = "10 h 30 min""#),
    (
        r#"vitaminas" }, gap = "2 h""#,
        r#"vitaminas" }, gap = "3 h""#,
    ),
    (r#"margin = "15 min""#, r#"margin = "20 min""#),
    (r#"older = "60 d""#, r#"older = "50 d""#),
    (
        r#"event = "quillmere-2031""#,
        "event = \"quillmere-2032\"\nexpires = \"2031-08-01\"\nwithdraws = \"quillmere-older\"\nsplit = true\nmissed-doses-extend = true\nmost-doses = { \"up to 1 mo\" = 1, \"under 2 y\" = 2, \"if pregnant\" = 1, \"everyone\" = 4 }",
    ),
    (r#"spare = 4"#, r#"spare = 6"#),
    (r#"id = "quillmere-demo""#, r#"id = "quillmere-two""#),
    (r#"form = "tablet""#, r#"form = "liquid""#),
    (r#"strength = "100 mg""#, r#"strength = "25 mg / 5 mL""#),
    (r#"crushable = true"#, r#"crushable = false"#),
    (r#""hyclate""#, r#""monohydrate""#),
    (r#""09501101531024""#, r#""09501101534018""#),
    (r#""99999-101-20""#, r#""99999-102-20""#),
    (r#""100 mg", "tablet"]"#, r#""100 mg", "pills"]"#),
    (
        r#"pack-size = 20"#,
        "pack-size = 30\nkeep-opened = \"14 d\"",
    ),
    (
        r#"whole-if-row-allows = true"#,
        r#"whole-if-row-allows = false"#,
    ),
    (r#"tablets = 1"#, r#"tablets = 2"#),
    (r#"water = "4 tsp""#, r#"water = "5 tsp""#),
    (r#"soak = "5 min""#, r#"soak = "10 min""#),
    (r#"step = "1/2 tsp""#, r#"step = "1/4 tsp""#),
    (r#"keep = "24 h""#, r#"keep = "48 h""#),
    (
        r#"keep-where = "room""#,
        "keep-where = \"refrigerator\"\nsecond-fluid = { name = \"plum syrup\", words = { es = \"jarabe de ciruela\" }, amount = \"2 tsp\", contains = [\"nuts\"] }",
    ),
    (
        r#"words = { es = "leche materna" }"#,
        r#"words = { es = "leche de pecho" }"#,
    ),
    (
        "at-least = \"3 tsp\"\nto-age = \"2 y\"\ncontains = []",
        "at-least = \"3 1/2 tsp\"\nto-age = \"30 mo\"\ncontains = [\"soy\"]",
    ),
    (
        r#"name = "chocolate pudding""#,
        r#"name = "vanilla pudding""#,
    ),
    (
        "sugar = \"4 tsp\"\nfrom-age = \"1 y\"",
        "sugar = \"2 tsp\"\nfrom-age = \"18 mo\"",
    ),
    (
        "up-to = \"12 lb\"\namount = \"1/2 tsp\"\nmg = \"12.5 mg\"",
        "up-to = \"12 lb\"\namount = \"1 tsp\"\nmg = \"12.6 mg\"\nreason = \"smallest spoon\"",
    ),
    (
        "from = \"13 lb\"\nup-to = \"25 lb\"",
        "from = \"13 lb\"\nup-to = \"24 lb\"",
    ),
    (
        "from = \"39 lb\"\nup-to = \"50 lb\"",
        "from = \"39 lb\"\nup-to = \"53 lb\"",
    ),
    (
        "from = \"64 lb\"\nup-to = \"75 lb\"",
        "from = \"60 lb\"\nup-to = \"75.5 lb\"",
    ),
    (r#"rule = "enough""#, r#"rule = "next row""#),
    (r#"rule = "tap""#, r#"rule = "bottled""#),
    (r#"if-yes = "stop""#, r#"if-yes = "hold""#),
    (
        r#"instead = "quillmere-ciprofloxacin""#,
        r#"instead = "quillmere-other""#,
    ),
    ("en = \"Did doxycycline or", "en = \"Has doxycycline or"),
    (
        "en = \"Call the nurse line before the first dose. The nurse will say",
        "en = \"Call before the first dose. The nurse will say",
    ),
    (r#"key = "current-medicines""#, r#"key = "other-medicines""#),
    (r#"key = "sun""#, r#"key = "sunshine""#),
    ("en = \"Hives, trouble", "en = \"Spots, trouble"),
    (
        "key = \"stomach\"\nkind = \"effect\"",
        "key = \"stomach\"\nkind = \"general\"",
    ),
    (r#"phone = "555-0142""#, r#"phone = "555-0143""#),
    (r#"Quillmere poison advice"#, r#"Quillmere poison line"#),
    (
        "phone = \"555-0100\"\nhours = { en = \"day and night\"",
        "phone = \"555-0100\"\nhours = { en = \"always\"",
    ),
];

const IODIDE: &[(&str, &str)] = &[
    (
        r#"es = "Yoduro de potasio después"#,
        r#"es = "Yoduro de potasio tras"#,
    ),
    (r#"contains = []"#, r#"contains = ["nuts"]"#),
    (
        r#"es = "jarabe de frambuesa""#,
        r#"es = "sirope de frambuesa""#,
    ),
    (
        r#"or-weight-from = "150 lb""#,
        r#"or-weight-from = "160 lb""#,
    ),
    (r#""per-person""#, "\"plan + spare\"\nspare = 2"),
    (r#"product = "tablet-130""#, r#"product = "tablet-13""#),
];

/// Both directions of each pair; some things are told only when they are in both orders.
fn changes() -> Vec<Change> {
    let few = [
        (
            r#"title = "Doxycycline after"#,
            r#"title = "Doxycycline following"#,
        ),
        (
            r#"es = "antiácidos, hierro"#,
            r#"es = "antiácidos y hierro"#,
        ),
        (
            r#"words = { es = "doxiciclina" }"#,
            r#"words = { es = "doxi" }"#,
        ),
    ];
    let pairs = [
        ("quillmere-doxy-1", DOXYCYCLINE),
        ("quillmere-doxy-1", &few),
        ("quillmere-iodide-1", IODIDE),
    ];
    let mut found = Vec::new();
    for (name, edits) in pairs {
        let mut edited = text(name);
        for (from, to) in edits {
            assert!(edited.contains(from), "{name} has no {from}");
            edited = edited.replacen(from, to, 1);
        }
        let read = |text: &str| parse(text.as_bytes()).unwrap_or_else(|why| panic!("{why:?}"));
        let (old, new) = (read(&text(name)), read(&edited));
        found.extend(compare(&old, &new));
        found.extend(compare(&new, &old));
    }
    let whole = crate::order("quillmere-doxy-1");
    let mut later = crate::order("quillmere-doxy-2");
    found.extend(compare(&later, &whole));
    found.extend(compare(&whole, &crate::order("quillmere-iodide-1")));
    later.recipe = None;
    found.extend(compare(&whole, &later));
    found.extend(compare(&later, &whole));
    found
}

/// The keys of the words with this beginning.
fn keys(beginning: &str) -> usize {
    let words = include_str!("../../../ui/words/en.ftl");
    let lines = words.lines();
    lines.filter(|line| line.starts_with(beginning)).count()
}

#[test]
fn everything_that_can_change_is_among_the_changes() {
    let changes = changes();
    let fields: BTreeSet<Field> = changes
        .iter()
        .filter_map(|change| match change {
            Change::Field { field, .. } => Some(*field),
            _ => None,
        })
        .collect();
    assert_eq!(fields.len(), keys("change-of-"), "{fields:?}");
    let details: BTreeSet<_> = changes
        .iter()
        .filter_map(|change| match change {
            Change::Detail { detail, .. } => Some(*detail),
            _ => None,
        })
        .collect();
    assert_eq!(details.len(), keys("change-detail-"), "{details:?}");
    let kinds = |name: fn(&Change) -> Option<String>| -> BTreeSet<String> {
        let names = changes.iter().filter_map(name);
        names
            .map(|text| text.split([' ', '(']).next().unwrap_or_default().to_owned())
            .collect()
    };
    let wordings = kinds(|change| match change {
        Change::Wording(wording) => Some(format!("{wording:?}")),
        _ => None,
    });
    assert_eq!(wordings.len(), keys("change-words-"), "{wordings:?}");
    let all = kinds(|change| Some(format!("{change:?}")));
    assert_eq!(all.len(), 16, "{all:?}");
}

#[test]
fn every_change_has_a_sentence_in_every_language() {
    let changes = changes();
    let load = Words::load;
    let (english, spanish) = (load(Language::English), load(Language::Spanish));
    for change in &changes {
        for reader in [Reader::Desk, Reader::Kitchen] {
            let (one, other) = (
                english.change(change, reader),
                spanish.change(change, reader),
            );
            for text in [&one, &other] {
                assert!(!text.contains(['{', '}', '[', ']']), "{text}: {change:?}");
                assert!(!text.contains("  ") && text.len() > 8, "{text}: {change:?}");
            }
            assert_ne!(one, other, "{change:?}");
        }
    }
}

/// Words which English sentences are made of, and which no Spanish sentence has.
const ENGLISH: &[&str] = &[
    "and",
    "an",
    "as",
    "at",
    "between",
    "bowl",
    "by",
    "changed",
    "day",
    "days",
    "dose",
    "doses",
    "days",
    "each",
    "for",
    "from",
    "given",
    "hour",
    "hours",
    "in",
    "is",
    "it",
    "line",
    "longer",
    "milk",
    "minute",
    "minutes",
    "mo",
    "new",
    "not",
    "now",
    "of",
    "or",
    "over",
    "part",
    "person",
    "row",
    "second",
    "syrup",
    "teaspoon",
    "teaspoons",
    "the",
    "this",
    "to",
    "under",
    "up",
    "was",
    "water",
    "weight",
    "with",
    "words",
    "yes",
];

#[test]
fn a_spanish_screen_has_no_english_sentence() {
    let spanish = Words::load(Language::Spanish);
    for change in changes() {
        let text = spanish.change(&change, Reader::Kitchen);
        // Contacts are called as they call themselves.
        let own = text.split(['(', ')']).step_by(2).collect::<String>();
        let words = own.split(|letter: char| !letter.is_alphanumeric());
        let found: Vec<&str> = words.filter(|word| ENGLISH.contains(word)).collect();
        assert!(found.is_empty(), "{found:?} in {text}");
    }
}

/// A newer revision as it lies before a caregiver whose screen speaks Spanish.
#[test]
fn the_screen_of_a_newer_revision_is_in_spanish() {
    let world = World::new("newer-in-spanish");
    let mut silent = |_: &str, _: &View| {};
    Tour::new(world.clone(), Language::Spanish, &mut silent).set_up();
    let mut kitchen = world.start(Language::Spanish);
    let mut edited = text("quillmere-doxy-1").replace("revision = 1", "revision = 2");
    for (from, to) in [
        ("soak = \"5 min\"", "soak = \"10 min\""),
        ("sugar = \"4 tsp\"", "sugar = \"3 1/2 tsp\""),
        (
            "key = \"pregnant\"\nif-yes = \"hold\"",
            "key = \"pregnant\"\nif-yes = \"stop\"",
        ),
        ("source = \"Recipe", "source = \"Steps"),
        ("youngest = \"1 mo\"", "youngest = \"2 mo\""),
    ] {
        assert!(edited.contains(from), "{from}");
        edited = edited.replacen(from, to, 1);
    }
    world.bring("second.toml", &edited);
    press(&mut kitchen, "order");
    press(&mut kitchen, "look-for-papers");
    press(&mut kitchen, "paper:1");
    let Screen::Reading(reading) = kitchen.view().screen else {
        panic!("a page to read");
    };
    let lines: Vec<String> = reading
        .blocks
        .into_iter()
        .filter_map(|block| match block {
            Block::Item { words, .. } => Some(words),
            _ => None,
        })
        .collect();
    assert_eq!(
        lines,
        [
            "Remojo: 10 minutos; antes: 5 minutos.",
            "Comida o bebida jugo de manzana, azúcar: 3½ cucharaditas (17.5 mL); antes: 4 cucharaditas (20 mL).",
            "Edad mínima: 2 meses; antes: 1 mes.",
            "Pregunta “¿Está embarazada esta persona, o podría estarlo?”, un sí quiere decir: no tomarla; antes: preguntar antes a una enfermera.",
        ]
    );
}
