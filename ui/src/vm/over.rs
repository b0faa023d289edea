//! The end of a wait, shown without a sound: on its own page the window flashes,
//! everywhere else a banner says which wait is over and leads there.

use hearthdose_core::prep::Stage;
use hearthdose_core::time::Now;

use super::view::{Intent, Link};
use super::{Kitchen, Open, Place};

/// The id of the banner.
const GO: &str = "to-wait";

/// What is waited for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Wait {
    /// Tablets soften.
    Soak,
    /// The time to begin the next round.
    Start,
}

/// What was waited for when it was looked at last.
#[derive(Debug, Default)]
pub(super) struct Waits {
    under_way: Option<Wait>,
    /// Over, and nobody has gone on with it yet.
    over: Option<Wait>,
    /// Nobody has done anything since it is over.
    unseen: bool,
}

impl Kitchen {
    /// Notices that a wait came to its end while the program ran.
    pub(super) fn mind_waits(&mut self, intent: &Intent, now: &Now) {
        let (under_way, over) = self
            .open
            .as_ref()
            .map_or((None, None), |open| waits(open, now));
        let waits = &mut self.waits;
        if *intent != Intent::Tick {
            waits.unseen = false;
        }
        if over.is_some() && waits.under_way == over {
            waits.over = over;
            waits.unseen = true;
        } else if waits.over != over {
            waits.over = None;
            waits.unseen = false;
        }
        waits.under_way = under_way;
    }

    /// Takes a press on the banner.
    pub(super) fn goes_to_wait(&mut self, intent: &Intent) -> bool {
        let asked = matches!(intent, Intent::Press { id } if id == GO);
        if !asked || self.banner().is_none() {
            return asked;
        }
        if self.site.is_some() {
            self.leave_site();
        }
        match self.waits.over {
            Some(Wait::Soak) => self.show_round(),
            Some(Wait::Start) => self.show_today(),
            None => {}
        }
        true
    }

    /// Which wait is over, where its own page is not the one that is seen.
    pub(super) fn banner(&self) -> Option<Link> {
        let over = self.waits.over?;
        let at_site = self.site.as_ref();
        // What has to be read first stays alone, and a family half typed in would be lost.
        if self.telling.is_some() || at_site.is_some_and(|site| site.types_family()) {
            return None;
        }
        let there = match over {
            Wait::Soak => self.place == Place::Round,
            Wait::Start => self.place == Place::Today,
        };
        let busy = self.open.as_ref()?.set_up.is_some() && over == Wait::Start;
        if at_site.is_none() && there || busy {
            return None;
        }
        let words = self.words.say(match over {
            Wait::Soak => "over-soak",
            Wait::Start => "over-start",
        });
        Some(Link::to(GO, words))
    }

    /// Whether the window flashes, until somebody does anything.
    pub(super) fn flashes(&self) -> bool {
        self.settings.flash && self.waits.unseen
    }

    /// Whether the end of a wait, or what became of a voice, is to be noticed within a second.
    pub(super) fn waits_closely(&self) -> bool {
        self.voicing || self.waits.under_way == Some(Wait::Soak)
    }
}

/// What is under way, and what is over and not gone on with.
fn waits(open: &Open, now: &Now) -> (Option<Wait>, Option<Wait>) {
    let either = |wait: Wait, over: bool| {
        if over {
            (None, Some(wait))
        } else {
            (Some(wait), None)
        }
    };
    let round = open.round().map(|round| round.prep.stage(now));
    match round {
        Some(Stage::Soak { left, .. }) => either(Wait::Soak, !left.is_positive()),
        Some(stage) if stage != Stage::Done => (None, None),
        _ => match super::bell::start(open) {
            Some(start) => either(Wait::Start, start <= now.wall),
            None => (None, None),
        },
    }
}
