//! The receipt of a home that a site forgot: when, how much went, and the code that proves it. It names nobody.

use hearthdose_core::exchange::Erasure;
use hearthdose_core::order::CheckedOrder;
use jiff::tz::TimeZone;

use super::flow::{BODY, Flow, STRONG, TITLE};
use super::site::{end, site_frame};
use super::{CannotPrint, Paper};
use crate::text::Words;

const CODE: f32 = 220.0;

/// A receipt as it was signed.
pub struct ErasureSheet<'a> {
    pub order: &'a CheckedOrder,
    /// How the site is named.
    pub site: &'a str,
    pub erasure: &'a Erasure,
    /// The text of its code.
    pub code: &'a str,
    pub zone: &'a TimeZone,
}

/// # Errors
/// As [`super::household`].
pub fn erasure(
    sheet: &ErasureSheet<'_>,
    words: &Words,
    paper: Paper,
) -> Result<Vec<u8>, CannotPrint> {
    let at = sheet.zone.to_datetime(sheet.erasure.at);
    let frame = site_frame(sheet.order, sheet.site, at.date(), words);
    let mut flow = Flow::new(paper, frame)?;
    let head = words.say("forgotten-title");
    flow.paragraph(TITLE, &head);
    let values = [
        ("time", words.time(at.time()).into()),
        ("date", words.long_date(at.date()).into()),
    ];
    flow.paragraph(BODY, &words.say_with("paper-time-date", &values));
    let number = sheet.erasure.household.to_string();
    let values = [("number", number.into())];
    flow.paragraph(BODY, &words.say_with("home-number", &values));
    let values = [("count", sheet.erasure.facts.into())];
    flow.paragraph(STRONG, &words.say_with("forgotten-count", &values));
    if let Some(reason) = &sheet.erasure.reason {
        let values = [("why", reason.as_str().into())];
        flow.paragraph(BODY, &words.say_with("forgotten-reason", &values));
    }
    flow.section(&words.say("paper-receipt-code"), CODE + 8.0);
    let (x, top) = (flow.left(), flow.y);
    flow.document
        .code(sheet.code, x, top, CODE)
        .ok_or(CannotPrint::CodeTooLong)?;
    flow.y = top + CODE;
    end(flow, &head, words)
}
