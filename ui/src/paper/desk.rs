//! A sheet to hang up at a desk: the site's name, and the mark that homes compare with the one on their device.

use hearthdose_core::order::CheckedOrder;
use jiff::civil::Date;

use super::flow::{BODY, Flow, TITLE};
use super::site::{end, site_frame};
use super::{CannotPrint, Paper};
use crate::text::Words;

/// What stands on it.
pub struct DeskSign<'a> {
    pub order: &'a CheckedOrder,
    pub site: &'a str,
    /// Of the key that signs this desk's receipts.
    pub mark: &'a str,
    pub on: Date,
}

/// The sheet of one desk.
///
/// # Errors
/// As [`super::household`].
pub fn desk_sign(sign: &DeskSign<'_>, words: &Words, paper: Paper) -> Result<Vec<u8>, CannotPrint> {
    let frame = site_frame(sign.order, sign.site, sign.on, words);
    let mut flow = Flow::new(paper, frame)?;
    flow.paragraph(TITLE, sign.site);
    flow.paragraph(BODY, words.title(sign.order));
    flow.section(&words.say("paper-desk-mark"), 80.0);
    flow.paragraph(TITLE, sign.mark);
    flow.gap(6.0);
    flow.paragraph(BODY, &words.say("paper-desk-body"));
    end(flow, sign.site, words)
}
