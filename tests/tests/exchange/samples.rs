//! Households, slips and keys to send. All of it is invented.

use hearthdose_core::exchange::{
    CodedAge, CodedWeighing, DeviceSecret, Erasure, HouseholdCode, HouseholdId, Message, OrderMark,
    PersonCode, ScreeningOutcome, SealingKey, Shift, SiteKey, Slip, SlipLine, SlipUnit, Supply,
};
use hearthdose_core::household::{Answer, Manner};
use hearthdose_core::order::CheckedOrder;
use hearthdose_core::record::{DeviceId, Event, Fact, FactId, Hlc, Stamp};
use hearthdose_core::units::BodyWeight;
use jiff::Timestamp;
use jiff::civil::{Date, date};
use uuid::Uuid;

/// Secret and public key of test 1 of RFC 8032, section 7.1.
pub const SECRET: &str = "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60";
pub const PUBLIC: &str = "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a";

pub fn hex(text: &str) -> Vec<u8> {
    let digits: Vec<u32> = text.chars().filter_map(|c| c.to_digit(16)).collect();
    assert_eq!(digits.len() % 2, 0, "{text}");
    digits
        .chunks(2)
        .map(|pair| u8::try_from(pair[0] * 16 + pair[1]).unwrap())
        .collect()
}

pub fn hex_of(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

pub fn bytes<const N: usize>(text: &str) -> [u8; N] {
    hex(text).try_into().unwrap()
}

pub fn secret() -> DeviceSecret {
    DeviceSecret::from_bytes(&bytes(SECRET))
}

pub fn at(text: &str) -> Timestamp {
    text.parse().unwrap()
}

pub fn made() -> Timestamp {
    at("2031-04-05T08:20:00-05:00")
}

pub fn doxycycline() -> CheckedOrder {
    let path = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../demo-data/orders/quillmere-doxy-1.toml"
    );
    CheckedOrder::from_bytes(&std::fs::read(path).unwrap()).unwrap()
}

/// An order of the demonstration, at a revision that never was: golden files must not change with its file.
pub fn mark() -> OrderMark {
    OrderMark {
        id: "quillmere-doxy".to_owned(),
        revision: 1,
        fingerprint: bytes("3f2a90c117de"),
    }
}

/// Somebody of whom everything is known, in the middle of a course.
pub fn person(number: u16) -> PersonCode {
    let ages = [
        CodedAge::Adult,
        CodedAge::Months(187),
        CodedAge::Months(41),
        CodedAge::Days(72),
    ];
    let weights = ["168 lb", "58.5 kg", "31 lb 4 oz", "11 lb 3 oz"];
    let kind = usize::from(number) % 4;
    let on = date(2031, 4, 2);
    let answered = Some(on);
    PersonCode {
        // Numbers as a device draws them, most of them large.
        id: 48_271u16.wrapping_mul(number + 1),
        nickname: None,
        age: Some(ages[kind]),
        weighing: Some(CodedWeighing {
            weight: BodyWeight::parse(weights[kind]).unwrap(),
            on: answered,
            manner: [
                Manner::Alone,
                Manner::Clinic,
                Manner::Together,
                Manner::Site,
            ][kind],
        }),
        swallows_tablets: kind < 2,
        born_early: (kind == 3).then_some(Answer::No),
        screened: false,
        answers: vec![
            Some((Answer::No, answered)),
            None,
            None,
            Some((Answer::No, answered)),
            Some((Answer::No, answered)),
        ],
        outcome: ScreeningOutcome::AskInPrivate,
        food_allergies: Vec::new(),
        course_day: Some(3),
        last_dose: Some(at("2031-04-04T20:05:00-05:00")),
        supply: Some(Supply {
            product: 0,
            lot: Some("QD4471A".to_owned()),
        }),
        left: Some(47),
    }
}

pub fn household(people: u16) -> HouseholdCode {
    HouseholdCode {
        household: HouseholdId([0x5e, 0x11, 0x90, 0xab, 0x03, 0xc4, 0x77, 0xd2]),
        issue: 2,
        made: made(),
        order: Some(mark()),
        language: "en".to_owned(),
        interpreter: false,
        adult_collects: Some(true),
        people: (0..people).map(person).collect(),
    }
}

