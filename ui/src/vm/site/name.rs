//! What the site is called, and the mark by which homes know this desk.
//!
//! The mark is that of the key with which this tablet signs receipts under its order. Homes compare it once with the desk's paper, so it can be printed and hung up.

use hearthdose_core::exchange::Slip;
use hearthdose_core::site::{NameUnfit, SiteName};
use hearthdose_core::time::Now;

use super::line::text_field;
use super::{Site, Spot};
use crate::paper;
use crate::vm::Kitchen;
use crate::vm::view::{Button, Entry, Link, Note, StepView};

/// The sheet to hang up; a new one takes the place of the one before.
const SIGN: &str = "hearthdose-desk.pdf";

/// The field.
const NAME: &str = "site-name";

impl Kitchen {
    pub(super) fn name_view(&self, site: &Site) -> StepView {
        let words = &self.words;
        let mut view = StepView::titled(words.say("desk-name-title"));
        let most = [("most", Slip::LONGEST_SITE.into())];
        view.body = vec![words.say_with("desk-name-body", &most)];
        let typed = site.typed(NAME);
        view.entry = Some(Entry {
            fields: vec![text_field(NAME, words.say("desk-name-field"), typed, true)],
            ..Entry::default()
        });
        view.note = site
            .said
            .map(|said| Note::new(words.say_with(said, &most), String::new(), None));
        let label = words.say("desk-name-main");
        view.main = Some(match typed.is_empty() {
            true => Button::waiting(label),
            false => Button::ready("name-site", label),
        });
        if site.name.is_none() {
            view.ways = vec![
                Link::to("orders", words.say("site-orders")),
                Link::to("leave-site", words.say("site-leave")),
            ];
            return view;
        }
        if let Some(mark) = &site.mark {
            view.after = words.say_with("desk-mark", &[("mark", mark.as_str().into())]);
            view.ways = vec![Link::to("print-desk", words.say("desk-print"))];
        }
        view.ways.push(Link::to("line", words.say("site-next")));
        view
    }

    pub(super) fn press_name(&mut self, id: &str, now: &Now) -> bool {
        match id {
            "desk" => {
                if let Some(site) = self.site.as_mut() {
                    site.go(Spot::Name);
                    let name = site.name.iter().map(|name| name.as_str().to_owned());
                    site.typed.extend(name.map(|name| (NAME.to_owned(), name)));
                }
            }
            "name-site" => self.name_site(),
            "print-desk" => self.print_desk(now),
            _ => return false,
        }
        true
    }

    fn name_site(&mut self) {
        let Some(site) = self.site.as_mut() else {
            return;
        };
        match SiteName::read(site.typed(NAME)) {
            Err(why) => {
                site.said = Some(match why {
                    NameUnfit::Missing => "desk-name-missing",
                    NameUnfit::TooLong => "desk-name-long",
                    NameUnfit::Unseen => "desk-name-unseen",
                });
            }
            Ok(name) => match site.store.set_site_name(&name) {
                Ok(()) => {
                    site.name = Some(name);
                    site.next_home();
                }
                Err(error) => self.tell_error(&error.into()),
            },
        }
    }

    /// The mark anew, because there is another key under each order; and the key that opens what was sealed for the site.
    pub(super) fn learn_keys(&mut self) {
        let random = self.ids.device_random();
        let opening = self.ids.opening_key();
        if let Some(site) = self.site.as_mut() {
            let order = site.order.as_ref();
            let key = random
                .zip(order)
                .map(|(random, order)| random.key(&order.id));
            site.key = opening;
            site.mark = key.map(|key| key.public().mark());
        }
    }

    fn print_desk(&mut self, now: &Now) {
        let made = self.site.as_ref().and_then(|site| {
            let zone = jiff::tz::TimeZone::get(&self.clock.zone()).ok()?;
            let sign = paper::DeskSign {
                order: site.order.as_ref()?,
                site: site.name.as_ref()?.as_str(),
                mark: site.mark.as_deref()?,
                on: zone.to_datetime(now.wall).date(),
            };
            paper::desk_sign(&sign, &self.words, self.paper_size()).ok()
        });
        self.lay_down(made.as_deref(), SIGN, "desk-print-body");
    }
}
