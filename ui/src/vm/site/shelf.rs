//! What stands around a site's screens: its places, its order, whether that is invented.

use super::Spot;
use crate::vm::Kitchen;
use crate::vm::view::Link;

impl Kitchen {
    pub(super) fn site_shelf(&self) -> Vec<Link> {
        let Some(site) = self
            .site
            .as_ref()
            .filter(|site| site.order.is_some() && site.name.is_some() && !site.is_shut())
        else {
            return Vec::new();
        };
        let at_day = matches!(
            site.spot,
            Spot::Day | Spot::Settle | Spot::Matter | Spot::Because
        );
        let at_shelves = matches!(
            site.spot,
            Spot::Shelves | Spot::Receive | Spot::Count(_) | Spot::LotRead(_)
        );
        let entries = [
            (
                "line",
                "site-line",
                !at_shelves
                    && !at_day
                    && !matches!(
                        site.spot,
                        Spot::Find
                            | Spot::Waiting
                            | Spot::Station
                            | Spot::StationHome
                            | Spot::Weigher
                            | Spot::Help
                            | Spot::Settings
                            | Spot::Name
                            | Spot::Orders
                            | Spot::Order(_)
                            | Spot::Roles
                            | Spot::Shift
                            | Spot::ShiftOf(_)
                            | Spot::Codes
                    ),
            ),
            ("find", "site-find", site.spot == Spot::Find),
            ("waiting", "site-waiting", site.spot == Spot::Waiting),
            (
                "station",
                "site-station",
                matches!(site.spot, Spot::Station | Spot::StationHome | Spot::Weigher),
            ),
            ("shelves", "site-shelves", at_shelves),
            ("day", "site-day", at_day),
            (
                "orders",
                "site-orders",
                matches!(site.spot, Spot::Orders | Spot::Order(_) | Spot::Name),
            ),
            (
                "shift",
                "site-shift",
                matches!(site.spot, Spot::Shift | Spot::ShiftOf(_) | Spot::Codes),
            ),
            ("settings", "settings", site.spot == Spot::Settings),
            ("leave-site", "site-leave", false),
        ];
        let links = entries.into_iter().map(|(id, key, here)| Link {
            here,
            ..Link::to(id, self.words.say(key))
        });
        links.collect()
    }

    pub(super) fn site_strip(&self) -> Option<String> {
        let order = self.site.as_ref()?.order.as_ref()?;
        let key = if order.invented {
            "strip-invented"
        } else {
            "strip-unsigned"
        };
        Some(self.words.say(key))
    }

    pub(super) fn site_words(&self) -> String {
        let Some(site) = &self.site else {
            return String::new();
        };
        let Some(order) = &site.order else {
            return String::new();
        };
        let name = match &site.name {
            Some(name) => name.as_str().to_owned(),
            None => self.words.say("site-name"),
        };
        format!("{name}\n{}", self.title_of(order))
    }
}
