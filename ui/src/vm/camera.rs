//! Codes held before a camera, where a screen waits for one: taken in exactly as if they were typed.
//!
//! The camera is on only while such a screen is seen.

use hearthdose_core::exchange::{MARK, Scan};
use hearthdose_core::time::Now;

use super::make::picture;
use super::ports::{Camera, Mirrored, NoSight, Sight};
use super::site::Site;
use super::view::{Note, StepView};
use super::{Kitchen, Place};

/// The camera of this device, and what it showed last.
#[derive(Default)]
pub(super) struct Eye {
    camera: Option<Box<dyn Camera>>,
    shows: Shows,
}

/// What a screen shows of the camera.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
enum Shows {
    /// There is none, or nobody looks.
    #[default]
    Nothing,
    Dark,
    Unseen(NoSight),
    Picture(Mirrored),
}

/// What the codes of one frame come to.
enum Meant {
    /// One code, or several parts of a longer file.
    These(Vec<String>),
    /// Nobody can tell which one is meant.
    Several,
}

impl Kitchen {
    /// Names the camera of this device.
    pub fn give_camera(&mut self, camera: Box<dyn Camera>) {
        self.eye.camera = Some(camera);
        let now = self.clock.now();
        self.mind_camera(&now);
    }

    /// Whether the screen waits for a code.
    fn waits_for_code(&self) -> bool {
        self.telling.is_none()
            && match &self.site {
                Some(site) => site.waits_for_code(),
                None => self.place == Place::Receive && !self.receiving.asks(),
            }
    }

    /// Whether there is something to see that changes by itself.
    pub(super) fn is_looking(&self) -> bool {
        let site = self.site.as_ref();
        self.eye.shows != Shows::Nothing || site.is_some_and(Site::turns_by_itself)
    }

    pub(super) fn has_camera(&self) -> bool {
        let camera = self.eye.camera.as_ref();
        camera.is_some_and(|camera| camera.is_there())
    }

    /// Looks where a code is waited for, and lets the camera rest everywhere else.
    pub(super) fn mind_camera(&mut self, now: &Now) {
        let waits = self.waits_for_code();
        let Some(camera) = self.eye.camera.as_mut() else {
            return;
        };
        let (shows, codes) = match waits.then(|| camera.look()) {
            None | Some(Sight::Nothing) => (Shows::Nothing, Vec::new()),
            Some(Sight::Dark) => (Shows::Dark, Vec::new()),
            Some(Sight::Unseen(why)) => (Shows::Unseen(why), Vec::new()),
            Some(Sight::Seen { picture, codes }) => (Shows::Picture(picture), codes),
        };
        self.eye.shows = shows;
        for together in codes {
            self.take_codes(together, now);
        }
        if !self.waits_for_code()
            && let Some(camera) = self.eye.camera.as_mut()
        {
            camera.rest();
            self.eye.shows = Shows::Nothing;
        }
    }

    fn take_codes(&mut self, together: Vec<String>, now: &Now) {
        let texts = match meant(together) {
            Meant::These(texts) => texts,
            Meant::Several => return self.say_of_code("camera-several"),
        };
        for text in texts {
            if !self.waits_for_code() {
                return;
            }
            if self.site.is_some() {
                self.code_at_site(&text, now);
            } else {
                self.read_code(&text);
            }
        }
    }

    fn say_of_code(&mut self, said: &'static str) {
        match self.site.as_mut() {
            Some(site) => site.say(said),
            None => self.receiving.say(said),
        }
    }

    /// Puts the camera's picture on a screen that waits for a code, and the words that go with it in place of its own.
    pub(super) fn show_camera(&self, view: &mut StepView) {
        let words = &self.words;
        view.picture = Some(picture("show-code"));
        let fault = match &self.eye.shows {
            Shows::Nothing => return,
            Shows::Unseen(NoSight::Busy) => "camera-busy",
            Shows::Unseen(NoSight::Denied) => "camera-denied",
            Shows::Unseen(NoSight::Broken) => "camera-broken",
            Shows::Dark => {
                view.body = vec![words.say("camera-hold")];
                return;
            }
            Shows::Picture(seen) => {
                view.body = vec![words.say("camera-hold")];
                view.seen = Some(seen.clone());
                return;
            }
        };
        // What a code was is said first; the camera will still be busy afterwards.
        if view.note.is_none() {
            view.note = Some(Note::new(words.say(fault), String::new(), None));
        }
    }
}

/// Of our codes one alone is meant; other codes beside it, as on a package, are not.
fn meant(together: Vec<String>) -> Meant {
    let (mut ours, mut others): (Vec<String>, Vec<String>) = together
        .into_iter()
        .partition(|text| text.starts_with(MARK));
    let are_parts = || {
        let mut scans = ours.iter().map(|text| Scan::read(text));
        scans.all(|scan| matches!(scan, Scan::Part(_)))
    };
    match ours.len() {
        0 => {
            others.truncate(1);
            Meant::These(others)
        }
        1 => Meant::These(std::mem::take(&mut ours)),
        _ if are_parts() => Meant::These(ours),
        _ => Meant::Several,
    }
}
