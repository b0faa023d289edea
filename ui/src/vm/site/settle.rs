//! What tablets of a site left to be settled: the list by homes, both readings side by side, and the lead's reason.
//!
//! Nothing is thrown away by a choice: it is one more correction, and a later one can choose otherwise.

use hearthdose_core::record::{Event, Fact, FactId, LotName, SiteEvent, put_right};
use hearthdose_core::site::{HandedOut, Home, Matter, take_back};
use hearthdose_core::time::Now;

use super::line::{short, text_field};
use super::sides::{Side, To};
use super::{Site, Spot, told};
use crate::vm::Kitchen;
use crate::vm::keep::KeepError;
use crate::vm::make::{heading, paragraph, picture};
use crate::vm::view::{Block, Button, Choice, Entry, Link, Note, ReadingView, StepView};

/// Homes shown in the list; the others follow when these are settled.
const MOST: u32 = 40;

/// The matter in front, with everything that is recorded of its home.
pub(super) struct Settling {
    pub(super) home: Home,
    pub(super) matter: Matter,
    pub(super) facts: Vec<Fact>,
    sides: Vec<Side>,
    chosen: Option<usize>,
}

impl Settling {
    fn chosen(&self) -> Option<&Side> {
        self.sides.get(self.chosen?)
    }
}

impl Site {
    /// Asks the record anew what is to be settled.
    pub(super) fn look_for_matters(&mut self) -> Result<(), KeepError> {
        self.settling = None;
        let homes = self.store.homes_to_settle(MOST)?;
        let matters = homes.into_iter().flat_map(|home| {
            let matters = home.to_settle();
            matters
                .into_iter()
                .map(move |matter| (home.clone(), matter))
        });
        self.matters = matters.collect();
        Ok(())
    }

    /// Lots that somebody has to count, because more went out than came in, or whose package has to be read.
    fn lots_to_settle(&self) -> impl Iterator<Item = (&LotName, &'static str)> {
        self.stock.lots().flat_map(|(name, lot)| {
            let below = (lot.packs() < 0).then_some((name, "count"));
            let unlike = lot.unlike.then_some((name, "lot-read"));
            below.into_iter().chain(unlike)
        })
    }

    /// How much is to be settled, homes and shelves together.
    pub(super) fn to_settle(&self) -> usize {
        let homes = self.store.to_settle().unwrap_or(0);
        let homes = usize::try_from(homes).unwrap_or(usize::MAX);
        homes.saturating_add(self.lots_to_settle().count())
    }
}

impl Kitchen {
    /// "3 things to settle", where there are any.
    pub(super) fn settle_way(&self, site: &Site) -> Option<Block> {
        let count = site.to_settle();
        (count > 0).then(|| Block::Action {
            id: "to-settle".to_owned(),
            label: self
                .words
                .say_with("settle-count", &[("count", count.into())]),
            detail: self.words.say("settle-way"),
        })
    }

    /// How helpers find the home, or the beginning of its number.
    pub(super) fn door_words(&self, home: &Home) -> String {
        let number = home.id.to_string();
        let name = home.words.clone();
        name.unwrap_or_else(|| {
            let values = [("number", short(&number).into())];
            self.words.say_with("home-number", &values)
        })
    }

    pub(super) fn settle_reading(&self, site: &Site) -> ReadingView {
        let words = &self.words;
        let mut view = ReadingView::titled(words.say("settle-title"));
        if !site.matters.is_empty() {
            view.lead = words.say("settle-lead");
        }
        for (index, (home, matter)) in site.matters.iter().enumerate() {
            let what = match matter {
                Matter::Twice { .. } => "settle-twice",
                Matter::Codes => "lead-conflicting",
                Matter::Corrections(_) => "settle-changed",
            };
            view.blocks.push(Block::Action {
                id: format!("settle:{index}"),
                label: self.door_words(home),
                detail: words.say(what),
            });
        }
        let mut lots = site.lots_to_settle().peekable();
        if lots.peek().is_some() {
            view.blocks.push(heading(words.say("site-shelves")));
        }
        for (lot, way) in lots {
            let why = match way {
                "count" => "shelves-below-zero",
                _ => "shelves-unlike",
            };
            view.blocks.push(Block::Action {
                id: format!("{way}:{}:{}", lot.product, lot.lot),
                label: words.say_with("slip-lot", &[("lot", lot.lot.as_str().into())]),
                detail: words.say(why),
            });
        }
        if view.blocks.is_empty() {
            view.blocks.push(paragraph(words.say("settle-none")));
        }
        view.main = Some(Button::ready("line", words.say("site-next")));
        view.ways = vec![Link::to("day", words.say("site-day"))];
        view
    }

    /// What each tablet says of it, to choose from.
    pub(super) fn matter_view(&self, site: &Site) -> StepView {
        let words = &self.words;
        let Some(settling) = &site.settling else {
            return StepView::titled(words.say("settle-none"));
        };
        let (title, until) = match &settling.matter {
            Matter::Twice { .. } => ("settle-twice-title", "settle-until-twice"),
            Matter::Codes => ("settle-codes-title", "settle-until-codes"),
            Matter::Corrections(said) => {
                match settling.facts.iter().find(|f| f.id == said.target) {
                    Some(fact) if is_hand_out(&fact.event) => {
                        ("settle-out-title", "settle-until-out")
                    }
                    _ => ("settle-changed-title", "conflict-body"),
                }
            }
        };
        let mut view = StepView::titled(words.say(title));
        view.eyebrow = self.door_words(&settling.home);
        view.note = Some(Note::new(words.say(until), String::new(), None));
        let sides = settling.sides.iter().enumerate();
        view.choices = sides
            .map(|(index, side)| {
                let (id, drawing) = (format!("side:{index}"), side.drawing);
                Choice::new(&id, side.title.clone(), side.detail.clone(), drawing)
            })
            .collect();
        view.ways = vec![Link::to("settle-home", words.say("settle-home"))];
        view
    }

