//! A virtual display with a hand on its mouse and keyboard, and an eye for ochre.

use std::io::{BufRead, BufReader};
use std::process::{Child, Command, Stdio};
use std::sync::Mutex;
use std::time::{Duration, Instant};

use image::RgbImage;

/// The ground of the usual answer, as the theme has it.
const OCHRE: [u8; 3] = [0xE3, 0xA5, 0x30];
const INK: [u8; 3] = [0x2B, 0x21, 0x1A];

pub struct Display {
    server: Child,
    name: String,
    width: u32,
    height: u32,
}

/// A rectangle on the display, edges included.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Place {
    left: u32,
    right: u32,
    top: u32,
    bottom: u32,
}

impl Place {
    pub fn centre(self) -> (u32, u32) {
        (
            self.left.midpoint(self.right),
            self.top.midpoint(self.bottom),
        )
    }
}

impl Display {
    /// Starts a display of its own; the server picks the number.
    pub fn start(width: u32, height: u32) -> Display {
        // Two servers at a time may pick the same one, so they start one after the other, and each must answer.
        static ONE_AT_A_TIME: Mutex<()> = Mutex::new(());
        let _turn = ONE_AT_A_TIME
            .lock()
            .unwrap_or_else(std::sync::PoisonError::into_inner);
        for _ in 0..5 {
            let display = Display::try_start(width, height);
            let begun = Instant::now();
            while begun.elapsed() < Duration::from_secs(5) {
                if display.tool(&["getdisplaygeometry"]) == format!("{width} {height}") {
                    return display;
                }
                std::thread::sleep(Duration::from_millis(50));
            }
        }
        panic!("no display came up");
    }

    fn try_start(width: u32, height: u32) -> Display {
        let screen = format!("{width}x{height}x24");
        let mut server = Command::new("Xvfb")
            // Without -noreset it begins anew when its last client leaves, and meanwhile lets no window open.
            .args(["-displayfd", "1", "-nolisten", "tcp", "-noreset"])
            .args(["-screen", "0", &screen])
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("Xvfb starts");
        let mut number = String::new();
        BufReader::new(server.stdout.take().expect("its output"))
            .read_line(&mut number)
            .expect("a display number");
        Display {
            server,
            name: format!(":{}", number.trim()),
            width,
            height,
        }
    }

    pub fn name(&self) -> &str {
        &self.name
    }

    fn tool(&self, args: &[&str]) -> String {
        let done = Command::new("xdotool")
            .env("DISPLAY", &self.name)
            .args(args)
            .output()
            .expect("xdotool runs");
        String::from_utf8_lossy(&done.stdout).trim().to_owned()
    }

    /// Puts the window over the whole display, with the keyboard in it.
    pub fn place_window(&self) {
        let begun = Instant::now();
        let window = loop {
            let found = self.tool(&["search", "--onlyvisible", "--name", "Hearthdose"]);
            if let Some(window) = found.lines().next().filter(|line| !line.is_empty()) {
                break window.to_owned();
            }
            assert!(
                begun.elapsed() < Duration::from_secs(60),
                "no window came up"
            );
            std::thread::sleep(Duration::from_millis(100));
        };
        let (width, height) = (self.width.to_string(), self.height.to_string());
        self.tool(&["windowmove", &window, "0", "0"]);
        self.tool(&["windowsize", "--sync", &window, &width, &height]);
        self.tool(&["windowfocus", "--sync", &window]);
    }

    pub fn click(&self, (x, y): (u32, u32)) {
        self.tool(&["mousemove", &x.to_string(), &y.to_string(), "click", "1"]);
        // Out of the way, so that nothing is drawn as hovered.
        self.tool(&["mousemove", "1", "1"]);
    }

    pub fn key(&self, key: &str) {
        self.tool(&["key", key]);
    }

    /// Waits a little for something to happen.
    pub fn settle(&self, happened: impl Fn() -> bool) {
        let begun = Instant::now();
        while !happened() && begun.elapsed() < Duration::from_secs(3) {
            std::thread::sleep(Duration::from_millis(50));
        }
        std::thread::sleep(Duration::from_millis(250));
    }

    pub fn picture(&self) -> RgbImage {
        let done = Command::new("import")
            .args([
                "-display", &self.name, "-window", "root", "-depth", "8", "png:-",
            ])
            .output()
            .expect("import runs");
        image::load_from_memory_with_format(&done.stdout, image::ImageFormat::Png)
            .expect("a picture")
            .to_rgb8()
    }

    /// Where the usual answer stands: the largest ochre block wide enough for one.
    pub fn usual(&self) -> Option<Place> {
        usual_in(&self.picture())
    }

    pub fn wait_for_usual(&self) {
        let begun = Instant::now();
        while self.usual().is_none() {
            assert!(
                begun.elapsed() < Duration::from_secs(60),
                "nothing to press on the first screen"
            );
            std::thread::sleep(Duration::from_millis(200));
        }
    }

    /// Tabs until the focus ring stands around the usual answer.
    pub fn tab_to_usual(&self) -> bool {
        for _ in 0..24 {
            self.key("Tab");
            std::thread::sleep(Duration::from_millis(120));
            let picture = self.picture();
            let Some(place) = usual_in(&picture) else {
                return false;
            };
            if has_ring(&picture, place) {
                return true;
            }
        }
        false
    }
}

impl Drop for Display {
    fn drop(&mut self) {
        let _ = self.server.kill();
        let _ = self.server.wait();
    }
}

fn usual_in(picture: &RgbImage) -> Option<Place> {
    let least = picture.width() / 2;
    let mut best: Option<Place> = None;
    let mut open: Option<Place> = None;
    for y in 0..picture.height() {
        let ochre: Vec<u32> = (0..picture.width())
            .filter(|x| near(picture.get_pixel(*x, y).0, OCHRE))
            .collect();
        let row = ochre.first().copied().zip(ochre.last().copied());
        // Words and pictures stand on the ground, so a row counts by its ends and by a fair share of it.
        let fair = |left: u32, right: u32| {
            right - left >= least && ochre.len() * 3 >= usize::try_from(right - left).unwrap_or(0)
        };
        match (row, open) {
            (Some((left, right)), Some(place))
                if fair(left, right) && left.abs_diff(place.left) <= 12 =>
            {
                open = Some(Place {
                    bottom: y,
                    left: place.left.min(left),
                    right: place.right.max(right),
                    ..place
                });
            }
            (Some((left, right)), _) if fair(left, right) => {
                best = larger(best, open);
                open = Some(Place {
                    left,
                    right,
                    top: y,
                    bottom: y,
                });
            }
            _ => {
                best = larger(best, open);
                open = None;
            }
        }
    }
    larger(best, open).filter(|place| place.bottom - place.top >= 30)
}

fn larger(a: Option<Place>, b: Option<Place>) -> Option<Place> {
    let height = |place: Option<Place>| place.map_or(0, |p| p.bottom - p.top + 1);
    if height(b) > height(a) { b } else { a }
}

fn has_ring(picture: &RgbImage, place: Place) -> bool {
    let y = place.top.midpoint(place.bottom);
    let from = place.left.saturating_sub(10);
    (from..place.left.saturating_sub(5)).any(|x| near(picture.get_pixel(x, y).0, INK))
}

fn near(a: [u8; 3], b: [u8; 3]) -> bool {
    a.iter().zip(b).all(|(a, b)| a.abs_diff(b) < 12)
}
