//! One hand-out, and whom it was for.

use std::collections::BTreeSet;

use jiff::Timestamp;
use jiff::civil::Date;

use super::totals::Served;
use crate::household::HouseholdId;
use crate::record::{DeviceId, FactId, HandOutLine, LotName, SiteEvent};

/// One hand-out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HandedOut {
    pub fact: FactId,
    pub at: Timestamp,
    pub device: DeviceId,
    pub issue: u32,
    pub lines: Vec<HandOutLine>,
    /// Whom it was for, by number; where an older fact does not say it, everybody of the code that was shown.
    pub people: Vec<u16>,
    pub enough_until: Option<Date>,
    /// Why a lead let it go out, where it took one.
    pub lead: Option<String>,
    /// Lots whose count lacked its packs before it was typed in; they were not taken off once more.
    pub in_count: Vec<LotName>,
    /// Somebody looked at it once more and wrote down that it was right.
    pub confirmed: bool,
}

impl HandedOut {
    /// A hand-out as the record has it; nothing for any other event.
    pub fn of(fact: FactId, at: Timestamp, device: DeviceId, event: &SiteEvent) -> Option<Self> {
        let SiteEvent::HandedOut {
            issue,
            lines,
            people,
            enough_until,
            lead,
            in_count,
            ..
        } = event
        else {
            return None;
        };
        let own = lines.iter().filter_map(|line| line.person);
        let people: BTreeSet<u16> = own.chain(people.iter().copied()).collect();
        Some(HandedOut {
            fact,
            at,
            device,
            issue: *issue,
            lines: lines.clone(),
            people: people.into_iter().collect(),
            enough_until: *enough_until,
            lead: lead.clone(),
            in_count: in_count.clone(),
            confirmed: false,
        })
    }

    /// As totals are made of it.
    pub fn served(&self, home: HouseholdId) -> Served {
        let packs = self.lines.iter();
        Served {
            home,
            at: self.at,
            people: self.people.clone(),
            packs: packs.map(|line| (line.lot.clone(), line.packs)).collect(),
        }
    }
}
