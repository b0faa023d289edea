//! A desk to test at: devices that note facts by clocks of their own, and homes of the demonstration.

use hearthdose_core::exchange::{
    DeviceSecret, HouseholdCode, HouseholdId, Making, Member, Message, household_code, write,
};
use hearthdose_core::household::{Answer, Manner, Person, parse_file};
use hearthdose_core::order::{CheckedOrder, Notice, parse_notice};
use hearthdose_core::record::{
    Change, Clock, DeviceId, Event, Fact, FactId, HandOutLine, LotName, SiteEvent, Stamp,
};
use hearthdose_core::site::{Desk, ForLead, Home, Serving, Shown, Stock, serve};
use hearthdose_tests::people::{demo_order, demo_text};
use jiff::civil::Date;
use jiff::{SignedDuration, Timestamp};
use uuid::Uuid;

pub const HOME: HouseholdId = HouseholdId([7; 8]);
/// The first morning of the demonstration, ten o'clock in Quillmere.
pub const TEN: &str = "2031-04-03T10:00:00-05:00";

pub fn at(text: &str) -> Timestamp {
    text.parse().unwrap()
}

pub fn days_after(then: Timestamp, days: i64) -> Timestamp {
    then + SignedDuration::from_hours(24 * days)
}

pub fn doxy() -> CheckedOrder {
    demo_order("quillmere-doxy-1")
}

pub fn iodide() -> CheckedOrder {
    demo_order("quillmere-iodide-1")
}

pub fn cipro() -> CheckedOrder {
    demo_order("quillmere-ciprofloxacin-1")
}

pub fn notice(name: &str) -> Notice {
    parse_notice(demo_text(&format!("notices/quillmere-{name}")).as_bytes()).unwrap()
}

/// A notice of the demonstration with words of its text replaced.
pub fn notice_with(name: &str, changes: &[(&str, &str)]) -> Notice {
    let mut text = demo_text(&format!("notices/quillmere-{name}"));
    for (from, to) in changes {
        assert!(text.contains(from), "{name} has no {from}");
        text = text.replace(from, to);
    }
    parse_notice(text.as_bytes()).unwrap()
}

pub fn people(name: &str) -> Vec<Person> {
    parse_file(&demo_text(&format!("households/{name}")))
        .unwrap()
        .people
}

/// The numbers of people in a code count from 1, in the order of the file.
pub fn code(order: &CheckedOrder, people: &[Person], made: Timestamp) -> HouseholdCode {
    coded(order, people, made, true)
}

/// A code that anybody can read.
pub fn open_code(order: &CheckedOrder, people: &[Person], made: Timestamp) -> HouseholdCode {
    coded(order, people, made, false)
}

fn coded(order: &CheckedOrder, people: &[Person], made: Timestamp, sealed: bool) -> HouseholdCode {
    let members: Vec<Member<'_>> = people
        .iter()
        .zip(1..)
        .map(|(person, id)| Member::new(id, person))
        .collect();
    let zone = jiff::tz::TimeZone::get("America/Chicago").unwrap();
    let making = Making {
        household: HOME,
        issue: 1,
        made,
        day: zone.to_datetime(made).date(),
        order: Some(order),
        language: "en",
        interpreter: false,
        adult_collects: Some(true),
        sealed,
    };
    household_code(&making, &members)
}

pub fn secret(number: u8) -> DeviceSecret {
    DeviceSecret::from_bytes(&[number; 32])
}

pub fn seen(code: &HouseholdCode) -> SiteEvent {
    seen_by(code, 1)
}

pub fn seen_by(code: &HouseholdCode, signer: u8) -> SiteEvent {
    SiteEvent::HomeSeen {
        home: code.household,
        code: write(&Message::Household(code.clone()), &secret(signer)).unwrap(),
    }
}

pub fn answered(person: u16, key: &str, answer: Answer) -> SiteEvent {
    SiteEvent::HomeAnswered {
        home: HOME,
        person,
        key: key.to_owned(),
        answer,
    }
}

pub fn lifted(person: u16, key: &str) -> SiteEvent {
    SiteEvent::HomeHoldLifted {
        home: HOME,
        person,
        key: key.to_owned(),
        reason: "the nurse line said yes".to_owned(),
    }
}

pub fn weighed(person: u16, weight: &str, on: Date) -> SiteEvent {
    SiteEvent::HomeWeighed {
        home: HOME,
        person,
        weight: weight.to_owned(),
        on,
        manner: Manner::Site,
        by: None,
    }
}

pub fn lot(product: &str, lot: &str) -> LotName {
    LotName {
        product: product.to_owned(),
        lot: lot.to_owned(),
    }
}

