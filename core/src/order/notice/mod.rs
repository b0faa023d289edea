//! Notices: what the issuer says between two revisions.
//!
//! A notice is a small file that travels and is signed like an order; this module reads and checks it and says which orders it concerns.
//! What it does to a course or a lot is decided where courses and lots are kept.
//!
//! ```toml
//! format = 1
//! kind = "shorten"       # stop | shorten | renew | extend-lot | quarantine-lot | recall-lot | water | collection
//! id = "quillmere-notice-2"
//! order = "quillmere-doxy"   # or a list
//! issuer = "Quillmere Health District"
//! issued = "2031-04-20T10:00:00-05:00"
//! languages = ["en", "es"]
//! text = { en = "…", es = "…" }
//! course-days = 30
//! ```
//!
//! Fields by kind: stop `from` (optional date, else at once); shorten `course-days` or `last-day`; renew `days`, `from` (optional); extend-lot `lots`, `expires`; quarantine-lot and recall-lot `lots`; water `rule` (`tap`, `boil`, `bottled`); collection `youngest-collector`, `most-people`, `from`, `until`, all optional.

mod check;
mod parse;

use jiff::Timestamp;
use jiff::civil::Date;

pub use check::{check_notice, check_notice_with};
pub use parse::parse_notice;

use super::fingerprint::Fingerprint;
use super::model::{Order, WaterRule, Words};
use super::problem::Problem;
use crate::units::AgeSpan;

/// A message of the issuer about one or more of its orders.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Notice {
    pub id: String,
    /// The ids of the orders it concerns, every revision of them.
    pub orders: Vec<String>,
    pub issuer: String,
    pub issued: Timestamp,
    /// Demo data: a banner on every screen, print and code.
    pub invented: bool,
    pub languages: Vec<String>,
    /// What households are told.
    pub text: Words,
    pub action: Action,
    /// SHA-256 of the exact bytes of the file.
    pub fingerprint: Fingerprint,
    /// What reading the file remarked: warnings only.
    pub remarks: Vec<Problem>,
}

/// What the notice does.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Action {
    /// No more doses from this day on; at once without a day.
    Stop { from: Option<Date> },
    /// The course ends earlier.
    Shorten { until: CourseEnd },
    /// So many more days, from a day or from now.
    Renew { days: u32, from: Option<Date> },
    /// The printed expiry of these lots no longer counts; this one does, to the end of the day.
    ExtendLot { lots: Vec<String>, expires: Date },
    /// Not to be handed out or used until a later notice.
    QuarantineLot { lots: Vec<String> },
    /// Not to be used; to be brought back.
    RecallLot { lots: Vec<String> },
    /// The water for the mixture.
    Water { rule: WaterRule },
    /// Who may fetch medicine, for how many, when.
    Collection {
        youngest_collector: Option<AgeSpan>,
        most_people: Option<u32>,
        from: Option<Date>,
        until: Option<Date>,
    },
}

/// The end of a shortened course.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CourseEnd {
    /// Counted from each household's own first day.
    Days(u32),
    /// The last day on which a dose is taken.
    LastDay(Date),
}

impl Notice {
    /// Whether the notice is about this order: named in it, and by the same issuer.
    pub fn applies_to(&self, order: &Order) -> bool {
        self.orders.contains(&order.id) && self.issuer == order.issuer
    }

    /// The name of the kind, as the file writes it.
    pub fn kind(&self) -> &'static str {
        match self.action {
            Action::Stop { .. } => "stop",
            Action::Shorten { .. } => "shorten",
            Action::Renew { .. } => "renew",
            Action::ExtendLot { .. } => "extend-lot",
            Action::QuarantineLot { .. } => "quarantine-lot",
            Action::RecallLot { .. } => "recall-lot",
            Action::Water { .. } => "water",
            Action::Collection { .. } => "collection",
        }
    }

    /// The lots it names; none for a notice about something else.
    pub fn lots(&self) -> &[String] {
        match &self.action {
            Action::ExtendLot { lots, .. }
            | Action::QuarantineLot { lots }
            | Action::RecallLot { lots } => lots,
            _ => &[],
        }
    }
}
