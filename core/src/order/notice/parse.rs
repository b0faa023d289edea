//! Reading a notice, with every problem named.

use jiff::Timestamp;

use super::{Action, CourseEnd, Notice};
use crate::order::fingerprint::Fingerprint;
use crate::order::parse::section::Section;
use crate::order::parse::{self, WATER_RULES};
use crate::order::problem::Problem;
use crate::units::AgeSpan;

#[derive(Clone, Copy)]
enum Kind {
    Stop,
    Shorten,
    Renew,
    ExtendLot,
    QuarantineLot,
    RecallLot,
    Water,
    Collection,
}

const KINDS: [(&str, Kind); 8] = [
    ("stop", Kind::Stop),
    ("shorten", Kind::Shorten),
    ("renew", Kind::Renew),
    ("extend-lot", Kind::ExtendLot),
    ("quarantine-lot", Kind::QuarantineLot),
    ("recall-lot", Kind::RecallLot),
    ("water", Kind::Water),
    ("collection", Kind::Collection),
];

/// Reads one notice from the exact bytes of its file.
///
/// # Errors
/// Every problem of reading, warnings included, when at least one of them is an error.
pub fn parse_notice(bytes: &[u8]) -> Result<Notice, Vec<Problem>> {
    let table = parse::table(bytes).map_err(|problem| vec![problem])?;
    let mut top = Section::new(&table, "");
    if let Some(problem) = parse::newer_format(&mut top) {
        return Err(vec![problem]);
    }
    let notice = notice(&mut top, bytes);
    let problems = top.finish();
    match notice {
        Some(notice) if !problems.iter().any(Problem::is_error) => Ok(Notice {
            remarks: problems,
            ..notice
        }),
        _ => Err(problems),
    }
}

fn notice(top: &mut Section<'_>, bytes: &[u8]) -> Option<Notice> {
    let id = top.text("id").unwrap_or_default();
    top.require("order");
    let orders = top.texts("order");
    let issuer = top.text("issuer").unwrap_or_default();
    let issued = top.instant("issued").unwrap_or(Timestamp::UNIX_EPOCH);
    let invented = top.optional_flag("invented").unwrap_or(false);
    top.require("text");
    let text = top.words("text");
    let mut languages = top.texts("languages");
    if languages.is_empty() {
        languages = text.keys().cloned().collect();
    }
    let kind = top.choice("kind", &KINDS)?;
    let action = action(top, kind)?;
    Some(Notice {
        id,
        orders,
        issuer,
        issued,
        invented,
        languages,
        text,
        action,
        fingerprint: Fingerprint::of(bytes),
        remarks: Vec::new(),
    })
}

fn action(top: &mut Section<'_>, kind: Kind) -> Option<Action> {
    Some(match kind {
        Kind::Stop => Action::Stop {
            from: top.optional_date("from"),
        },
        Kind::Shorten => Action::Shorten {
            until: course_end(top)?,
        },
        Kind::Renew => Action::Renew {
            days: top.whole("days")?,
            from: top.optional_date("from"),
        },
        Kind::ExtendLot => {
            top.require("expires");
            let lots = lots(top);
            Action::ExtendLot {
                lots,
                expires: top.optional_date("expires")?,
            }
        }
        Kind::QuarantineLot => Action::QuarantineLot { lots: lots(top) },
        Kind::RecallLot => Action::RecallLot { lots: lots(top) },
        Kind::Water => Action::Water {
            rule: top.choice("rule", WATER_RULES)?,
        },
        Kind::Collection => Action::Collection {
            youngest_collector: top.optional_quantity("youngest-collector", AgeSpan::parse),
            most_people: top.optional_whole("most-people"),
            from: top.optional_date("from"),
            until: top.optional_date("until"),
        },
    })
}

fn lots(top: &mut Section<'_>) -> Vec<String> {
    top.require("lots");
    top.texts("lots")
}

/// Either so many days or a last day, never both.
fn course_end(top: &mut Section<'_>) -> Option<CourseEnd> {
    let days = top.optional_whole("course-days").map(CourseEnd::Days);
    let last = top.optional_date("last-day").map(CourseEnd::LastDay);
    match (top.has("course-days"), top.has("last-day")) {
        (true, true) => {
            top.error(
                "two-limits",
                "",
                "The notice gives both “course-days” and “last-day”; only one may end the course.",
            );
            None
        }
        (false, false) => {
            top.error(
                "missing-field",
                "course-days",
                "“course-days” or “last-day” is missing; one must say when the course ends.",
            );
            None
        }
        _ => days.or(last),
    }
}
