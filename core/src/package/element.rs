//! An element string cut into its elements.

use super::identifier::{self, Identifier, Meaning, Shape};
use super::problem::Problem;
use super::{check_digit_is_right, date};

/// The separator: FNC1 as a scanner sends it.
const SEPARATOR: char = '\u{1d}';
/// Symbology identifiers under which GS1 element strings travel: DataMatrix, QR, linear, DataBar.
const GS1_SYMBOLS: &[&str] = &["]d2", "]Q3", "]C1", "]e0"];
const LINE_ENDS: [char; 3] = ['\r', '\n', '\t'];

/// One identifier with a value of the right shape.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Element<'a> {
    pub(super) identifier: &'static Identifier,
    pub(super) value: &'a str,
    /// The value ran to the end of the text, so no separator says where it should have ended.
    pub(super) to_the_end: bool,
}

/// Every element of the text, and what is wrong with the others.
pub(super) fn split(text: &str) -> (Vec<Element<'_>>, Vec<Problem>) {
    let mut problems = Vec::new();
    let mut elements = Vec::new();
    let Some(mut rest) = content(text, &mut problems) else {
        return (elements, problems);
    };
    loop {
        if let Some(behind) = rest.strip_prefix(SEPARATOR) {
            // One separator behind a value of fixed length is common and harmless.
            rest = behind;
            if rest.starts_with(SEPARATOR) {
                problems.push(Problem::new(
                    "not-an-element",
                    "two separators stand side by side; something is missing between them",
                ));
            }
            continue;
        }
        if rest.is_empty() {
            break;
        }
        let (used, found) = match identifier::starting(rest) {
            Some(identifier) => known(identifier, rest),
            None => unknown(rest),
        };
        match found {
            Ok(element) => elements.push(element),
            Err(problem) => {
                let lost = problem.code == "not-an-element";
                problems.push(problem);
                if lost {
                    break;
                }
            }
        }
        rest = rest.get(used..).unwrap_or_default();
    }
    (elements, problems)
}

/// The text without line ends and symbology identifier.
fn content<'a>(text: &'a str, problems: &mut Vec<Problem>) -> Option<&'a str> {
    let mut rest = text.trim_matches(LINE_ENDS);
    if let Some(symbol) = GS1_SYMBOLS.iter().find(|symbol| rest.starts_with(**symbol)) {
        rest = rest.get(symbol.len()..).unwrap_or_default();
    } else if rest.starts_with(']') {
        let name: String = rest.chars().take(3).collect();
        problems.push(Problem::new(
            "not-gs1",
            format!("the scanner says “{name}”, which is no code by GS1's rules"),
        ));
        return None;
    }
    if rest.trim_matches(SEPARATOR).is_empty() {
        problems.push(Problem::new("empty", "there is nothing in the code"));
        return None;
    }
    Some(rest)
}

/// Bytes used, and the element or what is wrong with it.
fn known<'a>(
    identifier: &'static Identifier,
    rest: &'a str,
) -> (usize, Result<Element<'a>, Problem>) {
    let behind = rest.get(identifier.digits.len()..).unwrap_or_default();
    let upto_separator = behind.find(SEPARATOR).unwrap_or(behind.len());
    let whole = behind.get(..upto_separator).unwrap_or_default();
    let (title, digits) = (identifier.title, identifier.digits);
    let fixed = match identifier.shape {
        Shape::Digits(count) => Some(count),
        Shape::Day => Some(6),
        Shape::Minute | Shape::UpToDigits(_) | Shape::UpTo(_) => None,
    };
    let value = match fixed {
        Some(count) => whole
            .char_indices()
            .nth(count)
            .and_then(|(end, _)| whole.get(..end))
            .unwrap_or(whole),
        None => whole,
    };
    let used = digits.len().saturating_add(value.len());
    let wrong = |code, text: String| (used, Err(Problem::new(code, text)));
    let length = value.chars().count();
    let (least, most, only_digits) = match identifier.shape {
        Shape::Digits(count) => (count, count, true),
        Shape::Day => (6, 6, true),
        Shape::Minute => (10, 10, true),
        Shape::UpToDigits(most) => (1, most, true),
        Shape::UpTo(most) => (1, most, false),
    };
    if length == 0 {
        return wrong("value-empty", format!("the {title} ({digits}) is empty"));
    }
    if length < least {
        return wrong(
            "value-cut-short",
            format!("the {title} ({digits}) has {length} of {least} digits"),
        );
    }
    if length > most {
        return wrong(
            "value-too-long",
            format!(
                "the {title} ({digits}) has {length} characters and may have {most}; a separator may be missing"
            ),
        );
    }
    if only_digits && !value.bytes().all(|byte| byte.is_ascii_digit()) {
        return wrong(
            "value-not-digits",
            format!("the {title} ({digits}) “{}” must be digits", shown(value)),
        );
    }
    if !value.chars().all(identifier::in_set_82) {
        return wrong(
            "character-not-allowed",
            format!(
                "the {title} ({digits}) “{}” holds a character that GS1 does not allow",
                shown(value)
            ),
        );
    }
    let to_the_end = used == rest.len();
    (
        used,
        Ok(Element {
            identifier,
            value,
            to_the_end,
        }),
    )
}

