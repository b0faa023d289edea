//! The cameras of a Linux machine: gray frames out of Video4Linux, newest first.

mod luma;

use std::io;
use std::path::PathBuf;
use std::thread::sleep;
use std::time::{Duration, Instant};

use hearthdose_ui::machine::picture;
use hearthdose_ui::machine::viewfinder::{Lens, Lenses};
use hearthdose_ui::scan::Frame;
use hearthdose_ui::vm::ports::NoSight;
use linuxvideo::format::{PixFormat, PixelFormat};
use linuxvideo::stream::ReadStream;
use linuxvideo::{BufType, CapabilityFlags, Device};

/// What is asked of a camera; it may give another size.
const SIZE: (u32, u32) = (1280, 720);
const WAIT: Duration = Duration::from_millis(200);
const PAUSE: Duration = Duration::from_millis(5);
/// Frames that may wait in a camera; more means that it is faster than we look.
const STALE: usize = 4;

/// The cameras under `/dev`.
pub struct Cameras;

impl Lenses for Cameras {
    fn are_there(&self) -> bool {
        !paths().is_empty()
    }

    /// The first that gives pictures; one that is merely no camera, as a second device of the same camera, is passed over.
    fn open(&self) -> Result<Box<dyn Lens>, NoSight> {
        let mut why = NoSight::Broken;
        for path in paths() {
            match V4l::open(path) {
                Ok(lens) => return Ok(Box::new(lens)),
                Err(error) => why = reason(&error).unwrap_or(why),
            }
        }
        Err(why)
    }
}

fn paths() -> Vec<PathBuf> {
    let entries = std::fs::read_dir("/dev").into_iter().flatten().flatten();
    let mut found: Vec<PathBuf> = entries
        .filter(|entry| entry.file_name().to_string_lossy().starts_with("video"))
        .map(|entry| entry.path())
        .collect();
    found.sort();
    found
}

/// Why a camera refuses; none where it is no camera at all.
fn reason(error: &io::Error) -> Option<NoSight> {
    match error.kind() {
        io::ErrorKind::ResourceBusy => Some(NoSight::Busy),
        io::ErrorKind::PermissionDenied => Some(NoSight::Denied),
        _ => None,
    }
}

/// How the bytes of a frame are to be read.
#[derive(Clone, Copy)]
enum Spelling {
    /// A gray byte before each byte of colour; so many bytes to a line.
    Yuyv(usize),
    Jpeg,
}

/// One camera that is on.
struct V4l {
    stream: ReadStream,
    spelling: Spelling,
    width: usize,
    height: usize,
}

impl V4l {
    fn open(path: PathBuf) -> io::Result<V4l> {
        let device = Device::open(path)?;
        let can = device.capabilities()?.device_capabilities();
        if !can.contains(CapabilityFlags::VIDEO_CAPTURE | CapabilityFlags::STREAMING) {
            return Err(io::ErrorKind::Unsupported.into());
        }
        let offered: Vec<PixelFormat> = device
            .formats(BufType::VIDEO_CAPTURE)
            .filter_map(|format| Some(format.ok()?.pixel_format()))
            .collect();
        // Grays as the sensor saw them come first: a code suffers from what JPEG leaves out.
        let wanted = [PixelFormat::YUYV, PixelFormat::MJPG, PixelFormat::JPEG]
            .into_iter()
            .find(|format| offered.contains(format))
            .ok_or(io::ErrorKind::Unsupported)?;
        let capture = device.video_capture(PixFormat::new(SIZE.0, SIZE.1, wanted))?;
        let format = capture.format();
        let whole = |number: u32| usize::try_from(number).map_err(io::Error::other);
        let (width, height) = (whole(format.width())?, whole(format.height())?);
        let given = format.pixel_format();
        let spelling = if given == PixelFormat::YUYV {
            Spelling::Yuyv(whole(format.bytes_per_line())?)
        } else if given == PixelFormat::MJPG || given == PixelFormat::JPEG {
            Spelling::Jpeg
        } else {
            return Err(io::ErrorKind::Unsupported.into());
        };
        Ok(V4l {
            stream: capture.into_stream()?,
            spelling,
            width,
            height,
        })
    }

    fn newest(&mut self) -> io::Result<Option<Frame>> {
        let begun = Instant::now();
        while self.stream.will_block()? {
            if begun.elapsed() > WAIT {
                return Ok(None);
            }
            sleep(PAUSE);
        }
        let mut bytes = Vec::new();
        for _ in 0..STALE {
            bytes = self.stream.dequeue(|view| {
                let whole = !view.is_error();
                Ok(if whole { view.to_vec() } else { Vec::new() })
            })?;
            if self.stream.will_block()? {
                break;
            }
        }
        Ok(match self.spelling {
            Spelling::Yuyv(line) => luma::of_yuyv(&bytes, self.width, self.height, line),
            Spelling::Jpeg => picture::of_jpeg(&bytes),
        })
    }
}

impl Lens for V4l {
    fn frame(&mut self) -> Result<Option<Frame>, NoSight> {
        self.newest()
            .map_err(|error| reason(&error).unwrap_or(NoSight::Broken))
    }
}
