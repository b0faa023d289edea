//! Orders and notices that lie in this device's usual folders: found, compared by a person, taken in.
//!
//! A file is read afresh each time it is looked at, and the very bytes that were checked are the ones that are kept.

use hearthdose_core::order::compare::{Detail, Field};
use hearthdose_core::order::{self, Change, CheckedOrder, Notice, Problem};
use hearthdose_core::record::{Event, HouseholdWords};
use hearthdose_core::schedule;
use hearthdose_core::time::Now;
use jiff::civil::Time;

use super::keep::checked;
use super::make::{heading, paragraph, picture};
use super::ports::{Paper, Shelf};
use super::setup::SetUp;
use super::view::{Block, Button, Choice, Link, Note, ReadingView, StepView};
use super::{Kitchen, Place, Reading};
use crate::text::Reader;

/// What a file turned out to be.
enum Kind {
    Order(Box<CheckedOrder>),
    Notice(Box<Notice>),
    /// Meant as an order or notice, but not usable.
    Bad(Vec<Problem>),
}

impl Kitchen {
    /// The files as choices.
    pub(super) fn papers_view(&self) -> StepView {
        let words = &self.words;
        let mut view = StepView::titled(words.say("papers-title"));
        view.body = vec![words.say("papers-body")];
        for (index, paper) in self.papers.iter().enumerate() {
            let id = format!("paper:{index}");
            let from = words.say_with("paper-from", &[("place", paper.place.as_str().into())]);
            let choice = match kind_of(paper) {
                Kind::Order(order) => {
                    let values = [
                        ("issuer", order.issuer.as_str().into()),
                        ("revision", order.revision.to_string().into()),
                    ];
                    let detail = words.say_with("paper-order", &values);
                    let title = self.title_of(&order);
                    Choice::new(&id, title, format!("{detail} {from}"), "order-paper")
                }
                Kind::Notice(notice) => {
                    let detail = words
                        .say_with("paper-notice", &[("issuer", notice.issuer.as_str().into())]);
                    let title = words.say(notice_title(&notice));
                    Choice::new(&id, title, format!("{detail} {from}"), "order-paper")
                }
                Kind::Bad(_) => Choice::new(
                    &id,
                    paper.name.clone(),
                    format!("{} {from}", words.say("paper-bad")),
                    "hold",
                ),
            };
            view.choices.push(choice);
        }
        if self.papers.is_empty() {
            view.note = Some(Note::new(
                words.say("papers-none"),
                words.say("papers-none-body"),
                None,
            ));
        }
        view.ways = vec![
            Link::to("look-for-papers", words.say("papers-again")),
            Link::to("receive-code", words.say("receive-title")),
        ];
        view
    }

    /// One file: what it is, and what to compare before it is followed.
    pub(super) fn paper_reading(&self, index: usize) -> ReadingView {
        let words = &self.words;
        let Some(paper) = self.papers.get(index) else {
            return ReadingView::titled(words.say("papers-none"));
        };
        match kind_of(paper) {
            Kind::Order(order) => self.order_to_take(&order),
            Kind::Notice(notice) => self.notice_to_take(&notice),
            Kind::Bad(problems) => {
                let mut view = ReadingView::titled(words.say("paper-bad"));
                view.lead = paper.name.clone();
                view.picture = Some(picture("hold"));
                view.blocks = problems
                    .iter()
                    .filter(|problem| problem.severity == order::Severity::Error)
                    .map(|problem| Block::Item {
                        mark: String::new(),
                        words: words.only_in("en", &problem.text).to_owned(),
                        detail: problem.place.clone(),
                    })
                    .collect();
                view.blocks.push(paragraph(words.say("paper-bad-body")));
                view
            }
        }
    }

