//! Days of a site by the dice: three tablets, three homes, two lots, and every kind of thing that goes wrong.

use std::collections::BTreeMap;

use hearthdose_core::exchange::{
    CodedAge, CodedWeighing, DeviceSecret, HouseholdCode, Message, PersonCode, ScreeningOutcome,
    write,
};
use hearthdose_core::household::{Answer, HouseholdId, Manner};
use hearthdose_core::record::{Change, Event, Fact, HandOutLine, LotName, SiteEvent};
use hearthdose_core::units::BodyWeight;
use hearthdose_tests::people::Dice;
use jiff::Timestamp;
use jiff::civil::date;

use crate::facts::{MORNING, fact, fact_id};

pub const HOMES: [HouseholdId; 3] = [
    HouseholdId([1; 8]),
    HouseholdId([2; 8]),
    HouseholdId([3; 8]),
];

pub fn lot(name: &str) -> LotName {
    LotName {
        product: "tablet-100".to_owned(),
        lot: name.to_owned(),
    }
}

/// A child of three and a half with a weight, and an adult; with the second code another child.
pub fn code(home: HouseholdId, issue: u32) -> String {
    let person = |id, age, weight: Option<&str>| PersonCode {
        id,
        nickname: None,
        age: Some(age),
        weighing: weight.map(|weight| CodedWeighing {
            weight: BodyWeight::parse(weight).unwrap(),
            on: Some(date(2031, 4, 2)),
            manner: Manner::Together,
        }),
        swallows_tablets: false,
        born_early: None,
        screened: true,
        answers: Vec::new(),
        outcome: ScreeningOutcome::Clear,
        food_allergies: Vec::new(),
        course_day: None,
        last_dose: None,
        supply: None,
        left: None,
    };
    let mut people = vec![
        person(1, CodedAge::Months(42), Some("31 lb 4 oz")),
        person(2, CodedAge::Adult, None),
    ];
    if issue == 2 {
        people.push(person(3, CodedAge::Months(80), Some("50 lb")));
    }
    let code = HouseholdCode {
        household: home,
        issue,
        made: Timestamp::from_millisecond(MORNING).unwrap(),
        order: None,
        language: "en".to_owned(),
        interpreter: false,
        adult_collects: None,
        people,
    };
    let secret = DeviceSecret::from_bytes(&[home.0[0]; 32]);
    write(&Message::Household(code), &secret).unwrap()
}

pub struct Codes(BTreeMap<(HouseholdId, u32), String>);

impl Codes {
    pub fn new() -> Codes {
        let all = HOMES
            .iter()
            .flat_map(|home| [1, 2].map(|issue| (*home, issue)));
        Codes(
            all.map(|(home, issue)| ((home, issue), code(home, issue)))
                .collect(),
        )
    }

    pub fn of(&self, home: HouseholdId, issue: u32) -> String {
        self.0[&(home, issue)].clone()
    }
}

/// What happened on three tablets. A correction comes after what it corrects, as everywhere.
pub fn history(dice: &mut Dice, codes: &Codes) -> Vec<Fact> {
    let mut facts: Vec<Fact> = Vec::new();
    let mut millis = 0;
    for _ in 0..dice.between(3, 40) {
        millis += dice.between(1, 200_000);
        let device = u64::try_from(dice.between(1, 3)).unwrap();
        let before = facts
            .iter()
            .filter(|f| f.id == fact_id(device, f.stamp.sequence));
        let sequence = u64::try_from(before.count()).unwrap() + 1;
        let event = match dice.below(10) {
            0..=1 if !facts.is_empty() => correction(dice, codes, &facts),
            _ => Event::Site {
                site: happened(dice, codes),
            },
        };
        let mut next = fact(device, sequence, millis, event);
        // Wall clocks of tablets are not those of the record.
        next.at = Timestamp::new(
            MORNING / 1_000 + dice.below(9_000),
            i32::try_from(dice.below(1_000_000_000)).unwrap(),
        )
        .unwrap();
        facts.push(next);
    }
    // Corrections of what never came.
    if dice.percent(20) {
        let change = Change::Withdraw { reason: None };
        let target = fact_id(9, 9);
        facts.push(fact(8, 1, millis, Event::Correction { target, change }));
    }
    facts
}

fn correction(dice: &mut Dice, codes: &Codes, facts: &[Fact]) -> Event {
    let at = usize::try_from(dice.below(i64::try_from(facts.len()).unwrap())).unwrap();
    let target = &facts[at];
    let change = if dice.percent(50) {
        Change::Withdraw { reason: None }
    } else {
        // About any home: a mistake that must not move anything.
        let site = happened(dice, codes);
        Change::Replace {
            event: Box::new(Event::Site { site }),
            reason: None,
        }
    };
    Event::Correction {
        target: target.id,
        change,
    }
}

fn happened(dice: &mut Dice, codes: &Codes) -> SiteEvent {
    let home = dice.pick(&HOMES);
    let lot = lot(dice.pick(&["A1", "B2"]));
    let packs = u32::try_from(dice.between(0, 9)).unwrap();
    let hand_out = fact_id(
        u64::try_from(dice.between(1, 3)).unwrap(),
        u64::try_from(dice.between(1, 6)).unwrap(),
    );
    let issue = u32::try_from(dice.between(1, 2)).unwrap();
    match dice.below(14) {
        0 if dice.percent(30) => SiteEvent::LotRead {
            lot,
            expiry: date(2032, 2, i8::try_from(dice.between(1, 3)).unwrap()),
            each: 20,
            reason: "read once more".to_owned(),
        },
        0 => SiteEvent::LotReceived {
            lot,
            expiry: date(2032, 2, i8::try_from(dice.between(1, 2)).unwrap()),
            packs,
            each: 20,
            gtin: None,
        },
        1 => SiteEvent::LotOut {
            lot,
            packs,
            hand_out,
        },
        2 => SiteEvent::LotBack {
            lot,
            packs,
            hand_out,
        },
        3 => SiteEvent::LotCounted {
            lot,
            counted: packs,
            difference: dice.between(-4, 4),
            reason: "counted".to_owned(),
        },
        4 => SiteEvent::HomeNamed {
            home,
            words: dice
                .pick(&["Blue door", "ÉCLAIR lane, blue gate", "Mill Lane"])
                .to_owned(),
        },
        5 => SiteEvent::HomeAnswered {
            home,
            person: 1,
            key: "pregnant".to_owned(),
            answer: Answer::No,
        },
        6..=8 => SiteEvent::HomeSeen {
            home,
            code: codes.of(home, issue),
        },
        9..=12 => SiteEvent::HandedOut {
            home,
            issue,
            lines: vec![HandOutLine {
                person: None,
                lot,
                packs,
                each: 20,
            }],
            people: dice.pick(&[&[][..], &[2], &[2, 3]]).to_vec(),
            enough_until: dice.percent(80).then_some(date(2031, 4, 12)),
            lead: None,
            in_count: Vec::new(),
        },
        _ => SiteEvent::HomeErased {
            home,
            receipt: "00".repeat(32),
        },
    }
}

pub fn shuffle(dice: &mut Dice, facts: &mut [Fact]) {
    for last in (1..facts.len()).rev() {
        let other = usize::try_from(dice.below(i64::try_from(last + 1).unwrap())).unwrap();
        facts.swap(last, other);
    }
}
