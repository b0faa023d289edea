//! The first screen.

use super::{links, note, pictures, rows, step};
use crate::screens::{MainWindow, StartState};
use crate::vm::view::StartView;
use slint::Global;

pub(super) fn show(window: &MainWindow, view: &StartView, dark: bool) {
    let state = StartState::get(window);
    state.set_name(view.name.as_str().into());
    state.set_motto(view.motto.as_str().into());
    state.set_question(view.question.as_str().into());
    state.set_footer(view.footer.as_str().into());
    state.set_picture(pictures::stage("gather", dark));
    state.set_has_note(view.note.is_some());
    state.set_note(note(view.note.as_ref(), dark));
    rows::update(
        state.get_choices(),
        step::choices(&view.choices, dark),
        |rows| state.set_choices(rows),
    );
    rows::update(state.get_ways(), links(&view.ways), |rows| {
        state.set_ways(rows)
    });
}
