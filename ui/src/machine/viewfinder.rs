//! The camera as screens know it: a thread of its own takes frames and reads codes, so that the window never waits.
//!
//! What is before the lens is a frame at a time; where they come from is the business of [`Lenses`].

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::thread::JoinHandle;
use std::time::{Duration, Instant};

use crate::scan::{Cascade, Frame, Scanner, Symbol};
use crate::vm::ports::{Camera, Mirrored, NoSight, Sight};

/// Width in pixels of what is shown on a screen, at least.
const SHOWN: usize = 320;
/// A code is told once more when it was away for so long.
const AWAY: Duration = Duration::from_secs(3);
/// A camera that nobody looks through turns off by itself.
const UNWATCHED: Duration = Duration::from_secs(3);
/// Until the next try where a camera cannot be used.
const RETRY: Duration = Duration::from_millis(700);
/// Codes that wait to be looked at; more are a flood.
const MOST: usize = 64;

/// A camera that is on.
pub trait Lens {
    /// The newest frame; none when none came in a fifth of a second.
    ///
    /// # Errors
    /// Why there is nothing to see any more.
    fn frame(&mut self) -> Result<Option<Frame>, NoSight>;
}

/// The cameras of a machine.
pub trait Lenses: Send + Sync + 'static {
    /// Whether there is one; quickly answered.
    fn are_there(&self) -> bool;

    /// Turns one on; may take its time.
    ///
    /// # Errors
    /// Why that cannot be done now.
    fn open(&self) -> Result<Box<dyn Lens>, NoSight>;
}

/// A [`Camera`] over the lenses of this machine.
pub struct Viewfinder {
    lenses: Arc<dyn Lenses>,
    told: Arc<Mutex<Told>>,
    watch: Option<Arc<Watch>>,
    thread: Option<JoinHandle<()>>,
}

/// What the thread and the window share.
struct Watch {
    state: Mutex<State>,
}

struct State {
    watched: Instant,
    off: bool,
    light: Light,
    codes: Vec<Vec<String>>,
}

enum Light {
    Dark,
    Unseen(NoSight),
    Picture(Mirrored),
}

impl Viewfinder {
    pub fn of(lenses: Arc<dyn Lenses>) -> Viewfinder {
        Viewfinder {
            lenses,
            told: Arc::default(),
            watch: None,
            thread: None,
        }
    }

    fn turn_on(&mut self) -> Arc<Watch> {
        let watch = Arc::new(Watch::begun());
        let (lenses, told, shared) = (
            Arc::clone(&self.lenses),
            Arc::clone(&self.told),
            Arc::clone(&watch),
        );
        // The thread before has the camera until it ends.
        let before = self.thread.take();
        let work = move || {
            if let Some(before) = before {
                let _ = before.join();
            }
            shared.work(lenses.as_ref(), &told);
        };
        let named = std::thread::Builder::new().name("camera".to_owned());
        self.thread = named.spawn(work).ok();
        self.watch = Some(Arc::clone(&watch));
        watch
    }
}

impl Camera for Viewfinder {
    fn is_there(&self) -> bool {
        self.lenses.are_there()
    }

    fn look(&mut self) -> Sight {
        if !self.lenses.are_there() {
            self.rest();
            return Sight::Nothing;
        }
        let runs = self
            .thread
            .as_ref()
            .is_some_and(|thread| !thread.is_finished());
        let watch = self.watch.as_ref().filter(|_| runs);
        match watch.and_then(|watch| watch.look()) {
            Some(sight) => sight,
            None => {
                self.turn_on();
                Sight::Dark
            }
        }
    }

    fn rest(&mut self) {
        if let Some(watch) = self.watch.take() {
            watch.state().off = true;
        }
    }
}

impl Drop for Viewfinder {
    fn drop(&mut self) {
        self.rest();
    }
}

impl Watch {
    fn begun() -> Watch {
        Watch {
            state: Mutex::new(State {
                watched: Instant::now(),
                off: false,
                light: Light::Dark,
                codes: Vec::new(),
            }),
        }
    }

    /// Half a state is none: each field is set whole, so one of a thread that ended by force is as good.
    fn state(&self) -> MutexGuard<'_, State> {
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// What there is to see; none when the thread has ended.
    fn look(&self) -> Option<Sight> {
        let mut state = self.state();
        if state.off {
            return None;
        }
        state.watched = Instant::now();
        Some(match &state.light {
            Light::Dark => Sight::Dark,
            Light::Unseen(why) => Sight::Unseen(*why),
            Light::Picture(picture) => Sight::Seen {
                picture: picture.clone(),
                codes: std::mem::take(&mut state.codes),
            },
        })
    }

