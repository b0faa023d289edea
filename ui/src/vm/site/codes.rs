//! Records of tablets as codes, without a stick: the own one is shown page by page, another one is scanned part by part.
//!
//! A record that is too long for one file of codes is shown as several, each of which is taken in by itself.

use hearthdose_core::exchange::{
    self, Collector, LONGEST_FILE, Progress, Scan, Shift, frames, write_frame,
};
use hearthdose_core::record::{Fact, FactId};
use hearthdose_core::time::Now;

use super::shift::Leaving;
use super::{Site, Spot};
use crate::vm::Kitchen;
use crate::vm::keep::KeepError;
use crate::vm::make::{paragraph, picture};
use crate::vm::ports::Paper;
use crate::vm::view::{Button, Link, ReadingView};

/// How long a page stays that turns by itself, in milliseconds: long enough for the camera of an old tablet.
const PAGE: u64 = 3_000;
/// Of five parts one may be missed.
const SPARE: u32 = 5;

/// Parts of another tablet's record as they come in.
#[derive(Default)]
pub(super) struct Parts {
    collector: Collector,
    /// Parts there, and parts needed.
    pub count: Option<(u32, u32)>,
}

/// The own record as codes.
#[derive(Default)]
pub(super) struct Pages {
    /// Texts of the codes, file by file.
    files: Vec<Vec<String>>,
    file: usize,
    page: usize,
    /// When the page was turned last, where it turns by itself.
    turned: Option<Now>,
}

impl Pages {
    fn of_file(&self) -> usize {
        self.files.get(self.file).map_or(0, Vec::len)
    }

    fn text(&self) -> Option<&String> {
        self.files.get(self.file)?.get(self.page)
    }

    /// After the last page the first one comes again: whoever missed one waits for it.
    fn turn(&mut self) {
        let next = self.page.saturating_add(1);
        self.page = if next < self.of_file() { next } else { 0 };
    }

    pub(super) fn turns_by_itself(&self) -> bool {
        self.turned.is_some()
    }

    /// Turns the page when its time is over.
    pub(super) fn tick(&mut self, now: &Now) {
        if self
            .turned
            .as_ref()
            .is_some_and(|before| passed(before, now))
        {
            self.turned = Some(now.clone());
            self.turn();
        }
    }
}

fn passed(before: &Now, now: &Now) -> bool {
    match (&before.steady, &now.steady) {
        (Some(before), Some(now)) if before.boot == now.boot => {
            now.millis.saturating_sub(before.millis) >= PAGE
        }
        _ => true,
    }
}

/// Why a record is not shown.
enum NotShown {
    Said(&'static str),
    Store(KeepError),
}

impl<E: Into<KeepError>> From<E> for NotShown {
    fn from(error: E) -> NotShown {
        NotShown::Store(error.into())
    }
}

impl Site {
    /// Arrivals behind `since` up to `until`, as files that codes have place for; `random` gives bytes never used before.
    fn files(
        &self,
        now: &Now,
        leaving: &Leaving,
        random: &mut dyn FnMut() -> Option<[u8; 32]>,
        (since, until): (u64, u64),
    ) -> Result<Vec<Vec<u8>>, NotShown> {
        let shift = Shift {
            device: self.device,
            made: exchange::minute(now.wall),
            first: since.saturating_add(1),
            facts: self.between(since, until)?,
            of: None,
        };
        let (bytes, _) = leaving.write(shift, random()).map_err(NotShown::Said)?;
        let middle = since.midpoint(until);
        if bytes.len() <= LONGEST_FILE || middle == since {
            return Ok(vec![bytes]);
        }
        let mut files = self.files(now, leaving, random, (since, middle))?;
        files.extend(self.files(now, leaving, random, (middle, until))?);
        Ok(files)
    }

    fn between(&self, since: u64, until: u64) -> Result<Vec<Fact>, KeepError> {
        let later = self.store.facts_since(until)?;
        let later: std::collections::BTreeSet<FactId> = later.iter().map(|fact| fact.id).collect();
        let mut facts = self.store.facts_since(since)?;
        facts.retain(|fact| !later.contains(&fact.id));
        Ok(facts)
    }
}

impl Kitchen {
    pub(super) fn press_codes(&mut self, id: &str, now: &Now) -> bool {
        match id {
            "read-part" => {
                let text = self.site.as_ref().map(|site| site.typed("code").to_owned());
                self.take_part(&text.unwrap_or_default());
            }
            "look-for-parts" => {
                let found = self.records.codes();
                if found.is_empty()
                    && let Some(site) = self.site.as_mut()
                {
                    site.say("receive-none");
                }
                for text in found {
                    if self.telling.is_none() {
                        self.take_part(&text);
                    }
                }
            }
            "show-shift" => match self.show_shift(now) {
                Err(NotShown::Said(why)) => self.tell("print-not", why),
                Err(NotShown::Store(error)) => self.tell_error(&error),
                Ok(()) => {}
            },
            "next-page" | "by-itself" | "by-hand" | "next-file" => {
                let Some(site) = self.site.as_mut() else {
                    return false;
                };
                let pages = &mut site.pages;
                match id {
                    "by-itself" => pages.turned = Some(now.clone()),
                    "by-hand" => pages.turned = None,
                    "next-file" => {
                        let next = pages.file.saturating_add(1);
                        pages.file = if next < pages.files.len() { next } else { 0 };
                        pages.page = 0;
                    }
                    _ => pages.turn(),
                }
            }
            _ => return false,
        }
        true
    }

