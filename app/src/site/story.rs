//! What a site's facts tell beyond one home: every hand-out, the homes with the same people, the homes that hold a lot.

use std::collections::{BTreeMap, BTreeSet};

use hearthdose_core::exchange::{HouseholdCode, Message, Scan};
use hearthdose_core::household::HouseholdId;
use hearthdose_core::record::{DeviceId, Event, Fact, FactId, HandOutLine, SiteEvent, effective};
use hearthdose_core::site::PeopleMark;
use jiff::Timestamp;
use jiff::civil::Date;

/// One hand-out that was not undone.
#[derive(Clone, Debug)]
pub struct HandOut {
    pub fact: FactId,
    pub home: HouseholdId,
    pub issue: u32,
    pub at: Timestamp,
    pub device: DeviceId,
    pub lines: Vec<HandOutLine>,
    pub enough_until: Option<Date>,
    pub lead: Option<String>,
}

/// Every hand-out that counts, in the one order of facts.
pub fn hand_outs(facts: &[Fact]) -> Vec<HandOut> {
    let mut found = Vec::new();
    for fact in effective(facts).facts {
        if let Event::Site {
            site:
                SiteEvent::HandedOut {
                    home,
                    issue,
                    lines,
                    enough_until,
                    lead,
                },
        } = fact.event
        {
            found.push(HandOut {
                fact: fact.id,
                home,
                issue,
                at: fact.at,
                device: fact.stamp.device,
                lines,
                enough_until,
                lead,
            });
        }
    }
    found
}

/// Every code that was read here and is whole, by home.
pub fn codes(facts: &[Fact]) -> BTreeMap<HouseholdId, Vec<HouseholdCode>> {
    let mut codes: BTreeMap<HouseholdId, Vec<HouseholdCode>> = BTreeMap::new();
    let mut texts = BTreeSet::new();
    for fact in effective(facts).facts {
        if let Event::Site {
            site: SiteEvent::HomeSeen { home, code },
        } = &fact.event
            && texts.insert(code.clone())
            && let Scan::Message(scanned) = Scan::read(code)
            && let Message::Household(code) = scanned.message
            && code.household == *home
        {
            codes.entry(*home).or_default().push(code);
        }
    }
    for codes in codes.values_mut() {
        codes.sort_by_key(|code| (code.issue, code.made));
    }
    codes
}

/// Other homes with the same people that were served, and when last.
pub fn same_people(
    facts: &[Fact],
    own: HouseholdId,
    code: &HouseholdCode,
) -> Vec<(HouseholdId, Timestamp)> {
    let Some(mark) = PeopleMark::of(code) else {
        return Vec::new();
    };
    let mut served: BTreeMap<HouseholdId, Timestamp> = BTreeMap::new();
    for out in hand_outs(facts) {
        let last = served.entry(out.home).or_insert(out.at);
        *last = out.at.max(*last);
    }
    let alike = |codes: &Vec<HouseholdCode>| {
        codes
            .iter()
            .any(|code| PeopleMark::of(code).is_some_and(|other| mark.matches(&other)))
    };
    codes(facts)
        .iter()
        .filter(|(home, codes)| **home != own && alike(codes))
        .filter_map(|(home, _)| Some((*home, *served.get(home)?)))
        .collect()
}

/// People a hand-out was for: everybody of the code that was shown, or those with bags of their own.
pub fn people_of(out: &HandOut, codes: &BTreeMap<HouseholdId, Vec<HouseholdCode>>) -> u64 {
    let own: BTreeSet<u16> = out.lines.iter().filter_map(|line| line.person).collect();
    let together = out.lines.iter().any(|line| line.person.is_none());
    let shown = codes
        .get(&out.home)
        .and_then(|codes| codes.iter().rev().find(|code| code.issue == out.issue))
        .map(|code| code.people.len());
    let count = match (together, shown) {
        (true, Some(people)) => people,
        _ => own.len().max(1),
    };
    u64::try_from(count).unwrap_or(u64::MAX)
}

/// Every home that something is recorded about.
pub fn homes(facts: &[Fact]) -> BTreeSet<HouseholdId> {
    let homes = facts.iter().filter_map(|fact| match &fact.event {
        Event::Site { site } => site.home(),
        _ => None,
    });
    homes.collect()
}

/// How many different codes were read of a home.
pub fn codes_said(facts: &[Fact], id: HouseholdId) -> usize {
    let texts: BTreeSet<&str> = facts
        .iter()
        .filter_map(|fact| match &fact.event {
            Event::Site {
                site: SiteEvent::HomeSeen { home, code },
            } if *home == id => Some(code.as_str()),
            _ => None,
        })
        .collect();
    texts.len()
}
