//! A line of the paper list, typed in after the device was down: with the time and the packs that stand there.

use hearthdose_core::record::{Event, FactId, LotName};
use hearthdose_core::site::{Desk, NotWritten, PeopleMark, Written, from_paper};
use hearthdose_core::time::Now;
use jiff::Timestamp;
use jiff::civil::{Date, Time};

use super::line::text_field;
use super::{Found, Site, Spot};
use crate::paper;
use crate::vm::Kitchen;
use crate::vm::make::picture;
use crate::vm::view::{Entry, Field, Link, Note, StepView};

/// Name of the printed list; a new one takes the place of the one before.
const FILE: &str = "hearthdose-list.pdf";
/// Before the number of a lot in the name of its field.
const PACKS: &str = "packs-";

impl Kitchen {
    pub(super) fn list_view(&self, site: &Site, now: &Now) -> StepView {
        let words = &self.words;
        let mut view = StepView::titled(words.say("list-title"));
        view.small_picture = Some(picture("order-paper"));
        view.body = vec![words.say("list-body")];
        let day = self.list_day(site, now);
        let mut fields = vec![
            text_field("time", words.say("list-time"), site.typed("time"), true),
            text_field("day", words.say("list-day"), &day, false),
        ];
        fields.extend(lots(site).map(|(at, lot)| {
            let label = words.say_with("list-packs", &[("lot", lot.lot.as_str().into())]);
            let id = format!("{PACKS}{at}");
            text_field(&id, label, site.typed(&id), false)
        }));
        let reason: Field = text_field(
            "reason",
            words.say("lead-field"),
            site.typed("reason"),
            false,
        );
        fields.push(reason);
        view.entry = Some(Entry {
            fields,
            ..Entry::default()
        });
        view.note = site
            .said
            .map(|said| Note::new(words.say(said), String::new(), None));
        view.main = Some(self.when_typed(site, "reason", "list-in", "list-main"));
        view.ways = vec![Link::to("to-home", words.say("list-not"))];
        view
    }

    pub(super) fn press_list(&mut self, id: &str, now: &Now) -> bool {
        match id {
            "list" => {
                if let Some(site) = self.site.as_mut() {
                    site.go(Spot::List);
                }
            }
            "list-in" => self.list_in(now),
            "print-list" => {
                let order = self.site.as_ref().and_then(|site| site.order.as_ref());
                let size = self.paper_size();
                let made = order.and_then(|order| paper::list(order, &self.words, size).ok());
                self.lay_down(made.as_deref(), FILE, "print-list-body");
            }
            _ => return false,
        }
        true
    }

    fn list_day(&self, site: &Site, now: &Now) -> String {
        let typed = site.typed("day");
        match site.typed.contains_key("day") {
            true => typed.to_owned(),
            false => self.site_day(now).to_string(),
        }
    }

    fn list_in(&mut self, now: &Now) {
        let id = FactId(self.ids.fresh());
        let Some(site) = &self.site else {
            return;
        };
        let read = self.written(site, now);
        let events = read.and_then(|written| {
            let events = line_of(site, now, &written, id).map_err(said)?;
            Ok((written.at, events))
        });
        let (at, events) = match events {
            Ok(events) => events,
            Err(said) => {
                if let Some(site) = self.site.as_mut() {
                    site.say(said);
                }
                return;
            }
        };
        let home = self.site.as_ref().and_then(Site::home_id);
        let mut first = Some(id);
        let events = events
            .into_iter()
            .map(|site| (first.take(), Event::Site { site }))
            .collect();
        let then = Now {
            wall: at,
            steady: None,
        };
        if self.write_at_site(&then, events)
            && let Some(home) = home
        {
            self.show_home(home, now);
            let last = self.site.as_ref().and_then(|site| site.found.as_ref());
            let mut out = last.into_iter().flat_map(|found| &found.home.handed_out);
            let what = out.find(|out| out.fact == id);
            let what = what.map_or_else(String::new, |out| self.handed_out_words(out));
            let mut telling = super::told(&self.words, "list-done", what);
            telling.drawing = "boxes-lots";
            self.telling = Some(telling);
        }
    }

    /// What was typed; or why it cannot be read.
    fn written(&self, site: &Site, now: &Now) -> Result<Written, &'static str> {
        let day: Date = self
            .list_day(site, now)
            .parse()
            .map_err(|_| "list-day-unread")?;
        let time = time_of(site.typed("time")).ok_or("list-time-unread")?;
        let at: Timestamp = self
            .site_zone(site)
            .to_timestamp(day.to_datetime(time))
            .map_err(|_| "list-time-unread")?;
        let mut packs = Vec::new();
        for (place, lot) in lots(site) {
            let typed = site.typed(&format!("{PACKS}{place}"));
            if !typed.is_empty() {
                let count = typed.parse().map_err(|_| "receive-packs-no-count")?;
                packs.push((lot.clone(), count));
            }
        }
        Ok(Written {
            at,
            packs,
            reason: site.typed("reason").to_owned(),
        })
    }
}

fn line_of(
    site: &Site,
    now: &Now,
    written: &Written,
    id: FactId,
) -> Result<Vec<hearthdose_core::record::SiteEvent>, NotWritten> {
    let (Some(order), Some(Found { home, .. })) = (&site.order, &site.found) else {
        return Err(NotWritten::NoCode);
    };
    let same_people = home
        .code()
        .and_then(PeopleMark::of)
        .and_then(|mark| site.store.same_people(&mark, home.id).ok())
        .unwrap_or_default();
    let desk = Desk {
        order,
        notices: &site.notices,
        stock: &site.stock,
        now: now.wall,
        same_people: &same_people,
    };
    let counted = |lot: &LotName| site.store.last_count(lot).ok().flatten();
    from_paper(&desk, home, written, counted, id)
}

fn said(why: NotWritten) -> &'static str {
    match why {
        NotWritten::NoPacks => "list-no-packs",
        NotWritten::NoReason => "list-no-reason",
        NotWritten::Ahead => "list-ahead",
        NotWritten::Known { .. } => "list-known",
        NotWritten::LotUnknown(_) => "list-lot",
        NotWritten::NoCode => "line-nothing-known",
    }
}

/// Lots that were ever received, with their places in the list of all.
fn lots(site: &Site) -> impl Iterator<Item = (usize, &LotName)> {
    let lots = site.stock.lots().enumerate();
    let here = lots.filter(|(_, (_, lot))| lot.expiry.is_some());
    here.map(|(at, (name, _))| (at, name))
}

/// "14:20", "2:20 p.m." or "2:20pm".
pub(super) fn time_of(text: &str) -> Option<Time> {
    let text: String = text
        .chars()
        .filter(|c| !c.is_whitespace() && *c != '.')
        .flat_map(char::to_lowercase)
        .collect();
    let (clock, half) = match (text.strip_suffix("am"), text.strip_suffix("pm")) {
        (Some(clock), _) => (clock, Some(0)),
        (_, Some(clock)) => (clock, Some(12)),
        _ => (text.as_str(), None),
    };
    let (hour, minute) = clock.split_once(':')?;
    if !(1..=2).contains(&hour.len()) || minute.len() != 2 {
        return None;
    }
    let digits = |text: &str| text.parse::<i8>().ok().filter(|n| *n >= 0);
    let (hour, minute) = (digits(hour)?, digits(minute)?);
    let hour = match half {
        None => hour,
        Some(half) if (1..=12).contains(&hour) => hour % 12 + half,
        Some(_) => return None,
    };
    Time::new(hour, minute, 0, 0).ok()
}
