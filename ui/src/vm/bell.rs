//! Ringing: a timer for a soak, an alarm for the next round.
//!
//! Nothing rings unless somebody asks for it here, because only people know whether they may be woken.
//! A phone rings by its own clock then, whether this program runs or not; a computer while the window is open.

use hearthdose_core::prep::Stage;
use hearthdose_core::time::Now;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};

use super::ports::Ring;
use super::view::{Intent, Link};
use super::{Kitchen, Open, Place};

impl Kitchen {
    /// The way to the device's timer on the soak step; none where nothing rings.
    pub(super) fn timer_way(&self) -> Option<Link> {
        self.may_ring()
            .then(|| Link::to("ring-timer", self.words.say("bell-timer")))
    }

    /// The way to the device's alarm on Today, while the start lies ahead and within a day.
    pub(super) fn alarm_way(&self, open: &Open, now: &Now) -> Option<Link> {
        self.may_ring().then_some(())?;
        let start = self.next_start(open, now)?;
        let zone = &open.today.as_ref()?.as_ref().ok()?.zone;
        let time = self.words.clock(start, zone);
        let label = self.words.say_with("bell-alarm", &[("time", time.into())]);
        Some(Link::to("ring-alarm", label))
    }

    /// A clock of the device's own always sounds, so it is not offered where no sound is wished.
    fn may_ring(&self) -> bool {
        let bell = self.bell.as_ref();
        bell.is_some_and(|bell| self.settings.sound || !bell.shows_itself())
    }

    /// Presses about ringing; false when the id belongs elsewhere.
    pub(super) fn press_bell(&mut self, id: &str, now: &Now) -> bool {
        let ring = match id {
            "ring-timer" => self.timer(now),
            "ring-alarm" => self.alarm(now),
            _ => return false,
        };
        let (rings, shown) = match (&mut self.bell, ring) {
            (Some(bell), Some(ring)) => (bell.ring(&ring), bell.shows_itself()),
            // The moment has passed meanwhile.
            _ => return true,
        };
        if !rings {
            self.tell("told-no-bell", "told-no-bell-body");
        } else if !shown {
            self.tell("told-bell-set", "told-bell-set-body");
        }
        true
    }

    /// Somebody who does something has heard it.
    pub(super) fn hush(&mut self, intent: &Intent) {
        if *intent != Intent::Tick
            && let Some(bell) = &mut self.bell
        {
            bell.hush();
        }
    }

    fn timer(&self, now: &Now) -> Option<Ring> {
        let round = self
            .open
            .as_ref()?
            .round()
            .filter(|_| self.place == Place::Round)?;
        let Stage::Soak { left, .. } = round.prep.stage(now) else {
            return None;
        };
        // A timer has whole seconds, and no wait may be cut short.
        let whole = left.as_secs() + i64::from(left.subsec_nanos() > 0);
        Some(Ring::After {
            seconds: i32::try_from(whole).ok().filter(|seconds| *seconds > 0)?,
            words: self.words.say("bell-timer-words"),
        })
    }

    fn alarm(&self, now: &Now) -> Option<Ring> {
        let start = self.next_start(self.open.as_ref()?, now)?;
        // The device's clock rings by the device's own zone.
        let zone = TimeZone::get(&self.clock.zone()).ok()?;
        let there = zone.to_datetime(start);
        Some(Ring::At {
            hour: there.hour(),
            minute: there.minute(),
            words: self.words.say("bell-alarm-words"),
        })
    }

    /// When to begin the next round, where that is ahead and an hour and minute still name it.
    fn next_start(&self, open: &Open, now: &Now) -> Option<Timestamp> {
        let start = start(open)?;
        let ahead = start.duration_since(now.wall);
        (ahead >= SignedDuration::from_mins(1) && ahead < SignedDuration::from_hours(24))
            .then_some(start)
    }
}

/// When to begin the next round.
pub(super) fn start(open: &Open) -> Option<Timestamp> {
    let today = open.today.as_ref()?.as_ref().ok()?;
    let lead = today.pace(super::table::soak(open)).lead();
    today.next_at()?.checked_sub(lead).ok()
}