    pub(super) fn because_view(&self, site: &Site) -> StepView {
        let words = &self.words;
        let Some(side) = site.settling.as_ref().and_then(Settling::chosen) else {
            return StepView::titled(words.say("settle-none"));
        };
        let mut view = StepView::titled(words.say("settle-because"));
        view.small_picture = Some(picture(side.drawing));
        view.body = vec![format!("{}. {}", side.title, side.detail)];
        let reason = site.typed("reason");
        view.entry = Some(Entry {
            fields: vec![text_field("reason", words.say("lead-field"), reason, true)],
            ..Entry::default()
        });
        view.main = Some(self.when_typed(site, "reason", "settled", "settle-main"));
        view.ways = vec![Link::to("to-settle", words.say("settle-not"))];
        view
    }

    pub(super) fn press_settle(&mut self, id: &str, now: &Now) -> bool {
        match id {
            "to-settle" => self.show_matters(),
            "settled" => self.settled_here(now),
            "settle-home" => {
                let settling = self.site.as_ref().and_then(|site| site.settling.as_ref());
                if let Some(home) = settling.map(|settling| settling.home.id) {
                    self.show_home(home, now);
                }
            }
            _ => {
                let side = id.strip_prefix("side:").and_then(|at| at.parse().ok());
                let matter = id.strip_prefix("settle:").and_then(|at| at.parse().ok());
                match (side, matter) {
                    (Some(side), _) => self.choose_side(side),
                    (None, Some(matter)) => self.show_matter(matter),
                    (None, None) => return false,
                }
            }
        }
        true
    }

    pub(super) fn show_matters(&mut self) {
        let looked = self.site.as_mut().map(Site::look_for_matters);
        if let Some(Err(error)) = looked {
            self.tell_error(&error);
        }
        if let Some(site) = self.site.as_mut() {
            site.trail.clear();
            site.spot = Spot::Line;
            site.go(Spot::Settle);
        }
    }

    fn show_matter(&mut self, index: usize) {
        let found = self.site.as_ref().and_then(|site| {
            let (home, matter) = site.matters.get(index)?.clone();
            Some(
                site.store
                    .facts_of_home(home.id)
                    .map(|(facts, _)| (home, matter, facts)),
            )
        });
        let (home, matter, facts) = match found {
            Some(Ok(found)) => found,
            Some(Err(error)) => return self.tell_error(&error.into()),
            None => return,
        };
        let mut settling = Settling {
            home,
            matter,
            facts,
            sides: Vec::new(),
            chosen: None,
        };
        settling.sides = self.sides(&settling);
        if let Some(site) = self.site.as_mut() {
            site.settling = Some(settling);
            site.go(Spot::Matter);
        }
    }

    fn choose_side(&mut self, index: usize) {
        if let Some(site) = self.site.as_mut()
            && let Some(settling) = site.settling.as_mut()
        {
            settling.chosen = Some(index);
            site.go(Spot::Because);
        }
    }

    fn settled_here(&mut self, now: &Now) {
        let Some(site) = &self.site else {
            return;
        };
        let reason = site.typed("reason").to_owned();
        let Some(settling) = site.settling.as_ref().filter(|_| !reason.is_empty()) else {
            return;
        };
        let Some(side) = settling.chosen() else {
            return;
        };
        let body = match settling.counts_back(&side.to) {
            lots if lots.is_empty() => side.title.clone(),
            lots => self
                .words
                .say_with("settle-count-lots", &[("lots", lots.join(", ").into())]),
        };
        let events = settling.events(&side.to, &reason);
        let events = events.into_iter().map(|event| (None, event)).collect();
        if self.write_at_site(now, events) {
            self.show_matters();
            self.telling = Some(told(&self.words, "settle-done", body));
        }
    }
}

impl Settling {
    /// What is written down when a side is chosen.
    fn events(&self, to: &To, reason: &str) -> Vec<Event> {
        match to {
            To::Code(seen) => {
                let chosen = self.home.seen.get(*seen);
                chosen.map_or_else(Vec::new, |seen| {
                    self.home.choose_code(seen, &self.facts, reason)
                })
            }
            To::Says(fact, event) => {
                let mut events = put_right(&self.facts, *fact, event.as_ref(), Some(reason));
                let out = self.hand_out(*fact).filter(|_| event.is_none());
                let back = out.iter().flat_map(take_back);
                events.extend(back.map(|site| Event::Site { site }));
                events
            }
        }
    }

    fn hand_out(&self, fact: FactId) -> Option<HandedOut> {
        let fact = self.facts.iter().find(|other| other.id == fact)?;
        match &fact.event {
            Event::Site { site } => HandedOut::of(fact.id, fact.at, fact.stamp.device, site),
            _ => None,
        }
    }

    /// Lots that were noted as back, although what went out stays out: nobody but a count puts that right.
    fn counts_back(&self, to: &To) -> Vec<String> {
        let (To::Says(fact, Some(_)), Matter::Corrections(_)) = (to, &self.matter) else {
            return Vec::new();
        };
        let out = self.hand_out(*fact);
        let lines = out.iter().flat_map(|out| &out.lines);
        lines.map(|line| line.lot.lot.clone()).collect()
    }
}

fn is_hand_out(event: &Event) -> bool {
    matches!(
        event,
        Event::Site {
            site: SiteEvent::HandedOut { .. }
        }
    )
}
