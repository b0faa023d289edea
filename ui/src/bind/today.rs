//! The next round and the bowls that stand covered.

use super::{button, drawn, links, note, pictures, rows, spoken, words};
use crate::screens::{BarData, BowlData, LogData, MainWindow, TickData, TodayRowData, TodayState};
use crate::vm::view::{BowlBar, BowlCard, Tick, TodayRow, TodayView};
use slint::{Global, Model};

pub(super) fn show(window: &MainWindow, view: &TodayView, dark: bool) {
    let state = TodayState::get(window);
    state.set_household(view.household.as_str().into());
    state.set_day(view.day.as_str().into());
    state.set_title(words(&view.title));
    state.set_start(words(&view.start));
    state.set_has_note(view.note.is_some());
    state.set_note(note(view.note.as_ref(), dark));
    let old = state.get_rows();
    let people = view
        .rows
        .iter()
        .enumerate()
        .map(|(at, row)| person(old.row_data(at), row, dark))
        .collect();
    rows::update(old, people, |rows| state.set_rows(rows));
    let old = state.get_bowls();
    let bowls = view
        .bowls
        .iter()
        .enumerate()
        .map(|(at, card)| bowl(old.row_data(at), card, dark))
        .collect();
    rows::update(old, bowls, |rows| state.set_bowls(rows));
    state.set_main(button(Some(&view.main)));
    rows::update(state.get_ways(), links(&view.ways), |rows| {
        state.set_ways(rows)
    });
    state.set_bars_title(view.bars_title.as_str().into());
    let ticks = view.ticks.iter().map(tick).collect();
    rows::update(state.get_ticks(), ticks, |rows| state.set_ticks(rows));
    rows::update(
        state.get_bars(),
        view.bars.iter().map(bar).collect(),
        |rows| state.set_bars(rows),
    );
    state.set_log_title(view.log_title.as_str().into());
    let log = view
        .log
        .iter()
        .map(|line| LogData {
            time: line.time.as_str().into(),
            name: line.name.as_str().into(),
            words: line.words.as_str().into(),
        })
        .collect();
    rows::update(state.get_log(), log, |rows| state.set_log(rows));
}

pub(super) fn person(old: Option<TodayRowData>, row: &TodayRow, dark: bool) -> TodayRowData {
    let spoons = row
        .spoons
        .iter()
        .map(|spoon| pictures::spoon(*spoon, dark))
        .collect();
    TodayRowData {
        id: row.id.as_str().into(),
        name: row.name.as_str().into(),
        origin: row.from.as_str().into(),
        amount: drawn(&row.amount),
        spoken: spoken([row.name.as_str(), &row.from, &row.amount]),
        held: row.held,
        spoons: rows::list(old.map(|old| old.spoons), spoons),
        picture: pictures::small(&row.picture.0, dark),
        place: pictures::place(&row.picture.0, dark),
    }
}

fn bowl(old: Option<BowlData>, card: &BowlCard, dark: bool) -> BowlData {
    let lines = card.lines.iter().map(|line| drawn(line)).collect();
    BowlData {
        title: card.title.as_str().into(),
        spoken: spoken(
            std::iter::once(&card.title)
                .chain(&card.lines)
                .map(String::as_str),
        ),
        lines: rows::list(old.map(|old| old.lines), lines),
        picture: pictures::small(&card.picture.0, dark),
    }
}

pub(super) fn tick(tick: &Tick) -> TickData {
    TickData {
        at: i32::from(tick.at),
        label: tick.label.as_str().into(),
    }
}

pub(super) fn bar(bar: &BowlBar) -> BarData {
    BarData {
        name: bar.name.as_str().into(),
        words: bar.words.as_str().into(),
        spoken: spoken([bar.name.as_str(), &bar.words]),
        start: i32::from(bar.from),
        end: i32::from(bar.to),
        planned: bar.planned,
    }
}
