//! What changed between two revisions of an order, in words.
//!
//! What decides a dose comes first: rows, recipe, times; then what is asked and said; then names.
//! Words themselves are not quoted, only that they changed.

mod chart;
mod medicine;
mod people;
mod recipe;

use serde::Serialize;

use super::model::Order;

/// One thing that changed.
///
/// Serialised as the command line prints it: `code`, `where`, `text`.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Change {
    /// `changed`, `added`, `removed`; about the revisions themselves `other-order`, `older-revision`, `same-revision`.
    pub code: &'static str,
    /// Where in the file: `recipe.soak`, `row 76 lb to 88 lb`, `question pregnant`.
    #[serde(rename = "where")]
    pub place: String,
    /// `soak 10 minutes, was 5 minutes`.
    pub text: String,
}

/// Everything that differs in `new` from `old`; nothing for the same file.
pub fn compare(old: &Order, new: &Order) -> Vec<Change> {
    if old.fingerprint == new.fingerprint {
        return Vec::new();
    }
    let mut changes = Changes::default();
    revisions(&mut changes, old, new);
    chart::compare(&mut changes, old, new);
    recipe::compare(&mut changes, old, new);
    medicine::compare(&mut changes, old, new);
    people::compare(&mut changes, old, new);
    changes.changed("title", "title", &old.title, &new.title);
    changes.changed("issuer", "issuer", &old.issuer, &new.issuer);
    changes.changed("time-zone", "time zone", &old.time_zone, &new.time_zone);
    let languages = |order: &Order| order.languages.join(", ");
    changes.changed("languages", "languages", &languages(old), &languages(new));
    changes.changed("source", "source", &old.source, &new.source);
    let banner = |order: &Order| {
        if order.invented {
            "demonstration"
        } else {
            "real"
        }
    };
    changes.changed("invented", "kind of order", banner(old), banner(new));
    changes.0
}

fn revisions(changes: &mut Changes, old: &Order, new: &Order) {
    if old.id != new.id {
        let text = format!(
            "these are two different orders, “{}” and “{}”",
            old.id, new.id
        );
        changes.push("other-order", "id", text);
    } else if new.revision < old.revision {
        let text = format!(
            "revision {} is older than revision {} and never replaces it",
            new.revision, old.revision
        );
        changes.push("older-revision", "revision", text);
    } else if new.revision == old.revision {
        let text = format!(
            "both files say revision {} but they are not the same",
            new.revision
        );
        changes.push("same-revision", "revision", text);
    }
}

/// The list as it grows.
#[derive(Default)]
struct Changes(Vec<Change>);

impl Changes {
    fn push(&mut self, code: &'static str, place: impl Into<String>, text: impl Into<String>) {
        self.0.push(Change {
            code,
            place: place.into(),
            text: text.into(),
        });
    }

    /// `soak 10 minutes, was 5 minutes`; an empty text stands for nothing said.
    fn changed(&mut self, place: &str, label: &str, old: &str, new: &str) {
        let (code, text) = match (old, new) {
            (old, new) if old == new => return,
            ("", new) => ("added", format!("{label} {new}, was not given")),
            (old, "") => ("removed", format!("{label} no longer given, was {old}")),
            (old, new) => ("changed", format!("{label} {new}, was {old}")),
        };
        self.push(code, place, text);
    }

    /// Two lists by name: what came, what went, and for what stayed the comparison of `both`.
    fn lists<T>(
        &mut self,
        what: &str,
        old: &[T],
        new: &[T],
        name: impl Fn(&T) -> String,
        mut both: impl FnMut(&mut Changes, &T, &T, &str),
    ) {
        for entry in new {
            let key = name(entry);
            let place = format!("{what} {key}");
            match old.iter().find(|before| name(before) == key) {
                Some(before) => both(self, before, entry, &place),
                None => self.push("added", place.clone(), format!("{place} is new")),
            }
        }
        for entry in old {
            let key = name(entry);
            if !new.iter().any(|after| name(after) == key) {
                let place = format!("{what} {key}");
                self.push(
                    "removed",
                    place.clone(),
                    format!("{place} is no longer there"),
                );
            }
        }
    }
}

/// What an optional value says, empty when it says nothing.
fn said<T: std::fmt::Display>(value: Option<T>) -> String {
    value.map(|value| value.to_string()).unwrap_or_default()
}
