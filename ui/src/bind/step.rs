//! One step of a round, or one question with its answers.

use super::{button, link, links, note, pictures, rows, words};
use crate::screens::{
    AmountData, ChoiceData, FieldData, MainWindow, NextData, PadData, PartData, StepState,
    StitchKind, ThingData,
};
use crate::vm::view::{Amount, Choice, Entry, Field, Link, Spoon, StepView, Stitch};
use slint::{Global, Model};

pub(super) fn show(window: &MainWindow, view: &StepView, shelf: &[Link], dark: bool) {
    let state = StepState::get(window);
    state.set_place(view.place.as_str().into());
    rows::update(
        state.get_hem(),
        view.hem.iter().map(stitch).collect(),
        |rows| state.set_hem(rows),
    );
    let sewn = view
        .hem
        .iter()
        .take_while(|stitch| **stitch == Stitch::Done)
        .count();
    state.set_hem_at(i32::try_from(sewn + 1).unwrap_or_default());
    state.set_has_picture(view.picture.is_some());
    if let Some(seen) = &view.seen {
        state.set_picture(pictures::seen(seen));
    } else if let Some(picture) = &view.picture {
        state.set_picture(pictures::stage(&picture.0, dark));
    }
    state.set_has_small(view.small_picture.is_some());
    if let Some(picture) = &view.small_picture {
        state.set_small(pictures::small(&picture.0, dark));
    }
    state.set_eyebrow(words(&view.eyebrow));
    state.set_title(words(&view.title));
    state.set_large(view.large.as_str().into());
    let body = view.body.iter().map(|line| words(line)).collect();
    rows::update(state.get_body(), body, |rows| state.set_body(rows));
    state.set_has_amount(view.amount.is_some());
    state.set_amount(amount(&state.get_amount(), view.amount.as_ref(), dark));
    state.set_after(words(&view.after));
    state.set_has_note(view.note.is_some());
    state.set_note(note(view.note.as_ref(), dark));
    rows::update(state.get_choices(), choices(&view.choices, dark), |rows| {
        state.set_choices(rows)
    });
    let things = view
        .things
        .iter()
        .map(|thing| ThingData {
            words: words(&thing.words),
            detail: words(&thing.detail),
        })
        .collect();
    rows::update(state.get_things(), things, |rows| state.set_things(rows));
    entry(&state, view.entry.as_ref(), dark);
    state.set_has_next(view.next.is_some());
    state.set_next(
        view.next
            .as_ref()
            .map_or_else(Default::default, |next| NextData {
                eyebrow: next.eyebrow.as_str().into(),
                title: next.title.as_str().into(),
                picture: pictures::small(&next.picture.0, dark),
            }),
    );
    state.set_has_main(view.main.is_some());
    state.set_main(button(view.main.as_ref()));
    rows::update(state.get_ways(), links(&view.ways), |rows| {
        state.set_ways(rows)
    });
    let own = view.ways.iter().filter(|way| {
        !shelf
            .iter()
            .any(|place| place.id == way.id && place.label == way.label)
    });
    rows::update(state.get_own_ways(), own.map(link).collect(), |rows| {
        state.set_own_ways(rows)
    });
    rows::update(state.get_asides(), links(&view.asides), |rows| {
        state.set_asides(rows)
    });
    state.set_back(view.back && !view.in_the_way);
}

fn entry(state: &StepState, entry: Option<&Entry>, dark: bool) {
    let none = Entry::default();
    let entry = entry.unwrap_or(&none);
    rows::update(state.get_units(), links(&entry.units), |rows| {
        state.set_units(rows)
    });
    let fields = entry.fields.iter().map(field).collect();
    rows::update(state.get_fields(), fields, |rows| state.set_fields(rows));
    state.set_has_result(entry.result.is_some());
    state.set_result(note(entry.result.as_ref(), dark));
    state.set_has_pad(entry.pad.is_some());
    state.set_pad(
        entry
            .pad
            .as_ref()
            .map_or_else(Default::default, |pad| PadData {
                point: pad.point.as_deref().unwrap_or_default().into(),
                delete: pad.delete.as_str().into(),
            }),
    );
}

fn field(field: &Field) -> FieldData {
    FieldData {
        id: field.id.as_str().into(),
        label: field.label.as_str().into(),
        value: field.value.as_str().into(),
        unit: field.unit.as_str().into(),
        spoken: field.spoken.as_str().into(),
        active: field.active,
        text: field.text,
        problem: words(&field.problem),
    }
}

pub(super) fn choices(all: &[Choice], dark: bool) -> Vec<ChoiceData> {
    all.iter()
        .map(|choice| ChoiceData {
            id: choice.id.as_str().into(),
            title: choice.title.as_str().into(),
            detail: words(&choice.detail),
            // On ochre the lines of the drawing are ink, by night too.
            picture: pictures::small(&choice.picture.0, dark && !choice.main),
            main: choice.main,
            chosen: choice.chosen,
        })
        .collect()
}

fn stitch(stitch: &Stitch) -> StitchKind {
    match stitch {
        Stitch::Done => StitchKind::Done,
        Stitch::Now => StitchKind::Now,
        Stitch::ToCome => StitchKind::ToCome,
    }
}

/// The amount with its spoons put beside the words that name them; without such words they stand alone.
fn amount(old: &AmountData, wanted: Option<&Amount>, dark: bool) -> AmountData {
    let Some(wanted) = wanted else {
        return AmountData::default();
    };
    let part = |at: usize, kind: Option<Spoon>, words: &str| {
        let spoons = wanted
            .spoons
            .iter()
            .filter(|spoon| kind.is_none_or(|kind| **spoon == kind))
            .map(|spoon| pictures::spoon(*spoon, dark))
            .collect();
        PartData {
            spoons: rows::list(old.parts.row_data(at).map(|part| part.spoons), spoons),
            words: words.into(),
        }
    };
    let mut parts: Vec<PartData> = wanted
        .parts
        .iter()
        .enumerate()
        .map(|(at, named)| part(at, Some(named.spoon), &named.words))
        .collect();
    if parts.is_empty() && !wanted.spoons.is_empty() {
        parts.push(part(0, None, ""));
    }
    AmountData {
        words: words(&wanted.words),
        spoons_in_all: i32::try_from(wanted.spoons.len()).unwrap_or(i32::MAX),
        hint: words(&wanted.hint),
        parts: rows::list(Some(old.parts.clone()), parts),
    }
}
