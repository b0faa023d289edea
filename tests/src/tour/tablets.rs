//! The record of other tablets comes to a site, and does not say the same in three homes.

use hearthdose_core::exchange::{
    DeviceSecret, Making, Member, Message, Shift, household_code, write,
};
use hearthdose_core::household::{HouseholdId, parse_file};
use hearthdose_core::record::{
    Change, Clock, DeviceId, Event, Fact, FactId, HandOutLine, LotName, SiteEvent, Stamp, put_right,
};
use hearthdose_ui::vm::view::Intent;
use jiff::{SignedDuration, Timestamp};
use uuid::Uuid;

use super::Tour;
use crate::people::{demo_order, demo_text};

/// Two tablets that were on one street.
struct Street {
    clocks: [Clock; 2],
    at: Timestamp,
    facts: Vec<Fact>,
}

impl Street {
    /// What tablet 0 or 1 notes, three minutes after what was noted last.
    fn note(&mut self, tablet: usize, event: Event) -> FactId {
        self.at += SignedDuration::from_mins(3);
        let clock = &mut self.clocks[tablet];
        let (hlc, sequence) = clock.next(self.at);
        let number = u128::try_from(self.facts.len()).expect("few facts") + 1;
        let id = FactId(Uuid::from_u128(0xACE << 64 | number));
        self.facts.push(Fact {
            id,
            stamp: Stamp {
                hlc,
                device: device(tablet),
                sequence,
            },
            at: self.at,
            steady: None,
            zone: "America/Chicago".to_owned(),
            order: None,
            event,
        });
        id
    }

    fn site(&mut self, tablet: usize, site: SiteEvent) -> FactId {
        self.note(tablet, Event::Site { site })
    }

    /// A home with a door, whose code is read; `left` are the tablets it says to have.
    fn seen(&mut self, tablet: usize, home: HouseholdId, door: &str, signer: u8, left: u16) {
        let order = demo_order("quillmere-doxy-1");
        let people = parse_file(&demo_text("households/tarn-4"))
            .expect("a household")
            .people;
        let members: Vec<Member<'_>> = people
            .iter()
            .zip(1..)
            .map(|(person, id)| Member::new(id, person))
            .collect();
        let zone = jiff::tz::TimeZone::get("America/Chicago").expect("a zone");
        let making = Making {
            household: home,
            issue: 1,
            made: hearthdose_core::exchange::minute(self.at),
            day: zone.to_datetime(self.at).date(),
            order: Some(&order),
            language: "en",
            interpreter: false,
            adult_collects: Some(true),
            sealed: false,
        };
        let mut code = household_code(&making, &members);
        for person in &mut code.people {
            person.left = Some(left);
        }
        let secret = DeviceSecret::from_bytes(&[signer; 32]);
        let code = write(&Message::Household(code), &secret).expect("a code");
        self.site(tablet, SiteEvent::HomeSeen { home, code });
        let words = door.to_owned();
        self.site(tablet, SiteEvent::HomeNamed { home, words });
    }

    fn gave(&mut self, tablet: usize, home: HouseholdId) -> FactId {
        let lot = LotName {
            product: "tablet-100".to_owned(),
            lot: "QD9000".to_owned(),
        };
        let (packs, each) = (4, 20);
        let line = HandOutLine {
            person: None,
            lot: lot.clone(),
            packs,
            each,
        };
        let hand_out = self.site(
            tablet,
            SiteEvent::HandedOut {
                home,
                issue: 1,
                lines: vec![line],
                people: vec![1, 2, 3, 4],
                enough_until: Some(jiff::civil::date(2031, 4, 12)),
                lead: None,
                in_count: Vec::new(),
            },
        );
        self.site(
            tablet,
            SiteEvent::LotOut {
                lot,
                packs,
                hand_out,
            },
        );
        hand_out
    }
}

fn device(tablet: usize) -> DeviceId {
    let number = u128::try_from(tablet).expect("two tablets") + 0xBEE;
    DeviceId(Uuid::from_u128(number))
}

/// A signed record of both tablets.
fn record(at: Timestamp) -> Vec<u8> {
    let mut street = Street {
        clocks: [Clock::default(); 2],
        at,
        facts: Vec::new(),
    };
    let [mill, green, last] = [1, 2, 3].map(|number| HouseholdId([number; 8]));
    street.seen(0, mill, "12 Mill Lane, green door", 21, 6);
    street.gave(0, mill);
    street.gave(1, mill);
    street.seen(0, green, "3 Weir Street", 22, 6);
    street.seen(1, green, "3 Weir Street", 23, 14);
    street.seen(0, last, "The last house at the ford", 24, 6);
    let out = street.gave(0, last);
    let said = street.facts.iter().find(|fact| fact.id == out);
    let event = said.expect("a hand-out").event.clone();
    let reason = Some("Wim Aldersey: they moved, the bag came back".to_owned());
    let change = Change::Withdraw { reason };
    let right = put_right(
        &street.facts,
        out,
        Some(&event),
        Some("Ana Reyes: I saw the bag"),
    );
    street.note(
        1,
        Event::Correction {
            target: out,
            change,
        },
    );
    for event in right {
        street.note(0, event);
    }
    let shift = Shift {
        device: device(0),
        made: hearthdose_core::exchange::minute(street.at),
        first: 1,
        facts: street.facts,
        of: None,
    };
    Message::Shift(shift)
        .sign(&DeviceSecret::from_bytes(&[31; 32]))
        .expect("a shift")
}

impl Tour<'_> {
    /// Where tablets do not say the same, both readings are shown and the lead chooses.
    pub(super) fn tablets(&mut self) {
        let at = "2031-04-03T18:20:00-05:00".parse().expect("an instant");
        self.world.carry("street.shift", record(at));
        self.press("shift");
        self.press("shift:0");
        self.see("site-shift-new");
        self.press("trust-shift");
        self.see("site-shift-taken");
        self.press("told");
        self.see("site-settle");
        for (matter, name) in ["twice", "codes", "changed"].iter().enumerate() {
            self.press(&format!("settle:{matter}"));
            self.see(&format!("site-settle-{name}"));
            self.kitchen.take(&Intent::Back);
        }
        self.press("day");
        self.see("site-day-to-settle");
        self.press("to-settle");
        self.press("settle:0");
        self.press("side:1");
        self.write("reason", "Ana Reyes: one bag is still here");
        self.see("site-settle-because");
        self.press("to-settle");
        self.press("line");
    }
}
