//! What goes to the lead before anything is put into a bag, and what the helper is told.

use jiff::civil::Date;
use jiff::{Span, Timestamp};

use super::course;
use super::handed_out::HandedOut;
use super::home::Home;
use super::serve::{Desk, Shown, day_of};
use crate::exchange::HouseholdCode;
use crate::household::HouseholdId;
use crate::order::CheckedOrder;
use crate::today::{InForce, LotStanding};

/// What goes to the lead; never an automatic no.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ForLead {
    /// Served before, and that is enough for longer.
    ServedBefore { at: Timestamp, until: Option<Date> },
    /// Other codes with the same people were served.
    SamePeople { home: HouseholdId, at: Timestamp },
    /// Two codes of one number say different things.
    CodeConflicting,
    /// The code is of another order, or of a revision this desk does not have.
    OtherOrder,
    /// The issuer stopped the order.
    OrderStopped { notice: String },
    /// Not enough on the shelves.
    Short { product: String, packs: u32 },
    /// What is left expires before the last day it is for.
    ExpiresInCourse { product: String },
    /// Nobody grown up, or nobody old enough by the issuer's notice, came to collect.
    Collector,
    /// More people than the issuer's notice lets one collect for.
    TooManyPeople { most: u32 },
    /// The issuer's notice names other days.
    NotToday,
}

impl ForLead {
    pub fn code(&self) -> &'static str {
        match self {
            ForLead::ServedBefore { .. } => "served-before",
            ForLead::SamePeople { .. } => "same-people",
            ForLead::CodeConflicting => "code-conflicting",
            ForLead::OtherOrder => "other-order",
            ForLead::OrderStopped { .. } => "order-stopped",
            ForLead::Short { .. } => "stock-short",
            ForLead::ExpiresInCourse { .. } => "expires-in-course",
            ForLead::Collector => "collector-not-adult",
            ForLead::TooManyPeople { .. } => "too-many-people",
            ForLead::NotToday => "collection-not-today",
        }
    }
}

/// What the helper should know; nothing waits for it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Remark {
    /// The code is older than a day: ask whether anything changed.
    OldCode {
        hours: i64,
    },
    /// Answers are from before the last hand-out: ask again.
    AskAgain,
    Interpreter {
        language: String,
    },
    /// The product of this lot may be used longer than its print says.
    Extended {
        lot: String,
        until: Date,
    },
    /// This lot, which the code says is at home, was recalled or set aside; nothing of it is counted as left.
    AtHome {
        lot: String,
    },
    /// No day of a course is left for this person.
    CourseOver {
        person: u16,
    },
}

/// Codes older than this are asked about.
const OLD_CODE_HOURS: i64 = 24;
/// So many days before the last one a refill is no second pick-up. Common practice, no source.
pub(super) const REFILL_OPENS: i32 = 3;

pub(super) fn before_the_bags(
    desk: &Desk<'_>,
    home: &Home,
    code: &HouseholdCode,
    day: Date,
    force: &InForce<'_>,
) -> Vec<ForLead> {
    let mut found = Vec::new();
    if !course::fits(code.order.as_ref(), desk.order) {
        found.push(ForLead::OtherOrder);
    }
    if let Some(notice) = force.stopped_on(day) {
        let notice = notice.id.clone();
        found.push(ForLead::OrderStopped { notice });
    }
    found.extend(served_before(desk.order, home, day));
    found.extend(
        desk.same_people
            .iter()
            .map(|(home, at)| ForLead::SamePeople {
                home: *home,
                at: *at,
            }),
    );
    if home.conflicting {
        found.push(ForLead::CodeConflicting);
    }
    if code.adult_collects == Some(false) {
        found.push(ForLead::Collector);
    }
    if let Some(rule) = force.collection() {
        if let Some(most) = rule.most_people
            && u32::try_from(code.people.len()).is_ok_and(|people| people > most)
        {
            found.push(ForLead::TooManyPeople { most });
        }
        let early = rule.from.is_some_and(|from| day < from);
        let late = rule.until.is_some_and(|until| day > until);
        if early || late {
            found.push(ForLead::NotToday);
        }
    }
    found
}

/// Whether more now is a second pick-up; also where nobody knows for how long a hand-out is enough.
///
/// The last days of a supply are for the refill, but never the day of the hand-out itself.
pub(super) fn is_for_longer(order: &CheckedOrder, out: &HandedOut, day: Date) -> bool {
    let refill = Span::new().days(REFILL_OPENS);
    let opens = out
        .enough_until
        .and_then(|until| until.checked_sub(refill).ok());
    opens.is_none_or(|opens| day < opens || day <= day_of(order, out.at))
}

/// The hand-out that is enough for longest, or the last one, where it was not known for how long it is.
fn served_before(order: &CheckedOrder, home: &Home, day: Date) -> Option<ForLead> {
    let known = home
        .handed_out
        .iter()
        .filter(|out| out.enough_until.is_some());
    let longest = known.max_by_key(|out| (out.enough_until, out.at));
    let last = home.handed_out.last();
    [longest, last]
        .into_iter()
        .flatten()
        .find(|out| is_for_longer(order, out, day))
        .map(|out| ForLead::ServedBefore {
            at: out.at,
            until: out.enough_until,
        })
}

/// What to say of single people: their course is over, or what they have at home was called back.
pub(super) fn of_people(
    order: &CheckedOrder,
    home: &Home,
    force: &InForce<'_>,
    people: &[Shown],
    day: Date,
) -> Vec<Remark> {
    let mut remarks = Vec::new();
    for shown in people {
        let course = course::of(order, home, force, shown, day);
        if shown.dose.is_ok() && course.is_some_and(|course| course.length() == 0) {
            remarks.push(Remark::CourseOver { person: shown.id });
        }
        let supply = shown.coded.supply.as_ref();
        if let Some(lot) = supply.and_then(|supply| supply.lot.as_ref())
            && force.lot(lot) >= LotStanding::SetAside
        {
            let lot = lot.clone();
            let remark = Remark::AtHome { lot };
            if !remarks.contains(&remark) {
                remarks.push(remark);
            }
        }
    }
    remarks
}

pub(super) fn remarks(home: &Home, code: &HouseholdCode, now: Timestamp) -> Vec<Remark> {
    let mut remarks = Vec::new();
    // Before anything else is said to them.
    if code.interpreter {
        let language = code.language.clone();
        remarks.push(Remark::Interpreter { language });
    }
    let hours = now.duration_since(code.made).as_hours();
    if hours >= OLD_CODE_HOURS {
        remarks.push(Remark::OldCode { hours });
    }
    if let Some(last) = home.handed_out.last() {
        let asked_here = home.answers.values().any(|(_, at)| *at > last.at);
        if code.made <= last.at && !asked_here {
            remarks.push(Remark::AskAgain);
        }
    }
    remarks
}
