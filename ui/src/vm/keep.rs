//! Opening a record, writing to it, and beginning to practise.

use hearthdose_core::order;
use hearthdose_core::order::{CheckedOrder, Order, Problem};
use hearthdose_core::prep::OrderRef;
use hearthdose_core::record::{
    Clock as RecordClock, DeviceId, Event, Fact, FactId, HouseholdWords, Stamp, fold,
};
use hearthdose_core::store::{Opening, Store, StoreError};
use hearthdose_core::time::Now;

use super::ports::Shelf;
use super::settings::{SIZES, Settings};
use super::{Kitchen, Open, Place, Telling};
use crate::demo;
use crate::text::{Language, Words};

/// Why a record could not be opened or begun.
#[derive(Debug, thiserror::Error)]
pub enum KeepError {
    #[error(transparent)]
    Store(#[from] StoreError),
    #[error("the order has problems: {}", .0.iter().map(|p| p.text.as_str()).collect::<Vec<_>>().join("; "))]
    Order(Vec<Problem>),
    #[error("the record has no order")]
    NoOrder,
}

/// What earlier versions kept in the record of how somebody likes to read.
fn kept_in(store: &Store) -> Settings {
    let read = |name: &str| store.setting(name).ok().flatten();
    let usual = Settings::default();
    let size = read("scale").and_then(|value| value.parse().ok());
    Settings {
        language: read("language")
            .and_then(|code| Language::of_code(&code))
            .unwrap_or(usual.language),
        dark: read("dark").is_some_and(|value| value == "yes"),
        size: size
            .filter(|size| SIZES.contains(size))
            .unwrap_or(usual.size),
        ..usual
    }
}

impl Kitchen {
    /// Goes back to where the program was left: the household's record, or an unfinished practice.
    ///
    /// Where this device has no settings of its own yet, it takes over what an earlier version kept in the record.
    pub(super) fn resume(&mut self, with_settings: bool) {
        let homes = self.records.homes().into_iter().map(Shelf::Household);
        let shelves: Vec<Shelf> = homes.chain([Shelf::Practice]).collect();
        for shelf in shelves {
            if self.open.is_none() && self.records.exists(shelf) {
                self.enter(shelf);
                if let Some(open) = self.open.as_ref().filter(|_| with_settings) {
                    self.settings = kept_in(&open.store);
                    self.words = Words::load(self.settings.language);
                }
            }
        }
    }

    /// Opens a record at the place where it was left; tells when it cannot.
    pub(super) fn enter(&mut self, shelf: Shelf) {
        match self.open_shelf(shelf) {
            Ok(Some(open)) => {
                let now = self.clock.now();
                let mut open = open;
                open.look(&now);
                let under_way = open.round().is_some_and(|round| !round.prep.is_done(&now));
                let setting_up = open.set_up.is_some();
                self.open = Some(open);
                self.refresh();
                self.place = match (setting_up, under_way) {
                    (true, _) => Place::SetUp,
                    (false, true) => Place::Round,
                    (false, false) => Place::Today,
                };
                if !under_way {
                    self.resume_weighing();
                }
            }
            Ok(None) => {}
            Err(error) => self.tell_error(&error),
        }
    }

    /// Opens a record that has a household in it; one that was only ever opened gives nothing.
    fn open_shelf(&mut self, shelf: Shelf) -> Result<Option<Open>, KeepError> {
        let (mut store, opening) = self.records.open(shelf)?;
        if let Opening::Salvaged { .. } = opening {
            self.tell("told-salvaged", "told-salvaged-body");
        }
        let device = self.device(&mut store)?;
        let facts = store.facts()?;
        let state = fold(&facts);
        let (Some(_), Some(reference)) = (&state.household, state.first_order()) else {
            return Ok(None);
        };
        let order = stored_order(&store, reference)?;
        let others: Result<Vec<CheckedOrder>, KeepError> = state
            .orders
            .iter()
            .skip(1)
            .map(|reference| stored_order(&store, reference))
            .collect();
        let mut record_clock = RecordClock::default();
        for fact in &facts {
            record_clock.saw(fact, device);
        }
        let set_up = store
            .setting(super::setup::SETTING)?
            .and_then(|text| serde_json::from_str(&text).ok());
        Ok(Some(Open {
            shelf,
            set_up,
            put_aside: None,
            store,
            device,
            record_clock,
            facts,
            state,
            order,
            others: others?,
            also: Vec::new(),
            today: None,
        }))
    }

    pub(super) fn device(&mut self, store: &mut Store) -> Result<DeviceId, KeepError> {
        if let Some(text) = store.setting("device")?
            && let Ok(id) = text.parse()
        {
            return Ok(DeviceId(id));
        }
        let id = self.ids.fresh();
        store.set_setting("device", &id.to_string())?;
        Ok(DeviceId(id))
    }

    /// Begins, or goes on with, the practice household.
    pub(super) fn practise(&mut self) {
        if let Err(error) = self.begin_practice() {
            self.tell_error(&error);
        }
    }

