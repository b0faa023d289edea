//! `order check` and `order compare`.

use std::path::{Path, PathBuf};

use hearthdose_core::order::{self, Order as Read, Problem};
use hearthdose_ui::text::{Language, Reader, Words};
use serde::Serialize;

use crate::answer::{Answer, Exit, Stop};
use crate::arguments::Order;
use crate::input;

pub fn run(asked: &Order) -> Result<Answer, Stop> {
    match asked {
        Order::Check { files } => check(files),
        Order::Compare { old, new } => compare(old, new),
    }
}

#[derive(Serialize)]
struct Document<'a> {
    errors: Vec<Found<'a>>,
    warnings: Vec<Found<'a>>,
}

#[derive(Serialize)]
struct Found<'a> {
    #[serde(flatten)]
    problem: &'a Problem,
    /// Which file, where several are checked beside each other.
    #[serde(skip_serializing_if = "Option::is_none")]
    file: Option<String>,
}

/// Files that are no TOML at all end the check as unreadable, with their problem among the errors.
fn check(files: &[PathBuf]) -> Result<Answer, Stop> {
    let mut contents = Vec::new();
    for file in files {
        contents.push(input::bytes(file)?);
    }
    let orders: Vec<Option<Read>> = contents
        .iter()
        .map(|bytes| order::parse(bytes).ok())
        .collect();
    let mut found: Vec<(&Path, Vec<Problem>)> = Vec::new();
    for (index, (file, bytes)) in files.iter().zip(&contents).enumerate() {
        let others = orders
            .iter()
            .enumerate()
            .filter(|(other, _)| *other != index);
        let others: Vec<Read> = others.filter_map(|(_, order)| order.clone()).collect();
        found.push((file, order::check_bytes(bytes, &others)));
    }
    let several = files.len() > 1;
    let pick = |errors: bool| {
        let all = found
            .iter()
            .flat_map(|(file, problems)| problems.iter().map(move |problem| (file, problem)));
        let picked = all.filter(|(_, problem)| problem.is_error() == errors);
        picked
            .map(|(file, problem)| Found {
                problem,
                file: several.then(|| file.display().to_string()),
            })
            .collect::<Vec<_>>()
    };
    let document = Document {
        errors: pick(true),
        warnings: pick(false),
    };
    let unreadable = found
        .iter()
        .filter_map(|(file, problems)| input::unreadable(file, problems));
    let notes: Vec<String> = unreadable
        .filter_map(|stop| {
            if let Stop::Unusable(words) = stop {
                Some(words)
            } else {
                None
            }
        })
        .flatten()
        .collect();
    let exit = match (notes.is_empty(), document.errors.is_empty()) {
        (false, _) => Exit::Unusable,
        (true, false) => Exit::ProblemsFound,
        (true, true) => Exit::Done,
    };
    let mut answer = Answer::new(exit, &document, readable(&found, &orders))?;
    answer.notes = notes;
    Ok(answer)
}

fn readable(found: &[(&Path, Vec<Problem>)], orders: &[Option<Read>]) -> String {
    let mut lines = Vec::new();
    for ((file, problems), order) in found.iter().zip(orders) {
        let errors = problems.iter().filter(|problem| problem.is_error()).count();
        let warnings = problems.len() - errors;
        let verdict = if errors > 0 {
            "cannot be signed or used"
        } else {
            "can be used"
        };
        lines.push(format!(
            "{}: {errors} errors, {warnings} warnings; the order {verdict}",
            file.display()
        ));
        if let Some(order) = order {
            lines.push(format!(
                "  {} revision {}, fingerprint {}",
                order.id,
                order.revision,
                order.fingerprint.short()
            ));
        }
        let (first, then): (Vec<&Problem>, Vec<&Problem>) =
            problems.iter().partition(|problem| problem.is_error());
        lines.extend(first.iter().map(|problem| format!("  error    {problem}")));
        lines.extend(then.iter().map(|problem| format!("  warning  {problem}")));
    }
    lines.join("\n") + "\n"
}

#[derive(Serialize)]
struct Compared {
    changes: Vec<Told>,
}

/// A change as a line of the document.
#[derive(Serialize)]
struct Told {
    code: &'static str,
    /// Where in the file.
    #[serde(rename = "where")]
    place: String,
    text: String,
}

/// Orders with errors can be compared too, as long as they can be read completely.
fn compare(old: &Path, new: &Path) -> Result<Answer, Stop> {
    let (old, new) = (input::readable_order(old)?, input::readable_order(new)?);
    let words = Words::load(Language::English);
    let changes = order::compare(&old, &new);
    let document = Compared {
        changes: changes
            .iter()
            .map(|change| Told {
                code: change.code(),
                place: change.place(),
                text: words.change(change, Reader::Desk),
            })
            .collect(),
    };
    let head = format!(
        "{} revision {} → {} revision {}",
        old.id, old.revision, new.id, new.revision
    );
    let changes = document
        .changes
        .iter()
        .map(|change| format!("  {}", change.text));
    let nothing = document
        .changes
        .is_empty()
        .then(|| "  nothing changed".to_owned());
    let lines: Vec<String> = std::iter::once(head)
        .chain(changes)
        .chain(nothing)
        .collect();
    let text = lines.join("\n") + "\n";
    Answer::new(Exit::Done, &document, text)
}
