//! Contrast of every pair of colours that stand on each other, light and dark, computed from the theme's own file.
//!
//! Sources: WCAG 2.2, 1.4.6 (7:1 for text) and 1.4.11 (3:1 for the outline of a control); its definition of relative luminance.

use std::collections::BTreeMap;

const THEME: &str = include_str!("../../ui/slint/theme.slint");
const TEXT: f64 = 7.0;
const OUTLINE: f64 = 3.0;
/// What the look of high contrast promises for words.
const HIGH_TEXT: f64 = 10.0;
/// Which of [`LOOKS`] are meant.
const USUAL: [usize; 2] = [0, 1];
const HIGH: [usize; 2] = [2, 3];

/// Words in these colours stand on any of these grounds.
const WORDS: [&str; 2] = ["ink", "soft"];
const GROUNDS: [&str; 5] = ["paper", "card", "table", "cloth", "blush"];
/// Words that stand on one ground only.
const WORDS_ON: [(&str, &str); 3] = [("on-ochre", "ochre"), ("paper", "ink"), ("ink", "mixture")];
/// Edges by which a control or a sign is known, and what they stand on.
const EDGES: [(&str, &str); 14] = [
    ("line", "paper"),
    ("line", "card"),
    ("line", "table"),
    ("ochre-edge", "paper"),
    ("ochre-edge", "card"),
    ("ink", "paper"),
    ("ink", "card"),
    ("ink", "table"),
    ("ink", "blush"),
    ("ink", "mixture"),
    ("on-ochre", "ochre"),
    ("brick", "blush"),
    ("brick", "paper"),
    // The frame of a window that flashes.
    ("deep", "paper"),
];

type Colour = [u8; 3];

/// The four looks of the theme, in the order of [`colours`].
const LOOKS: [&str; 4] = [
    "light",
    "dark",
    "light with high contrast",
    "dark with high contrast",
];

/// Each colour of the theme in each of the looks.
fn colours() -> BTreeMap<String, [Colour; 4]> {
    let lines = THEME.lines().filter_map(|line| {
        let (_, rest) = line.split_once("property <color> ")?;
        let (name, value) = rest.split_once(": ")?;
        let codes: Vec<Colour> = value.split('#').skip(1).filter_map(colour).collect();
        match codes[..] {
            // One that is called by other names: each of them is measured.
            [] if value == "contrast ? line : cloth;" => None,
            // As the theme writes it: high contrast first, dark before light.
            [plain, usual] if value.starts_with("contrast ? #") => {
                Some((name.to_owned(), [usual, usual, plain, plain]))
            }
            [plain_dark, plain_light, dark, light]
                if value.starts_with("contrast ? (dark ? #") && value.contains(") : dark ? #") =>
            {
                Some((name.to_owned(), [light, dark, plain_light, plain_dark]))
            }
            _ => panic!("what colour is {name}? {value}"),
        }
    });
    lines.collect()
}

fn colour(code: &str) -> Option<Colour> {
    let part = |at: usize| u8::from_str_radix(code.get(at..at + 2)?, 16).ok();
    Some([part(0)?, part(2)?, part(4)?])
}

fn luminance(colour: Colour) -> f64 {
    let [red, green, blue] = colour.map(|part| {
        let part = f64::from(part) / 255.0;
        if part <= 0.04045 {
            part / 12.92
        } else {
            ((part + 0.055) / 1.055).powf(2.4)
        }
    });
    0.2126 * red + 0.7152 * green + 0.0722 * blue
}

fn contrast(one: Colour, other: Colour) -> f64 {
    let (one, other) = (luminance(one), luminance(other));
    (one.max(other) + 0.05) / (one.min(other) + 0.05)
}

type Pair = (&'static str, &'static str);

/// The least contrast of the pairs in these looks, and those below what is wanted.
fn least(looks: [usize; 2], pairs: impl Iterator<Item = Pair>, wanted: f64, what: &str) {
    let colours = colours();
    let of = |name: &str| {
        *colours
            .get(name)
            .unwrap_or_else(|| panic!("the theme has no {name}"))
    };
    let mut found: Vec<(f64, String)> = Vec::new();
    for (upper, ground) in pairs {
        for at in looks {
            let ratio = contrast(of(upper)[at], of(ground)[at]);
            found.push((ratio, format!("{upper} on {ground}, {}", LOOKS[at])));
        }
    }
    found.sort_by(|one, other| one.0.total_cmp(&other.0));
    let (ratio, pair) = found.first().expect("some pairs");
    println!(
        "{what}: {} pairs, the least {ratio:.2}: {pair}",
        found.len()
    );
    let poor: Vec<&(f64, String)> = found.iter().filter(|(ratio, _)| *ratio < wanted).collect();
    assert!(poor.is_empty(), "{what} below {wanted}: {poor:?}");
}

#[test]
fn the_formula_is_the_published_one() {
    // Known values: black on white is 21:1, and #767676 is the lightest grey with 4.5:1 on white (from memory).
    assert!((contrast([0; 3], [255; 3]) - 21.0).abs() < 1e-9);
    assert!((contrast([0x76; 3], [255; 3]) - 4.54).abs() < 0.01);
}

#[test]
fn words_stand_out_from_their_ground() {
    let all = || {
        let words = WORDS.iter();
        words.flat_map(|words| GROUNDS.map(|ground| (*words, ground)))
    };
    least(USUAL, all().chain(WORDS_ON), TEXT, "words");
    least(HIGH, all().chain(WORDS_ON), HIGH_TEXT, "words, high");
}

#[test]
fn controls_stand_out_by_their_edges() {
    least(USUAL, EDGES.into_iter(), OUTLINE, "edges");
    // Panels are known by their outline alone there, so it stands out as words do.
    least(HIGH, EDGES.into_iter(), TEXT, "edges, high");
}
