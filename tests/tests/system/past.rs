//! Lets time pass for a record that nobody has open: everything in it happened earlier by so much, by every clock.
//!
//! To the program that opens it next this is the same as having been closed for that long.

use std::path::Path;
use std::time::Duration;

use hearthdose_core::record::{Fact, Hlc};
use hearthdose_core::store::Store;
use hearthdose_core::time::Steady;

/// What the kitchen keeps beside the facts.
const SETTINGS: [&str; 5] = ["device", "language", "dark", "scale", "home-name"];

pub fn put_back(folder: &Path, name: &str, by: Duration) {
    let path = folder.join(name);
    let (orders, facts, settings) = {
        let (store, _) = Store::open(&path).expect("a record");
        let settings = SETTINGS.map(|key| (key, store.setting(key).expect("a setting")));
        let orders = store.orders().expect("orders");
        (orders, store.facts().expect("facts"), settings)
    };
    for ending in ["", "-wal", "-shm", ".lock"] {
        let _ = std::fs::remove_file(folder.join(format!("{name}{ending}")));
    }
    let (mut store, _) = Store::open(&path).expect("a new record");
    for order in orders {
        store
            .put_order(&order.id, order.revision, &order.bytes)
            .expect("an order is kept");
    }
    for (key, value) in settings {
        if let Some(value) = value {
            store.set_setting(key, &value).expect("a setting is kept");
        }
    }
    let earlier: Vec<Fact> = facts.into_iter().map(|fact| before(fact, by)).collect();
    store.append(&earlier).expect("the facts are kept");
}

fn before(fact: Fact, by: Duration) -> Fact {
    let millis = u64::try_from(by.as_millis()).expect("a short time");
    let mut fact = fact;
    fact.at = fact.at.checked_sub(by).expect("an earlier moment");
    fact.stamp.hlc = Hlc {
        millis: fact.stamp.hlc.millis - i64::try_from(millis).expect("a short time"),
        ..fact.stamp.hlc
    };
    fact.steady = fact.steady.map(|steady| Steady {
        millis: steady
            .millis
            .checked_sub(millis)
            .expect("this machine is up for longer than that"),
        ..steady
    });
    fact
}
