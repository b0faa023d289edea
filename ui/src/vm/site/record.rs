//! Reading and writing the site's record.

use hearthdose_core::household::HouseholdId;
use hearthdose_core::order::CheckedOrder;
use hearthdose_core::prep::OrderRef;
use hearthdose_core::record::{Event, Fact, FactId, SiteEvent, Stamp};
use hearthdose_core::site::{Desk, PeopleMark, serve};
use hearthdose_core::store::Store;
use hearthdose_core::time::Now;

use super::{Found, Site};
use crate::vm::Kitchen;
use crate::vm::keep::{KeepError, checked};
use crate::vm::ports::Shelf;

/// Setting: the order the site works by, `id revision`.
const ORDER: &str = "site-order";
/// Setting: the window was at the site when it was closed.
const HERE: &str = "at-site";

/// The order the site works by; none before one was taken.
pub(super) fn order(store: &Store) -> Result<Option<CheckedOrder>, KeepError> {
    let Some(text) = store.setting(ORDER)? else {
        return Ok(None);
    };
    let named = text
        .rsplit_once(' ')
        .and_then(|(id, revision)| Some((id, revision.parse().ok()?)));
    let Some((id, revision)) = named else {
        return Ok(None);
    };
    match store.order(id, revision)? {
        Some(bytes) => checked(&bytes).map(Some),
        None => Ok(None),
    }
}

impl Site {
    /// Keeps the exact bytes of the order and works by it from now on.
    pub(super) fn follow(&mut self, order: CheckedOrder, bytes: &[u8]) -> Result<(), KeepError> {
        self.store.put_order(&order.id, order.revision, bytes)?;
        let named = format!("{} {}", order.id, order.revision);
        self.store.set_setting(ORDER, &named)?;
        self.order = Some(order);
        self.learn_notices()
    }

    /// The messages of the issuer this site was told of.
    pub(super) fn learn_notices(&mut self) -> Result<(), KeepError> {
        self.notices = self.store.notices()?;
        Ok(())
    }

    /// Works out anew what the home in front may carry away.
    pub(super) fn look(&mut self, id: HouseholdId, now: &Now) -> Result<(), KeepError> {
        self.found = None;
        self.stock = self.store.stock()?;
        let (Some(order), Some(mut home)) = (&self.order, self.store.home(id)?) else {
            return Ok(());
        };
        for kept in self.store.orders()? {
            if let Ok(other) = checked(&kept.bytes) {
                home.learn(&other);
            }
        }
        let same_people = match home.code().and_then(PeopleMark::of) {
            Some(mark) => self.store.same_people(&mark, id)?,
            None => Vec::new(),
        };
        let desk = Desk {
            order,
            notices: &self.notices,
            stock: &self.stock,
            now: now.wall,
            same_people: &same_people,
        };
        self.found = serve(&desk, &home).map(|serving| Found { home, serving });
        Ok(())
    }
}

impl Kitchen {
    /// Writes what one action brought about, all of it or nothing; false, and told, when it could not be.
    pub(super) fn write_at_site(
        &mut self,
        now: &Now,
        events: Vec<(Option<FactId>, Event)>,
    ) -> bool {
        if !self.lead_may(events.iter().map(|(_, event)| event)) {
            return false;
        }
        match self.try_write_at_site(now, events) {
            Ok(()) => true,
            Err(error) => {
                self.tell_error(&error);
                false
            }
        }
    }

    fn try_write_at_site(
        &mut self,
        now: &Now,
        events: Vec<(Option<FactId>, Event)>,
    ) -> Result<(), KeepError> {
        let facts = self.noted_at_site(now, events)?;
        let Some(site) = self.site.as_mut() else {
            return Ok(());
        };
        site.store.append(&facts)?;
        site.stock = site.store.stock()?;
        Ok(())
    }

    /// The facts that a write would be.
    pub(super) fn noted_at_site(
        &mut self,
        now: &Now,
        events: Vec<(Option<FactId>, Event)>,
    ) -> Result<Vec<Fact>, KeepError> {
        let zone = self.clock.zone();
        let Some(site) = self.site.as_mut() else {
            return Ok(Vec::new());
        };
        let mut clock = site.store.clock(site.device)?;
        let order = site.order.as_ref().map(|order| OrderRef {
            id: order.id.clone(),
            revision: order.revision,
        });
        let mut facts: Vec<Fact> = Vec::new();
        for (id, event) in events {
            let (hlc, sequence) = clock.next(now.wall);
            facts.push(Fact {
                id: id.unwrap_or_else(|| FactId(self.ids.fresh())),
                stamp: Stamp {
                    hlc,
                    device: site.device,
                    sequence,
                },
                at: now.wall,
                steady: now.steady.clone(),
                zone: zone.clone(),
                order: order.clone(),
                event,
            });
        }
        Ok(facts)
    }

    /// As above, and what the home in front may carry away is worked out anew.
    pub(super) fn note_at_site(&mut self, now: &Now, events: Vec<SiteEvent>) -> bool {
        let events = events
            .into_iter()
            .map(|site| (None, Event::Site { site }))
            .collect();
        let written = self.write_at_site(now, events);
        if let Some(id) = self.site.as_ref().and_then(Site::home_id) {
            self.look_at(id, now);
        }
        written
    }

    pub(super) fn look_at(&mut self, id: HouseholdId, now: &Now) {
        let looked = self.site.as_mut().map(|site| site.look(id, now));
        if let Some(Err(error)) = looked {
            self.tell_error(&error);
        }
    }

    /// Remembers whether the window was at the site.
    pub(super) fn keep_at_site(&mut self, here: bool) {
        let value = if here { "yes" } else { "no" };
        let kept = self
            .site
            .as_mut()
            .map(|site| site.store.set_setting(HERE, value));
        if let Some(Err(error)) = kept {
            self.tell_error(&error.into());
        }
    }

    /// Goes back to the site where the window was closed there.
    pub(in crate::vm) fn resume_at_site(&mut self, now: &Now) {
        if !self.records.exists(Shelf::Site) {
            return;
        }
        let here = self
            .records
            .open(Shelf::Site)
            .ok()
            .and_then(|(store, _)| store.setting(HERE).ok().flatten());
        if here.as_deref() == Some("yes") {
            self.work_at_site(now);
            self.resume_table();
        }
    }
}
