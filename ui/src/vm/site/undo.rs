//! A hand-out that was wrong is taken back by the lead: its fact is withdrawn with the reason, and its packs stand on the shelves again.

use hearthdose_core::record::{Event, FactId, put_right};
use hearthdose_core::site::{HandedOut, take_back};
use hearthdose_core::time::Now;

use super::line::text_field;
use super::{Found, Site, Spot};
use crate::vm::Kitchen;
use crate::vm::make::{heading, picture};
use crate::vm::view::{Block, Entry, Link, StepView};

impl Kitchen {
    /// The hand-outs of a home that count, each of which may be taken back.
    pub(super) fn handed_out_blocks(&self, site: &Site, found: &Found) -> Vec<Block> {
        let mut blocks: Vec<Block> = Vec::new();
        let zone = self.site_zone(site);
        for out in &found.home.handed_out {
            let at = zone.to_datetime(out.at);
            let values = [
                ("day", self.words.date(at.date()).into()),
                ("time", self.words.clock(out.at, &zone).into()),
            ];
            let when = self.words.say_with("home-served", &values);
            blocks.push(Block::Action {
                id: format!("undo:{}", out.fact.0),
                label: format!("{when} {}", self.handed_out_words(out)),
                detail: self.words.say("undo-way"),
            });
        }
        if !blocks.is_empty() {
            blocks.insert(0, heading(self.words.say("undo-heading")));
        }
        blocks
    }

    /// "2 packs of 20 tablets. Lot QD9000".
    pub(super) fn handed_out_words(&self, out: &HandedOut) -> String {
        let lines = out.lines.iter().map(|line| {
            let what = self.packs_words(line.packs, line.each, &line.lot.product);
            let values = [("lot", line.lot.lot.as_str().into())];
            format!("{what}. {}", self.words.say_with("slip-lot", &values))
        });
        lines.collect::<Vec<_>>().join(" ")
    }

    pub(super) fn undo_view(&self, site: &Site, fact: FactId) -> StepView {
        let words = &self.words;
        let mut view = StepView::titled(words.say("undo-title"));
        view.small_picture = Some(picture("boxes-lots"));
        if let Some(out) = hand_out_of(site, fact) {
            view.body = vec![self.handed_out_words(out)];
        }
        view.body.push(words.say("undo-body"));
        view.body.push(words.say("undo-receipt"));
        view.entry = Some(Entry {
            fields: vec![text_field(
                "reason",
                words.say("lead-field"),
                site.typed("reason"),
                true,
            )],
            ..Entry::default()
        });
        view.main = Some(self.when_typed(site, "reason", "undone", "undo-main"));
        view.ways = vec![Link::to("to-home", words.say("undo-not"))];
        view
    }

    pub(super) fn press_undo(&mut self, id: &str, now: &Now) -> bool {
        if id == "undone" {
            return self.undone_here(now);
        }
        let fact = id
            .strip_prefix("undo:")
            .and_then(|fact| fact.parse().ok())
            .map(FactId);
        let (Some(fact), Some(site)) = (fact, self.site.as_mut()) else {
            return false;
        };
        site.go(Spot::Undo(fact));
        true
    }

    fn undone_here(&mut self, now: &Now) -> bool {
        let Some(site) = &self.site else {
            return false;
        };
        let (Spot::Undo(fact), Some(home)) = (&site.spot, site.home_id()) else {
            return false;
        };
        let reason = site.typed("reason").to_owned();
        let Some(out) = hand_out_of(site, *fact).filter(|_| !reason.is_empty()) else {
            return true;
        };
        let what = self.handed_out_words(out);
        let back = take_back(out).into_iter().map(|site| Event::Site { site });
        let facts = match site.store.facts_of_home(home) {
            Ok((facts, _)) => facts,
            Err(error) => {
                self.tell_error(&error.into());
                return true;
            }
        };
        let gone = put_right(&facts, *fact, None, Some(&reason));
        let events = gone.into_iter().chain(back);
        let events = events.map(|event| (None, event)).collect();
        if self.write_at_site(now, events) {
            self.show_home(home, now);
            let mut telling = super::told(&self.words, "undo-done", what);
            telling.drawing = "boxes-lots";
            self.telling = Some(telling);
        }
        true
    }
}

fn hand_out_of(site: &Site, fact: FactId) -> Option<&HandedOut> {
    let found = site.found.as_ref()?;
    found.home.handed_out.iter().find(|out| out.fact == fact)
}