    /// Whether the thread should go on; a camera left alone turns itself off.
    fn goes_on(&self) -> bool {
        let mut state = self.state();
        state.off |= state.watched.elapsed() > UNWATCHED;
        !state.off
    }

    fn work(&self, lenses: &dyn Lenses, told: &Mutex<Told>) {
        let mut scanner = Cascade::quick();
        while self.goes_on() {
            let why = match lenses.open() {
                Ok(mut lens) => loop {
                    if !self.goes_on() {
                        return;
                    }
                    match lens.frame() {
                        Ok(Some(frame)) => self.take(&frame, &mut scanner, told),
                        Ok(None) => {}
                        Err(why) => break why,
                    }
                },
                Err(why) => why,
            };
            self.state().light = Light::Unseen(why);
            let failed = Instant::now();
            while failed.elapsed() < RETRY && self.goes_on() {
                std::thread::sleep(Duration::from_millis(50));
            }
        }
    }

    fn take(&self, frame: &Frame, scanner: &mut dyn Scanner, told: &Mutex<Told>) {
        let picture = mirrored(frame);
        if let Some(picture) = picture {
            self.state().light = Light::Picture(picture);
        }
        let found = scanner.scan_all(frame, Symbol::Qr);
        let texts = found.into_iter().map(|found| found.text).collect();
        let mut told = told.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(news) = told.news(texts, Instant::now()) {
            let mut state = self.state();
            if state.codes.len() < MOST {
                state.codes.push(news);
            }
        }
    }
}

/// What was before the camera lately, so that a code held there is told once and not with every frame.
#[derive(Default)]
struct Told {
    seen: BTreeMap<Vec<String>, Instant>,
}

impl Told {
    /// The codes of one frame, if they are to be told.
    fn news(&mut self, mut codes: Vec<String>, now: Instant) -> Option<Vec<String>> {
        self.seen
            .retain(|_, last| now.saturating_duration_since(*last) < AWAY);
        if codes.is_empty() {
            return None;
        }
        codes.sort();
        let before = self.seen.insert(codes.clone(), now);
        before.is_none().then_some(codes)
    }
}

/// The frame as a person wants it who holds something up: small, and left where left is.
fn mirrored(frame: &Frame) -> Option<Mirrored> {
    let small = frame.smaller((frame.width() / SHOWN).max(1))?;
    let rows = small.pixels().chunks(small.width());
    Some(Mirrored {
        width: u32::try_from(small.width()).ok()?,
        height: u32::try_from(small.height()).ok()?,
        pixels: rows.flat_map(|row| row.iter().rev().copied()).collect(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn codes(texts: &[&str]) -> Vec<String> {
        texts.iter().map(|text| (*text).to_owned()).collect()
    }

    #[test]
    fn a_code_is_told_once_until_it_was_away() {
        let mut told = Told::default();
        let start = Instant::now();
        let at = |millis| start + Duration::from_millis(millis);
        assert_eq!(told.news(codes(&["A"]), at(0)), Some(codes(&["A"])));
        // Held for ten seconds, and missed now and then.
        for millis in (33..10_000).step_by(33) {
            let seen = if millis % 5 == 0 {
                vec![]
            } else {
                codes(&["A"])
            };
            assert_eq!(told.news(seen, at(millis)), None, "{millis}");
        }
        // A second one beside it is another thing to tell, in whatever order they are found.
        assert_eq!(
            told.news(codes(&["B", "A"]), at(10_000)),
            Some(codes(&["A", "B"]))
        );
        assert_eq!(told.news(codes(&["A", "B"]), at(10_033)), None);
        assert_eq!(told.news(codes(&["B"]), at(10_066)), Some(codes(&["B"])));
        assert_eq!(told.news(codes(&["A"]), at(14_000)), Some(codes(&["A"])));
    }

    #[test]
    fn the_picture_is_small_and_a_mirror() {
        let row: Vec<u8> = (0..640).map(|at| if at < 320 { 0 } else { 200 }).collect();
        let frame = Frame::new(640, 4, row.repeat(4)).unwrap();
        let seen = mirrored(&frame).unwrap();
        assert_eq!((seen.width, seen.height), (320, 2));
        assert_eq!((seen.pixels[0], seen.pixels[319]), (200, 0));
        let tiny = Frame::new(2, 1, vec![1, 2]).unwrap();
        assert_eq!(mirrored(&tiny).unwrap().pixels[..], [2, 1]);
    }
}
