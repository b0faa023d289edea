//! Rows of a list, kept in place: only the rows that differ are touched, so that what has the keyboard keeps it.

use slint::{Model, ModelRc, VecModel};
use std::rc::Rc;

/// Brings the list `now` to `wanted`; `set` is called only when there is no list to change yet.
pub(super) fn update<T>(now: ModelRc<T>, wanted: Vec<T>, set: impl FnOnce(ModelRc<T>))
where
    T: Clone + PartialEq + 'static,
{
    let Some(rows) = now.as_any().downcast_ref::<VecModel<T>>() else {
        if now.row_count() > 0 || !wanted.is_empty() {
            set(ModelRc::from(Rc::new(VecModel::from(wanted))));
        }
        return;
    };
    while rows.row_count() > wanted.len() {
        rows.remove(rows.row_count() - 1);
    }
    for (at, row) in wanted.into_iter().enumerate() {
        match rows.row_data(at) {
            Some(old) if old == row => {}
            Some(_) => rows.set_row_data(at, row),
            None => rows.push(row),
        }
    }
}

/// A list inside a row. Equal lists of lists compare as equal because the same list is used again.
pub(super) fn list<T>(old: Option<ModelRc<T>>, wanted: Vec<T>) -> ModelRc<T>
where
    T: Clone + PartialEq + 'static,
{
    match old {
        Some(old) if old.iter().eq(wanted.iter().cloned()) => old,
        _ => ModelRc::from(Rc::new(VecModel::from(wanted))),
    }
}
