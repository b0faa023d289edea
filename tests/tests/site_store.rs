//! What a site asks of many homes at once follows from the facts: kept line by line, it is what the pure folds give,
//! in whatever order and in whatever parts the facts arrived, and made anew it is the same.
#![expect(
    clippy::unwrap_used,
    reason = "what builds a case fails the test, wherever it stands"
)]

mod facts;

use std::collections::BTreeMap;

use hearthdose_core::exchange::{
    CodedAge, CodedWeighing, DeviceSecret, HouseholdCode, Message, PersonCode, ScreeningOutcome,
    write,
};
use hearthdose_core::household::{HouseholdId, Manner};
use hearthdose_core::record::{Change, Event, Fact, HandOutLine, LotName, SiteEvent};
use hearthdose_core::site::{Home, PeopleMark, Stock};
use hearthdose_core::store::{HomeLine, Store};
use hearthdose_core::units::BodyWeight;
use hearthdose_tests::people::Dice;
use jiff::Timestamp;
use jiff::civil::date;

use facts::{MORNING, fact, fact_id};

const HOMES: [HouseholdId; 3] = [
    HouseholdId([1; 8]),
    HouseholdId([2; 8]),
    HouseholdId([3; 8]),
];

fn lot(name: &str) -> LotName {
    LotName {
        product: "tablet-100".to_owned(),
        lot: name.to_owned(),
    }
}

/// A child of three and a half with a weight, and an adult.
fn code(home: HouseholdId, issue: u32) -> String {
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
    let code = HouseholdCode {
        household: home,
        issue,
        made: Timestamp::from_millisecond(MORNING).unwrap(),
        order: None,
        language: "en".to_owned(),
        interpreter: false,
        adult_collects: None,
        people: vec![
            person(1, CodedAge::Months(42), Some("31 lb 4 oz")),
            person(2, CodedAge::Adult, None),
        ],
    };
    let secret = DeviceSecret::from_bytes(&[home.0[0]; 32]);
    write(&Message::Household(code), &secret).unwrap()
}

struct Codes(BTreeMap<(HouseholdId, u32), String>);

impl Codes {
    fn new() -> Codes {
        let all = HOMES
            .iter()
            .flat_map(|home| [1, 2].map(|issue| (*home, issue)));
        Codes(
            all.map(|(home, issue)| ((home, issue), code(home, issue)))
                .collect(),
        )
    }
}

/// What happened on three tablets, in no order.
fn history(dice: &mut Dice, codes: &Codes) -> Vec<Fact> {
    let mut facts = Vec::new();
    for device in 1..=3 {
        let many = u64::try_from(dice.between(1, 14)).unwrap();
        for sequence in 1..=many {
            let event = event(dice, codes);
            facts.push(fact(device, sequence, dice.below(4_000_000), event));
        }
    }
    facts
}

fn event(dice: &mut Dice, codes: &Codes) -> Event {
    let home = dice.pick(&HOMES);
    let lot = lot(dice.pick(&["A1", "B2"]));
    let packs = u32::try_from(dice.between(0, 9)).unwrap();
    let hand_out = fact_id(
        u64::try_from(dice.between(1, 3)).unwrap(),
        u64::try_from(dice.between(1, 6)).unwrap(),
    );
    let site = match dice.below(12) {
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
                .pick(&["Blue door", "blue gate", "Mill Lane"])
                .to_owned(),
        },
        5..=7 => {
            let issue = u32::try_from(dice.between(1, 2)).unwrap();
            let code = codes.0[&(home, issue)].clone();
            SiteEvent::HomeSeen { home, code }
        }
        8..=10 => SiteEvent::HandedOut {
            home,
            issue: 1,
            lines: vec![HandOutLine {
                person: None,
                lot,
                packs,
                each: 20,
            }],
            enough_until: Some(date(2031, 4, 12)),
            lead: None,
        },
        _ if dice.percent(15) => SiteEvent::HomeErased {
            home,
            receipt: "00".repeat(32),
        },
        _ => {
            return Event::Correction {
                target: hand_out,
                change: Change::Withdraw,
            };
        }
    };
    Event::Site { site }
}

/// Everything that can be asked.
#[derive(Debug, PartialEq)]
struct Answers {
    homes: Vec<Option<Home>>,
    stock: Stock,
    found: Vec<HomeLine>,
    waiting: Vec<HomeLine>,
    with_lot: Vec<HomeLine>,
    same: Vec<(HouseholdId, Timestamp)>,
    served: (u64, u64),
}

fn ask(store: &Store) -> Answers {
    let homes: Vec<_> = HOMES
        .iter()
        .map(|home| store.home(*home).unwrap())
        .collect();
    let mark = homes
        .iter()
        .flatten()
        .find_map(|home| PeopleMark::of(home.code()?));
    let now = Timestamp::from_millisecond(MORNING + 5_000_000).unwrap();
    let totals = store.site_totals(now).unwrap();
    Answers {
        same: mark.map_or(Vec::new(), |mark| {
            store.same_people(&mark, HOMES[0]).unwrap()
        }),
        homes,
        stock: store.stock().unwrap(),
        found: store.find_homes("BLUE", 9).unwrap(),
        waiting: store.homes_waiting(9).unwrap(),
        with_lot: store.homes_with_lot("A1").unwrap(),
        served: (totals.homes, totals.people),
    }
}

