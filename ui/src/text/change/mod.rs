//! What a newer revision of an order changes, one plain sentence for each change.
//!
//! Every kind of change, field and value is looked at without a way out, so that a new one does not compile until it has words.

mod labels;
mod values;

use hearthdose_core::order::compare::{Change, Entry, Value, Wording};
use hearthdose_core::order::{ContactKind, Row};
use hearthdose_core::units::Volume;

use super::{Measure, Words};

/// Who reads about a change.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reader {
    /// Whoever writes and checks orders: entries go by their keys in the file, and all of a text is quoted.
    Desk,
    /// Whoever gives the medicine: the order's own words in the language of the screen, and no text that it has in one language only.
    Kitchen,
}

impl Words {
    /// "soak 10 minutes, was 5 minutes": begins small and has no point at its end.
    pub fn change(&self, change: &Change, reader: Reader) -> String {
        Telling {
            words: self,
            reader,
        }
        .change(change)
    }
}

/// The words, and for whom.
#[derive(Clone, Copy)]
struct Telling<'a> {
    words: &'a Words,
    reader: Reader,
}

impl Telling<'_> {
    fn change(self, change: &Change) -> String {
        let words = self.words;
        match change {
            Change::OtherOrder { old, new } => {
                let values = [("old", old.as_str().into()), ("new", new.as_str().into())];
                words.say_with("change-other-order", &values)
            }
            Change::OlderRevision { old, new } => {
                let values = [
                    ("old", old.to_string().into()),
                    ("new", new.to_string().into()),
                ];
                words.say_with("change-older-revision", &values)
            }
            Change::SameRevision { revision } => words.say_with(
                "change-same-revision",
                &[("revision", revision.to_string().into())],
            ),
            Change::Field { field, old, new } => {
                self.sides(words.say(labels::field(*field)), old, new)
            }
            Change::Detail {
                of,
                detail,
                old,
                new,
            } => {
                let values = [
                    ("entry", self.entry(of).into()),
                    ("label", words.say(labels::detail(*detail)).into()),
                ];
                self.sides(words.say_with("change-detail", &values), old, new)
            }
            Change::Wording(wording) => self.wording(wording),
            Change::EntryNew(entry) => {
                words.say_with("change-entry-new", &[("entry", self.entry(entry).into())])
            }
            Change::EntryGone(entry) => {
                words.say_with("change-entry-gone", &[("entry", self.entry(entry).into())])
            }
            Change::RecipeNew => words.say("change-recipe-new"),
            Change::RecipeGone => words.say("change-recipe-gone"),
            Change::RowAmount { row, old, new } | Change::RowNewAmount { row, old, new } => {
                let values = [
                    ("row", self.row(row).into()),
                    ("old", self.volume(*old).into()),
                    ("new", self.volume(*new).into()),
                ];
                words.say_with("change-row-amount", &values)
            }
            Change::RowJoined { row, into } => {
                let values = [
                    ("row", self.row(row).into()),
                    ("other", self.row(into).into()),
                ];
                words.say_with("change-row-joined", &values)
            }
            Change::RowParted { row, from } => {
                let values = [
                    ("row", self.row(row).into()),
                    ("other", self.row(from).into()),
                ];
                words.say_with("change-row-parted", &values)
            }
            Change::RowNew { row, amount } => {
                let values = [
                    ("row", self.row(row).into()),
                    ("amount", self.volume(*amount).into()),
                ];
                words.say_with("change-row-new", &values)
            }
            Change::RowGone { row } => {
                words.say_with("change-row-gone", &[("row", self.row(row).into())])
            }
        }
    }

    /// "soak 10 minutes, was 5 minutes", and what is said where one side says nothing.
    fn sides(self, what: String, old: &Option<Value>, new: &Option<Value>) -> String {
        let words = self.words;
        let prose = |side: &Option<Value>| matches!(side, Some(Value::Prose(_)));
        if self.reader == Reader::Kitchen && (prose(old) || prose(new)) {
            return words.say_with("change-prose", &[("what", what.into())]);
        }
        let said = |side: &Option<Value>| side.as_ref().map(|value| self.value(value));
        match (said(old), said(new)) {
            (old, None) => {
                let values = [
                    ("what", what.into()),
                    ("old", old.unwrap_or_default().into()),
                ];
                words.say_with("change-field-gone", &values)
            }
            (None, Some(new)) => words.say_with(
                "change-field-new",
                &[("what", what.into()), ("new", new.into())],
            ),
            (Some(old), Some(new)) => {
                let values = [
                    ("what", what.into()),
                    ("old", old.into()),
                    ("new", new.into()),
                ];
                words.say_with("change-field", &values)
            }
        }
    }

    fn wording(self, wording: &Wording) -> String {
        let entry = match wording {
            Wording::Title | Wording::Medicine | Wording::Apart | Wording::SecondFluid => {
                String::new()
            }
            Wording::VehicleNames(of)
            | Wording::Question(of)
            | Wording::AfterYes(of)
            | Wording::Caution(of)
            | Wording::CautionKind(of)
            | Wording::Hours(of)
            | Wording::ContactNames(of) => self.entry(of),
        };
        let key = labels::wording(wording);
        self.words.say_with(key, &[("entry", entry.into())])
    }

    fn entry(self, entry: &Entry) -> String {
        let words = self.words;
        match entry {
            Entry::Row(row) => self.row(row),
            Entry::Product { key } => {
                words.say_with("change-product", &[("name", key.as_str().into())])
            }
            Entry::Vehicle { name, words: own } => {
                let name = self.named(name, own);
                words.say_with("change-vehicle", &[("name", name.into())])
            }
            Entry::Question { key, ask } => {
                let name = self.quoted(key, ask);
                words.say_with("change-question", &[("name", name.into())])
            }
            Entry::Caution { key, text } => {
                let name = self.quoted(key, text);
                words.say_with("change-caution", &[("name", name.into())])
            }
            Entry::Contact { kind, name } => {
                let kind = words.say(match kind {
                    ContactKind::Emergency => "change-contact-emergency",
                    ContactKind::Poison => "change-contact-poison",
                    ContactKind::Questions => "change-contact-questions",
                    ContactKind::Refill => "change-contact-refill",
                });
                let values = [("kind", kind.into()), ("name", name.as_str().into())];
                words.say_with("change-contact", &values)
            }
        }
    }

    fn row(self, row: &Row) -> String {
        let limits = self.words.row_limits(row);
        self.words
            .say_with("change-row", &[("limits", limits.into())])
    }

    fn volume(self, volume: Volume) -> String {
        self.words.volume(volume, Measure::Spoon)
    }

    /// A name that the order may have in other languages too.
    fn named(self, name: &str, own: &hearthdose_core::order::Words) -> String {
        match self.reader {
            Reader::Desk => name.to_owned(),
            // Whoever lists changes says it where the order has no names in this language.
            Reader::Kitchen => own
                .get(self.words.language().code())
                .map_or(name, String::as_str)
                .to_owned(),
        }
    }

    /// What the order says, in quotation marks, or for the desk the key of it.
    fn quoted(self, key: &str, own: &hearthdose_core::order::Words) -> String {
        let text = self.words.of_order(own);
        match self.reader {
            Reader::Kitchen if !text.is_empty() => {
                let text = text.replace("{name}", &self.words.say("this-person"));
                self.words
                    .say_with("change-quoted", &[("text", text.into())])
            }
            _ => key.to_owned(),
        }
    }
}
