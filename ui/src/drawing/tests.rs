use std::collections::BTreeSet;

use super::{names, palette, svg, svg_for_width};

/// The softening bowl as it was first drawn by hand, next to the percent it shows.
/// Made by another program than ours, so these files say what the computed picture must be.
const DRAWN: [(&str, &str); 5] = [
    ("soak:0", include_str!("../../drawings/soak-start.svg")),
    ("soak:25", include_str!("../../drawings/soak-quarter.svg")),
    ("soak:50", include_str!("../../drawings/soak-half.svg")),
    (
        "soak:75",
        include_str!("../../drawings/soak-three-quarters.svg"),
    ),
    ("soak:100", include_str!("../../drawings/soak-done.svg")),
];

fn drawn(name: &str, dark: bool) -> String {
    svg(name, dark).unwrap_or_else(|| panic!("no drawing {name}"))
}

fn colours(text: &str) -> BTreeSet<String> {
    text.split('#')
        .skip(1)
        .map(|rest| format!("#{}", rest.chars().take(6).collect::<String>()))
        .collect()
}

/// The numbers of a text in their order, and the text between them.
fn numbers(text: &str) -> (Vec<f64>, String) {
    let (mut numbers, mut between, mut digits) = (Vec::new(), String::new(), String::new());
    for c in text.chars().chain(['\n']) {
        if c.is_ascii_digit() || c == '.' || c == '-' {
            digits.push(c);
            continue;
        }
        match digits.parse() {
            Ok(number) => numbers.push(number),
            Err(_) => between.push_str(&digits),
        }
        digits.clear();
        between.push(c);
    }
    (numbers, between)
}

#[test]
fn every_name_gives_a_flat_drawing_in_both_themes() {
    for name in names() {
        for dark in [false, true] {
            let text = drawn(name, dark);
            assert!(
                text.starts_with("<svg xmlns=") && text.ends_with("</svg>"),
                "{name}"
            );
            for banned in [
                "<g",
                "<text",
                "<image",
                "<style",
                "<use",
                "transform",
                "Gradient",
                "filter",
                "opacity",
            ] {
                assert!(!text.contains(banned), "{name} holds {banned}");
            }
            for tag in text.split('<').skip(2).filter(|tag| !tag.starts_with('/')) {
                assert!(
                    tag.starts_with("path d=") || tag.starts_with("circle cx="),
                    "{name}: {tag}"
                );
            }
        }
    }
}

#[test]
fn names_are_the_files_of_the_folder() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("drawings");
    let mut files: Vec<String> = std::fs::read_dir(folder)
        .expect("the folder of drawings")
        .map(|entry| {
            entry
                .expect("a file")
                .file_name()
                .into_string()
                .expect("a plain name")
        })
        .map(|file| file.strip_suffix(".svg").unwrap_or(&file).to_owned())
        .collect();
    files.sort();
    assert_eq!(files, names());
}

#[test]
fn softening_matches_the_drawn_moments() {
    for (name, file) in DRAWN {
        let computed = drawn(name, false);
        let (is, shapes) = numbers(&computed);
        let (should, expected) = numbers(file.trim_end());
        assert_eq!(shapes, expected, "{name}: other shapes");
        assert_eq!(is.len(), should.len(), "{name}");
        for (a, b) in is.iter().zip(&should) {
            assert!((a - b).abs() <= 0.11, "{name}: {a} for {b}");
        }
    }
}

#[test]
fn softening_has_the_shapes_it_was_given() {
    for (name, paths, circles) in [
        ("soak:0", 9, 0),
        ("soak:25", 11, 4),
        ("soak:50", 11, 6),
        ("soak:75", 11, 7),
        ("soak:100", 8, 9),
    ] {
        let text = drawn(name, false);
        assert_eq!(
            (
                text.matches("<path").count(),
                text.matches("<circle").count()
            ),
            (paths, circles),
            "{name}"
        );
    }
}

#[test]
fn every_percent_has_a_picture() {
    for percent in 0..=100 {
        let name = format!("soak:{percent}");
        assert!(!drawn(&name, false).contains("NaN"));
        assert_ne!(drawn(&name, false), drawn(&name, true));
    }
    assert_eq!(svg("soak:05", false), svg("soak:5", false));
}

#[test]
fn no_light_colour_stands_twice() {
    let light: BTreeSet<_> = palette::ALL.iter().map(|c| c.light).collect();
    assert_eq!(light.len(), palette::ALL.len());
}

#[test]
fn drawings_use_the_palette_only() {
    let light: BTreeSet<_> = palette::ALL.iter().map(|c| c.light.to_owned()).collect();
    let dark: BTreeSet<_> = palette::ALL.iter().map(|c| c.dark.to_owned()).collect();
    for name in names()
        .iter()
        .copied()
        .chain(["soak:1", "soak:60", "soak:99"])
    {
        assert!(
            colours(&drawn(name, false)).is_subset(&light),
            "{name} by day"
        );
        assert!(
            colours(&drawn(name, true)).is_subset(&dark),
            "{name} by night"
        );
    }
}

#[test]
fn what_looks_alike_by_day_may_differ_by_night() {
    let day = |colour: &str| palette::darken(colour);
    assert_eq!(
        day("enamel #FFFDF6, label #FFFDF8"),
        "enamel #6B6156, label #3B3026"
    );
    assert_eq!(
        day("band #3E5C76, cloth #3E5C77"),
        "band #8FB0CE, cloth #4A6C8E"
    );
    assert_eq!(day("#E3A530 stays"), "#E3A530 stays");
    assert_eq!(day("no colour"), "no colour");
}

#[test]
fn unknown_names_give_nothing() {
    for name in [
        "",
        "Crush",
        "crush.svg",
        "../crush",
        "soak:",
        "soak:101",
        "soak:1000",
        "soak:-1",
        "soak:+5",
        "soak:5.5",
    ] {
        assert_eq!(svg(name, false), None, "{name}");
        assert_eq!(svg(name, true), None, "{name}");
    }
    assert_eq!(svg("soak:255", true), None);
}

#[test]
fn small_places_get_heavier_outlines() {
    let main = |width: f32| -> f64 {
        let text = svg_for_width("soak:0", false, width).expect("a drawing");
        let (_, rest) = text.split_once("stroke-width=\"").expect("an outline");
        rest.split_once('"')
            .expect("a value")
            .0
            .parse()
            .expect("a number")
    };
    // 320 units on 80 pixels: 2.5 pixels are 10 units.
    assert!((main(80.0) - 10.0).abs() < 0.01);
    assert!((main(320.0) - 4.0).abs() < 0.01);
    // A detail of 2.5 gains three quarters of what the outline gained: 2.5 × (1 + 1.5 × 0.75).
    let text = svg_for_width("soak:0", false, 80.0).expect("a drawing");
    assert!(text.contains("stroke-width=\"5.3\"") || text.contains("stroke-width=\"5.4\""));
    assert_eq!(svg_for_width("soak:0", false, 0.0), None);
    assert_eq!(svg_for_width("soak:0", false, f32::NAN), None);
    assert_eq!(svg_for_width("no such drawing", false, 80.0), None);
}
