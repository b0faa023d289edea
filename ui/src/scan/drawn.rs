//! A text as a QR code in a frame: level M, four modules of white around it.

use qrcode::{Color, EcLevel, QrCode, Version};

use super::frame::Frame;

const QUIET: usize = 4;

/// The code of a text, `scale` pixels to a module; of version `at_least` or larger, so that a row of codes has one size.
///
/// None when the text is too long for one code, or there would be nothing to see.
pub fn drawn(text: &str, scale: usize, at_least: i16) -> Option<Frame> {
    let code = code(text, at_least)?;
    let width = code.width();
    let side = (width + 2 * QUIET)
        .checked_mul(scale)
        .filter(|side| *side > 0)?;
    let colors = code.to_colors();
    let mut pixels = vec![u8::MAX; side.checked_mul(side)?];
    for (at, color) in colors.iter().enumerate() {
        if *color != Color::Dark {
            continue;
        }
        let (left, top) = ((at % width + QUIET) * scale, (at / width + QUIET) * scale);
        for row in pixels.chunks_mut(side).skip(top).take(scale) {
            row[left..left + scale].fill(0);
        }
    }
    Frame::new(side, side, pixels)
}

/// The version (1 to 40) that a text needs at level M.
pub fn drawn_version(text: &str) -> Option<i16> {
    match code(text, 1)?.version() {
        Version::Normal(version) => Some(version),
        Version::Micro(_) => None,
    }
}

fn code(text: &str, at_least: i16) -> Option<QrCode> {
    let code = QrCode::with_error_correction_level(text, EcLevel::M).ok()?;
    match code.version() {
        Version::Normal(version) if version < at_least => {
            QrCode::with_version(text, Version::Normal(at_least), EcLevel::M).ok()
        }
        _ => Some(code),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_code_has_its_quiet_zone_and_scale() {
        // Version 1 has 21 modules (ISO/IEC 18004).
        let frame = drawn("QUILLMERE", 3, 1).unwrap();
        assert_eq!((frame.width(), frame.height()), (29 * 3, 29 * 3));
        let pixel = |x: usize, y: usize| frame.pixels()[y * frame.width() + x];
        assert_eq!((pixel(11, 11), pixel(12, 11), pixel(12, 12)), (255, 255, 0));
        assert_eq!(drawn("QUILLMERE", 0, 1), None);
    }

    #[test]
    fn versions_follow_the_published_rooms() {
        // Alphanumeric at level M, ISO/IEC 18004: version 1 holds 20, version 10 holds 311.
        assert_eq!(drawn_version(&"A".repeat(20)), Some(1));
        assert_eq!(drawn_version(&"A".repeat(21)), Some(2));
        assert_eq!(drawn_version(&"A".repeat(311)), Some(10));
        assert_eq!(drawn_version(&"A".repeat(312)), Some(11));
        assert_eq!(drawn_version(&"A".repeat(4000)), None);
        let frame = drawn("A", 1, 20).unwrap();
        assert_eq!(frame.width(), 97 + 8);
    }
}
