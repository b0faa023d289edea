//! The shelves: packs that come in, what stands there, and counting by hand.

use hearthdose_core::order::Product;
use hearthdose_core::package;
use hearthdose_core::record::{LotName, SiteEvent};
use hearthdose_core::site::LotStock;
use hearthdose_core::time::Now;
use hearthdose_core::today::{InForce, LotStanding};
use jiff::civil::Date;

use super::line::text_field;
use super::words::day_or_month;
use super::{Site, Spot};
use crate::vm::Kitchen;
use crate::vm::make::{paragraph, picture};
use crate::vm::view::{Block, Button, Entry, Link, Note, ReadingView, StepView};

impl Kitchen {
    pub(super) fn shelves_reading(&self, site: &Site, now: &Now) -> ReadingView {
        let words = &self.words;
        let mut view = ReadingView::titled(words.say("site-shelves"));
        view.lead = words.say("shelves-lead");
        for (name, lot) in site.stock.lots() {
            let mut details: Vec<String> = Vec::new();
            details.extend(
                self.lot_trouble(site, name, lot, now)
                    .map(|why| words.say(why)),
            );
            if let Some(day) = lot.expiry {
                details
                    .push(words.say_with("desk-expires", &[("day", words.long_date(day).into())]));
            }
            if lot.unlike {
                details.push(words.say("shelves-unlike"));
            }
            if lot.packs() < 0 {
                details.push(words.say("shelves-below-zero"));
            }
            let lot_words = words.say_with("slip-lot", &[("lot", name.lot.as_str().into())]);
            let packs = words.say_with("shelf-packs", &[("packs", lot.packs().into())]);
            view.blocks.push(Block::Action {
                id: format!("count:{}:{}", name.product, name.lot),
                label: format!("{lot_words} {packs}"),
                detail: details.join(" "),
            });
        }
        if site.stock.lots().next().is_none() {
            view.blocks.push(paragraph(words.say("shelves-empty")));
        }
        view.main = Some(Button::ready("receive-packs", words.say("shelves-receive")));
        view.ways = vec![Link::to("line", words.say("site-next"))];
        view
    }

