//! Slint files: colours come from the theme, and no callback is declared that nothing calls or nothing hears.

use super::Problem;
use super::rust_text::RustText;
use super::tree::Tree;

const SCREENS: &str = "ui/slint/";
const BINDINGS: &str = "ui/src/";

pub fn check(tree: &Tree) -> Vec<Problem> {
    let mut problems = Vec::new();
    let screens: Vec<(&str, RustText)> = tree
        .ending(".slint")
        .filter(|(path, _)| path.starts_with(SCREENS))
        .map(|(path, text)| (path, RustText::new(text)))
        .collect();
    for (path, text) in &screens {
        if !is_theme(path) {
            for (line, colour) in colours(text) {
                let why = format!("{colour}: a colour outside the theme");
                problems.push(Problem::new(path, line, why));
            }
        }
    }
    let bindings: Vec<RustText> = tree
        .ending(".rs")
        .filter(|(path, _)| path.starts_with(BINDINGS))
        .map(|(_, text)| RustText::new(text))
        .collect();
    let all: Vec<(&str, Callback)> = screens
        .iter()
        .flat_map(|(path, text)| callbacks(text).into_iter().map(|found| (*path, found)))
        .collect();
    for (path, callback) in &all {
        let declared = all
            .iter()
            .filter(|(_, other)| other.name == callback.name)
            .count();
        let named = screens
            .iter()
            .map(|(_, text)| count(text, &callback.name))
            .sum::<usize>();
        // Strings hold calls too: `"\{root.name()}"`.
        let quoted = screens.iter().any(|(_, text)| {
            text.strings
                .iter()
                .any(|string| string.text.contains(&callback.name))
        });
        if named <= declared && !quoted {
            let why = format!("callback {} is never called", callback.name);
            problems.push(Problem::new(path, callback.line, why));
        }
        let heard = format!("on_{}", callback.name.replace('-', "_"));
        let is_heard = bindings
            .iter()
            .any(|text| text.words().iter().any(|word| word.is(&heard)));
        if callback.global && !is_heard {
            let why = format!("callback {}: no {heard} in {BINDINGS}", callback.name);
            problems.push(Problem::new(path, callback.line, why));
        }
    }
    problems
}

/// `theme.slint`, `theme-dark.slint`, anything in a folder `theme`.
fn is_theme(path: &str) -> bool {
    let inside = path.strip_prefix(SCREENS).unwrap_or(path);
    inside.starts_with("theme")
}

/// Literal colours, and the functions and names that make one.
fn colours(text: &RustText) -> Vec<(usize, String)> {
    let mut found = Vec::new();
    for word in text.words() {
        let name = word.name();
        let end = word.at + name.chars().count();
        let hexadecimal = matches!(name.len(), 3 | 4 | 6 | 8)
            && name.chars().all(|letter| letter.is_ascii_hexdigit());
        if hexadecimal && text.precedes(word.at, "#") {
            found.push((word.line, format!("#{name}")));
        } else if matches!(name.as_str(), "rgb" | "rgba" | "hsv" | "oklch")
            && text.follows(end, "(")
        {
            found.push((word.line, format!("{name}(…)")));
        } else if name == "Colors" && text.follows(end, ".") {
            found.push((word.line, "Colors.…".to_owned()));
        }
    }
    found
}

struct Callback {
    line: usize,
    name: String,
    global: bool,
}

fn callbacks(text: &RustText) -> Vec<Callback> {
    let mut found = Vec::new();
    let (mut depth, mut global) = (0_usize, None);
    let words = text.words();
    let mut next = words.iter().peekable();
    for (at, letter) in text.code.iter().enumerate() {
        match letter {
            '{' => depth += 1,
            '}' => {
                depth = depth.saturating_sub(1);
                global = global.filter(|inside| *inside <= depth);
            }
            _ => {}
        }
        let Some(word) = next.next_if(|word| word.at == at) else {
            continue;
        };
        if word.is("global") && depth == 0 {
            global = Some(1);
        } else if word.is("component") && depth == 0 {
            global = None;
        } else if word.is("callback") {
            let start = text.skip_space(at + word.text.len());
            found.push(Callback {
                line: word.line,
                name: name_at(text, start),
                global: global.is_some_and(|inside| depth >= inside),
            });
        }
    }
    found
}

fn name_at(text: &RustText, at: usize) -> String {
    let rest = text.code.get(at..).unwrap_or_default();
    rest.iter()
        .copied()
        .take_while(|letter| is_name(*letter))
        .collect()
}

fn is_name(letter: char) -> bool {
    letter.is_ascii_alphanumeric() || letter == '-' || letter == '_'
}

/// How often the whole name stands in the code.
fn count(text: &RustText, name: &str) -> usize {
    let code: String = text.code.iter().collect();
    code.split(|letter| !is_name(letter))
        .filter(|word| *word == name)
        .count()
}

#[cfg(test)]
mod tests {
    use super::*;

    const SCREEN: &str = "export global Soak {\n  callback next-pressed();\n}\n\
        component Row {\n  callback picked(string);\n  TouchArea { clicked => { root.picked(\"a\"); } }\n}\n\
        component Page { Button { clicked => { Soak.next-pressed(); } } }\n";
    const BINDING: &str = "fn connect() { soak.on_next_pressed(|| {}); }";

    fn problems(screen: &str, binding: &str) -> Vec<Problem> {
        check(&Tree::of(&[
            ("ui/slint/screens/soak.slint", screen),
            ("ui/slint/theme.slint", "x: #ffffff;"),
            ("ui/src/bind/soak.rs", binding),
        ]))
    }

    #[test]
    fn a_sound_screen_passes() {
        assert_eq!(problems(SCREEN, BINDING), []);
        let quiet =
            format!("{SCREEN}// #fff\ntext: \"#1 #fff\"; x: Theme.ink; @image-url(\"a.svg\")");
        assert_eq!(problems(&quiet, BINDING), []);
    }

    #[test]
    fn colours_outside_the_theme_are_caught() {
        for colour in ["#fff", "#A1b2C3", "#11223344", "rgb(1, 2, 3)", "Colors.red"] {
            let screen = format!("{SCREEN}component X {{ background: {colour}; }}");
            let found = problems(&screen, BINDING);
            assert_eq!(found.len(), 1, "{colour}");
            assert_eq!(found[0].line, 9);
        }
    }

    #[test]
    fn a_callback_nobody_calls_is_caught() {
        let screen = SCREEN.replace("Soak.next-pressed();", "");
        let found = problems(&screen, BINDING);
        assert_eq!(found.len(), 1);
        assert_eq!(found[0].line, 2);
        assert_eq!(
            problems(&SCREEN.replace("root.picked(\"a\");", ""), BINDING).len(),
            1
        );
    }

    #[test]
    fn a_callback_nobody_hears_is_caught() {
        let found = problems(SCREEN, "");
        assert_eq!(found.len(), 1);
        assert!(found[0].text.contains("on_next_pressed"));
    }
}