fn unknown(rest: &str) -> (usize, Result<Element<'_>, Problem>) {
    let digits = rest.bytes().take_while(u8::is_ascii_digit).take(4).count();
    if digits < 2 {
        let start: String = rest.chars().take(6).collect();
        let text = format!(
            "“{}” does not begin with an identifier; nothing from here on is read",
            shown(&start)
        );
        return (rest.len(), Err(Problem::new("not-an-element", text)));
    }
    let name = rest.get(..2).unwrap_or_default();
    let upto_separator = rest.find(SEPARATOR).unwrap_or(rest.len());
    let used = identifier::predefined_length(rest)
        .filter(|length| *length <= upto_separator && rest.is_char_boundary(*length))
        .unwrap_or(upto_separator);
    let text = format!("the identifier that begins with {name} is not understood; it is left out");
    (used, Err(Problem::new("unknown-identifier", text)))
}

/// Text for a sentence: what cannot be printed becomes a question mark.
fn shown(text: &str) -> String {
    text.chars()
        .map(|letter| if letter.is_control() { '?' } else { letter })
        .collect()
}

/// Values that seem to hold the element behind them, because the separator between the two is not there.
pub(super) fn swallowed(elements: &[Element<'_>], year: i16) -> Vec<Problem> {
    let has = |meaning| {
        elements
            .iter()
            .any(|element| element.identifier.meaning == meaning)
    };
    let mut problems = Vec::new();
    for element in elements {
        if !matches!(element.identifier.shape, Shape::UpTo(_)) {
            continue;
        }
        let title = element.identifier.title;
        let tails = || (1..element.value.len()).filter_map(|at| element.value.get(at..));
        if let Some(tail) = tails().find(|tail| is_fixed_element(tail, year, &has)) {
            problems.push(Problem::new(
                "separator-missing",
                format!(
                    "the {title} “{}” ends in “{tail}”, which is an element of its own; the separator before it is missing",
                    element.value
                ),
            ));
            continue;
        }
        // A lot may well hold the digits 21; only where a serial number is wanting is that worth a word.
        let (other, digits) = match element.identifier.meaning {
            Meaning::Lot => (Meaning::Serial, "21"),
            Meaning::Serial => (Meaning::Lot, "10"),
            _ => continue,
        };
        let complete = has(Meaning::Gtin) && has(Meaning::Expiry) && !has(other);
        let complete = complete && element.to_the_end;
        let holds = tails().any(|tail| tail.starts_with(digits) && tail.len() > digits.len());
        if complete && holds {
            problems.push(Problem::new(
                "separator-perhaps-missing",
                format!(
                    "the {title} “{}” holds {digits}, which could begin another element; compare it with the print on the package",
                    element.value
                ),
            ));
        }
    }
    problems
}

/// A date or product number that is not there yet and is right in itself.
fn is_fixed_element(tail: &str, year: i16, has: &impl Fn(Meaning) -> bool) -> bool {
    let Some(identifier) = identifier::starting(tail).filter(|known| !has(known.meaning)) else {
        return false;
    };
    let value = tail.get(identifier.digits.len()..).unwrap_or_default();
    match identifier.shape {
        Shape::Day => value.get(..6).is_some_and(|digits| {
            date::day(digits, year).is_some() && ends_well(value.get(6..).unwrap_or_default())
        }),
        Shape::Digits(count) => value.get(..count).is_some_and(|digits| {
            check_digit_is_right(digits) && ends_well(value.get(count..).unwrap_or_default())
        }),
        _ => false,
    }
}

/// Nothing more, or something that begins with an identifier.
fn ends_well(rest: &str) -> bool {
    rest.is_empty() || identifier::starting(rest).is_some()
}
