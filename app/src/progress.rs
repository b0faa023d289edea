//! Telling on standard error how far a long plan has come.

use std::fmt::Display;
use std::time::{Duration, Instant};

use crate::answer;

const FIRST_AFTER: Duration = Duration::from_secs(1);

/// Says nothing for a second, then a line a second.
pub struct Progress {
    /// What is counted.
    what: &'static str,
    next: Instant,
}

impl Progress {
    pub fn start(what: &'static str) -> Progress {
        Progress {
            what,
            next: Instant::now() + FIRST_AFTER,
        }
    }

    /// To be called whenever something is done.
    pub fn tell(&mut self, done: impl Display, of: impl Display) {
        let now = Instant::now();
        if now >= self.next {
            answer::say(&format!("planning: {done} of {of} {}", self.what));
            self.next = now + FIRST_AFTER;
        }
    }
}
