//! Where a line of words may break.
//!
//! Numbers stay with their unit, times with a.m. and p.m., brackets and phone numbers in one piece.
//! What is read out keeps the plain characters.

use crate::screens::WordsData;
use slint::SharedString;

/// A blank between two joiners. The usual unbroken blank will not do: at the end of a line the renderer lets it hang
/// over and breaks behind it.
const BLANK: &str = "\u{2060}\u{2005}\u{2060}";
const HYPHEN: char = '\u{2011}';
/// A longer bracket may break like other words.
const BRACKET: usize = 14;
/// What belongs to the number before it.
const UNITS: &[&str] = &[
    "a.m.", "p.m.", "a.", "p.", "s", "min", "h", "d", "wk", "mo", "y", "mL", "mg", "g", "kg", "lb",
    "oz", "tsp", "%",
];

/// The same, where words are not so large that the two fill a line.
const LONG_UNITS: &[&str] = &["teaspoon", "teaspoons", "cucharadita", "cucharaditas"];

thread_local! {
    static LARGE: std::cell::Cell<bool> = const { std::cell::Cell::new(false) };
}

/// Told before a view is shown: words are so large that long units go to a line of their own.
pub(super) fn words_are_large(large: bool) {
    LARGE.set(large);
}

/// The words as they are and as they are drawn.
pub(super) fn words(text: &str) -> WordsData {
    WordsData {
        words: text.into(),
        drawn: drawn(text),
    }
}

/// The words with blanks and hyphens that do not break.
pub(super) fn drawn(text: &str) -> SharedString {
    let all: Vec<char> = text.chars().collect();
    let digit = |at: Option<usize>| {
        at.and_then(|at| all.get(at))
            .is_some_and(|c| c.is_numeric())
    };
    let mut bracket = 0;
    let mut kept = String::with_capacity(text.len() + 8);
    for (at, &c) in all.iter().enumerate() {
        if c == '(' {
            bracket = closing(&all[at..]).map_or(0, |length| at + length);
        }
        let before = at.checked_sub(1);
        match c {
            ' ' if at < bracket
                || (digit(before) && unit(&all[at + 1..]))
                || half_day(&all, at) =>
            {
                kept.push_str(BLANK);
            }
            '-' if digit(before) && digit(Some(at + 1)) => kept.push(HYPHEN),
            _ => kept.push(c),
        }
    }
    kept.into()
}

/// How many characters further the bracket closes, when it is short.
fn closing(rest: &[char]) -> Option<usize> {
    rest.iter().take(BRACKET).position(|c| *c == ')')
}

/// Whether the blank stands inside of "a. m." or "p. m.", as Spanish writes them.
fn half_day(all: &[char], blank: usize) -> bool {
    let around: String = all.iter().skip(blank.saturating_sub(2)).take(5).collect();
    around == "a. m." || around == "p. m."
}

/// Whether a unit comes next and ends there.
fn unit(rest: &[char]) -> bool {
    let word: String = rest.iter().take_while(|c| !c.is_whitespace()).collect();
    let word = word.trim_end_matches([',', ';', ':', ')']);
    if !LARGE.get() && LONG_UNITS.contains(&word.trim_end_matches('.')) {
        return true;
    }
    UNITS.contains(&word)
        || word
            .strip_suffix('.')
            .is_some_and(|word| UNITS.contains(&word))
}

#[cfg(test)]
mod tests {
    use super::drawn;

    #[test]
    fn numbers_keep_their_units() {
        assert_eq!(
            drawn("Crush at 7:48 p.m."),
            "Crush at 7:48\u{2060}\u{2005}\u{2060}p.m."
        );
        assert_eq!(
            drawn("a las 7:36 p. m. de hoy"),
            "a las 7:36\u{2060}\u{2005}\u{2060}p.\u{2060}\u{2005}\u{2060}m. de hoy"
        );
        assert_eq!(
            drawn("8 lb 2 oz."),
            "8\u{2060}\u{2005}\u{2060}lb 2\u{2060}\u{2005}\u{2060}oz."
        );
        assert_eq!(drawn("Bowls 3 and 4"), "Bowls 3 and 4");
    }

    #[test]
    fn an_amount_breaks_before_its_bracket_only() {
        assert_eq!(
            drawn("1½ teaspoons (7.5 mL)"),
            "1½\u{2060}\u{2005}\u{2060}teaspoons (7.5\u{2060}\u{2005}\u{2060}mL)"
        );
    }

    #[test]
    fn phone_numbers_stay_whole_and_names_may_break() {
        assert_eq!(drawn("Call 555-0142"), "Call 555\u{2011}0142");
        assert_eq!(drawn("Maria-Esperanza"), "Maria-Esperanza");
        assert_eq!(drawn("It takes 25 minutes."), "It takes 25 minutes.");
    }
}
