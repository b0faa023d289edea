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

#[cfg(test)]
mod tests {
    use super::update;
    use slint::{Model, ModelRc, VecModel};
    use std::rc::Rc;

    #[test]
    fn a_list_is_changed_in_place() {
        let rows = Rc::new(VecModel::from(vec![1, 2, 3]));
        let mut replaced = false;
        update(ModelRc::from(Rc::clone(&rows)), vec![1, 5], |_| {
            replaced = true
        });
        assert_eq!(rows.iter().collect::<Vec<_>>(), [1, 5]);
        update(ModelRc::from(Rc::clone(&rows)), vec![1, 5, 7], |_| {
            replaced = true
        });
        assert_eq!(rows.iter().collect::<Vec<_>>(), [1, 5, 7]);
        assert!(!replaced);
    }

    #[test]
    fn the_first_list_is_set() {
        let mut set = None;
        update(ModelRc::default(), vec![4], |rows| set = Some(rows));
        assert_eq!(
            set.map(|rows| rows.iter().collect::<Vec<i32>>()),
            Some(vec![4])
        );
    }
}
