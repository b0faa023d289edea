//! The site's own record: `site.sqlite` in the data folder.
//!
//! This file alone opens it, so that what is read from it can change without the commands noticing.
//! Everything one command does is in the record as a whole, or not at all.

use std::collections::BTreeMap;
use std::fs;
use std::path::PathBuf;

use hearthdose_core::exchange::{DeviceKey, DeviceRandom};
use hearthdose_core::household::HouseholdId;
use hearthdose_core::order::{CheckedOrder, Notice, Order, parse};
use hearthdose_core::prep::OrderRef;
use hearthdose_core::record::{DeviceId, Event, Fact, FactId, LotName, SiteEvent};
use hearthdose_core::site::{
    Home, PeopleMark, Pin, PinCheck, PinSet, Role, SiteName, Stock, Totals, is_fact_private,
};
use hearthdose_core::store::{Appended, DEVICE, HomeLine, Opening, Store, StoreError};
use hearthdose_core::time::Now;
use hearthdose_ui::machine::clock::SystemClock;
use hearthdose_ui::machine::device::Device;
use hearthdose_ui::machine::files::SITE;
use jiff::Timestamp;
use uuid::Uuid;

use crate::answer::{self, Stop};
use crate::arguments::site::At;
use crate::{input, paths};

/// Setting: the devices whose shifts are taken in, key by key as JSON.
const KNOWN: &str = "site-known-devices";

/// An open record of a site, and the device it is on.
pub struct SiteRecord {
    store: Store,
    device: DeviceId,
    keys: Device,
}

/// The moment a command is for.
pub fn moment(asked: &At) -> Result<Now, Stop> {
    match &asked.time {
        None => Ok(SystemClock::new().read()),
        Some(text) => Ok(Now::wall_only(input::instant(text)?)),
    }
}

impl SiteRecord {
    /// Opens the record, or begins one.
    ///
    /// # Errors
    /// No data folder, or a record that cannot be used.
    pub fn open(data: Option<PathBuf>) -> Result<SiteRecord, Stop> {
        let folder = paths::data_folder(data)
            .ok_or_else(|| Stop::unusable("there is no data folder: set HOME or use --data"))?;
        fs::create_dir_all(&folder)
            .map_err(|error| Stop::unusable(format!("cannot use {}: {error}", folder.display())))?;
        let (mut store, opening) = Store::open(&folder.join(SITE)).map_err(unusable)?;
        if let Opening::Salvaged {
            set_aside,
            facts_saved,
            facts_missing,
        } = opening
        {
            answer::say(&format!(
                "the site's record was damaged: it is kept as {}; {facts_saved} entries were saved, at least {facts_missing} are lost",
                set_aside.display()
            ));
        }
        let known = store.setting(DEVICE).map_err(unusable)?;
        let device = match known.and_then(|text| text.parse().ok()) {
            Some(id) => DeviceId(id),
            None => {
                let id = Uuid::now_v7();
                store
                    .set_setting(DEVICE, &id.to_string())
                    .map_err(unusable)?;
                DeviceId(id)
            }
        };
        Ok(SiteRecord {
            store,
            device,
            keys: Device::at(folder),
        })
    }

    pub fn device(&self) -> DeviceId {
        self.device
    }

    /// The secret from which this device's keys follow.
    pub fn secret(&self) -> Result<DeviceRandom, Stop> {
        Ok(self.keys.secret()?)
    }

    pub fn facts(&self) -> Result<Vec<Fact>, Stop> {
        self.store.facts().map_err(unusable)
    }

    /// What arrived behind this number.
    pub fn facts_since(&self, arrival: u64) -> Result<Vec<Fact>, Stop> {
        self.store.facts_since(arrival).map_err(unusable)
    }

    /// Number of the last arrival.
    pub fn arrivals(&self) -> Result<u64, Stop> {
        self.store.arrivals().map_err(unusable)
    }

    /// What the site is called; none before it was named.
    pub fn name(&self) -> Result<Option<SiteName>, Stop> {
        self.store.site_name().map_err(unusable)
    }

    pub fn set_name(&mut self, name: &SiteName) -> Result<(), Stop> {
        self.store.set_site_name(name).map_err(unusable)
    }

    pub fn stock(&self) -> Result<Stock, Stop> {
        self.store.stock().map_err(unusable)
    }

    /// When a lot was counted last.
    pub fn last_count(&self, lot: &LotName) -> Result<Option<Timestamp>, Stop> {
        self.store.last_count(lot).map_err(unusable)
    }

    /// How the site is doing, up to a moment.
    pub fn totals(&self, now: Timestamp) -> Result<Totals, Stop> {
        self.store.site_totals(now).map_err(unusable)
    }

    /// Other homes that showed a code of the same people, and when they were served last.
    pub fn same_people(&self, home: &Home) -> Result<Vec<(HouseholdId, Timestamp)>, Stop> {
        match home.code().and_then(PeopleMark::of) {
            Some(mark) => self.store.same_people(&mark, home.id).map_err(unusable),
            None => Ok(Vec::new()),
        }
    }

    /// A home, which can read the answers of every order revision that was used here.
    pub fn home(&self, id: HouseholdId) -> Result<Option<Home>, Stop> {
        let mut home = self.store.home(id).map_err(unusable)?;
        if let Some(home) = &mut home {
            for kept in self.store.orders().map_err(unusable)? {
                if let Ok(order) = CheckedOrder::from_bytes(&kept.bytes) {
                    home.learn(&order);
                }
            }
        }
        Ok(home)
    }

