//! PINs of the roles at a site: set by the right people, tried a few times, kept as nothing but hashes.

use hearthdose_core::site::{Pin, PinCheck, PinSet, PinUnfit, Role};
use hearthdose_core::store::Store;
use hearthdose_core::time::{Now, Steady};
use jiff::Timestamp;

use crate::folder;

const LEAD: &str = "40718";
const HELPER: &str = "926351";
/// Argon2id of [`LEAD`] under sixteen sevens: 19,456 KiB, 2 passes, 1 lane, by another implementation of RFC 9106.
const HASH: &str = "bf93e6680e603942940cd50ce63a5f003da643de7be1ed24d3b4a4cb11f14461";
const NOON: i64 = 1_933_000_000;

/// So many seconds after the device was started for the first time, by both clocks.
fn after(seconds: i64) -> Now {
    at(NOON + seconds, "first", seconds)
}

fn at(wall: i64, boot: &str, steady: i64) -> Now {
    Now {
        wall: Timestamp::from_second(wall).unwrap(),
        steady: Some(Steady {
            boot: boot.to_owned(),
            millis: u64::try_from(steady).unwrap() * 1_000,
        }),
    }
}

fn pin(digits: &str) -> Pin {
    Pin::new(digits).unwrap()
}

fn set(store: &mut Store, role: Role, new: &str, lead: &str) -> PinSet {
    let now = after(0);
    store.set_pin(role, &pin(new), lead, [7; 16], &now).unwrap()
}

fn check(store: &mut Store, role: Role, typed: &str, now: &Now) -> PinCheck {
    store.check_pin(role, typed, now).unwrap()
}

/// A record with a lead's PIN that was tried wrong so many times, at once.
fn tried(wrong: u32) -> Store {
    let mut store = Store::in_memory().unwrap();
    assert_eq!(set(&mut store, Role::Lead, LEAD, ""), PinSet::Set);
    for turn in 1..=wrong {
        let found = check(&mut store, Role::Lead, "111222", &after(0));
        let wait = if turn == 5 { 30 } else { 0 };
        assert_eq!(
            found,
            PinCheck::Wrong {
                left: 5 - turn,
                wait
            }
        );
    }
    store
}

#[test]
fn a_pin_is_not_the_first_that_anybody_tries() {
    for (typed, why) in [
        ("", PinUnfit::TooShort),
        ("407", PinUnfit::TooShort),
        ("4071824071824", PinUnfit::TooLong),
        ("40a8", PinUnfit::NotDigits),
        ("4 071", PinUnfit::NotDigits),
        ("٤٠٧١", PinUnfit::NotDigits),
        ("0000", PinUnfit::Repeated),
        ("99999999", PinUnfit::Repeated),
        ("1234", PinUnfit::InARow),
        ("6789012", PinUnfit::InARow),
        ("4321", PinUnfit::InARow),
        ("1098", PinUnfit::InARow),
    ] {
        assert_eq!(Pin::new(typed), Err(why), "{typed}");
    }
    for typed in ["4071", " 926351\n", "407182407182", "1235"] {
        assert_eq!(pin(typed).digits(), typed.trim());
        assert!(!format!("{:?}", pin(typed)).contains(typed.trim()));
    }
}

#[test]
fn the_first_is_anybodys_and_every_other_the_leads() {
    let mut store = Store::in_memory().unwrap();
    let now = after(0);
    for role in [Role::Lead, Role::Volunteer] {
        assert!(!store.has_pin(role).unwrap());
        assert_eq!(check(&mut store, role, LEAD, &now), PinCheck::NoneSet);
    }
    let set_first = set(&mut store, Role::Volunteer, HELPER, "");
    assert_eq!(set_first, PinSet::LeadFirst);
    assert_eq!(set(&mut store, Role::Lead, LEAD, ""), PinSet::Set);
    let wrong = |left| PinSet::LeadNeeded(PinCheck::Wrong { left, wait: 0 });
    assert_eq!(set(&mut store, Role::Lead, "55512", ""), wrong(4));
    assert_eq!(set(&mut store, Role::Volunteer, HELPER, "55512"), wrong(3));
    let same = set(&mut store, Role::Volunteer, LEAD, LEAD);
    assert_eq!(same, PinSet::SameAsOther);
    let helper = set(&mut store, Role::Volunteer, HELPER, LEAD);
    assert_eq!(helper, PinSet::Set);
    let same = set(&mut store, Role::Lead, HELPER, LEAD);
    assert_eq!(same, PinSet::SameAsOther);

    let opened = PinCheck::Opened;
    for (wanted, typed, role) in [
        (Role::Lead, LEAD, Role::Lead),
        (Role::Volunteer, HELPER, Role::Volunteer),
        (Role::Volunteer, LEAD, Role::Lead),
    ] {
        assert_eq!(check(&mut store, wanted, typed, &now), opened(role));
    }
    let helper = check(&mut store, Role::Lead, HELPER, &now);
    assert_eq!(helper, PinCheck::Wrong { left: 4, wait: 0 });
    assert_eq!(set(&mut store, Role::Lead, "55512", LEAD), PinSet::Set);
    assert_eq!(
        check(&mut store, Role::Lead, "55512\n", &now),
        opened(Role::Lead)
    );
}

