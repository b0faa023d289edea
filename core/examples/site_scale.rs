//! How a site's record holds up with 100,000 homes and 1,000,000 facts, beside plain SQLite that writes the same rows.
//!
//! `cargo run --release -p hearthdose-core --example site_scale -- FOLDER [HOMES]`; the folder must not exist.
#![expect(
    clippy::unwrap_used,
    clippy::print_stdout,
    clippy::disallowed_methods,
    reason = "a measurement"
)]

use std::path::Path;
use std::time::{Duration, Instant};

use hearthdose_core::exchange::{
    CodedAge, CodedWeighing, DeviceSecret, HouseholdCode, Message, PersonCode, ScreeningOutcome,
    write,
};
use hearthdose_core::household::{Answer, HouseholdId, Manner};
use hearthdose_core::record::{
    DeviceId, Event, Fact, FactId, HandOutLine, Hlc, LotName, SiteEvent, Stamp,
};
use hearthdose_core::site::PeopleMark;
use hearthdose_core::store::Store;
use hearthdose_core::units::BodyWeight;
use jiff::Timestamp;
use jiff::civil::date;
use rusqlite::{Connection, params};
use uuid::Uuid;

const MORNING: i64 = 1_932_987_600_000;
const FACTS_OF_A_HOME: u64 = 10;
/// Milliseconds from fact to fact: a million in three days.
const EVERY: i64 = 250;

fn home(number: u64) -> HouseholdId {
    HouseholdId((number + 1).to_be_bytes())
}

fn fact(sequence: u64, event: SiteEvent) -> Fact {
    let at = MORNING + i64::try_from(sequence).unwrap() * EVERY;
    Fact {
        id: FactId(Uuid::from_u64_pair(7, sequence)),
        stamp: Stamp {
            hlc: Hlc {
                millis: at,
                counter: 0,
            },
            device: DeviceId(Uuid::from_u64_pair(9, 1)),
            sequence,
        },
        at: Timestamp::from_millisecond(at).unwrap(),
        steady: None,
        zone: "America/Chicago".to_owned(),
        order: None,
        event: Event::Site { site: event },
    }
}

fn code(number: u64) -> String {
    let person = |id: u16| PersonCode {
        id,
        nickname: None,
        age: Some(CodedAge::Months(20 + u8::try_from(number % 90).unwrap())),
        weighing: Some(CodedWeighing {
            weight: BodyWeight::parse(&format!("{} lb {} oz", 20 + number % 60, id)).unwrap(),
            on: Some(date(2031, 4, 2)),
            manner: Manner::Together,
        }),
        swallows_tablets: false,
        born_early: None,
        screened: false,
        answers: vec![Some((Answer::No, Some(date(2031, 4, 2)))); 7],
        outcome: ScreeningOutcome::Clear,
        food_allergies: Vec::new(),
        course_day: None,
        last_dose: None,
        supply: None,
        left: None,
    };
    let code = HouseholdCode {
        household: home(number),
        issue: 1,
        made: Timestamp::from_millisecond(MORNING).unwrap(),
        order: None,
        language: "en".to_owned(),
        interpreter: false,
        adult_collects: None,
        people: (1..=4).map(person).collect(),
    };
    let mut key = [3; 32];
    key[..8].copy_from_slice(&number.to_be_bytes());
    write(&Message::Household(code), &DeviceSecret::from_bytes(&key)).unwrap()
}

fn lot(number: u64) -> LotName {
    LotName {
        product: "tablet-100".to_owned(),
        lot: format!("QD{}", number % 40),
    }
}

