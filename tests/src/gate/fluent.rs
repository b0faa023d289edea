//! Fluent files, read as far as the gate needs: which messages there are and what each names.

use std::collections::{BTreeMap, BTreeSet};

use super::Problem;

/// One message, or one term (its name begins with a dash).
#[derive(Debug, Default, PartialEq, Eq)]
pub struct Message {
    pub line: usize,
    /// `$name` of everything that is put into it.
    pub variables: BTreeSet<String>,
    /// Messages, terms and their attributes that it takes in.
    pub references: BTreeSet<String>,
    /// Choices between forms, in the order in which they stand.
    pub choices: Vec<Choice>,
}

/// One choice between forms: `{ $count -> … }`.
#[derive(Debug, Default, PartialEq, Eq)]
pub struct Choice {
    /// The variable that chooses.
    pub by: String,
    pub forms: Vec<Form>,
}

/// `[one] …`, with what is put into it.
#[derive(Debug, Default, PartialEq, Eq)]
pub struct Form {
    pub name: String,
    pub default: bool,
    pub variables: BTreeSet<String>,
}

#[derive(Debug, Default)]
pub struct Words {
    /// By key; an attribute stands under `key.attribute`.
    pub messages: BTreeMap<String, Message>,
    pub problems: Vec<Problem>,
}

impl Words {
    pub fn read(path: &str, text: &str) -> Self {
        let mut words = Self::default();
        let mut key: Option<String> = None;
        for (line, row) in (1..).zip(text.lines()) {
            if row.starts_with('#') || row.trim().is_empty() {
                continue;
            }
            let indented = row.starts_with([' ', '\t']);
            let head = match (indented, row.trim_start().strip_prefix('.'), &key) {
                (true, Some(attribute), Some(key)) => {
                    let owner = key.split('.').next().unwrap_or_default();
                    head_of(attribute).map(|(name, value)| (format!("{owner}.{name}"), value))
                }
                (false, _, _) => head_of(row).map(|(name, value)| (name.to_owned(), value)),
                _ => None,
            };
            let value = if let Some((name, value)) = head {
                let message = Message {
                    line,
                    ..Message::default()
                };
                if let Some(first) = words.messages.insert(name.clone(), message) {
                    let text = format!("{name} is defined in line {} already", first.line);
                    words.problems.push(Problem::new(path, line, text));
                }
                key = Some(name);
                value
            } else {
                row
            };
            let goes_on = indented || value != row || row.starts_with('}');
            match key.as_ref().and_then(|key| words.messages.get_mut(key)) {
                Some(message) if goes_on => message.take_in(value),
                _ => {
                    let text = "is neither a message, nor part of one, nor a comment";
                    words.problems.push(Problem::new(path, line, text));
                }
            }
        }
        words
    }
}

impl Message {
    fn take_in(&mut self, value: &str) {
        self.take_form(value);
        self.variables.extend(variables_of(value));
        for part in value.split('{').skip(1) {
            let part = part.trim_start();
            let end = part.find(|letter: char| !is_name(letter) && letter != '.');
            let (name, rest) = part.split_at(end.unwrap_or(part.len()));
            // `{ key }` and `{ -term(…) }`; functions are in capitals, words of variants have more behind them.
            let rest = rest.trim_start();
            let closed = rest.starts_with('}') || name.starts_with('-') && rest.starts_with('(');
            if closed
                && name.starts_with(|letter: char| letter.is_ascii_lowercase() || letter == '-')
            {
                self.references.insert(name.to_owned());
            }
        }
    }
}

impl Message {
    /// Notes a choice that begins in this line, or one more form of the last one.
    fn take_form(&mut self, value: &str) {
        let text = value.trim_start();
        let bare = text.strip_prefix('*').unwrap_or(text);
        let form = bare.strip_prefix('[').and_then(|rest| rest.split_once(']'));
        if let (Some((name, said)), Some(choice)) = (form, self.choices.last_mut()) {
            choice.forms.push(Form {
                name: name.trim().to_owned(),
                default: bare.len() < text.len(),
                variables: variables_of(said).collect(),
            });
        }
        if let Some(before) = value.trim_end().strip_suffix("->") {
            let by = before.rsplit('$').next().map(name_at);
            self.choices.push(Choice {
                by: by.unwrap_or_default().to_owned(),
                forms: Vec::new(),
            });
        }
    }
}

fn variables_of(value: &str) -> impl Iterator<Item = String> + '_ {
    let names = value.split('$').skip(1).map(name_at);
    names.filter(|name| !name.is_empty()).map(str::to_owned)
}

/// The name and the rest of `name = rest`.
fn head_of(row: &str) -> Option<(&str, &str)> {
    let (name, value) = row.split_once('=')?;
    let name = name.trim_end();
    let first = name.strip_prefix('-').unwrap_or(name).chars().next()?;
    (first.is_ascii_alphabetic() && name.chars().all(is_name)).then_some((name, value))
}

fn is_name(letter: char) -> bool {
    letter.is_ascii_alphanumeric() || letter == '-' || letter == '_'
}

fn name_at(text: &str) -> &str {
    let end = text.find(|letter| !is_name(letter)).unwrap_or(text.len());
    text.get(..end).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    const SAMPLE: &str = "\
### Words
# a comment
-program = Hearthdose

soak-title = Let it soak
soak-left =
    { $minutes ->
        [one] one more minute, { $name }
       *[other] { NUMBER($minutes) } more minutes
    }
    .short = { $minutes } min
about = { -program } says { soak-title } to { -program(case: \"x\") }
";

    #[test]
    fn reads_keys_variables_and_references() {
        let words = Words::read("en.ftl", SAMPLE);
        assert_eq!(words.problems, []);
        let keys: Vec<_> = words.messages.keys().map(String::as_str).collect();
        assert_eq!(
            keys,
            [
                "-program",
                "about",
                "soak-left",
                "soak-left.short",
                "soak-title"
            ]
        );
        let names = |set: &BTreeSet<String>| set.iter().cloned().collect::<Vec<_>>();
        let left = &words.messages["soak-left"];
        assert_eq!(names(&left.variables), ["minutes", "name"]);
        assert!(left.references.is_empty(), "{left:?}");
        let about = &words.messages["about"];
        assert_eq!(names(&about.references), ["-program", "soak-title"]);
        assert_eq!(about.line, 12);
    }

    #[test]
    fn what_is_no_fluent_is_caught() {
        let words = Words::read("en.ftl", "key = x\nwithout indent\nkey = again\n");
        let lines: Vec<_> = words.problems.iter().map(|problem| problem.line).collect();
        assert_eq!(lines, [2, 3]);
    }
}