    fn show_shift(&mut self, now: &Now) -> Result<(), NotShown> {
        let random = self.ids.device_random();
        let secret = random.ok_or(NotShown::Said("print-not-body"))?.key("");
        let Some(site) = self.site.as_mut() else {
            return Ok(());
        };
        let until = site.store.arrivals()?;
        let leaving = Leaving::of(site, secret)?;
        let ids = &mut self.ids;
        let files = site.files(now, &leaving, &mut || ids.random(), (0, until))?;
        let mut pages = Pages::default();
        for file in files {
            let needed = u32::try_from(file.len().div_ceil(exchange::SYMBOL)).unwrap_or(u32::MAX);
            let Ok(frames) = frames(&file, needed.div_ceil(SPARE)) else {
                // One entry alone that is too long for codes goes by file only.
                self.tell("codes-not", "codes-not-body");
                return Ok(());
            };
            pages
                .files
                .push(frames.iter().filter_map(write_frame).collect());
        }
        site.pages = pages;
        site.go(Spot::Codes);
        Ok(())
    }

    /// A page turns by itself only while it is seen.
    pub(super) fn turn_page(&mut self, now: &Now) {
        if let Some(site) = self.site.as_mut().filter(|site| site.spot == Spot::Codes) {
            site.pages.tick(now);
        }
    }

    /// One of the own codes.
    pub(super) fn codes_reading(&self, site: &Site) -> ReadingView {
        let words = &self.words;
        let pages = &site.pages;
        let mut view = ReadingView::titled(words.say("codes-title"));
        let count = |at: usize, of: usize| {
            let at = at.saturating_add(1);
            [
                ("number", at.to_string().into()),
                ("of", of.to_string().into()),
            ]
        };
        view.lead = words.say_with("codes-page", &count(pages.page, pages.of_file()));
        if let Some(text) = pages.text() {
            view.picture = Some(picture(&format!("code:{text}")));
        }
        if pages.files.len() > 1 {
            let values = count(pages.file, pages.files.len());
            view.blocks
                .push(paragraph(words.say_with("codes-file", &values)));
        }
        view.blocks.push(paragraph(words.say("codes-body")));
        view.main = Some(match pages.turns_by_itself() {
            true => Button::ready("by-hand", words.say("codes-by-hand")),
            false => Button::ready("next-page", words.say("codes-next")),
        });
        if !pages.turns_by_itself() {
            view.ways
                .push(Link::to("by-itself", words.say("codes-by-itself")));
        }
        if pages.files.len() > 1 {
            view.ways
                .push(Link::to("next-file", words.say("codes-next-file")));
        }
        view
    }

    /// A code that came before the camera or out of a scanner.
    pub(in crate::vm) fn code_at_site(&mut self, text: &str, now: &Now) {
        let at_shift = self
            .site
            .as_ref()
            .is_some_and(|site| site.spot == Spot::Shift);
        match at_shift {
            true => self.take_part(text),
            false => self.scan_home(text, now),
        }
    }

    /// One part; the last one that was missing takes the record in.
    fn take_part(&mut self, text: &str) {
        let Some(site) = self.site.as_mut() else {
            return;
        };
        site.typed.clear();
        site.said = None;
        let said = match Scan::read(text.trim_matches(['\r', '\n', '\t', ' '])) {
            Scan::Part(frame) => match site.parts.collector.take(frame) {
                Progress::More { have, needed } => {
                    site.parts.count = Some((have, needed));
                    return;
                }
                Progress::Whole(bytes) => return self.take_parts(bytes),
                Progress::OtherFile => "receive-other-file",
            },
            Scan::Newer => "receive-newer",
            Scan::Damaged | Scan::SignatureWrong => "receive-damaged",
            Scan::Message(_) | Scan::Sealed(_) | Scan::Foreign => "codes-not-a-part",
        };
        site.say(said);
    }

    /// A whole record, treated as if its file lay on a stick.
    fn take_parts(&mut self, bytes: Vec<u8>) {
        let place = self.words.say("receive-place");
        let Some(site) = self.site.as_mut() else {
            return;
        };
        site.parts = Parts::default();
        site.papers.retain(|paper| paper.bytes != bytes);
        site.papers.push(Paper {
            name: String::new(),
            place,
            bytes,
        });
        let last = site.papers.len().saturating_sub(1);
        self.take_shift(last, false);
    }
}