    fn order_to_take(&self, new: &CheckedOrder) -> ReadingView {
        let words = &self.words;
        let mut view = ReadingView::titled(words.say("take-order-title"));
        view.lead = self.title_of(new);
        view.picture = Some(picture("order-paper"));
        let row = |left: &str, right: String| Block::Row {
            left: words.say(left),
            middle: String::new(),
            right,
        };
        if new.invented {
            view.blocks.push(paragraph(words.say("order-invented")));
        }
        let about = vec![
            heading(words.say_with("order-mark-is", &[("mark", new.fingerprint.short().into())])),
            paragraph(words.say("order-unsigned")),
            row("order-from", new.issuer.clone()),
            row("order-revision", new.revision.to_string()),
        ];
        match self.known(&new.id) {
            Some(old) if old.fingerprint == new.fingerprint => {
                view.title = words.say("take-order-same");
                view.blocks = vec![paragraph(words.say("take-order-same-body"))];
                view.blocks.extend(about);
                view.main = Some(Button::ready("to-today", words.say("done-main")));
                return view;
            }
            Some(old) if new.revision <= old.revision => {
                view.title = words.say("take-order-older");
                view.blocks = vec![paragraph(words.say("take-order-older-body"))];
                view.blocks.extend(about);
                view.main = Some(Button::ready("to-today", words.say("done-main")));
                return view;
            }
            Some(old) => {
                // What changes comes first: nobody says yes to what was not seen.
                view.title = words.say("take-order-changes");
                view.blocks.extend(self.changes(old, new));
                view.blocks.extend(about);
                view.main = Some(Button::ready("take-paper", words.say("take-order-new")));
            }
            None if self.open.is_some() => {
                view.title = words.say("take-order-another");
                view.blocks.extend(about);
                view.main = Some(Button::ready(
                    "take-paper-too",
                    words.say("take-order-here"),
                ));
                let other = Link::to("take-paper", words.say("take-order-elsewhere"));
                view.ways = vec![other];
            }
            None => {
                view.blocks.extend(about);
                view.main = Some(Button::ready("take-paper", words.say("take-order-main")));
            }
        }
        view.ways
            .push(Link::to("not-this-paper", words.say("take-order-not")));
        view
    }

    /// What a newer revision changes, line by line.
    fn changes(&self, old: &CheckedOrder, new: &CheckedOrder) -> Vec<Block> {
        // Names of foods and of others stand in the changes as the order has them.
        self.words.title(new);
        self.words.medicine(new);
        order::compare(old, new)
            .iter()
            .filter(|change| concerns_a_family(change))
            .enumerate()
            .map(|(index, change)| Block::Item {
                mark: (index + 1).to_string(),
                words: sentence(&self.words.change(change, Reader::Kitchen)),
                detail: String::new(),
            })
            .collect()
    }

    /// The order of this id that the open home follows.
    fn known(&self, id: &str) -> Option<&CheckedOrder> {
        let open = self.open.as_ref()?;
        open.orders().into_iter().find(|order| order.id == id)
    }

    fn notice_to_take(&self, notice: &Notice) -> ReadingView {
        let concerns = self
            .open
            .as_ref()
            .is_some_and(|open| open.orders().iter().any(|order| notice.applies_to(order)));
        self.notice_reading(notice, concerns)
    }

    /// A message of the issuer, to be compared before it is taken in.
    pub(super) fn notice_reading(&self, notice: &Notice, concerns: bool) -> ReadingView {
        let words = &self.words;
        let mut view = ReadingView::titled(words.say(notice_title(notice)));
        view.lead = notice.issuer.clone();
        view.picture = Some(picture("order-paper"));
        view.blocks = vec![
            paragraph(words.of_order(&notice.text).to_owned()),
            Block::Row {
                left: words.say("order-mark"),
                middle: String::new(),
                right: notice.fingerprint.short(),
            },
        ];
        if concerns {
            view.blocks.push(paragraph(words.say("order-unsigned")));
            view.main = Some(Button::ready("take-paper", words.say("take-notice")));
            view.ways = vec![Link::to("not-this-paper", words.say("take-order-not"))];
        } else {
            view.blocks.push(Block::Note(Note::new(
                words.say("notice-other"),
                words.say("notice-other-body"),
                None,
            )));
        }
        view
    }

    pub(super) fn look_for_papers(&mut self) {
        self.papers = self.records.papers();
    }

    /// Takes in the file that is being looked at: a person compared its mark.
    pub(super) fn take_paper(&mut self, now: &Now) {
        let Place::Reading(Reading::Paper(index)) = self.place else {
            return;
        };
        let Some(paper) = self.papers.get(index).cloned() else {
            return;
        };
        match kind_of(&paper) {
            Kind::Bad(_) => {}
            Kind::Notice(_) => {
                let Ok(text) = String::from_utf8(paper.bytes) else {
                    return;
                };
                if self.record(now, vec![Event::NoticeTaken { text }]) {
                    self.trail.clear();
                    self.place = Place::Today;
                }
            }
            Kind::Order(order) => {
                let same = self
                    .open
                    .as_ref()
                    .is_some_and(|open| open.order.id == order.id);
                if same {
                    self.take_revision(&paper.bytes, *order, now);
                } else if let Err(error) = self.begin_home(&paper.bytes) {
                    self.tell_error(&error);
                }
            }
        }
    }