#[test]
fn after_five_wrong_ones_it_waits_longer_and_longer() {
    let mut store = tried(5);
    let wait = |seconds| PinCheck::Wait { seconds };
    assert_eq!(check(&mut store, Role::Lead, LEAD, &after(0)), wait(30));
    assert_eq!(check(&mut store, Role::Lead, LEAD, &after(29)), wait(1));
    let sixth = check(&mut store, Role::Lead, "111222", &after(30));
    assert_eq!(sixth, PinCheck::Wrong { left: 0, wait: 60 });
    assert_eq!(check(&mut store, Role::Lead, LEAD, &after(89)), wait(1));
    let opened = PinCheck::Opened(Role::Lead);
    assert_eq!(check(&mut store, Role::Lead, LEAD, &after(90)), opened);
    // The right one ends the row.
    let first = check(&mut store, Role::Lead, "111222", &after(90));
    assert_eq!(first, PinCheck::Wrong { left: 4, wait: 0 });
}

#[test]
fn no_clock_makes_a_wait_shorter() {
    let wait = |seconds| PinCheck::Wait { seconds };
    let day = 86_400;
    for (now, expected) in [
        // The wall clock alone was moved.
        (at(NOON + day, "first", 10), wait(20)),
        (at(NOON - day, "first", 10), wait(20)),
        // Started again: only what this start has seen is certain.
        (at(NOON + day, "second", 10), wait(20)),
        (at(NOON - day, "second", 10), wait(20)),
    ] {
        assert_eq!(check(&mut tried(5), Role::Lead, LEAD, &now), expected);
    }
    let opened = PinCheck::Opened(Role::Lead);
    for now in [
        at(NOON - day, "first", 30),
        at(NOON - day, "second", 30),
        at(NOON + day, "second", 30),
    ] {
        assert_eq!(check(&mut tried(5), Role::Lead, LEAD, &now), opened);
    }
    // A device without a steady clock: set back, the whole wait begins anew, and still ends.
    let bare = |seconds| Now::wall_only(Timestamp::from_second(NOON + seconds).unwrap());
    let mut store = tried(5);
    assert_eq!(check(&mut store, Role::Lead, LEAD, &bare(-day)), wait(30));
    assert_eq!(
        check(&mut store, Role::Lead, LEAD, &bare(10 - day)),
        wait(20)
    );
    assert_eq!(check(&mut store, Role::Lead, LEAD, &bare(30 - day)), opened);
}

#[test]
fn tries_outlive_the_program_and_nothing_but_a_hash_is_kept() {
    let path = folder("pins").join("site.sqlite");
    let (mut store, _) = Store::open(&path).unwrap();
    assert_eq!(set(&mut store, Role::Lead, LEAD, ""), PinSet::Set);
    for _ in 0..5 {
        check(&mut store, Role::Lead, "111222", &after(0));
    }
    drop(store);
    let (mut store, _) = Store::open(&path).unwrap();
    let found = check(&mut store, Role::Lead, LEAD, &after(1));
    assert_eq!(found, PinCheck::Wait { seconds: 29 });
    assert_eq!(store.facts().unwrap(), []);
    let kept = store.setting("site-pin-lead").unwrap().unwrap();
    assert!(!kept.contains(LEAD) && kept.contains("argon2id"), "{kept}");
    let kept: serde_json::Value = serde_json::from_str(&kept).unwrap();
    let bytes = kept["hash"].as_array().unwrap().iter();
    let hash: String = bytes
        .map(|byte| format!("{:02x}", byte.as_u64().unwrap()))
        .collect();
    assert_eq!(hash, HASH);
}
