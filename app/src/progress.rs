//! Telling on standard error how far a long plan has come.

use std::time::{Duration, Instant};

use crate::answer;

const FIRST_AFTER: Duration = Duration::from_secs(1);

/// Says nothing for a second, then a line a second.
pub struct Progress {
    next: Instant,
}

impl Progress {
    pub fn start() -> Progress {
        Progress {
            next: Instant::now() + FIRST_AFTER,
        }
    }

    /// To be called whenever something is done.
    pub fn tell(&mut self, done: usize, of: usize) {
        let now = Instant::now();
        if now >= self.next {
            answer::say(&format!("planning: {done} of {of} rounds"));
            self.next = now + FIRST_AFTER;
        }
    }
}
