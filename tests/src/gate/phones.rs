//! Telephone numbers: only invented ones, 555-0100 to 555-0199, with or without an invented area code before them.

use super::Problem;
use super::tree::Tree;

/// Tables of figures and drawings, where runs of digits are no telephone numbers.
const LEFT_OUT: &[&str] = &["Cargo.lock", "LICENSE", ".svg", ".csv"];

pub fn check(tree: &Tree) -> Vec<Problem> {
    let mut problems = Vec::new();
    for (path, text) in tree.texts() {
        if LEFT_OUT.iter().any(|ending| path.ends_with(ending)) {
            continue;
        }
        for (line, row) in (1..).zip(text.lines()) {
            let mut numbers = numbers(row);
            numbers.retain(|number| !is_invented(number));
            // In an order even a short number, as of an emergency service, is a number somebody may call.
            let field = phone_field(row).filter(|_| path.ends_with(".toml"));
            if let Some(phone) = field.filter(|phone| !phone.is_empty() && !is_invented(phone))
                && numbers.is_empty()
            {
                numbers.push(phone.to_owned());
            }
            for number in numbers {
                let text = format!("{number} could be somebody's telephone: use 555-01…");
                problems.push(Problem::new(path, line, text));
            }
        }
    }
    problems
}

/// The text of `phone = "…"`.
fn phone_field(row: &str) -> Option<&str> {
    let (name, value) = row.split_once('=')?;
    let value = value.trim().strip_prefix('"')?.split('"').next()?;
    name.trim().ends_with("phone").then_some(value)
}

fn is_invented(number: &str) -> bool {
    let digits: String = number.chars().filter(char::is_ascii_digit).collect();
    digits.len() >= 7 && digits.get(digits.len() - 7..digits.len() - 2) == Some("55501")
}

/// Runs of digits grouped as telephone numbers are.
fn numbers(row: &str) -> Vec<String> {
    let letters: Vec<char> = row.chars().collect();
    let mut found = Vec::new();
    let mut at = 0;
    while let Some(first) = letters.get(at) {
        if !first.is_ascii_digit() && !"+(".contains(*first) {
            at += 1;
            continue;
        }
        let run: String = letters[at..]
            .iter()
            .take_while(|letter| letter.is_ascii_digit() || "+-.() ".contains(**letter))
            .collect();
        let before = at.checked_sub(1).and_then(|before| letters.get(before));
        let after = letters.get(at + run.len());
        let stands_alone = !before.is_some_and(|letter| is_joined(*letter) || *letter == '-')
            && !after.is_some_and(|letter| is_joined(*letter) && !run.ends_with(' '));
        if stands_alone {
            found.extend(grouped(&run));
        }
        at += run.len();
    }
    found
}

/// Part of a longer name or number: an id, a version, a hash.
fn is_joined(letter: char) -> bool {
    letter.is_alphanumeric() || letter == '_'
}

fn grouped(run: &str) -> Vec<String> {
    let mut found = Vec::new();
    let run = run.trim_end_matches(['.', ' ', '(', '-']);
    // A country's code and at least eight digits, however grouped.
    if let Some((_, abroad)) = run.split_once('+') {
        let digits = abroad.chars().filter(char::is_ascii_digit).count();
        if abroad.starts_with(|letter: char| letter.is_ascii_digit())
            && digits >= 8
            && !abroad.contains('.')
        {
            return vec![format!("+{abroad}")];
        }
    }
    for part in run.split(' ') {
        let groups: Vec<&str> = part.split(['-', '.']).collect();
        let groups: Vec<&str> = groups
            .iter()
            .map(|group| group.trim_matches(['(', ')']))
            .collect();
        let lengths: Vec<usize> = groups.iter().map(|group| group.len()).collect();
        let plain = groups
            .iter()
            .all(|group| group.chars().all(|c| c.is_ascii_digit()));
        let dashed = !part.contains('.');
        let alike = match lengths.as_slice() {
            [3, 4] => dashed,
            [3, 3, 4] => true,
            [1 | 2, 3, 3, 4] => dashed,
            _ => false,
        };
        if plain && alike {
            found.push(part.to_owned());
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    fn count(path: &str, text: &str) -> usize {
        check(&Tree::of(&[(path, text)])).len()
    }

    /// Built here digit by digit, so that no real number stands in this file.
    fn real(groups: &[usize], between: &str) -> String {
        let groups: Vec<String> = groups.iter().map(|length| "2".repeat(*length)).collect();
        groups.join(between)
    }

    #[test]
    fn numbers_that_could_ring_are_caught() {
        for number in [
            real(&[3, 4], "-"),
            real(&[3, 3, 4], "-"),
            real(&[3, 3, 4], "."),
            real(&[1, 3, 3, 4], "-"),
            format!("({}) {}", real(&[3], ""), real(&[3, 4], "-")),
            format!("+{}", real(&[2, 3, 4, 3], " ")),
            format!("555-{}", real(&[4], "")),
        ] {
            for text in [
                format!("call {number} now"),
                format!("x\n\"{number}\""),
                number.clone(),
            ] {
                assert_eq!(count("README.md", &text), 1, "{text}");
            }
        }
    }

    #[test]
    fn short_numbers_are_caught_in_orders() {
        let short = "1".repeat(3);
        assert_eq!(
            count("demo-data/a.toml", &format!("phone = \"{short}\"")),
            1
        );
        assert_eq!(count("demo-data/a.toml", "phone = \"555-0142\""), 0);
        assert_eq!(count("demo-data/a.toml", "phone = \"\""), 0);
        assert_eq!(count("core/src/a.rs", &format!("let n = {short};")), 0);
    }

    #[test]
    fn invented_numbers_dates_and_ids_pass() {
        for text in [
            "555-0100 and 608-555-0199, (608) 555-0123, +1 608 555 0142",
            "2031-04-02T08:00:00-05:00 20310402 2031-04-02",
            "00000000-0000-7000-8000-000000000001 0194f3c2-222-2222",
            "1.18.1, 100-120 mg, 12.345-12.346, 222 2222 2222, 1000.222.2222",
            "+150.5 %, 12 + 3456 7890123, x222-2222, {name}-222-2222",
        ] {
            assert_eq!(count("README.md", text), 0, "{text}");
        }
    }
}