pub fn pills(name: &str) -> LotName {
    lot("tablet-100", name)
}

pub fn received(lot: LotName, expiry: &str, packs: u32, each: u32) -> SiteEvent {
    SiteEvent::LotReceived {
        lot,
        expiry: expiry.parse().unwrap(),
        packs,
        each,
        gtin: None,
    }
}

/// A hand-out of one line for the home together.
pub fn gave(lot: LotName, packs: u32, each: u32, until: Option<&str>) -> SiteEvent {
    let line = HandOutLine {
        person: None,
        lot,
        packs,
        each,
    };
    SiteEvent::HandedOut {
        home: HOME,
        issue: 1,
        lines: vec![line],
        people: Vec::new(),
        enough_until: until.map(|day| day.parse().unwrap()),
        lead: None,
        in_count: Vec::new(),
    }
}

pub fn taken_away(target: FactId) -> Event {
    Event::Correction {
        target,
        change: Change::Withdraw { reason: None },
    }
}

/// A device, its clocks and all facts it holds.
#[derive(Clone, Debug)]
pub struct Book {
    pub device: DeviceId,
    clock: Clock,
    number: u64,
    pub facts: Vec<Fact>,
}

impl Book {
    pub fn new(number: u64) -> Book {
        Book {
            device: DeviceId(Uuid::from_u128(u128::from(number))),
            clock: Clock::default(),
            number,
            facts: Vec::new(),
        }
    }

    pub fn note(&mut self, when: Timestamp, site: SiteEvent) -> FactId {
        self.note_event(when, Event::Site { site })
    }

    pub fn note_event(&mut self, when: Timestamp, event: Event) -> FactId {
        let (hlc, sequence) = self.clock.next(when);
        let id = self.next_id(sequence);
        self.facts.push(Fact {
            id,
            stamp: Stamp {
                hlc,
                device: self.device,
                sequence,
            },
            at: when,
            steady: None,
            zone: "America/Chicago".to_owned(),
            order: None,
            event,
        });
        id
    }

    /// The id that the next fact will have.
    pub fn coming(&self) -> FactId {
        self.next_id(self.clock.sequence + 1)
    }

    fn next_id(&self, sequence: u64) -> FactId {
        FactId(Uuid::from_u128(
            u128::from(self.number) << 64 | u128::from(sequence),
        ))
    }

    /// Set union.
    pub fn merge(&mut self, facts: &[Fact]) {
        for fact in facts {
            if !self.facts.iter().any(|known| known.id == fact.id) {
                self.clock.saw(fact, self.device);
                self.facts.push(fact.clone());
            }
        }
    }

    pub fn home(&self) -> Option<Home> {
        Home::fold(HOME, &self.facts)
    }

    pub fn stock(&self) -> Stock {
        Stock::fold(&self.facts)
    }

    pub fn serve(&self, order: &CheckedOrder, notices: &[Notice], now: Timestamp) -> Serving {
        let stock = self.stock();
        let desk = Desk {
            order,
            notices,
            stock: &stock,
            now,
            same_people: &[],
        };
        serve(&desk, &self.home().unwrap()).unwrap()
    }
}

/// A book in which a code was read at ten, with plenty of lots of the order on the shelf.
pub fn scanned(order: &CheckedOrder, code: &HouseholdCode) -> Book {
    let mut book = Book::new(1);
    let product = order.main_product().unwrap();
    let each = product.pack_size.unwrap();
    let shelf = received(lot(&product.key, "PLENTY"), "2035-12-31", 1_000, each);
    book.note(at(TEN), shelf);
    book.note(at(TEN), seen(code));
    book
}

pub fn packs(serving: &Serving) -> Vec<(Option<u16>, u32)> {
    let bags = serving.bags.iter();
    bags.map(|bag| (bag.person, bag.packs)).collect()
}

pub fn person(serving: &Serving, id: u16) -> &Shown {
    serving.people.iter().find(|shown| shown.id == id).unwrap()
}

/// Codes of the reasons why somebody has no dose; none with one.
pub fn reasons(serving: &Serving, id: u16) -> Vec<&'static str> {
    match &person(serving, id).dose {
        Ok(_) => Vec::new(),
        Err(reasons) => reasons.iter().map(|reason| reason.code).collect(),
    }
}

pub fn dose(serving: &Serving, id: u16) -> &str {
    &person(serving, id).dose.as_ref().unwrap().text
}

pub fn for_lead(serving: &Serving) -> Vec<&'static str> {
    serving.for_lead.iter().map(ForLead::code).collect()
}
