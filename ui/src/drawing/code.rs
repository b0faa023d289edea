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

#[cfg(test)]
mod tests {
    use super::picture;

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
    }
}