fn facts_of(number: u64) -> Vec<Fact> {
    let first = number * FACTS_OF_A_HOME + 1;
    let home = home(number);
    let hand_out = FactId(Uuid::from_u64_pair(7, first + 7));
    let answered = |person| SiteEvent::HomeAnswered {
        home,
        person,
        key: "pregnant".to_owned(),
        answer: Answer::No,
    };
    let events = [
        SiteEvent::HomeSeen {
            home,
            code: code(number),
        },
        SiteEvent::HomeNamed {
            home,
            words: format!("door {number}, Mill Lane {}", number % 977),
        },
        answered(1),
        answered(2),
        answered(3),
        answered(4),
        SiteEvent::HomeWeighed {
            home,
            person: 1,
            weight: "31 lb 4 oz".to_owned(),
            on: date(2031, 4, 3),
            manner: Manner::Site,
            by: None,
        },
        SiteEvent::HandedOut {
            home,
            issue: 1,
            lines: vec![HandOutLine {
                person: None,
                lot: lot(number),
                packs: 3,
                each: 20,
            }],
            people: vec![1, 2, 3, 4],
            enough_until: Some(date(2031, 4, 12)),
            lead: None,
            in_count: Vec::new(),
        },
        SiteEvent::LotOut {
            lot: lot(number),
            packs: 2,
            hand_out,
        },
        SiteEvent::LotOut {
            lot: lot(number + 1),
            packs: 1,
            hand_out,
        },
    ];
    (first..)
        .zip(events)
        .map(|(at, event)| fact(at, event))
        .collect()
}

/// The same rows without anything beside them.
struct Bare(Connection);

impl Bare {
    fn open(path: &Path) -> Bare {
        let bare = Connection::open(path).unwrap();
        bare.execute_batch(
            "PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL;
             CREATE TABLE fact (number INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL, id TEXT NOT NULL UNIQUE, device TEXT NOT NULL,
               sequence INTEGER NOT NULL, millis INTEGER NOT NULL, counter INTEGER NOT NULL, at TEXT NOT NULL, body TEXT NOT NULL,
               digest BLOB NOT NULL, UNIQUE (device, sequence)) STRICT;
             CREATE INDEX fact_in_order ON fact (millis, counter, device, sequence);",
        )
        .unwrap();
        Bare(bare)
    }

    fn append(&mut self, facts: &[(Fact, String)]) {
        let all = self.0.transaction().unwrap();
        for (fact, body) in facts {
            all.prepare_cached("INSERT INTO fact (id, device, sequence, millis, counter, at, body, digest) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)")
                .unwrap()
                .execute(params![
                    fact.id.0.to_string(),
                    fact.stamp.device.0.to_string(),
                    fact.stamp.sequence,
                    fact.stamp.hlc.millis,
                    fact.stamp.hlc.counter,
                    fact.at.to_string(),
                    body,
                    [0_u8; 16],
                ])
                .unwrap();
        }
        all.commit().unwrap();
    }
}

fn with_bodies(facts: &[Fact]) -> Vec<(Fact, String)> {
    facts
        .iter()
        .map(|fact| (fact.clone(), serde_json::to_string(&fact.event).unwrap()))
        .collect()
}

fn tell(what: &str, mut times: Vec<Duration>) {
    times.sort_unstable();
    let at = |share: usize| times[(times.len() - 1) * share / 100];
    println!(
        "{what}: p50 {:?}, p95 {:?}, most {:?}",
        at(50),
        at(95),
        at(100)
    );
}

