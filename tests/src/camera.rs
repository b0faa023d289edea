//! Cameras that are none: one that shows a still, and one that plays frames.

use std::sync::{Arc, Mutex, PoisonError};
use std::time::Duration;

use hearthdose_ui::machine::viewfinder::{Lens, Lenses};
use hearthdose_ui::scan::{Frame, drawn};
use hearthdose_ui::vm::ports::{Camera, Mirrored, NoSight, Sight};

/// The side of a film's frames, in pixels.
pub const WIDTH: usize = 640;
pub const HEIGHT: usize = 360;

/// Shows the same whenever it is looked through.
pub struct Still(pub Sight);

impl Still {
    /// A hand-held code in an evening kitchen, as far as gray areas can show one.
    pub fn of_a_code(text: &str) -> Still {
        let frame = before_camera(&[text]);
        let small = frame.smaller(2).expect("a frame in half its size");
        Still(Sight::Seen {
            picture: Mirrored {
                width: u32::try_from(small.width()).expect("a width"),
                height: u32::try_from(small.height()).expect("a height"),
                pixels: small.pixels().into(),
            },
            codes: Vec::new(),
        })
    }
}

impl Camera for Still {
    fn is_there(&self) -> bool {
        true
    }

    fn look(&mut self) -> Sight {
        self.0.clone()
    }

    fn rest(&mut self) {}
}

/// What a played camera is to show from now on.
#[derive(Clone)]
pub enum Scene {
    NoCamera,
    Refused(NoSight),
    Frame(Frame),
    /// Takes this long for a frame in which nothing is.
    Slow(Duration),
}

/// A camera that plays what it is told to; clones are the same camera.
#[derive(Clone)]
pub struct Film(Arc<Mutex<Shooting>>);

struct Shooting {
    scene: Scene,
    frames: u32,
    on: u32,
}

impl Film {
    pub fn showing(scene: Scene) -> Film {
        Film(Arc::new(Mutex::new(Shooting {
            scene,
            frames: 0,
            on: 0,
        })))
    }

    pub fn show(&self, scene: Scene) {
        self.with(|film| film.scene = scene);
    }

    /// Frames that were given so far.
    pub fn frames(&self) -> u32 {
        self.with(|film| film.frames)
    }

    /// Whether a lens is open.
    pub fn is_on(&self) -> bool {
        self.with(|film| film.on > 0)
    }

    fn with<T>(&self, look: impl FnOnce(&mut Shooting) -> T) -> T {
        look(&mut self.0.lock().unwrap_or_else(PoisonError::into_inner))
    }
}

impl Lenses for Film {
    fn are_there(&self) -> bool {
        self.with(|film| !matches!(film.scene, Scene::NoCamera))
    }

    fn open(&self) -> Result<Box<dyn Lens>, NoSight> {
        self.with(|film| match film.scene {
            Scene::Refused(why) => Err(why),
            _ => {
                film.on += 1;
                assert_eq!(film.on, 1, "one camera is opened once at a time");
                Ok(Box::new(Open(self.clone())) as Box<dyn Lens>)
            }
        })
    }
}

struct Open(Film);

impl Lens for Open {
    fn frame(&mut self) -> Result<Option<Frame>, NoSight> {
        let scene = self.0.with(|film| {
            film.frames += 1;
            film.scene.clone()
        });
        // A thirtieth of a second, as cameras do.
        std::thread::sleep(Duration::from_millis(33));
        match scene {
            Scene::Frame(frame) => Ok(Some(frame)),
            Scene::Slow(length) => {
                std::thread::sleep(length);
                Ok(None)
            }
            Scene::Refused(why) => Err(why),
            Scene::NoCamera => Err(NoSight::Broken),
        }
    }
}

impl Drop for Open {
    fn drop(&mut self) {
        self.0.with(|film| film.on -= 1);
    }
}

/// Codes on white paper side by side, in a gray room.
pub fn before_camera(texts: &[&str]) -> Frame {
    let mut pixels: Vec<u8> = vec![110; WIDTH * HEIGHT];
    let room = WIDTH / texts.len().max(1);
    for (at, text) in texts.iter().enumerate() {
        let plain = drawn(text, 1, 1).expect("a text that fits a code");
        let scale = ((room - 20).min(HEIGHT - 20)) / plain.width();
        let code = drawn(text, scale.max(1), 1).expect("the same text");
        let left = at * room + (room - code.width()) / 2;
        let top = (HEIGHT - code.height()) / 2;
        for (row, line) in code.pixels().chunks(code.width()).enumerate() {
            let start = (top + row) * WIDTH + left;
            for (place, pixel) in pixels[start..].iter_mut().zip(line) {
                *place = 25 + pixel / 5 * 4;
            }
        }
    }
    Frame::new(WIDTH, HEIGHT, pixels).expect("as many pixels as the frame has")
}

/// The same with a thumb over this much of the picture, from the left, in percent.
pub fn covered(frame: &Frame, percent: usize) -> Frame {
    let hidden = frame.width() * percent / 100;
    let mut pixels = frame.pixels().to_vec();
    for row in pixels.chunks_mut(frame.width()) {
        row[..hidden].fill(90);
    }
    Frame::new(frame.width(), frame.height(), pixels).expect("the same size")
}
