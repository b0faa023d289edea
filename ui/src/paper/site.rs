//! What a dispensing site prints: the receipt of a hand-out with its code, and a label for each bottle.

use std::collections::BTreeMap;

use hearthdose_core::exchange::{Slip, SlipLine, SlipUnit};
use hearthdose_core::order::CheckedOrder;
use jiff::civil::Date;
use jiff::tz::TimeZone;

use super::document::Place;
use super::flow::{BODY, Flow, Frame, NAME, SMALL, STRONG, Style, TITLE};
use super::home::{head_of, numbers_line, strips};
use super::{CannotPrint, Paper};
use crate::text::Words;

const CODE: f32 = 220.0;

/// A receipt as it was signed.
pub struct SlipSheet<'a> {
    pub order: &'a CheckedOrder,
    pub slip: &'a Slip,
    /// The text of its code.
    pub code: &'a str,
    /// Of the key that signed it.
    pub mark: &'a str,
    pub zone: &'a TimeZone,
    /// First names by short id, where the home has told them.
    pub names: &'a BTreeMap<u16, String>,
}

/// What stands on one bottle.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BottleLabel {
    /// Nothing: for the whole home.
    pub person: Option<String>,
    /// The dose in words, where it is for one person.
    pub dose: Option<String>,
    /// Words of the package.
    pub product: String,
    pub count: u32,
    pub unit: SlipUnit,
    pub lot: Option<String>,
    pub expiry: Option<Date>,
    /// Words of a notice that lets it be used longer.
    pub extension: Option<String>,
    /// Code of the site and the day.
    pub site: String,
    pub on: Date,
}

impl BottleLabel {
    /// One label for each line of a receipt; `doses` are words by short id.
    pub fn of(sheet: &SlipSheet<'_>, doses: &BTreeMap<u16, String>) -> Vec<BottleLabel> {
        let on = sheet.zone.to_datetime(sheet.slip.at).date();
        let lines = sheet.slip.lines.iter();
        lines
            .map(|line| BottleLabel {
                person: line.person.map(|id| {
                    let name = sheet.names.get(&id);
                    name.cloned().unwrap_or_else(|| format!("{id:04x}"))
                }),
                dose: line.person.and_then(|id| doses.get(&id).cloned()),
                product: line.product.clone(),
                count: line.count,
                unit: line.unit,
                lot: line.lot.clone(),
                expiry: line.expiry,
                extension: line.extension.clone(),
                site: sheet.slip.site.clone(),
                on,
            })
            .collect()
    }
}

fn amount(words: &Words, unit: SlipUnit, count: u32, product: &str) -> String {
    let values = [("count", count.into()), ("product", product.into())];
    match unit {
        SlipUnit::Tablets => words.say_with("slip-tablets", &values),
        SlipUnit::Bottles => words.say_with("slip-bottles", &values),
    }
}

/// Lot, last day, and why it may be used longer.
fn about(
    words: &Words,
    lot: Option<&str>,
    expiry: Option<Date>,
    extension: Option<&str>,
) -> Vec<String> {
    let mut lines = Vec::new();
    if let Some(lot) = lot {
        lines.push(words.say_with("slip-lot", &[("lot", lot.into())]));
    }
    match (expiry, extension) {
        (_, Some(extension)) => lines.push(extension.to_owned()),
        (Some(date), None) => {
            let date = words.long_date(date);
            lines.push(words.say_with("slip-expiry", &[("date", date.into())]));
        }
        (None, None) => {}
    }
    lines
}

/// The receipt: what, from which lots, where, and the code with which the home's device takes it in.
///
/// # Errors
/// As [`super::household`].
pub fn slip(sheet: &SlipSheet<'_>, words: &Words, paper: Paper) -> Result<Vec<u8>, CannotPrint> {
    let at = sheet.zone.to_datetime(sheet.slip.at);
    let frame = site_frame(sheet.order, &sheet.slip.site, at.date(), words);
    let mut flow = Flow::new(paper, frame)?;
    let title = words.title(sheet.order);
    let head = words.say("paper-receipt");
    flow.paragraph(TITLE, &head);
    flow.paragraph(NAME, title);
    let site = sheet.slip.site.as_str();
    flow.paragraph(BODY, &words.say_with("slip-from", &[("site", site.into())]));
    let mark = [("mark", sheet.mark.into())];
    flow.paragraph(BODY, &words.say_with("desk-mark", &mark));
    let values = [
        ("time", words.time(at.time()).into()),
        ("date", words.long_date(at.date()).into()),
    ];
    flow.paragraph(BODY, &words.say_with("paper-time-date", &values));
    flow.section(&words.say("paper-receipt-what"), 80.0);
    for line in &sheet.slip.lines {
        receipt_line(&mut flow, sheet, line, words);
    }
    let enough = sheet.slip.lines.iter().filter_map(|line| line.enough_until);
    if let Some(until) = enough.min() {
        let date = words.long_date(until);
        flow.paragraph(
            STRONG,
            &words.say_with("slip-enough", &[("date", date.into())]),
        );
    }
    flow.section(&words.say("paper-receipt-code"), CODE + 8.0);
    let (x, top) = (flow.left(), flow.y);
    let says = words.say("paper-receipt-code");
    flow.document
        .figure(says, |document| document.code(sheet.code, x, top, CODE))
        .ok_or(CannotPrint::CodeTooLong)?;
    let wide = flow.width() - CODE - 16.0;
    flow.put(
        BODY,
        x + CODE + 16.0,
        top + 16.0,
        wide,
        &words.say("paper-receipt-code-body"),
    );
    flow.y = top + CODE;
    end(flow, &head, words)
}

