//! What goes in comes out: every kind of fact, every byte of an order.

use std::collections::BTreeSet;

use hearthdose_core::order::Fingerprint;
use hearthdose_core::record::{Clock, Event, Fact, Hlc};
use hearthdose_core::store::{Appended, Store, StoredOrder};
use hearthdose_core::time::Steady;
use jiff::Timestamp;

use crate::every_event::{KINDS, every_event, kind};
use crate::facts::{MORNING, device, fact};
use crate::{folder, notice, notices, opened};

fn all_facts() -> Vec<Fact> {
    let mut facts: Vec<Fact> = (1..)
        .zip(every_event())
        .map(|(sequence, event)| fact(1, sequence, i64::try_from(sequence).unwrap(), event))
        .collect();
    facts[1].steady = Some(Steady {
        boot: "3f 'x'".to_owned(),
        millis: 7,
    });
    facts[2].order = None;
    facts[3].zone = "Etc/GMT+5".to_owned();
    facts[4].at = "2031-04-03T08:00:00.123456789Z".parse().unwrap();
    facts[5].at = Timestamp::from_second(-1).unwrap();
    facts[6].stamp.hlc.counter = u32::MAX;
    facts
}

#[test]
fn every_kind_of_event_comes_back_word_for_word() {
    let path = folder("every-event").join("record.sqlite");
    let facts = all_facts();
    let kinds: BTreeSet<&str> = facts.iter().map(|fact| kind(&fact.event)).collect();
    assert_eq!(kinds.len(), KINDS);
    let mut store = opened(&path);
    for fact in &facts {
        store.append(std::slice::from_ref(fact)).unwrap();
    }
    drop(store);
    let mut back = opened(&path).facts().unwrap();
    back.sort_by_key(|fact| fact.stamp.sequence);
    assert_eq!(back, facts);
}

#[test]
fn facts_come_in_the_one_order_whatever_the_order_of_arrival() {
    let mut facts: Vec<Fact> = Vec::new();
    for (on, sequence, millis) in [
        (2, 1, 0),
        (1, 9, 0),
        (1, 2, -5000),
        (300, 1, 0),
        (1, 1, 7),
        (2, 2, 7),
        (1, 10, 0),
    ] {
        facts.push(fact(on, sequence, millis, Event::ClockMoved { seconds: 1 }));
    }
    facts[3].stamp.hlc.counter = 1;
    facts[4].stamp.hlc = Hlc {
        millis: -1,
        counter: 0,
    };
    let mut expected = facts.clone();
    expected.sort_by_key(|fact| fact.stamp);
    for turn in 0..facts.len() {
        facts.rotate_left(turn);
        let mut store = Store::in_memory().unwrap();
        store.append(&facts).unwrap();
        assert_eq!(store.facts().unwrap(), expected);
    }
}

#[test]
fn a_fact_that_is_in_already_is_known() {
    let mut store = Store::in_memory().unwrap();
    assert_eq!(
        store.append(&notices(3)).unwrap(),
        Appended {
            added: 3,
            known: 0,
            arrival: 3
        }
    );
    assert_eq!(
        store.append(&notices(4)).unwrap(),
        Appended {
            added: 1,
            known: 3,
            arrival: 4
        }
    );
    assert_eq!(
        store.append(&[notice(5), notice(5)]).unwrap(),
        Appended {
            added: 1,
            known: 1,
            arrival: 5
        }
    );
    assert_eq!(
        store.append(&[]).unwrap(),
        Appended {
            added: 0,
            known: 0,
            arrival: 5
        }
    );
    assert_eq!(store.facts().unwrap(), notices(5));
}

#[test]
fn one_id_with_two_contents_is_refused_and_so_is_all_that_came_with_it() {
    let mut store = Store::in_memory().unwrap();
    store.append(&notices(2)).unwrap();
    let changes: [fn(&mut Fact); 6] = [
        |fact| fact.zone.push('x'),
        |fact| fact.at = Timestamp::from_millisecond(MORNING).unwrap(),
        |fact| fact.event = Event::ClockMoved { seconds: 0 },
        |fact| fact.stamp.hlc.counter = 1,
        |fact| fact.stamp.device = device(7),
        |fact| fact.order = None,
    ];
    for change in changes {
        let mut other = notice(1);
        change(&mut other);
        let refusal = store.append(&[notice(3), other]).unwrap_err();
        assert_eq!(refusal.code(), "store-other-content");
        assert_eq!(store.facts().unwrap(), notices(2));
    }
}

