//! A hand-out that stands on a paper list, because the device was down, and is typed in later with its real time.
//!
//! It happened, so nothing about it is refused for what should have been; but the lead answers for it, and it is taken in once.

use jiff::{SignedDuration, Timestamp};

use super::home::Home;
use super::serve::{Desk, Serving, serve};
use super::slips::leaving;
use crate::record::{FactId, HandOutLine, LotName, SiteEvent};

/// Two lines with the same packs that are no further apart than this are one hand-out written twice. Common practice, no source.
const SAME: SignedDuration = SignedDuration::from_mins(30);

/// One line of a paper list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Written {
    pub at: Timestamp,
    /// Packs of each lot; those with none are left out.
    pub packs: Vec<(LotName, u32)>,
    /// What the lead says to it.
    pub reason: String,
}

/// Why a line is not taken in.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotWritten {
    #[error("no packs are named")]
    NoPacks,
    #[error("the lead's reason is missing")]
    NoReason,
    #[error("the time on the list is still to come")]
    Ahead,
    #[error("nothing of {} lot {} was ever here", .0.product, .0.lot)]
    LotUnknown(LotName),
    #[error("this hand-out is in the record already, at {at}")]
    Known { at: Timestamp },
    #[error("none of the home's codes can be read")]
    NoCode,
}

impl NotWritten {
    pub fn code(&self) -> &'static str {
        match self {
            NotWritten::NoPacks => "no-packs",
            NotWritten::NoReason => "lead-needed",
            NotWritten::Ahead => "time-ahead",
            NotWritten::LotUnknown(_) => "lot-unknown",
            NotWritten::Known { .. } => "already-recorded",
            NotWritten::NoCode => "no-code",
        }
    }
}

/// The facts of a line of the list, the hand-out first.
///
/// `desk` stands at the present; `counted` tells when a lot was counted last: a count after the hand-out lacks its packs already.
///
/// # Errors
/// [`NotWritten`]; then nothing is to be recorded.
pub fn from_paper(
    desk: &Desk<'_>,
    home: &Home,
    written: &Written,
    counted: impl Fn(&LotName) -> Option<Timestamp>,
    id: FactId,
) -> Result<Vec<SiteEvent>, NotWritten> {
    let packs: Vec<_> = written.packs.iter().filter(|(_, n)| *n > 0).collect();
    if packs.is_empty() {
        return Err(NotWritten::NoPacks);
    }
    if written.at > desk.now {
        return Err(NotWritten::Ahead);
    }
    if written.reason.trim().is_empty() {
        return Err(NotWritten::NoReason);
    }
    let mut lines = Vec::new();
    for (lot, packs) in packs {
        let stock = desk.stock.lot(lot);
        let stock = stock.ok_or_else(|| NotWritten::LotUnknown(lot.clone()))?;
        lines.push(HandOutLine {
            person: None,
            lot: lot.clone(),
            packs: *packs,
            each: stock.each,
        });
    }
    lines.sort_by(|one, other| one.lot.cmp(&other.lot));
    if let Some(at) = known(home, written.at, &lines) {
        return Err(NotWritten::Known { at });
    }
    let then = Desk {
        now: written.at,
        ..*desk
    };
    let serving = serve(&then, home).ok_or(NotWritten::NoCode)?;
    let is_counted = |lot: &LotName| counted(lot).is_some_and(|at| at > written.at);
    let lots = lines.iter().map(|line| &line.lot);
    let in_count: Vec<LotName> = lots.filter(|lot| is_counted(lot)).cloned().collect();
    let (people, enough) = (people(&serving), is_enough(&serving, &lines));
    let movements: Vec<SiteEvent> = leaving(&lines, id)
        .filter(|event| event.lot().is_some_and(|lot| !in_count.contains(lot)))
        .collect();
    let mut events = vec![SiteEvent::HandedOut {
        home: home.id,
        issue: home.code().ok_or(NotWritten::NoCode)?.issue,
        lines,
        people,
        enough_until: serving.enough_until.filter(|_| enough),
        lead: Some(written.reason.trim().to_owned()),
        in_count,
    }];
    events.extend(movements);
    Ok(events)
}

/// When the same packs were handed out at about the same time.
fn known(home: &Home, at: Timestamp, lines: &[HandOutLine]) -> Option<Timestamp> {
    let packs = |lines: &[HandOutLine]| {
        let mut packs = std::collections::BTreeMap::new();
        for line in lines {
            let sum = packs.entry(line.lot.clone()).or_insert(0_u64);
            *sum = sum.saturating_add(u64::from(line.packs));
        }
        packs
    };
    let mut out = home.handed_out.iter();
    let same = out
        .find(|out| out.at.duration_since(at).abs() <= SAME && packs(&out.lines) == packs(lines));
    same.map(|out| out.at)
}

/// Whom the packs can have been for: those with a dose at that time, or else everybody of the code.
fn people(serving: &Serving) -> Vec<u16> {
    let dosed = serving.people.iter().filter(|shown| shown.dose.is_ok());
    let mut people: Vec<u16> = dosed.map(|shown| shown.id).collect();
    if people.is_empty() {
        people = serving.people.iter().map(|shown| shown.id).collect();
    }
    people.sort_unstable();
    people
}

/// Whether it was at least what the home should have carried away then.
fn is_enough(serving: &Serving, lines: &[HandOutLine]) -> bool {
    let product = serving.bags.first().map(|bag| bag.product.as_str());
    let wanted = serving.bags.iter().fold(0_u64, |sum, bag| {
        sum.saturating_add(u64::from(bag.packs) * u64::from(bag.each))
    });
    let mine = lines
        .iter()
        .filter(|line| Some(line.lot.product.as_str()) == product);
    let given = mine.fold(0_u64, |sum, line| {
        sum.saturating_add(u64::from(line.packs) * u64::from(line.each))
    });
    product.is_some() && given >= wanted
}
