//! A text as a QR code: black on white in every theme, with four modules of white around it.

use qrcode::{Color, EcLevel, QrCode};

const QUIET: usize = 4;

/// The code of `text` at level M, or nothing when it is too long for one code.
pub(super) fn picture(text: &str) -> Option<String> {
    let code = QrCode::with_error_correction_level(text, EcLevel::M).ok()?;
    let width = code.width();
    let side = width + 2 * QUIET;
    let mut path = String::new();
    for (at, color) in code.to_colors().iter().enumerate() {
        if *color == Color::Dark {
            let (x, y) = (at % width + QUIET, at / width + QUIET);
            path.push_str(&format!("M{x} {y}h1v1h-1Z"));
        }
    }
    Some(format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {side} {side}\" shape-rendering=\"crispEdges\"><path d=\"M0 0H{side}V{side}H0Z\" fill=\"#FFF\"/><path d=\"{path}\" fill=\"#000\"/></svg>"
    ))
}

/// Pixels of one module.
const MODULE: usize = 8;

/// The same code as a PNG file in shades of gray.
pub(super) fn png(text: &str) -> Option<Vec<u8>> {
    let code = QrCode::with_error_correction_level(text, EcLevel::M).ok()?;
    let width = code.width();
    let modules = code.to_colors();
    let side = (width + 2 * QUIET) * MODULE;
    let pixel = |at: usize| (at / MODULE).checked_sub(QUIET).filter(|at| *at < width);
    let shade = |y, x| match (pixel(y), pixel(x)) {
        (Some(y), Some(x)) if modules.get(y * width + x) == Some(&Color::Dark) => 0,
        _ => u8::MAX,
    };
    let line = |y| std::iter::once(0).chain((0..side).map(move |x| shade(y, x)));
    let lines: Vec<u8> = (0..side).flat_map(line).collect();
    let side = u32::try_from(side).ok()?.to_be_bytes();
    // Eight bits of gray; nothing filtered, nothing interlaced.
    let head = [&side[..], &side, &[8, 0, 0, 0, 0]].concat();
    let packed = miniz_oxide::deflate::compress_to_vec_zlib(&lines, 9);
    let chunks = [(b"IHDR", head), (b"IDAT", packed), (b"IEND", Vec::new())];
    let mut file = b"\x89PNG\r\n\x1a\n".to_vec();
    for (kind, data) in chunks {
        file.extend(u32::try_from(data.len()).ok()?.to_be_bytes());
        let body = [&kind[..], &data].concat();
        file.extend(&body);
        file.extend(crc(&body).to_be_bytes());
    }
    Some(file)
}

/// The check of a PNG's chunk (ISO 3309).
fn crc(bytes: &[u8]) -> u32 {
    let step = |crc: u32| (crc >> 1) ^ (0xEDB8_8320 * (crc & 1));
    let byte = |crc: u32, byte: &u8| (0..8).fold(crc ^ u32::from(*byte), |crc, _| step(crc));
    !bytes.iter().fold(u32::MAX, byte)
}

#[cfg(test)]
mod tests {
    use super::{crc, picture, png};

    #[test]
    fn a_short_text_is_a_square_with_a_quiet_zone() {
        let svg = picture("QUILLMERE").unwrap_or_default();
        // Version 1 has 21 modules (ISO/IEC 18004).
        assert!(svg.contains("viewBox=\"0 0 29 29\""), "{svg}");
        // The finder pattern begins where the quiet zone ends.
        assert!(svg.contains("M4 4h1v1h-1Z"));
        assert!(!svg.contains("M3 "));
    }

    #[test]
    fn too_long_a_text_is_no_code() {
        assert!(picture(&"A".repeat(4000)).is_none());
        assert!(png(&"A".repeat(4000)).is_none());
    }

    #[test]
    fn the_check_is_the_one_of_the_standard() {
        // The check value of CRC-32 in every catalogue.
        assert_eq!(crc(b"123456789"), 0xCBF4_3926);
    }
}