fn shuffle(dice: &mut Dice, facts: &mut [Fact]) {
    for last in (1..facts.len()).rev() {
        let other = usize::try_from(dice.below(i64::try_from(last + 1).unwrap())).unwrap();
        facts.swap(last, other);
    }
}

fn filled(dice: &mut Dice, facts: &[Fact]) -> Store {
    let mut store = Store::in_memory().unwrap();
    let mut rest = facts;
    while !rest.is_empty() {
        let many = usize::try_from(dice.between(1, 9)).unwrap().min(rest.len());
        store.append(&rest[..many]).unwrap();
        // Half of what was merged comes a second time.
        store.append(&rest[..many / 2]).unwrap();
        rest = &rest[many..];
    }
    store
}

// promise: P15
#[test]
fn kept_line_by_line_it_is_what_the_facts_add_up_to() {
    let codes = Codes::new();
    let (mut served, mut erased, mut waiting, mut same) = (0, 0, 0, 0);
    for seed in 0..400 {
        let mut dice = Dice::new(seed);
        let facts = history(&mut dice, &codes);
        let folded: Vec<Option<Home>> =
            HOMES.iter().map(|home| Home::fold(*home, &facts)).collect();
        let stock = Stock::fold(&facts);
        let mut first = None;
        for _ in 0..2 {
            let mut arrived = facts.clone();
            shuffle(&mut dice, &mut arrived);
            let mut store = filled(&mut dice, &arrived);
            let kept = ask(&store);
            assert_eq!(kept.homes, folded, "seed {seed}");
            let lots = |stock: &Stock| -> Vec<_> {
                stock
                    .lots()
                    .map(|(name, lot)| (name.clone(), lot.clone()))
                    .collect()
            };
            assert_eq!(lots(&kept.stock), lots(&stock), "seed {seed}");
            let hand_outs: usize = folded
                .iter()
                .flatten()
                .map(|home| home.handed_out.len())
                .sum();
            assert_eq!(
                kept.served.0,
                u64::try_from(hand_outs).unwrap(),
                "seed {seed}"
            );
            store.rebuild_site().unwrap();
            assert_eq!(ask(&store), kept, "seed {seed}, made anew");
            served += hand_outs;
            erased += folded.iter().flatten().filter(|home| home.erased).count();
            waiting += kept.waiting.len();
            same += kept.same.len();
            match &first {
                None => first = Some(kept),
                Some(first) => assert_eq!(*first, kept, "seed {seed}, another order"),
            }
        }
    }
    // The cases are there at all.
    assert!(served > 500 && erased > 20 && waiting > 50 && same > 50);
}

#[test]
fn a_home_that_was_handed_over_leaves_the_file_and_stays_away() {
    let codes = Codes::new();
    let folder = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("site-forgets");
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).unwrap();
    let path = folder.join("site.sqlite");
    let site = |sequence, site| {
        fact(
            1,
            sequence,
            i64::try_from(sequence).unwrap(),
            Event::Site { site },
        )
    };
    let home = HOMES[0];
    let seen = codes.0[&(home, 1)].clone();
    let named = "Yellow house behind the mill";
    let facts = [
        site(
            1,
            SiteEvent::HomeSeen {
                home,
                code: seen.clone(),
            },
        ),
        site(
            2,
            SiteEvent::HomeNamed {
                home,
                words: named.to_owned(),
            },
        ),
        site(
            3,
            SiteEvent::LotOut {
                lot: lot("A1"),
                packs: 2,
                hand_out: fact_id(1, 9),
            },
        ),
    ];
    let (mut store, _) = Store::open(&path).unwrap();
    store.append(&facts).unwrap();
    let receipt = "ab".repeat(32);
    let gone = store
        .forget_home(&site(4, SiteEvent::HomeErased { home, receipt }))
        .unwrap();
    assert_eq!(gone, 2);
    assert!(store.home(home).unwrap().unwrap().erased);
    assert_eq!(store.stock().unwrap().lot(&lot("A1")).unwrap().out, 2);
    // A merge brings the old facts once more, and a new one.
    let appended = store.append(&facts).unwrap();
    assert_eq!((appended.added, appended.known), (0, 3));
    assert!(store.home(home).unwrap().unwrap().erased);
    let back = site(
        5,
        SiteEvent::HomeSeen {
            home,
            code: seen.clone(),
        },
    );
    store.append(&[back]).unwrap();
    let again = store.home(home).unwrap().unwrap();
    assert_eq!((again.erased, again.words), (false, None));
    drop(store);
    let bytes = std::fs::read(&path).unwrap();
    let there = bytes
        .windows(named.len())
        .any(|part| part == named.as_bytes());
    assert!(
        !there,
        "the words of a forgotten home are still in the file"
    );
}