    /// Takes in one more order for the home that is open.
    pub(super) fn take_paper_too(&mut self, now: &Now) {
        let Place::Reading(Reading::Paper(index)) = self.place else {
            return;
        };
        if let Some(paper) = self.papers.get(index).cloned()
            && let Kind::Order(order) = kind_of(&paper)
        {
            self.take_other_order(&paper.bytes, *order, now);
        }
    }

    fn take_revision(&mut self, bytes: &[u8], order: CheckedOrder, now: &Now) {
        let newer = self
            .known(&order.id)
            .is_some_and(|old| order.revision > old.revision);
        if !newer {
            return;
        }
        let Some(event) = self.put_order(bytes, &order) else {
            return;
        };
        if self.record(now, vec![event]) {
            if let Some(open) = self.open.as_mut() {
                open.put_in_front(&order.id);
                open.order = order;
            }
            self.trail.clear();
            self.place = Place::Today;
            self.refresh();
        }
    }

    /// A new home on this device, which follows this order; its people come next.
    ///
    /// # Errors
    /// An order with problems, or what the store says.
    pub fn begin_home(&mut self, order_file: &[u8]) -> Result<(), super::keep::KeepError> {
        let order = checked(order_file)?;
        let zone = self.clock.zone();
        let zone = if schedule::zone(&zone).is_ok() {
            zone
        } else {
            order.time_zone.clone()
        };
        let now = self.clock.now();
        let day = schedule::zone(&zone)
            .map(|zone| zone.to_datetime(now.wall).date())
            .unwrap_or_default();
        let number = self.records.homes().into_iter().max().unwrap_or(0) + 1;
        let household = HouseholdWords {
            name: String::new(),
            zone,
            start: day,
            rounds: vec![Time::constant(8, 0, 0, 0), Time::constant(20, 0, 0, 0)],
            first_dose_at: None,
            fresh: false,
            practice: false,
        };
        self.begin_household(Shelf::Household(number), order_file, household, Vec::new())?;
        if let Some(open) = self.open.as_mut() {
            open.set_up = Some(SetUp::new());
        }
        self.keep_set_up();
        self.place = Place::SetUp;
        Ok(())
    }

    pub(super) fn title_of(&self, order: &CheckedOrder) -> String {
        self.words.title(order).to_owned()
    }
}

/// Sources, cross-checks and package numbers are for those who write and check orders.
fn concerns_a_family(change: &Change) -> bool {
    match change {
        Change::Field { field, .. } => !matches!(
            field,
            Field::Source
                | Field::PerKg
                | Field::MaxDose
                | Field::Tolerance
                | Field::SealingKey
                | Field::Split
                | Field::Languages
        ),
        Change::Detail { detail, .. } => !matches!(
            detail,
            Detail::PrintedMass | Detail::Reason | Detail::PackageNumbers | Detail::DrugCodes
        ),
        _ => true,
    }
}

fn kind_of(paper: &Paper) -> Kind {
    if let Ok(notice) = order::parse_notice(&paper.bytes) {
        return Kind::Notice(Box::new(notice));
    }
    match checked(&paper.bytes) {
        Ok(order) => Kind::Order(Box::new(order)),
        Err(super::keep::KeepError::Order(problems)) => Kind::Bad(problems),
        Err(_) => Kind::Bad(Vec::new()),
    }
}

pub(super) fn notice_title(notice: &Notice) -> &'static str {
    match notice.kind() {
        "stop" => "notice-stop",
        "shorten" => "notice-shorten",
        "renew" => "notice-renew",
        "extend-lot" => "notice-extend-lot",
        "quarantine-lot" => "notice-quarantine-lot",
        "recall-lot" => "notice-recall-lot",
        "water" => "notice-water",
        _ => "notice-collection",
    }
}

/// A line that begins large and ends with a point.
fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    let first: String = letters
        .next()
        .map(|c| c.to_uppercase().collect())
        .unwrap_or_default();
    let end = if text.ends_with('.') { "" } else { "." };
    format!("{first}{}{end}", letters.as_str())
}
