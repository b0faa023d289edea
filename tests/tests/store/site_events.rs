//! One event of every kind that happens at a dispensing site.

use hearthdose_core::household::{Answer, HouseholdId, Manner};
use hearthdose_core::record::{Event, HandOutLine, LotName, SiteEvent};
use jiff::civil::date;

use crate::facts::fact_id;

/// The number of kinds below.
pub const KINDS: usize = 12;

pub fn events() -> Vec<Event> {
    let home = HouseholdId([0x5e, 0x11, 0x90, 0xab, 0x03, 0xc4, 0x77, 0xd2]);
    let lot = || LotName {
        product: "tablet-100".to_owned(),
        lot: "QD4471A".to_owned(),
    };
    let hand_out = fact_id(1, 7);
    let events = [
        SiteEvent::LotReceived {
            lot: lot(),
            expiry: date(2032, 2, 29),
            packs: u32::MAX,
            each: 20,
            gtin: Some("00614141123452".to_owned()),
        },
        SiteEvent::LotOut {
            lot: lot(),
            packs: 2,
            hand_out,
        },
        SiteEvent::LotBack {
            lot: lot(),
            packs: 2,
            hand_out,
        },
        SiteEvent::LotCounted {
            lot: lot(),
            counted: 0,
            difference: i64::MIN,
            reason: "a box was wet".to_owned(),
        },
        SiteEvent::LotRead {
            lot: lot(),
            expiry: date(2032, 2, 29),
            each: 20,
            reason: "the 8 was a 3".to_owned(),
        },
        SiteEvent::HomeSeen {
            home,
            code: "HD1BB8Z".to_owned(),
        },
        SiteEvent::HomeNamed {
            home,
            words: "blue door, Mill Lane".to_owned(),
        },
        SiteEvent::HomeAnswered {
            home,
            person: u16::MAX,
            key: "pregnant".to_owned(),
            answer: Answer::Unsure,
        },
        SiteEvent::HomeWeighed {
            home,
            person: 1,
            weight: "31 lb 4 oz".to_owned(),
            on: date(2031, 4, 3),
            manner: Manner::Site,
            by: Some("Ana Reyes".to_owned()),
        },
        SiteEvent::HomeHoldLifted {
            home,
            person: 1,
            key: "implausible-weight".to_owned(),
            reason: "weighed a second time".to_owned(),
        },
        SiteEvent::HandedOut {
            home,
            issue: 2,
            lines: vec![HandOutLine {
                person: None,
                lot: lot(),
                packs: 2,
                each: 20,
            }],
            people: vec![1, u16::MAX],
            enough_until: Some(date(2031, 4, 12)),
            lead: None,
            in_count: Vec::new(),
        },
        // Of another home: what an erasure covers leaves the file.
        SiteEvent::HomeErased {
            home: HouseholdId([7; 8]),
            receipt: "00".repeat(32),
        },
    ];
    events.map(|site| Event::Site { site }).to_vec()
}

pub fn kind(event: &SiteEvent) -> &'static str {
    match event {
        SiteEvent::LotReceived { .. } => "site lot received",
        SiteEvent::LotOut { .. } => "site lot out",
        SiteEvent::LotBack { .. } => "site lot back",
        SiteEvent::LotCounted { .. } => "site lot counted",
        SiteEvent::LotRead { .. } => "site lot read",
        SiteEvent::HomeSeen { .. } => "site home seen",
        SiteEvent::HomeNamed { .. } => "site home named",
        SiteEvent::HomeAnswered { .. } => "site home answered",
        SiteEvent::HomeWeighed { .. } => "site home weighed",
        SiteEvent::HomeHoldLifted { .. } => "site hold lifted",
        SiteEvent::HandedOut { .. } => "site handed out",
        SiteEvent::HomeErased { .. } => "site home erased",
    }
}