    /// Why nothing of a lot goes out.
    pub(super) fn lot_trouble(
        &self,
        site: &Site,
        name: &LotName,
        lot: &LotStock,
        now: &Now,
    ) -> Option<&'static str> {
        self.trouble_of(site, &name.lot, lot.expiry, now)
    }

    fn trouble_of(
        &self,
        site: &Site,
        lot: &str,
        expiry: Option<Date>,
        now: &Now,
    ) -> Option<&'static str> {
        let order = site.order.as_ref()?;
        let until = match InForce::of_notices(&site.notices, order).lot(lot) {
            LotStanding::BringBack => return Some("shelves-recalled"),
            LotStanding::SetAside => return Some("shelves-set-aside"),
            LotStanding::Extended { until } => Some(until),
            LotStanding::AsPrinted => expiry,
        };
        until
            .is_some_and(|until| until < self.site_day(now))
            .then_some("shelves-past")
    }

    pub(super) fn receive_packs_view(&self, site: &Site, now: &Now) -> StepView {
        let words = &self.words;
        let mut view = StepView::titled(words.say("receive-packs-title"));
        view.small_picture = Some(picture("boxes-lots"));
        view.body = vec![words.say("receive-packs-body")];
        view.entry = Some(Entry {
            fields: vec![
                text_field(
                    "package",
                    words.say("receive-packs-code"),
                    site.typed("package"),
                    true,
                ),
                text_field(
                    "lot",
                    words.say("receive-packs-lot"),
                    site.typed("lot"),
                    false,
                ),
                text_field(
                    "expiry",
                    words.say("receive-packs-expiry"),
                    site.typed("expiry"),
                    false,
                ),
                text_field(
                    "packs",
                    words.say("receive-packs-count"),
                    site.typed("packs"),
                    false,
                ),
            ],
            result: self.arrival(site, now).ok().map(|arrival| {
                let values = [
                    ("lot", arrival.lot.lot.as_str().into()),
                    ("day", words.long_date(arrival.expiry).into()),
                ];
                let what = self.packs_words(arrival.packs, arrival.each, &arrival.lot.product);
                Note::new(what, words.say_with("receive-packs-result", &values), None)
            }),
            ..Entry::default()
        });
        view.note = site
            .said
            .map(|said| Note::new(words.say(said), String::new(), None));
        view.main = Some(self.when_typed(site, "packs", "packs-in", "receive-packs-main"));
        view
    }

    pub(super) fn count_view(&self, site: &Site, lot: &LotName) -> StepView {
        let words = &self.words;
        let mut view =
            StepView::titled(words.say_with("count-title", &[("lot", lot.lot.as_str().into())]));
        view.small_picture = Some(picture("boxes-lots"));
        let packs = site.stock.lot(lot).map_or(0, |lot| lot.packs());
        view.body = vec![words.say_with("count-body", &[("packs", packs.into())])];
        view.entry = Some(Entry {
            fields: vec![
                text_field(
                    "counted",
                    words.say("count-field"),
                    site.typed("counted"),
                    true,
                ),
                text_field(
                    "reason",
                    words.say("lead-field"),
                    site.typed("reason"),
                    false,
                ),
            ],
            ..Entry::default()
        });
        view.note = site
            .said
            .map(|said| Note::new(words.say(said), String::new(), None));
        view.main = Some(self.when_typed(site, "reason", "counted", "count-main"));
        let id = format!("lot-read:{}:{}", lot.product, lot.lot);
        view.ways = vec![Link::to(&id, words.say("lot-read-way"))];
        view
    }

    pub(super) fn press_shelves(&mut self, id: &str, now: &Now) -> bool {
        match id {
            "packs-in" => self.packs_in(now),
            "counted" => self.counted(now),
            _ => {
                let named = id
                    .strip_prefix("count:")
                    .and_then(|rest| rest.split_once(':'));
                let (Some((product, lot)), Some(site)) = (named, self.site.as_mut()) else {
                    return false;
                };
                site.go(Spot::Count(LotName {
                    product: product.to_owned(),
                    lot: lot.to_owned(),
                }));
            }
        }
        true
    }

    fn packs_in(&mut self, now: &Now) {
        let arrival = match self.site.as_ref().map(|site| self.arrival(site, now)) {
            Some(Ok(arrival)) => arrival,
            Some(Err(said)) => {
                if let Some(site) = self.site.as_mut() {
                    site.say(said);
                }
                return;
            }
            None => return,
        };
        let event = SiteEvent::LotReceived {
            lot: arrival.lot,
            expiry: arrival.expiry,
            packs: arrival.packs,
            each: arrival.each,
            gtin: arrival.gtin,
        };
        if self.note_at_site(now, vec![event])
            && let Some(site) = self.site.as_mut()
        {
            site.trail.clear();
            site.spot = Spot::Line;
            site.go(Spot::Shelves);
        }
    }

    /// What was scanned or typed, as packs of a lot; or why not.
    fn arrival(&self, site: &Site, now: &Now) -> Result<Arrival, &'static str> {
        let order = site.order.as_ref().ok_or("receive-packs-product")?;
        let scanned = site.typed("package");
        let year = self.site_day(now).year();
        let package = (!scanned.is_empty()).then(|| package::read(scanned, year));
        let gtin = package.as_ref().and_then(|package| package.gtin.clone());
        if package
            .as_ref()
            .is_some_and(|package| package.gtin_valid == Some(false))
        {
            return Err("receive-packs-check");
        }
        let product: &Product = match &gtin {
            // A product that is not the one the order names is never guessed to be it.
            Some(gtin) => order
                .products
                .iter()
                .find(|product| product.gtins.iter().any(|known| known.as_str() == gtin))
                .or_else(|| {
                    order
                        .main_product()
                        .filter(|product| product.gtins.is_empty())
                })
                .ok_or("receive-packs-product")?,
            None => order.main_product().ok_or("receive-packs-product")?,
        };
        let typed_lot = site.typed("lot");
        let lot = match (
            typed_lot.is_empty(),
            package.as_ref().and_then(|package| package.lot.clone()),
        ) {
            (false, _) => typed_lot.to_owned(),
            (true, Some(lot)) => lot,
            (true, None) => return Err("receive-packs-no-lot"),
        };
        let typed_day = site.typed("expiry");
        let expiry: Date = match (
            typed_day.is_empty(),
            package.as_ref().and_then(|package| package.expiry),
        ) {
            (false, _) => day_or_month(typed_day).ok_or("receive-packs-no-expiry")?,
            (true, Some(day)) => day,
            (true, None) => return Err("receive-packs-no-expiry"),
        };
        match self.trouble_of(site, &lot, Some(expiry), now) {
            Some("shelves-past") => return Err("receive-packs-past"),
            Some(_) => return Err("receive-packs-recalled"),
            None => {}
        }
        // A lot or a day typed beside a code that says otherwise is one too many.
        if let Some(package) = &package {
            let other_lot = package.lot.as_ref().is_some_and(|said| *said != lot);
            let other_day = package.expiry.is_some_and(|said| said != expiry);
            if other_lot || other_day {
                return Err("receive-packs-differs");
            }
        }
        let packs: u32 = site
            .typed("packs")
            .parse()
            .ok()
            .filter(|packs| *packs > 0)
            .ok_or("receive-packs-no-count")?;
        Ok(Arrival {
            lot: LotName {
                product: product.key.clone(),
                lot,
            },
            expiry,
            packs,
            each: product.pack_size.filter(|size| *size > 0).unwrap_or(1),
            gtin,
        })
    }

    fn counted(&mut self, now: &Now) {
        let Some(site) = self.site.as_mut() else {
            return;
        };
        let Spot::Count(lot) = site.spot.clone() else {
            return;
        };
        let Ok(counted) = site.typed("counted").parse::<u32>() else {
            site.say("count-unread");
            return;
        };
        let sum = site.stock.lot(&lot).map_or(0, |lot| lot.packs());
        let event = SiteEvent::LotCounted {
            lot,
            counted,
            difference: i64::from(counted).saturating_sub(sum),
            reason: site.typed("reason").to_owned(),
        };
        if self.note_at_site(now, vec![event]) {
            self.back_at_site();
        }
    }
}

struct Arrival {
    lot: LotName,
    expiry: Date,
    packs: u32,
    each: u32,
    gtin: Option<String>,
}
