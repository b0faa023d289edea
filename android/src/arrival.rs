//! A file that another program shared: kept in the private folder, where orders, notices and codes are looked for.
//!
//! Its name and kind come from that program and are not believed further than for an ending.

use std::io;
use std::path::Path;

/// What came in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Arrival {
    /// It may be an order or a notice.
    Paper,
    /// It may show a code.
    Picture,
}

/// Where the program looks for papers and pictures.
const PLACE: &str = "orders";
const LONGEST_NAME: usize = 60;

/// Keeps the bytes under a name of our making.
///
/// # Errors
/// The folder cannot be written.
pub fn keep(
    folder: &Path,
    name: Option<&str>,
    kind: Option<&str>,
    bytes: &[u8],
) -> io::Result<Arrival> {
    let (arrival, ending) = sort(name, kind, bytes);
    let place = folder.join(PLACE);
    std::fs::create_dir_all(&place)?;
    let plain = plain(name.unwrap_or_default());
    let draft = place.join(format!("{plain}.part"));
    std::fs::write(&draft, bytes)?;
    std::fs::rename(&draft, place.join(format!("{plain}.{ending}")))?;
    Ok(arrival)
}

/// By the first bytes, then by what was said about it.
fn sort(name: Option<&str>, kind: Option<&str>, bytes: &[u8]) -> (Arrival, &'static str) {
    let said = |ending: &str| {
        kind == Some(&format!("image/{ending}"))
            || name.is_some_and(|name| name.to_ascii_lowercase().ends_with(&format!(".{ending}")))
    };
    if bytes.starts_with(b"\x89PNG") || said("png") {
        (Arrival::Picture, "png")
    } else if bytes.starts_with(b"\xff\xd8\xff") || said("jpeg") || said("jpg") {
        (Arrival::Picture, "jpg")
    } else {
        (Arrival::Paper, "toml")
    }
}

/// Letters, digits and hyphens of a name, without its folders and its ending.
fn plain(name: &str) -> String {
    let last = name.rsplit(['/', '\\', ':']).next().unwrap_or_default();
    let stem = last.rsplit_once('.').map_or(last, |(stem, _)| stem);
    let plain: String = stem
        .chars()
        .map(|letter| {
            if letter.is_ascii_alphanumeric() {
                letter
            } else {
                '-'
            }
        })
        .take(LONGEST_NAME)
        .collect();
    if plain.chars().any(|letter| letter != '-') {
        plain
    } else {
        "shared".to_owned()
    }
}

/// A factor as a whole number of percent, within what the screens are made for.
pub fn percent(factor: f32) -> u16 {
    (100..=200)
        .rev()
        .step_by(5)
        .find(|percent| f32::from(*percent) <= factor * 100.0 + 0.5)
        .unwrap_or(100)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_from_outside_leads_nowhere() {
        assert_eq!(plain("../../databases/household.sqlite"), "household");
        assert_eq!(plain("primary:Download/Order of May.toml"), "Order-of-May");
        assert_eq!(plain(".."), "shared");
        assert_eq!(plain(""), "shared");
        assert_eq!(plain(&"x".repeat(500)).len(), LONGEST_NAME);
    }

    #[test]
    fn bytes_are_believed_before_words() {
        assert_eq!(
            sort(Some("order.toml"), None, b"\x89PNG\r\n").0,
            Arrival::Picture
        );
        assert_eq!(
            sort(None, Some("image/jpeg"), b"?"),
            (Arrival::Picture, "jpg")
        );
        assert_eq!(
            sort(Some("a"), None, b"[medicine]"),
            (Arrival::Paper, "toml")
        );
    }

    #[test]
    fn what_is_shared_lies_where_it_is_looked_for() {
        let folder =
            std::env::temp_dir().join(format!("hearthdose-arrival-{}", std::process::id()));
        let kept = keep(&folder, Some("x/May.toml"), None, b"[medicine]");
        assert_eq!(kept.ok(), Some(Arrival::Paper));
        let there = std::fs::read(folder.join("orders/May.toml"));
        assert_eq!(there.ok().as_deref(), Some(&b"[medicine]"[..]));
        assert!(std::fs::remove_dir_all(folder).is_ok());
    }

    #[test]
    fn sizes_of_text_stay_within_the_screens() {
        for (factor, expected) in [(0.85, 100), (1.0, 100), (1.15, 115), (1.3, 130), (3.0, 200)] {
            assert_eq!(percent(factor), expected, "{factor}");
        }
        assert_eq!(percent(f32::NAN), 100);
    }
}
