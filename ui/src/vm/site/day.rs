//! How the day goes: served in each hour, stock against demand, when a lot runs out.

use hearthdose_core::site::{Stock, Totals, hour_of};
use hearthdose_core::time::Now;
use jiff::civil::Date;
use jiff::tz::TimeZone;

use super::Site;
use crate::vm::Kitchen;
use crate::vm::make::{heading, paragraph};
use crate::vm::view::{Block, Button, Link, ReadingView};

impl Kitchen {
    /// The zone of the order: a site works where its order was issued.
    pub(super) fn site_zone(&self, site: &Site) -> TimeZone {
        let named = site.order.as_ref().map(|order| order.time_zone.clone());
        let zone = named.unwrap_or_else(|| self.clock.zone());
        TimeZone::get(&zone).unwrap_or(TimeZone::UTC)
    }

    pub(super) fn site_day(&self, now: &Now) -> Date {
        let zone = self
            .site
            .as_ref()
            .map_or(TimeZone::UTC, |site| self.site_zone(site));
        zone.to_datetime(now.wall).date()
    }

    fn totals(&self, site: &Site, now: &Now) -> Option<Totals> {
        // A lot that was called back or is past its day is no stock.
        let usable = site
            .stock
            .lots()
            .filter(|(name, lot)| self.lot_trouble(site, name, lot, now).is_none());
        let usable = Stock::from_lots(usable.map(|(name, lot)| (name.clone(), lot.clone())));
        site.store.site_totals_with(&usable, now.wall).ok()
    }

    /// "12 homes in the last hour", below the line.
    pub(super) fn pace_words(&self, site: &Site, now: &Now) -> String {
        let Some(totals) = self.totals(site, now).filter(|totals| totals.all.homes > 0) else {
            return String::new();
        };
        self.words.say_with(
            "line-pace",
            &[
                ("homes", totals.all.hand_outs.into()),
                ("people", totals.all.people.into()),
            ],
        )
    }

    pub(super) fn day_reading(&self, site: &Site, now: &Now) -> ReadingView {
        let words = &self.words;
        let mut view = ReadingView::titled(words.say("site-day"));
        view.main = Some(Button::ready("line", words.say("site-next")));
        view.ways = vec![Link::to("print-list", words.say("print-list"))];
        view.blocks.extend(self.settle_way(site));
        let Some(totals) = self.totals(site, now) else {
            return view;
        };
        let zone = self.site_zone(site);
        let today = zone.to_datetime(now.wall).date();
        let hours: Vec<_> = totals
            .hours
            .iter()
            .filter(|(hour, _)| zone.to_datetime(**hour).date() == today)
            .collect();
        let first = zone.to_timestamp(today.at(0, 0, 0, 0)).ok();
        let served = first.and_then(|first| site.store.served_since(first).ok());
        let served = served.unwrap_or_default();
        view.lead = words.say_with(
            "day-lead",
            &[
                ("homes", served.hand_outs.into()),
                ("people", served.people.into()),
            ],
        );
        view.blocks.push(heading(words.say("day-hours")));
        if hours.is_empty() {
            view.blocks.push(paragraph(words.say("day-nothing")));
        }
        for (hour, count) in hours {
            view.blocks.push(Block::Row {
                left: words.clock(hour_of(*hour), &zone),
                middle: words.say_with("day-homes", &[("homes", count.hand_outs.into())]),
                right: words.say_with("people-count", &[("count", count.people.into())]),
            });
        }
        view.blocks.push(heading(words.say("site-shelves")));
        for lot in &totals.lots {
            let out = match lot.out_at {
                Some(at) => words.say_with(
                    "day-runs-out",
                    &[("when", words.clock_and_day(at, &zone, now.wall).into())],
                ),
                None => words.say("day-no-pace"),
            };
            view.blocks.push(Block::Row {
                left: words.say_with("slip-lot", &[("lot", lot.lot.lot.as_str().into())]),
                middle: out,
                right: words.say_with("shelf-packs", &[("packs", lot.packs.into())]),
            });
        }
        view
    }
}