/// One person of whom nothing is known, and no order: the example in the module's docs.
pub fn shortest() -> HouseholdCode {
    HouseholdCode {
        household: HouseholdId([1, 2, 3, 4, 5, 6, 7, 8]),
        issue: 1,
        made: at("2031-04-03T08:20:00-05:00"),
        order: None,
        language: "en".to_owned(),
        interpreter: false,
        adult_collects: None,
        people: vec![PersonCode {
            id: 1,
            nickname: None,
            age: None,
            weighing: None,
            swallows_tablets: false,
            born_early: None,
            screened: false,
            answers: Vec::new(),
            outcome: ScreeningOutcome::NotScreened,
            food_allergies: Vec::new(),
            course_day: None,
            last_dose: None,
            supply: None,
            left: None,
        }],
    }
}

pub fn slip() -> Slip {
    Slip {
        household: HouseholdId([0x5e, 0x11, 0x90, 0xab, 0x03, 0xc4, 0x77, 0xd2]),
        issue: 2,
        site: "Q7".to_owned(),
        at: at("2031-04-05T09:02:00-05:00"),
        order: Some(mark()),
        lines: vec![
            SlipLine {
                person: Some(person(0).id),
                product: "doxycycline 100 mg tablets".to_owned(),
                lot: Some("QD4471A".to_owned()),
                expiry: Some(date(2031, 2, 28)),
                count: 20,
                unit: SlipUnit::Tablets,
                enough_until: Some(date(2031, 4, 15)),
                extension: Some("usable until 28 February 2032 by notice 3".to_owned()),
            },
            SlipLine {
                person: Some(person(3).id),
                product: "doxycycline 25 mg / 5 mL".to_owned(),
                lot: None,
                expiry: None,
                count: 1,
                unit: SlipUnit::Bottles,
                enough_until: None,
                extension: None,
            },
        ],
    }
}

pub fn site_key() -> SiteKey {
    SiteKey {
        site: "Q7".to_owned(),
        words: "Quillmere school hall".to_owned(),
        key: SealingKey(bytes(
            "4310ee97d88cc1f088a5576c77ab0cf5c3ac797f3d95139c6c84b5429c59662a",
        )),
        made: at("2031-04-02T07:00:00-05:00"),
        until: at("2031-06-30T23:59:00-05:00"),
    }
}

pub fn fact(number: u64, event: Event) -> Fact {
    let id = |place: u64| Uuid::from_u64_pair(place, number);
    Fact {
        id: FactId(id(7)),
        stamp: Stamp {
            hlc: Hlc {
                millis: 1_933_000_000_000,
                counter: 0,
            },
            device: DeviceId(id(9)),
            sequence: number,
        },
        at: at("2031-04-05T14:00:00Z"),
        steady: None,
        zone: "America/Chicago".to_owned(),
        order: None,
        event,
    }
}

pub fn shift() -> Shift {
    Shift {
        device: DeviceId(Uuid::from_u64_pair(9, 1)),
        made: made(),
        first: 12,
        facts: vec![
            fact(
                1,
                Event::PacksReceived {
                    product: "tablet-100".to_owned(),
                    lot: Some("QD4471A".to_owned()),
                    tablets: 480,
                },
            ),
            fact(2, Event::ClockMoved { seconds: -60 }),
        ],
        of: None,
    }
}

/// One message of each kind, with a name for its file.
/// Of the two facts of the shift; one of them had not been handed over.
pub fn erasure() -> Erasure {
    let reason = Some("the tablet goes back today".to_owned());
    Erasure::of(household(1).household, made(), &shift().facts, reason).unwrap()
}

pub fn messages() -> Vec<(&'static str, Message)> {
    vec![
        ("shortest", Message::Household(shortest())),
        ("household-1", Message::Household(household(1))),
        ("household-4", Message::Household(household(4))),
        ("slip", Message::Slip(slip())),
        ("site-key", Message::SiteKey(site_key())),
        ("shift", Message::Shift(shift())),
        ("erasure", Message::Erasure(erasure())),
    ]
}

/// Days around which everything happens.
pub fn near(day: i64) -> Date {
    date(2031, 4, 2)
        .checked_add(jiff::Span::new().try_days(day).unwrap())
        .unwrap()
}
