//! What changed between two revisions of an order, as values; whoever shows them finds the words.
//!
//! What decides a dose comes first: rows, recipe, times; then what is asked and said; then names.
//! Words of the order are not compared letter by letter, only whether they changed.

mod chart;
mod field;
mod medicine;
mod people;
mod recipe;
mod value;

pub use field::{Detail, Field, Wording};
pub use value::{Entry, Value};

use super::model::{Order, Row};
use crate::units::Volume;

/// One thing that changed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Change {
    /// The files are no revisions of each other.
    OtherOrder {
        old: String,
        new: String,
    },
    /// `new` is an older revision than `old` and never replaces it.
    OlderRevision {
        old: u32,
        new: u32,
    },
    /// Two different files say that they are one revision.
    SameRevision {
        revision: u32,
    },
    /// What the order says once; nothing where it says nothing.
    Field {
        field: Field,
        old: Option<Value>,
        new: Option<Value>,
    },
    /// What the order says about one entry of a list.
    Detail {
        of: Entry,
        detail: Detail,
        old: Option<Value>,
        new: Option<Value>,
    },
    /// Words of the order that differ in any language.
    Wording(Wording),
    EntryNew(Entry),
    EntryGone(Entry),
    RecipeNew,
    RecipeGone,
    /// The people of a row get another amount, also where the row is now part of another one.
    RowAmount {
        row: Row,
        old: Volume,
        new: Volume,
    },
    /// The people of a new row get another amount than the older row gave them.
    RowNewAmount {
        row: Row,
        old: Volume,
        new: Volume,
    },
    /// A row whose people another row now serves with the same amount.
    RowJoined {
        row: Row,
        into: Row,
    },
    /// A new row whose people an older row served with the same amount.
    RowParted {
        row: Row,
        from: Row,
    },
    RowNew {
        row: Row,
        amount: Volume,
    },
    RowGone {
        row: Row,
    },
}

impl Change {
    /// `changed`, `added`, `removed`; about the revisions themselves `other-order`, `older-revision`, `same-revision`.
    pub fn code(&self) -> &'static str {
        match self {
            Change::OtherOrder { .. } => "other-order",
            Change::OlderRevision { .. } => "older-revision",
            Change::SameRevision { .. } => "same-revision",
            Change::Field { old, new, .. } | Change::Detail { old, new, .. } => match (old, new) {
                (None, _) => "added",
                (_, None) => "removed",
                _ => "changed",
            },
            Change::Wording(_) | Change::RowAmount { .. } | Change::RowJoined { .. } => "changed",
            Change::EntryNew(_)
            | Change::RecipeNew
            | Change::RowNewAmount { .. }
            | Change::RowParted { .. }
            | Change::RowNew { .. } => "added",
            Change::EntryGone(_) | Change::RecipeGone | Change::RowGone { .. } => "removed",
        }
    }

    /// Where in the file: `recipe.soak`, `row 76 lb to 88 lb`, `question pregnant`.
    pub fn place(&self) -> String {
        match self {
            Change::OtherOrder { .. } => "id".to_owned(),
            Change::OlderRevision { .. } | Change::SameRevision { .. } => "revision".to_owned(),
            Change::Field { field, .. } => field.place().to_owned(),
            Change::Wording(wording) => wording.place(),
            Change::Detail { of, .. } | Change::EntryNew(of) | Change::EntryGone(of) => of.place(),
            Change::RecipeNew | Change::RecipeGone => "recipe".to_owned(),
            Change::RowAmount { row, .. }
            | Change::RowNewAmount { row, .. }
            | Change::RowJoined { row, .. }
            | Change::RowParted { row, .. }
            | Change::RowNew { row, .. }
            | Change::RowGone { row } => value::row_place(row),
        }
    }
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
    names(&mut changes, old, new);
    changes.0
}

fn revisions(changes: &mut Changes, old: &Order, new: &Order) {
    if old.id != new.id {
        changes.push(Change::OtherOrder {
            old: old.id.clone(),
            new: new.id.clone(),
        });
    } else if new.revision < old.revision {
        changes.push(Change::OlderRevision {
            old: old.revision,
            new: new.revision,
        });
    } else if new.revision == old.revision {
        changes.push(Change::SameRevision {
            revision: new.revision,
        });
    }
}

fn names(changes: &mut Changes, old: &Order, new: &Order) {
    let title = |order: &Order| Value::named(&order.title, &order.title_words);
    if old.title == new.title {
        changes.words(Wording::Title, &old.title_words, &new.title_words);
    } else {
        changes.field(Field::Title, title(old), title(new));
    }
    let mut tell = |field, say: &dyn Fn(&Order) -> Option<Value>| {
        changes.field(field, say(old), say(new));
    };
    tell(Field::Issuer, &|order| Value::text(&order.issuer));
    tell(Field::TimeZone, &|order| Value::text(&order.time_zone));
    tell(Field::Languages, &|order| Value::list(&order.languages));
    tell(Field::Source, &|order| Value::prose(&order.source));
    tell(Field::Invented, &|order| {
        Some(Value::Invented(order.invented))
    });
}

/// The list as it grows.
#[derive(Default)]
struct Changes(Vec<Change>);

impl Changes {
    fn push(&mut self, change: Change) {
        self.0.push(change);
    }

    fn field(&mut self, field: Field, old: Option<Value>, new: Option<Value>) {
        if old != new {
            self.push(Change::Field { field, old, new });
        }
    }

    fn detail(&mut self, of: &Entry, detail: Detail, old: Option<Value>, new: Option<Value>) {
        if old != new {
            let of = of.clone();
            self.push(Change::Detail {
                of,
                detail,
                old,
                new,
            });
        }
    }

    fn words<T: PartialEq>(&mut self, wording: Wording, old: &T, new: &T) {
        if old != new {
            self.push(Change::Wording(wording));
        }
    }

    /// Two lists by name: what came, what went, and for what stayed the comparison of `both`.
    fn lists<T>(
        &mut self,
        old: &[T],
        new: &[T],
        entry: impl Fn(&T) -> Entry,
        mut both: impl FnMut(&mut Changes, &T, &T, &Entry),
    ) {
        let place = |one: &T| entry(one).place();
        for after in new {
            let of = entry(after);
            match old.iter().find(|before| place(before) == of.place()) {
                Some(before) => both(self, before, after, &of),
                None => self.push(Change::EntryNew(of)),
            }
        }
        for before in old {
            let of = entry(before);
            if !new.iter().any(|after| place(after) == of.place()) {
                self.push(Change::EntryGone(of));
            }
        }
    }
}
