//! Pictures of codes: opened as gray frames, and written.

use std::ffi::OsStr;
use std::fs;
use std::io::Cursor;
use std::path::Path;

use hearthdose_core::exchange::{self, CannotWrite, FRAME_VERSION};
use hearthdose_ui::scan::{self, Frame};
use image::codecs::png::PngEncoder;
use image::{DynamicImage, ExtendedColorType, ImageEncoder, ImageReader, Limits};

use crate::answer::{Reason, Stop};

/// Longest side that is opened; a telephone's camera makes less than half of it.
const LONGEST: u32 = 24_000;
/// Pixels to a module of one part of a file.
const PART_SCALE: usize = 4;
/// Memory for one picture, in bytes.
const MOST_MEMORY: u64 = 1 << 30;

/// Endings by which a name is meant as a picture, also when there is no such file.
const PICTURES: &[&str] = &["png", "jpg", "jpeg", "bmp", "pgm", "ppm", "pnm"];

/// Whether a file is called as pictures are.
pub fn is_named(path: &Path) -> bool {
    let ending = path.extension().and_then(OsStr::to_str).unwrap_or_default();
    PICTURES
        .iter()
        .any(|known| known.eq_ignore_ascii_case(ending))
}

/// Opens a picture (PNG, JPEG, BMP, PNM) in gray; what is transparent counts as white.
///
/// # Errors
/// A sentence: the file cannot be read, or is no picture.
pub fn open(path: &Path) -> Result<Frame, String> {
    let fail = |why: String| format!("cannot read {} as a picture: {why}", path.display());
    let mut reader = ImageReader::open(path)
        .and_then(ImageReader::with_guessed_format)
        .map_err(|error| fail(error.to_string()))?;
    let mut limits = Limits::default();
    limits.max_image_width = Some(LONGEST);
    limits.max_image_height = Some(LONGEST);
    limits.max_alloc = Some(MOST_MEMORY);
    reader.limits(limits);
    let image = reader.decode().map_err(|error| fail(error.to_string()))?;
    gray(image).ok_or_else(|| fail("it is empty".to_owned()))
}

fn gray(image: DynamicImage) -> Option<Frame> {
    let luma = if image.color().has_alpha() {
        let mut pixels = image.to_luma_alpha8();
        for pixel in pixels.pixels_mut() {
            let [gray, alpha] = pixel.0.map(u32::from);
            let over_white = (gray * alpha + 255 * (255 - alpha)) / 255;
            pixel.0 = [u8::try_from(over_white).unwrap_or(u8::MAX), 255];
        }
        DynamicImage::ImageLumaA8(pixels).into_luma8()
    } else {
        image.into_luma8()
    };
    let width = usize::try_from(luma.width()).ok()?;
    let height = usize::try_from(luma.height()).ok()?;
    Frame::new(width, height, luma.into_raw())
}

/// The bytes of a frame as a PNG file.
///
/// # Errors
/// A sentence.
pub fn png(frame: &Frame) -> Result<Vec<u8>, String> {
    let mut bytes = Cursor::new(Vec::new());
    let side = |pixels: usize| u32::try_from(pixels).map_err(|_| "too large a picture".to_owned());
    let (width, height) = (side(frame.width())?, side(frame.height())?);
    PngEncoder::new(&mut bytes)
        .write_image(frame.pixels(), width, height, ExtendedColorType::L8)
        .map_err(|error| error.to_string())?;
    Ok(bytes.into_inner())
}

/// Writes a file as numbered codes, a quarter more than are needed; gives their names.
///
/// # Errors
/// A file that is empty or too long for codes, and the disk's.
pub fn parts(folder: &Path, name: &str, bytes: &[u8]) -> Result<Vec<String>, Stop> {
    let too_long = || {
        let why = CannotWrite::TooLong;
        let text = format!("the file cannot be written as codes: {why}");
        Stop::refused(vec![Reason::new(why.code(), text)])
    };
    let needed = bytes.len().div_ceil(exchange::SYMBOL);
    let spare = u32::try_from(needed / 4 + 2).unwrap_or(2);
    let frames = exchange::frames(bytes, spare).map_err(|_| too_long())?;
    let mut written = Vec::new();
    for (at, frame) in frames.iter().enumerate() {
        let text = exchange::write_frame(frame).ok_or_else(too_long)?;
        let drawn = scan::drawn(&text, PART_SCALE, FRAME_VERSION).ok_or_else(too_long)?;
        let path = folder.join(format!("{name}-code-{:03}.png", at + 1));
        let cannot =
            |why: String| Stop::unusable(format!("cannot write {}: {why}", path.display()));
        let png = png(&drawn).map_err(cannot)?;
        fs::write(&path, png).map_err(|error| cannot(error.to_string()))?;
        written.push(path.display().to_string());
    }
    Ok(written)
}