    fn begin_practice(&mut self) -> Result<(), KeepError> {
        let now = self.clock.now();
        self.records.wipe(Shelf::Practice)?;
        let household = demo::household(&now, &self.clock.zone());
        self.begin_household(
            Shelf::Practice,
            demo::ORDER.as_bytes(),
            household,
            demo::people(&now, &self.clock.zone()),
        )
    }

    /// Puts a household and its order into a record and opens it.
    ///
    /// # Errors
    /// An order with problems, or what the store says.
    pub fn begin_household(
        &mut self,
        shelf: Shelf,
        order_file: &[u8],
        household: HouseholdWords,
        people: Vec<Event>,
    ) -> Result<(), KeepError> {
        let order = checked(order_file)?;
        let (mut store, _) = self.records.open(shelf)?;
        store.put_order(&order.id, order.revision, order_file)?;
        let device = self.device(&mut store)?;
        let mut open = Open {
            shelf,
            facts: store.facts()?,
            state: fold(&[]),
            record_clock: RecordClock::default(),
            store,
            device,
            order,
            others: Vec::new(),
            also: Vec::new(),
            today: None,
            set_up: None,
            put_aside: None,
        };
        let reference = OrderRef {
            id: open.order.id.clone(),
            revision: open.order.revision,
        };
        let fingerprint = open.order.fingerprint.to_string();
        let mut events = vec![
            Event::HouseholdSet(household),
            Event::OrderTaken {
                order: reference,
                fingerprint,
            },
        ];
        events.extend(people);
        let now = self.clock.now();
        let zone = self.clock.zone();
        write(&mut open, self.ids.as_mut(), &zone, &now, events)?;
        self.open = Some(open);
        self.trail.clear();
        self.place = Place::Today;
        self.refresh();
        Ok(())
    }

    /// Writes events down in one transaction; only then does the state move. Tells when it could not.
    pub(super) fn record(&mut self, now: &Now, events: Vec<Event>) -> bool {
        let zone = self.clock.zone();
        let Some(open) = self.open.as_mut() else {
            return false;
        };
        match write(open, self.ids.as_mut(), &zone, now, events) {
            Ok(()) => {
                self.refresh();
                true
            }
            Err(error) => {
                self.tell_error(&error);
                false
            }
        }
    }

    /// Looks ahead afresh.
    pub(super) fn refresh(&mut self) {
        let now = self.clock.now();
        if let Some(open) = self.open.as_mut() {
            open.look(&now);
        }
    }

    pub(super) fn tell(&mut self, title: &str, body: &str) {
        self.telling = Some(Telling {
            title: self.words.say(title),
            body: self.words.say(body),
            drawing: "hold",
            main: self.words.say("told-go-on"),
            ..Telling::default()
        });
    }

    pub(super) fn tell_error(&mut self, error: &KeepError) {
        let key = match error {
            KeepError::Store(error) => match error.code() {
                "store-full" => "told-full",
                "store-read-only" => "told-read-only",
                "store-busy" => "told-busy",
                "store-newer" => "told-newer",
                _ => "told-store",
            },
            KeepError::Order(_) | KeepError::NoOrder => "told-order",
        };
        let body = self
            .words
            .say_with(key, &[("detail", error.to_string().into())]);
        self.telling = Some(Telling {
            title: self.words.say("told-not-saved"),
            body,
            drawing: "hold",
            main: self.words.say("told-go-on"),
            ..Telling::default()
        });
    }
}

fn stored_order(store: &Store, reference: &OrderRef) -> Result<CheckedOrder, KeepError> {
    let file = store
        .order(&reference.id, reference.revision)?
        .ok_or(KeepError::NoOrder)?;
    checked(&file)
}

/// Reads and checks an order file.
///
/// # Errors
/// Every problem of the file.
pub fn checked(file: &[u8]) -> Result<CheckedOrder, KeepError> {
    let order: Order = order::parse(file).map_err(KeepError::Order)?;
    CheckedOrder::new(order).map_err(KeepError::Order)
}

fn write(
    open: &mut Open,
    ids: &mut dyn super::ports::Ids,
    zone: &str,
    now: &Now,
    events: Vec<Event>,
) -> Result<(), KeepError> {
    let mut clock = open.record_clock;
    let order = OrderRef {
        id: open.order.id.clone(),
        revision: open.order.revision,
    };
    let facts: Vec<Fact> = events
        .into_iter()
        .map(|event| {
            let (hlc, sequence) = clock.next(now.wall);
            Fact {
                id: FactId(ids.fresh()),
                stamp: Stamp {
                    hlc,
                    device: open.device,
                    sequence,
                },
                at: now.wall,
                steady: now.steady.clone(),
                zone: zone.to_owned(),
                order: Some(order.clone()),
                event,
            }
        })
        .collect();
    open.store.append(&facts)?;
    open.record_clock = clock;
    open.facts.extend(facts);
    open.state = fold(&open.facts);
    Ok(())
}
