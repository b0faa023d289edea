//! The empty paper list of a site: what to write down while the device is down, one line for each home, to be typed in later.

use hearthdose_core::order::CheckedOrder;

use super::flow::{BODY, Flow, Frame, NAME, SMALL_STRONG, STRONG, TITLE};
use super::home::{head_of, numbers_line};
use super::tags::Tag;
use super::{CannotPrint, Paper};
use crate::text::Words;

/// Room to write by hand.
const ROW: f32 = 30.0;
/// Words over the columns, and the share of the width that each takes.
const COLUMNS: [(&str, f32); 7] = [
    ("paper-list-time", 0.10),
    ("paper-list-home", 0.235),
    ("paper-list-people", 0.13),
    ("paper-list-lot", 0.155),
    ("paper-list-packs", 0.13),
    ("paper-list-by", 0.13),
    ("paper-list-in", 0.12),
];

/// One page, with as many lines as it holds.
///
/// # Errors
/// As [`super::household`].
pub fn list(order: &CheckedOrder, words: &Words, paper: Paper) -> Result<Vec<u8>, CannotPrint> {
    let frame = Frame {
        strips: head_of(order, words),
        foot: [numbers_line(order, words), words.title(order).to_owned()],
    };
    let mut flow = Flow::new(paper, frame)?;
    let title = words.say("paper-list");
    flow.paragraph(TITLE, &title);
    flow.paragraph(NAME, words.title(order));
    flow.gap(4.0);
    flow.paragraph(BODY, &words.say("paper-list-how"));
    flow.paragraph(STRONG, &words.say("paper-list-ask"));
    flow.gap(14.0);
    flow.paragraph(BODY, &words.say("paper-list-site"));
    flow.gap(10.0);
    flow.within(Tag::Table, |flow| {
        flow.within(Tag::Row, |flow| heads(flow, words));
    });
    while flow.y + ROW <= flow.bottom() {
        flow.y += ROW;
        flow.rule(0.75, 0.5);
    }
    flow.finish(&title, words.language().code(), &|page, of| {
        words.say_with("paper-page", &[("page", page.into()), ("of", of.into())])
    })
}

/// The words over the columns, and the lines that part them down to the bottom.
fn heads(flow: &mut Flow, words: &Words) {
    let (top, mut x) = (flow.y, flow.left());
    let mut low = top;
    let bottom = top + lines_below(flow, words);
    for (at, (key, share)) in COLUMNS.iter().enumerate() {
        let width = flow.width() * share;
        if at > 0 {
            flow.document.line((x, top), (x, bottom), 0.75, 0.5);
        }
        let text = words.say(key);
        low = low.max(flow.within(Tag::ColumnHead, |flow| {
            flow.put(SMALL_STRONG, x + 4.0, top, width - 8.0, &text)
        }));
        x += width;
    }
    flow.y = low + 2.0;
    flow.rule(1.5, 0.0);
}

/// How far the lines reach below the top of the heads.
fn lines_below(flow: &Flow, words: &Words) -> f32 {
    let tall = COLUMNS
        .iter()
        .map(|(key, share)| flow.height(SMALL_STRONG, flow.width() * share - 8.0, &words.say(key)));
    let mut y = flow.y + tall.fold(0.0, f32::max) + 4.0;
    while y + ROW <= flow.bottom() {
        y += ROW + 2.0;
    }
    y - flow.y
}