    /// Keeps the exact bytes of an order, by which later codes are read.
    pub fn keep_order(&mut self, order: &Order, bytes: &[u8]) -> Result<(), Stop> {
        let kept = self.store.put_order(&order.id, order.revision, bytes);
        kept.map(|_| ()).map_err(unusable)
    }

    /// The notices this site was told of.
    pub fn notices(&self) -> Result<Vec<Notice>, Stop> {
        self.store.notices().map_err(unusable)
    }

    /// Records what one action brought about, all of it or nothing; gives the ids.
    ///
    /// # Errors
    /// The disk's.
    pub fn write(
        &mut self,
        now: &Now,
        order: Option<&Order>,
        events: Vec<(FactId, Event)>,
    ) -> Result<(), Stop> {
        let facts = self.noted(now, order, events)?;
        self.store.append(&facts).map_err(unusable)?;
        Ok(())
    }

    /// The facts that the next write would be.
    fn noted(
        &self,
        now: &Now,
        order: Option<&Order>,
        events: Vec<(FactId, Event)>,
    ) -> Result<Vec<Fact>, Stop> {
        let mut clock = self.store.clock(self.device).map_err(unusable)?;
        let zone = jiff::tz::TimeZone::system();
        let facts = events.into_iter().map(|(id, event)| {
            let (hlc, sequence) = clock.next(now.wall);
            Fact {
                id,
                stamp: hearthdose_core::record::Stamp {
                    hlc,
                    device: self.device,
                    sequence,
                },
                at: now.wall,
                steady: now.steady.clone(),
                zone: zone.iana_name().unwrap_or("UTC").to_owned(),
                order: order.map(|order| OrderRef {
                    id: order.id.clone(),
                    revision: order.revision,
                }),
                event,
            }
        });
        Ok(facts.collect())
    }

    /// Forgets a home against its receipt; gives the number of facts that went.
    ///
    /// # Errors
    /// The disk's; then nothing is forgotten.
    pub fn forget(&mut self, now: &Now, home: HouseholdId, receipt: String) -> Result<usize, Stop> {
        let erased = at_site(SiteEvent::HomeErased { home, receipt });
        let facts = self.noted(now, None, vec![erased])?;
        let [erasure] = facts.as_slice() else {
            return Ok(0);
        };
        self.store.forget_home(erasure).map_err(unusable)
    }

    /// The facts of a home, and how many of them no shift file has.
    pub fn facts_of_home(&self, home: HouseholdId) -> Result<(Vec<Fact>, usize), Stop> {
        self.store.facts_of_home(home).map_err(unusable)
    }

    /// Homes in whose name or door these words are.
    pub fn find(&self, words: &str, most: u32) -> Result<Vec<HomeLine>, Stop> {
        self.store.find_homes(words, most).map_err(unusable)
    }

    /// Of these facts those with answers that nobody else may read.
    pub fn private<'a>(&self, facts: &'a [Fact]) -> Result<Vec<&'a Fact>, Stop> {
        let kept = self.store.orders().map_err(unusable)?;
        let kept = kept.iter().filter_map(|kept| parse(&kept.bytes).ok());
        let orders: Vec<Order> = kept.collect();
        let facts = facts.iter();
        Ok(facts
            .filter(|fact| is_fact_private(fact, &orders))
            .collect())
    }

    /// These arrivals were written into a file.
    pub fn note_handed_over(&mut self, first: u64, last: u64) -> Result<(), Stop> {
        self.store.note_handed_over(first, last).map_err(unusable)
    }

    pub fn has_pin(&self, role: Role) -> Result<bool, Stop> {
        self.store.has_pin(role).map_err(unusable)
    }

    pub fn check_pin(&mut self, wanted: Role, typed: &str, now: &Now) -> Result<PinCheck, Stop> {
        self.store.check_pin(wanted, typed, now).map_err(unusable)
    }

    pub fn set_pin(
        &mut self,
        role: Role,
        new: &Pin,
        lead: &str,
        salt: [u8; 16],
        now: &Now,
    ) -> Result<PinSet, Stop> {
        let set = self.store.set_pin(role, new, lead, salt, now);
        set.map_err(unusable)
    }

    /// Takes in what another device recorded, all of it or nothing.
    ///
    /// # Errors
    /// The store's own: a fact of the same id or number that says something else.
    pub fn merge(&mut self, facts: &[Fact]) -> Result<Appended, StoreError> {
        self.store.append(facts)
    }

    /// Keys of the devices whose shifts are taken in, and the device each speaks for.
    pub fn known_devices(&self) -> Result<BTreeMap<String, String>, Stop> {
        let text = self.store.setting(KNOWN).map_err(unusable)?;
        Ok(text
            .and_then(|text| serde_json::from_str(&text).ok())
            .unwrap_or_default())
    }

    pub fn know_device(&mut self, key: DeviceKey, device: DeviceId) -> Result<(), Stop> {
        let mut known = self.known_devices()?;
        known.insert(hex(&key.0), device.0.to_string());
        let text = serde_json::to_string(&known)
            .map_err(|error| Stop::unusable(format!("known devices: {error}")))?;
        self.store.set_setting(KNOWN, &text).map_err(unusable)
    }
}

/// A fresh name for a fact.
pub fn fresh() -> FactId {
    FactId(Uuid::now_v7())
}

/// Something at the site, under a fresh name.
pub fn at_site(site: SiteEvent) -> (FactId, Event) {
    (fresh(), Event::Site { site })
}

pub fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

fn unusable(error: StoreError) -> Stop {
    Stop::unusable(format!("the site's record: {error} ({})", error.code()))
}
