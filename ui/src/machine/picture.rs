//! Pictures of codes: opened as gray frames, and written.

use std::ffi::OsStr;
use std::io::Cursor;
use std::path::Path;

use image::codecs::png::PngEncoder;
use image::{DynamicImage, ExtendedColorType, ImageEncoder, ImageFormat, ImageReader, Limits};

use crate::scan::Frame;

/// Longest side that is opened; a telephone's camera makes less than half of it.
const LONGEST: u32 = 24_000;
/// Longest side of a frame from a live camera.
const CAMERA: u32 = 8_000;
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

/// A JPEG picture in gray, as cameras send them; none when it is damaged or larger than a camera's.
pub fn of_jpeg(bytes: &[u8]) -> Option<Frame> {
    let mut reader = ImageReader::with_format(Cursor::new(bytes), ImageFormat::Jpeg);
    let mut limits = Limits::default();
    limits.max_image_width = Some(CAMERA);
    limits.max_image_height = Some(CAMERA);
    reader.limits(limits);
    gray(reader.decode().ok()?)
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
