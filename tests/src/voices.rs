//! Languages that nobody speaks, made from the English words, to try what others will need: more room, other letters, the other direction.
//!
//! Only what is said is changed: keys, values and the choice of a plural stay.

/// How such a language says an English text.
pub type Voice = fn(&str) -> String;

const ENGLISH: &str = include_str!("../../ui/words/en.ftl");

/// The name of the program is the same everywhere; the other message chooses a form of dates and is never said.
const SAME: [&str; 3] = ["name", "calendar-name", "date-day-first"];

/// All English messages, each text in them spoken by `voice`.
pub fn spoken(voice: Voice) -> String {
    let mut all = String::with_capacity(ENGLISH.len() * 2);
    for line in ENGLISH.lines() {
        let indented = line.starts_with(' ') || line.starts_with('}');
        let (head, text) = match line.split_once(" = ") {
            _ if line.is_empty() || line.starts_with('#') => (line, ""),
            Some((key, _)) if SAME.contains(&key) => (line, ""),
            Some((key, text)) if !indented => (&line[..key.len() + 3], text),
            // A form: "[one] " or "*[other] " and what is said then.
            _ => {
                let end = line
                    .find("] ")
                    .filter(|_| line.trim_start().starts_with(['[', '*']));
                line.split_at(end.map_or(0, |end| end + 2))
            }
        };
        all.push_str(head);
        all.push_str(&around_values(text, voice));
        all.push('\n');
    }
    all
}

/// What stands outside of braces is said, what stands inside is a value.
fn around_values(text: &str, voice: Voice) -> String {
    let mut all = String::new();
    let mut rest = text;
    while !rest.is_empty() {
        let open = rest.find(['{', '}']).unwrap_or(rest.len());
        let (said, behind) = rest.split_at(open);
        if said.chars().any(char::is_alphabetic) {
            all.push_str(&voice(said));
        } else {
            all.push_str(said);
        }
        let end = match behind.chars().next() {
            Some('{') => behind.find('}').map_or(behind.len(), |end| end + 1),
            Some(_) => 1,
            None => 0,
        };
        let (value, behind) = behind.split_at(end);
        all.push_str(value);
        rest = behind;
    }
    all
}

/// About 40 percent longer, every vowel with an accent, in brackets: what is cut off or was never looked up is seen.
pub fn stretched(text: &str) -> String {
    const ACCENTS: [(char, char); 12] = [
        ('a', 'á'),
        ('e', 'é'),
        ('i', 'î'),
        ('o', 'ö'),
        ('u', 'ü'),
        ('n', 'ñ'),
        ('A', 'Å'),
        ('E', 'É'),
        ('I', 'Î'),
        ('O', 'Ø'),
        ('U', 'Ü'),
        ('C', 'Ç'),
    ];
    const MORE: [&str; 4] = ["ünó", "dûoé", "trîa", "quåd"];
    let accent = |letter| {
        ACCENTS
            .iter()
            .find(|(plain, _)| *plain == letter)
            .map_or(letter, |(_, with)| *with)
    };
    let said: String = text.chars().map(accent).collect();
    let lead = said.len() - said.trim_start().len();
    let trail = said.trim_end().len();
    let (before, core, after) = (&said[..lead], &said[lead..trail], &said[trail..]);
    // A few letters beside a number, such as "p.m.", or an opening bracket are no text of their own.
    if core.chars().filter(|letter| letter.is_alphabetic()).count() < 4 || core.ends_with('(') {
        return said;
    }
    let mut longer = format!("{before}[{core}");
    let wanted = text.chars().count() * 7 / 5;
    for more in MORE.iter().cycle() {
        if longer.chars().count() + 2 + after.len() >= wanted {
            break;
        }
        longer.push(' ');
        longer.push_str(more);
    }
    format!("{longer}]{after}")
}

/// From right to left: the letters are Latin, because the typeface has no Hebrew or Arabic ones, and run the other way.
pub fn leftward(text: &str) -> String {
    format!("\u{202e}{text}\u{202c}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_what_is_said_is_changed() {
        assert_eq!(
            around_values("Call { $phone } now.", |said| said.to_uppercase()),
            "CALL { $phone } NOW."
        );
        assert_eq!(
            around_values("{ $count ->", |said| said.to_uppercase()),
            "{ $count ->"
        );
        let all = spoken(|said| said.to_uppercase());
        assert!(all.contains("\ndate-day-first = no\n"));
        assert!(all.contains("\nback = BACK\n"));
        assert!(all.contains("    [one] { $count } WHOLE TABLET\n"));
        assert!(all.contains("\ngive-title = GIVE IT TO { $name } NOW.\n"));
    }

    #[test]
    fn it_is_longer_by_forty_percent() {
        let english = "Crush with the back of the spoon.";
        let length = stretched(english).chars().count();
        assert!(
            length * 10 >= english.len() * 13 && length * 10 <= english.len() * 17,
            "{length}"
        );
    }
}
