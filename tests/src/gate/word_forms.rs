//! Forms of a message: each can be chosen, and each shows what the others show.

use std::collections::BTreeSet;

use super::Problem;
use super::fluent::{Choice, Message, Words};
use super::words::list;

/// Names of plural forms; other names are never chosen by a number.
const PLURALS: [&str; 6] = ["zero", "one", "two", "few", "many", "other"];

pub fn check(path: &str, words: &Words, first: &Words) -> Vec<Problem> {
    let mut problems = Vec::new();
    for (key, message) in &words.messages {
        let english = first.messages.get(key);
        let found = message
            .choices
            .iter()
            .flat_map(forms)
            .chain(english.and_then(|english| special(message, english)));
        problems.extend(found.map(|why| Problem::new(path, message.line, format!("{key}: {why}"))));
    }
    problems
}

/// What is wrong with one choice.
fn forms(choice: &Choice) -> Vec<String> {
    let mut found = Vec::new();
    let defaults = choice.forms.iter().filter(|form| form.default).count();
    if defaults != 1 {
        found.push(format!("{defaults} forms are marked as the usual one"));
    }
    let mut seen = BTreeSet::new();
    let all: BTreeSet<String> = choice
        .forms
        .iter()
        .flat_map(|form| form.variables.clone())
        .collect();
    for form in &choice.forms {
        let name = form.name.as_str();
        if !PLURALS.contains(&name) && name.parse::<u32>().is_err() {
            found.push(format!("the form [{name}] is never chosen"));
        }
        if !seen.insert(name) {
            found.push(format!("the form [{name}] is there twice"));
        }
        // The number that chose may be left out: "no new bowl".
        let missing = all
            .difference(&form.variables)
            .filter(|name| **name != choice.by);
        let missing: BTreeSet<String> = missing.cloned().collect();
        if !missing.is_empty() {
            found.push(format!(
                "the form [{name}] does not show {}",
                list(&missing)
            ));
        }
    }
    found
}

/// A number that English has a form of its own for, such as none, has one in every language.
fn special(message: &Message, english: &Message) -> Option<String> {
    let numbers = |message: &Message| -> BTreeSet<String> {
        let forms = message.choices.iter().flat_map(|choice| {
            let by = choice.by.clone();
            choice
                .forms
                .iter()
                .map(move |form| (by.clone(), &form.name))
        });
        let exact = forms.filter(|(_, name)| name.parse::<u32>().is_ok());
        exact
            .map(|(by, name)| format!("[{name}] of ${by}"))
            .collect()
    };
    let missing: Vec<String> = numbers(english)
        .difference(&numbers(message))
        .cloned()
        .collect();
    (!missing.is_empty()).then(|| format!("the form {} is missing", missing.join(", ")))
}

#[cfg(test)]
mod tests {
    use super::*;

    const EN: &str = "\
bowls = { $count ->
    [0] no bowl for { $name }
    [one] { $count } bowl for { $name }
   *[other] { $count } bowls for { $name }
}
";

    fn problems(text: &str) -> Vec<String> {
        let first = Words::read("en.ftl", EN);
        let words = Words::read("es.ftl", text);
        check("es.ftl", &words, &first)
            .into_iter()
            .map(|problem| problem.text)
            .collect()
    }

    #[test]
    fn whole_forms_pass() {
        assert_eq!(problems(EN), Vec::<String>::new());
        let more = EN.replace(
            "    [one]",
            "    [many] { $count } bowls for { $name }\n    [one]",
        );
        assert_eq!(problems(&more), Vec::<String>::new());
    }

    #[test]
    fn each_fault_is_caught() {
        for (from, to, why) in [
            ("[one]", "[on]", "[on] is never chosen"),
            ("*[other]", " [other]", "0 forms"),
            (
                "bowl for { $name }\n   *",
                "bowl\n   *",
                "[one] does not show $name",
            ),
            ("[0]", "[one]", "[one] is there twice"),
            (
                "    [0] no bowl for { $name }\n",
                "",
                "[0] of $count is missing",
            ),
        ] {
            let found = problems(&EN.replacen(from, to, 1));
            assert!(
                found.iter().any(|text| text.contains(why)),
                "{why}: {found:?}"
            );
        }
    }
}
