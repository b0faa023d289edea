//! Words to read: cautions, contacts, the order, the record.

use super::{button, links, pictures, rows};
use crate::screens::{BlockData, BlockKind, MainWindow, ReadingState};
use crate::vm::view::{Block, ReadingView};
use slint::{Global, Model};

pub(super) fn show(window: &MainWindow, view: &ReadingView, dark: bool) {
    let state = ReadingState::get(window);
    state.set_title(view.title.as_str().into());
    state.set_lead(super::words(&view.lead));
    state.set_has_picture(view.picture.is_some());
    if let Some(picture) = &view.picture {
        state.set_picture(pictures::small(&picture.0, dark));
    }
    let old = state.get_blocks();
    let blocks = view
        .blocks
        .iter()
        .enumerate()
        .map(|(at, block)| line(block, old.row_data(at), dark))
        .collect();
    rows::update(old, blocks, |rows| state.set_blocks(rows));
    state.set_has_main(view.main.is_some());
    state.set_main(button(view.main.as_ref()));
    rows::update(state.get_ways(), links(&view.ways), |rows| {
        state.set_ways(rows)
    });
    state.set_back(view.back);
}

fn line(block: &Block, old: Option<BlockData>, dark: bool) -> BlockData {
    let mut data = BlockData::default();
    let old_who = old.as_ref().map(|old| old.who.clone());
    let (old_bars, old_ticks, old_options) = match old {
        Some(old) => (Some(old.bars), Some(old.ticks), Some(old.options)),
        None => (None, None, None),
    };
    match block {
        Block::Heading { words } => {
            data.kind = BlockKind::Heading;
            data.words = super::words(words);
        }
        Block::Words { words } => {
            data.kind = BlockKind::Words;
            data.words = super::words(words);
        }
        Block::Note(note) => {
            data.kind = BlockKind::Note;
            data.words = super::words(&note.title);
            data.detail = super::words(&note.body);
            if let Some(picture) = &note.picture {
                data.picture = pictures::small(&picture.0, dark);
            }
        }
        Block::Item {
            mark,
            words,
            detail,
        } => {
            data.kind = BlockKind::Item;
            data.mark = mark.as_str().into();
            data.words = super::words(words);
            data.detail = super::words(detail);
        }
        Block::Row {
            left,
            middle,
            right,
        } => {
            data.kind = BlockKind::Row;
            data.words = super::words(left);
            data.mark = middle.as_str().into();
            data.detail = super::words(right);
        }
        Block::Bars { bars, ticks } => {
            data.kind = BlockKind::Bars;
            data.bars = rows::list(old_bars, bars.iter().map(super::today::bar).collect());
            data.ticks = rows::list(old_ticks, ticks.iter().map(super::today::tick).collect());
        }
        Block::Person { row, detail } => {
            data.kind = BlockKind::Person;
            data.who = super::today::person(old_who, row, dark);
            data.detail = super::words(detail);
        }
        Block::Choice { label, options } => {
            data.kind = BlockKind::Choice;
            data.words = super::words(label);
            data.options = rows::list(old_options, links(options));
        }
        Block::Action { id, label, detail } => {
            data.kind = BlockKind::Action;
            data.id = id.as_str().into();
            data.words = super::words(label);
            data.detail = super::words(detail);
        }
    }
    data
}