fn receipt_line(flow: &mut Flow, sheet: &SlipSheet<'_>, line: &SlipLine, words: &Words) {
    flow.room(90.0);
    let whom = match line.person {
        None => words.say("paper-for-home"),
        Some(id) => {
            let name = sheet.names.get(&id);
            let name = name.cloned().unwrap_or_else(|| format!("{id:04x}"));
            words.say_with("label-for", &[("name", name.into())])
        }
    };
    flow.paragraph(NAME, &whom);
    flow.paragraph(STRONG, &amount(words, line.unit, line.count, &line.product));
    let (lot, extension) = (line.lot.as_deref(), line.extension.as_deref());
    for text in about(words, lot, line.expiry, extension) {
        flow.paragraph(BODY, &text);
    }
    flow.gap(6.0);
    flow.rule(0.75, 0.6);
    flow.gap(4.0);
}

/// Labels for bottles, two beside each other, to be cut out.
///
/// # Errors
/// As [`super::household`].
pub fn bottle_labels(
    order: &CheckedOrder,
    labels: &[BottleLabel],
    words: &Words,
    paper: Paper,
) -> Result<Vec<u8>, CannotPrint> {
    let first = labels.first();
    let (site, on) = first.map_or((String::new(), Date::MIN), |label| {
        (label.site.clone(), label.on)
    });
    let mut flow = Flow::new(paper, site_frame(order, &site, on, words))?;
    let gap = 14.0;
    let width = (flow.width() - gap) / 2.0;
    for pair in labels.chunks(2) {
        let texts: Vec<Vec<(Style, String)>> = pair
            .iter()
            .map(|label| bottle(order, label, words))
            .collect();
        let tall = texts
            .iter()
            .map(|lines| {
                let lines = lines.iter();
                lines
                    .map(|(style, text)| flow.height(*style, width - 24.0, text))
                    .sum()
            })
            .fold(0.0, f32::max)
            + 22.0;
        flow.room(tall + gap);
        let (mut x, top) = (flow.left(), flow.y);
        for lines in texts {
            let place = Place {
                x,
                y: top,
                width,
                height: tall,
            };
            flow.document.cut_lines(place);
            let mut y = top + 10.0;
            for (style, text) in lines {
                y = flow.put(style, x + 12.0, y, width - 24.0, &text);
            }
            x += width + gap;
        }
        flow.y = top + tall + gap;
    }
    end(flow, &words.say("paper-bottle-labels"), words)
}

fn bottle(order: &CheckedOrder, label: &BottleLabel, words: &Words) -> Vec<(Style, String)> {
    let mut lines = Vec::new();
    // A label is cut off from its page, so it says itself that it is for practice.
    lines.extend(strips(order, words).into_iter().map(|strip| (SMALL, strip)));
    lines.push(match &label.person {
        Some(name) => (
            NAME,
            words.say_with("label-for", &[("name", name.as_str().into())]),
        ),
        None => (NAME, words.say("paper-for-home")),
    });
    lines.extend(label.dose.iter().map(|dose| (STRONG, dose.clone())));
    lines.push((BODY, amount(words, label.unit, label.count, &label.product)));
    let (lot, extension) = (label.lot.as_deref(), label.extension.as_deref());
    let rest = about(words, lot, label.expiry, extension);
    lines.extend(rest.into_iter().map(|text| (BODY, text)));
    let values = [
        ("site", label.site.as_str().into()),
        ("date", words.long_date(label.on).into()),
    ];
    lines.push((SMALL, words.say_with("paper-site", &values)));
    lines.push((SMALL, numbers_line(order, words)));
    lines
}

pub(super) fn site_frame(order: &CheckedOrder, site: &str, on: Date, words: &Words) -> Frame {
    let values = [("site", site.into()), ("date", words.long_date(on).into())];
    Frame {
        strips: head_of(order, words),
        foot: [
            numbers_line(order, words),
            words.say_with("paper-site", &values),
        ],
    }
}

pub(super) fn end(flow: Flow, title: &str, words: &Words) -> Result<Vec<u8>, CannotPrint> {
    flow.finish(title, words.language().code(), &|page, of| {
        words.say_with("paper-page", &[("page", page.into()), ("of", of.into())])
    })
}
