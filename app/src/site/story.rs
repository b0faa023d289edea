//! What a site's facts tell beyond one home: every hand-out, the codes that were read, the homes there are.

use std::collections::{BTreeMap, BTreeSet};

use hearthdose_core::exchange::{HouseholdCode, Message, Scan};
use hearthdose_core::household::HouseholdId;
use hearthdose_core::record::{Event, Fact, SiteEvent, effective};
use hearthdose_core::site::HandedOut;

/// Every hand-out that was not undone, with its home, in the one order of facts.
pub fn hand_outs(facts: &[Fact]) -> Vec<(HouseholdId, HandedOut)> {
    let facts = effective(facts).facts;
    let outs = facts.iter().filter_map(|fact| match &fact.event {
        Event::Site { site } => {
            let out = HandedOut::of(fact.id, fact.at, fact.stamp.device, site)?;
            Some((site.home()?, out))
        }
        _ => None,
    });
    outs.collect()
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