#[test]
fn one_number_of_a_device_is_given_once() {
    let mut store = Store::in_memory().unwrap();
    store.append(&notices(2)).unwrap();
    let mut other = notice(3);
    other.stamp.sequence = 2;
    assert_eq!(
        store.append(&[other]).unwrap_err().code(),
        "store-number-taken"
    );
    assert_eq!(store.facts().unwrap(), notices(2));
    // Another device counts for itself.
    store
        .append(&[fact(2, 2, 0, Event::ClockMoved { seconds: 2 })])
        .unwrap();
    assert_eq!(store.facts().unwrap().len(), 3);
}

#[test]
fn what_no_file_can_hold_is_refused() {
    let mut store = Store::in_memory().unwrap();
    let mut early = notice(1);
    early.at = Timestamp::MIN;
    assert_eq!(
        store.append(&[early]).unwrap_err().code(),
        "store-unstorable"
    );
    let mut far = notice(1);
    far.stamp.sequence = u64::MAX;
    assert_eq!(store.append(&[far]).unwrap_err().code(), "store-unstorable");
    assert_eq!(store.facts().unwrap(), []);
}

#[test]
fn what_arrived_since_and_the_clock() {
    let mut store = Store::in_memory().unwrap();
    assert_eq!(
        (store.arrivals().unwrap(), store.clock(device(1)).unwrap()),
        (0, Clock::default())
    );
    store.append(&notices(2)).unwrap();
    let seen = store.arrivals().unwrap();
    let early = fact(2, 1, -999, Event::ClockMoved { seconds: 1 });
    store.append(&[notice(3), early.clone()]).unwrap();
    assert_eq!(store.facts_since(seen).unwrap(), [early, notice(3)]);
    assert_eq!(store.facts_since(store.arrivals().unwrap()).unwrap(), []);
    let last = Hlc {
        millis: MORNING + 3000,
        counter: 0,
    };
    assert_eq!(store.clock(device(1)).unwrap(), Clock { last, sequence: 3 });
    assert_eq!(store.clock(device(2)).unwrap(), Clock { last, sequence: 1 });
    assert_eq!(store.clock(device(3)).unwrap(), Clock { last, sequence: 0 });
}

#[test]
fn orders_keep_their_exact_bytes() {
    let path = folder("orders").join("record.sqlite");
    let first: Vec<u8> = (0..=255).cycle().take(30_000).collect();
    let second = b"format = 1\r\n# caf\xe9\n".to_vec();
    let mut store = opened(&path);
    let print = store.put_order("quillmere-doxy", 1, &first).unwrap();
    assert_eq!(print, Fingerprint::of(&first));
    store.put_order("quillmere-doxy", 2, &second).unwrap();
    assert!(store.trust_order(&print, true).unwrap());
    store.put_order("quillmere-doxy", 1, &first).unwrap();
    assert!(!store.trust_order(&Fingerprint::of(b"none"), true).unwrap());
    drop(store);
    let mut store = opened(&path);
    let order = |revision, bytes: &[u8], trusted| StoredOrder {
        id: "quillmere-doxy".to_owned(),
        revision,
        fingerprint: Fingerprint::of(bytes),
        bytes: bytes.to_vec(),
        trusted,
    };
    assert_eq!(
        store.orders().unwrap(),
        [order(1, &first, true), order(2, &second, false)]
    );
    assert_eq!(store.order("quillmere-doxy", 2).unwrap(), Some(second));
    assert_eq!(store.order("quillmere-doxy", 3).unwrap(), None);
    // Two files that claim one revision: the trusted one is it.
    store.put_order("quillmere-doxy", 1, b"another").unwrap();
    assert_eq!(
        store.order("quillmere-doxy", 1).unwrap(),
        Some(first.clone())
    );
    store.trust_order(&print, false).unwrap();
    store
        .trust_order(&Fingerprint::of(b"another"), true)
        .unwrap();
    assert_eq!(
        store.order("quillmere-doxy", 1).unwrap(),
        Some(b"another".to_vec())
    );
}

#[test]
fn settings_keep_their_last_value() {
    let path = folder("settings").join("record.sqlite");
    let mut store = opened(&path);
    assert_eq!(store.setting("language").unwrap(), None);
    for language in ["en", "es", ""] {
        store.set_setting("language", language).unwrap();
        assert_eq!(
            store.setting("language").unwrap().as_deref(),
            Some(language)
        );
    }
    store.set_setting("dark", "yes").unwrap();
    drop(store);
    let store = opened(&path);
    assert_eq!(store.setting("language").unwrap().as_deref(), Some(""));
    assert_eq!(store.setting("dark").unwrap().as_deref(), Some("yes"));
}
