//! Which instructions the site works by: found on this device, compared by a person, then kept.

use hearthdose_core::order::{CheckedOrder, Notice, parse_notice};
use hearthdose_core::record::Event;
use hearthdose_core::time::Now;

use super::{Site, Spot};
use crate::demo;
use crate::vm::Kitchen;
use crate::vm::keep::checked;
use crate::vm::make::{heading, paragraph, picture};
use crate::vm::papers::notice_title;
use crate::vm::ports::Paper;
use crate::vm::view::{Block, Button, Choice, Link, Note, ReadingView, StepView};

impl Kitchen {
    /// Orders in the usual folders, and the invented one to practise with.
    pub(super) fn site_papers(&mut self) {
        let mut papers = self.records.papers();
        papers.retain(|paper| checked(&paper.bytes).is_ok() || parse_notice(&paper.bytes).is_ok());
        papers.push(Paper {
            name: String::new(),
            place: self.words.say("site-practice-place"),
            bytes: demo::ORDER.as_bytes().to_vec(),
        });
        if let Some(site) = self.site.as_mut() {
            site.papers = papers;
        }
    }

    pub(super) fn site_orders_view(&self, site: &Site) -> StepView {
        let words = &self.words;
        let mut view = StepView::titled(words.say("site-orders-title"));
        view.body = vec![words.say("site-orders-body")];
        for (index, paper) in site.papers.iter().enumerate() {
            if let Ok(notice) = parse_notice(&paper.bytes) {
                let values = [("issuer", notice.issuer.as_str().into())];
                let detail = words.say_with("paper-notice", &values);
                let title = words.say(notice_title(&notice));
                let id = format!("order:{index}");
                view.choices
                    .push(Choice::new(&id, title, detail, "order-paper"));
            }
            if let Ok(order) = checked(&paper.bytes) {
                let values = [
                    ("issuer", order.issuer.as_str().into()),
                    ("revision", order.revision.to_string().into()),
                ];
                let detail = words.say_with("paper-order", &values);
                let from = words.say_with("paper-from", &[("place", paper.place.as_str().into())]);
                let title = self.title_of(&order);
                view.choices.push(Choice::new(
                    &format!("order:{index}"),
                    title,
                    format!("{detail} {from}"),
                    "order-paper",
                ));
            }
        }
        view.ways = vec![
            Link::to("look-for-orders", words.say("papers-again")),
            Link::to("desk", words.say("desk-way")),
            Link::to("leave-site", words.say("site-leave")),
        ];
        if site.order.is_some() {
            view.ways
                .insert(1, Link::to("roles", words.say("site-roles")));
        }
        if site.name.is_none() {
            view.ways.retain(|way| way.id != "desk");
        }
        view
    }

    pub(super) fn site_order_reading(&self, site: &Site, index: usize) -> ReadingView {
        let words = &self.words;
        let mut view = ReadingView::titled(words.say("take-order-title"));
        if let Some(notice) = chosen_notice(site, index) {
            let concerns = site
                .order
                .as_ref()
                .is_some_and(|order| notice.applies_to(order));
            let mut view = self.notice_reading(&notice, concerns);
            // The words are for homes; what they mean for these shelves is said here.
            let lots = site
                .stock
                .lots()
                .filter(|(name, lot)| notice.lots().contains(&name.lot) && lot.packs() > 0);
            for (name, lot) in lots {
                let values = [
                    ("packs", lot.packs().into()),
                    ("lot", name.lot.as_str().into()),
                ];
                view.blocks.push(Block::Note(Note::new(
                    words.say_with("site-notice-lot", &values),
                    String::new(),
                    None,
                )));
            }
            return view;
        }
        let Some(order) = chosen(site, index) else {
            return view;
        };
        view.lead = self.title_of(&order);
        view.picture = Some(picture("order-paper"));
        if order.invented {
            let note = Note::new(words.say("order-invented"), String::new(), None);
            view.blocks.push(Block::Note(note));
        }
        let row = |left: &str, right: String| Block::Row {
            left: words.say(left),
            middle: String::new(),
            right,
        };
        view.blocks.extend([
            heading(words.say_with(
                "order-mark-is",
                &[("mark", order.fingerprint.short().into())],
            )),
            paragraph(words.say("order-unsigned")),
            row("order-from", order.issuer.clone()),
            row("order-revision", order.revision.to_string()),
        ]);
        view.ways = vec![Link::to("not-this-paper", words.say("site-not-these"))];
        view.main = Some(Button::ready("work-by-order", words.say("site-work-by")));
        view
    }

    pub(super) fn press_order(&mut self, id: &str, now: &Now) -> bool {
        match id {
            "look-for-orders" => self.site_papers(),
            "orders" => {
                self.site_papers();
                if let Some(site) = self.site.as_mut() {
                    site.go(Spot::Orders);
                }
            }
            "work-by-order" => self.work_by_order(),
            "take-paper" => self.take_notice_at_site(now),
            "not-this-paper" => self.back_at_site(),
            _ => {
                let Some(index) = id.strip_prefix("order:").and_then(|at| at.parse().ok()) else {
                    return false;
                };
                if let Some(site) = self.site.as_mut() {
                    site.go(Spot::Order(index));
                }
            }
        }
        true
    }

    /// A message is in the record before it acts.
    fn take_notice_at_site(&mut self, now: &Now) {
        let Some(site) = &self.site else {
            return;
        };
        let Spot::Order(index) = site.spot else {
            return;
        };
        let bytes = site.papers.get(index).map(|paper| paper.bytes.clone());
        let Some(text) = bytes.and_then(|bytes| String::from_utf8(bytes).ok()) else {
            return;
        };
        if self.write_at_site(now, vec![(None, Event::NoticeTaken { text })]) {
            let learned = self.site.as_mut().map(|site| {
                site.next_home();
                site.learn_notices()
            });
            if let Some(Err(error)) = learned {
                self.tell_error(&error);
            }
        }
    }

    fn work_by_order(&mut self) {
        let Some(site) = self.site.as_mut() else {
            return;
        };
        let Spot::Order(index) = site.spot else {
            return;
        };
        let Some(order) = chosen(site, index) else {
            return;
        };
        let Some(bytes) = site.papers.get(index).map(|paper| paper.bytes.clone()) else {
            return;
        };
        match site.follow(order, &bytes) {
            Ok(()) => {
                site.next_home();
                self.learn_keys();
            }
            Err(error) => self.tell_error(&error),
        }
    }
}

fn chosen_notice(site: &Site, index: usize) -> Option<Notice> {
    parse_notice(&site.papers.get(index)?.bytes).ok()
}

fn chosen(site: &Site, index: usize) -> Option<CheckedOrder> {
    checked(&site.papers.get(index)?.bytes).ok()
}