fn main() {
    let mut arguments = std::env::args().skip(1);
    let folder = std::path::PathBuf::from(arguments.next().expect("a folder"));
    let homes: u64 = arguments
        .next()
        .map_or(100_000, |text| text.parse().unwrap());
    std::fs::create_dir(&folder).unwrap();
    let (mut store, _) = Store::open(&folder.join("site.sqlite")).unwrap();
    let mut bare = Bare::open(&folder.join("bare.sqlite"));
    let (mut ours, mut theirs, mut facts) = (Duration::ZERO, Duration::ZERO, 0);
    for part in 0..homes.div_ceil(2_000) {
        let numbers = part * 2_000..((part + 1) * 2_000).min(homes);
        let batch: Vec<Fact> = numbers.flat_map(facts_of).collect();
        let bodies = with_bodies(&batch);
        facts += batch.len();
        let mut merge = || ours += timed(|| store.append(&batch).unwrap()).1;
        let mut write = || theirs += timed(|| bare.append(&bodies)).1;
        alternate(part, &mut merge, &mut write);
    }
    let rate = |time: Duration| f64::from(u32::try_from(facts).unwrap()) / time.as_secs_f64();
    println!(
        "{facts} facts of {homes} homes: merged {:.0}/s, bare rows {:.0}/s, ratio {:.2}",
        rate(ours),
        rate(theirs),
        ours.as_secs_f64() / theirs.as_secs_f64()
    );
    drop(store);
    let ((mut store, _), time) = timed(|| Store::open(&folder.join("site.sqlite")).unwrap());
    println!("opening: {time:?}");
    let some = |step: u64| (0..1_000).map(move |at| at * step % homes);
    let mut times = Vec::new();
    for number in some(7_919) {
        let (found, time) = timed(|| store.home(home(number)).unwrap());
        times.push(time);
        assert!(found.is_some());
    }
    tell("a home from its scan", times);
    let (mut mine, mut bares) = (Vec::new(), Vec::new());
    for number in homes..homes + 1_000 {
        let all = facts_of(number);
        store.append(&all[..7]).unwrap();
        let out = &all[7..];
        let bodies = with_bodies(out);
        let mut commit = || mine.push(timed(|| store.append(out).unwrap()).1);
        let mut write = || bares.push(timed(|| bare.append(&bodies)).1);
        alternate(number, &mut commit, &mut write);
    }
    tell("a hand-out, one commit", mine);
    tell("the same rows bare", bares);
    questions(&store, homes);
    let receipt = "ab".repeat(32);
    let mut times = Vec::new();
    for number in 0..20_u64 {
        let home = home(number * 97 % homes);
        let receipt = receipt.clone();
        let erasure = SiteEvent::HomeErased { home, receipt };
        let erasure = fact((homes + 1_000 + number) * FACTS_OF_A_HOME + 1, erasure);
        let (gone, time) = timed(|| store.forget_home(&erasure).unwrap());
        assert_eq!(gone, 8);
        times.push(time);
    }
    tell("a home forgotten, the log cut", times);
    let (_, time) = timed(|| store.rebuild_site().unwrap());
    println!("all made anew: {time:?}");
}

fn questions(store: &Store, homes: u64) {
    let last = MORNING + i64::try_from((homes + 1_000) * FACTS_OF_A_HOME).unwrap() * EVERY;
    let now = Timestamp::from_millisecond(last).unwrap();
    let (totals, time) = timed(|| store.site_totals(now).unwrap());
    println!(
        "totals of {} hand-outs, {} in the last hour: {time:?}",
        totals.all.hand_outs, totals.last_hour.hand_outs
    );
    let (found, time) = timed(|| store.find_homes("mill lane 500", 20).unwrap());
    println!("find by door, {} found: {time:?}", found.len());
    let (found, time) = timed(|| store.find_homes("nowhere", 20).unwrap());
    println!("find by door, {} found: {time:?}", found.len());
    let (found, time) = timed(|| store.homes_with_lot("QD7").unwrap());
    println!("homes with a lot, {}: {time:?}", found.len());
    let (found, time) = timed(|| store.homes_waiting(50).unwrap());
    println!("homes waiting, {}: {time:?}", found.len());
    let one = store.home(home(77)).unwrap().unwrap();
    let mark = PeopleMark::of(one.code().unwrap()).unwrap();
    let (same, time) = timed(|| store.same_people(&mark, one.id).unwrap());
    println!("homes of the same people, {}: {time:?}", same.len());
}

fn timed<T>(what: impl FnOnce() -> T) -> (T, Duration) {
    let start = Instant::now();
    let done = what();
    (done, start.elapsed())
}

/// The one first, then the other, in turns: whoever comes second finds the disk busy.
fn alternate(turn: u64, one: &mut dyn FnMut(), other: &mut dyn FnMut()) {
    if turn.is_multiple_of(2) {
        one();
        other();
    } else {
        other();
        one();
    }
}
